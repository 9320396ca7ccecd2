"""What bubbles, columns, foam and removal must keep to whatever the numbers."""

from __future__ import annotations

import dataclasses
import math
import typing
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.arrays import broadcast
from tests.house.proofs import every_formula
from tidestead.core.dims import unit_of
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import surface_tension
from tidestead.physics.foam import bubbles, columns, diffusers, froth, removal, swarms, towers
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import Column, ColumnState
from tidestead.physics.foam.froth import NeckState
from tidestead.physics.foam.removal import SideStream
from tidestead.physics.foam.swarms import Swarm

SEAWATER = WaterProperties(density=1023.3, viscosity=0.959e-3, surface_tension=0.0732)
WATERS = [
    WaterProperties(1028.1, 1.89e-3, 0.0766),
    WaterProperties(1026.9, 1.40e-3, 0.0753),
    SEAWATER,
    WaterProperties(1021.7, 0.863e-3, 0.0723),
    WaterProperties(1016.0, 0.70e-3, 0.0709),
]
"""Seawater at 0, 10, 25, 30 and 40 degC, rounded."""

SIZE = st.floats(0.2e-3, 2.0e-3)
FINE = st.floats(0.3e-3, 1.2e-3)
SHARE = st.floats(0.01, 0.99)
SLOW = st.floats(0.0, 0.02)
SCALE = st.floats(0.1, 50.0)
STREAM = st.builds(
    SideStream, flow=st.floats(1e-5, 1e-2), volume=st.floats(0.1, 100.0), efficiency=st.floats(0.01, 1.0),
    fixed=st.floats(0.0, 0.9),
)  # fmt: skip


# Bubbles


@pytest.mark.parametrize("properties", WATERS)
def test_larger_bubbles_rise_faster_up_to_three_millimetres(properties: WaterProperties) -> None:
    """The ranges of the ball's law meet within 0.1 %; nothing else may step back before the wobble."""
    sizes = np.geomspace(1e-5, 2.4e-3, 2000)
    speeds = np.asarray(bubbles.rise_speed(broadcast(sizes), properties))
    assert np.all(np.diff(speeds) > -1e-3 * speeds[1:])
    grown = speeds[::100]
    assert np.all(np.diff(grown) > 0.0)


@pytest.mark.parametrize("properties", WATERS)
def test_no_jump_where_ball_becomes_ellipsoid(properties: WaterProperties) -> None:
    """At the book's change the speed would fall by a sixth; joined, neighbours differ by their size only."""
    sizes = np.geomspace(0.3e-3, 2.0e-3, 4000)
    speeds = np.asarray(bubbles.rise_speed(broadcast(sizes), properties))
    assert np.max(np.abs(np.diff(np.log(speeds)))) < 2.5 * np.log(sizes[1] / sizes[0])
    change = float(np.interp(2.0, np.asarray(bubbles.shape_number(broadcast(sizes), properties)), sizes))
    fall = bubbles.ellipsoid_rise(change, properties) / bubbles.sphere_rise(change, properties)
    assert 0.8 < fall < 0.87


def test_tiny_bubbles_creep_as_stokes_says() -> None:
    """U = g*(rho - rho_air)*d**2/(18*mu), the limit of every law of drag."""
    size = 5e-6
    stokes = 9.80665 * (1023.3 - 1.2) * size**2 / (18.0 * 0.959e-3)
    assert bubbles.rise_speed(size, SEAWATER) == pytest.approx(stokes, rel=1e-4)


@given(SIZE)
def test_number_of_lift_holds_no_surface_and_morton_no_size(size: float) -> None:
    """Nd = 4/3*sqrt(Eo**3/M), an identity of the three numbers."""
    joined = 4.0 / 3.0 * math.sqrt(bubbles.eotvos(size, SEAWATER) ** 3 / bubbles.morton(SEAWATER))
    assert bubbles.best_number(size, SEAWATER) == pytest.approx(joined)


@given(SIZE)
def test_speed_is_that_of_its_reynolds_number(size: float) -> None:
    speed = bubbles.rise_speed(size, SEAWATER)
    again = bubbles.reynolds(speed, size, SEAWATER) * 0.959e-3 / (1023.3 * size)
    assert again == pytest.approx(speed)


def test_small_balls_feel_no_surface() -> None:
    soapy = dataclasses.replace(SEAWATER, surface_tension=0.05)
    assert bubbles.rise_speed(0.3e-3, soapy) == bubbles.rise_speed(0.3e-3, SEAWATER)
    assert bubbles.rise_speed(2e-3, soapy) != bubbles.rise_speed(2e-3, SEAWATER)


@given(st.floats(1.0, 40.0), st.floats(0.0, 45.0))
def test_salt_tightens_the_surface_and_warmth_loosens_it(temp_c: float, sal_gkg: float) -> None:
    here = surface_tension.surface_tension(sal_gkg, temp_c)
    assert surface_tension.surface_tension(sal_gkg + 1.0, temp_c) > here
    assert surface_tension.surface_tension(sal_gkg, temp_c + 1.0) < here
    assert surface_tension.surface_tension(0.0, temp_c) == surface_tension.fresh_surface_tension(temp_c)


# Swarms and columns


@given(FINE, SLOW, SHARE)
def test_holdup_gives_back_its_air(size: float, water: float, use: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    air = use * swarms.flooding_gas_speed(water, swarm)
    if air <= 0.0:
        assert water >= swarm.rise
        return
    holdup = swarms.gas_holdup(air, water, swarm)
    assert 0.0 < holdup < swarms.flooding_holdup(water, swarm) + 1e-12
    assert swarms.gas_speed(holdup, water, swarm) == pytest.approx(air, rel=1e-6)


@given(FINE, SLOW)
def test_more_air_than_flooding_has_no_holdup(size: float, water: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    largest = swarms.flooding_gas_speed(water, swarm)
    assert math.isnan(swarms.gas_holdup(1.001 * largest + 1e-9, water, swarm))
    assert swarms.flooding_holdup(water, swarm) <= 1.0 / swarm.exponent


@given(FINE, SLOW, SHARE)
def test_more_air_and_more_water_crowd_the_bubbles(size: float, water: float, use: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    air = 0.9 * use * swarms.flooding_gas_speed(1.1 * water + 1e-4, swarm)
    if air <= 1e-6:
        return
    holdup = swarms.gas_holdup(air, water, swarm)
    assert swarms.gas_holdup(1.05 * air, water, swarm) > holdup
    assert swarms.gas_holdup(air, 1.1 * water + 1e-4, swarm) > holdup
    assert swarms.flooding_gas_speed(1.1 * water + 1e-4, swarm) < swarms.flooding_gas_speed(water, swarm)


@given(FINE, st.floats(0.0, 0.02))
def test_two_ways_to_flooding_meet(size: float, water: float) -> None:
    swarm = swarms.bubble_swarm(size, SEAWATER)
    if water > 0.95 * swarm.rise:
        return
    air = swarms.flooding_gas_speed(water, swarm)
    assert swarms.flooding_water_speed(air, swarm) == pytest.approx(water, abs=1e-7)


def test_finer_bubbles_flood_sooner_and_are_carried_further() -> None:
    speeds = [
        swarms.flooding_gas_speed(7e-3, swarms.bubble_swarm(size, SEAWATER)) for size in (5e-4, 8e-4, 1e-3)
    ]
    assert speeds == sorted(speeds)
    cuts = [columns.carry_under_cut(water, 0.1, SEAWATER) for water in (0.0, 1e-3, 7e-3, 2e-2, 5e-2)]
    assert cuts == sorted(cuts)
    assert cuts[0] < 1e-6
    assert columns.carry_under_cut(0.5, 0.1, SEAWATER) == math.inf


def test_water_as_fast_as_the_bubbles_takes_all_air_down() -> None:
    swarm = Swarm(rise=0.05, exponent=3.0)
    assert swarms.flooding_gas_speed(0.05, swarm) == 0.0
    assert math.isnan(swarms.gas_holdup(1e-4, 0.06, swarm))
    assert swarms.gas_speed(0.1, 0.06, swarm) < 0.0
    assert swarms.flooding_water_speed(1.0, swarm) == 0.0
    assert swarms.flooding_water_speed(0.0, swarm) == pytest.approx(0.05)


def test_exponent_falls_with_speed_and_hardly_steps() -> None:
    numbers = np.geomspace(1e-3, 1e4, 5000)
    exponents = np.asarray(swarms.swarm_exponent(broadcast(numbers)))
    assert exponents.max() == pytest.approx(4.65)
    assert exponents.min() == pytest.approx(2.39)
    assert np.max(np.diff(exponents)) < 0.025 * exponents.max()
    assert swarms.swarm_exponent(0.0) == 4.65


STATE = Column(area=0.5, height=2.0)


@given(FINE, st.floats(1e-4, 5e-3), st.floats(1e-5, 5e-3))
def test_state_of_a_column_keeps_air_and_water(size: float, water: float, air: float) -> None:
    state = columns.column_state(STATE, water, air, size, SEAWATER)
    assert (state.holdup is None) == (state.flooding_use > 1.0)
    if state.holdup is None:
        assert state.bubble_dwell is state.water_dwell is state.specific_area is state.carry_under is None
        assert state.most_water < state.water_speed
        return
    assert state.bubble_dwell is not None
    assert state.water_dwell is not None
    assert state.bubble_dwell * air + state.water_dwell * water == pytest.approx(STATE.area * STATE.height)
    assert state.most_water >= state.water_speed * (1.0 - 1e-6)


def test_state_of_a_column_is_plain_numbers() -> None:
    """Whatever shows or stores it need not know numpy."""
    state = columns.column_state(STATE, 0.004, 0.002, 0.8e-3, SEAWATER)
    neck = froth.neck_state(0.05, 1e-4, 1e-3, SEAWATER, 0.05)
    held = [*dataclasses.astuple(state), *dataclasses.astuple(neck)]
    assert {type(value) for value in held} == {float, tuple}


def test_column_without_water_flow() -> None:
    state = columns.column_state(STATE, 0.0, 0.002, 0.8e-3, SEAWATER)
    assert state.water_dwell == math.inf
    assert state.air_to_water == math.inf
    assert state.carry_under is not None
    assert state.carry_under < 1e-6


# Foam


@given(SCALE, SHARE)
def test_liquid_of_foam_gives_back_its_air(scale: float, use: float) -> None:
    air = use * froth.largest_gas_speed(scale)
    liquid = froth.rising_liquid(air, scale)
    assert 0.0 < liquid < froth.flooding_liquid()
    assert froth.rising_gas_speed(liquid, scale) == pytest.approx(air, rel=1e-6)


@given(SCALE, SHARE)
def test_what_foam_carries_is_what_rises_less_what_drains(scale: float, use: float) -> None:
    """jf = jg*e/(1 - e) - jd: liquid between the bubbles goes up with them and drains."""
    air = use * froth.largest_gas_speed(scale)
    liquid = froth.rising_liquid(air, scale)
    up = air * liquid / (1.0 - liquid) - froth.drainage_speed(liquid, scale)
    assert froth.carried_speed(liquid, scale) == pytest.approx(up, rel=1e-6)


@given(SCALE, SHARE)
def test_more_air_makes_wetter_foam(scale: float, use: float) -> None:
    air = use * froth.largest_gas_speed(scale)
    assert froth.rising_liquid(air, scale) > froth.rising_liquid(0.9 * air, scale)
    assert math.isnan(froth.rising_liquid(1.001 * froth.largest_gas_speed(scale), scale))


@given(FINE, st.floats(1e-3, 1.0), st.floats(1e-6, 1e-2))
def test_neck_of_least_area_is_just_used_up(size: float, area: float, air: float) -> None:
    state = froth.neck_state(area, air, size, SEAWATER, 0.05)
    assert state.use == pytest.approx(state.least_area / area)
    assert (state.liquid is None) == (state.use > 1.0)
    twice = froth.neck_state(area, air, 2.0 * size, SEAWATER, 0.05)
    assert twice.use == pytest.approx(state.use / 4.0)


def test_nothing_here_tells_litres_of_skimmate() -> None:
    """No formula of foam gives a flow, and no state of a column or neck holds one."""
    ours = [formula for formula in every_formula() if formula.__module__.startswith("tidestead.physics.foam")]
    assert len(ours) > 40
    returned = {formula.__name__: unit_of(_hints(formula)["return"]) for formula in ours}
    assert not [
        name for name, unit in returned.items() if unit in {"m3/s", "m3", "kg"} and "volume" not in name
    ]
    for state in (ColumnState, NeckState):
        assert not [name for name, hint in _hints(state).items() if unit_of(hint) in {"m3/s", "m3", "kg"}]


def _hints(thing: object) -> dict[str, object]:
    return typing.get_type_hints(thing, include_extras=True)


# Removal, power, sizes


@given(STREAM, SHARE)
def test_time_and_share_are_each_other_turned_round(stream: SideStream, removed: float) -> None:
    left = removal.share_left(stream, removal.removal_time(stream, removed))
    assert left == pytest.approx(stream.fixed + (1.0 - stream.fixed) * (1.0 - removed))


@given(STREAM, st.floats(0.0, 1e6), st.floats(0.0, 1e6))
def test_cleaning_goes_on_as_it_began(stream: SideStream, first: float, second: float) -> None:
    """What can be caught falls by the same factor whenever one looks."""
    whole = dataclasses.replace(stream, fixed=0.0)
    joined = removal.share_left(whole, first) * removal.share_left(whole, second)
    assert removal.share_left(whole, first + second) == pytest.approx(joined)
    assert removal.share_left(stream, first) >= stream.fixed


@given(STREAM, st.floats(0.0, 10.0), st.floats(0.0, 5.0), st.floats(0.0, 1e6))
def test_matter_is_kept_account_of(stream: SideStream, start: float, source: float, time: float) -> None:
    """What came in is in the water or was caught: the caught part integrated in closed form."""
    pace = removal.removal_pace(stream)
    end = removal.concentration_after(start, source, stream, time)
    settled = removal.steady_concentration(source, stream)
    seen = settled * time + (start - settled) * -math.expm1(-pace * time) / pace
    caught = stream.efficiency * stream.flow * seen
    came = start * stream.volume + source / 3600.0 * time
    assert end * stream.volume + caught == pytest.approx(came, rel=1e-6, abs=1e-9)


@given(STREAM, SHARE)
def test_a_better_catch_is_quicker(stream: SideStream, removed: float) -> None:
    whole = dataclasses.replace(stream, efficiency=1.0)
    assert removal.removal_time(whole, removed) <= removal.removal_time(stream, removed)
    turns = removal.turnovers(stream, removal.removal_time(stream, removed))
    assert turns == pytest.approx(-math.log(1.0 - removed) / stream.efficiency)


def test_idle_side_stream_never_cleans() -> None:
    idle = SideStream(flow=0.0, volume=10.0)
    assert removal.removal_time(idle, 0.5) == math.inf
    assert removal.removal_time(idle, 0.0) == 0.0
    assert removal.removal_time(SideStream(1e-3, 10.0), 1.0) == math.inf
    assert removal.share_left(idle, 1e6) == 1.0
    assert removal.steady_concentration(1.0, idle) == math.inf
    assert removal.concentration_after(1.0, 3.6, idle, 1e4) == pytest.approx(2.0)


@given(st.floats(1e-4, 1e-2), st.floats(1.0, 2e5))
def test_power_of_air_lies_between_slow_and_sudden(flow: float, pressure: float) -> None:
    """Pressed with all heat taken away it is the least, pushed at full pressure the most."""
    power = diffusers.air_power(flow, pressure, 1.0)
    least = 101325.0 * flow * math.log1p(pressure / 101325.0)
    assert least * (1.0 - 1e-9) <= power <= flow * pressure * (1.0 + 1e-9)
    assert diffusers.air_power(flow, pressure, 0.25) == pytest.approx(4.0 * power)


@given(st.floats(0.05, 2.0), st.integers(3, 60))
def test_many_sides_come_near_a_circle(apothem: float, sides: int) -> None:
    circle = towers.round_area(2.0 * apothem)
    assert towers.polygon_area(apothem, sides) > towers.polygon_area(apothem, sides + 1) > circle
    assert towers.polygon_area(apothem, 4) == pytest.approx((2.0 * apothem) ** 2)
    assert towers.polygon_area(apothem, 2000) == pytest.approx(circle, rel=1e-5)


@given(st.floats(0.05, 1.0), st.floats(0.05, 0.99), st.floats(0.05, 2.0))
def test_cone_lies_between_its_ends(radius: float, neck: float, height: float) -> None:
    lower, upper = towers.round_area(2.0 * radius), towers.round_area(2.0 * neck * radius)
    volume = towers.cone_volume(lower, upper, height)
    assert towers.column_volume(upper, height) < volume < towers.column_volume(lower, height)
    assert towers.cone_volume(lower, lower, height) == pytest.approx(towers.column_volume(lower, height))
    slope = towers.cone_slope(radius, neck * radius, height)
    assert math.tan(slope) == pytest.approx(height / (radius * (1.0 - neck)), rel=1e-6)
    assert towers.narrowing(lower, upper) == pytest.approx(1.0 / neck**2)
    assert towers.cone_slope(radius, radius, height) == pytest.approx(math.pi / 2.0)


# What nature does not have

GOOD = SideStream(1e-3, 10.0)
IMPOSSIBLE: list[Callable[[], object]] = [
    lambda: bubbles.rise_speed(0.0, SEAWATER),
    lambda: bubbles.rise_speed(math.nan, SEAWATER),
    lambda: bubbles.reynolds(-1.0, 1e-3, SEAWATER),
    lambda: WaterProperties(1000.0, 0.0, 0.07),
    lambda: WaterProperties(1000.0, 1e-3, math.nan),
    lambda: WaterProperties(1000.0, 1e-3, 0.07, air_density=1200.0),
    lambda: surface_tension.surface_tension(-1.0, 20.0),
    lambda: surface_tension.fresh_surface_tension(500.0),
    lambda: columns.superficial_speed(1.0, 0.0),
    lambda: columns.superficial_speed(-1.0, 1.0),
    lambda: columns.column_state(STATE, 1e-3, 0.0, 1e-3, SEAWATER),
    lambda: columns.column_state(Column(0.5, 0.0), 1e-3, 1e-3, 1e-3, SEAWATER),
    lambda: columns.specific_area(1.2, 1e-3),
    lambda: columns.water_dwell(-1.0, 0.1, 1.0),
    lambda: columns.bubble_dwell(1.0, 0.1, 0.0),
    lambda: columns.carry_under_cut(1e-3, 1.0, SEAWATER),
    lambda: swarms.gas_speed(1.0, 1e-3, Swarm(0.1, 3.0)),
    lambda: swarms.flooding_gas_speed(-1e-3, Swarm(0.1, 3.0)),
    lambda: swarms.flooding_water_speed(-1e-3, Swarm(0.1, 3.0)),
    lambda: froth.drainage_scale(0.0, SEAWATER),
    lambda: froth.rising_liquid(-1e-3, 2.0),
    lambda: froth.drainage_speed(1.1, 2.0),
    lambda: froth.DrainageLaw(exponent=1.0),
    lambda: froth.neck_state(0.0, 1e-3, 1e-3, SEAWATER, 0.05),
    lambda: SideStream(1e-3, 0.0),
    lambda: SideStream(1e-3, 10.0, efficiency=1.4),
    lambda: SideStream(1e-3, 10.0, fixed=-0.1),
    lambda: removal.removal_time(GOOD, 1.01),
    lambda: removal.share_left(GOOD, -1.0),
    lambda: removal.steady_concentration(-1.0, GOOD),
    lambda: removal.concentration_after(-1.0, 1.0, GOOD, 1.0),
    lambda: diffusers.diffuser_pressure(-1.0, 1025.0, 0.0),
    lambda: diffusers.air_power(1e-3, 2e4, 0.0),
    lambda: diffusers.air_power(1e-3, 2e4, 1.1),
    lambda: towers.polygon_area(0.3, 2),
    lambda: towers.cone_slope(0.1, 0.3, 1.0),
    lambda: towers.share_of_system(1.0, 0.0),
]


@pytest.mark.parametrize("number", range(len(IMPOSSIBLE)))
def test_impossible_input_is_refused(number: int) -> None:
    with pytest.raises(ImpossibleInput):
        IMPOSSIBLE[number]()
