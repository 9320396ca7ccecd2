"""What no year of heat may break: balances that close, rest where the sums are nothing, order, symmetry, pieces."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from tests.laws import heat_systems as made
from tests.laws.sun_paths import sun_path
from tidestead.core.compiled import PLAIN
from tidestead.core.weather import HOURS, SunPath
from tidestead.physics import air
from tidestead.physics.heat import engine, evaporation, films
from tidestead.physics.heat._layout import LATENT
from tidestead.physics.heat.system import Body, Heating, Layer, Room, Side, System, Vents, Wall, Window

DAY = 24
STRONG = (Heating(0, 6000.0, 24.5),)
INTO_WATER = (
    "w_sun", "w_machines", "w_lamps", "w_heaters", "w_chillers", "w_evaporation", "w_air", "w_rays", "w_sides",
    "w_topped_up",
)  # fmt: skip
INTO_HOUSE = (
    "h_sun", "h_machines", "h_heaters", "h_chillers", "h_air_heater", "h_air_cooler", "h_clear", "h_solid", "h_ground",
    "h_kept", "h_air", "h_vapour", "h_topped_up",
)  # fmt: skip


def some_days(
    system: System, days: int = 10, first: int = 0, start: float = 22.0, steps: int = 4
) -> engine.HeatYear:
    """Days of the made coast."""
    ready = made.prepared(system)
    state = engine.begin(ready, [start] * len(system.bodies), 15.0)
    return engine.run(ready, made.coast(), state, DAY * days, first, steps)


def held_water(system: System, rows: np.ndarray, wind: float, temp: float, out_c: float) -> float:
    """Watts that a vessel in the open at a temperature loses, by the public calculators."""
    body = system.bodies[0]
    speed = max(wind * system.exposure, body.still_speed)
    over = body.activity * float(air.saturation_pressure(temp))
    vapour = float(rows[1, 0]) * float(air.saturation_pressure(out_c))
    lost = float(
        evaporation.shah_rate(evaporation.OpenWater(temp, out_c, over, vapour, made.PRESSURE), speed)
    )
    film = max(float(films.water_film(temp - out_c)), float(films.vapour_film(speed)))
    if speed > 0.15:
        film = max(film, float(films.wind_film(speed)))
    ray = float(films.radiation_film(temp, out_c, 0.95))
    watts = body.surface * (lost * (LATENT + 4000.0 * (temp - out_c)) + (film + ray) * (temp - out_c))
    for side in body.sides:
        passes = 1.0 / (sum(layer.ohms for layer in side.layers) + 1.0 / 200.0 + 1.0 / 1e4)
        watts += side.area * passes * (temp - float(rows[8, 0]))
    return watts


@pytest.mark.parametrize("wind", [0.0, 1.0, 6.0])
@pytest.mark.parametrize("watts", [300.0, 3000.0])
def test_a_warmed_vessel_rests_where_the_calculators_say(wind: float, watts: float) -> None:
    """Evaporation, film, rays and a side on the ground, of a vessel in the open in the dark, by scipy's brentq."""
    side = Side(8.0, (Layer(resistance=0.5),), "ground", made.UNDER)
    body = Body("tub", 4.0e6, 5.0, (side,), 0.98, gains=watts)
    system = System(bodies=(body,), exposure=0.7)
    rows = made.steady(8.0, 0.7, wind, ground_c=11.0)
    theirs = brentq(lambda temp: held_water(system, rows, wind, temp, 8.0) - watts, 1.0, 90.0)
    assert made.at_rest(system, rows).water_c[0, -1] == pytest.approx(theirs, abs=2e-3)


@pytest.mark.parametrize("out_c", [-15.0, 0.0, 10.0])
def test_a_dry_room_takes_what_its_walls_pass(out_c: float) -> None:
    """Like walls, so that no rays pass: film inside, layers, film outside; by scipy's brentq."""
    room = made.heated(made.box((made.PLY, made.FOAM)), 20.0)
    layers = made.PLY.ohms + made.FOAM.ohms + 1.0 / 25.0
    fall = brentq(lambda x: 1.31 * x ** (4.0 / 3.0) - (20.0 - x - out_c) / layers, 1e-9, 30.0)
    found = made.at_rest(room, made.steady(out_c))
    assert found["air_c"][-1] == pytest.approx(20.0, abs=1e-9)
    assert found["h_air_heater"][-1] / 3600.0 == pytest.approx(60.0 * 1.31 * fall ** (4.0 / 3.0), rel=1e-6)
    assert found["h_solid"][-1] == pytest.approx(-found["h_air_heater"][-1], rel=1e-6)


def test_a_room_without_heat_comes_to_rest_at_what_is_around() -> None:
    """Nothing but weather of one temperature: everything takes it."""
    system = made.leanto(made.tank(gains=0.0, evaporates=0.0), heatings=())
    found = made.at_rest(system, made.steady(13.0), days=700)
    assert found.water_c[0, -1] == pytest.approx(13.0, abs=1e-3)
    assert found["air_c"][-1] == pytest.approx(13.0, abs=1e-3)


def test_a_sealed_wet_room_is_saturated() -> None:
    """Fresh water, no way out for vapour or heat: the air holds all it can."""
    walls = tuple(Wall(f"wall {n}", 12.0, (made.PLY,), "nothing") for n in range(4))
    water = Body("water", made.STORES, 10.0, gains=0.0)
    room = System(Room(60.0, 0.0), walls, (), (water,))
    found = made.at_rest(room, made.steady(5.0), days=60)
    assert found["air_c"][-1] == pytest.approx(found.water_c[0, -1], abs=0.05)
    assert 0.995 < found["humidity"][-1] <= 1.0 + 1e-6
    pane = Wall("cold", 12.0, (made.PLY,), "air", wets=True)
    dried = made.heated(replace(room, walls=(*walls, pane)), 22.0)
    below = made.at_rest(dried, made.steady(5.0))
    assert 0.3 < below["humidity"][-1] < 0.95
    assert below["condensate"][-1] > 0.0


@pytest.mark.parametrize(
    "system", [made.leanto(), made.pond(), made.box((made.PLY,))], ids=["house", "pond", "box"]
)
def test_a_longer_run_is_its_pieces(system: System) -> None:
    ready, rows = made.prepared(system), made.coast()
    state = engine.begin(ready, [22.0] * len(system.bodies), 15.0)
    whole = engine.run(ready, rows, state, 300, 4000)
    one = engine.run(ready, rows, state, 77, 4000)
    two = engine.run(ready, rows, one.end, 223, 4077)
    for name, column in whole.columns.items():
        np.testing.assert_array_equal(np.concatenate([one[name], two[name]]), column, err_msg=name)
    np.testing.assert_array_equal(np.concatenate([one.water_c, two.water_c], axis=1), whole.water_c)


def test_a_run_leaves_what_it_was_given() -> None:
    ready, rows = made.prepared(made.leanto()), made.coast()
    state = engine.begin(ready, [22.0], 15.0)
    kept, before = [table.copy() for table in state], rows.copy()
    first = engine.run(ready, rows, state, 48)
    again = engine.run(ready, rows, state, 48)
    for table, copy in zip(state, kept, strict=True):
        np.testing.assert_array_equal(table, copy)
    np.testing.assert_array_equal(rows, before)
    np.testing.assert_array_equal(first.water_c, again.water_c)


def test_a_year_goes_round() -> None:
    """Hours after the last of December are those of January."""
    ready, rows = made.prepared(made.leanto()), made.coast()
    state = engine.begin(ready, [22.0], 15.0)
    over = engine.run(ready, rows, state, 48, HOURS - 24)
    turned = engine.run(ready, np.roll(rows, 24, axis=1), state, 24, 0)
    np.testing.assert_array_equal(over["air_c"][:1] > -90.0, [True])
    assert over.water_c.shape == (1, 48)
    assert turned.water_c.shape == (1, 24)
    after = engine.run(ready, rows, engine.run(ready, rows, state, 24, HOURS - 24).end, 24, 0)
    np.testing.assert_array_equal(over.water_c[:, 24:], after.water_c)


def mirrored(system: System) -> System:
    """East for west."""
    walls = tuple(replace(wall, azimuth_rad=2.0 * math.pi - wall.azimuth_rad) for wall in system.walls)
    windows = tuple(replace(one, azimuth_rad=2.0 * math.pi - one.azimuth_rad) for one in system.windows)
    return replace(system, walls=walls, windows=windows)


def test_east_for_west() -> None:
    """House and sun mirrored in the line from north to south: the same year."""
    sun = sun_path(made.LATITUDE)
    other = SunPath(sun.zenith_rad, 2.0 * math.pi - sun.azimuth_rad, sun.up, sun.top)
    found = []
    for system, path in ((made.leanto(), sun), (mirrored(made.leanto()), other)):
        ready = engine.prepare(system, path)
        found.append(engine.run(ready, made.coast(), engine.begin(ready, [22.0], 15.0), 480, 4300))
    np.testing.assert_allclose(found[0].water_c, found[1].water_c, atol=1e-9)
    np.testing.assert_allclose(found[0]["air_c"], found[1]["air_c"], atol=1e-7)
    lopsided = some_days(mirrored(made.leanto()), 20, 4300)
    assert np.abs(lopsided["air_c"] - found[0]["air_c"]).max() > 0.05


def heater_energy(system: System) -> float:
    return float(some_days(system, 20)["w_heaters"].sum())


def test_more_of_what_keeps_warm_never_costs_more_heat() -> None:
    """Insulation on the back wall and the sides, cover, a lower setpoint, less wind, a warmer outdoors."""
    plain = made.leanto(heatings=STRONG, shade=None)
    thick = tuple(
        replace(wall, layers=(*wall.layers[:1], Layer(resistance=extra), *wall.layers[1:]))
        for extra in (0.5, 5.0)
        for wall in plain.walls[:1]
    )
    used = [heater_energy(replace(plain, walls=(wall, plain.walls[1]))) for wall in (plain.walls[0], *thick)]
    assert used == sorted(used, reverse=True)
    assert used[0] > used[-1] > 0.0
    covered = [
        heater_energy(
            made.leanto(made.tank(cover=np.full(HOURS, share), cover_passes=0.7), STRONG, shade=None)
        )
        for share in (0.0, 0.3, 0.9)
    ]
    assert covered == sorted(covered, reverse=True)
    assert covered[0] > 1.2 * covered[-1]
    lower = [
        heater_energy(made.leanto(heatings=(Heating(0, 6000.0, setpoint),), shade=None))
        for setpoint in (24.5, 22.0, 18.0)
    ]
    assert lower == sorted(lower, reverse=True)
    assert lower[0] > lower[-1]
    calm = [heater_energy(replace(plain, exposure=share)) for share in (0.9, 0.5, 0.1)]
    assert calm == sorted(calm, reverse=True)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.0, 10.0), st.integers(0, 8000), st.booleans())
def test_warmer_weather_never_cools_the_water(warmer: float, first: int, in_house: bool) -> None:
    """Air and ground warmer by a constant, sky with them; humidity ratio kept, so that vapour drives as before."""
    system = made.leanto(heatings=(), vents=None, shade=None) if in_house else made.pond()
    ready, rows = made.prepared(system), made.coast()
    state = engine.begin(ready, [15.0], 10.0)
    more = rows.copy()
    more[0] += warmer
    more[8] += warmer
    more[1] *= air.saturation_pressure(rows[0]) / air.saturation_pressure(more[0])
    more[7] *= ((more[0] + 273.15) / (rows[0] + 273.15)) ** 4
    cool, warm = (engine.run(ready, one, state, 72, first).water_c[0] for one in (rows, more))
    assert (warm >= cool - 1e-9).all()


def test_without_power_heaters_stand_still() -> None:
    power = np.ones(HOURS)
    power[24:48] = 0.0
    body = made.tank(lamps=np.full(HOURS, 100.0), fan_speed=2.0, fan_above_c=0.0)
    sump = Body("sump", 4.0e6, 1.0)
    system = replace(
        made.leanto(body), bodies=(body, sump), heatings=(Heating(0, 800.0, 30.0, heats_room=50.0),)
    )
    ready = made.prepared(system, power)
    found = engine.run(ready, made.coast(), engine.begin(ready, [22.0, 22.0], 15.0), 72)
    for name in ("w_heaters", "w_lamps", "w_machines", "h_machines"):
        assert (found[name][24:48] == 0.0).all(), name
        assert (found[name][:24] > 0.0).all(), name
        assert (found[name][48:] > 0.0).all(), name
    assert found.water_c[0, 47] < found.water_c[0, 23]
    still = engine.run(made.prepared(system), made.coast(), engine.begin(ready, [22.0, 22.0], 15.0), 72)
    assert still["evaporated"][24:48].sum() > 1.5 * found["evaporated"][24:48].sum()


def test_a_heater_of_nothing_is_none() -> None:
    none, nothing = made.leanto(heatings=()), made.leanto(heatings=(Heating(0, 0.0, 24.5),))
    np.testing.assert_array_equal(some_days(none).water_c, some_days(nothing).water_c)


def test_a_thermostat_keeps_its_band() -> None:
    """A heater that is strong enough, and a chiller: the water stays within the band and what one step adds."""
    power = 8000.0
    system = made.leanto(
        heatings=(Heating(0, power, 24.0, 0.4), Heating(0, power, 26.0, 0.4, cools=True)),
        vents=None,
        shade=None,
    )
    step = power * 900.0 / made.STORES
    for first in (0, 4344):
        water = some_days(system, 20, first, 25.0).water_c[0]
        assert water.min() > 24.0 - 0.2 - step - 0.02
        assert water.max() < 26.0 + 0.2 + step + 0.02
    winter = some_days(system, 20, 0, 25.0)
    assert set(np.unique(np.round(winter["w_heaters"] / (power * 900.0), 9))) <= {0.0, 1.0, 2.0, 3.0, 4.0}
    assert (winter["w_heaters"] > 0.0).any()


def test_an_ideal_thermostat_keeps_the_air() -> None:
    system = made.heated(made.leanto(heatings=(), vents=None, shade=None), 18.0, 25.0)
    for first in (0, 4344):
        found = some_days(system, 10, first)
        assert found["coldest_c"].min() > 18.0 - 1e-9
        assert found["warmest_c"].max() < 25.0 + 1e-9
        assert (found["h_air_heater"] >= 0.0).all()
        assert (found["h_air_cooler"] <= 0.0).all()
    assert found["h_air_cooler"].sum() < 0.0
    assert system.room is not None
    weak = replace(system.room.thermostat, heat_most=200.0, cool_most=100.0)
    held = some_days(replace(system, room=replace(system.room, thermostat=weak)), 10)
    assert held["h_air_heater"].max() <= 200.0 * 3600.0 * (1.0 + 1e-12)
    assert held["coldest_c"].min() < 18.0


PLAIN_RUN = """
import numpy as np
from tests.laws import heat_systems as made
from tidestead.core import compiled
from tidestead.physics.heat import engine
from tidestead.physics.heat.system import Vents
assert compiled.numba() is None
found = []
for system in (made.leanto(vents=Vents(20.0, 4.0, area=1.0, height=1.0)), made.pond()):
    ready = engine.prepare(system, made.sun_path(made.LATITUDE))
    run = engine.run(ready, ROWS, engine.begin(ready, [23.0], 16.0), 36, 4350)
    found.append(np.vstack([*run.columns.values(), run.water_c]))
np.save(TO, found)
"""


def test_plain_python_gives_the_same(tmp_path: Path) -> None:
    """A day and a half of summer without the compiler, in a process of its own."""
    to, rows = tmp_path / "plain.npy", tmp_path / "rows.npy"
    np.save(rows, made.coast())
    text = PLAIN_RUN.replace("TO", repr(str(to))).replace("ROWS", f"np.load({str(rows)!r})")
    done = subprocess.run(
        [sys.executable, "-c", text],
        env={**os.environ, PLAIN: "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    plain = np.load(to)
    for number, system in enumerate((made.leanto(vents=Vents(20.0, 4.0, area=1.0, height=1.0)), made.pond())):
        ready = made.prepared(system)
        run = engine.run(ready, made.coast(), engine.begin(ready, [23.0], 16.0), 36, 4350)
        ours = np.vstack([*run.columns.values(), run.water_c])
        closes = list(run.columns).index("closure")
        kept = np.arange(len(ours)) != closes
        np.testing.assert_allclose(plain[number][kept], ours[kept], rtol=1e-9, atol=1e-6)
        assert plain[number][closes].max() < 1e-9


def test_windows_are_seen() -> None:
    """More clear sheet, a cleaner one: more sun in the house."""
    plain = made.leanto()
    clean = replace(plain, windows=tuple(replace(one, clean=1.0) for one in plain.windows))
    bare = replace(plain, windows=plain.windows[:1])
    sums = [float(some_days(one, 5, 4344)["h_sun"].sum()) for one in (bare, plain, clean)]
    assert sums == sorted(sums)
    assert sums[0] < sums[1] < sums[2]
    dark = replace(plain, windows=(Window("shut", 16.6, plain.windows[0].sheet, clean=0.0),))
    assert some_days(dark, 5, 4344)["h_clear"].any()


def test_a_fan_by_the_clock_is_infiltration_in_its_hours() -> None:
    """The same air, whoever asks for it; in the hours without, nothing."""
    by_night = np.tile(np.r_[np.full(7, 1.0), np.zeros(11), np.full(6, 1.0)], 365) * 10.0 / 3600.0
    clocked = made.leanto(changes=by_night)
    always = made.leanto(changes=np.full(HOURS, 10.0 / 3600.0))
    assert clocked.room is not None
    leaky = replace(clocked, room=replace(clocked.room, changes=None, infiltration=10.75 / 3600.0))
    one, other = some_days(always, 5), some_days(leaky, 5)
    np.testing.assert_allclose(one["air_c"], other["air_c"], atol=1e-9)
    found = some_days(clocked, 5)
    by_hour = found["air_changed"].reshape(5, 24)
    assert by_hour[:, :7].min() > 9.0 * by_hour[:, 8:12].min()
    assert found["air_c"].mean() < some_days(made.leanto(), 5)["air_c"].mean()


def test_fog_falls_where_air_cannot_hold_its_vapour() -> None:
    """Warm water in a cold shut room whose glazing does not wet: the air is full, not fuller, and drops fall."""
    plain = made.leanto(vents=None, shade=None)
    dry = replace(plain, windows=tuple(replace(one, wets=False) for one in plain.windows))
    found = some_days(dry, 10)
    assert found["humidity"].max() < 1.02
    assert (found["humidity"] > 0.999).mean() > 0.2
    assert found["condensate"].sum() > 0.1 * found["evaporated"].sum()
    assert (found["wet"] == 0.0).all()
