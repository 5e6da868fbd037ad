"""A headless Chromium spoken to through a pipe, in the standard library's words only."""

import base64
import json
import os
import selectors
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

EXECUTABLE = next((found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), None)

_FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--remote-debugging-pipe",
)
SECONDS = 30.0
_CODES = {"Tab": 9, "Enter": 13}

# the browser reads commands from descriptor 3 and answers on 4
_LAUNCHER = """\
import fcntl, os, sys
commands, answers = (fcntl.fcntl(int(number), fcntl.F_DUPFD, 10) for number in sys.argv[1:3])
os.dup2(commands, 3)
os.dup2(answers, 4)
os.execv(sys.argv[3], sys.argv[3:])
"""


class Page:
    """One tab; it keeps every console message, every request and every refusal of the policy."""

    def __init__(self, width: int, height: int) -> None:
        assert EXECUTABLE
        self._profile = tempfile.TemporaryDirectory(prefix="browser-", ignore_cleanup_errors=True)
        command_read, self._out = os.pipe()
        self._in, answer_write = os.pipe()
        command = [EXECUTABLE, *_FLAGS, f"--user-data-dir={self._profile.name}", "about:blank"]
        self._process = subprocess.Popen(
            [sys.executable, "-c", _LAUNCHER, str(command_read), str(answer_write), *command],
            pass_fds=(command_read, answer_write),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        os.close(command_read)
        os.close(answer_write)
        self._selector = selectors.DefaultSelector()
        self._selector.register(self._in, selectors.EVENT_READ)
        self._pending = b""
        self._last = 0
        self.complaints: list[str] = []
        self.requests: list[str] = []
        self._session: str | None = None
        try:
            self._attach(width, height)
        except BaseException:
            self.close()
            raise

    def _attach(self, width: int, height: int) -> None:
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(f"{domain}.enable")
        self.resize(width, height)

    def close(self) -> None:
        """End the browser we started, and only that one."""
        os.close(self._out)
        try:
            self._process.wait(5.0)
        except subprocess.TimeoutExpired:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait()
        os.close(self._in)
        self._profile.cleanup()

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send one command and return its result."""
        self._last += 1
        message: dict[str, Any] = {"id": self._last, "method": method, "params": parameters}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        deadline = time.monotonic() + SECONDS
        while True:
            answer = self._receive(deadline)
            if answer.get("id") == self._last:
                assert "error" not in answer, answer
                result: dict[str, Any] = answer["result"]
                return result

    def _receive(self, deadline: float) -> dict[str, Any]:
        while b"\0" not in self._pending:
            if not self._selector.select(max(0.0, deadline - time.monotonic())):
                raise TimeoutError("the browser is silent")
            part = os.read(self._in, 1 << 20)
            if not part:
                raise ConnectionError("the browser has ended")
            self._pending += part
        line, _, self._pending = self._pending.partition(b"\0")
        message: dict[str, Any] = json.loads(line)
        self._note(message)
        return message

    def _note(self, message: dict[str, Any]) -> None:
        parameters = message.get("params", {})
        match message.get("method"):
            case "Network.requestWillBeSent":
                self.requests.append(parameters["request"]["url"])
            case "Runtime.exceptionThrown":
                self.complaints.append(json.dumps(parameters["exceptionDetails"]))
            case "Runtime.consoleAPICalled" if parameters["type"] in ("error", "warning", "assert"):
                self.complaints.append(json.dumps(parameters["args"]))
            case "Log.entryAdded" if parameters["entry"]["level"] in ("error", "warning"):
                self.complaints.append(f"{parameters['entry']['text']} {parameters['entry'].get('url', '')}")

    def resize(self, width: int, height: int) -> None:
        """Take the width and height of a screen, in CSS pixels."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def open(self, url: str) -> None:
        """Go to an address."""
        self.ask("Page.navigate", url=url)

    def evaluate(self, expression: str) -> Any:
        """Value of a JavaScript expression."""
        answer = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def wait_for(self, expression: str) -> Any:
        """Wait until a JavaScript expression is true, and return it."""
        deadline = time.monotonic() + SECONDS
        while not (value := self.evaluate(expression)):
            assert time.monotonic() < deadline, f"{expression} never came true"
            time.sleep(0.1)
        return value

    def press(self, key: str, text: str = "") -> None:
        """Press a key of the keyboard and let it go; ``text`` is what it types."""
        for kind in ("keyDown", "keyUp"):
            typed = {"text": text} if text and kind == "keyDown" else {}
            self.ask("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=_CODES[key], **typed)

    def photograph(self, path: Path, *, whole: bool = False) -> None:
        """Keep a picture of what is shown, or of the whole page."""
        options = {"captureBeyondViewport": True} if whole else {}
        picture = self.ask("Page.captureScreenshot", format="png", **options)["data"]
        path.write_bytes(base64.b64decode(picture))


@pytest.fixture(scope="package")
def page() -> Iterator[Page]:
    """One browser for all of these tests; skipped where there is none."""
    if EXECUTABLE is None:
        pytest.skip("no Chromium on this machine")
    page = Page(1280, 900)
    yield page
    page.close()
