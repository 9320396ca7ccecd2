"""The transient beside scipy's integrator: all waters coupled, pumps running and then stopped.

The right-hand side below is written anew from the balances, with volumes among what is integrated.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tests.laws.waters import alone, circuit
from tidestead.core.dims import Array
from tidestead.physics import ammonia, oxygen
from tidestead.physics.ph import PHScale
from tidestead.physics.transient import _laws
from tidestead.physics.transient.engine import Course, carried, hours_until, run
from tidestead.physics.transient.system import Body, Inflow, Leak, System

KINDS = ("volume", "sal_psu", "temp_c", "oxygen", "tan", "organic")
TIGHT = 1e-12
FRESH = 997.0


def start(system: System) -> Array:
    """Volumes and masses, (6, bodies)."""
    rows = [
        [
            b.volume,
            b.volume * b.sal_psu,
            b.volume * b.temp_c,
            b.volume * b.oxygen,
            b.volume * b.tan,
            b.organic.nitrogen,
        ]
        for b in system.bodies
    ]
    return np.array(rows).T


def moved(system: System, evaporated: Array) -> tuple[Array, Array, float]:
    """Flows from body to body, to the floor, and of the top-off, with everything at its level that has one."""
    between, floor = np.zeros((3, 3)), np.zeros(3)
    leak, inflow = system.leaks[0].flow, system.inflows[0].flow
    floor[2] = leak
    if system.pumps:
        main, side = system.pumps[0].flow, system.pumps[1].flow
        between[1, 0], between[1, 2] = main, side
        between[0, 1] = main + inflow - evaporated[0]
        between[2, 1] = side - leak - evaporated[2]
    made_up = between[1].sum() - between[:, 1].sum() + evaporated[1]
    return between, floor, float(made_up)


def right_side(system: System) -> Callable[[float, Array], Array]:
    """Rates of everything, from the balances."""
    forcing, top, inflow = system.forcing, system.top_offs[0], system.inflows[0]
    assert forcing is not None
    gain, loss, even, warm = np.array([forcing.gain, forcing.loss, forcing.even, forcing.warm])[:, :, 0]
    brought = np.array([inflow.sal_psu, inflow.temp_c, inflow.oxygen, 0.0])
    topped = np.array([top.sal_psu, top.temp_c, top.oxygen, 0.0])

    def rates(_: float, flat: Array) -> Array:
        state = flat.reshape(6, 3)
        volume, masses = state[0], state[1:5]
        held = masses / volume
        temp: Array = held[1]
        held_at_most: Array = np.asarray(
            [oxygen.saturation_mass(float(s), float(t)) for s, t in zip(held[0], temp, strict=True)]
        )
        evaporated = (even + warm * (temp - forcing.reference_c)) / FRESH
        between, floor, made_up = moved(system, evaporated)
        out = np.zeros((6, 3))
        out[0] = between.sum(axis=0) - between.sum(axis=1) - floor - evaporated
        out[1:5] = held @ between - held * (between.sum(axis=1) + floor)
        out[2] -= temp * evaporated + (loss * temp - gain) / system.heat_stored
        out[0, 1] += made_up
        out[1:5, 1] += made_up * topped
        out[0, 0] += inflow.flow
        out[1:5, 0] += inflow.flow * brought
        for heater in system.heaters:
            sense = -1.0 if heater.cools else 1.0
            short = sense * (heater.setpoint_c - temp[heater.body]) / heater.band + 0.5
            out[2, heater.body] += sense * heater.power * float(np.clip(short, 0.0, 1.0)) / system.heat_stored
        for at, body in enumerate(system.bodies):
            alive(out[:, at], body, held[:, at], float(held_at_most[at]), float(state[5, at]))
        return out.ravel()

    return rates


def alive(out: Array, body: Body, held: Array, full: float, organic: float) -> None:
    """Air and life of one body added to its rates."""
    life, air, bacteria, decays = body.life, body.air, body.nitrifiers, body.organic
    _, temp, level, tan = held
    there = level / (level + life.half)
    warmth = life.q10 ** ((temp - life.reference_c) / 10.0)
    cleared = min(bacteria.clearance * tan, bacteria.ceiling) / 3600.0 * level / (level + bacteria.half)
    decayed = decays.decay / 86400.0 * organic
    out[3] += air.surface * air.exchange * (full - level) + air.bubbles / 3600.0 * (1.0 - level / full)
    out[3] -= (life.uptake * warmth + life.fixed) * there / 3600.0
    out[3] -= 4.57 * cleared + decays.oxygen * decayed * there
    out[4] += life.excretion / 3600.0 + decayed - cleared
    out[5] -= decayed


def settled(system: System, hours: float, from_: Array | None = None) -> Array:
    """scipy's answer, (6, bodies): volumes and concentrations, organic nitrogen."""
    first = start(system) if from_ is None else from_
    found = solve_ivp(
        right_side(system), (0.0, hours * 3600.0), first.ravel(), method="DOP853", rtol=TIGHT, atol=1e-12
    )
    assert found.success
    return np.asarray(found.y[:, -1]).reshape(6, 3)


def concentrations(state: Array) -> Array:
    """Volumes and organic nitrogen as they are, masses by volume."""
    return np.vstack([state[0], state[1:5] / state[0], state[5]])


def ours(course: Course) -> Array:
    """The end of a run in the same order."""
    return np.array([getattr(course, kind)[:, -1] for kind in KINDS])


def worst(found: Array, meant: Array) -> float:
    """The largest gap, as a share of what the three bodies hold at most of the kind."""
    return float(np.max(np.abs(found - meant) / np.max(np.abs(meant), axis=1, keepdims=True)))


@pytest.fixture(scope="module")
def after_running() -> Array:
    """Masses after four hours of running."""
    return settled(circuit(), 4.0)


def test_running_agrees(after_running: Array) -> None:
    course = run(circuit(), 4.0, 20.0)
    assert worst(ours(course), concentrations(after_running)) < 2e-8


def test_stopped_after_running_agrees(after_running: Array) -> None:
    """Two runs one after the other; without pumps the waters part and fall by themselves."""
    system = circuit()
    stopped = replace(carried(system, run(system, 4.0, 20.0)), pumps=())
    course = run(stopped, 8.0, 20.0)
    assert worst(ours(course), concentrations(settled(stopped, 8.0, after_running))) < 2e-8
    assert course.volume[0, -1] < system.overflows[0].crest


def test_hours_to_a_level_agree() -> None:
    system = replace(circuit(), pumps=())
    volume = system.bodies[0].volume

    def falls(_: float, flat: Array) -> float:
        return float(flat[9] / flat[0] - 4.0)

    falls.terminal = True  # type: ignore[attr-defined]  # how solve_ivp is told
    found = solve_ivp(
        right_side(system),
        (0.0, 86400.0),
        start(system).ravel(),
        "DOP853",
        events=falls,
        rtol=TIGHT,
        atol=1e-12,
    )
    assert found.t_events is not None
    hours = hours_until(run(system, 24.0, 60.0), 0, "oxygen", 4.0, rising=False)
    assert volume == 18.0
    assert hours == pytest.approx(float(found.t_events[0][0]) / 3600.0, rel=1e-6)


def slow(warm: float = 0.0) -> System:
    """The circuit pumped slowly enough for long steps, without the kinks of a thermostat."""
    system = circuit(warm)
    pumps = tuple(replace(pump, flow=0.05 * pump.flow) for pump in system.pumps)
    calm = replace(system.bodies[1], air=replace(system.bodies[1].air, bubbles=1.0))
    return replace(system, pumps=pumps, heaters=(), bodies=(system.bodies[0], calm, system.bodies[2]))


@pytest.mark.parametrize(("warm", "order"), [(0.0, 4), (1e-4, 2)])
def test_a_step_half_as_long_errs_less_by_its_order(warm: float, order: int) -> None:
    system = slow(warm)
    meant = concentrations(settled(system, 3.0))
    errors = [worst(ours(run(system, 3.0, step)), meant) for step in (600.0, 300.0, 150.0)]
    for before, after in pairwise(errors):
        assert np.log2(before / after) == pytest.approx(order, abs=0.35)


def test_a_hole_with_water_coming_in_agrees() -> None:
    """Second order in the step, as the engine says."""
    leak, inflow = Leak(0, 0.5, hole=2e-4), Inflow(0, 4e-4, 15.0)
    system = System((alone(area=2.0),), leaks=(leak,), inflows=(inflow,))

    def rates(_: float, state: Array) -> Array:
        head = max((state[0] - leak.low) / 2.0, 0.0)
        return np.array([inflow.flow - leak.hole * np.sqrt(2.0 * 9.80665 * head)])

    found = solve_ivp(rates, (0.0, 6.0 * 3600.0), [20.0], rtol=1e-10, atol=1e-12)
    errors = [abs(run(system, 6.0, step).volume[0, -1] / found.y[0, -1] - 1.0) for step in (60.0, 30.0)]
    assert errors[0] < 2e-5
    assert errors[1] == pytest.approx(errors[0] / 4.0, rel=0.02)


@pytest.mark.parametrize("sal_psu", [0.0, 20.0, 35.0, 42.0])
def test_the_oxygen_water_holds_is_that_of_the_public_formula(sal_psu: float) -> None:
    temps = np.linspace(0.0, 40.0, 9)
    mine = [_laws.oxygen_held(sal_psu, float(temp)) for temp in temps]
    assert np.allclose(mine, [oxygen.saturation_mass(sal_psu, float(temp)) for temp in temps], rtol=1e-13)


def test_ammonia_is_that_of_the_public_formula() -> None:
    course = run(circuit(), 2.0, 600.0)
    for at, body in enumerate(circuit().bodies):
        for row in (0, -1):
            share = ammonia.unionised_share(
                body.ph, PHScale.NBS, float(course.sal_psu[at, row]), float(course.temp_c[at, row])
            )
            meant = ammonia.unionised_ammonia(float(course.tan[at, row]), share)
            assert course.nh3[at, row] == pytest.approx(float(meant), rel=1e-12)
