"""Compressed gas: how much a cylinder holds, how fast a nozzle lets it out, how long a line takes to fill.

Contents are of the real gas; flow is that of an ideal gas, one-dimensional and isentropic up to the
throat [1]_, times a discharge coefficient. Pressures are absolute.

References
----------
.. [1] Ames Research Staff, *Equations, Tables, and Charts for Compressible Flow*, NACA Report 1135, 1953.
"""

from math import log1p, pi, pow, sqrt

from service.tables.gases import Gas

GAS_CONSTANT = 8.314462618
"""R [J/(mol K)], exact since 2019."""

ATMOSPHERE = 101325.0
"""Standard atmosphere [Pa]: gauge pressures count from it, and free gas is measured at it."""

_STEPS = 50
_CLOSE = 1e-8  # step over density; the next one would be some square of it


def molar_density(gas: Gas, pressure: float, temperature: float) -> float:
    """Moles of a gas in a cubic metre, by the virial equation to its third term.

    Parameters
    ----------
    gas : Gas
        A row of `service.tables.gases`, good up to its ``highest_pressure``.
    pressure : float
        Absolute pressure [Pa].
    temperature : float
        Temperature [K], 253 to 333.

    Returns
    -------
    float
        Density [mol/m3].

    Examples
    --------
    Carbon dioxide at 0 degC and 1 atm: 22.26 L a mole (its density of 1.977 kg/m3 is in every handbook):

    >>> from service.tables.gases import CARBON_DIOXIDE
    >>> round(molar_density(CARBON_DIOXIDE, 101325.0, 273.15) * CARBON_DIOXIDE.molar_mass, 2)
    1.98
    """
    b0, b1, b2 = gas.second
    c0, c1 = gas.third
    second, third = b0 + (b1 + b2 / temperature) / temperature, c0 + c1 / temperature
    ideal = pressure / (GAS_CONSTANT * temperature)
    density = ideal
    for _ in range(_STEPS):  # Newton on rho (1 + B rho + C rho^2) = p / RT, which only rises where the row is good
        error = density * (1.0 + density * (second + density * third)) - ideal
        step = error / (1.0 + density * (2.0 * second + 3.0 * density * third))
        density -= step
        if abs(step) <= _CLOSE * density:
            break
    return density


def free_volume(gas: Gas, moles: float, temperature: float) -> float:
    """Volume [m3] that ``moles`` [mol] of a gas take at one atmosphere and ``temperature`` [K].

    Examples
    --------
    A 16 g cartridge at 20 degC, by hand: 16/44.01 mol x 24.05 L less half a percent:

    >>> from service.tables.gases import CARBON_DIOXIDE
    >>> round(1e3 * free_volume(CARBON_DIOXIDE, 0.016 / 0.0440098, 293.15), 2)
    8.7
    """
    return moles / molar_density(gas, ATMOSPHERE, temperature)


def critical_pressure_ratio(heat_capacity_ratio: float) -> float:
    """Pressure behind a throat over that before it, at and below which the flow is choked [1]_ (eq. 58 ff.).

    Examples
    --------
    NACA 1135 table I, at Mach 1 for a ratio of 1.4: 0.5283.

    >>> round(critical_pressure_ratio(1.4), 4)
    0.5283
    """
    k = heat_capacity_ratio
    return pow(2.0 / (k + 1.0), k / (k - 1.0))


def nozzle_mass_flow(
    *, gas: Gas, upstream: float, downstream: float, temperature: float, bore: float, discharge_coefficient: float
) -> float:
    """Mass flow of a gas through a nozzle, choked or not.

    Parameters
    ----------
    gas : Gas
        A row of `service.tables.gases`.
    upstream, downstream : float
        Absolute pressures before and behind it [Pa]; nothing flows where the second is not the lower.
    temperature : float
        Of the gas before it, at rest [K].
    bore : float
        Bore of its throat [m].
    discharge_coefficient : float
        Real flow over the isentropic one [-].

    Returns
    -------
    float
        Mass flow [kg/s].

    Examples
    --------
    By hand, choked air: 0.040418 p A / sqrt(T), 0.040418 x 3e5 x 7.854e-5 / 17.121 = 0.0556 kg/s. With this
    table's ratio of 1.402 and molar mass the factor is 0.04043:

    >>> from service.tables.gases import AIR
    >>> flow = nozzle_mass_flow(
    ...     gas=AIR, upstream=3e5, downstream=1e5, temperature=293.15, bore=0.01, discharge_coefficient=1.0
    ... )
    >>> round(flow, 4)
    0.0556
    """
    if downstream >= upstream:
        return 0.0
    k = gas.heat_capacity_ratio
    ratio = max(downstream / upstream, critical_pressure_ratio(k))
    speed = _full_speed(gas, temperature) * sqrt(1.0 - pow(ratio, (k - 1.0) / k))
    density = upstream * gas.molar_mass / (GAS_CONSTANT * temperature) * pow(ratio, 1.0 / k)
    return discharge_coefficient * pi / 4.0 * bore * bore * density * speed


def fill_time(
    *,
    gas: Gas,
    volume: float,
    upstream: float,
    start: float,
    end: float,
    temperature: float,
    bore: float,
    discharge_coefficient: float,
) -> float:
    """Time in which a nozzle brings a closed volume from one pressure to another.

    Parameters
    ----------
    gas : Gas
        A row of `service.tables.gases`.
    volume : float
        What is filled [m3].
    upstream : float
        Absolute pressure before the nozzle, held by a regulator [Pa].
    start, end : float
        Absolute pressures in the volume [Pa], ``start`` <= ``end`` <= ``upstream``.
    temperature : float
        Of the gas, before the nozzle and in the volume [K].
    bore : float
        Bore of the nozzle's throat [m].
    discharge_coefficient : float
        Real flow over the isentropic one [-].

    Returns
    -------
    float
        Time [s].

    Notes
    -----
    V M/(RT) dp/dt = m(p). Choked, m is constant. Below that, with r = p/upstream, k the heat capacity ratio and
    u = r^((k-1)/k), m = C r^(1/k) sqrt(1 - u) and dr = k/(k-1) u^(1/(k-1)) du, so that the integral of
    dr / (r^(1/k) sqrt(1 - u)) is 2k/(k-1) [sqrt(1 - u_start) - sqrt(1 - u_end)]: even full pressure is reached in
    a finite time. The gas keeps its temperature, as it does in a pipe it has long touched.
    """
    k = gas.heat_capacity_ratio
    choked_to = min(max(critical_pressure_ratio(k) * upstream, start), end)
    kilograms = volume * gas.molar_mass / (GAS_CONSTANT * temperature)  # for each pascal
    time = 0.0
    if choked_to > start:
        flow = nozzle_mass_flow(
            gas=gas,
            upstream=upstream,
            downstream=start,
            temperature=temperature,
            bore=bore,
            discharge_coefficient=discharge_coefficient,
        )
        time = kilograms * (choked_to - start) / flow
    power = (k - 1.0) / k

    def left(pressure: float) -> float:
        return sqrt(max(1.0 - pow(pressure / upstream, power), 0.0))

    throat = discharge_coefficient * pi / 4.0 * bore * bore
    slope = throat * gas.molar_mass / (GAS_CONSTANT * temperature) * _full_speed(gas, temperature)
    return time + kilograms * 2.0 / power * (left(choked_to) - left(end)) / slope


def smallest_room(gas: Gas, volume: float) -> float | None:
    """Room in which a volume of gas, let go and stirred in, leaves the air fit to breathe.

    Parameters
    ----------
    gas : Gas
        A row of `service.tables.gases`.
    volume : float
        Free gas let go [m3].

    Returns
    -------
    float or None
        Volume of the room [m3]; None for air.

    Notes
    -----
    Stirred in, as much mixture leaves as gas comes, so its share x grows as dx/dV = (1 - x) / room:
    x = 1 - exp(-V/room).

    Examples
    --------
    By hand: one cubic metre of nitrogen takes oxygen from 20.9 to 19.5 % in 1 / ln(20.9/19.5) = 14.42 m3:

    >>> from service.tables.gases import NITROGEN
    >>> round(smallest_room(NITROGEN, 1.0), 2)
    14.42
    """
    if gas.largest_fraction is None:
        return None
    return volume / -log1p(-gas.largest_fraction)


def _full_speed(gas: Gas, temperature: float) -> float:
    """Speed [m/s] of the gas let out into a vacuum: sqrt(2 cp T)."""
    k = gas.heat_capacity_ratio
    return sqrt(2.0 * k / (k - 1.0) * GAS_CONSTANT * temperature / gas.molar_mass)
