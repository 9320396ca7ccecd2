"""Made years: repeatable, in any order, possible; means kept; plain and compiled alike; odd climates and refusals."""

from __future__ import annotations

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from tests.laws.sun_paths import sun_path
from tidestead.core.compiled import PLAIN
from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import MONTH_OF_HOUR, Normals, Spell, SunPath, WeatherYear
from tidestead.physics.climate import spells, years

FIELDS = ("temp_c", "humidity", "pressure", "wind", "beam", "diffuse", "total", "sky")
COAST = Normals(
    (0.6, 1.2, 1.7, 2.1, 3.2, 8.1, 11.8, 11.9, 7.9, 4.5, 0.4, -0.6),
    (24.0, 44.0, 77.0, 127.0, 137.0, 159.0, 209.0, 113.0, 127.0, 67.0, 31.0, 19.0),
    (0.82, 0.66, 0.76, 0.71, 0.75, 0.77, 0.68, 0.80, 0.74, 0.72, 0.68, 0.71),
    (5.0, 6.5, 5.5, 5.0, 4.5, 4.0, 3.1, 3.5, 4.5, 5.5, 6.0, 6.0),
)
MEANS_YEARS = 800
SHORT = 40

PRINTED = """
import numpy as np
from tests.laws.test_climate import COAST, FIELDS
from tests.laws.sun_paths import sun_path
from tidestead.physics.climate import years
year = years.synthetic_year(COAST, sun_path(55.3), 11, 4)
np.save({to!r}, np.array([getattr(year, name) for name in FIELDS]))
"""


@cache
def coast() -> years.Climate:
    return years.climate_of(COAST, sun_path(55.3))


def stacked(year: WeatherYear) -> Array:
    return np.array([getattr(year, name) for name in FIELDS])


def possible(year: WeatherYear, sun: SunPath) -> None:
    """What no hour of any weather may break."""
    assert np.isfinite(stacked(year)).all()
    assert (year.beam >= 0.0).all()
    assert (year.diffuse >= 0.0).all()
    assert (year.diffuse <= year.total + 1e-9).all()
    assert (year.total <= sun.top + 1e-9).all()
    assert (year.beam <= 1420.0).all()
    assert (year.total[sun.top <= 0.0] == 0.0).all()
    level = year.beam * np.maximum(np.cos(sun.zenith_rad), 0.0)
    np.testing.assert_allclose(level + year.diffuse, year.total, atol=1e-6)
    assert (year.humidity >= 0.05).all()
    assert (year.humidity <= 1.0).all()
    assert (year.wind >= 0.0).all()
    assert (year.sky > 50.0).all()
    assert (year.sky < 5.670374419e-8 * (year.temp_c + 273.15) ** 4 + 1e-9).all()


def test_the_same_year_in_any_order_and_thread() -> None:
    forward = [stacked(years.year_of(coast(), 11, number)) for number in range(6)]
    for number in (5, 0, 3):
        np.testing.assert_array_equal(stacked(years.year_of(coast(), 11, number)), forward[number])
    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(lambda number: stacked(years.year_of(coast(), 11, number)), range(6)))
    np.testing.assert_array_equal(found, forward)


def test_other_seeds_and_numbers_are_other_years() -> None:
    one, two, three = (years.year_of(coast(), *name).temp_c for name in ((11, 4), (11, 5), (12, 4)))
    for other in (two, three):
        assert np.abs(one - other).max() > 1.0
        daily = one.reshape(-1, 24).mean(axis=1) - other.reshape(-1, 24).mean(axis=1)
        assert 1.0 < daily.std() < 8.0


@pytest.mark.timeout(120)
def test_plain_python_gives_the_same_numbers(tmp_path: object) -> None:
    to = f"{tmp_path}/plain.npy"
    plain = {**os.environ, PLAIN: "1"}
    subprocess.run([sys.executable, "-W", "ignore", "-c", PRINTED.format(to=to)], env=plain, check=True)
    made = stacked(years.year_of(coast(), 11, 4))
    np.testing.assert_allclose(np.load(to), made, rtol=1e-12, atol=1e-12)


def test_monthly_means_are_kept() -> None:
    """Eight hundred years: temperature within 0.2 K, sun within 3 %, of the normals."""
    sums = np.zeros((2, 12))
    for number in range(MEANS_YEARS):
        year = years.year_of(coast(), 5, number)
        for row, values in enumerate((year.temp_c, year.total)):
            sums[row] += np.bincount(MONTH_OF_HOUR, weights=values) / np.bincount(MONTH_OF_HOUR)
    means = sums / MEANS_YEARS
    np.testing.assert_allclose(means[0], COAST.temp_c, atol=0.2)
    np.testing.assert_allclose(means[1], COAST.sun, rtol=0.03)


@pytest.mark.parametrize("latitude", [-78.0, -38.0, 0.0, 23.0, 55.3, 67.0, 82.0])
@pytest.mark.parametrize("chance", range(6))
def test_every_climate_gives_possible_hours(latitude: float, chance: int) -> None:
    """Polar nights, deserts, rain forests: any normals that the sun allows."""
    sun, draw = sun_path(latitude), np.random.default_rng(chance)
    top = np.bincount(MONTH_OF_HOUR, weights=sun.top) / np.bincount(MONTH_OF_HOUR)
    highest = (0.05, 0.4, 0.8)[chance % 3]
    normals = Normals(
        tuple(draw.uniform(-35.0, 38.0, 12).tolist()),
        tuple((top * draw.uniform(0.0, highest, 12)).tolist()),
        tuple(draw.choice([0.0, 0.3, 0.7, 0.95, 1.0], 12).tolist()),
        tuple(draw.uniform(0.0, 12.0, 12).tolist()),
        None if chance % 2 else tuple(draw.uniform(0.0, 25.0, 12).tolist()),
    )
    year = years.synthetic_year(normals, sun, 2**32 - 1 - chance, chance)
    possible(year, sun)
    assert float(year.total.max()) <= float(sun.top.max()) * 1.01


def test_a_month_without_sun_has_none_and_the_rest_of_the_year_does() -> None:
    """82 N: the sun stays down from October to February."""
    sun = sun_path(82.0)
    top = np.bincount(MONTH_OF_HOUR, weights=sun.top) / np.bincount(MONTH_OF_HOUR)
    normals = replace(COAST, sun=tuple((0.45 * top).tolist()))
    year = years.synthetic_year(normals, sun, 1, 0)
    assert year.total[MONTH_OF_HOUR == 0].sum() == 0.0
    came = [
        np.bincount(MONTH_OF_HOUR, weights=years.synthetic_year(normals, sun, 1, number).total)[5]
        for number in range(SHORT)
    ]
    assert np.mean(came) / 720.0 == pytest.approx(0.45 * top[5], rel=0.04)


def test_a_stated_swing_is_the_days_swing() -> None:
    stated = replace(COAST, swing=(10.0,) * 12)
    year = years.synthetic_year(stated, sun_path(55.3), 3, 0)
    daily = year.temp_c.reshape(-1, 24)
    assert (daily.max(axis=1) - daily.min(axis=1)).mean() == pytest.approx(10.0, abs=1.0)


def test_thin_air_is_passed_on() -> None:
    assert (years.synthetic_year(COAST, sun_path(55.3), 1, 1, 84560.0).pressure == 84560.0).all()


def test_a_year_cannot_be_changed() -> None:
    year = years.year_of(coast(), 1, 1)
    with pytest.raises(ValueError, match="read-only"):
        year.temp_c[0] = 0.0


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"sun": (500.0,) * 12}, "Jan: a mean sun of 500"),
        ({"sun": (-1.0,) * 12}, "cannot be negative"),
        ({"temp_c": (10.0,) * 11}, "twelve finite monthly means"),
        ({"temp_c": (float("nan"),) * 12}, "twelve finite monthly means"),
        ({"humidity": (80.0,) * 12}, "from 0 to 1"),
        ({"wind": (-3.0,) * 12}, "cannot be negative"),
    ],
)
def test_impossible_normals_are_refused(change: dict[str, tuple[float, ...]], words: str) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        years.climate_of(replace(COAST, **change), sun_path(55.3))


@pytest.mark.parametrize("name", [(-1, 0), (0, 2**32)])
def test_seeds_beyond_a_word_are_refused(name: tuple[int, int]) -> None:
    with pytest.raises(ImpossibleInput, match="of a year from 0"):
        years.year_of(coast(), *name)


def test_spells_leave_possible_hours_and_years_that_are_worse_already() -> None:
    sun = sun_path(55.3)
    year = years.year_of(coast(), 1, 2)
    hard = spells.with_heat_wave(spells.with_cold_spell(year, Spell(5.0, -25.0)), Spell(6.0, 27.0), sun)
    possible(hard, sun)
    assert hard.label == "made 2, cold spell, heat wave, clear sky"
    assert spells.coldest_mean(hard, 5.0) == pytest.approx(-25.0)
    assert spells.with_cold_spell(hard, Spell(5.0, -10.0)) is hard
    np.testing.assert_array_equal(spells.with_heat_wave(hard, Spell(6.0, 20.0)).temp_c, hard.temp_c)


def test_a_sky_nobody_measured_stays_unmeasured() -> None:
    year = replace(years.year_of(coast(), 1, 2), sky=np.full(8760, np.nan))
    assert np.isnan(spells.with_cold_spell(year, Spell(5.0, -25.0)).sky).all()


@pytest.mark.parametrize("days", [0.0, -1.0, 120.0, float("nan")])
def test_spells_of_no_length_are_refused(days: float) -> None:
    with pytest.raises(ImpossibleInput, match="a spell of up to 90 days"):
        spells.with_cold_spell(years.year_of(coast(), 1, 2), Spell(days, -10.0))


def test_no_years_no_spell() -> None:
    with pytest.raises(ImpossibleInput, match="no year of weather"):
        spells.cold_spell_of_years(())


def test_more_years_need_less_margin() -> None:
    margins = [spells.rare_margin(count, 3.0) for count in (1, 2, 5, 10, 20, 40)]
    assert margins == sorted(margins, reverse=True)
    assert margins[-2:] == [0.0, 0.0]


def test_made_years_know_a_heavier_cold_than_warm_tail() -> None:
    """Days of the cold season lean to the cold, as real ones do."""
    cold = np.concatenate(
        [years.year_of(coast(), 9, number).temp_c.reshape(-1, 24).mean(axis=1)[:28] for number in range(200)]
    )
    off = cold - cold.mean()
    skew = (off**3).mean() / (off**2).mean() ** 1.5
    assert -1.0 < skew < -0.2
