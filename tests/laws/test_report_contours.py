"""Level lines against areas known by elementary geometry."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tidestead.core.scene import Contours, Point
from tidestead.core.units import System, show
from tidestead.report import svg_contours


def field(of: Callable[[float, float], float], wide: float, tall: float, cells: int) -> Contours:
    across = tuple(float(x) for x in np.linspace(0.0, wide, cells + 1))
    up = tuple(float(y) for y in np.linspace(0.0, tall, cells + 1))
    return Contours(across, up, tuple(tuple(of(x, y) for x in across) for y in up), "Pa", "made up")


def area(loops: list[list[Point]]) -> float:
    """Signed by the way the loop runs, so that holes take away."""
    return (
        abs(
            sum(
                math.fsum(
                    ax * by - bx * ay for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1], strict=True)
                )
                for loop in loops
            )
        )
        / 2.0
    )


@given(st.floats(0.02, 0.98), st.integers(2, 12))
def test_slope_is_cut_exactly(level: float, cells: int) -> None:
    """Straight-line interpolation has no error on a plane: the area above is a rectangle."""
    assert area(svg_contours.region(field(lambda x, y: x, 1.0, 2.0, cells), level)) == pytest.approx(
        2.0 * (1.0 - level)
    )


@given(st.floats(0.05, 0.95), st.integers(3, 15))
def test_tilted_plane_cuts_a_triangle(level: float, cells: int) -> None:
    loops = svg_contours.region(field(lambda x, y: 2.0 - x - y, 1.0, 1.0, cells), 2.0 - level)
    assert area(loops) == pytest.approx(level**2 / 2.0)


def test_area_of_a_bowl_converges_with_the_square_of_the_grid() -> None:
    """Above level 1 - r^2 a paraboloid stands on a circle of area pi r^2."""
    exact = math.pi * 0.8**2
    errors = [
        abs(
            area(
                svg_contours.region(
                    field(lambda x, y: 1.0 - (x - 1) ** 2 - (y - 1) ** 2, 2.0, 2.0, cells), 1.0 - 0.8**2
                )
            )
            - exact
        )
        for cells in (20, 40, 80)
    ]
    for coarse, fine in itertools.pairwise(errors):
        assert 3.0 < coarse / fine < 5.0


def test_hole_is_a_hole() -> None:
    """A ring: the rim of a crater between radius 0.4 and 0.8."""
    crater = field(lambda x, y: -abs(math.hypot(x - 1, y - 1) - 0.6), 2.0, 2.0, 120)
    loops = svg_contours.region(crater, -0.2)
    assert len(loops) == 2
    assert area(loops) == pytest.approx(math.pi * (0.8**2 - 0.4**2), rel=2e-3)


def test_everything_and_nothing() -> None:
    bowl = field(lambda x, y: x * y, 3.0, 2.0, 5)
    assert area(svg_contours.region(bowl, -1.0)) == pytest.approx(6.0)
    assert svg_contours.region(bowl, 100.0) == []


@given(
    st.lists(
        st.lists(st.sampled_from([0.0, 1.0, 2.0, math.nan]), min_size=4, max_size=4), min_size=4, max_size=4
    )
)
def test_any_grid_gives_closed_loops_inside_it_and_shrinks_with_the_level(rows: list[list[float]]) -> None:
    grid = Contours((0.0, 1.0, 2.0, 3.0), (0.0, 1.0, 2.0, 3.0), tuple(map(tuple, rows)), "Pa", "made up")
    areas = []
    for level in (0.25, 0.75, 1.25, 1.75):
        loops = svg_contours.region(grid, level)
        assert all(len(loop) >= 3 for loop in loops)
        assert all(-1e-9 <= x <= 3.0 + 1e-9 and -1e-9 <= y <= 3.0 + 1e-9 for loop in loops for x, y in loop)
        areas.append(area(loops))
    assert areas == sorted(areas, reverse=True)


@given(st.floats(1e-3, 1e7), st.sampled_from(["metric", "us"]), st.sampled_from(["Pa", "N", "N m/m"]))
@example(0.035, "metric", "Pa")
def test_levels_are_few_round_and_inside(high: float, system: System, unit: str) -> None:
    levels = svg_contours.levels(0.0, high, unit, system)
    assert 3 <= len(levels) <= 8
    assert all(0.0 < level < high for level in levels)
    steps = np.diff([0.0, *levels])
    assert np.allclose(steps, steps[0])
    if high > 100.0:
        digits = [show(level, unit, system).split(" ")[0].strip("0").replace(".", "") for level in levels]
        assert all(len(text.replace(",", "").replace("\u00a0", "").rstrip("0")) <= 3 for text in digits)


@pytest.mark.parametrize(
    ("high", "system", "unit", "first"),
    [
        (4.2e6, "metric", "Pa", "1 MPa"),
        (4.2e6, "us", "Pa", "100 psi"),
        (0.0213, "metric", "m", "5.0 mm"),
        (0.0213, "us", "m", "0.20 in"),
    ],
)
def test_levels_as_read(high: float, system: System, unit: str, first: str) -> None:
    level = svg_contours.levels(0.0, high, unit, system)[0]
    assert show(level, unit, system, "bow" if unit == "m" else "") == first


def test_greatest_is_where_it_is() -> None:
    grid = field(lambda x, y: -((x - 0.5) ** 2) - (y - 1.0) ** 2, 1.0, 2.0, 10)
    place, value = svg_contours.greatest(grid)
    assert place == pytest.approx((0.5, 1.0))
    assert value == pytest.approx(0.0)
    assert svg_contours.ends(Contours((0.0, 1.0), (0.0, 1.0), ((math.nan,) * 2,) * 2, "Pa", "x")) is None
