"""Cold spells and heat waves against pandas' rolling means, scipy's Gumbel law, psychrolib and pvlib's clear sky."""

from __future__ import annotations

from functools import cache

import numpy as np
import pandas as pd
import psychrolib
import pvlib
import pytest
from scipy import stats

from tests.laws.sun_paths import sun_path
from tidestead.core.weather import Normals, Spell, WeatherYear
from tidestead.physics.climate import spells, years
from tidestead.physics.heat import ground, sky

psychrolib.SetUnitSystem(psychrolib.SI)

LATITUDE = 52.0
MILD = Normals(
    (3.0, 3.5, 6.0, 9.0, 12.5, 15.5, 17.5, 17.5, 14.5, 10.5, 6.5, 4.0),
    (30.0, 55.0, 100.0, 160.0, 200.0, 215.0, 205.0, 175.0, 125.0, 70.0, 35.0, 22.0),
    (0.87, 0.84, 0.80, 0.75, 0.74, 0.75, 0.76, 0.77, 0.81, 0.84, 0.87, 0.89),
    (5.5, 5.2, 5.2, 4.6, 4.3, 4.0, 4.0, 3.9, 4.2, 4.7, 5.0, 5.3),
)


@cache
def year() -> WeatherYear:
    return years.synthetic_year(MILD, sun_path(LATITUDE), 1, 0)


def rolling(days: int) -> pd.Series[float]:
    """Means of so many days from each midnight on, by pandas; indexed by their last day."""
    daily = pd.Series(year().temp_c.reshape(-1, 24).mean(axis=1))
    return daily.rolling(days).mean().dropna()


@pytest.mark.parametrize("days", [1, 5, 10])
def test_coldest_and_warmest_days(days: int) -> None:
    assert spells.coldest_mean(year(), float(days)) == pytest.approx(rolling(days).min(), abs=1e-9)
    assert spells.warmest_mean(year(), float(days)) == pytest.approx(rolling(days).max(), abs=1e-9)


def test_the_coldest_stretch_gets_the_spells_mean() -> None:
    """Where it lies, by pandas; a day of going down and up on both sides, and nothing else."""
    cold = spells.with_cold_spell(year(), Spell(5.0, -12.0))
    last = int(rolling(5).idxmin())
    stretch = slice(24 * (last - 4), 24 * (last + 1))
    assert cold.temp_c[stretch].mean() == pytest.approx(-12.0, abs=1e-9)
    shift = cold.temp_c - year().temp_c
    assert np.ptp(shift[stretch]) == pytest.approx(0.0, abs=1e-9)
    assert np.count_nonzero(shift[: stretch.start - 24]) == np.count_nonzero(shift[stretch.stop + 24 :]) == 0
    assert (shift <= 0.0).all()
    np.testing.assert_array_equal(cold.humidity, year().humidity)


def test_the_warmest_stretch_keeps_its_vapour() -> None:
    wave = spells.with_heat_wave(year(), Spell(5.0, 29.0))
    last = int(rolling(5).idxmax())
    stretch = range(24 * (last - 4), 24 * (last + 1))
    assert wave.temp_c[stretch].mean() == pytest.approx(29.0, abs=1e-9)
    for hour in stretch:
        before = psychrolib.GetVapPresFromRelHum(float(year().temp_c[hour]), float(year().humidity[hour]))
        after = psychrolib.GetVapPresFromRelHum(float(wave.temp_c[hour]), float(wave.humidity[hour]))
        assert after == pytest.approx(before, rel=1e-9)


def test_a_clear_sky_is_as_another_formula_has_it() -> None:
    """Haurwitz's clear days by pvlib, but for hours that were brighter already and the lowest sun."""
    sun = sun_path(LATITUDE)
    clear = spells.with_heat_wave(year(), Spell(5.0, 29.0), sun)
    last = int(rolling(5).idxmax())
    stretch = slice(24 * (last - 4), 24 * (last + 1))
    zenith = pd.Series(np.degrees(sun.zenith_rad[stretch]))
    theirs = pvlib.clearsky.haurwitz(zenith)["ghi"].to_numpy()
    theirs = np.where(sun.up[stretch] > 0.0, theirs, 0.0)
    wanted = np.maximum(theirs, year().total[stretch])
    assert clear.total[stretch].mean() == pytest.approx(wanted.mean(), rel=1e-3)
    assert (clear.total >= year().total - 1e-9).all()
    assert (clear.diffuse <= clear.total).all()


@pytest.mark.parametrize("degrees", [20.0, 40.0, 60.0])
def test_clear_sun(degrees: float) -> None:
    theirs = pvlib.clearsky.haurwitz(pd.Series([degrees]))["ghi"][0]
    assert sky.clear_sun(np.radians(degrees)) == pytest.approx(float(theirs), rel=1e-9)


@pytest.mark.parametrize("count", [1, 5, 12])
def test_what_few_years_do_not_show(count: int) -> None:
    """Gumbel's mode moves with the scale times the logarithm of the number of years; scipy's spread for the scale."""
    scale = 3.0 / stats.gumbel_r(scale=1.0).std()
    of_twenty = stats.gumbel_r.ppf(np.exp(-1.0) ** (1.0 / 20.0), scale=scale)
    of_count = stats.gumbel_r.ppf(np.exp(-1.0) ** (1.0 / count), scale=scale)
    assert spells.rare_margin(count, 3.0) == pytest.approx(of_twenty - of_count, rel=1e-9)


def test_cloud_of_days() -> None:
    """A clear day, an overcast one and a night of twenty-four hours after it."""
    zenith = np.tile(sun_path(LATITUDE).zenith_rad[24 * 171 : 24 * 172], 3)
    full = pvlib.clearsky.haurwitz(pd.Series(np.degrees(zenith)))["ghi"].to_numpy()
    zenith[48:] = 2.0
    total = np.concatenate((full[:24], 0.25 * full[24:48], np.zeros(24)))
    cloud = sky.daily_cloud(total, zenith)
    np.testing.assert_allclose(cloud, np.repeat([0.0, 1.0, 1.0], 24), atol=1e-9)


def test_mean_of_late() -> None:
    """Against pandas, with the year before in front."""
    temp_c = year().temp_c
    twice = pd.Series(np.concatenate((temp_c, temp_c))).rolling(720).mean().to_numpy()[8760:]
    np.testing.assert_allclose(ground.recent_mean(temp_c, 30), twice, atol=1e-9)
