"""Fall of a drain line: what a run needs, and what a measured fall makes of it."""

from service.calculations.answer import Answer, Assumption, Finding
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require

MINIMUM_PITCH = 1.0 / 96.0
"""1/8 in per ft, the least slope the codes allow (IMC 2021 307.2, IPC 2021 314.2)."""

MINIMUM_PITCH_ROUNDED = 0.01
"""The same clauses call that slope one percent; a line laid to one percent is not failed for the rounding."""

RECOMMENDED_PITCH = 1.0 / 48.0
"""1/4 in per ft, what the trade installs. Common practice, no source."""

RECOMMENDED_PITCH_ROUNDED = 0.02
"""The same as the trade writes it in percent; a line laid to two percent is not faulted for the rounding."""

FOOT = 0.3048

PITCH_CODES = ("line-runs-uphill", "line-is-level", "pitch-below-minimum", "pitch-below-usual")
"""Everything `judge_pitch` may find."""

LIMITS = {
    "run": Limit(0.05, 300.0),  # a stub between two fittings, to the longest line along a large building
    "fall": Limit(-10.0, 30.0),  # a line may run uphill by mistake; three storeys down
    "pitch_ratio": Limit(-1.0, 1.0),  # 45 degrees either way
}


@dataclass(frozen=True, kw_only=True, slots=True)
class DrainPitch:
    """Pitch and fall of a run.

    Parameters
    ----------
    pitch_ratio : float
        Fall over run, positive downstream [-].
    pitch_per_foot : float
        Fall in one foot of run [m].
    fall : float
        Fall over the whole run [m].
    minimum_fall : float
        Fall the codes ask of this run [m].
    recommended_fall : float
        Fall the trade installs on this run [m].
    """

    pitch_ratio: float
    pitch_per_foot: float
    fall: float
    minimum_fall: float
    recommended_fall: float


def pitch_drain(*, run: float, fall: float | None = None, pitch_ratio: float | None = None) -> Answer[DrainPitch]:
    """Work out the fall of a run from its pitch, or the pitch from its fall.

    Parameters
    ----------
    run : float
        Horizontal length of the line [m].
    fall : float or None
        Measured drop of the invert from the upstream to the downstream end [m]; negative uphill.
    pitch_ratio : float or None
        Fall over run [-]; with neither, the recommended pitch is assumed.

    Returns
    -------
    Answer of DrainPitch

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Examples
    --------
    1/4 in per ft over 32 ft is 8 in, by hand:

    >>> answer = pitch_drain(run=32 * 0.3048)
    >>> round(answer.results.fall / 0.0254, 9)
    8.0

    References
    ----------
    .. [1] International Mechanical Code 2021, 307.2.
    """
    require(LIMITS, run=run, fall=fall, pitch_ratio=pitch_ratio)
    assumptions: tuple[Assumption, ...] = ()
    if fall is not None:
        pitch = fall / run
    elif pitch_ratio is not None:
        pitch = pitch_ratio
    else:
        pitch = RECOMMENDED_PITCH
        note = "Neither fall nor pitch was given: the usual 1/4 in per ft (1 in 48). Common practice."
        assumptions = (Assumption(pointer="/pitch_ratio", value=pitch, note=note),)
    results = DrainPitch(
        pitch_ratio=pitch,
        pitch_per_foot=pitch * FOOT,
        fall=pitch * run,
        minimum_fall=MINIMUM_PITCH * run,
        recommended_fall=RECOMMENDED_PITCH * run,
    )
    pointer = "/fall" if fall is not None else "/pitch_ratio"
    return Answer(
        results=results,
        findings=judge_pitch(pitch, run=run, pointer=pointer),
        assumptions=assumptions,
        cautions=("local-code",),
        sources=("imc-slope", "common-practice"),
    )


def judge_pitch(pitch: float, *, run: float, pointer: str) -> tuple[Finding, ...]:
    """Judge one pitch against the code minimum and the usual one.

    Parameters
    ----------
    pitch : float
        Fall over run [-].
    run : float
        Length it holds over [m].
    pointer : str
        Request member the finding points at.

    Returns
    -------
    tuple of Finding
        None for a pitch at or above the usual one; a pitch short of a mark only by the last bits of a
        unit conversion meets it.
    """
    values = {
        "fall": pitch * run,
        "rise": -pitch * run,
        "run": run,
        "percent": 100.0 * pitch,
        "minimum_fall": MINIMUM_PITCH * run,
        "recommended_fall": RECOMMENDED_PITCH * run,
    }
    slack = 1e-9
    if pitch < 0.0:
        return (Finding(code="line-runs-uphill", pointer=pointer, values=values),)
    if pitch == 0.0:
        return (Finding(code="line-is-level", pointer=pointer, values=values),)
    if pitch < MINIMUM_PITCH_ROUNDED * (1.0 - slack):
        return (Finding(code="pitch-below-minimum", pointer=pointer, values=values),)
    if pitch < RECOMMENDED_PITCH_ROUNDED * (1.0 - slack):
        return (Finding(code="pitch-below-usual", pointer=pointer, values=values),)
    return ()
