"""The tube a condensate pump pushes through: its head against the flow.

References
----------
.. [1] B. R. Munson et al., *Fundamentals of Fluid Mechanics*, loss coefficients for pipe
   components: regular 90 degree elbow, threaded, 1.5; swing check valve, forward flow, 2.
"""

from dataclasses import dataclass

from service.calculations.answer import Assumption
from service.calculations.limits import Limit
from service.calculations.pipe_flow import GRAVITY, friction_head, velocity
from service.calculations.water import density, dynamic_viscosity

TUBE_LIMITS = {
    "bore": Limit(2e-3, 0.06),  # capillary drain of a small unit, to 2 in pipe
    "length": Limit(0.05, 500.0),  # a stub, to beyond what any of these pumps reaches
    "roughness": Limit(0.0, 2e-4),  # glass, to scaled steel
    "elbow_loss_coefficient": Limit(0.0, 20.0),  # none, to a kinked tube
    "check_valve_loss_coefficient": Limit(0.0, 100.0),  # none, to a ball check
    "check_valve_cracking_head": Limit(0.0, 5.0),  # none, to a 7 psi spring
    "fall_back_share": Limit(0.0, 1.0),
}

MOST_ELBOWS = 200
"""An elbow every few feet of the longest tube."""

ROUGHNESS = 1.5e-6
"""Drawn or extruded tubing [m], the smooth end of every handbook's roughness table."""

ELBOW_LOSS_COEFFICIENT = 1.5
"""Regular threaded 90 degree elbow [1]_."""

CHECK_VALVE_LOSS_COEFFICIENT = 2.0
"""Swing check valve, forward flow [1]_."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Tube:
    """The discharge tube as installed.

    Parameters
    ----------
    bore : float
        Inside diameter [m].
    length : float
        From the pump to the open end [m].
    elbows : int or None
        Number of 90 degree elbows.
    check_valve : bool or None
        Whether a check valve holds the water when the pump stops.
    roughness : float or None
        Height of the wall's roughness [m].
    elbow_loss_coefficient, check_valve_loss_coefficient : float or None
        Velocity heads lost in one of them.
    check_valve_cracking_head : float or None
        Head that opens the check valve [m].
    fall_back_share : float or None
        Share of the tube that empties back into the tank when the pump stops and no check valve holds.
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


@dataclass(frozen=True, kw_only=True, slots=True)
class TubeRun:
    """A tube with every default settled, and the water in it.

    Parameters
    ----------
    bore, length : float
        Of the tube [m].
    roughness : float
        Of its wall [m].
    loss_coefficient : float
        Velocity heads lost in all fittings together.
    cracking_head : float
        Head that opens the check valve [m].
    kinematic_viscosity : float
        Of the water [m2/s].
    """

    bore: float
    length: float
    roughness: float
    loss_coefficient: float
    cracking_head: float
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
        """Head elbows and check valve take [m] from ``flow`` [m3/s]."""
        # h = K v^2 / 2g; a check valve takes its cracking head besides
        return self.cracking_head + self.loss_coefficient * velocity(flow, self.bore) ** 2 / (2.0 * GRAVITY)

    def reynolds(self, flow: float) -> float:
        """Reynolds number of ``flow`` [m3/s] on the bore."""
        return velocity(flow, self.bore) * self.bore / self.kinematic_viscosity


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
    assumptions: list[Assumption] = []

    def settled(name: str, given: float | None, default: float, note: str, symbols: str | None = None) -> float:
        if given is None:
            assumptions.append(Assumption(pointer=f"/tube/{name}", value=default, note=note, symbols=symbols))
        return default if given is None else given

    elbows = settled("elbows", tube.elbows, 0, "No elbows were given: a tube in sweeping bends.")
    if tube.check_valve is None:
        note = "Nothing says whether there is a check valve: taken as without, which asks most of tank and motor."
        assumptions.append(Assumption(pointer="/tube/check_valve", value=False, note=note))
    note = "Smooth drawn or extruded tubing, clean."
    roughness = settled("roughness", tube.roughness, ROUGHNESS, note, "in|mm")
    loss = cracking_head = 0.0
    if elbows:
        note = "Velocity heads lost in a regular 90 degree elbow."
        loss += elbows * settled("elbow_loss_coefficient", tube.elbow_loss_coefficient, ELBOW_LOSS_COEFFICIENT, note)
    if tube.check_valve:
        note = "Velocity heads lost in an open check valve."
        loss += settled(
            "check_valve_loss_coefficient", tube.check_valve_loss_coefficient, CHECK_VALVE_LOSS_COEFFICIENT, note
        )
        note = "The leaflet's curve is taken to include the head that opens the pump's check valve."
        cracking_head = settled("check_valve_cracking_head", tube.check_valve_cracking_head, 0.0, note, "ft|m")
    run = TubeRun(
        bore=tube.bore,
        length=tube.length,
        roughness=roughness,
        loss_coefficient=loss,
        cracking_head=cracking_head,
        kinematic_viscosity=dynamic_viscosity(water_temperature) / density(water_temperature),
    )
    return run, tuple(assumptions)
