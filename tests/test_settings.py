"""The settings are read from the environment once, and every fault of theirs is named at once."""

import hashlib
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from service.settings import SERVICE_VERSION, Key, Rate, Settings, SettingsFault, read_settings

ROOT = Path(__file__).parents[1]
DIGEST = hashlib.sha256(b"a key for the test of 32 characters").hexdigest()


def test_an_empty_environment_is_safe() -> None:
    settings = read_settings({})
    assert settings.bind == "127.0.0.1:8080"
    assert (settings.keys, settings.allow_open, settings.rate_limit) == ((), False, None)
    assert 1 <= settings.workers <= 8
    assert settings == read_settings({"BIND": "", "API_KEYS": " ", "METRICS": ""})


def test_every_setting_is_read() -> None:
    assert read_settings(
        {
            "BIND": "0.0.0.0:80",
            "WEB_CONCURRENCY": "3",
            "THREADS": "5",
            "FORWARDED_ALLOW_IPS": "10.0.0.0/8",
            "API_KEYS": f"dispatch:{DIGEST}",
            "ALLOW_OPEN": "Yes",
            "RATE_LIMIT": "600/60",
            "CONCURRENCY_LIMIT": "4",
            "LOG_LEVEL": "WARNING",
            "LOG_FORMAT": "text",
            "REQUEST_IDS": "0",
            "METRICS": "off",
            "TELEMETRY": "on",
            "DRAIN_SECONDS": "7",
            "REVISION": "1.2.3+abc",
        }
    ) == Settings(
        bind="0.0.0.0:80",
        workers=3,
        threads=5,
        forwarded_allow_ips="10.0.0.0/8",
        keys=(Key("dispatch", bytes.fromhex(DIGEST)),),
        allow_open=True,
        rate_limit=Rate(600, 60),
        concurrency_limit=4,
        log_level="warning",
        log_format="text",
        request_ids=False,
        metrics=False,
        telemetry=True,
        drain_seconds=7,
        revision="1.2.3+abc",
    )


FAULTS = {
    "BIND": ("127.0.0.1:80,0.0.0.0:80", "unix:/a,0.0.0.0:80", "8080", "here:0", "a:b:1", ":99999"),
    "WEB_CONCURRENCY": ("0", "65", "two", "-1", "1.5", "9" * 5000),
    "THREADS": ("0",),
    "FORWARDED_ALLOW_IPS": ("everyone",),
    "API_KEYS": ("secret", f"Name:{DIGEST}", f"a:{DIGEST[:-1]}", f"a:{DIGEST},a:{DIGEST}"),
    "API_KEYS_FILE": ("/nonexistent", "/", "/dev/null"),
    "ALLOW_OPEN": ("maybe",),
    "RATE_LIMIT": ("600", "0/60", "1/0", "a/b", "-1/60"),
    "CONCURRENCY_LIMIT": ("5", "-1"),  # of 4 threads
    "LOG_LEVEL": ("loud",),
    "LOG_FORMAT": ("xml",),
    "REQUEST_IDS": ("x",),
    "METRICS": ("x",),
    "TELEMETRY": ("x",),
    "DRAIN_SECONDS": ("21",),
    "REVISION": ("a b", "<script>", "x" * 65),
}


@pytest.mark.parametrize(("name", "value"), [(name, value) for name, values in FAULTS.items() for value in values])
def test_a_fault_is_named(name: str, value: str) -> None:
    with pytest.raises(SettingsFault) as caught:
        read_settings({name: value})
    assert len(caught.value.faults) == 1
    assert caught.value.faults[0].startswith(name)


def test_all_faults_are_named_at_once() -> None:
    with pytest.raises(SettingsFault) as caught:
        read_settings({name: values[0] for name, values in FAULTS.items()})
    text = str(caught.value)
    assert len(caught.value.faults) == len(FAULTS)
    for name in FAULTS:
        assert f"\n  {name}" in text


def test_a_key_in_clear_is_not_repeated() -> None:
    with pytest.raises(SettingsFault) as caught:
        read_settings({"API_KEYS": "my-secret-password"})
    assert "my-secret-password" not in str(caught.value)
    assert DIGEST not in repr(read_settings({"API_KEYS": f"dispatch:{DIGEST}"}))


def test_keys_come_from_variable_and_file_and_may_share_a_name(tmp_path: Path) -> None:
    other, third = (hashlib.sha256(word).hexdigest() for word in (b"2", b"3"))
    file = tmp_path / "keys"
    file.write_text(f"# until the end of the month\ndispatch:{other}\n\nbilling:{third}  # since May\n")
    keys = read_settings({"API_KEYS": f"dispatch:{DIGEST}", "API_KEYS_FILE": str(file)}).keys
    assert [(key.name, key.digest.hex()) for key in keys] == [
        ("dispatch", DIGEST),
        ("dispatch", other),
        ("billing", third),
    ]


def test_the_shell_line_in_the_readme_makes_a_key() -> None:
    line = re.search(r"^key=.*$", (ROOT / "README.md").read_text(), re.MULTILINE)
    assert line
    made = subprocess.run(["sh", "-c", line[0]], capture_output=True, text=True, check=True).stdout.splitlines()
    shown, entry = made[0].split()[-1], made[1]
    assert len(shown) == 64
    assert read_settings({"API_KEYS": entry}).keys == (Key("dispatch", hashlib.sha256(shown.encode()).digest()),)


def test_the_readme_names_every_setting() -> None:
    table = (ROOT / "README.md").read_text().partition("## In a container")[2]
    assert set(re.findall(r"^\| `([A-Z_]+)` \|", table, re.MULTILINE)) == set(FAULTS)


def test_the_version_is_the_one_of_the_package() -> None:
    assert f'\nversion = "{SERVICE_VERSION}"\n' in (ROOT / "pyproject.toml").read_text()


def test_the_command_tells_what_is_wrong() -> None:
    command = [sys.executable, "-m", "service.settings"]
    environment = {"PATH": os.environ["PATH"]}
    good = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
    assert (good.returncode, good.stderr) == (0, "")
    assert "bind = '127.0.0.1:8080'" in good.stdout
    bad = subprocess.run(
        command, cwd=ROOT, env={**environment, "METRICS": "x", "BIND": "y"}, capture_output=True, text=True, check=False
    )
    assert (bad.returncode, bad.stdout) == (1, "")
    assert re.fullmatch(r".*\n  BIND .*\n  METRICS .*\n", bad.stderr)
