"""The EPANET engine, through `wntr`: a network written out in its own language, solved for the flow of a link."""

from pathlib import Path

import wntr.epanet.toolkit
from wntr.epanet.util import EN

from service.calculations.pump_curve import CurvePoint

DAY = 86400.0
VISCOSITY = 1.1e-5 * 0.3048**2
"""What EPANET multiplies its viscosity option by: 1.1e-5 ft2/s (EPANET source, VISCOS)."""


def curve_lines(name: str, curve: tuple[CurvePoint, ...]) -> str:
    """A pump curve of many points, flows in m3/day."""
    ordered = sorted(curve, key=lambda point: point.flow)
    return "\n".join(f"{name} {point.flow * DAY:.12g} {point.lift:.12g}" for point in ordered)


def flows(folder: Path, network: str, kinematic: float, *links: str) -> tuple[float, ...]:
    """Flows [m3/s] through links; lengths in m, bores and roughnesses in mm, Darcy-Weisbach."""
    source = folder / "network.inp"
    source.write_text(
        f"{network}\n[OPTIONS]\nUNITS CMD\nHEADLOSS D-W\nVISCOSITY {kinematic / VISCOSITY:.12g}\n"
        "TRIALS 1000\nACCURACY 1e-8\n[TIMES]\nDURATION 0\n[REPORT]\nSTATUS NO\n[END]\n"
    )
    engine = wntr.epanet.toolkit.ENepanet()
    engine.ENopen(str(source), str(folder / "network.rpt"), str(folder / "network.bin"))
    try:
        engine.ENopenH()
        engine.ENinitH(0)
        engine.ENrunH()
        return tuple(float(engine.ENgetlinkvalue(engine.ENgetlinkindex(link), EN.FLOW)) / DAY for link in links)
    finally:
        engine.ENclose()
