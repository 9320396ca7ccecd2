"""Laws of moist air and of heat at surfaces: limits, order, compiled as plain, arrays, and what they refuse."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.arrays import broadcast
from tidestead.core.compiled import compiled
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _air_laws, _sky_laws, air, seawater
from tidestead.physics.heat import _laws, cooling, evaporation, films, ground, sky
from tidestead.physics.heat.evaporation import OpenWater

TEMPS = st.floats(-30.0, 45.0)
WATERS = st.floats(2.0, 40.0)
SHARES = st.floats(0.0, 1.0)
DAY = 86400.0

COMPILED: list[tuple[Callable[..., float], tuple[float, ...]]] = [
    (_air_laws.saturation_pressure, (24.0,)), (_air_laws.saturation_pressure, (-12.0,)),
    (_air_laws.saturation_slope, (24.0,)), (_air_laws.saturation_slope, (-12.0,)),
    (_air_laws.humidity_ratio, (2000.0, 101325.0)), (_air_laws.vapour_of_ratio, (0.012, 101325.0)),
    (_air_laws.dry_air_density, (24.0, 2000.0, 101325.0)), (_air_laws.latent_heat, (24.0,)),
    (_air_laws.dew_point, (2000.0,)), (_air_laws.dew_point, (200.0,)),
    (_laws.evaporation_shah, (26.0, 24.0, 3300.0, 1500.0, 101325.0, 0.4)),
    (_laws.evaporation_shah, (20.0, 28.0, 2300.0, 3500.0, 101325.0, 0.4)),
    (_laws.evaporation_ashrae, (3300.0, 1500.0, 0.5)), (_laws.evaporation_smith, (3300.0, 1500.0, 0.1, 2.44e6)),
    (_laws.film_wind, (3.0,)), (_laws.film_wall, (-8.0,)), (_laws.film_up, (8.0,)), (_laws.film_down, (8.0,)),
    (_laws.film_tilted, (8.0, 0.7)), (_laws.film_tilted, (8.0, -0.7)), (_laws.film_water, (3.0,)),
    (_laws.film_water, (-3.0,)), (_laws.radiation_film, (20.0, -5.0, 0.9)), (_laws.sheet_conductance, (2.4,)),
    (_sky_laws.sky_emissivity_clark, (8.0, 4.0)), (_sky_laws.sky_emissivity_berdahl, (8.0, 15.0, 99000.0, 4.0)),
    (_sky_laws.sky_longwave, (0.8, 8.0)), (_sky_laws.sky_temperature, (280.0,)), (_sky_laws.clear_sun, (0.6,)),
    (_sky_laws.cloud_of_sun, (200.0, 500.0)),
]  # fmt: skip


@pytest.mark.parametrize(("law", "numbers"), COMPILED, ids=lambda one: getattr(one, "__name__", None))
def test_compiled_and_plain_are_one(law: Callable[..., float], numbers: tuple[float, ...]) -> None:
    assert compiled(law)(*numbers) == pytest.approx(law(*numbers), rel=1e-14, abs=1e-14)


@given(TEMPS)
def test_dew_point_of_saturated_air_is_its_temperature(temp_c: float) -> None:
    assert air.dew_point(air.saturation_pressure(temp_c)) == pytest.approx(temp_c, abs=1e-6)


@given(st.floats(0.1, 50000.0))
def test_saturation_of_the_dew_point_is_the_vapour(vapour: float) -> None:
    """Across the freezing point too: over ice it ends 0.06 Pa below where over water it begins."""
    assert air.saturation_pressure(air.dew_point(vapour)) == pytest.approx(vapour, rel=1.2e-4)


@given(WATERS, TEMPS, SHARES, st.floats(0.0, 3.0))
def test_evaporation_goes_the_way_of_the_vapour(
    temp_w: float, temp_a: float, humidity: float, speed: float
) -> None:
    water = OpenWater(
        temp_w,
        temp_a,
        float(evaporation.vapour_over(35.0, temp_w)),
        float(air.vapour_of_humidity(temp_a, humidity)),
    )
    drives = water.vapour_w - water.vapour_a
    spread = evaporation.evaporation_spread(water, speed)
    for rate in (
        evaporation.shah_rate(water, speed),
        evaporation.handbook_rate(water, 0.5),
        evaporation.busy_rate(water, speed),
    ):
        assert rate * drives >= 0.0
        assert abs(rate) < 0.01
    assert spread.low <= spread.likely <= spread.high
    assert evaporation.shah_rate(water, speed) <= evaporation.shah_rate(water, speed + 0.5) or drives < 0.0


@given(st.floats(-30.0, 30.0))
def test_a_tilted_face_lies_between_level_and_upright(difference: float) -> None:
    wall = films.wall_film(difference)
    for tilt in (0.3, 1.0, 2.0, 3.0):
        film = films.tilted_film(difference, tilt)
        assert films.sinking_film(difference) - 1e-9 <= film <= films.rising_film(difference) + 1e-9
    assert films.tilted_film(difference, math.pi / 2) == pytest.approx(wall, rel=1e-3, abs=1e-9)
    level = films.rising_film(difference) if difference > 0.0 else films.sinking_film(difference)
    assert films.tilted_film(difference, 0.0) == pytest.approx(level, rel=1e-9)
    assert films.water_film(difference) == pytest.approx(level, rel=1e-3)


@given(TEMPS, TEMPS, SHARES)
def test_radiation_is_the_difference_of_fourth_powers(one: float, two: float, emissivity: float) -> None:
    flow = films.radiation_film(one, two, emissivity) * (one - two)
    wanted = sky.longwave(emissivity, one) - sky.longwave(emissivity, two)
    assert flow == pytest.approx(wanted, rel=1e-9, abs=1e-6)


@given(st.floats(-25.0, 25.0), SHARES, SHARES)
def test_more_cloud_is_a_warmer_sky(dew_c: float, one: float, two: float) -> None:
    """Up to nine tenths the factor climbs, but for a first tenth; at ten it is 1.154."""
    less, more = sorted((one, two))
    skies: list[Callable[[float], float]] = [
        lambda cloud: sky.clark_emissivity(dew_c, cloud),
        lambda cloud: sky.berdahl_emissivity(dew_c, 12.0, 1e5, cloud),
    ]
    for emissivity in skies:
        assert emissivity(less) <= emissivity(more) + 1e-12
        assert 0.5 < emissivity(less) <= 1.0


@given(st.floats(50.0, 600.0))
def test_sky_temperature_turns_longwave_round(sent: float) -> None:
    assert sky.longwave(1.0, float(sky.sky_temperature(sent))) == pytest.approx(sent, rel=1e-12)


@given(SHARES, st.floats(50.0, 900.0))
def test_cloud_turns_the_sun_it_lets_through_round(cloud: float, clear: float) -> None:
    let = clear * (1.0 - 0.75 * cloud**3.4)
    assert sky.cloud_of_sun(let, clear) == pytest.approx(cloud, abs=1e-3)


def test_a_year_without_any_sun_is_half_cloud() -> None:
    assert (sky.daily_cloud(np.zeros(48), np.full(48, 2.0)) == 0.5).all()


def test_dark_days_before_the_first_bright_one_take_the_last() -> None:
    zenith = np.full(72, 2.0)
    zenith[36] = 0.5
    total = np.where(zenith < 1.0, 300.0, 0.0)
    cloud = sky.daily_cloud(total, zenith)
    assert cloud[0] == cloud[71] == cloud[36]
    assert 0.5 < cloud[0] < 1.0


def test_longwave_of_a_year_lies_between_clear_and_black() -> None:
    hours = np.arange(8760)
    temp_c = 10.0 + 12.0 * np.sin(hours / 1394.0)
    humid, cloudy = broadcast(np.full(8760, 0.7)), broadcast(np.full(8760, 0.4))
    found = np.asarray(sky.yearly_longwave(broadcast(temp_c), humid, cloudy))
    black = 5.670374419e-8 * (temp_c + 273.15) ** 4
    assert ((found > 0.65 * black) & (found < black)).all()


@given(st.floats(0.0, 8.0), st.floats(1.0, 60.0))
def test_insulation_never_raises_a_floors_loss(resistance: float, area: float) -> None:
    wide = ground.floor_dimension(area, 4.0 * math.sqrt(area))
    losses = [
        ground.slab_transmittance(wide, ground.equivalent_thickness(0.2, 2.0, 0.21 + laid), 2.0)
        for laid in (resistance, resistance + 0.5)
    ]
    assert 0.0 < losses[1] < losses[0]


def test_a_slab_lays_nothing_below_the_soil_of_a_narrow_floor() -> None:
    assert ground.virtual_resistance(5.0, 0.0, 2.0) == 0.0


@given(st.floats(-15.0, 35.0), st.floats(-15.0, 35.0), st.floats(1.0, 20.0), st.floats(0.01, 30.0))
def test_time_to_a_temperature_turns_cooling_round(
    start: float, rest: float, fading: float, after: float
) -> None:
    there = cooling.temperature_after(start, rest, fading * DAY, after * DAY)
    back = cooling.time_to_temperature(start, rest, fading * DAY, float(there))
    if abs(there - rest) > 1e-6 and abs(start - rest) > 1e-3:
        assert back == pytest.approx(after * DAY, rel=1e-5)
    assert cooling.time_to_temperature(start, rest, fading * DAY, start) == 0.0
    beyond = rest - math.copysign(1.0, start - rest)
    assert math.isinf(cooling.time_to_temperature(start, rest, fading * DAY, beyond))


def test_what_never_happens_is_endless() -> None:
    assert math.isinf(cooling.fading_time(4e7, 0.0))
    assert math.isinf(cooling.recovery_time(4e7, 1.0, 500.0, 500.0))
    assert math.isinf(cooling.idle_loss(300.0, 24.0, 26.0))
    assert cooling.idle_loss(0.0, 24.0, 4.0) == 0.0


def shape_of(found: float) -> tuple[int, ...]:
    """The shape of what a calculator gave for arrays."""
    return np.asarray(found).shape


def test_arrays_run_through() -> None:
    column = np.array([0.0, 5.0, -5.0])
    several = broadcast(column)
    assert shape_of(films.wall_film(several)) == (3,)
    assert shape_of(sky.clark_emissivity(several, 0.5)) == (3,)
    assert shape_of(cooling.time_to_temperature(25.0, several, DAY, 10.0)) == (3,)
    assert shape_of(air.dry_air_density(broadcast(column[:, None]), broadcast([500.0, 900.0]), 1e5)) == (3, 2)
    assert shape_of(evaporation.shah_rate(OpenWater(26.0, several, 3300.0, 1500.0), 0.1)) == (3,)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: air.saturation_pressure(-120.0), "air between -100 and 200"),
        (lambda: air.saturation_pressure(float("nan")), "air between -100 and 200"),
        (lambda: air.humidity_ratio(1.1e5, 1e5), "does not go into air"),
        (lambda: air.humidity_ratio(-1.0, 1e5), "cannot be negative"),
        (lambda: air.vapour_of_humidity(20.0, 65.0), "from 0 to 1"),
        (lambda: air.dew_point(0.0), "more than nothing"),
        (lambda: OpenWater(101.0, 20.0, 1.05e5, 1000.0), "boils in air"),
        (lambda: OpenWater(25.0, 20.0, -5.0, 1000.0), "cannot be negative"),
        (lambda: evaporation.shah_rate(OpenWater(25.0, 20.0, 3000.0, 1000.0), -0.1), "air speed cannot be negative"),
        (lambda: films.wind_film(-1.0), "wind cannot be negative"),
        (lambda: films.radiation_film(20.0, -300.0, 0.9), "nothing is colder"),
        (lambda: films.radiation_film(20.0, 0.0, 1.9), "from 0 to 1"),
        (lambda: films.sheet_conductance(6.0), "more than the films of air"),
        (lambda: films.sheet_conductance(0.0), "more than nothing"),
        (lambda: sky.clark_emissivity(10.0, 7.0), "from 0 to 1"),
        (lambda: sky.clark_emissivity(-150.0, 0.0), "above -100 degC"),
        (lambda: sky.swinbank_temperature(-300.0), "nothing is colder"),
        (lambda: sky.sky_temperature(-1.0), "cannot be negative"),
        (lambda: sky.daily_cloud(np.zeros(25), np.zeros(25)), "whole days"),
        (lambda: ground.floor_dimension(20.0, 0.0), "more than nothing"),
        (lambda: ground.ground_temperature(10.0, 5.0, 2.0), "from 0 to 1"),
        (lambda: ground.recent_mean(np.zeros(48), 3), "from 1 to 2 days"),
        (lambda: cooling.fading_time(0.0, 5.0), "more than nothing"),
        (lambda: cooling.heater_power(-1.0, 1.25), "cannot be negative"),
        (lambda: cooling.face_temperature(0.0, 20.0, 1.5), "from 0 to 1"),
        (lambda: seawater.specific_heat(-1.0, 20.0), "salinity cannot be negative"),
        (lambda: seawater.specific_heat(35.0, 150.0), "liquid water"),
    ],
)  # fmt: skip
def test_impossible_input_is_refused(call: Callable[[], Any], words: str) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        call()
