"""CSV is read as the JSON it stands for; whatever else comes is refused and told by line and column."""

import contextlib
import csv
import io
import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

from service.schemas.condensate_series import RateSeriesRequest
from service.schemas.condensate_series_table import SERIES_TABLE
from service.schemas.table_text import MOST_SETTINGS, MalformedTable, TableRequest, read_table

SETTINGS = [
    "start,2026-07-14T15:00",
    "air_flow,1200,cfm",
    "leaving_air.dry_bulb,55,degF",
    "leaving_air.relative_humidity_percent,92",
]
ROWS = ["dry_bulb degF,relative_humidity_percent", "88,60", "86.5,62", "84,64"]
VALUE: dict[str, Any] = {
    "start": "2026-07-14T15:00",
    "air_flow": {"value": 1200.0, "unit": "cfm"},
    "leaving_air": {"dry_bulb": {"value": 55.0, "unit": "degF"}, "relative_humidity_percent": 92.0},
    "entering_air": {
        "dry_bulb": {"values": [88.0, 86.5, 84.0], "unit": "degF"},
        "relative_humidity_percent": [60.0, 62.0, 64.0],
    },
}
TEXT = "\n".join([*SETTINGS, "", *ROWS, ""])


def read(text: str) -> TableRequest:
    return read_table(text, RateSeriesRequest(), SERIES_TABLE.columns)


def told(text: str) -> list[tuple[int, str, str]]:
    """All faults of the text and of its object: line, column, what is said."""
    table = read(text)
    faults = [(fault.line, fault.column, fault.detail) for fault in table.faults]

    def walk(messages: Any, pointer: str) -> None:
        if isinstance(messages, dict):
            for key, inner in messages.items():
                walk(
                    inner,
                    pointer if key == "_schema" else f"{pointer}/{key if isinstance(key, (str, int)) else key[0]}",
                )
        else:
            faults.extend((*(table.place(pointer) or (0, pointer)), message) for message in messages)

    try:
        RateSeriesRequest().load(table.value)
    except ValidationError as error:
        walk(error.messages, "")
    return faults


def test_a_table_is_the_json_it_stands_for() -> None:
    table = read(TEXT)
    assert table.value == VALUE
    assert table.faults == []


@pytest.mark.parametrize(
    "text",
    [
        TEXT.replace("\n", "\r\n"),
        "\ufeff" + TEXT,
        TEXT.rstrip("\n"),
        TEXT + "\n\n",
        TEXT.replace("\n\n", "\n,,,\n").replace("88,60", "88,60,,"),  # as a spreadsheet saves it
        TEXT.replace("\n\n", "\n \n\n"),
        TEXT.replace("88,60", '"88","60"'),
        TEXT.replace("1200", " 1.2e3 ").replace("88,", " +088.0 , "),
        "\n".join([*reversed(SETTINGS), "", *ROWS]),
    ],
)
def test_programs_write_it_differently(text: str) -> None:
    assert read(text).value == VALUE
    assert told(text) == []


def timed(*times: str, settings: list[str] | None = None) -> str:
    rows = [f"{moment},80,60" for moment in times]
    return "\n".join([*(settings or SETTINGS[1:]), "", "time,dry_bulb degF,relative_humidity_percent", *rows])


@pytest.mark.parametrize(
    ("times", "start", "step"),
    [
        (("2026-07-14T15:00", "2026-07-14T16:00", "2026-07-14T17:00"), "2026-07-14T15:00", 3600.0),
        (("2026-12-31 23:45", "2027-01-01 00:00"), "2026-12-31T23:45", 900.0),
        (("2028-02-28", "2028-02-29", "2028-03-01"), "2028-02-28", 86400.0),
        (("2026-07-14T15:00:30", "2026-07-14T15:01:30"), "2026-07-14T15:00:30", 60.0),
        (("2026-07-14", "2026-07-14T12:00", "2026-07-15"), "2026-07-14", 43200.0),
    ],
)
def test_a_column_of_times_tells_start_and_step(times: tuple[str, ...], start: str, step: float) -> None:
    table = read(timed(*times))
    assert table.faults == []
    assert (table.value["start"], table.value["step"]) == (start, {"value": step, "unit": "s"})
    assert told(timed(*times)) == []


def test_one_row_of_time_tells_the_start_only() -> None:
    assert "step" not in read(timed("2026-07-14T15:00")).value
    assert told(timed("2026-07-14T15:00", settings=[*SETTINGS[1:], "step,15,min"])) == []


@pytest.mark.parametrize(
    ("times", "line", "said"),
    [
        (("2026-02-30", "2026-03-01"), 6, "a date that exists"),
        (("2026-07-14T15:00", "noon"), 7, "expected a time"),
        (("2026-07-14T15:00", "2026-07-14T15:00"), 7, "does not come after"),
        (("2026-07-14T15:00", "2026-07-14T14:00"), 7, "does not come after"),
        # the night a clock goes forward
        (("2026-03-08T00:00", "2026-03-08T01:00", "2026-03-08T03:00"), 8, "expected 2026-03-08T02:00"),
        (("2026-07-14T15:00", "2026-07-14T16:00", "2026-07-14T17:00Z"), 8, "expected 2026-07-14T17:00"),
        (("2026-07-14T15:00", "2026-07-14T16:00", "20260714T170000"), 8, "expected 2026-07-14T17:00"),
        (("2026-07-14T15:00", "2026-07-14T15:00:10"), 7, "allowed 60 to 86400 s"),
        (("1900-01-01", "2099-01-01", "2298-01-02"), 8, "expected 2298-01-02"),
        (("1900-01-01", "2099-01-01"), 7, "allowed 60 to 86400 s"),
    ],
)
def test_a_time_that_does_not_follow_is_told_by_its_line(times: tuple[str, ...], line: int, said: str) -> None:
    faults = told(timed(*times))
    assert any((at, column) == (line, "time") and said in detail for at, column, detail in faults), faults


def test_a_cell_that_is_no_number_is_told_by_line_and_column() -> None:
    text = TEXT.replace("86.5,62", "86.5F,-62").replace("84,", ",")
    assert told(text) == [
        (8, "dry_bulb", 'Received "86.5F", which is not a number; allowed -58 to 140 degF.'),
        (9, "dry_bulb", 'Received "", which is not a number; allowed -58 to 140 degF.'),
        (8, "relative_humidity_percent", "Received -62.0; allowed 1 to 100."),
    ]


@pytest.mark.parametrize(
    "number",
    ["nan", "inf", "-Infinity", "1_0", "0x10", "1,5", "1e999", "٣", "1 0", "--1", "1.2.3", "e5", ".", "True", "=1"],
)
def test_what_python_or_a_spreadsheet_takes_for_a_number_is_none(number: str) -> None:
    faults = told(TEXT.replace("86.5", f'"{number}"'))
    assert [fault[:2] for fault in faults] == [(8, "dry_bulb")], faults


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("air_flow,", "airflow,", 2, 'Unknown setting "airflow"; did you mean "air_flow"?'),
        ("air_flow,1200,cfm", "air_flow,1200,scfm", 2, 'Received "scfm"; allowed: cfm, m3/h, L/s.'),
        ("air_flow,1200,cfm", "air_flow,1200", 2, "required and is missing; one of cfm"),
        ("air_flow,1200,cfm", "air_flow", 2, "Received 0 values for air_flow; a line of it holds name, number, unit."),
        ("air_flow,1200,cfm", "air_flow,1200,cfm,dry", 2, "Received 3 values for air_flow"),
        ("air_flow,1200,cfm", 'air_flow,"1,200",cfm', 2, 'Received "1,200", which is not a number'),
        ("air_flow,1200,cfm", "air_flow,5,cfm", 2, "allowed 10.595"),
        ("start,", "air_flow,1300,cfm\nstart,", 3, "The setting air_flow stands twice, first in line 1."),
        ("start,", "hourly,yes\nstart,", 1, 'Received "yes"; allowed: true, false.'),
        ("start,", "leaving_air,55,degF\nstart,", 1, 'Unknown setting "leaving_air"'),
        ("start,", "entering_air.dry_bulb,80,degF\nstart,", 1, 'Unknown setting "entering_air.dry_bulb"'),
        ("start,", "run_fraction,2\nstart,", 1, "Received 2.0; allowed 0 to 1."),
        ("2026-07-14T15:00", "14.07.2026", 1, "a date that exists"),
        ("leaving_air.relative_humidity_percent,92\n", "", 3, "exactly one of wet_bulb"),
        ("dry_bulb degF", "dry_bulb (degF)", 6, 'Received "(degF)"; allowed: degF'),
        ("dry_bulb degF", "dry_bulb", 6, "required and is missing; one of degF"),
        ("dry_bulb degF", "Dry_bulb degF", 6, 'Unknown column "Dry_bulb"; did you mean "dry_bulb"?'),
        ("relative_humidity_percent\n", "relative_humidity_percent %\n", 6, "leave the unit out"),
        ("relative_humidity_percent\n", "dry_bulb degF\n", 6, "The column dry_bulb stands twice."),
        ("86.5,62", "86.5,62,1", 8, "Received 3 cells; the header has 2."),
        ("86.5,62", "86.5", 8, 'Received "", which is not a number; allowed 1 to 100.'),
        ("86.5,62\n", "86.5,62\n\n", 9, "An empty line between the rows."),
    ],
)
def test_a_fault_is_told_by_its_line(old: str, new: str, line: int, said: str) -> None:
    assert old in TEXT
    faults = told(TEXT.replace(old, new, 1))
    assert any(at == line and said in detail for at, _, detail in faults), faults


def test_a_setting_and_a_column_of_one_name_exclude_each_other() -> None:
    text = TEXT.replace("start,", "run_fraction,0.5\nstart,").replace("_percent\n", "_percent,run_fraction\n")
    assert (7, "run_fraction", "run_fraction is a setting too, in line 1; give one of them.") in told(text)
    faults = told(timed("2026-07-14T15:00", "2026-07-14T16:00", settings=[*SETTINGS, "step,1,h"]))
    assert {fault[0] for fault in faults} == {1, 5}


def test_a_single_value_for_every_row_is_a_setting() -> None:
    assert read("run_fraction,0.5\n" + TEXT).value["run_fraction"] == [0.5]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n", "no header line"),
        (TEXT.replace("\n\n", "\n"), "no header line"),
        ("\n".join([*SETTINGS, "", ROWS[0]]), "no line of values"),
        ('"' + TEXT, "not CSV"),
        (TEXT.replace("88", '"88"x'), "not CSV"),
        ("x" * 200_000 + TEXT, "not CSV"),
        ("x,1\n" * (MOST_SETTINGS + 1), "no empty line"),
        (TEXT.replace("_percent\n", "_percent" + ",x" * 60 + "\n"), "62 cells"),
        (TEXT + "80,50\n" * 8784, "more than 8784 rows"),
    ],
)
def test_a_text_without_a_table_is_refused(text: str, said: str) -> None:
    with pytest.raises(MalformedTable, match=said):
        read(text)


def test_a_line_end_inside_quotes_does_not_shift_the_lines() -> None:
    faults = told(TEXT.replace("start,2026-07-14T15:00", 'start,"2026-07-14T15:00\n"').replace("86.5", "x"))
    assert faults == [(9, "dry_bulb", 'Received "x", which is not a number; allowed -58 to 140 degF.')]


WORDS = st.sampled_from(
    [*SETTINGS, *ROWS, "", ",", "88,60,", "time,dry_bulb degF", "2026-07-14T15:00,80", '"', "\r", "a"]
)


@given(st.text(max_size=60) | st.lists(WORDS | st.text(max_size=8), max_size=14).map("\n".join))
def test_no_text_is_too_strange(text: str) -> None:
    """It is read, refused as no table, or its faults are told; never anything else."""
    with contextlib.suppress(MalformedTable):
        assert all(detail for _, _, detail in told(text))


@given(
    st.lists(st.tuples(st.floats(-58, 140), st.floats(1, 100)), min_size=1, max_size=20),
    st.sampled_from(["\r\n", "\n"]),
    st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
)
def test_what_a_csv_writer_writes_is_read_back_to_the_last_bit(
    rows: list[tuple[float, float]], end: str, quoting: Any
) -> None:
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator=end, quoting=quoting).writerows(rows)
    text = end.join([*SETTINGS, "", ROWS[0], out.getvalue()])
    value = read(text).value["entering_air"]
    assert value["dry_bulb"]["values"] == [row[0] for row in rows]
    assert value["relative_humidity_percent"] == [row[1] for row in rows]


@pytest.mark.parametrize(
    ("write", "size"),
    [
        (lambda size: TEXT + "80,50\n" * size, 2195),
        (lambda size: "a\n" * size, 250_000),
        (lambda size: "\n" * size, 500_000),
        (lambda size: TEXT + "," * size, 500_000),
        (lambda size: TEXT.replace(ROWS[0], ",".join(["a"] * size)), 250_000),
        (lambda size: TEXT.replace(ROWS[0], ",".join(["dry_bulb degF"] * 50)) + "1\n" * size, 2000),
        (lambda size: TEXT + "x,y\n" * size, 2175),
        (lambda size: TEXT + '"' + "," * size, 500_000),
    ],
    ids=["year", "settings", "empty lines", "cells", "columns", "padding", "faults", "quoted"],
)
def test_a_large_text_costs_what_its_length_says(
    write: Callable[[int], str], size: int, check_linear: Callable[..., None]
) -> None:
    def prepare(length: int) -> Callable[[], None]:
        text = write(length)

        def work() -> None:
            with contextlib.suppress(MalformedTable):
                assert len(json.dumps(told(text))) < 100_000

        return work

    check_linear(prepare, size)
