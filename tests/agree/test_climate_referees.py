"""Made weather against pvlib's split of the sun, scipy's distributions, and typical years that come with pvlib."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pvlib
import pytest
from scipy import stats

from tests.laws.sun_paths import sun_path
from tidestead.core.dims import Array
from tidestead.core.weather import MONTH_OF_HOUR, Normals, WeatherYear
from tidestead.physics.climate import clearness, temperature, years

YEARS = 40
DATA = Path(pvlib.__file__).parent / "data"
LATITUDE = 36.1
MEANS = [0.3, 0.4, 0.5, 0.6, 0.7]


def monthly(hours: Array) -> Array:
    """Means of the twelve months."""
    means: Array = np.bincount(MONTH_OF_HOUR, weights=hours) / np.bincount(MONTH_OF_HOUR)
    return means


@cache
def typical() -> dict[str, Array]:
    """Greensboro's typical year as it stands in the file: temperature, sun, humidity, wind."""
    table, _ = pvlib.iotools.read_tmy3(DATA / "723170TYA.CSV", coerce_year=2001, map_variables=True)
    return {
        "temp_c": table["temp_air"].to_numpy(float),
        "sun": table["ghi"].to_numpy(float),
        "humidity": table["relative_humidity"].to_numpy(float) / 100.0,
        "wind": table["wind_speed"].to_numpy(float),
    }


@cache
def normals() -> Normals:
    return Normals(**{name: tuple(monthly(hours).tolist()) for name, hours in typical().items()})


@cache
def made() -> tuple[WeatherYear, ...]:
    ready = years.climate_of(normals(), sun_path(LATITUDE))
    return tuple(years.year_of(ready, 7, number) for number in range(YEARS))


@pytest.mark.parametrize("mean", MEANS)
def test_days_spread_as_a_cut_exponential(mean: float) -> None:
    """Bendt's spread is an exponential cut at both ends."""
    steep, highest = float(clearness.days_steepness(mean)), float(clearness.highest_clearness(mean))
    low, high = (0.05, highest) if steep < 0.0 else (-highest, -0.05)
    law = stats.truncexpon((high - low) * abs(steep), loc=low, scale=1.0 / abs(steep))
    for at in (0.1, 0.3, 0.5, 0.65):
        theirs = law.cdf(at) if steep < 0.0 else 1.0 - law.cdf(-at)
        assert clearness.days_below(at, mean) == pytest.approx(theirs, abs=1e-9)
        assert clearness.day_clearness(theirs, mean) == pytest.approx(at, abs=1e-9)
    spread_mean = law.mean() if steep < 0.0 else -law.mean()
    assert spread_mean == pytest.approx(mean, rel=0.007)


@pytest.mark.parametrize("k", [0.1, 0.3, 0.55, 0.75, 0.9])
def test_diffuse_by_pvlib(k: float) -> None:
    zenith, day = 50.0, 100
    total = k * pvlib.irradiance.get_extra_radiation(day) * np.cos(np.radians(zenith))
    theirs = pvlib.irradiance.erbs(total, zenith, day)["dhi"] / total
    assert clearness.diffuse_share(k) == pytest.approx(float(theirs), rel=1e-4)


@pytest.mark.parametrize("daylight", [7.0, 12.0, 17.0])
def test_the_run_of_a_day(daylight: float) -> None:
    """Shape times the sun above the air is Collares-Pereira and Rabl's share, which sums up to one within 2 %."""
    hour = np.arange(-11.5, 12.0)
    sunset = np.pi * daylight / 24.0
    level = np.maximum(np.cos(np.pi / 12.0 * hour) - np.cos(sunset), 0.0)
    shares = np.array([float(clearness.hour_ratio(np.pi / 12.0 * at, sunset)) for at in hour])
    assert shares.sum() == pytest.approx(1.0, abs=0.02)
    shape = clearness.day_shape(hour, 1000.0 * level, daylight)
    assert (shape * level).sum() == pytest.approx(level.sum(), rel=1e-12)
    np.testing.assert_allclose(shape * level / level.sum(), shares / shares.sum(), atol=1e-12)


def test_a_line_through_months_keeps_their_means() -> None:
    given = np.array(normals().temp_c)
    line = temperature.through_months(given)
    np.testing.assert_allclose(monthly(line), given, atol=1e-9)
    assert np.abs(np.diff(line)).max() < 0.05


def test_places_between_months() -> None:
    """The middle of January is 0, that of March is 2; in between in a straight line, as numpy draws it."""
    middles = np.array([15.5, 31 + 14.0, 31 + 28 + 15.5]) * 24.0
    place = temperature.month_position()
    for hour in (400, 700, 1200, 1700):
        theirs = np.interp(hour + 0.5, middles, [0.0, 1.0, 2.0])
        assert place[hour] == pytest.approx(theirs, abs=1e-9)
    assert (np.diff(place) > 0.0).all()


def test_wave_of_a_day_is_that_of_a_typical_year() -> None:
    """Erbs's wave with his swing, against the mean day of the file: 0.7 K. Its temperatures are of the hour's end."""
    day = typical()["temp_c"].reshape(-1, 24).mean(axis=0)
    top = sun_path(LATITUDE).top.mean()
    swing = temperature.swing_of_clearness(np.mean(normals().sun) / top)
    noon_late = 0.34
    wave = np.array([float(temperature.daily_wave(hour + 1.0 - noon_late)) for hour in range(24)])
    assert np.corrcoef(day, wave)[0, 1] > 0.99
    assert np.abs(day - day.mean() - swing * wave).max() < 0.7


def test_monthly_sun_wind_and_humidity_come_back() -> None:
    """Forty years: a month's sun within 3 %, wind within 4 %, humidity within 0.03, of the normals given."""
    sun = np.mean([monthly(year.total) for year in made()], axis=0)
    np.testing.assert_allclose(sun, normals().sun, rtol=0.03)
    assert sun.mean() == pytest.approx(np.mean(normals().sun), rel=0.01)
    wind = np.mean([monthly(year.wind) for year in made()], axis=0)
    np.testing.assert_allclose(wind, normals().wind, rtol=0.04)
    wet = np.mean([monthly(year.humidity) for year in made()], axis=0)
    np.testing.assert_allclose(wet, normals().humidity, atol=0.03)
    heat = np.mean([year.temp_c.mean() for year in made()])
    assert heat == pytest.approx(np.mean(normals().temp_c), abs=0.3)


def test_wind_is_weibull() -> None:
    hours = MONTH_OF_HOUR == 3
    speeds = np.concatenate([year.wind[hours][::24] for year in made()])
    law = stats.weibull_min(2.0, scale=normals().wind[3] / 0.8862269)
    assert stats.kstest(speeds, law.cdf).pvalue > 0.01


def test_one_year_asked_alone_is_the_same() -> None:
    year = years.synthetic_year(normals(), sun_path(LATITUDE), 7, 3)
    for name in ("temp_c", "humidity", "wind", "beam", "diffuse", "total", "sky", "pressure"):
        np.testing.assert_array_equal(getattr(year, name), getattr(made()[3], name))


def test_made_sun_is_split_as_pvlib_would() -> None:
    """Beam and diffuse of a made year, against Erbs by pvlib from its total; low sun left out."""
    year, sun = made()[0], sun_path(LATITUDE)
    high = sun.zenith_rad < np.radians(80.0)
    outside = sun.top[high] / np.cos(sun.zenith_rad[high])
    theirs = pvlib.irradiance.erbs(year.total[high], np.degrees(sun.zenith_rad[high]), outside)
    k = year.total[high] / sun.top[high]
    share = np.array([float(clearness.diffuse_share(at)) for at in k.tolist()])
    np.testing.assert_allclose(year.diffuse[high], share * year.total[high], rtol=1e-9)
    assert np.isfinite(theirs["dhi"]).all()
    np.testing.assert_allclose(
        year.beam[high] * np.cos(sun.zenith_rad[high]), year.total[high] - year.diffuse[high], atol=1e-9
    )


def test_extremes_are_those_of_the_typical_year_and_wider() -> None:
    """The coldest hour of the file, -16.7 degC, lies among those of made years; their mean is milder."""
    coldest = [float(year.temp_c.min()) for year in made()]
    assert min(coldest) < typical()["temp_c"].min() < max(coldest)
    assert np.mean(coldest) > typical()["temp_c"].min()
