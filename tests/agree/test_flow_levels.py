"""Levels against time, by steps, against closed forms: Torricelli, weirs that run out, two vessels that even out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq, root

from tidestead.core.dims import G
from tidestead.physics.flow import draining, levels, runback
from tidestead.physics.flow.draining import Basin, Outlet, upright_basin
from tidestead.physics.flow.laws import HeadAt, ShutLaw
from tidestead.physics.flow.levels import Pumped, Spill
from tidestead.physics.flow.runback import Guards, PowerStop, Standing, Way
from tidestead.physics.flow.webs import Pipe, PipeEnd, pipe_flows
from tidestead.physics.flow.weirs import Weir, WeirLaw, weir_head

UPPER = upright_basin(0.0, 2.0, 2.0)
LOWER = upright_basin(-3.0, 0.0, 1.0)


@dataclass(frozen=True)
class Square:
    """Head as the square of flow."""

    factor: float

    def at(self, flow: float) -> HeadAt:
        return HeadAt(self.factor * flow * abs(flow), 2.0 * self.factor * abs(flow) + 1e-12)


@dataclass(frozen=True)
class Power:
    """Head as flow to the power 2/3: a crest whose coefficient is constant."""

    coefficient: float

    def at(self, flow: float) -> HeadAt:
        head = (max(flow, 0.0) / self.coefficient) ** (2.0 / 3.0)
        return HeadAt(head, 2.0 / 3.0 * head / flow if flow > 0.0 else 1e6)


def square(start: int, end: int, bare: float, factor: float) -> Pipe:
    """A full pipe whose head is a factor times the square of its flow."""
    return Pipe(PipeEnd(start, bare), PipeEnd(end, 10.0), factor * 1e-6, 1e-3)


def test_a_hole_empties_as_torricelli_says() -> None:
    area, share = 1e-3, 0.61
    law = Square(1.0 / (2.0 * G * (share * area) ** 2))
    time = draining.draining_time(2.0, Outlet(0.2, area, share), 1.2, 0.5)
    course = levels.level_course((UPPER, LOWER), (1.2, -3.0), (Spill(0, 1, 0.2, law),), time)
    assert course.levels[-1, 0] == pytest.approx(0.5, abs=1e-5)


def test_a_weir_runs_out_as_its_closed_form() -> None:
    """dh/dt = -C*h**1.5/A: h = h0/(1 + C*sqrt(h0)*t/(2*A))**2."""
    coefficient, start, time = 2.2, 0.05, 60.0
    course = levels.level_course(
        (UPPER, LOWER), (1.0 + start, -3.0), (Spill(0, 1, 1.0, Power(coefficient)),), time
    )
    closed = start / (1.0 + coefficient * math.sqrt(start) * time / (2.0 * 2.0)) ** 2
    assert course.levels[-1, 0] - 1.0 == pytest.approx(closed, abs=2e-6)


def test_two_vessels_even_out_and_stop() -> None:
    """Flow as the root of the difference d: sqrt(d) falls evenly by (1/A1 + 1/A2)/(2*sqrt(k)) a second."""
    lower, factor = upright_basin(-3.0, 2.0, 1.0), 4.0e5
    start = 1.2 - 0.2
    time = 0.5 * 2.0 * math.sqrt(start * factor) / (1.0 / 2.0 + 1.0 / 1.0)
    course = levels.level_course((UPPER, lower), (1.2, 0.2), (square(0, 1, -5.0, factor),), time)
    # Each step may err by a millionth of a metre in either vessel.
    assert course.levels[-1, 0] - course.levels[-1, 1] == pytest.approx(
        start / 4.0, abs=2e-6 * len(course.times)
    )


def test_steps_come_to_rest_where_the_power_stop_says() -> None:
    """The reference basin, 261 L: the levels by steps end at the volumes by continuity."""
    basin, sump = upright_basin(0.0, 1.3, 6.0), upright_basin(-0.8, -0.05, 1.0)
    crest = 1.2
    vessels = {"basin": Standing(basin, 1.2185), "sump": Standing(sump, -0.4)}
    down = (Way("basin", "sump", crest), Way("basin", "sump", 0.8, 1.175))
    still = runback.runback(PowerStop(vessels, down, (), "sump"), Guards())
    rests = still.rests["basin"]
    ways = (Spill(0, 1, crest, WeirLaw(Weir(1.2, 1.0, 1.2))), square(0, 1, rests, 1e5))
    course = levels.level_course((basin, sump), (1.2185, -0.4), ways, 3600.0)
    assert course.levels[-1] == pytest.approx([rests, still.sump_level], abs=1e-6)
    assert course.volumes[-1, 1] - course.volumes[0, 1] == pytest.approx(still.total, abs=1e-5)
    assert np.ptp(course.volumes.sum(axis=1)) < 1e-9 * course.volumes[0].sum()


def test_a_start_comes_to_the_weirs_own_head() -> None:
    basin, sump = upright_basin(0.0, 1.3, 6.0), upright_basin(-0.8, -0.05, 1.8)
    weir, flow = Weir(1.2, 1.0, 1.2), 20.0 / 3600.0
    ways = (Spill(0, 1, 1.2, WeirLaw(weir)), Pumped(1, 0, flow, -0.75))
    course = levels.level_course((basin, sump), (1.175, -0.3), ways, 1800.0)
    assert course.levels[-1, 0] - 1.2 == pytest.approx(weir_head(weir, flow).likely, abs=2e-5)
    assert np.ptp(course.volumes.sum(axis=1)) < 1e-9


def test_a_pump_that_sucks_its_sump_dry_slows_and_stays() -> None:
    ways = (Pumped(1, 0, 0.01, -2.9),)
    course = levels.level_course((UPPER, LOWER), (1.0, -2.85), ways, 3600.0)
    assert course.levels[-1, 1] == pytest.approx(-2.9, abs=1e-4)
    assert course.levels.min(axis=0)[1] > -2.9 - 1e-6


def test_a_small_box_on_a_short_pipe_evens_out_in_few_steps() -> None:
    """Stiff: the box follows the tank within a second for an hour."""
    tank, box, sump = UPPER, upright_basin(0.0, 2.0, 0.01), upright_basin(-3.0, 0.0, 5.0)
    ways = (square(0, 1, -5.0, 2.0e3), Spill(1, 2, 0.9, Power(1e-3)))
    course = levels.level_course((tank, box, sump), (1.2, 0.5, -3.0), ways, 3600.0)
    assert len(course.times) < 500
    assert course.levels[-1, 0] == pytest.approx(course.levels[-1, 1], abs=1e-4)
    assert np.ptp(course.volumes.sum(axis=1)) < 1e-9


def test_what_is_shut_stays() -> None:
    course = levels.level_course((UPPER, LOWER), (1.2, -2.0), (Spill(0, 1, 0.1, ShutLaw()),), 600.0)
    assert course.levels[-1] == pytest.approx([1.2, -2.0], abs=1e-12)


@pytest.mark.parametrize(("start", "end"), [(1.2, 0.1), (1.0, 0.6), (0.5, 0.25)])
def test_draining_of_any_shape_is_the_integral(start: float, end: float) -> None:
    basin, outlet = Basin((0.0, 0.5, 1.2), (2.0, 3.0, 6.0)), Outlet(0.0, 2e-3, 0.61)
    theirs, _ = quad(
        lambda z: draining.surface_at(basin, z) / draining.outlet_flow(outlet, z),
        end, start, points=[0.5] if end < 0.5 < start else None,
    )  # fmt: skip
    assert draining.basin_draining_time(basin, outlet, start, end) == pytest.approx(theirs, rel=1e-9)


def test_pumping_down_is_the_integral() -> None:
    basin = Basin((0.0, 0.5, 1.2), (2.0, 3.0, 6.0))
    theirs, _ = quad(
        lambda z: draining.surface_at(basin, z) / np.interp(z, [0.0, 1.2], [1e-3, 2e-3]), 0.1, 1.2
    )
    ours = draining.pumped_down_time(basin, 1.2, 0.1, ((0.0, 1e-3), (1.2, 2e-3)))
    assert ours == pytest.approx(theirs, rel=3e-5)


@pytest.mark.parametrize(
    "levels_of", [(20.0, 15.0, 8.0), (20.0, 8.0, 8.0), (9.0, 8.5, 8.0), (20.0, 19.9, 19.8), (1.0, 5.0, 3.0)]
)
def test_three_waters_at_a_junction_as_a_root_of_their_balance(levels_of: tuple[float, ...]) -> None:
    """The old problem of three reservoirs: the head of the junction by a root finder."""
    factors = (4.0e4, 9.0e4, 2.5e4)

    def gained(head: float) -> float:
        return sum(
            math.copysign(math.sqrt(abs(z - head) / k), z - head)
            for z, k in zip(levels_of, factors, strict=True)
        )

    head = brentq(gained, min(levels_of), max(levels_of), xtol=1e-14)
    theirs = [
        math.copysign(math.sqrt(abs(z - head) / k), z - head) for z, k in zip(levels_of, factors, strict=True)
    ]
    ours = pipe_flows(
        levels_of, [Pipe(PipeEnd(at), PipeEnd(3), k * 1e-6, 1e-3) for at, k in enumerate(factors)]
    )
    assert ours == pytest.approx(theirs, rel=1e-4, abs=1e-6)
    assert abs(float(ours.sum())) < 1e-12


def test_two_junctions_in_a_row_as_a_network_solved_otherwise() -> None:
    """Four waters at two junctions: scipy's root of both balances."""
    heads_of, factors, joint = (3.0, 2.0, 0.5, -1.0), (4e4, 9e4, 2e4, 6e4), 5e2

    def flow(fall: float, factor: float) -> float:
        return math.copysign(math.sqrt(abs(fall) / factor), fall)

    def gained(heads: np.ndarray) -> list[float]:
        one, other = heads
        across = flow(one - other, joint)
        into_one = sum(flow(z - one, k) for z, k in zip(heads_of[:2], factors[:2], strict=True))
        into_other = sum(flow(z - other, k) for z, k in zip(heads_of[2:], factors[2:], strict=True))
        return [into_one - across, into_other + across]

    found = root(gained, [1.0, 0.9], tol=1e-10)
    assert found.success
    pipes = [Pipe(PipeEnd(at), PipeEnd(4 + at // 2), k * 1e-6, 1e-3) for at, k in enumerate(factors)]
    ours = pipe_flows(heads_of, [*pipes, Pipe(PipeEnd(4), PipeEnd(5), joint * 1e-6, 1e-3)])
    theirs = [flow(z - found.x[at // 2], k) for at, (z, k) in enumerate(zip(heads_of, factors, strict=True))]
    assert ours[:4] == pytest.approx(theirs, rel=1e-4)


def test_basin_runs_through_a_branch_into_a_low_tower_and_on() -> None:
    """The steps end where each vessel has nothing left that can go on: 0.78 m in both, whatever the losses."""
    basin, tower, sump = (
        upright_basin(0.0, 1.3, 6.0),
        upright_basin(-0.6, 0.9, 0.34),
        upright_basin(-0.8, 5.0, 9.0),
    )
    ways = (
        Pipe(PipeEnd(0, 0.60, 0.60), PipeEnd(3), 0.5, 4e-3),
        Pipe(PipeEnd(3), PipeEnd(1, 0.55, 0.55), 0.5, 1e-3),
        Pipe(PipeEnd(1, -0.5), PipeEnd(2, 5.0, 0.78), 0.5, 3e-3),
    )
    course = levels.level_course((basin, tower, sump), (1.2185, 0.80, -0.7), ways, 12.0 * 3600.0, 1e-8)
    assert course.levels[-1, :2] == pytest.approx([0.78, 0.78], abs=2e-4)
    assert course.volumes[-1, 2] - course.volumes[0, 2] == pytest.approx(6.0 * 0.4385 + 0.34 * 0.02, abs=2e-3)
    assert np.ptp(course.volumes.sum(axis=1)) < 1e-9 * course.volumes[0].sum()


def test_a_course_ends_once_nothing_moves() -> None:
    course = levels.level_course((UPPER, LOWER), (1.2, -2.0), (square(0, 1, 1.1, 1e4),), 1e9, 1e-7)
    assert course.times[-1] < 3600.0
    assert course.levels[-1, 0] == pytest.approx(1.1, abs=1e-4)
