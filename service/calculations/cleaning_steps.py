"""The work in its order: each step with its place, tool, openings to close, minutes and cautions."""

from collections.abc import Mapping

from service.calculations.answer import Sentence, Value
from service.calculations.cleaning_job import Job, Step, Work
from service.calculations.cleaning_method import GAS_METHODS, is_slow
from service.calculations.cleaning_site import PUMP_PARTS, Site
from service.tables.cleaning_methods import CARTRIDGE, CARTRIDGES, HIGH_PLACES, OPEN_PLACES, UNKNOWNS
from service.tables.cleaning_step_row import IN_WORDS, OPENINGS, StepRow
from service.tables.cleaning_steps import STEPS
from service.tables.gases import GASES

SLOW_FACTOR = 4.0
"""Time on site with a cleanout that does not open by hand, or without a union, over that with both. Common practice,
no source."""


def order_work(job: Job) -> Work:
    """Put the steps in order.

    Parameters
    ----------
    job : Job
        What is to be done.

    Returns
    -------
    Work
        Where access is bad, `SLOW_FACTOR` times the time of good access; the extra time stands where access costs it:
        cutting, brushing, pushing or pulling, rinsing. The pump and the pour of the closing test take their own time,
        whatever the access.
    """
    bench = _Bench()
    for build in (_make_safe, _open, _clean, _push_or_pull, _close, _rinse, _clean_pump, _prove, _give_back):
        build(job, bench)
    hands_on = at_the_line = parts = 0.0
    for laid in bench.laid:
        row = laid[0]
        hands_on += row.minutes
        parts += row.slowed
        if not row.place.startswith("pump"):
            at_the_line += row.minutes
    slow = is_slow(job.site, job.way, job.choice.method) and parts > 0.0
    extra = (SLOW_FACTOR - 1.0) * at_the_line / parts if slow else 0.0
    pouring = job.test.pour_time / 60.0
    values, total = _values(job), 0.0
    steps = []
    for order, (row, place, tool, plug_first, pressure_limit, cautions) in enumerate(bench.laid, 1):
        minutes = row.minutes + extra * row.slowed + (pouring if row.code == "closing-test" else 0.0)
        total += minutes
        steps.append(
            Step(
                order=order,
                row=row,
                values=values,
                place=place,
                plug_first=plug_first,
                tool=tool,
                pressure_limit=pressure_limit,
                minutes=minutes,
                cautions=cautions,
            )
        )
    return Work(steps=tuple(steps), minutes=total, good_minutes=hands_on + pouring)


def gas_cautions(site: Site, gas_name: str) -> tuple[str, ...]:
    """Cautions of a gas that displaces air, where it could gather."""
    displaces = GASES[gas_name].largest_fraction is not None
    return ("gas-displaces-air",) if displaces and site.location not in OPEN_PLACES else ()


_Laid = tuple[StepRow, str, str, tuple[str, ...], float | None, tuple[str, ...]]
"""A row laid out, with the place, tool, openings to close, limit and cautions it has in this plan."""


class _Bench:
    """The steps laid out so far, and their codes."""

    def __init__(self) -> None:
        self.laid: list[_Laid] = []
        self.codes: set[str] = set()

    def lay(
        self,
        key: str,
        *,
        place: str | None = None,
        tool: str | None = None,
        plug_first: tuple[str, ...] = (),
        pressure_limit: float | None = None,
        cautions: tuple[str, ...] = (),
    ) -> None:
        row = STEPS[key]
        cautions = row.cautions + cautions if cautions else row.cautions
        self.laid.append((row, place or row.place, tool or row.tool, plug_first, pressure_limit, cautions))
        self.codes.add(row.code)


def _values(job: Job) -> Mapping[str, Value]:
    """Every number and word the texts may name."""
    site, way, test = job.site, job.way, job.test
    closed = way.gun_closes if job.choice.method in GAS_METHODS else _suction_closes(job)
    values: dict[str, Value] = {
        "unknowns": [UNKNOWNS[key] for key in site.unknown],
        "pipe_size": site.pipe_size,
        "brush_length": site.brush_length,
        "openings": [OPENINGS[name] for name in closed],
        "closed": [OPENINGS[name] for name in _to_take_out(closed)],
        "plugs": way.gun_plugs if job.choice.method in GAS_METHODS else site.vents + site.other_units,
        "pour_place": IN_WORDS[way.pour_place],
        "gun_place": IN_WORDS.get(way.gun_place or "", ""),
        "rinse": job.rinse_volume,
        "tube": job.tube_volume,
        "trap_volume": test.trap_volume,
        "rest": test.pour_volume - test.trap_volume,
        "rate": test.pour_rate,
    }
    if test.rate_to_peak is not None:
        values["rate_to_peak"] = test.rate_to_peak
    if job.safety_volume is not None:
        values["safety_volume"] = job.safety_volume
    if job.gas:
        values["working_pressure"] = job.gas.working_pressure
        if job.gas.cylinder:
            cylinder = job.gas.cylinder
            values |= {"time_to_pressure": cylinder.time_to_pressure, "sweep_time": cylinder.sweep_time}
            values["gas"] = cylinder.gas_per_drain
        if job.gas.cartridges:
            values["share"] = job.gas.cartridges.share_into_blocked_line
            values["cartridges"] = count_cartridges(job.gas.cartridges.cartridges_for_this_drain)
    return values


def count_cartridges(count: int) -> Sentence:
    """So many cartridges, in words."""
    return Sentence(text=CARTRIDGE if count == 1 else CARTRIDGES, values={"count": count})


def _suction_closes(job: Job) -> tuple[str, ...]:
    """Openings through which a vacuum would draw air instead of the trap's water."""
    site = job.site
    opened = (("cleanout", job.way.cleanout), ("vents", site.vents > 0), ("other-units", site.other_units > 0))
    return tuple(name for name, there in opened if there)


def _water_tool(site: Site) -> str:
    return "jug" if site.equipment.jug else "building-water"


def _make_safe(job: Job, bench: _Bench) -> None:
    site = job.site
    bench.lay("make-safe", cautions=("heights",) if site.location in HIGH_PLACES else ())
    if site.pumped:
        bench.lay("unplug-pump")
    bench.lay("look", cautions=("heights",) if site.end == "roof surface" else ())
    if site.unknown:
        bench.lay("find-out")
    float_switch = {"in-drain": "of-drain", "in-pan": "of-pan", None: "if-any"}.get(site.float_switch)
    if float_switch in ("of-drain", "of-pan"):
        bench.lay(f"float-switch-out-{float_switch}")
    elif float_switch:
        bench.lay("float-switch-out-if-any")


def _open(job: Job, bench: _Bench) -> None:
    way, choice = job.way, job.choice
    if way.opening:
        bench.lay(way.opening)
    works = choice.method != "by-hand"
    if way.cleanout and not way.opening and (works or way.pour_place == "cleanout"):
        bench.lay("open-cleanout")
    if _opens_union(job):
        bench.lay("open-union")
    if job.site.pumped and job.site.far_end_reachable and works:
        bench.lay("line-out-of-tank")


def _opens_union(job: Job) -> bool:
    """Whether the union is opened: to brush through it, to put the gun on it, or to pour where nothing else opens."""
    way, choice = job.way, job.choice
    if not way.union:
        return False
    at_union = choice.method in GAS_METHODS and way.gun_place == "union"
    return at_union or choice.brushed or way.pour_place == "union"


def _clean(job: Job, bench: _Bench) -> None:
    site, way = job.site, job.way
    if "pan" in site.fouled and site.pan_reachable:
        vacuum = bool(site.equipment.wet_dry_vacuum)
        extra = ("vacuum-and-water",) if vacuum else ()
        bench.lay("clean-pan", tool="wet-dry-vacuum" if vacuum else "hands", cautions=extra)
    if not job.choice.brushed:
        return
    if way.cleanout:
        bench.lay("brush-from-cleanout")
    if way.union:
        bench.lay("brush-through-union")
    if not (way.cleanout or way.union):
        bench.lay("brush-from-pan-outlet")
    if "line" in site.fouled and site.far_end_reachable and not site.end_closed:
        bench.lay("brush-from-far-end")


def _push_or_pull(job: Job, bench: _Bench) -> None:
    site, way, choice = job.site, job.way, job.choice
    if choice.method in GAS_METHODS and job.gas:
        closes, limit = way.gun_closes, job.gas.working_pressure
        if closes:
            bench.lay("close-for-gas", plug_first=closes, tool="plugs" if way.gun_plugs else "hands")
        else:
            bench.lay("check-closed-for-gas")
        name = job.gas.cylinder.gas if choice.method == "regulated-gas" and job.gas.cylinder else "carbon-dioxide"
        bench.lay(
            f"push-{choice.method}",
            place=way.gun_place,
            plug_first=closes,
            pressure_limit=limit,
            cautions=gas_cautions(site, name),
        )
        if _to_take_out(closes):
            bench.lay("take-plugs-out")
    elif choice.method == "wet-dry-vacuum":
        closes = _suction_closes(job)
        _close_union(job, bench)  # else the air comes in there and the pan outlet is not drawn through
        if closes:
            bench.lay("close-for-suction", plug_first=closes)
        bench.lay("pull-with-vacuum", plug_first=closes)
        if _to_take_out(closes):
            bench.lay("take-plugs-out")


def _to_take_out(closes: tuple[str, ...]) -> list[str]:
    """What is opened again at once: everything but the cleanout, whose cap stays on."""
    return [name for name in closes if name != "cleanout"]


def _close(job: Job, bench: _Bench) -> None:
    """Close what need not stay open for water to be poured in."""
    way = job.way
    capped = any("cleanout" in plug_first for _, _, _, plug_first, _, _ in bench.laid)
    _close_union(job, bench)
    if ("open-cleanout" in bench.codes or way.opening) and way.pour_place != "cleanout" and not capped:
        bench.lay("cap-cleanout")


def _close_union(job: Job, bench: _Bench) -> None:
    """Close the union where it is open and no water is poured in there."""
    if "open-union" in bench.codes and "close-union" not in bench.codes and job.way.pour_place != "union":
        bench.lay("close-union")


def _rinse(job: Job, bench: _Bench) -> None:
    if job.choice.method != "by-hand":
        bench.lay("rinse", place=job.way.pour_place, tool=_water_tool(job.site))


def _clean_pump(job: Job, bench: _Bench) -> None:
    site = job.site
    if site.pumped and site.far_end_reachable:
        if PUMP_PARTS[0] in site.fouled:
            bench.lay("clean-tank")
        if PUMP_PARTS[1] in site.fouled:
            bench.lay("clean-tube", tool=_water_tool(site))
    if "line-out-of-tank" in bench.codes:
        bench.lay("line-back-into-tank")


def _prove(job: Job, bench: _Bench) -> None:
    site, way = job.site, job.way
    tool = _water_tool(site)
    if job.has_trap:
        bench.lay("refill-trap", place=way.pour_place, tool=tool)
    if site.pumped:
        bench.lay("plug-pump-in")
    key = "closing-test" if job.test.rate_to_peak is not None else "closing-test-without-peak"
    bench.lay(key, place=way.pour_place, tool=tool)
    if way.pour_place == "union":
        bench.lay("close-union")
    if way.pour_place == "cleanout":
        bench.lay("cap-cleanout")


def _give_back(job: Job, bench: _Bench) -> None:
    site = job.site
    place = "pan" if site.float_switch == "in-pan" else "trap"
    if site.float_switch != "none":
        bench.lay("float-switch-back", place=place)
    bench.lay("power-back")
    if site.float_switch != "none":
        bench.lay("trip-test", place=place)
    if site.pumped and site.far_end_reachable and job.safety_float != "none":
        measured = job.safety_volume is not None
        bench.lay("trip-test-at-pump-measured" if measured else "trip-test-at-pump", tool=_water_tool(site))
