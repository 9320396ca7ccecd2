"""Files that the PVGIS service writes, json or csv: typical years, and series of hours on level ground.

A row is stamped in UTC with the hour that begins; its sun is that of a moment some minutes later, which the file
tells. Source: PVGIS user manual, European Commission, Joint Research Centre; files of 2013 to 2026 looked at.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from tidestead.core.dims import Array
from tidestead.intake.hours import Hours, Station, Whole, on_earth
from tidestead.intake.rows import Rows, no_weather_in

_TYPICAL = {
    "temp_c": ("T2m", 1.0),
    "humidity": ("RH", 0.01),
    "total": ("G(h)", 1.0),
    "beam": ("Gb(n)", 1.0),
    "diffuse": ("Gd(h)", 1.0),
    "sky": ("IR(h)", 1.0),
    "wind": ("WS10m", 1.0),
    "pressure": ("SP", 1.0),
}
_SERIES = {
    "temp_c": ("T2m", 1.0),
    "beam_level": ("Gb(i)", 1.0),
    "diffuse": ("Gd(i)", 1.0),
    "total": ("G(i)", 1.0),
    "wind": ("WS10m", 1.0),
}
_AGAIN = "Take it from the service anew."
_LEVEL = "Ask the service for slope 0 and a fixed mounting, with the parts of the radiation."
_STAMP = 13
_HEADING_LINES = 60
_FIRST_HOUR = re.compile(r"^time(\(UTC\))?,", re.IGNORECASE)


def read_pvgis_json(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a json file. Raises a WeatherError."""
    try:
        whole = json.loads("\n".join(lines))
    except (ValueError, RecursionError):
        raise no_weather_in(name, "This json file is cut off or damaged.", _AGAIN) from None
    try:
        location, outputs = whole["inputs"]["location"], whole["outputs"]
        typical = "tmy_hourly" in outputs
        rows = outputs["tmy_hourly" if typical else "hourly"]
        stamps = [str(row["time(UTC)" if typical else "time"]) for row in rows]
        late = float(location.get("irradiance_time_offset", 0.0)) if typical else None
        source = str(whole["inputs"].get("meteo_data", {}).get("radiation_db", ""))[:40]
        place = tuple(float(location[key]) for key in ("latitude", "longitude", "elevation"))
        if not typical and not _is_level(whole["inputs"].get("mounting_system", {})):
            raise no_weather_in(name, "This series is for a tilted or turning plane.", _LEVEL)
        fields = _fields_of(rows, _TYPICAL if typical else _SERIES)
    except (KeyError, TypeError, ValueError, AttributeError, IndexError, OverflowError):
        raise no_weather_in(name, "This json file is not laid out like one of PVGIS.", _AGAIN) from None
    _some(name, stamps)
    numbers = np.zeros(len(stamps), dtype=np.int64)
    return _hours(name, stamps, numbers, fields, _Told(place, source, typical, late))


def read_pvgis_csv(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a csv file. Raises a WeatherError."""
    heading = next((at for at, line in enumerate(lines[:_HEADING_LINES]) if _FIRST_HOUR.match(line)), None)
    if heading is None:
        raise no_weather_in(name, "This PVGIS file has no hours.", _AGAIN)
    told = dict(line.split(":", 1) for line in lines[:heading] if ":" in line)
    typical = lines[heading].lower().startswith("time(utc)")
    try:
        place = tuple(float(told[f"{key} (decimal degrees)"]) for key in ("Latitude", "Longitude"))
        place = (*place, float(told["Elevation (m)"]))
        late = float(told.get("Irradiance Time Offset (h)", "0")) if typical else None
        slope = float(told.get("Slope", "0").split("deg")[0])
    except (KeyError, ValueError):
        raise no_weather_in(
            name, "The heading does not hold latitude, longitude, elevation and slope.", _AGAIN
        ) from None
    if not typical and slope != 0.0:
        raise no_weather_in(name, "This series is for a tilted plane.", _LEVEL)
    names = [part.strip() for part in lines[heading].split(",")]
    last = next((at for at in range(heading + 1, len(lines)) if not lines[at].strip()), len(lines))
    numbers = np.arange(heading + 1, last, dtype=np.int64)
    rows = Rows(name, [line.split(",") for line in lines[heading + 1 : last]], numbers + 1)
    _some(name, rows.fields)
    wanted = _TYPICAL if typical else _SERIES
    fields = {
        key: rows.column(names.index(title), title) for key, (title, _) in wanted.items() if title in names
    }
    stamps = [row[0] for row in rows.fields]
    return _hours(
        name, stamps, rows.numbers, fields, _Told(place, told.get("Radiation database", ""), typical, late)
    )


class _Told:
    """What the heading says: the place, the database, whether the year is typical, how late its sun is."""

    def __init__(self, place: tuple[float, ...], source: str, typical: bool, late: float | None) -> None:
        self.place, self.source, self.typical, self.late = place, source.strip()[:40], typical, late


def _hours(
    name: str, stamps: Sequence[str], numbers: Whole, fields: Mapping[str, Array], told: _Told
) -> Hours:
    wanted = _TYPICAL if told.typical else _SERIES
    columns = {key: values * wanted[key][1] for key, values in fields.items()}
    if "temp_c" not in columns or not (columns.keys() & {"total", "diffuse"}):
        raise no_weather_in(name, "Temperature or sun is missing from this PVGIS file.", _AGAIN)
    latitude, longitude, elevation = told.place
    if not on_earth(latitude, longitude, elevation):
        raise no_weather_in(name, "The place in the heading is nowhere on earth.", _AGAIN)
    begins, minutes = moments(name, stamps, numbers)
    late = float(np.median(minutes)) / 60.0 if told.late is None else told.late
    if not 0.0 <= late <= 1.0:
        raise no_weather_in(name, "The sun's moment in the hour is not from 0 to 1 hour.", _AGAIN)
    station = Station("PVGIS", told.source, latitude, longitude, elevation, 0.0)
    return Hours(station, begins, numbers, columns, told.typical, late=late - 0.5, early=0.5)


def moments(name: str, stamps: Sequence[str], numbers: Whole) -> tuple[Whole, Whole]:
    """Hours since 1970 and minutes of stamps like 20160101:0010. Raises a WeatherError."""
    wrong = next((row for row, stamp in enumerate(stamps) if len(stamp) != _STAMP or stamp[8] != ":"), None)
    if wrong is not None:
        line = int(numbers[wrong]) or None
        raise no_weather_in(
            name,
            "is no stamp like 20160101:0010.",
            "Was the file cut off or edited?",
            line,
            f'"{stamps[wrong][:30]}"',
        )
    rows = Rows(name, stamps, numbers)
    dates = (
        rows.whole(slice(0, 4), "year"),
        rows.whole(slice(4, 6), "month"),
        rows.whole(slice(6, 8), "day"),
    )
    hour, minutes = rows.whole(slice(9, 11), "hour"), rows.whole(slice(11, 13), "minute")
    if bool(((hour < 0) | (hour > 23) | (minutes < 0) | (minutes > 59)).any()):
        raise no_weather_in(name, "A stamp has no such hour.", "Was the file edited?")
    return rows.hour_numbers(dates, hour), minutes


def _fields_of(
    rows: Sequence[Mapping[str, Any]], wanted: Mapping[str, tuple[str, float]]
) -> dict[str, Array]:
    """Columns of a list of records; a null is a missing value."""
    return {
        key: np.array([row[title] for row in rows], dtype=object).astype(float)
        for key, (title, _) in wanted.items()
        if rows and title in rows[0]
    }


def _is_level(mounting: Mapping[str, Any]) -> bool:
    """Whether the plane lies: a fixed mounting with slope 0."""
    fixed = mounting.get("fixed")
    return fixed is not None and float(fixed["slope"]["value"]) == 0.0


def _some(name: str, rows: Sequence[object]) -> None:
    if not rows:
        raise no_weather_in(name, "This PVGIS file has no hours.", _AGAIN)
