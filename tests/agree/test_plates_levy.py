"""Plates on two opposite simple sides against Levy's series: fields, edge force, corner force, turn of an edge."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from tests.agree.levy_plate import levy_fields, levy_sill, levy_sill_total, shapes
from tidestead.physics.structure.plate_reactions import edge_forces, edge_rotations
from tidestead.physics.structure.plates import Edges, Panel, Support, WaterLoad, solve_panel

SUPPORTS: tuple[Support, ...] = ("simple", "clamped", "free")
ENDS = list(itertools.product(SUPPORTS, repeat=2))
PLACES = [(0.5, 0.5), (0.5, 1.0), (0.5, 0.0), (0.2, 0.3), (0.1, 0.85)]


def panel_of(bottom: Support, top: Support, width: float, poisson: float = 0.38) -> Panel:
    return Panel(width, 1.0, 0.05, 3.3e9, poisson, Edges("simple", "simple", bottom, top))


@pytest.mark.parametrize("head", [0.45, 0.8, 1.0, 1.7])
@pytest.mark.parametrize("width", [0.5, 1.0, 2.5])
@pytest.mark.parametrize(("bottom", "top"), ENDS)
def test_fields(bottom: Support, top: Support, width: float, head: float) -> None:
    panel, load = panel_of(bottom, top, width), WaterLoad(head, 10055.0)
    ours = solve_panel(panel, load)
    for share_x, share_y in PLACES:
        x, y = share_x * width, share_y
        bow, *moments = levy_fields(panel, load, x, y)
        assert float(ours.bow(x, y)) == pytest.approx(bow, abs=5e-5 * ours.max_bow)
        for here, series in zip(ours.moments(x, y), moments, strict=True):
            assert float(here) == pytest.approx(series, abs=5e-4 * ours.peak_moment)


@pytest.mark.parametrize("width", [0.7, 1.2, 3.0])
@pytest.mark.parametrize(("bottom", "top"), [(b, t) for b, t in ENDS if b != "free"])
def test_force_on_the_bottom_edge(bottom: Support, top: Support, width: float) -> None:
    panel, load = panel_of(bottom, top, width), WaterLoad(0.9, 10055.0, 300.0)
    ours = solve_panel(panel, load)
    line = ours.edge_reactions.bottom
    for share in (0.5, 0.25, 0.1):
        here = float(np.interp(share * width, line.place, line.line_load))
        assert here == pytest.approx(levy_sill(panel, load, share * width), abs=4e-3 * line.peak)
    total = levy_sill_total(panel, load)
    assert line.total == pytest.approx(total, rel=2e-3, abs=1e-3 * ours.total_load)


@pytest.mark.parametrize("top", ["simple", "free"])
@pytest.mark.parametrize("width", [0.6, 1.0, 2.0])
def test_corner_force_is_twice_the_twist(top: Support, width: float) -> None:
    panel, load = panel_of("simple", top, width), WaterLoad(1.0, 10055.0)
    state = solve_panel(panel, load)
    _, corners = edge_forces(state.plate, state.table, state.plate.push(load))
    below, above = (2.0 * levy_fields(panel, load, 0.0, y)[3] for y in (0.0, 1.0))
    assert corners.bottom_left == pytest.approx(below, abs=1e-3 * abs(below))
    assert corners.bottom_right == pytest.approx(corners.bottom_left, rel=1e-6)
    assert corners.top_left == pytest.approx(-above, abs=1e-3 * abs(below))


@pytest.mark.parametrize("top", ["simple", "clamped", "free"])
@pytest.mark.parametrize("width", [0.6, 2.0])
def test_turn_of_edges(top: Support, width: float) -> None:
    panel, load = panel_of("simple", top, width), WaterLoad(1.0, 10055.0)
    state = solve_panel(panel, load)
    turns = edge_rotations(state.plate, state.table)
    k, term = shapes(panel, load, 0.0)
    places = np.linspace(0.0, width, 201)
    bottom = np.abs(term[:, 1] @ np.sin(np.outer(k, places))).max()
    assert turns.bottom == pytest.approx(bottom, rel=1e-3)
    left = max(
        abs(float(pair[0] @ pair[1][:, 0]))
        for pair in (shapes(panel, load, y) for y in np.linspace(0, 1, 101))
    )
    assert turns.left == pytest.approx(left, rel=1e-3)
    assert turns.right == pytest.approx(turns.left, rel=1e-9)
