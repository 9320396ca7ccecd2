"""Searches and closed forms of swarms, columns, froth and removal against scipy and numpy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from fluids.compressible import isentropic_work_compression
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, minimize_scalar

from tidestead.physics.foam import columns, contact, diffusers, froth, removal, swarms
from tidestead.physics.foam.bubbles import WaterProperties, rise_speed
from tidestead.physics.foam.columns import Column
from tidestead.physics.foam.removal import SideStream
from tidestead.physics.foam.swarms import Swarm

SEAWATER = WaterProperties(density=1023.3, viscosity=0.959e-3, surface_tension=0.0732)
SIZES = [0.5e-3, 0.8e-3, 1.0e-3]
WATERS = [0.0, 3.5e-3, 6.9e-3, 13.8e-3, 30e-3]


def drift(holdup: float, water: float, swarm: Swarm) -> float:
    """Speed of air by the law of drift, written out again."""
    slip: float = swarm.rise * (1.0 - holdup) ** (swarm.exponent - 1.0)
    return holdup * slip - water * holdup / (1.0 - holdup)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("water", WATERS)
def test_flooding_is_the_top_of_the_curve(size: float, water: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    top = minimize_scalar(
        lambda e: -drift(e, water, swarm), bounds=(0.0, 0.6), method="bounded", options={"xatol": 1e-9}
    )
    assert swarms.flooding_gas_speed(water, swarm) == pytest.approx(-top.fun, rel=1e-6)
    assert swarms.flooding_holdup(water, swarm) == pytest.approx(top.x, abs=1e-6)
    assert swarms.flooding_water_speed(-top.fun, swarm) == pytest.approx(water, abs=1e-8)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("water", WATERS)
@pytest.mark.parametrize("use", [0.01, 0.5, 0.99])
def test_holdup_is_the_lower_root(size: float, water: float, use: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    air = use * swarms.flooding_gas_speed(water, swarm)
    top = swarms.flooding_holdup(water, swarm)
    root = brentq(lambda e: drift(e, water, swarm) - air, 0.0, top)
    assert swarms.gas_holdup(air, water, swarm) == pytest.approx(root, rel=1e-8)
    assert swarms.gas_speed(root, water, swarm) == pytest.approx(air, rel=1e-8)


@pytest.mark.parametrize("water", WATERS[1:])
def test_carry_under_is_where_rise_meets_sinking(water: float) -> None:
    cut = columns.carry_under_cut(water, 0.05, SEAWATER)
    root = brentq(lambda size: rise_speed(size, SEAWATER) - water / 0.95, 1e-6, 2e-3)
    assert cut == pytest.approx(root, rel=1e-6)


@pytest.mark.parametrize(("foot", "outlet"), [(0.3, 0.1), (0.2, 0.6), (0.0, 0.0)])
@pytest.mark.parametrize("holdup", [0.0, 0.03, 0.3])
def test_lifted_water_weighs_at_the_outlet_what_the_riser_does(
    foot: float, outlet: float, holdup: float
) -> None:
    """Density summed up from the outlet to the surface against clear water in the riser, surface by brentq."""

    def overweight(surface: float) -> float:
        weight, _ = quad(
            lambda z: 1.0 - holdup if z > foot else 1.0, outlet, surface, points=[max(foot, outlet)]
        )
        return weight - (1.4 - outlet)

    level = brentq(overweight, 1.0, 3.0)
    assert contact.lifted_level(1.4, max(foot, outlet), holdup) == pytest.approx(level, rel=1e-6)


@pytest.mark.parametrize("size", SIZES)
def test_state_of_a_column_hangs_together(size: float) -> None:
    """Every figure of a state again, from its holdup by hand."""
    column, water, air = Column(area=0.6, height=2.2), 9.0 / 3600.0, 0.6e-3
    state = columns.column_state(column, water, air, size, SEAWATER)
    assert state.holdup is not None
    assert drift(state.holdup, water / 0.6, state.swarm) == pytest.approx(air / 0.6, rel=1e-9)
    held = state.holdup * 0.6 * 2.2
    assert state.bubble_dwell == pytest.approx(held / air)
    assert state.water_dwell == pytest.approx((0.6 * 2.2 - held) / water)
    assert state.surface == pytest.approx(held * 6.0 / size)
    assert state.air_to_water == pytest.approx(air / water)


@pytest.mark.parametrize("radius", [0.25e-3, 0.5e-3, 1.0e-3])
@pytest.mark.parametrize("use", [0.02, 0.4, 0.97])
def test_liquid_of_rising_foam_is_a_root_of_the_cubic(radius: float, use: float) -> None:
    """With n = 2: e**3 - 2*e**2 + e = jg/(2*m*K), of which the smallest root is the foam's."""
    scale = froth.drainage_scale(radius, SEAWATER)
    air = use * froth.largest_gas_speed(scale)
    roots = np.roots([1.0, -2.0, 1.0, -air / (2.0 * 0.016 * scale)])
    assert froth.rising_liquid(air, scale) == pytest.approx(roots.real.min(), rel=1e-8)


@pytest.mark.parametrize("exponent", [1.6, 2.0, 2.4])
def test_wettest_foam_is_the_top_of_the_curve(exponent: float) -> None:
    law = froth.DrainageLaw(exponent=exponent)
    top = minimize_scalar(
        lambda e: -froth.rising_gas_speed(e, 1.0, law), bounds=(1e-3, 0.9), method="bounded",
        options={"xatol": 1e-9},
    )  # fmt: skip
    assert froth.flooding_liquid(law) == pytest.approx(top.x, abs=1e-6)
    assert froth.largest_gas_speed(1.0, law) == pytest.approx(-top.fun, rel=1e-9)


def test_concentration_by_integration() -> None:
    """V dC/dt = G - E*Q*C, step by step."""
    stream = SideStream(flow=1.5 / 3600.0, volume=11.0, efficiency=0.4)
    rate = 0.4 * 1.5 / 3600.0
    path = solve_ivp(
        lambda _, c: (0.8 / 3600.0 - rate * c) / 11.0, (0.0, 2e5), [3.0], rtol=1e-10, atol=1e-12
    )  # fmt: skip
    ours = removal.concentration_after(3.0, 0.8, stream, 2e5)
    assert ours == pytest.approx(path.y[0, -1], rel=1e-7)
    assert removal.steady_concentration(0.8, stream) == pytest.approx(0.8 / (0.4 * 1.5))


@pytest.mark.parametrize("pressure", [1e3, 2e4, 1.5e5])
def test_power_of_air_by_the_work_of_a_mole(pressure: float) -> None:
    flow, p0, warm = 2e-3, 101325.0, 293.15
    moles = p0 * flow / (8.31446261815324 * warm)
    work = isentropic_work_compression(T1=warm, k=1.4, P1=p0, P2=p0 + pressure, eta=0.3)
    assert diffusers.air_power(flow, pressure, 0.3) == pytest.approx(moles * work, rel=1e-6)


def test_mixed_water_is_many_small_passes() -> None:
    """A pass takes E*dV/V of what is there; ten thousand of them come to the exponential."""
    stream = SideStream(flow=1.0, volume=1.0, efficiency=0.7, fixed=0.2)
    left = 0.2 + 0.8 * (1.0 - 0.7 * 2.0 / 1e5) ** 100_000
    assert removal.share_left(stream, 2.0) == pytest.approx(left, rel=1e-5)
    assert removal.removal_time(stream, 1.0 - math.exp(-1.4)) == pytest.approx(2.0)
