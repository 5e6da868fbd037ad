"""Every command in README.md and in the pages for people runs, and prints what is shown below it.

A block of ``sh`` with curl in it is a command; the block right below it is its output. The blocks of one text run from
top to bottom in one folder, as a reader would run them. ``tests/write-outputs`` rewrites the outputs
instead of comparing them.
"""

import math
import os
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack
from hashlib import sha256
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PAGES = ROOT / "service" / "pages"
TEXTS = (ROOT / "README.md", *sorted(PAGES.glob("*.md")))
WRITE = "WRITE_OUTPUTS" in os.environ

EXAMPLE = re.compile(
    r"^```sh\n(?P<command>.*?)^```\n\n(?:(?P<open>```\w+\n)(?P<shown>.*?)^```$)?", re.MULTILINE | re.DOTALL
)
NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")
PICTURE = re.compile(r"!\[[^\]]+\]\(([\w.-]+\.svg)\)")

KEY = "an-example-key-that-nobody-should-use"
SERVICES = {
    8080: {},
    8081: {"API_KEYS": f"example:{sha256(KEY.encode()).hexdigest()}"},
    8082: {"RATE_LIMIT": "2/3600"},
}
"""What the service behind each port of the texts was started with."""

Server = tuple[str, int]
StartServer = Callable[..., AbstractContextManager[Server]]


@pytest.fixture(scope="module")
def ports(server: Server, start_server: StartServer) -> Iterator[dict[int, int]]:
    """The port that stands for each of `SERVICES`."""
    with ExitStack() as stack:
        yield {
            shown: stack.enter_context(start_server(**settings))[1] if settings else server[1]
            for shown, settings in SERVICES.items()
        }


def run(command: str, ports: dict[int, int], folder: Path) -> str:
    """Run one command in bash, word for word but for the port; what it printed."""
    for shown, port in ports.items():
        command = command.replace(f"http://127.0.0.1:{shown}", f"http://127.0.0.1:{port}")
    ran = subprocess.run(
        ["bash", "-euo", "pipefail", "-c", command],
        cwd=folder,
        env={**os.environ, "no_proxy": "*", "LC_ALL": "C.UTF-8"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, f"{command}\n{ran.stderr}"
    return ran.stdout


def short(text: str) -> str:
    """The same text, numbers to nine digits, lines without a blank at their end: how an output is shown."""

    def shortened(found: re.Match[str]) -> str:
        number = found[0]
        return f"{float(number):.9g}" if len(number) > 10 and "." in number else number

    return "".join(line.rstrip() + "\n" for line in NUMBER.sub(shortened, text).splitlines())


def is_shown(shown: str, printed: str) -> bool:
    """Whether two texts are the same, numbers to eight digits: the last ones differ between processors."""
    numbers = [[float(number) for number in NUMBER.findall(text)] for text in (shown, printed)]
    return (
        NUMBER.sub("0", shown).split() == NUMBER.sub("0", printed).split()
        and len(numbers[0]) == len(numbers[1])
        and all(math.isclose(one, other, rel_tol=1e-8, abs_tol=1e-12) for one, other in zip(*numbers, strict=True))
    )


def examples(text: str) -> list[re.Match[str]]:
    return [found for found in EXAMPLE.finditer(text) if "curl " in found["command"]]


@pytest.mark.parametrize("text", TEXTS, ids=lambda path: path.stem)
def test_commands_print_what_is_shown(text: Path, ports: dict[int, int], tmp_path: Path) -> None:
    if not shutil.which("jq"):
        pytest.skip("no jq on this machine")
    for name in ("deploy", "openapi"):
        (tmp_path / name).symlink_to(ROOT / name)
    words = text.read_text()
    wrong = []
    for example in examples(words):
        printed = run(example["command"], ports, tmp_path)
        if WRITE:
            assert example["open"], f"no block for the output of\n{example['command']}"
            words = words.replace(
                example[0], example[0].removesuffix(f"{example['shown']}```") + short(printed) + "```"
            )
        elif not is_shown(example["shown"] or "", printed):
            wrong.append(f"{example['command']}shows\n{example['shown']}printed\n{printed}")
    for picture in PICTURE.findall(words):
        drawn = (tmp_path / picture).read_text()
        if WRITE:
            (PAGES / picture).write_text(drawn)
        elif not is_shown((PAGES / picture).read_text(), drawn):
            wrong.append(f"{picture} is not what is drawn")
    if WRITE:
        text.write_text(words)
    assert not wrong, "\n\n".join(wrong)


@pytest.mark.parametrize("text", TEXTS, ids=lambda path: path.stem)
def test_every_command_has_its_output_below(text: Path) -> None:
    words = text.read_text()
    assert examples(words)
    for example in examples(words):
        assert (example["shown"] or "").strip(), example["command"]
    for block in re.findall(r"^```(\w*)\n(.*?)^```$", words, re.MULTILINE | re.DOTALL):
        assert block[0] in ("sh", "json", "text", "console", "python"), block
        assert "curl " not in block[1] or block[0] == "sh", "a command that is never run"


def test_another_number_or_word_is_told() -> None:
    """The comparison finds what it is for."""
    shown = '{"value": 45.6795639, "unit": "gal"} 200'
    assert is_shown(shown, '{"value":45.67956392021763,"unit":"gal"} 200'.replace(":", ": ").replace(",", ", "))
    assert not is_shown(shown, shown.replace("45.67956", "45.67957"))
    assert not is_shown(shown, shown.replace("gal", "L"))
    assert not is_shown(shown, shown.replace("200", "201"))
    assert not is_shown(shown, f"{shown} 200")
    assert short("45.67956392021763 0.1 7 307.2.2.1 ") == "45.6795639 0.1 7 307.2.2.1\n"
