"""TMY3 and TMY2: typical years of the United States. A row is stamped with the hour that it ends.

Source: Wilcox and Marion (2008), Users Manual for TMY3 Data Sets, NREL/TP-581-43156; Marion and Urban (1995),
User's Manual for TMY2s, NREL/SP-463-7668.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence

import numpy as np

from tidestead.intake.hours import Hours, Station, Whole, on_earth
from tidestead.intake.rows import Rows, at_least, at_most, no_weather_in

_DATE, _TIME = "Date (MM/DD/YYYY)", "Time (HH:MM)"
_MARK = -9000.0
_TMY3 = {
    "temp_c": ("Dry-bulb (C)", "temperature", 1.0),
    "dew_c": ("Dew-point (C)", "dew point", 1.0),
    "humidity": ("RHum (%)", "relative humidity", 0.01),
    "pressure": ("Pressure (mbar)", "pressure", 100.0),
    "wind": ("Wspd (m/s)", "wind", 1.0),
    "total": ("GHI (W/m^2)", "sun on level ground", 1.0),
    "beam": ("DNI (W/m^2)", "direct sun", 1.0),
    "diffuse": ("DHI (W/m^2)", "diffuse sun", 1.0),
}
_TMY2 = {
    "temp_c": (slice(67, 71), "temperature", 9999.0, 0.1),
    "dew_c": (slice(73, 77), "dew point", 9999.0, 0.1),
    "humidity": (slice(79, 82), "relative humidity", 999.0, 0.01),
    "pressure": (slice(84, 88), "pressure", 9999.0, 100.0),
    "wind": (slice(95, 98), "wind", 999.0, 0.1),
    "total": (slice(17, 21), "sun on level ground", 9999.0, 1.0),
    "beam": (slice(23, 27), "direct sun", 9999.0, 1.0),
    "diffuse": (slice(29, 33), "diffuse sun", 9999.0, 1.0),
}
"""Columns of the line, in words, the mark of a missing value, and the size of the unit."""
TMY2_HEADING = re.compile(
    r"^\s?(?P<code>\d{5}) (?P<city>.{22}) (?P<state>.{2})\s+(?P<zone>-?\d{1,2})\s+(?P<north>[NS])\s*(?P<lat>\d{1,2})"
    r"\s+(?P<lat_min>\d{1,2})\s+(?P<east>[EW])\s*(?P<lon>\d{1,3})\s+(?P<lon_min>\d{1,2})\s+(?P<height>-?\d{1,4})\s*$"
)
_STAMP = re.compile(r"^\s*(\d{1,2})/(\d{1,2})/(\d{4})\s*$")
_CLOCK = re.compile(r"^\s*(\d{1,2}):(\d{2})\s*$")


def read_tmy3(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a TMY3 file. Raises a WeatherError."""
    places = {heading.strip(): at for at, heading in enumerate(_split(name, lines[1], 2))}
    wanted = [_DATE, _TIME, *(heading for heading, _, _ in _TMY3.values())]
    lost = [heading for heading in wanted if heading not in places]
    if lost:
        raise no_weather_in(
            name,
            f"The columns {', '.join(lost)} of a TMY3 file are missing.",
            "Take the file as published.",
            2,
        )
    numbers = np.array([at for at in range(2, len(lines)) if lines[at].strip()], dtype=np.int64)
    if not len(numbers):
        raise no_weather_in(name, "This TMY3 file ends with its heading.", "Take the whole file.", 2)
    most = max(places[heading] for heading in wanted) + 1
    rows = Rows(name, [lines[at].split(",", most) for at in numbers], numbers + 1)
    columns = {
        key: size * rows.column(places[heading], what, at_most(_MARK))
        for key, (heading, what, size) in _TMY3.items()
    }
    begins = _ends(rows, places) - 1
    return Hours(_station3(name, lines[0]), begins, rows.numbers, columns, typical=True)


def _ends(rows: Rows, places: dict[str, int]) -> Whole:
    """Hours since 1970 at which the rows end: 24:00 is midnight after the date, 00:00 that before it."""
    dates = np.empty((len(rows.fields), 4), dtype=np.int64)
    for row, fields in enumerate(rows.fields):
        date, clock = _STAMP.match(fields[places[_DATE]]), _CLOCK.match(fields[places[_TIME]])
        if date is None or clock is None or int(clock[1]) > 24:
            given = f"{fields[places[_DATE]][:20]},{fields[places[_TIME]][:20]}"
            raise no_weather_in(
                rows.name, "is no date and hour of a TMY3 file.", "Such as 01/31/1998,24:00.",
                int(rows.numbers[row]), f'"{given}"',
            )  # fmt: skip
        dates[row] = (int(date[3]), int(date[1]), int(date[2]), int(clock[1]))
    return rows.hour_numbers((dates[:, 0], dates[:, 1], dates[:, 2]), dates[:, 3])


def _station3(name: str, line: str) -> Station:
    parts = _split(name, line, 1)
    try:
        offset, latitude, longitude, elevation = (float(part) for part in parts[3:7])
    except ValueError:
        raise no_weather_in(
            name, "The first line does not hold time zone, latitude, longitude and elevation.",
            "Take the file as published.", 1,
        ) from None  # fmt: skip
    if not on_earth(latitude, longitude, elevation, offset):
        raise no_weather_in(
            name, "The place in the first line is nowhere on earth.", "Take it as published.", 1
        )
    return Station("TMY3", parts[1].strip().title()[:60], latitude, longitude, elevation, offset)


def _split(name: str, line: str, number: int) -> list[str]:
    """One line with its quotes undone."""
    try:
        return next(csv.reader([line], strict=False))
    except (csv.Error, StopIteration):
        raise no_weather_in(
            name, "This line cannot be read.", "Take the file as published.", number
        ) from None


def read_tmy2(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a TMY2 file, fixed columns. Raises a WeatherError."""
    told = TMY2_HEADING.match(lines[0])
    if told is None:
        raise no_weather_in(
            name, "The first line is not that of a TMY2 file.", "Take the file as published.", 1
        )
    numbers = np.array([at for at in range(1, len(lines)) if lines[at].strip()], dtype=np.int64)
    if not len(numbers):
        raise no_weather_in(name, "This TMY2 file ends with its heading.", "Take the whole file.", 1)
    rows = Rows(name, [lines[at] for at in numbers], numbers + 1)
    year = rows.whole(slice(1, 3), "year") + 1900
    dates = (year, rows.whole(slice(3, 5), "month"), rows.whole(slice(5, 7), "day"))
    hour = rows.whole(slice(7, 9), "hour")
    if bool(((hour < 1) | (hour > 24)).any()):
        raise no_weather_in(
            name, "A line has an hour that is not from 1 to 24.", "Take the file as published."
        )
    begins = rows.hour_numbers(dates, hour - 1)
    columns = {
        key: size * rows.column(at, what, at_least(mark)) for key, (at, what, mark, size) in _TMY2.items()
    }
    station = Station(
        "TMY2",
        told["city"].strip().title(),
        (float(told["lat"]) + float(told["lat_min"]) / 60.0) * (1.0 if told["north"] == "N" else -1.0),
        (float(told["lon"]) + float(told["lon_min"]) / 60.0) * (1.0 if told["east"] == "E" else -1.0),
        float(told["height"]),
        float(told["zone"]),
    )
    return Hours(station, begins, rows.numbers, columns, typical=True)
