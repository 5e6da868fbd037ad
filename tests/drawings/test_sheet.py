"""The sheet: labels that keep apart, words that cannot become markup."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from service.drawings.sheet import WIDTH, Sheet, spread, text_width, wrapped

numbers = st.floats(0.0, 500.0)


@given(st.lists(st.tuples(numbers, st.floats(1.0, 40.0)), min_size=1, max_size=12))
def test_labels_keep_their_distance_and_their_order(rows: list[tuple[float, float]]) -> None:
    rows.sort()
    targets, gaps = [row[0] for row in rows], [row[1] for row in rows]
    places = spread(targets, gaps, 0.0, 500.0)
    for (place, gap), (next_place, next_gap) in zip(
        zip(places, gaps, strict=True), list(zip(places, gaps, strict=True))[1:], strict=False
    ):
        assert next_place - place >= (gap + next_gap) / 2.0 - 1e-6
    if sum(gaps) <= 500.0:
        assert places[0] - gaps[0] / 2.0 >= -1e-6
        assert places[-1] + gaps[-1] / 2.0 <= 500.0 + 1e-6


def test_a_label_alone_stands_where_it_belongs() -> None:
    assert spread([10.0, 90.0], [8.0, 8.0], 0.0, 100.0) == [10.0, 90.0]


@given(st.text(max_size=300), st.floats(60.0, 340.0))
def test_a_wrapped_line_is_no_wider_than_asked(text: str, width: float) -> None:
    for line in wrapped(text, width):
        assert len(line) <= 8 or text_width(line) <= width


def test_words_cannot_become_markup() -> None:
    hostile = '</title><script>alert("&")</script>'
    sheet = Sheet(hostile, hostile)
    sheet.text(10, 10, hostile)
    sheet.findings([{"severity": "fail", "message": hostile}])
    root = ET.fromstring(sheet.write())  # noqa: S314  our own output
    assert {element.tag.rpartition("}")[2] for element in root.iter()} == {"svg", "title", "desc", "rect", "text"}
    assert root[0].text == hostile
    assert root[1].text == hostile


def test_the_sheet_grows_with_what_is_on_it() -> None:
    sheet = Sheet("A title", "A description")
    before = sheet.bottom
    sheet.paragraph("word " * 200)
    assert sheet.bottom > before + 100.0
    assert f"0 0 {WIDTH:g}" in sheet.write().replace(".0", "")


def test_what_is_only_noted_is_left_out() -> None:
    sheet = Sheet("A title", "A description")
    sheet.findings([{"severity": "info", "message": "a mere note"}])
    assert "a mere note" not in sheet.write()
    assert "Nothing here needs mending." in sheet.write()
