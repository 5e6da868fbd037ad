"""The door: what is no JSON in the dialect accepted is refused with 400, 413 or 415, and told where it fails."""

import gzip
import json
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from service.routes import reading
from service.routes.problems import Problem

PATH = "/v1/drain-pitch"
GOOD = {"run": {"value": 32, "unit": "ft"}, "fall": {"value": 4, "unit": "in"}}
TEXT = json.dumps(GOOD)

Check = Callable[..., dict[str, Any]]


def post(client: FlaskClient, body: bytes | str, path: str = PATH, **headers: str) -> Any:
    fields = {"Content-Type": "application/json"} | {name.replace("_", "-"): value for name, value in headers.items()}
    return client.post(path, data=body, headers=fields)


# RFC 8259 (JSON), and RFC 7493 (I-JSON) 2.1 to 2.3: UTF-8, no half surrogates, numbers a double holds, no name twice
MALFORMED: dict[str, tuple[bytes, str]] = {
    "nothing": (b"", "empty"),
    "blanks": (b" \r\n\t ", "empty"),
    "a name twice": (b'{"run":1,"run":1}', '"run" stands twice'),
    "a name twice, escaped": (b'{"run":1,"\\u0072un":1}', '"run" stands twice'),
    "a name twice, a colon written as an escape": (b'{"run":1,"run":"\\u003a"}', '"run" stands twice'),
    "a name twice, inside": (b'{"run":{"value":1,"unit":"ft","value":2}}', '"value" stands twice'),
    "a name twice, in an array": (b'{"run":[{"a":1,"a":1}]}', '"a" stands twice'),
    "NaN": (b'{"pitch_ratio":NaN}', "NaN is not"),
    "Infinity": (b'{"pitch_ratio":Infinity}', "Infinity is not"),
    "-Infinity": (b'{"pitch_ratio":[-Infinity]}', "-Infinity is not"),
    "beyond a double": (b'{"pitch_ratio":1e400}', "too large"),
    "beyond a double, negative": (b'{"pitch_ratio":-1e400}', "too large"),
    "beyond a double, unknown member": (b'{"x":{"y":[1e999]}}', "too large"),
    "5000 digits": (b'{"pitch_ratio":' + b"9" * 5000 + b"}", "too many digits"),
    "100000 arrays": (b'{"run":' + b"[" * 100_000, "too deep"),
    "40000 objects": (b'{"a":' * 40_000, "too deep"),
    "deep and closed": (b'{"run":' + b"[" * 50_000 + b"]" * 50_000 + b"}", "too deep"),
    "a byte order mark": (b"\xef\xbb\xbf" + TEXT.encode(), "line 1, column 1"),
    "UTF-16": (TEXT.encode("utf-16"), "not UTF-8"),
    "UTF-16 without a mark": (TEXT.encode("utf-16-le"), "not JSON"),
    "UTF-32": (TEXT.encode("utf-32"), "not UTF-8"),
    "Latin-1": ('{"r\xfcn":1}'.encode("latin-1"), "not UTF-8 text (byte 3)"),
    "a surrogate as UTF-8": (b'{"run":"\xed\xa0\x80"}', "not UTF-8"),
    "an overlong form": (b'{"run":"\xc0\x80"}', "not UTF-8"),
    "half a pair in a value": (b'{"run":"\\ud83d"}', "surrogate"),
    "half a pair in a name": (b'{"\\uDE00":1}', "surrogate"),
    "half a pair deep inside": (b'{"x":[[{"y":["\\ud83d\\ud83d"]}]]}', "surrogate"),
    "a pair the wrong way round": (b'{"x":"\\ude00\\ud83d"}', "surrogate"),
    "more after the end": (TEXT.encode() + b"x", "Extra data"),
    "two objects": (b"{}{}", "Extra data"),
    "not closed": (TEXT.encode()[:-1], "not JSON"),
    "single quotes": (b"{'run':1}", "not JSON"),
    "a comma too many": (b'{"run":1,}', "not JSON"),
    "a comment": (b'{"run":1/**/}', "not JSON"),
    "hexadecimal": (b'{"run":0x10}', "not JSON"),
    "a leading zero": (b'{"run":01}', "not JSON"),
    "a plus sign": (b'{"run":+1}', "not JSON"),
    "no digit before the point": (b'{"run":.5}', "not JSON"),
    "an underscore": (b'{"run":1_0}', "not JSON"),
    "digits of another script": ('{"run":\u0661}'.encode(), "not JSON"),
    "a raw NUL": (b'{"run":"a\x00b"}', "control character at line 1"),
    "a raw NUL outside": (b"\x00" + TEXT.encode(), "not JSON"),
    "a no-break space outside": (b"\xc2\xa0" + TEXT.encode(), "not JSON"),
    "a form": (b"run=32&unit=ft", "not JSON"),
    "markup": (b"<run>32</run>", "not JSON"),
}


@pytest.mark.parametrize("name", MALFORMED)
def test_a_malformed_body_is_refused_and_told_why(name: str, client: FlaskClient, check_problem: Check) -> None:
    body, reason = MALFORMED[name]
    document = check_problem(post(client, body), "malformed-body")
    assert reason in document["detail"]
    assert document["errors"] == []
    assert len(document["detail"]) < 200


NAMES = st.sampled_from(['"a"', '"b"', '"a:"', '"\\u0061"', '"\u00e4"', '"\\""'])
NUMBERS = ["0", "-0", "-0.0", "1.5e3", "1e400", "NaN", "9" * 18, "9" * 19, f"-{'9' * 19}", "18446744073709551616"]
WORDS = ['"x:y"', '"\\ud83d"', '"\\u003a"', '""', "null", "true", "tru", '"\\\\"', "{}", "[]", f"0.{'3' * 30}"]
SCALARS = st.sampled_from(NUMBERS + WORDS)


def spelled(values: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    members = st.lists(st.builds("{}{}{}".format, NAMES, st.sampled_from([":", " : ", ""]), values), max_size=3)
    return st.lists(values, max_size=3).map(lambda row: f"[{', '.join(row)}]") | members.map(
        lambda row: "{" + ",".join(row) + "}"
    )


def outcome(parse: Callable[[], Any]) -> str:
    try:
        return repr(parse())
    except Problem as problem:
        return problem.detail


@given(st.recursive(SCALARS, spelled, max_leaves=8), st.sampled_from(["", " ", "\n", "x", "\ufeff", "]"]))
def test_both_parsers_agree_on_every_spelling(text: str, rest: str) -> None:
    raw = (text + rest).encode()
    assert outcome(lambda: reading.parse(raw)) == outcome(lambda: reading._parse_strictly(raw, "body"))


@given(st.data())
def test_both_parsers_agree_on_a_body_with_bytes_changed(data: st.DataObject) -> None:
    raw = bytearray(TEXT.encode())
    for _ in range(data.draw(st.integers(0, 3))):
        place = data.draw(st.integers(0, len(raw) - 1))
        raw[place : place + data.draw(st.integers(0, 2))] = data.draw(st.binary(max_size=2) | st.just(b'"run":1,'))
    assert outcome(lambda: reading.parse(bytes(raw))) == outcome(lambda: reading._parse_strictly(bytes(raw), "body"))


@pytest.mark.parametrize("body", [b"[]", b"null", b"true", b"1.5", b'"text"', b"[{}]"])
def test_json_that_is_no_object_does_not_match_the_schema(
    body: bytes, client: FlaskClient, check_problem: Check
) -> None:
    document = check_problem(post(client, body), "schema-mismatch")
    assert [fault["pointer"] for fault in document["errors"]] == [""]


@pytest.mark.parametrize(
    "body",
    [
        TEXT,
        " \r\n\t" + TEXT + "\n ",
        TEXT.replace("32", "3.2e1"),
        TEXT.replace("32", "32.000000000000000000000000000"),
        TEXT.replace("run", "\\u0072\\u0075n"),
        TEXT.replace("32", "0.32E+2"),
    ],
)
def test_every_spelling_of_the_same_json_is_read(body: str, client: FlaskClient) -> None:
    # 4 in over 32 ft, by hand: 4 / 384
    answer = post(client, body)
    assert answer.status_code == 200
    assert answer.get_json()["results"]["pitch_ratio"] == pytest.approx(4 / 384, rel=1e-12)


def test_a_number_too_long_to_be_in_range_is_named_short(client: FlaskClient, check_problem: Check) -> None:
    document = check_problem(post(client, '{"run":{"value":' + "9" * 4000 + ',"unit":"ft"}}'), "schema-mismatch")
    (fault,) = document["errors"]
    assert fault["pointer"] == "/run/value"
    assert len(fault["detail"]) < 150


@pytest.mark.parametrize(
    ("body", "pointers"),
    [
        ({}, ["/run"]),
        ({"run": 1}, ["/run"]),
        ({"run": None}, ["/run"]),
        ({"run": {"value": "32", "unit": "ft"}}, ["/run/value"]),
        ({"run": {"value": 0, "unit": "inch"}, "slope": 1}, ["/run/unit", "/slope"]),
        ({**GOOD, "pitch_ratio": 0.1}, [""]),
        ({**GOOD, "a/b": 1, "~": 2, "": 3}, ["/", "/a~1b", "/~0"]),  # RFC 6901 3
        ({**GOOD, "_schema": 1}, ["/_schema"]),
        ({"run": {**GOOD["run"], "_schema": 1}}, ["/run/_schema"]),
        ({**GOOD, "\x00<script>alert(1)</script>": 1}, ["/\x00<script>alert(1)<~1script>"]),
        ({**GOOD, "\U0001f6b0": 1}, ["/\U0001f6b0"]),
    ],
)
def test_a_fault_is_pointed_at(body: Any, pointers: list[str], client: FlaskClient, check_problem: Check) -> None:
    document = check_problem(post(client, json.dumps(body)), "schema-mismatch")
    assert sorted(fault["pointer"] for fault in document["errors"]) == pointers
    assert all(fault["detail"].endswith((".", "?")) for fault in document["errors"])


def test_markup_in_a_value_stays_text(client: FlaskClient, check_problem: Check) -> None:
    answer = post(client, '{"run":"\\u0000<img src=x onerror=alert(1)>"}')
    check_problem(answer, "schema-mismatch")
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]


@pytest.mark.parametrize(
    "content_type",
    [
        "application/json",
        "application/json; charset=utf-8",
        'application/json;charset="UTF-8"',
        "Application/JSON",
        "application/json ; charset=utf-8",
        "application/json; boundary=x",
        "application/json;",
    ],
)
def test_a_media_type_of_json_is_read(content_type: str, client: FlaskClient) -> None:
    assert post(client, TEXT, Content_Type=content_type).status_code == 200


@pytest.mark.parametrize(
    "content_type",
    [
        None,
        "",
        ";",
        "json",
        "text/json",
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=x",
        "application/vnd.x+json",
        "application/jsonp",
        "application/json, text/plain",
        "application/json; charset=latin-1",
        "application/json; charset=utf-16",
        "application/problem+json",
        "*/*",
        "\xff",
    ],
)
def test_another_media_type_is_refused(content_type: str | None, client: FlaskClient, check_problem: Check) -> None:
    headers = {} if content_type is None else {"Content-Type": content_type}
    answer = client.post(PATH, data=TEXT, headers=headers)
    check_problem(answer, "unsupported-media-type")
    assert answer.headers["Accept"] == "application/json"  # RFC 9110 15.5.16


@pytest.mark.parametrize("coding", ["gzip", "deflate", "br", "GZIP", "x", "identity, gzip"])
def test_a_compressed_body_is_refused(coding: str, client: FlaskClient, check_problem: Check) -> None:
    answer = post(client, gzip.compress(TEXT.encode()), Content_Encoding=coding)
    check_problem(answer, "unsupported-media-type")


@pytest.mark.parametrize(
    ("query", "faults"),
    [
        ("units=SI", ["units"]),
        ("units=", ["units"]),
        ("units", ["units"]),
        ("units=%20si", ["units"]),
        ("units=us&units=si", ["units"]),
        ("units=si&units=si", ["units"]),
        ("unit=si", ["unit"]),
        ("units[]=si", ["units[]"]),
        ("units=si&b=1&c=2", ["b", "c"]),
        ("units=%ff", ["units"]),
        ("%00=1", ["\x00"]),
        ("units=%ed%a0%80", ["units"]),
        ("=x", [""]),
    ],
)
def test_a_query_is_as_strict_as_a_body(
    query: str, faults: list[str], client: FlaskClient, check_problem: Check
) -> None:
    for answer in (post(client, TEXT, f"{PATH}?{query}"), client.get(f"/v1/reference/units?{query}")):
        document = check_problem(answer, "schema-mismatch")
        assert [fault["parameter"] for fault in document["errors"]] == faults


def test_faults_of_query_and_body_are_named_together(client: FlaskClient, check_problem: Check) -> None:
    document = check_problem(post(client, "{}", f"{PATH}?units=x"), "schema-mismatch")
    assert [fault.get("pointer", fault.get("parameter")) for fault in document["errors"]] == ["units", "/run"]


@pytest.mark.parametrize(("twice", "slug"), [(',"z":1,"z":2', "malformed-body"), ("", "schema-mismatch")])
def test_a_body_full_of_names_costs_what_its_length_says(
    twice: str, slug: str, client: FlaskClient, check_problem: Check, check_linear: Callable[..., None]
) -> None:
    """Up to 20,000 different members, the last one twice: counting each one anew takes ten seconds."""

    def prepare(size: int) -> Callable[[], None]:
        text = "{" + ",".join(f'"{index:x}":0' for index in range(size)) + twice + "}"

        def work() -> None:
            document = check_problem(post(client, text), slug)
            assert len(document["errors"]) == (0 if twice else 102)  # the missing run, 100 names, the count of others

        return work

    check_linear(prepare, 5000)
