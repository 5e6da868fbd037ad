"""Settings, read once from the environment and frozen; every fault of theirs is named at once.

``python -m service.settings`` tells whether the environment it is run in would do.
"""

import functools
import os
import re
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import TypeVar

SERVICE_VERSION = "0.1.0"
"""Version of the code, as in ``pyproject.toml``; the contract has its own."""

MOST_WORKERS = 64
MOST_KEYS = 100
GRACE_SECONDS = 25
"""From the request to stop until what is still running is cut off: an orchestrator kills after 30."""

_WORDS = {"on": True, "1": True, "true": True, "yes": True, "off": False, "0": False, "false": False, "no": False}
_LEVELS = ("debug", "info", "warning", "error", "critical")
_ADDRESS = re.compile(r"(unix:/[^,]+|(\[[0-9A-Fa-f:.]+\]|[^\s:,\[\]]*):([0-9]{1,5}))")
_KEY = re.compile(r"([a-z0-9][a-z0-9-]{0,31}):([0-9a-f]{64})")
_RATE = re.compile(r"([1-9][0-9]{0,6})/([1-9][0-9]{0,4})")

_Value = TypeVar("_Value")


class SettingsFault(ValueError):
    """The environment does not say what it should; the message has a line for each fault.

    Parameters
    ----------
    faults : sequence of str
        One sentence for each, beginning with the name of the setting.
    """

    def __init__(self, faults: list[str]) -> None:
        super().__init__("\n".join(["The settings have faults:", *(f"  {fault}" for fault in faults)]))
        self.faults = tuple(faults)


@dataclass(frozen=True, slots=True)
class Key:
    """A key a caller may show, of which only the digest is known here.

    Parameters
    ----------
    name : str
        Stands in logs for whoever holds the key; two keys may share a name while one replaces the other.
    digest : bytes
        SHA-256 of the key.
    """

    name: str
    digest: bytes = field(repr=False)


@dataclass(frozen=True, slots=True)
class Rate:
    """How often one caller may ask one worker.

    Parameters
    ----------
    quota : int
        Requests at once, and in each window.
    window : int
        Time in which the whole quota comes back [s].
    """

    quota: int
    window: int


@dataclass(frozen=True, slots=True)
class Settings:
    """What a deployment may choose. README.md has the names in the environment.

    Parameters
    ----------
    testing : bool
        Let a fault of ours propagate out of the application instead of becoming a 500.
    bind : str
        Address and port, or ``unix:`` and a path.
    workers, threads : int
        Processes, and threads of each.
    forwarded_allow_ips : str
        Proxies whose forwarding header fields are believed.
    keys : tuple of Key
        Keys that open the service; none: it asks for no key.
    allow_open : bool
        Listen beyond loopback without keys.
    rate_limit : Rate or None
        Of each caller, in each worker.
    concurrency_limit : int
        Most calculations at once in a worker; 0: as many as there are threads.
    log_level, log_format : str
        From which level on, and as ``json`` or ``text``.
    request_ids, metrics, telemetry : bool
        Number requests, count them for ``/metrics``, send spans with OpenTelemetry.
    drain_seconds : int
        How long the service goes on answering after it was asked to stop, while ``/readyz`` says no [s].
    revision : str
        Which build this is, for ``/livez``.
    """

    testing: bool = False
    bind: str = "127.0.0.1:8080"
    workers: int = 1
    threads: int = 4
    forwarded_allow_ips: str = "127.0.0.1,::1"
    keys: tuple[Key, ...] = ()
    allow_open: bool = False
    rate_limit: Rate | None = None
    concurrency_limit: int = 0
    log_level: str = "info"
    log_format: str = "json"
    request_ids: bool = True
    metrics: bool = True
    telemetry: bool = False
    drain_seconds: int = 0
    revision: str = ""


class _Reader:
    """Reads variables one by one and keeps what is wrong with them."""

    def __init__(self, environment: Mapping[str, str]) -> None:
        self._environment = environment
        self.faults: list[str] = []

    def _read(self, name: str, default: _Value, convert: Callable[[str], _Value | None], allowed: str) -> _Value:
        text = self._environment.get(name, "").strip()
        if not text:
            return default
        value = convert(text)
        if value is None:
            self.faults.append(f"{name} is {text[:60]!r}; allowed: {allowed}.")
            return default
        return value

    def number(self, name: str, default: int, low: int, high: int) -> int:
        def convert(text: str) -> int | None:
            return int(text) if re.fullmatch("[0-9]{1,9}", text) and low <= int(text) <= high else None

        return self._read(name, default, convert, f"a whole number from {low} to {high}")

    def switch(self, name: str, default: bool) -> bool:
        return self._read(name, default, lambda text: _WORDS.get(text.lower()), "on or off")

    def choice(self, name: str, default: str, allowed: tuple[str, ...]) -> str:
        def convert(text: str) -> str | None:
            return text.lower() if text.lower() in allowed else None

        return self._read(name, default, convert, ", ".join(allowed))

    def text(self, name: str, default: str, pattern: str, allowed: str) -> str:
        return self._read(name, default, lambda text: text if re.fullmatch(pattern, text) else None, allowed)

    def address(self, name: str, default: str) -> str:
        def convert(text: str) -> str | None:
            found = _ADDRESS.fullmatch(text)
            return text if found and (found[3] is None or 1 <= int(found[3]) <= 65535) else None

        return self._read(name, default, convert, "an address and a port, such as 127.0.0.1:8080, or unix:/path")

    def rate(self, name: str) -> Rate | None:
        def convert(text: str) -> Rate | None:
            found = _RATE.fullmatch(text)
            return Rate(int(found[1]), int(found[2])) if found else None

        return self._read(name, None, convert, "requests/seconds, such as 600/60")

    def keys(self, name: str) -> tuple[Key, ...]:
        """Keys out of a variable, and out of the file that the variable with ``_FILE`` names."""
        keys = self._keys_in(self._environment.get(name, ""), name)
        path = self._environment.get(f"{name}_FILE", "").strip()
        if path:
            try:
                text = Path(path).read_text(encoding="ascii")
            except (OSError, ValueError) as fault:
                reason = fault.strerror if isinstance(fault, OSError) else "it is not plain ASCII text"
                self.faults.append(f"{name}_FILE: {path!r} cannot be read: {reason}.")
                return keys
            read = self._keys_in(re.sub("#.*", "", text), f"{name}_FILE")
            if not read:
                self.faults.append(f"{name}_FILE: {path!r} holds no key.")
            keys += read
        if len(keys) > MOST_KEYS:
            self.faults.append(f"{name} has {len(keys)} keys; at most {MOST_KEYS} are allowed.")
        if len({key.digest for key in keys}) < len(keys):
            self.faults.append(f"{name} has the same key twice.")
        return keys

    def _keys_in(self, text: str, name: str) -> tuple[Key, ...]:
        keys = []
        for place, word in enumerate(re.split(r"[\s,]+", text.strip()) if text.strip() else (), 1):
            if found := _KEY.fullmatch(word):
                keys.append(Key(found[1], bytes.fromhex(found[2])))
            else:  # what stands there may be a secret: it is not repeated
                self.faults.append(
                    f"{name}: entry {place} is not name:digest, a name of a-z, 0-9 and hyphens (at most 32) and the "
                    "64 lower-case hex digits of a SHA-256."
                )
        return tuple(keys)


def read_settings(environment: Mapping[str, str] = os.environ) -> Settings:
    """Read the settings from environment variables.

    Parameters
    ----------
    environment : mapping
        An empty variable counts as left out.

    Returns
    -------
    Settings

    Raises
    ------
    SettingsFault
        Naming every fault at once.

    Examples
    --------
    >>> read_settings({"WEB_CONCURRENCY": "2", "RATE_LIMIT": "600/60"}).rate_limit
    Rate(quota=600, window=60)
    >>> read_settings({"WEB_CONCURRENCY": "no", "METRICS": "maybe"})
    Traceback (most recent call last):
        ...
    service.settings.SettingsFault: The settings have faults:
      WEB_CONCURRENCY is 'no'; allowed: a whole number from 1 to 64.
      METRICS is 'maybe'; allowed: on or off.
    """
    reader = _Reader(environment)
    # a machine with many cores is shared more often than not: more than eight is asked for by name
    cores = min(8, len(os.sched_getaffinity(0)))
    settings = Settings(
        bind=reader.address("BIND", "127.0.0.1:8080"),
        workers=reader.number("WEB_CONCURRENCY", cores, 1, MOST_WORKERS),
        threads=reader.number("THREADS", 4, 1, 64),
        forwarded_allow_ips=reader.text(
            "FORWARDED_ALLOW_IPS", "127.0.0.1,::1", r"\*|[0-9A-Fa-f:./, ]+", "addresses with commas between, or *"
        ),
        keys=reader.keys("API_KEYS"),
        allow_open=reader.switch("ALLOW_OPEN", False),
        rate_limit=reader.rate("RATE_LIMIT"),
        concurrency_limit=reader.number("CONCURRENCY_LIMIT", 0, 0, 64),
        log_level=reader.choice("LOG_LEVEL", "info", _LEVELS),
        log_format=reader.choice("LOG_FORMAT", "json", ("json", "text")),
        request_ids=reader.switch("REQUEST_IDS", True),
        metrics=reader.switch("METRICS", True),
        telemetry=reader.switch("TELEMETRY", False),
        drain_seconds=reader.number("DRAIN_SECONDS", 0, 0, GRACE_SECONDS - 5),
        revision=reader.text("REVISION", "", r"[A-Za-z0-9._+-]{1,64}", "letters, digits and . _ + - (at most 64)"),
    )
    if settings.concurrency_limit > settings.threads:
        reader.faults.append(
            f"CONCURRENCY_LIMIT is {settings.concurrency_limit}, but a worker has {settings.threads} THREADS: it would "
            "never be reached."
        )
    if reader.faults:
        raise SettingsFault(reader.faults)
    return settings


@functools.cache
def settings_of_process() -> Settings:
    """The settings this process was started with, read once however often it is asked."""
    return read_settings()


def main() -> int:
    """Tell what the environment says, or every fault of it; the exit status is 0 where there is none."""
    try:
        settings = read_settings()
    except SettingsFault as fault:
        print(fault, file=sys.stderr)
        return 1
    for each in fields(settings):
        if each.name != "testing":
            print(f"{each.name} = {getattr(settings, each.name)!r}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
