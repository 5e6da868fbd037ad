"""The published works the calculations rest on, by a short key."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """A published work and the place in it.

    Parameters
    ----------
    label : str
        The work's title, edition included where it matters.
    clause : str
        Clause, table, chapter or equation.
    """

    label: str
    clause: str


SOURCES: dict[str, Source] = {
    "ashrae-psychrometrics": Source("ASHRAE Handbook: Fundamentals", "Psychrometrics chapter"),
    "ashrae-enhancement": Source("Hyland and Wexler (1983)", "saturation pressure and enhancement factor"),
    "moist-air-virial": Source(
        "Harvey and Huang (2007), Harvey and Lemmon (2004), Hyland and Wexler (1983)",
        "second virial coefficients of air with water",
    ),
    "ashrae-37": Source("ANSI/ASHRAE Standard 37", "air-enthalpy method, latent capacity"),
    "hydrostatics": Source("Hydrostatics of a water-sealed trap", "physics"),
    "standing-water": Source("Standing water in a round pipe", "hydrostatics; integral of the circular segment"),
    "imc-drain-size": Source("International Mechanical Code 2021", "Table 307.2.2"),
    "ipc-drain-size": Source("International Plumbing Code 2021", "Table 314.2.2"),
    "imc-slope": Source("International Mechanical Code 2021", "307.2"),
    "imc-overflow": Source("International Mechanical Code 2021", "307.2.3"),
    "imc-cleanable": Source("International Mechanical Code 2021", "307.2.5"),
    "irc-cleanable": Source("International Residential Code 2021", "M1411.3.3"),
    "irc-overflow": Source("International Residential Code 2021", "M1411.3.1"),
    "irc-pump": Source("International Residential Code 2021", "M1411.4"),
    "imc-supports": Source("International Mechanical Code 2021", "Table 305.4"),
    "astm-d1785": Source("ASTM D1785", "PVC pipe, Schedule 40"),
    "astm-d2846": Source("ASTM D2846", "CPVC pipe, SDR 11"),
    "astm-b88": Source("ASTM B88", "copper tube, types K, L and M"),
    "manning": Source("Manning formula for part-full circular pipes", "open-channel hydraulics"),
    "laminar-gravity-flow": Source("Hagen-Poiseuille law on the hydraulic diameter", "laminar flow under its own fall"),
    "nspc-scouring": Source("National Standard Plumbing Code 2009", "appendix K, scouring velocity of 2 ft/s"),
    "darcy": Source("Darcy-Weisbach with laminar, transitional and turbulent friction factors", "pipe hydraulics"),
    "epanet": Source("EPANET 2.2 User Manual, US EPA (2020)", "friction factors; pump curves of many points"),
    "minor-losses": Source(
        "Munson, Young and Okiishi, Fundamentals of Fluid Mechanics", "loss coefficients of fittings"
    ),
    "idelchik-orifice": Source(
        "Idelchik, Handbook of Hydraulic Resistance (1994)", "diagram 4-14, sharp-edged orifice in a straight tube"
    ),
    "affinity-laws": Source("Karassik et al., Pump Handbook", "affinity laws of centrifugal pumps"),
    "crane-changes-of-bore": Source(
        "Crane, Flow of Fluids Through Valves, Fittings, and Pipe, Technical Paper 410",
        "sudden enlargement and contraction",
    ),
    "iapws-liquid-water": Source("IAPWS SR6-08(2011)", "liquid water at 0.1 MPa"),
    "ripple": Source("Ripple, Minutes of Proceedings of the Institution of Civil Engineers 71 (1883)", "mass curve"),
    "sequent-peak": Source("Maass et al., Design of Water-Resource Systems (1962)", "Thomas and Fiering, sequent peak"),
    "stefan-tube": Source("Bird, Stewart and Lightfoot, Transport Phenomena", "diffusion through a stagnant gas film"),
    "vapour-diffusivity": Source(
        "Marrero and Mason, Gaseous Diffusion Coefficients, J. Phys. Chem. Ref. Data 1 (1972)", "water vapour in air"
    ),
    "combustion": Source(
        "NIST Chemistry WebBook", "enthalpies of combustion of methane and propane; stoichiometry in dry air"
    ),
    "iapws-ice": Source("IAPWS R10-06(2009)", "ice Ih: density and enthalpy at the melting point"),
    "naca-1135": Source("NACA Report 1135 (1953)", "isentropic flow through a nozzle, critical pressure ratio"),
    "gas-equations-of-state": Source(
        "Span et al. (2000), Lemmon et al. (2000), Span and Wagner (1996)",
        "virial coefficients of nitrogen, air and carbon dioxide",
    ),
    "oxygen-deficiency": Source("29 CFR 1910.146", "oxygen-deficient air, 19.5 %"),
    "common-practice": Source("Common practice of the trade", "no published source"),
}
