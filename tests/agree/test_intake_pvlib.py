"""Our readers of weather files and what follows from them, against those of the library pvlib and the files."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pandas as pd
import psychrolib
import pvlib
import pytest

from tests.journeys.climates import BUILDING, DENVER, FILES, bundled, climate
from tests.laws import weather_texts as texts
from tidestead.core.weather import HOURS, WeatherYear
from tidestead.intake.air import dew_point, humidity_at, station_pressure
from tidestead.intake.epw import read_epw
from tidestead.intake.hours import Hours
from tidestead.intake.parts import diffuse_share
from tidestead.intake.pvgis_files import read_pvgis_csv, read_pvgis_json
from tidestead.intake.sun import sun_path
from tidestead.intake.tmy import read_tmy2, read_tmy3

psychrolib.SetUnitSystem(psychrolib.SI)
needs_denver = pytest.mark.skipif(
    not DENVER.is_file(), reason=f"the validation data are not there: {BUILDING}"
)


def lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").split("\n")


def check_columns(
    ours: dict[str, np.ndarray], theirs: pd.DataFrame, names: dict[str, tuple[str, float]]
) -> None:
    """Column by column to the last digit; `names` has their name and the size of their unit in SI."""
    for key, (name, size) in names.items():
        np.testing.assert_allclose(
            ours[key], size * theirs[name].to_numpy(dtype=float), rtol=1e-12, err_msg=key
        )


@needs_denver
def test_epw() -> None:
    theirs, about = pvlib.iotools.read_epw(DENVER)
    ours = read_epw(DENVER.name, lines(DENVER))
    names = {
        "temp_c": ("temp_air", 1.0), "dew_c": ("temp_dew", 1.0), "humidity": ("relative_humidity", 0.01),
        "pressure": ("atmospheric_pressure", 1.0), "wind": ("wind_speed", 1.0), "total": ("ghi", 1.0),
        "beam": ("dni", 1.0), "diffuse": ("dhi", 1.0), "sky": ("ghi_infrared", 1.0),
    }  # fmt: skip
    check_columns(ours.columns, theirs, names)
    told = (ours.station.latitude, ours.station.longitude, ours.station.utc_offset, ours.station.elevation)
    assert told == (about["latitude"], about["longitude"], about["TZ"], about["altitude"])
    local = theirs.index.tz_localize(None).as_unit("s").asi8 // 3600
    assert (ours.begins == local).all()


TMY3 = {
    "temp_c": ("temp_air", 1.0), "dew_c": ("temp_dew", 1.0), "humidity": ("relative_humidity", 0.01),
    "pressure": ("pressure", 100.0), "wind": ("wind_speed", 1.0), "total": ("ghi", 1.0), "beam": ("dni", 1.0),
    "diffuse": ("dhi", 1.0),
}  # fmt: skip


@pytest.mark.parametrize("place", ["sand_point", "greensboro"])
def test_tmy3(place: str) -> None:
    path = bundled() / FILES[place][0]
    theirs, about = pvlib.iotools.read_tmy3(path, map_variables=True)
    ours = read_tmy3(path.name, lines(path))
    check_columns(ours.columns, theirs, TMY3)
    told = (ours.station.latitude, ours.station.longitude, ours.station.utc_offset, ours.station.elevation)
    assert told == (about["latitude"], about["longitude"], about["TZ"], about["altitude"])
    ends = theirs.index.tz_localize(None).as_unit("s").asi8 // 3600
    moved = ends - 1 - ours.begins
    assert set(moved) <= {0, 24}
    assert (moved == 24).sum() <= 1, (
        "midnight after 28 February of a leap year, which the library puts a day later"
    )


def test_tmy2() -> None:
    path = bundled() / FILES["miami"][0]
    theirs, about = pvlib.iotools.read_tmy2(path)
    ours = read_tmy2(path.name, lines(path))
    names = {
        "temp_c": ("DryBulb", 0.1), "dew_c": ("DewPoint", 0.1), "humidity": ("RHum", 0.01),
        "pressure": ("Pressure", 100.0), "wind": ("Wspd", 0.1), "total": ("GHI", 1.0), "beam": ("DNI", 1.0),
        "diffuse": ("DHI", 1.0),
    }  # fmt: skip
    check_columns(ours.columns, theirs, names)
    assert ours.station.latitude == pytest.approx(about["latitude"])
    assert ours.station.longitude == pytest.approx(about["longitude"])
    assert (ours.station.utc_offset, ours.station.elevation) == (about["TZ"], about["altitude"])
    hours = theirs[["month", "day", "hour"]].to_numpy(dtype=int)
    begins = pd.to_datetime({"year": 1900 + theirs["year"], "month": hours[:, 0], "day": hours[:, 1]})
    assert (ours.begins == begins.to_numpy("datetime64[h]").astype(int) + hours[:, 2] - 1).all()


def pvgis_file(folder: Path, kind: str, rows: list[dict[str, object]]) -> tuple[Path, Hours]:
    """A file as the service writes it, and what ours reads in it."""
    text = (texts.pvgis_json if kind == "json" else texts.pvgis_csv)(rows)
    path = folder / f"a.{kind}"
    path.write_text(text, encoding="utf-8", newline="")
    return path, (read_pvgis_json if kind == "json" else read_pvgis_csv)(
        "a", text.replace("\r\n", "\n").split("\n")
    )


@pytest.mark.parametrize("kind", ["json", "csv"])
def test_pvgis_typical(tmp_path: Path, kind: str) -> None:
    path, ours = pvgis_file(tmp_path, kind, texts.typical_rows())
    theirs, about = pvlib.iotools.read_pvgis_tmy(path, map_variables=True)
    names = {
        "temp_c": ("temp_air", 1.0), "humidity": ("relative_humidity", 0.01), "pressure": ("pressure", 1.0),
        "wind": ("wind_speed", 1.0), "total": ("ghi", 1.0), "beam": ("dni", 1.0), "diffuse": ("dhi", 1.0),
        "sky": ("IR(h)", 1.0),
    }  # fmt: skip
    check_columns(ours.columns, theirs, names)
    assert (ours.begins == theirs.index.as_unit("s").asi8 // 3600).all()
    inputs = about["inputs"]
    offset = (
        inputs["location"]["irradiance_time_offset"] if kind == "json" else inputs["irradiance time offset"]
    )
    assert ours.late == pytest.approx(offset - 0.5)


@pytest.mark.parametrize("kind", ["json", "csv"])
def test_pvgis_series(tmp_path: Path, kind: str) -> None:
    path, ours = pvgis_file(tmp_path, kind, texts.level_series())
    theirs, _ = pvlib.iotools.read_pvgis_hourly(path, map_variables=True)
    names = {
        "temp_c": ("temp_air", 1.0), "wind": ("wind_speed", 1.0), "beam_level": ("poa_direct", 1.0),
        "diffuse": ("poa_sky_diffuse", 1.0),
    }  # fmt: skip
    check_columns(ours.columns, theirs, names)
    assert (ours.begins == theirs.index.as_unit("s").asi8 // 3600).all()
    assert ours.late == pytest.approx(10.0 / 60.0 - 0.5)


def test_diffuse_share_is_erbs() -> None:
    """Erbs needs the sun's strength outside the air; ours is given the clearness itself."""
    zenith = np.full(200, 40.0)
    outside = pvlib.irradiance.get_extra_radiation(100) * np.cos(np.radians(40.0))
    clearness = np.linspace(0.005, 0.995, 200)
    theirs = pvlib.irradiance.erbs(clearness * outside, zenith, 100)
    np.testing.assert_allclose(diffuse_share(clearness), theirs["dhi"] / (clearness * outside), atol=2e-4)


@pytest.mark.parametrize("place", ["sand_point", "greensboro", "miami", "denver"])
def test_position_at_mid_hour_is_the_librarys(place: str) -> None:
    """Where the sun is up all the hour: to 0.01 degrees of the algorithm itself, run at that moment."""
    weather = climate(place)
    when = pd.date_range(
        "2023-01-01 00:30", periods=HOURS, freq="h", tz=f"Etc/GMT{-int(weather.utc_offset):+d}"
    )
    theirs = pvlib.solarposition.spa_python(when, weather.latitude, weather.longitude, weather.elevation,
                                               pressure=station_pressure(weather.elevation))  # fmt: skip
    whole = weather.sun.up == 1.0
    assert whole.sum() > 3500
    zenith, azimuth = np.degrees(weather.sun.zenith_rad), np.degrees(weather.sun.azimuth_rad)
    np.testing.assert_allclose(zenith[whole], theirs["apparent_zenith"][whole], atol=0.01)
    apart = (azimuth - theirs["azimuth"].to_numpy() + 180.0) % 360.0 - 180.0
    wide = np.abs(apart) * np.sin(np.radians(zenith))
    assert wide[whole].max() < 0.01


@pytest.mark.parametrize("latitude", [0.0, 25.8, 51.0, 58.0])
def test_hours_of_light_are_the_librarys(latitude: float) -> None:
    """The library's sunrise is that of the upper edge; the middle is 16' lower: 1.07 minutes over sin(path)."""
    days = pd.date_range("2023-01-01", periods=365, freq="D", tz="UTC")
    theirs = pvlib.solarposition.sun_rise_set_transit_spa(days, latitude, 0.0)
    length = (theirs["sunset"] - theirs["sunrise"]).dt.total_seconds().to_numpy() / 3600.0 % 24.0
    sun = pvlib.solarposition.declination_spencer71(np.arange(1, 366))
    path = np.sqrt(np.cos(np.radians(latitude)) ** 2 - np.sin(sun) ** 2)
    middle = length - 2.0 * np.degrees(np.radians(0.26667) / path) / 15.0
    ours = sun_path(latitude, 0.0, 0.0, 0.0).up.reshape(365, 24).sum(axis=1)
    np.testing.assert_allclose(ours, middle, atol=0.01)


@pytest.mark.parametrize("latitude", [66.0, 70.0, -78.0])
@pytest.mark.parametrize("day", [20, 79, 130, 171, 265, 330])
def test_hours_of_light_near_the_poles_are_the_librarys(latitude: float, day: int) -> None:
    """Minutes of the day in which the library's sun, lifted by the air, is above the horizon."""
    when = pd.date_range(
        pd.Timestamp("2023-01-01", tz="UTC") + pd.Timedelta(days=day), periods=1440, freq="min"
    )
    up = pvlib.solarposition.spa_python(when, latitude, 0.0, 0.0)["apparent_elevation"] > 0.0
    ours = sun_path(latitude, 0.0, 0.0, 0.0).up.reshape(365, 24)[day].sum()
    assert ours == pytest.approx(up.sum() / 60.0, abs=0.06)


@pytest.mark.parametrize("place", ["sand_point", "greensboro"])
def test_top_of_the_air_is_that_in_the_files(place: str) -> None:
    """TMY3 brings the sun outside the air of each hour, for a constant of 1367 W/m2 and years of its own."""
    path = bundled() / FILES[place][0]
    theirs, _ = pvlib.iotools.read_tmy3(path, map_variables=True)
    ours = climate(place).sun.top * 1367.0 / 1361.0
    etr = theirs["ghi_extra"].to_numpy(dtype=float)
    assert ours.mean() == pytest.approx(etr.mean(), rel=2e-3)
    np.testing.assert_allclose(ours, etr, atol=9.0)


@pytest.mark.parametrize("temp_c", [1.0, 10.0, 25.0, 40.0])
@pytest.mark.parametrize("humidity", [0.1, 0.5, 0.9, 1.0])
def test_dew_point(temp_c: float, humidity: float) -> None:
    """Magnus against Hyland and Wexler; where the dew point is under frost the library's is over ice."""
    theirs = psychrolib.GetTDewPointFromRelHum(temp_c, humidity)
    ours = float(dew_point(np.array(temp_c), np.array(humidity)))
    if theirs > 0.0:
        assert ours == pytest.approx(theirs, abs=0.06)
    assert float(humidity_at(np.array(temp_c), np.array(ours))) == pytest.approx(humidity, rel=1e-9)


@pytest.mark.parametrize("elevation", [-100.0, 0.0, 273.0, 1650.0, 4000.0])
def test_pressure_of_a_height(elevation: float) -> None:
    assert station_pressure(elevation) == pytest.approx(
        psychrolib.GetStandardAtmPressure(elevation), rel=1e-5
    )


def test_humidity_in_the_files_fits_their_dew_points() -> None:
    """The stations' own humidity, rounded to 1 %, and that from their dew point, rounded to 0.1 K."""
    path = bundled() / FILES["greensboro"][0]
    ours = read_tmy3(path.name, lines(path)).columns
    made = humidity_at(ours["temp_c"], ours["dew_c"])
    assert float(np.mean(np.abs(made - ours["humidity"]))) < 0.01


@pytest.mark.parametrize("place", ["sand_point", "greensboro", "miami", "denver"])
def test_parts_of_the_sun_in_the_files_make_its_whole(place: str) -> None:
    """Direct sun by our height and diffuse sun are the total of the file, over the year and in most hours."""
    weather = climate(place)
    (year,) = weather.years
    level = year.beam * np.cos(weather.sun.zenith_rad) * (weather.sun.up > 0.0) + year.diffuse
    assert level.sum() == pytest.approx(year.total.sum(), rel=0.01)
    assert float(np.quantile(np.abs(level - year.total), 0.98)) < 25.0


def erbs_of(year: WeatherYear, top: np.ndarray) -> np.ndarray:
    return year.total * diffuse_share(year.total / np.maximum(top, 1.0))


@pytest.mark.parametrize("place", ["greensboro", "miami", "denver"])
def test_erbs_gives_about_the_diffuse_sun_of_the_files(place: str) -> None:
    """Within 10 % over the year: what stands in for parts that a file does not hold."""
    weather = climate(place)
    (year,) = weather.years
    assert erbs_of(year, weather.sun.top).sum() == pytest.approx(year.diffuse.sum(), rel=0.10)
