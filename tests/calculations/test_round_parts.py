"""Parts to carry: from findings, with size and amount, each once for a unit, added up over the round."""

from typing import Any

import pytest

from service.calculations.answer import Finding
from service.calculations.assessment import assess_unit
from service.calculations.installation import Cooling, LineAsBuilt, TrapAsBuilt
from service.calculations.round_parts import RoundPart, UnitPart, gather_parts, list_unit_parts, supports

FOOT, INCH, INCH_OF_WATER, TON = 0.3048, 0.0254, 249.08891, 3516.852842066667
LINE = LineAsBuilt(pipe_size="1", run=32 * FOOT)


def parts_of(*codes: str, **members: Any) -> dict[str, UnitPart]:
    values = {"spacing": 6 * FOOT, "allowed": 4 * FOOT, **members.pop("values", {})}
    facts = {"line": LINE, "trap": None, "pump": None, "run": 32 * FOOT, "usual_size": "3/4"} | members
    found = list_unit_parts(findings=[Finding(code=code, values=values) for code in codes], **facts)
    return {part.part: part for part in found}


def test_no_findings_ask_for_nothing() -> None:
    assert parts_of() == {}


@pytest.mark.parametrize(
    ("code", "part", "size"),
    [
        ("outlet-drop-too-small", "trap-pipe-and-fittings", "1"),
        ("line-not-cleanable", "cleanout-tee-and-cap", "1"),
        ("protection-missing", "drain-cut-out-switch", None),
        ("pump-falls-back", "pump-check-valve", None),
        ("pump-safety-float-unwired", "control-wire", None),
        ("pump-cannot-lift", "condensate-pump", None),
        ("second-trap-unvented", "vent-tee", "1"),
        ("discharge-without-air-gap", "air-gap-fitting", "1"),
        ("auxiliary-pan-shallow", "auxiliary-pan", None),
    ],
)
def test_a_finding_asks_for_its_part_in_its_size(code: str, part: str, size: str | None) -> None:
    found = parts_of(code)[part]
    assert (found.size, found.count, found.sure) == (size, 1, True)
    assert found.findings == (code,)


def test_a_trap_is_carried_in_its_own_size() -> None:
    trap = TrapAsBuilt(outlet_drop=0.0, seal_depth=0.0, pipe_size="3/4")
    assert parts_of("trap-without-seal", trap=trap)["trap-pipe-and-fittings"].size == "3/4"


def test_supports_are_counted() -> None:
    """By hand: 32 ft at 4 ft want nine supports; at 6 ft there are seven, so two more; hung anew, all nine."""
    assert (supports(32.0, 4.0), supports(33.0, 4.0)) == (9, 10)
    assert parts_of("supports-too-far-apart")["hanger"].count == 2
    assert parts_of("line-is-level")["hanger"].count == 9
    assert parts_of("supports-too-far-apart", "line-is-level")["hanger"].count == 9


def test_two_findings_that_ask_for_one_part_get_one() -> None:
    found = parts_of("outlet-drop-too-small", "trap-without-seal")["trap-pipe-and-fittings"]
    assert found.count == 1
    assert set(found.findings) == {"outlet-drop-too-small", "trap-without-seal"}


def test_a_line_too_small_is_carried_in_the_size_it_needs() -> None:
    """25 tons on a 3/4 in line want 1 in (IMC 2021 Table 307.2.2: over 20 to 40 tons)."""
    answer = assess_unit(
        cooling=Cooling(total_capacity=25 * TON, sensible_heat_ratio=0.75),
        line=LineAsBuilt(pipe_size="3/4", run=10.0, fall=0.21),
    )
    found = list_unit_parts(findings=answer.findings, line=LINE, trap=None, pump=None, run=10.0, usual_size="3/4")
    pipe = next(part for part in found if part.part == "pipe")
    assert (pipe.size, pipe.count, pipe.length) == ("1", 0, 10.0)
    assert parts_of("peak-flow-exceeds-line")["pipe"].size == "1-1/4"  # the next made above 1 in


def test_what_may_be_wanted_is_told_apart() -> None:
    unsure, sure = parts_of("protection-unknown"), parts_of("protection-missing")
    rows = gather_parts([(4, tuple(unsure.values())), (7, tuple(sure.values()))])
    assert rows == (
        RoundPart(
            part="drain-cut-out-switch",
            size=None,
            count=1,
            count_at_most=2,
            length=None,
            length_at_most=None,
            units=(4, 7),
            findings=("protection-unknown", "protection-missing"),
        ),
    )


def test_sizes_are_kept_apart_and_cement_is_carried_once() -> None:
    small, large = LineAsBuilt(pipe_size="3/4"), LineAsBuilt(pipe_size="1-1/4")
    rows = gather_parts(
        [
            (0, tuple(parts_of("line-not-cleanable", line=large).values())),
            (1, tuple(parts_of("line-not-cleanable", line=small).values())),
            (2, tuple(parts_of("line-not-cleanable", line=small).values())),
            (3, tuple(parts_of("pump-falls-back").values())),
        ]
    )
    told = [(row.part, row.size, row.count, row.units) for row in rows]
    assert told == [
        ("cleanout-tee-and-cap", "3/4", 2, (1, 2)),
        ("cleanout-tee-and-cap", "1-1/4", 1, (0,)),
        ("union", "3/4", 2, (1, 2)),
        ("union", "1-1/4", 1, (0,)),
        ("pump-check-valve", None, 1, (3,)),
        ("primer-and-cement", None, 1, (0, 1, 2)),
    ]


def test_a_plan_that_cuts_in_a_cleanout_carries_it_once() -> None:
    rows = parts_of("line-not-cleanable", carried=("cleanout-fittings", "union", "bucket"))
    assert (rows["cleanout-tee-and-cap"].count, rows["union"].count) == (1, 1)
    assert parts_of(carried=("cleanout-fittings",))["cleanout-tee-and-cap"].findings == ()
