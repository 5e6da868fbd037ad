"""What to tell about a condensate rate: can the readings carry it, is the coil as it should be."""

from service.calculations import saturation
from service.calculations.air_state import PAIR_ACCURACY, AirState, MeasuredAir
from service.calculations.answer import Finding
from service.calculations.coil import LOWEST_SURFACE_TEMPERATURE, CoilState
from service.errors import Contradiction
from service.tables.drain_sizes import TON

MOST_RATE_PER_TON = 0.5 * 3.785411784e-3 / 3600.0
"""0.5 US gal per ton-hour, about the most at high latent load [m3/s]. Common practice, no source."""

FREEZING = 273.15


def taken_otherwise(*airs: MeasuredAir) -> tuple[Finding, ...]:
    """What had to be taken otherwise than read.

    Parameters
    ----------
    *airs : MeasuredAir
        Air on either side.
    """
    return tuple(air.finding for air in airs if air.finding)


def judge_moisture(before: AirState, after: AirState, doubt: float, pressure: float) -> Finding | None:
    """Tell whether the leaving air is wetter than instruments could make drier air look.

    Parameters
    ----------
    before, after : AirState
        Air on both sides.
    doubt : float
        What the instruments may err in the difference of the humidity ratios [kg/kg].
    pressure : float
        Station pressure [Pa].

    Returns
    -------
    Finding or None

    Raises
    ------
    Contradiction
        When the leaving air holds more than the entering air can take up without being heated: its
        adiabatic saturation, saturated air at its wet bulb; or is hotter as well as wetter, for air that
        takes up water on its own cools. Short of that, air does pick up water over a wet coil while
        the compressor is off.
    """
    if after.humidity_ratio <= before.humidity_ratio + doubt:
        return None
    most = saturation.saturation_humidity_ratio(before.wet_bulb, pressure)
    values = {
        "entering_humidity_ratio": before.humidity_ratio,
        "leaving_humidity_ratio": after.humidity_ratio,
        "entering": before.wet_bulb,
        "most": most,
        "doubt": doubt,
    }
    if after.humidity_ratio > most + doubt:
        raise Contradiction("leaving-air-wetter-than-possible", "/leaving_air", values)
    if after.dry_bulb > before.dry_bulb + PAIR_ACCURACY:
        raise Contradiction(
            "leaving-air-hotter-and-wetter",
            "/leaving_air",
            {**values, "entering": before.dry_bulb, "leaving": after.dry_bulb},
        )
    return Finding(code="leaving-air-wetter", pointer="/leaving_air", values=values)


def compare_air(before: AirState, after: AirState, doubt: float, volume_flow: float) -> tuple[Finding, ...]:
    """Judge the readings on both sides of a coil against each other.

    Parameters
    ----------
    before, after : AirState
        Air on both sides, passed by `judge_moisture`.
    doubt : float
        What the instruments may err in the difference of the humidity ratios [kg/kg].
    volume_flow : float
        Water that one unit of humidity ratio makes at this air flow [m3/s].

    Returns
    -------
    tuple of Finding
    """
    findings = []
    removed = before.humidity_ratio - after.humidity_ratio
    values = {"difference": abs(removed), "doubt": doubt}
    if removed <= 0.0:
        findings.append(Finding(code="no-measurable-condensate", pointer="/leaving_air", values=values))
    elif removed < doubt:
        values["most"] = volume_flow * (removed + doubt)
        findings.append(Finding(code="rate-within-reading-accuracy", pointer="/leaving_air", values=values))
    if after.dry_bulb > before.dry_bulb + PAIR_ACCURACY:
        temperatures = {"entering": before.dry_bulb, "leaving": after.dry_bulb}
        findings.append(Finding(code="leaving-air-warmer", pointer="/leaving_air/dry_bulb", values=temperatures))
    return tuple(findings)


def judge_coil(coil: CoilState, entering: AirState) -> tuple[Finding, ...]:
    """Tell whether a coil is dry, frosts, or drives the air over saturation.

    Parameters
    ----------
    coil : CoilState
        The coil at work.
    entering : AirState
        Air before it.

    Returns
    -------
    tuple of Finding
    """
    values = {"surface": coil.surface_temperature, "dew_point": entering.dew_point}
    if not coil.wet:
        return (Finding(code="coil-is-dry", pointer="/total_capacity", values=values),)
    findings = []
    if coil.surface_temperature < FREEZING:
        findings.append(Finding(code="coil-will-frost", pointer="/total_capacity", values=values))
    if coil.fogged:
        findings.append(Finding(code="air-over-saturated", pointer="/entering_air", values=values))
    return tuple(findings)


def refuse_capacity(total_capacity: float, largest: float, air_flow: float) -> Finding:
    """Say that the air cannot give up so much heat.

    Parameters
    ----------
    total_capacity, largest : float
        Heat asked for, and the most a coil takes out [W].
    air_flow : float
        Volume flow of air [m3/s].
    """
    values = {
        "total_capacity": total_capacity,
        "largest": largest,
        "surface": LOWEST_SURFACE_TEMPERATURE,
        "air_flow": air_flow,
    }
    return Finding(code="capacity-beyond-air", pointer="/total_capacity", values=values)


def judge_rate(volume_rate: float, total_load: float, pointer: str) -> tuple[Finding, ...]:
    """Compare a rate with what the trade expects of each ton.

    Parameters
    ----------
    volume_rate : float
        Condensate [m3/s].
    total_load : float
        Heat taken out [W].
    pointer : str
        Member to point at.

    Returns
    -------
    tuple of Finding
    """
    most = MOST_RATE_PER_TON * total_load / TON
    if volume_rate <= most or total_load <= 0.0:
        return ()
    values = {"volume_rate": volume_rate, "total_load": total_load, "most": most}
    return (Finding(code="rate-above-usual", pointer=pointer, values=values),)
