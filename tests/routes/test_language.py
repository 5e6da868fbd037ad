"""The language of an answer: chosen by Accept-Language, told by Content-Language, never a reason to refuse."""

import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.schemas import writing
from service.tables.cautions import CAUTIONS
from service.tables.findings.catalogue import FINDINGS
from service.tables.languages import said, texts
from service.tables.problems import PROBLEMS
from service.tables.sources import SOURCES

OPENAPI = Path(__file__).parents[2] / "openapi"
POSTED = {
    path.removeprefix("/v1/").replace("/", "-"): path
    for path, operations in json.loads((OPENAPI / "openapi.json").read_bytes())["paths"].items()
    if "post" in operations
}
EXAMPLES = sorted((OPENAPI / "examples").glob("*.request.json"))

CITED = {text for row in SOURCES.values() for text in (row.label, row.clause)} | {
    row.basis for row in FINDINGS.values()
}
"""Works and clauses, which keep their names where they are not in words of ours."""

UNTOLD = re.compile(r"[^a-z]*|(\w+ [\d,]+(, )?)+|\{remedy\}")
"""What has no word to say: sizes, times, columns by their names with their lengths."""

PATH = "/v1/trap-check"
TRAP = {
    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
    "outlet_drop": {"value": 0.25, "unit": "in"},
    "seal_depth": {"value": 2, "unit": "in"},
}


def ask(client: FlaskClient, field: str | None, path: str = PATH, body: Any = TRAP, **headers: str) -> Any:
    told = headers if field is None else {"Accept-Language": field, **headers}
    return client.post(path, json=body, headers=told)


@pytest.mark.parametrize(
    ("field", "language"),
    [
        (None, "en"),
        ("", "en"),
        ("en", "en"),
        ("en-US,en;q=0.9", "en"),
        ("es", "es"),
        ("ES", "es"),
        ("es-MX", "es"),
        ("es-419", "es"),
        ("es-MX,es;q=0.9,en;q=0.8", "es"),
        ("en-US,en;q=0.9,es;q=0.8", "en"),
        ("en;q=0.5, es", "es"),
        ("en;q=0.5, es-US;q=0.6", "es"),
        ("es;q=0.5, en;q=0.5", "en"),  # equals: the default
        ("fr", "en"),
        ("fr, es;q=0.1", "es"),
        ("fr, *;q=0.5", "en"),
        ("*", "en"),
        ("en;q=0, *", "es"),
        ("en;q=0", "en"),  # nothing is left: an answer in English all the same
        ("es;q=0", "en"),
        ("es;q=0, es-MX", "en"),  # what the plain tag says counts
        ("est", "en"),  # Estonian by its three letters is not Spanish
        ("es;q=nonsense", "en"),
        (";;;,,,=;q=", "en"),
        ("\u00f1", "en"),
        ("es," * 20000, "es"),
        ("x" * 100000, "en"),
    ],
)
def test_the_language_preferred_among_those_there_are(field: str | None, language: str, client: FlaskClient) -> None:
    """RFC 9110 12.5.4 with the lookup of RFC 4647 3.4, by hand."""
    answer = ask(client, field)
    assert answer.status_code == 200
    assert answer.headers["Content-Language"] == language
    assert answer.headers["Vary"] == "Accept, Accept-Language"  # a trap is also drawn


def test_only_words_differ(client: FlaskClient) -> None:
    english, spanish = (ask(client, language).get_json() for language in ("en", "es"))
    assert english["results"] == spanish["results"]
    assert english["verdict"] == spanish["verdict"]
    for one, other in zip(english["findings"], spanish["findings"], strict=True):
        for member in ("code", "severity", "pointer"):
            assert one[member] == other[member]
    for one, other in zip(english["cautions"], spanish["cautions"], strict=True):
        assert one["code"] == other["code"]
        assert other["message"] == texts("es")[CAUTIONS[one["code"]]]


def test_a_contradiction_is_told_in_the_language(client: FlaskClient) -> None:
    air = {"dry_bulb": {"value": 50, "unit": "degF"}, "dew_point": {"value": 60, "unit": "degF"}}
    body = {"pan_pressure": TRAP["pan_pressure"], "outlet_drop": TRAP["outlet_drop"], "unit_side_air": air}
    body |= {"seal_depth": TRAP["seal_depth"]}
    answer = ask(client, "es-MX", "/v1/trap-dry-out", body)
    assert answer.status_code == 422
    assert answer.headers["Content-Language"] == "es"
    assert answer.headers["Vary"] == "Accept-Language"
    problem = answer.get_json()
    assert problem["title"] == texts("es")["The facts contradict each other"]
    assert problem["detail"] == f"{problem['title']}."
    assert problem["errors"][0]["detail"].startswith("Un punto de rocío de 60 degF no puede estar por encima")


def test_a_fault_of_the_schema_is_told_in_english(client: FlaskClient) -> None:
    answer = ask(client, "es", body={})
    assert answer.status_code == 400
    assert "Content-Language" not in answer.headers
    assert answer.get_json()["title"] == PROBLEMS["schema-mismatch"].title


@pytest.mark.parametrize("table", ["cautions", "findings", "symptoms", "units", "pipe-sizes", "drain-sizes"])
def test_a_table_has_a_tag_for_each_language(table: str, client: FlaskClient) -> None:
    path = f"/v1/reference/{table}"
    english, spanish = (client.get(path, headers={"Accept-Language": field}) for field in ("en", "es"))
    for answer, language in ((english, "en"), (spanish, "es")):
        assert answer.headers["Content-Language"] == language
        assert answer.headers["Vary"] == "Accept-Language"
    tag = english.headers["ETag"]
    again = client.get(path, headers={"Accept-Language": "en", "If-None-Match": tag})
    assert (again.status_code, again.headers["Vary"]) == (304, "Accept-Language")


def texts_of(english: Any, spanish: Any, pointer: str = "") -> Iterator[tuple[str, str, str]]:
    """Every text of an answer beside the Spanish one; all else is compared here."""
    assert type(english) is type(spanish), pointer
    if isinstance(english, dict):
        assert list(english) == list(spanish), pointer
        for name, member in english.items():
            yield from texts_of(member, spanish[name], f"{pointer}/{name}")
    elif isinstance(english, list):
        assert len(english) == len(spanish), pointer
        for index, (one, other) in enumerate(zip(english, spanish, strict=True)):
            yield from texts_of(one, other, f"{pointer}/{index}")
    elif isinstance(english, str):
        yield pointer, english, spanish
    else:
        assert english == spanish, pointer


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_worked_example_in_spanish_says_the_same_numbers_and_nothing_in_english(
    path: Path, client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    sent, unsaid = path.read_text(encoding="utf-8"), set()

    def noting(text: str, language: str, sense: str = "") -> str:
        if language != "en" and text not in texts(language) and text not in CITED and not UNTOLD.fullmatch(text):
            unsaid.add(text)
        return said(text, language, sense)

    monkeypatch.setattr(writing, "said", noting)
    for made in vars(writing).values():
        if hasattr(made, "cache_clear"):  # what was said before
            made.cache_clear()
    for units in ("us", "si"):
        url = f"{POSTED[path.name.split('.')[0]]}?units={units}"
        english, spanish = (ask(client, field, url, json.loads(sent)).get_json() for field in ("en", "es-MX"))
        for pointer, one, other in texts_of(english, spanish):
            figures = [sorted(re.findall(r"\d+(?:[.,/]\d+)*", text)) for text in (one, other)]
            assert figures[0] == figures[1], pointer
            if one == other and one.count(" ") > 1:
                # a value taken is in the words of the request
                assert one in CITED or one in sent or "/problem/" in pointer or pointer.endswith("/value"), one
    assert not {text for text in unsaid if text not in sent}


def test_what_a_caller_named_keeps_its_name(client: FlaskClient) -> None:
    """Even where it is a word of ours."""
    body = json.loads((OPENAPI / "examples" / "pump-run-compare.two-in-one-tank-si.request.json").read_bytes())
    for pump, name in zip(body["pumps"], ("suction", "wired"), strict=False):
        pump["name"] = name
    assert {"suction", "wired"} <= set(texts("es"))
    answer = ask(client, "es", "/v1/pump-run/compare", body).get_json()
    assert [row["name"] for row in answer["results"]["pumps"]][:2] == ["suction", "wired"]
    told = " ".join(row["message"] for row in answer["findings"])
    assert "'suction'" in told or "'wired'" in told
    assert texts("es")["suction"] not in told


def test_rows_in_lines_are_in_the_language(client: FlaskClient) -> None:
    body = b'{"pan_pressure":{"value":-0.5,"unit":"inH2O"}}\n{"pan":1}\n'
    answer = client.post(
        "/v1/assessment/batch", data=body, content_type="application/x-ndjson", headers={"Accept-Language": "es"}
    )
    assert answer.headers["Content-Language"] == "es"
    good, bad = (json.loads(line) for line in answer.data.splitlines())
    for caution in good["answer"]["cautions"]:
        assert caution["message"] == texts("es")[CAUTIONS[caution["code"]]]
    assert good["answer"]["cautions"]
    assert bad["problem"]["title"] == PROBLEMS["schema-mismatch"].title


def test_no_other_language_is_loaded_before_it_is_asked_for() -> None:
    body = '{"run": {"value": 3, "unit": "ft"}, "fall": {"value": 1, "unit": "in"}}'
    code = (
        "import sys; from service.app import create_app; from service.settings import Settings; "
        "client = create_app(Settings(log_level='error')).test_client(); "
        f"post = lambda **to: client.post('/v1/drain-pitch', data='{body}', content_type='application/json', **to); "
        "loaded = lambda: any(name.startswith('service.tables.spanish') for name in sys.modules); "
        "post(); print(loaded()); post(headers={'Accept-Language': 'es'}); print(loaded())"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["False", "True"]
