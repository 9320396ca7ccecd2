"""Plates against scikit-fem's Argyris triangles: bow, moments everywhere, corners, seats that only push."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.agree.argyris_plate import pushed, solved
from tidestead.core.dims import Array
from tidestead.physics.structure.plate_contact import contact, on_seats, push_only_bow
from tidestead.physics.structure.plate_ritz import low_strip, ritz_plate
from tidestead.physics.structure.plates import (
    Edges,
    EdgeSprings,
    Panel,
    Support,
    WaterLoad,
    solve_panel,
    solve_push_only,
)

CLAMPED_FREE = {"clamped", "free"}


def acrylic(width: float, height: float, edges: Edges) -> Panel:
    """A panel of 50 mm."""
    return Panel(width, height, 0.05, 3.3e9, 0.38, edges)


def lines(length: float, count: int) -> Array:
    """Mesh lines, closer together at both ends."""
    return np.asarray(0.5 * length * (1.0 - np.cos(np.linspace(0.0, np.pi, count + 1))))


def with_line(places: Array, place: float) -> Array:
    """Mesh lines with one more, and none too near to it."""
    return np.union1d(places[np.abs(places - place) > 0.05 * places[-1]], [place])


def principal(mx: Array, my: Array, mxy: Array) -> Array:
    """Greatest principal moment."""
    return np.asarray(np.linalg.eigvalsh(np.stack([[mx, mxy], [mxy, my]]).transpose(2, 0, 1))[:, 1])


def clear_of_corners(panel: Panel, x: Array, y: Array, reach: float) -> Array:
    """Points away from corners of a clamped and a free edge, where moments swing without end."""
    clear = np.ones(len(x), dtype=bool)
    for side, cx in (("left", 0.0), ("right", panel.width)):
        for end, cy in (("bottom", 0.0), ("top", panel.height)):
            if {getattr(panel.edges, side), getattr(panel.edges, end)} == CLAMPED_FREE:
                clear &= np.hypot(x - cx, y - cy) > reach * min(panel.width, panel.height)
    return clear


@pytest.mark.parametrize(
    ("edges", "width", "head"),
    [
        pytest.param(Edges("simple", "simple", "simple", "simple"), 1.0, 0.7, id="SSSS, partly filled"),
        pytest.param(Edges("simple", "simple", "simple", "free"), 2.0, 1.0, id="SSSF"),
        pytest.param(Edges("clamped", "clamped", "clamped", "free"), 1.5, 1.0, id="CCCF"),
        pytest.param(Edges("simple", "simple", "clamped", "free"), 1.2, 0.9, id="SSCF"),
        pytest.param(Edges("clamped", "simple", "clamped", "simple"), 1.3, 2.5, id="CSCS, below the surface"),
        pytest.param(Edges("free", "simple", "simple", "clamped"), 0.7, 1.0, id="FSSC"),
        pytest.param(Edges("free", "free", "clamped", "simple"), 1.6, 1.0, id="FFCS"),
    ],
)
def test_bow_and_moments_everywhere(edges: Edges, width: float, head: float) -> None:
    panel = acrylic(width, 1.0, edges)
    load = WaterLoad(head, 10055.0, 500.0)
    up = lines(1.0, 12)
    there = solved(panel, load, lines(width, 12), with_line(up, head) if head < 1.0 else up)
    ours = solve_panel(panel, load)
    x, y = there.basis.mesh.p
    assert ours.bow(x, y) == pytest.approx(there.nodal("u"), abs=3e-4 * ours.max_bow)
    clear = clear_of_corners(panel, x, y, 0.15)
    for here, referee in zip(ours.moments(x, y), there.moments(), strict=True):
        assert here[clear] == pytest.approx(referee[clear], abs=2.5e-3 * ours.peak_moment)


@pytest.mark.parametrize(("supports", "width"), [("CCCF", 2.0), ("CCCF", 3.0), ("CCSF", 2.0)])
def test_clamped_side_beside_a_free_top(supports: str, width: float) -> None:
    """A mesh graded to the corners settles what the computed table left open (its rows marked unsettled)."""
    bottom: Support = "clamped" if supports[2] == "C" else "simple"
    panel = Panel(width, 1.0, 1.0, 12.0 * (1.0 - 0.3**2), 0.3, Edges("clamped", "clamped", bottom, "free"))
    near = np.array([0.0, 0.01, 0.03, 0.06, 0.1, 0.15, 0.22, 0.3, 0.4, 0.5, 0.65, 0.8, 1.0])
    across = np.unique(np.r_[near, np.linspace(1.0, width - 1.0, 5), width - near].round(12))
    fine = [*np.arange(0.0, 0.085, 0.01), 0.1, 0.13, 0.17, 0.22, *np.arange(0.3, 1.05, 0.1)]
    there = solved(panel, WaterLoad(1.0, 1.0), across, 1.0 - np.array(fine)[::-1])
    ours = solve_panel(panel, WaterLoad(1.0, 1.0))
    y = there.basis.mesh.p[1]
    side = there.along("left") & (y < 0.985)
    assert ours.moments(0.0, y[side])[0].min() == pytest.approx(there.moments()[0][side].min(), rel=2e-3)
    x = there.basis.mesh.p[0]
    top = there.along("top") & (np.abs(x - 0.5 * width) < 0.5 * width - 0.2)
    assert ours.moments(x[top], 1.0)[0].max() == pytest.approx(there.moments()[0][top].max(), rel=1e-3)


@pytest.mark.parametrize(("top", "seat"), [("simple", 1e9), ("simple", 1e7), ("free", 1e9), ("free", 1e7)])
def test_seats_that_only_push(top: Support, seat: float) -> None:
    """The computed rows of 860.7, 876.2, 1243.0 and 1264.9 N m/m came from a coarser mesh; this one is finer."""
    panel = acrylic(2.0, 1.2, Edges("simple", "simple", "simple", top))
    load = WaterLoad(1.2, 10055.0)
    there = pushed(panel, load, seat, lines(2.0, 16), lines(1.2, 16))
    ours = solve_push_only(panel, load, seat)
    x, y = there.basis.mesh.p
    assert ours.bow(x, y) == pytest.approx(there.nodal("u"), abs=1e-3 * ours.max_bow)
    most = principal(*there.moments()).max()
    assert principal(*ours.moments(x, y)).max() == pytest.approx(most, rel=1e-3)
    assert ours.peak_air.value == pytest.approx(most, rel=2e-3)
    assert ours.corner_lift == pytest.approx(-there.nodal("u").min(), rel=0.02)


def test_push_only_from_its_parts() -> None:
    """The same by the parts of the solver, on a panel that rests unevenly."""
    panel = acrylic(1.6, 1.0, Edges("clamped", "simple", "simple", "simple"))
    load = WaterLoad(0.8, 10055.0)
    plate = ritz_plate(on_seats(panel, 1e8), low_strip(panel, load.head), all_edges=True)
    table, rounds = push_only_bow(plate, load)
    resting = contact(plate, table, rounds)
    there = pushed(panel, load, 1e8, lines(1.6, 12), with_line(lines(1.0, 12), 0.8))
    for seat in resting.seats:
        on_edge = there.along(seat.edge)
        place = there.basis.mesh.p[0 if seat.edge in ("bottom", "top") else 1][on_edge]
        here = np.interp(place, seat.place, seat.bow)
        assert here == pytest.approx(there.nodal("u")[on_edge], abs=0.01 * np.abs(seat.bow).max())
    assert 0.3 < resting.share < 0.95


def test_leaning_edge() -> None:
    """A top edge that leans on a rim, pressed everywhere, is the same as a seat under it."""
    edges = Edges("clamped", "clamped", "clamped", "free")
    panel = replace(acrylic(1.5, 1.0, edges), springs=EdgeSprings(top=2e6))
    seated = acrylic(1.5, 1.0, Edges("clamped", "clamped", "clamped", "simple"))
    load = WaterLoad(1.0, 10055.0)
    there = pushed(seated, load, 2e6, lines(1.5, 12), lines(1.0, 12))
    ours = solve_panel(panel, load)
    x, y = there.basis.mesh.p
    assert ours.bow(x, y) == pytest.approx(there.nodal("u"), abs=1e-3 * ours.max_bow)
    line = ours.edge_reactions.top
    top = there.along("top")
    here = np.interp(x[top], line.place, line.line_load)
    assert here == pytest.approx(2e6 * there.nodal("u")[top], abs=3e-3 * line.peak)
