"""The year's engine against solvers that know nothing of its steps: LSODA and Runge-Kutta on the same physics as rates.

What is compared: how the engine steps, makes straight lines, eliminates, keeps vents and wetness in agreement, and
adds up. The laws inside (films, evaporation, sun) are the same on both sides; print holds those. Weather: a typical
year of Greensboro, North Carolina. Heaters run all the time here, for a thermostat's switching has no order.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import pytest

from tests.agree import heat_rates
from tests.agree.heat_rates import Found, Stretch
from tests.arrays import broadcast
from tests.journeys.climates import climate
from tests.laws import heat_systems as made
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_DAYS
from tidestead.physics.heat import cooling, engine
from tidestead.physics.heat._layout import LATENT
from tidestead.physics.heat._tables import Tables
from tidestead.physics.heat.system import Body, Heating, Layer, Link, Shade, Side, System, Vents, Wall, Window

WATER_TO = 0.02
"""Kelvin of any hour of any body at the default steps."""
AIR_TO = 0.12
"""Kelvin, mean over the hours, of the room's air at four moments; a glazed house warms by kelvins in a step."""
SOLVERS_TO = 1e-4
"""Kelvin between LSODA and Runge-Kutta in steps of 30 s: both are far nearer to the truth than the engine."""
ENERGY_TO = 0.005
JANUARY, APRIL, JULY = 0, 24 * 100, 24 * 181
NOON = np.isin(np.arange(HOURS) % 24, (11, 12, 13, 14, 15)).astype(float)
ON_LEGS = (Side(12.0, (made.PLY,)), Side(3.7, (made.ACRYLIC,)))
"""No side on the ground, which answers too quickly for Runge and Kutta."""
LIGHT_FLOOR = Wall("floor", 24.3, (Layer(resistance=2.0), made.CONCRETE), "air", made.UNDER)


def shaded() -> System:
    """Shade by the clock: one that follows the warmth is drawn or not on a hair."""
    return made.leanto(shade=Shade(0.6, 99.0, drawn=NOON))


def joined() -> System:
    """A tank and a sump with water going round, no slab, all glazing wet by night."""
    plain = made.leanto(shade=None)
    large = made.tank(sides=ON_LEGS, lamps=NOON * 400.0)
    small = Body("sump", 1.2 * 4.09e6, 1.5, (Side(5.0, (made.PLY,)),), gains=200.0)
    return replace(
        plain,
        bodies=(large, small),
        links=(Link(0, 1, 900.0),),
        walls=(plain.walls[0], LIGHT_FLOOR),
    )


def fanned() -> System:
    """A fan over the water whenever it is warmer than it ever gets cold, and vents by area."""
    plain = made.leanto(
        made.tank(sides=ON_LEGS, fan_speed=1.2, fan_above_c=5.0, cover=NOON * 0.5, cover_passes=0.6),
        shade=None,
        vents=Vents(24.0, 4.0, area=1.5, height=1.2),
    )
    return replace(plain, walls=(plain.walls[0], replace(LIGHT_FLOOR, outside="kept", kept_c=12.0)))


def open_vessel() -> System:
    """In the open, on legs."""
    return made.pond(sides=(Side(12.0, (made.PLY,), "weather"),))


@dataclass(frozen=True)
class Trial:
    """A system, the first hour, days, the water's first temperature, watts of a heater in the first body."""

    system: System
    first: int
    days: int
    start: float
    heater: float = 0.0


LONG = {
    "twenty winter days": Trial(made.leanto(), JANUARY, 20, 24.0, 1500.0),
    "twenty summer days": Trial(shaded(), JULY, 20, 24.0),
}
SHORT = {
    "two bodies in winter": Trial(joined(), JANUARY + 24 * 30, 3, 22.0, 1500.0),
    "two bodies in summer": Trial(joined(), JULY, 3, 22.0, 500.0),
    "vents by area, fan, cover": Trial(fanned(), JULY, 3, 22.0),
    "a vessel in the open in spring": Trial(open_vessel(), APRIL, 3, 15.0, 1000.0),
    "a vessel in the open in winter": Trial(open_vessel(), JANUARY, 3, 10.0, 1000.0),
}


@dataclass(frozen=True)
class Ready:
    """A trial laid out: what both sides are handed."""

    prepared: engine.Prepared
    rows: Array
    state: Tables
    stretch: Stretch

    def ours(self, steps: int = engine.STEPS) -> engine.HeatYear:
        return engine.run(self.prepared, self.rows, self.state, self.stretch.hours, self.stretch.first, steps)

    def lsoda(self) -> Found:
        start = heat_rates.begun(self.prepared, self.state)
        return heat_rates.through(self.prepared, self.rows, start, self.stretch)

    def runge_kutta(self) -> Found:
        start = heat_rates.begun(self.prepared, self.state)
        return heat_rates.by_small_steps(self.prepared, self.rows, start, self.stretch)


def laid_out(trial: Trial) -> Ready:
    weather = climate("greensboro")
    always = (Heating(0, trial.heater, 99.0),)
    prepared = engine.prepare(replace(trial.system, heatings=always), weather.sun)
    bodies = len(trial.system.bodies)
    state = engine.begin(prepared, [trial.start] * bodies, trial.start - 4.0)
    heaters = np.array([trial.heater, *[0.0] * (bodies - 1)])
    return Ready(
        prepared, prepared.rows(weather.years[0]), state, Stretch(24 * trial.days, trial.first, heaters)
    )


def worst(ours: engine.HeatYear, theirs: Found) -> float:
    """Largest difference of any body's water in any hour, K."""
    return max(float(np.abs(water - theirs.water(body)).max()) for body, water in enumerate(ours.water_c))


@pytest.mark.parametrize("name", LONG)
def test_water_by_lsoda(name: str) -> None:
    """Water of every hour, and the air, at the default steps; the summer has vents and shade in use, the winter wet
    glazing most of the time."""
    ready = laid_out(LONG[name])
    ours, theirs = ready.ours(), ready.lsoda()
    assert worst(ours, theirs) < WATER_TO
    assert float(np.abs(ours["air_c"] - theirs.air).mean()) < AIR_TO
    if LONG[name].first == JULY:
        assert ours["open"].mean() > 0.2
        assert ours["shaded"].mean() > 0.2
    else:
        assert ours["wet"].mean() > 0.5


@pytest.mark.parametrize("name", SHORT)
def test_water_by_two_solvers(name: str) -> None:
    """LSODA and Runge-Kutta agree with each other far better than the engine need, and the engine with both."""
    ready = laid_out(SHORT[name])
    ours, lsoda, small = ready.ours(), ready.lsoda(), ready.runge_kutta()
    for body in range(len(ours.water_c)):
        assert np.abs(lsoda.water(body) - small.water(body)).max() < SOLVERS_TO
    assert worst(ours, small) < WATER_TO
    if SHORT[name].system.room is not None:
        assert float(np.abs(ours["air_c"] - small.air).mean()) < AIR_TO


@pytest.mark.parametrize("name", ["two bodies in winter", "two bodies in summer"])
def test_halving_the_step_halves_the_difference(name: str) -> None:
    """Backward Euler is of first order."""
    ready = laid_out(SHORT[name])
    theirs = ready.runge_kutta()
    off = [worst(ready.ours(steps), theirs) for steps in (2, 4, 8, 16)]
    for coarse, fine in pairwise(off):
        assert 0.4 < fine / coarse < 0.6, off


@pytest.mark.parametrize(
    ("house", "warm_c", "column"),
    [
        pytest.param(made.leanto(), 24.5, "w_heaters", id="heaters of the water"),
        pytest.param(
            made.heated(made.leanto(heatings=()), 18.0), 18.0, "h_air_heater", id="air kept at 18 degC"
        ),
    ],
)
def test_a_month_of_heat(house: System, warm_c: float, column: str) -> None:
    """Heat of January by a thermostat's heater and by an ideal thermostat, at the default steps and at sixty."""
    weather = climate("greensboro")
    prepared = engine.prepare(house, weather.sun)
    rows, hours = prepared.rows(weather.years[0]), 24 * MONTH_DAYS[0]
    state = engine.begin(prepared, [warm_c], 18.0)
    coarse, fine = (
        float(engine.run(prepared, rows, state, hours, 0, steps)[column].sum())
        for steps in (engine.STEPS, 60)
    )
    assert fine > 500.0 * 3.6e6
    assert coarse == pytest.approx(fine, rel=ENERGY_TO)


def test_a_year_begins_as_if_it_had_gone_on_for_long() -> None:
    """`run_year` against Runge-Kutta that began twelve days before: a tub so small that it forgets its beginning."""
    weather = climate("greensboro")
    tub = Body("tub", 1.0 * 4.09e6, 4.0, (Side(6.0, (made.PLY,)),), sun_diffuse=0.3, gains=100.0)
    house = made.leanto(tub, heatings=(), shade=None)
    prepared = engine.prepare(replace(house, walls=(house.walls[0],)), weather.sun)
    rows, days = prepared.rows(weather.years[0]), 12
    ours = engine.run_year(prepared, rows, [24.0])
    start = heat_rates.begun(prepared, engine.begin(prepared, [15.0], 5.0))
    early = Stretch(24 * days + 48, HOURS - 24 * days, np.zeros(1))
    theirs = heat_rates.by_small_steps(prepared, rows, start, early).water()[-48:]
    assert np.abs(ours.water_c[0, :48] - theirs).max() < 4.0 * WATER_TO, (
        "it answers four times as fast as the tank"
    )


def test_a_power_cut_by_newtons_law() -> None:
    """Water that loses heat through one layer only, on cold ground, in the dark: the hand's rule has it exactly."""
    stores, loss = 4.0e7, 200.0
    side = Side(10.0, (Layer(resistance=10.0 / loss),), "ground", made.UNDER)
    alone = System(bodies=(Body("water", stores, 0.0, (side,), tops_up=False),))
    prepared = engine.prepare(alone, made.night())
    ours = engine.run(prepared, made.steady(-8.0), engine.begin(prepared, [24.0], 24.0), 72, 0, 60)
    passes = 1.0 / (1.0 / loss + 1.0 / (10.0 * 200.0) + 1.0 / (10.0 * 1e4))
    fading = cooling.fading_time(stores, passes)
    theirs = cooling.temperature_after(24.0, -8.0, fading, broadcast(3600.0 * np.arange(1.0, 73.0)))
    np.testing.assert_allclose(ours.water_c[0], theirs, atol=WATER_TO)


def test_vapour_that_settles_is_vapour_that_left() -> None:
    """A shut room: what evaporates settles on the glazing, and its heat arrives there; by the balance of the air."""
    house = made.leanto(made.tank(sides=(), sun_beam=None, sun_diffuse=0.0), vents=None, shade=None)
    assert house.room is not None
    shut = replace(house, room=replace(house.room, infiltration=0.0))
    prepared = engine.prepare(shut, made.night())
    found = engine.run(prepared, made.steady(0.0), engine.begin(prepared, [25.0], 10.0), 240)
    evaporated, settled = found["evaporated"][-24:].sum(), found["condensate"][-24:].sum()
    assert evaporated > 1.0
    assert settled == pytest.approx(evaporated, rel=0.01)
    assert -found["w_evaporation"][-24:].sum() == pytest.approx(evaporated * LATENT, rel=1e-9)


def test_west_light_warms_as_the_rates_say() -> None:
    """A dry room with one window to the west: its air by both, hour by hour, without any water."""
    weather = climate("greensboro")
    walls = tuple(Wall(f"wall {n}", 12.0, (made.PLY, made.FOAM, made.PLY)) for n in range(4))
    window = Window("west", 3.0, made.clear_sheet(), azimuth_rad=1.5 * math.pi)
    house = replace(made.box((made.PLY,)), walls=walls, windows=(window,))
    prepared = engine.prepare(house, weather.sun)
    rows, state = prepared.rows(weather.years[0]), engine.begin(prepared, [], 15.0)
    ours = engine.run(prepared, rows, state, 72, APRIL)
    start = heat_rates.begun(prepared, state)
    theirs = heat_rates.by_small_steps(prepared, rows, start, Stretch(72, APRIL, np.zeros(0)), 15.0)
    assert np.ptp(ours["air_c"]) > 5.0
    assert float(np.abs(ours["air_c"] - theirs.air).mean()) < AIR_TO
