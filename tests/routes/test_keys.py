"""Keys: what needs one, what opens, what is told to whoever has none (RFC 6750, 3)."""

import hashlib
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.routes.document import document_of
from service.routes.keys import OPEN_PATHS, KeyRing
from service.settings import Key, Settings

NEW, OLD, SHORT = "n" * 43, "o" * 32, "s" * 31
PATH, BODY = "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}}


def key(name: str, shown: str) -> Key:
    return Key(name, hashlib.sha256(shown.encode()).digest())


@pytest.fixture(scope="module")
def locked() -> Flask:
    """An application that was started with keys."""
    return create_app(Settings(testing=True, keys=(key("dispatch", OLD), key("dispatch", NEW), key("short", SHORT))))


def bearer(shown: str) -> dict[str, str]:
    return {"Authorization": f"Bearer {shown}"}


@pytest.mark.parametrize("field", [f"Bearer {NEW}", f"bearer {OLD}", f"BEARER   {NEW} "])
def test_each_of_the_keys_opens(field: str, locked: Flask) -> None:
    assert locked.test_client().post(PATH, json=BODY, headers={"Authorization": field}).status_code == 200


@pytest.mark.parametrize(
    "field",
    ["", "Bearer", f"Basic {NEW}", NEW, f"Bearer{NEW}", "Bearer \x00", f"Bearer {NEW},{OLD}", f"Token {NEW}", "é" * 40],
)
@pytest.mark.parametrize("wrong", [False, True])
def test_anything_else_does_not(field: str, wrong: bool, locked: Flask, check_problem: Callable[..., Any]) -> None:
    if wrong:
        field = field.replace(NEW, NEW[:-1] + "x")
    answer = locked.test_client().post(PATH, json=BODY, headers={"Authorization": field} if field else {})
    document = check_problem(answer, "key-required")
    challenge = answer.headers["WWW-Authenticate"]
    assert challenge.startswith('Bearer realm="')
    # RFC 6750 3.1: no error code where no credentials of this scheme came
    assert ("error" in challenge) is bool(re.match("(?i)bearer( |$)", field))
    assert NEW not in json.dumps(document)


def test_a_key_that_could_be_guessed_opens_nothing(locked: Flask) -> None:
    assert locked.test_client().post(PATH, json=BODY, headers=bearer(SHORT)).status_code == 401


def test_without_a_key_nothing_is_told_of_paths_methods_or_bodies(locked: Flask) -> None:
    client = locked.test_client()
    for method, path in (("GET", "/v1/nothing"), ("GET", PATH), ("PUT", PATH), ("OPTIONS", PATH), ("GET", "/")):
        assert client.open(path, method=method).status_code == 401, (method, path)
    assert client.post(PATH, data=b"not json").status_code == 401


def test_what_is_open_is_open_and_nothing_else(locked: Flask) -> None:
    """From the document, so that a new operation is closed unless someone decides otherwise."""
    client = locked.test_client()
    document = document_of(locked)
    assert document["security"] == [{}, {"bearer": []}]
    for path, operations in document["paths"].items():
        for method, operation in ((name, operations[name]) for name in ("get", "post") if name in operations):
            answer = client.open(
                path.replace("{slug}", "key-required").replace("{page}", "guide"), method=method.upper()
            )
            if path in OPEN_PATHS:
                assert operation["security"] == []
                assert answer.status_code == 200
            else:
                assert "security" not in operation
                assert "401" in operation["responses"]
                assert answer.status_code == 401
    assert client.get("/docs/assets/swagger-ui.css").status_code == 200


def test_the_document_is_the_same_with_keys_and_asks_itself_without(locked: Flask, app: Flask) -> None:
    assert document_of(locked) == document_of(app)


def test_a_caller_cannot_say_that_it_is_the_service_itself(locked: Flask) -> None:
    for field in ("Service.Own", "Service-Own", "service_own"):
        assert locked.test_client().get("/v1/reference/units", headers={field: "yes"}).status_code == 401


def test_every_key_is_compared_and_in_constant_time(monkeypatch: pytest.MonkeyPatch) -> None:
    compared = []

    def compare(one: bytes, other: bytes) -> bool:
        compared.append((one, other))
        return one == other

    monkeypatch.setattr("service.routes.keys.hmac.compare_digest", compare)
    ring = KeyRing([key("a", OLD), key("b", NEW), key("c", "c" * 40)])
    assert ring.name_of(OLD) == "a"
    assert ring.name_of("x" * 40) is None
    assert len(compared) == 6
    assert all(len(digest) == 32 for pair in compared for digest in pair)


def test_other_keys_are_taken(locked: Flask) -> None:
    ring = KeyRing([key("a", OLD)])
    ring.replace([key("a", NEW)])
    assert (ring.name_of(OLD), ring.name_of(NEW)) == (None, "a")


def test_without_keys_the_field_is_not_looked_at(client: FlaskClient) -> None:
    assert client.post(PATH, json=BODY, headers={"Authorization": "Nonsense"}).status_code == 200


def test_the_key_is_in_no_source_of_the_log() -> None:
    """What a line may hold is listed in one place; the field is read in one other."""
    folder = Path(__file__).parents[2] / "service"
    reading = [
        path.name
        for path in folder.rglob("*.py")
        if re.search("HTTP_AUTHORIZATION|[\"']Authorization", path.read_text())
    ]
    assert reading == ["admission.py"]
