"""Cross-checks of an assessment: what shows only when the parts are seen together."""

from service.calculations.drain_sizing import DrainSizing
from service.calculations.drain_survey import DrainSurvey
from service.calculations.drain_survey_judgement import PLASTIC_SUPPORT_SPACING
from service.calculations.gathering import Gathering
from service.calculations.installation import Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.calculations.overflow_time import Protection
from service.tables.pipe_sizes import NOMINAL_SIZES

SAME_RUN = 0.1
"""A run and a survey that differ by less than this share mean the same length of line."""

READING_BAND = 1.5
"""A jug and a clock against readings of the same hour agree within this factor. Common practice, no source."""

PEAK_BAND = 1.25
"""A caught rate this far above what the rating can make means a wrong rating, or other water. Common practice."""

SANITARY = ("sanitary-line", "soil-stack")
DAMAGED = ("finished-ceiling", "occupied-space", "electrical-equipment", "stored-goods")
HIDDEN = ("attic", "above-ceiling", "crawl-space")


def check_measured_rate(
    gathering: Gathering, measured: float | None, at_the_time: float | None, peak: float | None
) -> float | None:
    """Compare the caught rate with the computed ones.

    Parameters
    ----------
    gathering : Gathering
    measured : float or None
        Caught rate [m3/s].
    at_the_time : float or None
        Rate from air states of the visit [m3/s]: agrees both ways.
    peak : float or None
        Largest computed rate [m3/s]: an upper bound only.

    Returns
    -------
    float or None
        Measured over computed rate [-], against the air states where there are any.
    """
    predicted = at_the_time or peak
    if not measured or not predicted:
        return None
    ratio = measured / predicted
    values = {"measured": measured, "predicted": predicted, "percent": 100.0 * ratio}
    if ratio > (READING_BAND if at_the_time else PEAK_BAND):
        gathering.note("measured-above-computed", "/measured_rate", **values)
    elif at_the_time and ratio < 1.0 / READING_BAND:
        gathering.note("measured-below-computed", "/measured_rate", **values)
    return ratio


def check_trap_surroundings(
    gathering: Gathering, trap: TrapAsBuilt | None, pan_pressure: float | None, can_freeze: bool | None
) -> None:
    """Look at what stands around the trap: other units, frost."""
    if trap and trap.serves_one_unit is False:
        gathering.note("trap-shared", "/trap/serves_one_unit")
    if can_freeze:
        gathering.note("drain-can-freeze", "/can_freeze")
        gathering.warn("freezing")


def check_line_details(gathering: Gathering, line: LineAsBuilt, sizing: DrainSizing | None) -> None:
    """Compare the line as built with the size it needs, and look at supports, cleanouts and second traps."""
    if line.pipe_size and sizing and sizing.pipe_size and _rank(line.pipe_size) < _rank(sizing.pipe_size):
        gathering.note(
            "line-smaller-than-needed",
            "/line/pipe_size",
            pipe_size=line.pipe_size,
            needed=sizing.pipe_size,
            total_capacity=sizing.total_capacity,
        )
    if line.pipe_size and line.pan_outlet and _rank(line.pipe_size) < _rank(line.pan_outlet):
        gathering.note(
            "line-smaller-than-pan-outlet", "/line/pipe_size", pipe_size=line.pipe_size, pan_outlet=line.pan_outlet
        )
    if line.cleanout == "none":
        gathering.note("line-not-cleanable", "/line/cleanout")
        gathering.cite("imc-cleanable")
    elif line.cleanout == "solvent-welded":
        gathering.note("cleanout-welded", "/line/cleanout")
    plastic = line.material is None or line.material.startswith(("pvc", "cpvc"))
    if line.support_spacing is not None and plastic and line.support_spacing > PLASTIC_SUPPORT_SPACING * (1.0 + 1e-9):
        gathering.note(
            "supports-too-far-apart",
            "/line/support_spacing",
            spacing=line.support_spacing,
            allowed=PLASTIC_SUPPORT_SPACING,
        )
        gathering.cite("imc-supports")
    if line.second_trap_unvented:
        gathering.note("second-trap-unvented", "/line/second_trap_unvented")


def check_survey(gathering: Gathering, line: LineAsBuilt, survey: DrainSurvey | None) -> None:
    """Compare the fall given for the whole line with that of its stations, within their tolerance."""
    if survey is None or line.fall is None or line.run is None or abs(line.run - survey.run) > SAME_RUN * line.run:
        return
    if abs(line.fall - survey.total_fall) > 2.0 * survey.measurement_tolerance * (1.0 + 1e-9) + 1e-9:
        gathering.note("fall-differs-from-survey", "/line/fall", fall=line.fall, surveyed=survey.total_fall)


def check_disposal(gathering: Gathering, discharge: Discharge | None, trap: TrapAsBuilt | None) -> None:
    """Judge the place the water goes to."""
    if discharge is None:
        gathering.note("part-not-assessed", "/discharge", part="Place of disposal", missing="discharge")
        return
    if discharge.place in SANITARY:
        place = discharge.place.replace("-", " ")
        if discharge.air_gap is not True:
            gathering.note("discharge-into-sanitary", "/discharge/place", place=place)
            gathering.warn("sewer-gas")
            if trap is None or not trap.seal_depth:
                gathering.note("sanitary-without-trap", "/discharge/place", place=place)
            elif not trap.kept_full_off_season:
                gathering.note("sanitary-trap-dries-out", "/trap/kept_full_off_season", place=place)
    elif discharge.place in ("walkway", "roof-surface"):
        gathering.note("discharge-is-a-nuisance", "/discharge/place", place=discharge.place.replace("-", " "))
    elif discharge.place in ("storm-drain", "outdoors", "dry-well"):
        words = "place outdoors" if discharge.place == "outdoors" else discharge.place.replace("-", " ")
        gathering.note("discharge-needs-approval", "/discharge/place", place=words)
    elif discharge.air_gap is False:
        gathering.note("discharge-without-air-gap", "/discharge/air_gap", place=discharge.place.replace("-", " "))


def check_protection(
    gathering: Gathering,
    protection: Protection | None,
    pump: PumpAsBuilt | None,
    below: str | None,
    location: str | None,
) -> None:
    """Compare the overflow protection with what the water would wet."""
    damaged = below in DAMAGED
    words = (below or "").replace("-", " ")
    if damaged and protection is None:
        gathering.note("protection-unknown", "/overflow_protection", below=words)
        gathering.warn("water-damage")
    elif damaged and protection is not None and protection.kind == "none":
        gathering.note("protection-missing", "/overflow_protection", below=words)
        gathering.warn("water-damage")
        gathering.cite("imc-overflow", "irc-overflow")
    if pump and location in HIDDEN and pump.pump.safety_float is None:
        gathering.note("hidden-pump-unprotected", "/pump/pump/safety_float", location=location.replace("-", " "))
        gathering.cite("irc-pump")


def _rank(pipe_size: str) -> int:
    return NOMINAL_SIZES.index(pipe_size)
