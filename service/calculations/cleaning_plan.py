"""How to clean this drain with the access there is, what to carry, and how to prove that it drains.

References
----------
.. [1] International Mechanical Code 2021, 307.2.5, and International Residential Code 2021, M1411.3.3: a
   condensate drain must be cleared without cutting it.
"""

from service.calculations.answer import Answer, Assumption, Sentence
from service.calculations.cleaning_carry import CarriedItem, list_what_to_carry
from service.calculations.cleaning_gas import GasUse, use_gas
from service.calculations.cleaning_job import Job, Step
from service.calculations.cleaning_judgement import Facts, judge_plan
from service.calculations.cleaning_method import GAS_METHODS, RefusedMethod, choose_method, find_way_in
from service.calculations.cleaning_site import ACCESS_LIMITS, Access, Equipment, settle_site
from service.calculations.cleaning_steps import order_work
from service.calculations.cleaning_water import PEAK_LIMITS, plan_water
from service.calculations.closing_test import POUR_LIMITS, ClosingTest
from service.calculations.drain_pitch import LIMITS as PITCH_LIMITS
from service.calculations.drain_sizing import LIMITS as SIZING_LIMITS
from service.calculations.frozen import dataclass
from service.calculations.gas_supply import GAS_LIMITS
from service.calculations.installation import Discharge, LineAsBuilt, PumpAsBuilt, TrapAsBuilt
from service.calculations.limits import require
from service.calculations.overflow_protection import PAN_LIMITS, WaterPan
from service.calculations.trap_check import LIMITS as TRAP_LIMITS

LIMITS = {
    "peak_flow": PEAK_LIMITS["peak_flow"],
    "pour_rate": POUR_LIMITS["pour_rate"],
    "working_pressure": GAS_LIMITS["working_pressure"],
    "sweeps": GAS_LIMITS["sweeps"],
    "gas_temperature": GAS_LIMITS["gas_temperature"],
}


@dataclass(frozen=True, kw_only=True, slots=True)
class CleaningPlan:
    """The visit.

    Parameters
    ----------
    unit_id : str or None
        As sent.
    method : str
        What clears the drain; one of `service.tables.cleaning_methods.METHODS`.
    reasons : tuple of Sentence
        Why.
    alternatives : tuple of str
        Methods that might be used as well.
    refused_methods : tuple of RefusedMethod
        Methods that may not be used here, one row for each reason.
    steps : tuple of Step
        In order.
    total_minutes, good_access_minutes : float
        Time on site [min], and what it would be with good access.
    carry : tuple of CarriedItem
        What to take to the unit.
    gas : GasUse or None
        What the gas on the truck does for this drain.
    closing_test : ClosingTest
        What to pour and what to see.
    """

    unit_id: str | None
    method: str
    reasons: tuple[Sentence, ...]
    alternatives: tuple[str, ...]
    refused_methods: tuple[RefusedMethod, ...]
    steps: tuple[Step, ...]
    total_minutes: float
    good_access_minutes: float
    carry: tuple[CarriedItem, ...]
    gas: GasUse | None
    closing_test: ClosingTest


def plan_cleaning(
    *,
    unit_id: str | None = None,
    location: str | None = None,
    access: Access | None = None,
    fouled: tuple[str, ...] | None = None,
    trap: TrapAsBuilt | None = None,
    line: LineAsBuilt | None = None,
    pan: WaterPan | None = None,
    pump: PumpAsBuilt | None = None,
    pumped: bool | None = None,
    discharge: Discharge | None = None,
    peak_flow: float | None = None,
    equipment: Equipment | None = None,
    pour_rate: float | None = None,
    working_pressure: float | None = None,
    sweeps: float | None = None,
    gas_temperature: float | None = None,
) -> Answer[CleaningPlan]:
    """Plan the cleaning of one unit's drain, from make safe to the proof that it drains.

    Parameters
    ----------
    unit_id : str or None
        Identification, repeated back.
    location : str or None
        One of `installation.LOCATIONS`.
    access : Access or None
        What of the drain can be got at, the cleanout aside, which is the line's.
    fouled : tuple of str or None
        Of `cleaning_site.FOULED`; everything there is when None.
    trap : TrapAsBuilt or None
        Its dimensions tell what fills it.
    line : LineAsBuilt or None
        Drain line, with its cleanout.
    pan : WaterPan or None
        The unit's own pan.
    pump : PumpAsBuilt or None
        Condensate pump with its tube.
    pumped : bool or None
        Whether there is a pump, where nothing more is known of it.
    discharge : Discharge or None
        Where the water goes.
    peak_flow : float or None
        Condensate of the peak hour [m3/s].
    equipment : Equipment or None
        What is on the truck.
    pour_rate : float or None
        Of the closing test [m3/s].
    working_pressure : float or None
        Of gas in the line [Pa gauge].
    sweeps : float or None
        Times that gas fills the open line after the blockage has gone [-].
    gas_temperature : float or None
        Of gas and line [K].

    Returns
    -------
    Answer of CleaningPlan

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS` or the limits of its part.

    Notes
    -----
    Method: the first that nothing forbids; see `cleaning_method`. Order: safe, look, float switch out, open, brush,
    close openings, push or pull, close up, rinse, pump, refill the trap, prove, safety back and tripped.

    Examples
    --------
    Nothing known: the plan pulls at the far end, and says what it took for granted.

    >>> answer = plan_cleaning()
    >>> answer.results.method, answer.results.steps[0].code, answer.results.steps[-1].code
    ('wet-dry-vacuum', 'make-safe', 'trip-test')
    """
    _require_all(
        trap,
        line,
        pan,
        equipment,
        peak_flow=peak_flow,
        pour_rate=pour_rate,
        working_pressure=working_pressure,
        sweeps=sweeps,
        gas_temperature=gas_temperature,
    )
    site, site_notes = settle_site(
        location=location,
        access=access,
        fouled=fouled,
        line=line,
        pump=pump,
        pumped=pumped,
        discharge=discharge,
        equipment=equipment,
    )
    way = find_way_in(site)
    water = plan_water(
        site=site, pour_place=way.pour_place, trap=trap, pan=pan, pump=pump, peak_flow=peak_flow, pour_rate=pour_rate
    )
    gas, gas_notes = use_gas(
        volume=water.pipe_volume,
        cylinder=site.equipment.cylinder,
        cartridge_gun=site.equipment.cartridge_gun,
        working_pressure=working_pressure,
        sweeps=sweeps,
        gas_temperature=gas_temperature,
    )
    choice = choose_method(site, way, gas)
    job = Job(
        site=site,
        way=way,
        choice=choice,
        gas=gas,
        test=water.test,
        rinse_volume=water.pipe_volume,
        tube_volume=water.tube_volume,
        has_trap=water.has_trap,
        safety_float=pump.pump.safety_float if pump else None,
        safety_volume=water.safety_volume,
    )
    work = order_work(job)
    facts = Facts(
        job=job,
        work=work,
        water=water,
        discharge=discharge,
        pump=pump,
        pumped=pumped,
        pan=pan,
        trap=trap,
        cylinder=site.equipment.cylinder,
    )
    findings = judge_plan(facts)
    codes = {finding.code for finding in findings}
    results = CleaningPlan(
        unit_id=unit_id,
        method=choice.method,
        reasons=choice.reasons,
        alternatives=choice.alternatives,
        refused_methods=choice.refused,
        steps=work.steps,
        total_minutes=work.minutes,
        good_access_minutes=work.good_minutes,
        carry=list_what_to_carry(job),
        gas=gas,
        closing_test=water.test,
    )
    return Answer(
        results=results,
        findings=findings,
        assumptions=_once((*site_notes, *water.assumptions, *gas_notes)),
        cautions=_cautions(work.steps, codes),
        sources=_sources(job, codes),
    )


def _require_all(
    trap: TrapAsBuilt | None,
    line: LineAsBuilt | None,
    pan: WaterPan | None,
    equipment: Equipment | None,
    **numbers: float | None,
) -> None:
    """Hold every number to its limit; those of a pump are the pump run's to hold."""
    require(LIMITS, **numbers)
    if trap:
        require(TRAP_LIMITS, outlet_drop=trap.outlet_drop, seal_depth=trap.seal_depth)
    if pan:
        require(PAN_LIMITS, area=pan.area, depth=pan.depth, water_depth=pan.water_depth)
    if line:
        require(PITCH_LIMITS, run=line.run, fall=line.fall)
        require(SIZING_LIMITS, manning_coefficient=line.manning_coefficient)
    if equipment:
        if equipment.brush:
            require(ACCESS_LIMITS, brush_length=equipment.brush.length)
        if equipment.cartridge_gun:
            require(GAS_LIMITS, cartridge_mass=equipment.cartridge_gun.cartridge_mass)
        if equipment.cylinder:
            names = (
                "internal_volume",
                "full_content",
                "full_pressure",
                "pressure",
                "content",
                "nozzle_bore",
                "discharge_coefficient",
            )
            require(GAS_LIMITS, **{name: getattr(equipment.cylinder, name) for name in names})


def _once(assumptions: tuple[Assumption, ...]) -> tuple[Assumption, ...]:
    """Each pointer once, the last that was said of it."""
    return tuple({assumption.pointer: assumption for assumption in assumptions}.values())


def _cautions(steps: tuple[Step, ...], codes: set[str]) -> tuple[str, ...]:
    """Cautions of the steps in their order, each once, and what holds for the whole visit."""
    cautions: dict[str, None] = {}
    for step in steps:
        for caution in step.cautions:
            cautions[caution] = None
    if "discharge-into-sanitary" in codes:
        cautions["sewer-gas"] = None
    return (*cautions, "local-code")


def _sources(job: Job, codes: set[str]) -> tuple[str, ...]:
    """What this answer rests on."""
    sources = ["common-practice", "manning", "hydrostatics", "astm-d1785"]
    if codes & {"cleaning-starts-with-cutting", "line-not-cleanable"}:
        sources += ["imc-cleanable", "irc-cleanable"]
    if job.site.pumped:
        sources += ["darcy", "iapws-liquid-water"]
    if job.gas:
        sources += ["gas-equations-of-state", "naca-1135"]
    if job.choice.method in GAS_METHODS and "gas-in-small-room" in codes:
        sources.append("oxygen-deficiency")
    return tuple(sources)
