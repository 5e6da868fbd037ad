"""What a timed pump-out proves, and what a person should know about it."""

from service.calculations.answer import Finding
from service.calculations.frozen import dataclass
from service.calculations.pump_curve import PumpCurve
from service.calculations.pump_judgement import NEAR_SHUT_OFF
from service.calculations.pump_out import MeasuredFlow
from service.calculations.pump_restriction_results import PumpRestriction
from service.calculations.pump_tube import TubeRun

SHORT_CAUSES = ("cannot-tell", "restriction", "worn-pump", "restriction-and-worn-pump")
"""Those in which something is to be put right."""

WIDE_SPREAD = 0.5
"""Width of the range over the flow from which a measurement says little. Common practice, no source."""

FINE_TIME = 20.0
"""Times the stopwatch's uncertainty that a pump-out should last: 5 % either way. Common practice, no source."""

MUCH_FILLING = 0.1
"""Share of the volume that fills the empty tube from which the mean flow says little. Common practice, no source."""

SAME = 1e-9
"""Relative difference of two flows that is rounding."""

_Values = dict[str, float | str]


@dataclass(frozen=True, kw_only=True, slots=True)
class Evidence:
    """The facts a pump-out is judged by.

    Parameters
    ----------
    curve : PumpCurve
        The curve used.
    tube : TubeRun
        As it is when clean.
    lift : float
        Static lift [m].
    measured : MeasuredFlow
        The flow and its range.
    second : str or None
        Pointer to the second measurement that was used.
    """

    curve: PumpCurve
    tube: TubeRun
    lift: float
    measured: MeasuredFlow
    second: str | None


def name_cause(
    *, expected: float, measured: MeasuredFlow, second: bool, least_head: float | None, most_speed_ratio: float | None
) -> str:
    """Name what the measurements prove.

    Parameters
    ----------
    expected : float
        Flow that leaflet and clean tube promise [m3/s].
    measured : MeasuredFlow
        The flow and its range.
    second : bool
        Whether the pump was measured alone as well.
    least_head : float or None
        Least head that the restriction takes, the pump being as it was measured [m].
    most_speed_ratio : float or None
        Greatest speed ratio of the pump that fits the second measurement.

    Returns
    -------
    str
        One of `CAUSES`.
    """
    short = falls_short(expected, measured)
    if second:
        pinched = least_head is not None and least_head > 0.0
        worn = most_speed_ratio is not None and most_speed_ratio < 1.0 - SAME
        if pinched or worn:
            return "restriction-and-worn-pump" if pinched and worn else "restriction" if pinched else "worn-pump"
    if short:
        return "cannot-tell"
    return "more-than-expected" if measured.least > expected * (1.0 + SAME) else "none-shown"


def falls_short(expected: float, measured: MeasuredFlow) -> bool:
    """Tell whether even the greatest flow that fits the readings is below the expected one [m3/s]."""
    return measured.most is not None and measured.most < expected * (1.0 - SAME)


def judge_restriction(evidence: Evidence, found: PumpRestriction) -> tuple[Finding, ...]:
    """Judge a pump-out: what it proves, how near to shut-off the pump works, how good the measurement is.

    Parameters
    ----------
    evidence : Evidence
        The facts.
    found : PumpRestriction
        The results.

    Returns
    -------
    tuple of Finding
    """
    return (
        *_cause_findings(evidence, found),
        *_shut_off_findings(evidence, found),
        *_measurement_findings(evidence, found),
        *_leaflet_findings(evidence, found),
    )


def _cause_findings(evidence: Evidence, found: PumpRestriction) -> list[Finding]:
    """Say what the measurements prove."""
    findings, cause = [], found.cause
    values: _Values = {
        "flow": found.flow,
        "least_flow": found.least_flow,
        "most_flow": found.most_flow or found.flow,
        "expected": found.expected_flow,
        "head": found.restriction_head or 0.0,
        "time": found.expected_time or 0.0,
        "shut_off": found.shut_off_head_by_leaflet,
        "tube_off_flow": found.tube_off_flow_by_leaflet,
    }
    if cause == "more-than-expected":
        return [Finding(code="flow-above-expected", pointer="/pump_out", values=values)]
    if cause == "none-shown":
        values["hidden_bore"] = found.narrowest_pinch_bore or evidence.tube.narrowest.bore
        # without an upper end there is nothing that the expected flow could lie within
        ranged = found.most_flow is not None
        return [Finding(code="no-restriction", pointer="/pump_out", values=values)] if ranged else []
    if "restriction" in cause or cause == "cannot-tell":
        code = "flow-below-expected" if cause == "cannot-tell" else "restriction-found"
        findings.append(Finding(code=code, pointer="/pump_out", values=values | _bores(evidence, found)))
    if "worn-pump" in cause:
        values["percent"] = 100.0 * (found.measured_speed_ratio or 0.0)
        findings.append(Finding(code="pump-worn", pointer=evidence.second or "", values=values))
    if cause == "cannot-tell":
        values |= {
            "percent": 100.0 * (found.equivalent_speed_ratio or 0.0),
            "worn_shut_off": found.shut_off_head_if_worn or 0.0,
            "worn_flow": found.tube_off_flow_if_worn or 0.0,
        }
        code = "second-measurement-cannot-tell" if evidence.second else "measurement-cannot-tell"
        findings.append(Finding(code=code, pointer=evidence.second or "/pump_out", values=values))
    return findings


def _bores(evidence: Evidence, found: PumpRestriction) -> _Values:
    """The two bores a finding names; where even a shut tube would not do, the one of no bore is told."""
    return {
        "bore": evidence.tube.narrowest.bore,
        "pinch_bore": found.equivalent_pinch_bore or 0.0,
        "tube_bore": found.equivalent_tube_bore or 0.0,
    }


def _shut_off_findings(evidence: Evidence, found: PumpRestriction) -> list[Finding]:
    """Say where the motor works near shut-off: behind a restriction, or by the installation itself."""
    shut_off = evidence.curve.shut_off
    if found.expected_flow > 0.0 and found.expected_head >= NEAR_SHUT_OFF * shut_off:
        values: _Values = {"head": found.expected_head, "shut_off": shut_off}
        return [Finding(code="pump-near-shut-off", pointer="/lift", values=values)]
    near = found.head_over_shut_off is not None and found.head_over_shut_off >= NEAR_SHUT_OFF
    if near and found.cause in ("cannot-tell", "restriction"):
        values = {
            "head": found.head_made or 0.0,
            "shut_off": shut_off,
            "percent": 100.0 * (found.head_over_shut_off or 0.0),
        }
        return [Finding(code="restriction-near-shut-off", pointer="/pump_out", values=values)]
    return []


def _measurement_findings(evidence: Evidence, found: PumpRestriction) -> list[Finding]:
    """Say where the measurement itself is the weak point."""
    measured, findings = evidence.measured, []
    values: _Values = {"flow": found.flow, "least_flow": measured.least, "fill": measured.filling}
    if measured.filling >= MUCH_FILLING * measured.volume and measured.filling > 0.0:
        values["percent"] = 100.0 * measured.filling / measured.volume
        findings.append(Finding(code="tube-fills-first", pointer="/pump_out/measured_at", values=values))
    elif measured.spread is None or measured.spread > WIDE_SPREAD:
        values["times"] = FINE_TIME
        findings.append(Finding(code="measurement-too-coarse", pointer="/pump_out", values=values))
    return findings


def _leaflet_findings(evidence: Evidence, found: PumpRestriction) -> list[Finding]:
    """What leaflet and tube leave open."""
    curve, findings = evidence.curve, []
    if found.least_measured_speed_ratio is not None and found.least_measured_speed_ratio > 1.0 + SAME:
        values: _Values = {"percent": 100.0 * (found.measured_speed_ratio or 0.0)}
        findings.append(Finding(code="pump-stronger-than-leaflet", pointer="/pump/curve", values=values))
    if evidence.tube.length < evidence.lift:
        values = {"length": evidence.tube.length, "lift": evidence.lift}
        findings.append(Finding(code="pump-tube-shorter-than-lift", pointer="/tube/length", values=values))
    if curve.rising:
        values = {"lift": curve.rising.lift, "flow": curve.rising.flow}
        findings.append(Finding(code="pump-curve-rises", pointer="/pump/curve", values=values))
    if not curve.reaches_zero:
        values = {"lift": curve.points[-1].lift, "flow": curve.points[-1].flow}
        findings.append(Finding(code="pump-curve-ends-early", pointer="/pump/curve", values=values))
    if 0.0 < found.expected_head < curve.points[0].lift * (1.0 - SAME):
        values = {"lift": curve.points[0].lift, "flow": curve.points[0].flow, "head": found.expected_head}
        findings.append(Finding(code="pump-curve-starts-late", pointer="/pump/curve", values=values))
    return findings
