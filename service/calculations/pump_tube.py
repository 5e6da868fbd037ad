"""The tube a condensate pump pushes through: its head against the flow.

A tube may change its bore on the way: up to ten sections, one behind the other. The same water
flows through all of them, so their heads add up, and each rises with the flow.

References
----------
.. [1] B. R. Munson et al., *Fundamentals of Fluid Mechanics*, loss coefficients for pipe
   components: regular 90 degree elbow, threaded, 1.5; swing check valve, forward flow, 2.
.. [2] Crane Co., *Flow of Fluids Through Valves, Fittings, and Pipe*, Technical Paper 410:
   sudden enlargement (Borda and Carnot) and sudden contraction.
"""

from math import pi

from service.calculations.answer import Assumption
from service.calculations.frozen import dataclass
from service.calculations.limits import Limit
from service.calculations.pipe_flow import GRAVITY, friction_head, velocity, wall_loss
from service.calculations.water import kinematic_viscosity

TUBE_LIMITS = {
    "bore": Limit(2e-3, 0.06),  # capillary drain of a small unit, to 2 in pipe
    "length": Limit(0.05, 500.0),  # a stub, to beyond what any of these pumps reaches
    "roughness": Limit(0.0, 2e-4),  # glass, to scaled steel
    "elbow_loss_coefficient": Limit(0.0, 20.0),  # none, to a kinked tube
    "check_valve_loss_coefficient": Limit(0.0, 100.0),  # none, to a ball check
    "check_valve_cracking_head": Limit(0.0, 5.0),  # none, to a 7 psi spring
    "fall_back_share": Limit(0.0, 1.0),
}

SECTION_LIMITS = {
    "bore": TUBE_LIMITS["bore"],
    "length": Limit(0.0, 500.0),  # a bare reducer, to the longest tube
    "roughness": TUBE_LIMITS["roughness"],
}

MOST_ELBOWS = 200
"""An elbow every few feet of the longest tube."""

MOST_FURTHER_SECTIONS = 9
"""Ten sections in all: more changes of bore than any run of tube has."""

ROUGHNESS = 1.5e-6
"""Drawn or extruded tubing [m], the smooth end of every handbook's roughness table."""

ELBOW_LOSS_COEFFICIENT = 1.5
"""Regular threaded 90 degree elbow [1]_."""

CHECK_VALVE_LOSS_COEFFICIENT = 2.0
"""Swing check valve, forward flow [1]_."""

_NO_ELBOWS = Assumption(pointer="/tube/elbows", value=0, note="No elbows were given: a tube in sweeping bends.")
_NO_CHECK_VALVE = Assumption(
    pointer="/tube/check_valve",
    value=False,
    note="Nothing says whether there is a check valve: taken as without, which asks most of tank and motor.",
)
_SMOOTH = Assumption(
    pointer="/tube/roughness", value=ROUGHNESS, note="Smooth drawn or extruded tubing, clean.", symbols="in|mm"
)
_ELBOW_LOSS = Assumption(
    pointer="/tube/elbow_loss_coefficient",
    value=ELBOW_LOSS_COEFFICIENT,
    note="Velocity heads lost in a regular 90 degree elbow.",
)
_CHECK_VALVE_LOSS = Assumption(
    pointer="/tube/check_valve_loss_coefficient",
    value=CHECK_VALVE_LOSS_COEFFICIENT,
    note="Velocity heads lost in an open check valve.",
)
_NO_CRACKING_HEAD = Assumption(
    pointer="/tube/check_valve_cracking_head",
    value=0.0,
    note="The leaflet's curve is taken to include the head that opens the pump's check valve.",
    symbols="ft|m",
)
_AS_BEFORE = "Not given: as in the section before."


@dataclass(frozen=True, kw_only=True, slots=True)
class TubeSection:
    """A length of tube of one bore, behind another.

    Parameters
    ----------
    length : float
        Of this section [m].
    bore : float or None
        Inside diameter [m]; that of the section before when None.
    elbows : int or None
        Number of 90 degree elbows in it.
    roughness : float or None
        Height of its wall's roughness [m]; that of the section before when None.
    """

    length: float
    bore: float | None = None
    elbows: int | None = None
    roughness: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Tube:
    """The discharge tube as installed.

    Parameters
    ----------
    bore : float
        Inside diameter [m], of the first section where there are more.
    length : float
        From the pump to the open end, or to where the first further section begins [m].
    elbows : int or None
        Number of 90 degree elbows in it.
    check_valve : bool or None
        Whether a check valve holds the water when the pump stops.
    roughness : float or None
        Height of the wall's roughness [m].
    elbow_loss_coefficient, check_valve_loss_coefficient : float or None
        Velocity heads lost in one of them.
    check_valve_cracking_head : float or None
        Head that opens the check valve [m].
    fall_back_share : float or None
        Share of the whole length, from the pump on, that empties back into the tank when the pump stops
        and no check valve holds.
    further_sections : tuple of TubeSection
        What follows, in the order the water takes.
    """

    bore: float
    length: float
    elbows: int | None = None
    check_valve: bool | None = None
    roughness: float | None = None
    elbow_loss_coefficient: float | None = None
    check_valve_loss_coefficient: float | None = None
    check_valve_cracking_head: float | None = None
    fall_back_share: float | None = None
    further_sections: tuple[TubeSection, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionRun:
    """One section with every default settled, and the water in it.

    Parameters
    ----------
    bore, length : float
        Of the section [m].
    roughness : float
        Of its wall [m].
    loss_coefficient : float
        Velocity heads lost in its elbows and in the change of bore at its beginning.
    kinematic_viscosity : float
        Of the water [m2/s].
    """

    bore: float
    length: float
    roughness: float
    loss_coefficient: float
    kinematic_viscosity: float

    def friction(self, flow: float) -> float:
        """Head the wall takes [m] from ``flow`` [m3/s]."""
        return friction_head(
            flow=flow,
            bore=self.bore,
            length=self.length,
            roughness=self.roughness,
            kinematic_viscosity=self.kinematic_viscosity,
        )

    def fittings(self, flow: float) -> float:
        """Head elbows and change of bore take [m] from ``flow`` [m3/s]."""
        # h = K v^2 / 2g
        return self.loss_coefficient * velocity(flow, self.bore) ** 2 / (2.0 * GRAVITY)

    def reynolds(self, flow: float) -> float:
        """Reynolds number of ``flow`` [m3/s] on the bore."""
        return velocity(flow, self.bore) * self.bore / self.kinematic_viscosity


@dataclass(frozen=True, kw_only=True, slots=True)
class TubeRun:
    """A tube with every default settled, and the water in it.

    Parameters
    ----------
    sections : tuple of SectionRun
        At least one, in the order the water takes.
    check_valve_loss_coefficient : float
        Velocity heads of the first section lost in the check valve; 0 without one.
    cracking_head : float
        Head that opens the check valve [m].
    """

    sections: tuple[SectionRun, ...]
    check_valve_loss_coefficient: float = 0.0
    cracking_head: float = 0.0

    @property
    def length(self) -> float:
        """Of all sections together [m]."""
        return sum([section.length for section in self.sections])

    @property
    def narrowest(self) -> SectionRun:
        """The section where the water is fastest."""
        return min(self.sections, key=lambda section: section.bore)

    def loss(self, flow: float, film: float = 0.0) -> tuple[float, float]:
        """Head walls, fittings and check valve take [m] from ``flow`` [m3/s], and d head / d ln flow [m].

        A ``film`` [m] takes that much of every bore.
        """
        head, rise, valve = self.cracking_head, 0.0, self.check_valve_loss_coefficient
        for section in self.sections:
            bore = section.bore - film
            speed = velocity(flow, bore)
            wall, exponent = wall_loss(speed, bore, section.length, section.roughness, section.kinematic_viscosity)
            # h = K v^2 / 2g; the check valve counts to the first
            fittings = (section.loss_coefficient + valve) * speed * speed / (2.0 * GRAVITY)
            head += wall + fittings
            rise += exponent * wall + 2.0 * fittings
            valve = 0.0
        return head, rise

    def friction(self, flow: float) -> float:
        """Head the walls take [m] from ``flow`` [m3/s]."""
        return sum([section.friction(flow) for section in self.sections])

    def check_valve(self, flow: float) -> float:
        """Head the check valve takes [m] from ``flow`` [m3/s], its cracking head included."""
        speed = velocity(flow, self.sections[0].bore)
        return self.cracking_head + self.check_valve_loss_coefficient * speed**2 / (2.0 * GRAVITY)

    def bends(self, flow: float) -> float:
        """Head elbows and changes of bore take [m] from ``flow`` [m3/s]."""
        return sum([section.fittings(flow) for section in self.sections])

    def fittings(self, flow: float) -> float:
        """Head elbows, changes of bore and check valve take [m] from ``flow`` [m3/s]."""
        return self.check_valve(flow) + self.bends(flow)

    def reynolds(self, flow: float) -> float:
        """Reynolds number of ``flow`` [m3/s] in the narrowest section, the greatest there is."""
        return self.narrowest.reynolds(flow)

    def water_within(self, length: float) -> float:
        """Water [m3] the tube holds from the pump over ``length`` [m].

        Examples
        --------
        By hand: 10 ft of 3/8 in bore hold pi/4 x 0.375^2 x 120 = 13.25 in3:

        >>> section = SectionRun(
        ...     bore=0.375 * 0.0254, length=3.048, roughness=0.0, loss_coefficient=0.0, kinematic_viscosity=1e-6
        ... )
        >>> round(TubeRun(sections=(section,)).water_within(3.048) / 0.0254**3, 2)
        13.25
        """
        water, left = 0.0, length
        for section in self.sections:
            water += pi * section.bore**2 / 4.0 * min(left, section.length)
            left -= min(left, section.length)
        return water


def change_of_bore(before: float, after: float) -> float:
    """Velocity heads lost where a bore changes at once, counted on the section that begins.

    Parameters
    ----------
    before, after : float
        Bores [m].

    Returns
    -------
    float
        Loss coefficient on the velocity in ``after``.

    Notes
    -----
    Wider: (v1 - v2)^2 / 2g, Borda and Carnot, which is momentum alone [2]_. Narrower: 0.5 (1 - (d2/d1)^2) of
    the velocity head in the narrower bore [2]_; other handbooks give up to 0.12 more. Both are for turbulent flow;
    in laminar flow the coefficient is greater and the velocity head a few millimetres. A reducer that tapers
    loses less. What the velocity head does at the open end is left to the leaflet's curve, as with one bore.

    Examples
    --------
    Twice the bore, by hand: v2 = v1/4, (4 v2 - v2)^2 = 9 v2^2; back again: 0.5 x (1 - 1/4):

    >>> change_of_bore(0.006, 0.012), change_of_bore(0.012, 0.006), change_of_bore(0.01, 0.01)
    (9.0, 0.375, 0.0)
    """
    if after >= before:
        return ((after / before) ** 2 - 1.0) ** 2
    return 0.5 * (1.0 - (after / before) ** 2)


def settle_tube(tube: Tube, water_temperature: float) -> tuple[TubeRun, tuple[Assumption, ...]]:
    """Put defaults where the request is silent, and record each one that enters the numbers.

    Parameters
    ----------
    tube : Tube
        As requested.
    water_temperature : float
        Of the water in it [K].

    Returns
    -------
    TubeRun and tuple of Assumption
    """
    assumptions = []
    elbows, roughness, elbow_loss = tube.elbows, tube.roughness, tube.elbow_loss_coefficient
    if elbows is None:
        elbows = 0
        assumptions.append(_NO_ELBOWS)
    if tube.check_valve is None:
        assumptions.append(_NO_CHECK_VALVE)
    if roughness is None:
        roughness = ROUGHNESS
        assumptions.append(_SMOOTH)
    if elbow_loss is None:
        elbow_loss = ELBOW_LOSS_COEFFICIENT
    viscosity = kinematic_viscosity(water_temperature)
    first = SectionRun(
        bore=tube.bore,
        length=tube.length,
        roughness=roughness,
        loss_coefficient=elbows * elbow_loss,
        kinematic_viscosity=viscosity,
    )
    sections = [first]
    for index, section in enumerate(tube.further_sections):
        at, before, bore, roughness = f"/tube/further_sections/{index}", sections[-1], section.bore, section.roughness
        if bore is None:
            bore = before.bore
            assumptions.append(Assumption(pointer=f"{at}/bore", value=bore, note=_AS_BEFORE, symbols="in|mm"))
        if section.elbows is None:
            assumptions.append(Assumption(pointer=f"{at}/elbows", value=0, note=_NO_ELBOWS.note))
        if roughness is None:
            roughness = before.roughness
            assumptions.append(Assumption(pointer=f"{at}/roughness", value=roughness, note=_AS_BEFORE, symbols="in|mm"))
        sections.append(
            SectionRun(
                bore=bore,
                length=section.length,
                roughness=roughness,
                loss_coefficient=(section.elbows or 0) * elbow_loss + change_of_bore(before.bore, bore),
                kinematic_viscosity=viscosity,
            )
        )
    if tube.elbow_loss_coefficient is None and (elbows or any(section.elbows for section in tube.further_sections)):
        assumptions.append(_ELBOW_LOSS)
    check_valve_loss, cracking_head = tube.check_valve_loss_coefficient, tube.check_valve_cracking_head
    if not tube.check_valve:
        return TubeRun(sections=tuple(sections)), tuple(assumptions)
    if check_valve_loss is None:
        check_valve_loss = CHECK_VALVE_LOSS_COEFFICIENT
        assumptions.append(_CHECK_VALVE_LOSS)
    if cracking_head is None:
        cracking_head = 0.0
        assumptions.append(_NO_CRACKING_HEAD)
    run = TubeRun(sections=tuple(sections), check_valve_loss_coefficient=check_valve_loss, cracking_head=cracking_head)
    return run, tuple(assumptions)
