"""Made-up weather files of every sort, written from one smooth year, so that what a reader gives back is known."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.sun import lifted, sky_at, sun_path
from tidestead.intake.wanted import Monthly, NoWeather, Site, Wanted

LATITUDE, LONGITUDE, ELEVATION, OFFSET = 50.0, 15.0, 200.0, 1.0
SITE = Site(LATITUDE, LONGITUDE, ELEVATION, "Etc/GMT-1")
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
_MONTH = np.repeat(np.arange(1, 13), DAYS * 24)
_DAY = np.concatenate([np.repeat(np.arange(1, days + 1), 24) for days in DAYS])
_HOUR = np.tile(np.arange(24), 365)


@dataclass(frozen=True)
class Made:
    """A year by the clock UTC+1 at 50 N 15 E, rounded as files round."""

    temp_c: Array
    humidity: Array
    pressure: Array
    wind: Array
    beam: Array
    diffuse: Array
    total: Array


def made() -> Made:
    """Warm by day and in summer; seven tenths of clear sky, half of it straight."""
    sun = sun_path(LATITUDE, LONGITUDE, ELEVATION, OFFSET)
    hours = np.arange(HOURS)
    season, clock = 2.0 * np.pi * hours / HOURS, 2.0 * np.pi * hours / 24.0
    total = np.round(0.7 * sun.top)
    height = np.where(sun.up > 0.0, np.cos(sun.zenith_rad), 0.0)
    diffuse = np.round(0.35 * sun.top)
    high: Array = np.maximum(height, 0.07)
    straight: Array = np.where(height > 0.07, (total - diffuse) / high, 0.0)
    return Made(
        np.round(9.0 - 10.0 * np.cos(season) - 3.0 * np.cos(clock - 0.5), 1),
        np.round(75.0 + 10.0 * np.cos(clock)),
        np.round(98900.0 + 500.0 * np.sin(7.0 * season), -2),
        np.round(4.0 + 2.0 * np.sin(11.0 * season), 1),
        np.round(straight),
        diffuse,
        total,
    )


MADE = made()
Change = Callable[[list[str]], Sequence[str]]


def epw(change: Change = list, year: int | None = None, place: str = "50.0,15.0,1.0,200.0") -> str:
    """An EPW; `change` may alter its list of data lines."""
    heads = [f"LOCATION,TESTHAM,-,TST,made,000000,{place}", "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0",
             "GROUND TEMPERATURES,0", "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,made up", "COMMENTS 2,",
             "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"]  # fmt: skip
    return "\n".join([*heads, *change(list(_epw_rows(year))), ""])


@cache
def _epw_rows(year: int | None) -> tuple[str, ...]:
    own = MADE
    years = np.where(_MONTH % 2 == 0, 2004, 2009) if year is None else np.full(HOURS, year)
    return tuple(
        f"{years[at]},{_MONTH[at]},{_DAY[at]},{_HOUR[at] + 1},60,flags,{own.temp_c[at]:.1f},99.9,"
        f"{own.humidity[at]:.0f},{own.pressure[at]:.0f},0,0,9999,{own.total[at]:.0f},{own.beam[at]:.0f},{own.diffuse[at]:.0f},"
        f"0,0,0,0,0,{own.wind[at]:.1f},0,0,0,0,9,0,0,0,0,88,0,0,0"
        for at in range(HOURS)
    )


TMY3_HEADS = "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),Dew-point (C),RHum (%)," \
             "Pressure (mbar),Wspd (m/s)"  # fmt: skip


def tmy3(change: Change = list, midnight: str = "24:00") -> str:
    """A TMY3; midnight is 24:00, or 00:00 of the next day."""
    rows = list(_tmy3_rows(midnight))
    return "\n".join(['000001,"TESTHAM, EAST",XX,1.0,50.000,15.000,200', TMY3_HEADS, *change(rows), ""])


@cache
def _tmy3_rows(midnight: str) -> tuple[str, ...]:
    own = MADE
    rows = []
    for at in range(HOURS):
        date, clock = f"{_MONTH[at]:02d}/{_DAY[at]:02d}/2001", f"{_HOUR[at] + 1:02d}:00"
        if clock == "24:00" and midnight == "00:00":
            following = np.datetime64(f"2001-{_MONTH[at]:02d}-{_DAY[at]:02d}") + 1
            year, month, day = str(following).split("-")
            date, clock = f"{month}/{day}/{year}", midnight
        rows.append(
            f"{date},{clock},{own.total[at]:.0f},{own.beam[at]:.0f},{own.diffuse[at]:.0f},{own.temp_c[at]:.1f},-9900,"
            f"{own.humidity[at]:.0f},{own.pressure[at] / 100.0:.0f},{own.wind[at]:.1f}"
        )
    return tuple(rows)


CSV_HEAD = (
    "time,temperature [degC],humidity [%],sun [W/m2],beam [W/m2],diffuse [W/m2],wind [m/s],pressure [hPa]"
)


def table(
    change: Change = list,
    head: str = CSV_HEAD,
    year: int = 2019,
    mark: str = ",",
    stamp: Callable[[int], str] | None = None,
) -> str:
    """A plain csv of a year, stamped with the end of the hour unless `stamp` writes another; columns by the heading."""
    stamps = _ended(year) if stamp is None else map(stamp, range(HOURS))
    rows = [mark.join(row) for row in zip(stamps, *_columns(tuple(head.split(mark)[1:])), strict=True)]
    return "\n".join([head, *change(rows), ""])


@cache
def _columns(heads: tuple[str, ...]) -> list[list[str]]:
    own = MADE
    values = {"temperature": own.temp_c, "humidity": own.humidity, "sun": own.total, "beam": own.beam,
              "diffuse": own.diffuse, "wind": own.wind, "pressure": own.pressure / 100.0}  # fmt: skip
    return [[f"{value:g}" for value in values[head.split("[")[0].strip()].tolist()] for head in heads]


@cache
def _ended(year: int) -> list[str]:
    return list(map(ended(year), range(HOURS)))


def ended(year: int, minutes: int = 60) -> Callable[[int], str]:
    """Stamps `minutes` after each hour of a year of 365 days begins."""
    first = np.datetime64(f"{year}-01-01T00:00")
    return lambda at: str(first + np.timedelta64(60 * at + minutes, "m"))


def moments(minute: int, year: int = 2019) -> tuple[Array, list[str]]:
    """Seconds since 1970 and stamps as the service writes them, each hour of UTC of a year, so many minutes late."""
    first = np.datetime64(f"{year}-01-01T00:00") + np.timedelta64(minute, "m")
    when = first + np.arange(HOURS) * np.timedelta64(60, "m")
    stamps = [str(one).replace("-", "").replace("T", ":")[:11] + str(one)[14:16] for one in when]
    return when.astype("datetime64[s]").astype(float), stamps


def seen(seconds: Array) -> Array:
    """Sine of the sun's height as seen through the air, at moments."""
    sky = sky_at(seconds, LATITUDE, LONGITUDE, ELEVATION)
    return np.sin(np.radians(lifted(sky.height, 98900.0, 12.0)))


def clear(seconds: Array) -> Array:
    """Sun on level ground at moments: seven tenths of what reaches the top of the air."""
    height = seen(seconds)
    day = (seconds - seconds[0]) / 86400.0
    strength = 1361.0 * (1.0 + 0.0334 * np.cos(2.0 * np.pi * (day - 3.0) / 365.25))
    found: Array = np.maximum(0.7 * strength * height, 0.0)
    return found


def level_series(minute: int = 10) -> list[dict[str, object]]:
    """Rows of an hourly series of the service, half of the sun straight."""
    seconds, stamps = moments(minute)
    total = clear(seconds)
    temp_c = np.roll(MADE.temp_c, -1)
    return [
        {"time": stamp, "Gb(i)": round(0.5 * sun, 2), "Gd(i)": round(0.5 * sun, 2), "Gr(i)": 0.0, "H_sun": 0.0,
         "T2m": temp, "WS10m": 3.0, "Int": 0.0}
        for stamp, sun, temp in zip(stamps, total.tolist(), temp_c.tolist(), strict=True)
    ]  # fmt: skip


def typical_rows(minute: int = 10) -> list[dict[str, object]]:
    """Rows of a typical year of the service; the stamp is of the full hour, the sun `minute` later."""
    return [dict(row) for row in _typical(minute)]


@cache
def _typical(minute: int) -> list[dict[str, object]]:
    seconds, _ = moments(minute)
    _, stamps = moments(0)
    total = clear(seconds)
    height = seen(seconds)
    beam = np.where(height > 0.07, 0.5 * total / np.maximum(height, 0.07), 0.0)
    temp_c = np.roll(MADE.temp_c, -1)
    return [
        {"time(UTC)": stamps[at], "T2m": temp_c[at], "RH": 80.0, "G(h)": round(total[at], 2),
         "Gb(n)": round(beam[at], 2), "Gd(h)": round(0.5 * total[at], 2), "IR(h)": 300.0,
         "WS10m": 3.0, "WD10m": 180.0, "SP": 98900.0}
        for at in range(HOURS)
    ]  # fmt: skip


LOCATION = {"latitude": LATITUDE, "longitude": LONGITUDE, "elevation": ELEVATION}


def pvgis_json(rows: Sequence[dict[str, object]], slope: float = 0.0, offset: float = 10.0 / 60.0) -> str:
    """A json file of the service, typical or a series by what its rows are."""
    about = {"radiation_db": "PVGIS-SARAH3", "meteo_db": "ERA5", "year_min": 2019, "year_max": 2019}
    if "time(UTC)" in rows[0]:
        location = {**LOCATION, "irradiance_time_offset": offset}
        months = [{"month": month, "year": 2019} for month in range(1, 13)]
        outputs: dict[str, object] = {"months_selected": months, "tmy_hourly": list(rows)}
        inputs: dict[str, object] = {"location": location, "meteo_data": about}
    else:
        fixed = {"slope": {"value": slope, "optimal": False}, "azimuth": {"value": 0, "optimal": False}}
        inputs = {"location": LOCATION, "meteo_data": about, "mounting_system": {"fixed": fixed}}
        outputs = {"hourly": list(rows)}
    return json.dumps({"inputs": inputs, "outputs": outputs, "meta": {"inputs": {}, "outputs": {}}})


def pvgis_csv(rows: Sequence[dict[str, object]], slope: float = 0.0, offset: float = 10.0 / 60.0) -> str:
    """A csv file of the service, with its line ends."""
    heads = [
        "Latitude (decimal degrees): 50.000",
        "Longitude (decimal degrees): 15.000",
        "Elevation (m): 200.0",
    ]
    if "time(UTC)" in rows[0]:
        heads += [
            f"Irradiance Time Offset (h): {offset:.4f}",
            "month,year",
            *(f"{month},2019" for month in range(1, 13)),
        ]
    else:
        heads += ["Radiation database:\tPVGIS-SARAH3", "", "", f"Slope: {slope:g} deg. ", "Azimuth: 0 deg. "]
    lines = [",".join(rows[0]), *(",".join(str(value) for value in row.values()) for row in rows)]
    foot = ["", "T2m: 2-m air temperature (degree Celsius)", "", "PVGIS (c) European Union, 2001-2024", ""]
    return "\r\n".join([*heads, *lines, *foot])


def pvgis_epw(minute: int = 10) -> str:
    """The EPW of the service: hours of UTC under a heading that names another zone, as it was seen to write them."""
    rows = [
        f"2019,{_MONTH[at]},{_DAY[at]},{_HOUR[at] + 1},0,flags,{row['T2m']},99.9,{row['RH']},{row['SP']},9999,9999,"
        f"{row['IR(h)']},{row['G(h)']},{row['Gb(n)']},{row['Gd(h)']},999999,999999,999999,9999,180,{row['WS10m']},99"
        for at, row in enumerate(typical_rows(minute))
    ]
    heads = ["LOCATION,unknown,-,unknown,ECMWF/ERA,unknown,50.0,15.0,1,200", "DESIGN CONDITIONS,0",
             "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0", "HOLIDAYS/DAYLIGHT SAVING,No,0,0,0",
             "COMMENTS 1,made up", f"COMMENTS 2,Irradiance Time Offset (h):{minute / 60.0 - 1.0:.4f}",
             "DATA PERIODS,1,1,Data,Thursday, 1/ 1,12/31"]  # fmt: skip
    return "\n".join([*heads, *rows, ""])


def had(
    folder: Path, text: str | bytes, site: Site = SITE, monthly: Monthly | None = None
) -> Weather | NoWeather:
    """What comes of a text as the file of a plan."""
    file = folder / "hours.txt"
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return weather_of(site, Wanted(file.name, monthly=monthly or Monthly()), folder)


def weather(folder: Path, text: str | bytes, site: Site = SITE, monthly: Monthly | None = None) -> Weather:
    """The weather in a text, which must be sound."""
    found = had(folder, text, site, monthly)
    assert isinstance(found, Weather), found
    return found


def refusal(folder: Path, text: str | bytes, site: Site = SITE) -> str:
    """What is said of a text that cannot be used."""
    found = had(folder, text, site)
    assert isinstance(found, NoWeather), found.words
    assert found.tried
    return found.reason
