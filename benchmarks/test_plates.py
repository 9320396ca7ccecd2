"""A window under water: our panel solve beside scikit-fem's Argyris triangles at the same accuracy.

Run with `pytest benchmarks/test_plates.py`. Each row carries its errors in `extra_info`, against a much finer
solution of our own which Levy series and graded triangles confirm (tests/agree). Time is shown, not asserted;
accuracy is.
"""

from __future__ import annotations

from itertools import count
from typing import Any

import numpy as np
import pytest

from tests.agree.argyris_plate import ArgyrisPlate, solved
from tidestead.physics.structure.plates import (
    Edges,
    Panel,
    PanelState,
    WaterLoad,
    solve_panel,
    solve_push_only,
)

WITHIN = 1e-3
"""Both are held to a thousandth on bow and greatest moment."""
LOAD = WaterLoad(1.0, 10055.0)
HAIR = 1e-9
CASES = {
    "three simple edges, top free": (Edges("simple", "simple", "simple", "free"), 6, 6),
    "four simple edges": (Edges("simple", "simple", "simple", "simple"), 8, 8),
    "four clamped edges": (Edges("clamped", "clamped", "clamped", "clamped"), 12, 12),
}
"""Edges, and the fewest Argyris cells along the width and up the height that meet WITHIN."""

asked = pytest.mark.parametrize("name", CASES)


def panel_of(name: str, width: float = 1.5) -> Panel:
    return Panel(width, 1.0, 0.04, 3.3e9, 0.38, CASES[name][0])


def our_errors(state: PanelState, fine: PanelState) -> dict[str, float]:
    return {
        "bow error": abs(state.max_bow / fine.max_bow - 1.0),
        "moment error": abs(state.peak_moment / fine.peak_moment - 1.0),
    }


def their_errors(there: ArgyrisPlate, fine: PanelState) -> dict[str, float]:
    """Errors at mesh points, so that no peak missed between them counts against the referee."""
    x, y = there.basis.mesh.p
    mx, my, _ = fine.moments(x, y)
    theirs = there.moments()
    apart = max(np.abs(theirs[0] - mx).max(), np.abs(theirs[1] - my).max())
    return {
        "bow error": float(np.abs(there.nodal("u") - fine.bow(x, y)).max() / fine.max_bow),
        "moment error": float(apart / fine.peak_moment),
    }


def lines(length: float, cells: int) -> Any:
    return 0.5 * length * (1.0 - np.cos(np.linspace(0.0, np.pi, cells + 1)))


@asked
def test_ours(benchmark: Any, name: str) -> None:
    """A new panel each time, so that nothing kept from the last one helps; peaks of bow and moment included."""
    benchmark.group = f"panel, {name}"
    turn = count(1)

    def one() -> PanelState:
        state = solve_panel(panel_of(name, 1.5 + HAIR * next(turn)), LOAD)
        assert state.peak_moment > state.max_bow
        return state

    state = benchmark(one)
    errors = our_errors(state, solve_panel(panel_of(name), LOAD, extra_degree=10))
    benchmark.extra_info.update(errors)
    assert max(errors.values()) < WITHIN


@asked
def test_argyris(benchmark: Any, name: str) -> None:
    """Mesh, assembly and solution; no search for peaks."""
    benchmark.group = f"panel, {name}"
    _, across, up = CASES[name]
    there = benchmark(lambda: solved(panel_of(name), LOAD, lines(1.5, across), lines(1.0, up)))
    errors = their_errors(there, solve_panel(panel_of(name), LOAD, extra_degree=10))
    benchmark.extra_info.update(errors)
    assert max(errors.values()) < WITHIN


@pytest.mark.parametrize("kept", [False, True], ids=["new panel", "another level of the same panel"])
def test_seats_that_push(benchmark: Any, kept: bool) -> None:
    """Four seats that only push, with the search for peaks."""
    benchmark.group = "panel on seats that push"
    turn = count(1)

    def one() -> float:
        hair = HAIR * next(turn)
        panel = panel_of("four simple edges", 1.5 if kept else 1.5 + hair)
        return solve_push_only(panel, WaterLoad(1.0 - hair, 10055.0)).peak_moment

    assert benchmark(one) > 0.0


def test_edge_forces(benchmark: Any) -> None:
    """Forces along the edges of a solved panel."""
    benchmark.group = "panel, edge forces"

    def one() -> float:
        return solve_panel(panel_of("three simple edges, top free"), LOAD).edge_reactions.total

    assert benchmark(one) > 0.0
