"""The year of a cooling unit, against the calendar of the standard library and a walk through the months."""

import calendar
import itertools

import pytest

from service.calculations.upkeep_calendar import DAY, growth_since, read_year
from service.tables.upkeep.row import AUTUMN, MID_SEASON, SEASONS, SPRING, WINTER

EVERY_YEAR = list(itertools.product(range(1, 13), repeat=2))
LEAP_YEAR = 2028


@pytest.mark.parametrize(("starts", "ends"), EVERY_YEAR)
def test_months_are_walked_from_the_first_to_the_last(starts: int, ends: int) -> None:
    walked = [starts]
    while walked[-1] != ends:
        walked.append(walked[-1] % 12 + 1)
    year = read_year(starts, ends)
    assert list(year.cooling) == walked
    assert sorted(year.cooling + year.idle) == list(range(1, 13))
    assert year.idle_time == DAY * sum(calendar.monthrange(LEAP_YEAR, month)[1] for month in year.idle)
    assert not year.assumptions


@pytest.mark.parametrize(("starts", "ends"), EVERY_YEAR)
def test_each_seasons_months_are_where_its_work_falls_due(starts: int, ends: int) -> None:
    year = read_year(starts, ends)
    months = {season: year.months_of(season) for season in SEASONS}
    assert set(months[MID_SEASON]) <= set(year.cooling)
    assert set(months[WINTER]) <= set(year.idle)
    assert months[MID_SEASON]
    if year.idle:
        assert months[SPRING] == ((starts - 2) % 12 + 1,), "the month before the cooling"
        assert months[AUTUMN] == (ends % 12 + 1,), "the month after it"
        assert months[WINTER]
    else:
        assert (months[SPRING], months[AUTUMN], months[WINTER]) == ((starts,), (ends,), ())


def test_either_hemisphere() -> None:
    north, south = read_year(5, 9), read_year(11, 3)
    assert [north.months_of(season) for season in SEASONS] == [(4,), (6, 7, 8), (10,), (11, 12, 1, 2, 3)]
    assert [south.months_of(season) for season in SEASONS] == [(10,), (12, 1, 2), (4,), (5, 6, 7, 8, 9)]


@pytest.mark.parametrize(
    ("starts", "ends", "expected", "assumed"),
    [
        (None, None, (5, 6, 7, 8, 9), {"/cooling_starts": 5, "/cooling_ends": 9}),
        (11, None, (11, 12, 1, 2, 3), {"/cooling_ends": 3}),
        (None, 2, (10, 11, 12, 1, 2), {"/cooling_starts": 10}),
    ],
)
def test_a_month_that_is_not_given_is_assumed_and_said(
    starts: int | None, ends: int | None, expected: tuple[int, ...], assumed: dict[str, int]
) -> None:
    year = read_year(starts, ends)
    assert year.cooling == expected
    assert {row.pointer: row.value for row in year.assumptions} == assumed


@pytest.mark.parametrize(("starts", "ends"), [(5, 9), (11, 3), (7, 7), (1, 12), (3, 1), (6, 8)])
@pytest.mark.parametrize("months", [0, 1, 4, 7, 11, 12, 13, 26, 600])
def test_growth_since_the_cleaning_is_found_by_walking_back_from_every_month(
    starts: int, ends: int, months: int
) -> None:
    year = read_year(starts, ends)
    counts = []
    for now in range(12):
        walked = [(now - back) % 12 + 1 for back in range(months)]
        counts.append(len([month for month in walked if month in year.cooling]))
    assert growth_since(year, months) == (min(counts), max(counts))
