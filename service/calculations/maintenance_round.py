"""A maintenance round: which unit first, how long it all takes, and what to load."""

from collections.abc import Sequence
from math import fsum

from service.calculations.answer import Answer, Assumption, Finding, Sentence
from service.calculations.cleaning_site import USUAL_EQUIPMENT, USUAL_PLUGS, Equipment
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit, require
from service.calculations.round_parts import RoundPart, gather_parts
from service.calculations.round_supplies import GasSupply, MethodSupplies, find_gas, find_shortage, list_supplies
from service.calculations.unit_visit import UnitVisit, usual_equipment
from service.calculations.visit_urgency import NOT_KNOWN, NOT_STOPPED, Urgency
from service.calculations.working_days import Slot, plan_days
from service.tables.round_facts import FACTS
from service.tables.urgency import URGENCIES

MOST_TECHNICIANS = 50

MINUTES_AVAILABLE = 480.0
"""A working day [min]. Common practice, no source."""

TRAVEL_MINUTES = 15.0
"""From one unit to the next, tools and ladder included [min]. Common practice, no source."""

LIMITS = {
    "minutes_available": Limit(30.0, 1440.0),  # half an hour, to the whole day
    "travel_minutes": Limit(0.0, 480.0),  # the next unit on the same roof, to a day on the road
}


OF_SEVERAL = "{note} Taken likewise for {count} units; this is the first of them."
"""Note of a default that several units share."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Stop:
    """One place of the visiting order.

    Parameters
    ----------
    place : int
        From 1.
    index : int
        Of the unit in the request, from 0.
    unit_id : str or None
        As sent.
    urgency : str
        One of `service.tables.urgency.URGENCIES`.
    minutes : float or None
        On site [min].
    slot : Slot or None
        Day, technician and start; None where the minutes are not known.
    """

    place: int
    index: int
    unit_id: str | None
    urgency: str
    minutes: float | None
    slot: Slot | None


@dataclass(frozen=True, kw_only=True, slots=True)
class UrgencyCount:
    """Units of one class."""

    urgency: str
    count: int


@dataclass(frozen=True, kw_only=True, slots=True)
class RoundTotals:
    """The round in numbers: units, time [min], days, units by class."""

    units: int
    units_read: int
    on_site_minutes: float
    good_access_minutes: float
    travel_minutes: float
    total_minutes: float
    days: int
    urgencies: tuple[UrgencyCount, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class UnknownFact:
    """A member that was not sent, what it is for, and the indices of the units."""

    member: str
    tells: str
    count: int
    units: tuple[int, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class MaintenanceRound:
    """The round.

    Parameters
    ----------
    order : tuple of Stop
        Units that could be read, in visiting order.
    visits : tuple of UnitVisit or None
        In the order sent; None for a unit that could not be read.
    totals : RoundTotals
        In numbers.
    consumables : tuple of MethodSupplies
        What to load, by method.
    parts : tuple of RoundPart
        Parts worth carrying.
    not_known : tuple of UnknownFact
        What nobody has said, that of most units first.
    """

    order: tuple[Stop, ...]
    visits: tuple[UnitVisit | None, ...]
    totals: RoundTotals
    consumables: tuple[MethodSupplies, ...]
    parts: tuple[RoundPart, ...]
    not_known: tuple[UnknownFact, ...]


def settle_truck(equipment: Equipment | None) -> Equipment:
    """What is on the truck, the usual where nothing is said.

    Parameters
    ----------
    equipment : Equipment or None
        As sent.
    """
    return equipment or usual_equipment(USUAL_PLUGS)


def plan_round(
    *,
    visits: Sequence[Answer[UnitVisit] | None],
    equipment: Equipment | None = None,
    minutes_available: float | None = None,
    technicians: int | None = None,
    travel_minutes: float | None = None,
) -> Answer[MaintenanceRound]:
    """Plan a round of visits.

    Parameters
    ----------
    visits : sequence of Answer of UnitVisit, or None
        Units as sent, from `unit_visit.visit_unit` with the same equipment; None for one that could not be read.
    equipment : Equipment or None
        What is on the truck.
    minutes_available : float or None
        Of one technician in a day [min].
    technicians : int or None
        Who work at the same time.
    travel_minutes : float or None
        From one unit to the next [min].

    Returns
    -------
    Answer of MaintenanceRound

    Raises
    ------
    OutOfRange
        For an argument outside `LIMITS`.

    Notes
    -----
    Visiting order: class of urgency, then time until water reaches the building, then number of failures, then
    order sent; see `visit_urgency`. So another order of the request changes nothing but ties.
    """
    require(
        LIMITS,
        minutes_available=minutes_available,
        travel_minutes=travel_minutes,
    )
    notes: list[Assumption] = []
    if equipment is None:
        note = "What most trucks carry; no gas is counted on. Common practice."
        notes.append(Assumption(pointer="/equipment", value=USUAL_EQUIPMENT, note=note))
    available = _settled(notes, "/minutes_available", minutes_available, MINUTES_AVAILABLE, "A day of eight hours.")
    note = "To the next unit, tools and ladder included. Common practice."
    travel = _settled(notes, "/travel_minutes", travel_minutes, TRAVEL_MINUTES, note)
    if technicians is None:
        technicians = 1
        notes.append(Assumption(pointer="/technicians", value=1, note="One who does the whole round."))
    read = [(index, answer.results) for index, answer in enumerate(visits) if answer]
    ordered = sorted(read, key=lambda row: (*row[1].standing.order, row[0]))
    days = plan_days(
        [visit.minutes for _, visit in ordered],
        minutes_available=available,
        technicians=technicians,
        travel_minutes=travel,
    )
    truck = settle_truck(equipment)
    gas, gas_notes = find_gas(truck)
    on_site = fsum(visit.minutes or 0.0 for _, visit in read)
    results = MaintenanceRound(
        order=tuple(
            Stop(
                place=place,
                index=index,
                unit_id=visit.unit_id,
                urgency=visit.urgency,
                minutes=visit.minutes,
                slot=slot,
            )
            for place, ((index, visit), slot) in enumerate(zip(ordered, days.slots, strict=True), 1)
        ),
        visits=tuple(answer.results if answer else None for answer in visits),
        totals=RoundTotals(
            units=len(visits),
            units_read=len(read),
            on_site_minutes=on_site,
            good_access_minutes=fsum(visit.good_access_minutes or 0.0 for _, visit in read),
            travel_minutes=days.travel_minutes,
            total_minutes=on_site + days.travel_minutes,
            days=days.days,
            urgencies=tuple(
                UrgencyCount(urgency=urgency, count=sum(visit.urgency == urgency for _, visit in read))
                for urgency in URGENCIES
            ),
        ),
        consumables=list_supplies(ordered, truck, gas),
        parts=gather_parts([(index, visit.parts) for index, visit in read]),
        not_known=_not_known(read),
    )
    return Answer(
        results=results,
        findings=tuple(_findings(read, len(visits), gas, available)),
        assumptions=(*notes, *gas_notes, *_of_the_units(visits)),
        cautions=_once([answer.cautions for answer in visits if answer], last="local-code"),
        sources=_once([answer.sources for answer in visits if answer], last="common-practice"),
    )


def _settled(notes: list[Assumption], pointer: str, given: float | None, default: float, note: str) -> float:
    if given is not None:
        return given
    notes.append(Assumption(pointer=pointer, value=default, note=note))
    return default


def _not_known(read: Sequence[tuple[int, UnitVisit]]) -> tuple[UnknownFact, ...]:
    """Facts that were not sent, those of most units first."""
    rows = []
    for fact in FACTS:
        units = tuple(index for index, visit in read if fact.member in visit.not_known)
        if units:
            rows.append(UnknownFact(member=fact.member, tells=fact.tells, count=len(units), units=units))
    return tuple(sorted(rows, key=lambda row: -row.count))


def _of_the_units(visits: Sequence[Answer[UnitVisit] | None]) -> tuple[Assumption, ...]:
    """Defaults of the units, one row for each member, pointing to the first unit it was taken for."""
    firsts: dict[str, Assumption] = {}
    counts: dict[str, int] = {}
    for index, answer in enumerate(visits):
        for note in answer.assumptions if answer else ():
            if note.pointer not in firsts:
                firsts[note.pointer] = note.under(f"/units/{index}")
            counts[note.pointer] = counts.get(note.pointer, 0) + 1
    return tuple([_shared(first, counts[pointer]) for pointer, first in firsts.items()])


def _shared(first: Assumption, count: int) -> Assumption:
    """The default, with how many units share it."""
    if count == 1:
        return first
    note = Sentence(text=OF_SEVERAL, values={"note": first.note, "count": count})
    return Assumption(pointer=first.pointer, value=first.value, note=note, symbols=first.symbols)


def _findings(
    read: Sequence[tuple[int, UnitVisit]],
    units: int,
    gas: GasSupply,
    available: float,
) -> list[Finding]:
    """What there is to say of the whole round."""
    visits = [visit for _, visit in read]
    found = []

    def count(code: str, number: int, **values: float | int | str) -> None:
        if number:
            found.append(Finding(code=code, pointer="/units", values={"count": number, "units": units, **values}))

    count("round-units-cannot-wait", sum(visit.urgency == URGENCIES[0] for visit in visits))
    count("round-units-fail", sum(visit.verdict == "fail" for visit in visits))
    count("round-units-want-attention", sum(visit.verdict == "attention" for visit in visits))
    count("round-units-unprotected", sum(_lets_through(visit.standing, NOT_STOPPED) for visit in visits))
    count("round-protection-not-known", sum(_lets_through(visit.standing, NOT_KNOWN) for visit in visits))
    count("round-units-not-read", units - len(visits))
    count("round-units-without-minutes", sum(visit.minutes is None for visit in visits))
    found += find_shortage(visits, gas)
    longer = sum((visit.minutes or 0.0) > available for visit in visits)
    count("round-unit-longer-than-day", longer, minutes=available)
    return found


def _lets_through(standing: Urgency, stop: str) -> bool:
    """Whether the water may get through to something it damages, for this reason."""
    return standing.damages and standing.stop == stop


def _once(groups: Sequence[tuple[str, ...]], *, last: str) -> tuple[str, ...]:
    """Each key once, in the order met; one of them always, at the end."""
    keys = dict.fromkeys(key for group in groups for key in group)
    keys.pop(last, None)
    return (*keys, last)
