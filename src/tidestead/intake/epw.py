"""EPW: the weather file of building simulation. A row is stamped with the hour that it ends, 1 to 24.

Source: Crawley, Hand and Lawrie (1999), Improving the weather information available to simulation programs; the
layout as the Auxiliary Programs document of EnergyPlus gives it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from tidestead.intake.hours import Hours, Station, on_earth
from tidestead.intake.rows import Rows, at_least, no_weather_in

_HEADS = 40
"""Lines in which the heading must end."""
_TYPICAL = re.compile(r"TMY|TRY|IWEC|WYEC|CWEC|RMY|CTZ|typical", re.IGNORECASE)
_SHIFTED = re.compile(r"Irradiance Time Offset \(h\):\s*(-?[0-9.]{1,8})", re.IGNORECASE)
"""What the PVGIS service writes into a comment; the rows of such a file are hours of UTC, whatever its heading says."""
_SHORT = {"AP", "AF", "AFB", "AAF", "RAF", "NAS", "CGS", "I", "II", "III"}
_LAST = 21
_COLUMNS = {
    "temp_c": (6, "temperature", 99.9, 1.0),
    "dew_c": (7, "dew point", 99.9, 1.0),
    "humidity": (8, "relative humidity", 999.0, 0.01),
    "pressure": (9, "pressure", 999999.0, 1.0),
    "sky": (12, "longwave from the sky", 9999.0, 1.0),
    "total": (13, "sun on level ground", 9999.0, 1.0),
    "beam": (14, "direct sun", 9999.0, 1.0),
    "diffuse": (15, "diffuse sun", 9999.0, 1.0),
    "wind": (21, "wind", 999.0, 1.0),
}
"""Place in the row, in words, the mark of a missing value, and the size of the unit."""


def read_epw(name: str, lines: Sequence[str]) -> Hours:
    """The hours of an EPW file. Raises a WeatherError."""
    first = _first_row(name, lines)
    heading = "\n".join(lines[:first])
    numbers = np.array([at for at in range(first, len(lines)) if lines[at].strip()], dtype=np.int64)
    if not len(numbers):
        raise no_weather_in(name, "This EPW file ends with its heading.", "Take the whole file.", len(lines))
    rows = Rows(name, [lines[at].split(",", _LAST + 1) for at in numbers], numbers + 1)
    dates = (rows.whole(0, "year"), rows.whole(1, "month"), rows.whole(2, "day"))
    hour = rows.whole(3, "hour")
    wrong = (hour < 1) | (hour > 24)
    if bool(wrong.any()):
        at = int(np.flatnonzero(wrong)[0])
        raise no_weather_in(
            name,
            "is no hour of an EPW file.",
            "Hours go from 1 to 24.",
            int(numbers[at]) + 1,
            f'"{hour[at]}"',
        )
    begins = rows.hour_numbers(dates, hour - 1)
    columns = {
        key: size * rows.column(at, what, at_least(mark)) for key, (at, what, mark, size) in _COLUMNS.items()
    }
    found = Hours(_station(name, lines[0]), begins, rows.numbers, columns, _typical(heading))
    found = replace(found, step=_step(lines[first - 1]))
    return _of_pvgis(found, heading)


def _first_row(name: str, lines: Sequence[str]) -> int:
    """Where the hours begin: after the line of data periods, or at the first line that begins with a number."""
    for at, line in enumerate(lines[:_HEADS]):
        if line.upper().startswith("DATA PERIODS"):
            return at + 1
    for at, line in enumerate(lines[1:_HEADS], start=1):
        if line[:1].isdigit():
            return at
    raise no_weather_in(name, "This EPW file has no hours after its heading.", "Take the whole file.")


def _station(name: str, line: str) -> Station:
    parts = [part.strip() for part in line.split(",")]
    try:
        latitude, longitude, offset, elevation = (float(part) for part in parts[6:10])
    except ValueError:
        raise no_weather_in(
            name, "The first line does not end with latitude, longitude, time zone and elevation.",
            "Take the file as it was published.", 1,
        ) from None  # fmt: skip
    if not on_earth(latitude, longitude, elevation, offset):
        raise no_weather_in(
            name, "The place in the first line is nowhere on earth.", "Take the file as it was published.", 1
        )
    place = "" if parts[1] == "unknown" else _in_small_letters(parts[1])
    return Station("EPW", place[:60], latitude, longitude, elevation, offset)


def _in_small_letters(name: str) -> str:
    """A name that is written in capitals, with its short forms left as they are: "Denver Intl AP"."""
    if not name.isupper():
        return name
    return " ".join(word if word in _SHORT else word.capitalize() for word in name.split())


def _typical(heading: str) -> bool | None:
    """Whether the heading says that months of several years stand side by side."""
    lines = heading.split("\n")
    said = lines[0].split(",")[4:5] + [line for line in lines if line.upper().startswith("COMMENTS")]
    return True if any(_TYPICAL.search(words) for words in said) else None


def _step(periods: str) -> float:
    """Time between rows, from the rows in an hour that the line of data periods tells."""
    told = periods.split(",")
    count = told[2].strip() if len(told) > 2 else ""
    return 1.0 / int(count) if count.isdecimal() and 1 <= int(count) <= 60 and len(count) < 3 else 1.0


def _of_pvgis(found: Hours, heading: str) -> Hours:
    shifted = _SHIFTED.search(heading)
    if shifted is None:
        return found
    try:
        late = 1.0 + float(shifted[1]) - 0.5
    except ValueError:
        return found
    if abs(late) > 1.0:
        return found
    station = replace(found.station, utc_offset=0.0, kind="EPW of PVGIS")
    return replace(found, station=station, late=late, early=0.5, typical=True)
