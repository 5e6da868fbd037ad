"""The trap's drawing, measured: what is drawn to scale must be to scale."""

from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from service.drawings.sheet import FAINT, WATER
from tests.drawings.conftest import SVG, points_of, words_of

Draw = Callable[..., ET.Element]
INCH = 25.4


def body(pressure: float, drop: float, seal: float, **more: Any) -> dict[str, Any]:
    return {
        "pan_pressure": {"value": pressure, "unit": "inH2O"},
        "outlet_drop": {"value": drop, "unit": "in"},
        "seal_depth": {"value": seal, "unit": "in"},
        **more,
    }


def heights(root: ET.Element) -> tuple[float, float, float]:
    """Heights of pan outlet, trap outlet and dip on the sheet: the three dashed lines of the large figure."""
    dashed = [
        line for line in root.iter(f"{SVG}polyline") if line.get("stroke-dasharray") and line.get("stroke") == FAINT
    ]
    drop, invert, dip = (points_of(line)[0][1] for line in dashed[:3])
    return drop, invert, dip


def water_tops(root: ET.Element) -> list[float]:
    return [min(y for _, y in points_of(area)) for area in root.iter(f"{SVG}polygon") if area.get("fill") == WATER]


def test_the_pan_holds_its_water_to_scale(draw: Draw) -> None:
    """By hand: 1.2 in of suction over a drop of 0.25 in leaves 0.95 in in the pan; the seal of 2 in is the scale."""
    root = draw("/v1/trap-check", body(-1.2, 0.25, 2.0, pan_depth={"value": 1.5, "unit": "in"}))
    drop, invert, dip = heights(root)
    scale = (dip - invert) / 2.0
    assert (invert - drop) / scale == pytest.approx(0.25, abs=0.01)
    assert (drop - min(water_tops(root)[:6])) / scale == pytest.approx(0.95, abs=0.01)
    words = words_of(root)
    for label in ("outlet drop 0.25 in", "seal 2 in", "pan holds 0.95 in of water"):
        assert label in words


def test_a_sound_trap_stands_at_the_suction_and_says_so(draw: Draw) -> None:
    """Running, the unit side stands the suction above the outlet: 1.7 in of a 2.75 in drop, nothing in the pan."""
    root = draw("/v1/trap-check", body(-1.7, 2.75, 1.5))
    _, invert, dip = heights(root)
    scale = (dip - invert) / 1.5
    tops = [top for top in water_tops(root) if top < dip]
    assert (invert - min(tops)) / scale == pytest.approx(1.7, abs=0.02)
    assert "pan holds" not in words_of(root)
    assert "Nothing here needs mending." in words_of(root)


def test_a_lost_seal_is_told_in_words_and_shown_as_bubbles(draw: Draw) -> None:
    root = draw("/v1/trap-check", body(2.0, 1.0, 1.0))
    assert "air passes under the dip" in words_of(root)
    assert "seal lost," in words_of(root)
    assert len(list(root.iter(f"{SVG}circle"))) == 3 * 2  # running and start-up


def test_no_trap_is_called_no_trap(draw: Draw) -> None:
    root = draw("/v1/trap-check", body(-1.0, 2.0, 0.0))
    assert "no trap, no seal" in words_of(root)
    assert not list(root.iter(f"{SVG}circle"))


def test_units_follow_the_query(client: FlaskClient, check_drawing: Callable[[bytes], ET.Element]) -> None:
    answer = client.post(
        "/v1/trap-sizing?units=si",
        json={"pan_pressure": {"value": -300, "unit": "Pa"}},
        headers={"Accept": "image/svg+xml"},
    )
    words = words_of(check_drawing(answer.data))
    assert "300 Pa of suction" in words
    # 300 Pa hold 30.59 mm; the rule adds 1 in: 55.99 mm
    assert "outlet drop 56 mm" in words


@example(pressure=0.0, drop=-0.3, seal=0.0, depth=0.002, sizes=("1/2", "1/2"))  # the pan lies below the bend
@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    pressure=st.floats(-2500.0, 2500.0),
    drop=st.floats(-0.3, 1.5),
    seal=st.one_of(st.just(0.0), st.floats(0.0, 1.0)),
    depth=st.one_of(st.none(), st.floats(0.002, 0.5)),
    sizes=st.tuples(st.sampled_from(["1/2", "3/4", "4"]), st.sampled_from(["1/2", "3/4", "4"])),
)
def test_every_trap_stays_on_its_sheet(
    pressure: float, drop: float, seal: float, depth: float | None, sizes: tuple[str, str], draw: Draw
) -> None:
    request: dict[str, Any] = {
        "pan_pressure": {"value": pressure, "unit": "Pa"},
        "outlet_drop": {"value": drop, "unit": "m"},
        "seal_depth": {"value": seal, "unit": "m"},
        "unit_side_pipe_size": sizes[0],
        "outlet_side_pipe_size": sizes[1],
    }
    if depth is not None:
        request["pan_depth"] = {"value": depth, "unit": "m"}
    draw("/v1/trap-check", request)
