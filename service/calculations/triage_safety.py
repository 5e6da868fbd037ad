"""What to make safe first: the situations that the facts make, and the steps they call for."""

from collections.abc import Mapping
from typing import Any

from service.calculations.assessment_checks import DAMAGED
from service.calculations.triage_ranking import Known
from service.tables.triage.make_safe import MAKE_SAFE, SafeStep
from service.tables.triage.scale import SymptomRow

HIGH_PLACES = ("attic", "above-ceiling", "roof")
_SAFETY_FLOATS = frozenset(("safety-open-on-full-tank", "safety-open-on-full-pan", "safety-float-stuck"))
_FLOAT_UP = frozenset((("float_state", "up-in-water"), ("float_state", "up-without-water")))
_ICED = ("coil", "iced")


def make_safe_first(
    *,
    symptom: SymptomRow,
    known: Known,
    water_near_electrical: bool | None,
    building_getting_wet: bool | None,
    unit: Mapping[str, Any] | None,
) -> tuple[SafeStep, ...]:
    """Say what to make safe before the first check, in order.

    Parameters
    ----------
    symptom : SymptomRow
    known : mapping
        What is known, what the symptom itself says included.
    water_near_electrical, building_getting_wet : bool or None
        As reported.
    unit : mapping or None
        The unit's data.

    Returns
    -------
    tuple of SafeStep
    """
    where = {value for name, value in known if name == "water_shows"}
    wet = building_getting_wet or water_near_electrical or (symptom.wet and where != {"nowhere"})
    wet = bool(wet or where - {"nowhere"})
    unit = unit or {}
    situations = {
        "always": True,
        "water-near-electrical": water_near_electrical is True,
        "wet-electrical-not-known": wet and water_near_electrical is None,
        "held-water": ("fan_state", "just-stopped") in known or ("outlet_drop", "too-small") in known,
        "water-coming": wet,
        "iced": _ICED in known,
        "building-wet": building_getting_wet is True,
        "damage-below": wet and unit.get("below") in DAMAGED,
        "sewer-gas": ("smell", "sewer") in known,
        "safety-may-be-open": not (_FLOAT_UP.isdisjoint(known) and _SAFETY_FLOATS.isdisjoint(symptom.causes())),
        "at-a-height": unit.get("location") in HIGH_PLACES,
        "pump": ("pump", "fitted") in known,
    }
    given = {name for name, holds in situations.items() if holds}
    return tuple(step for step in MAKE_SAFE if not given.isdisjoint(step.when))
