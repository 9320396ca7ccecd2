"""Years fetched once are kept beside the plan, packed, with place, period, database and date in the heading.

One row for each hour of UTC from the first to the last, nothing between the rows; what is not known is nan.
"""

from __future__ import annotations

import gzip
import os
import re
import secrets
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from tidestead.core.dims import Array, Degree, Hour, Metre
from tidestead.core.errors import WeatherError
from tidestead.intake.air import humidity_at
from tidestead.intake.files import lines_of, read_beside
from tidestead.intake.hours import Hours, Station, hour_number
from tidestead.intake.rows import no_weather_in

LAYOUT = "tidestead weather 1"
_COLUMNS = ("beam_level", "diffuse", "temp_c", "wind")
_HEADS = "beam on level ground [W/m2],diffuse [W/m2],temperature [degC],wind [m/s]"
_SAME_PLACE = 0.01
"""Degrees, about a kilometre: a site that was moved further is fetched anew."""
_MOST = 62 * 8784
_NAME = re.compile(r"[^A-Za-z0-9._ -]+")
_AGAIN = "Delete it to have it fetched anew."


@dataclass(frozen=True, eq=False)
class Fetched:
    """Hours of real years, and what a typical year of the same place adds.

    `columns` are W/m2, W/m2, degC, m/s by hour of UTC; the hour of a row begins at its number after `begins`, hours
    since 1970. `late` as in `Hours`. `depression` is by how much the dew point lies under the temperature, K, by month
    and hour of UTC; `pressure` the air's by month, Pa. `date` is the day of fetching.
    """

    latitude: Degree
    longitude: Degree
    elevation: Metre
    database: str
    date: str
    begins: int
    late: Hour
    columns: dict[str, Array]
    depression: Array
    pressure: Array


def kept_name(stem: str, years: tuple[int, int]) -> str:
    """The file that holds fetched years of a plan."""
    return f"{stem}.pvgis-{years[0]}-{years[1]}.csv.gz"


def keep(folder: Path, name: str, fetched: Fetched) -> None:
    """Write it under a name of its own first, onto the disk, and only then where it belongs. Raises OSError."""
    part = folder / f".{secrets.token_hex(6)}.part"
    try:
        with part.open("wb") as target:
            target.write(gzip.compress(_text(fetched).encode("ascii", "replace"), 6, mtime=0))
            target.flush()
            os.fsync(target.fileno())
        os.replace(part, folder / name)
    except OSError:
        with suppress(OSError):  # the fault that is raised next says more than that the remnant stays
            part.unlink(missing_ok=True)
        raise


def read_kept(folder: Path, name: str) -> Fetched:
    """What was kept. Raises a WeatherError where there is nothing, or where it is damaged."""
    lines = lines_of(name, read_beside(folder, name))
    heads = [line for line in lines[:80] if line.startswith("#")]
    told = dict(line[1:].strip().split(": ", 1) for line in heads if ": " in line)
    if told.get("layout") != LAYOUT:
        raise _damaged(name)
    try:
        number = int(told["hours"])
        depression = np.array([_numbers(told[f"dew point under temperature, month {month + 1}"], 24)
                               for month in range(12)])  # fmt: skip
        table = _numbers("\n".join(lines[len(heads) + 1 :]), number * len(_COLUMNS)).reshape(
            number, len(_COLUMNS)
        )
        fetched = Fetched(
            float(told["latitude"]), float(told["longitude"]), float(told["elevation"]),
            _NAME.sub("", told["database"])[:40], _NAME.sub("", told["fetched"])[:20], int(told["first hour"]),
            float(told["sun later than mid-hour"]), dict(zip(_COLUMNS, table.T, strict=True)), depression,
            _numbers(told["air pressure"], 12),
        )  # fmt: skip
    except (KeyError, ValueError, OverflowError):
        raise _damaged(name) from None
    numbers = (fetched.latitude, fetched.longitude, fetched.elevation, fetched.late, *depression.flat)
    if not (
        0 < number < _MOST and np.isfinite([*numbers, *fetched.pressure]).all() and abs(fetched.late) <= 1.0
    ):
        raise _damaged(name)
    return fetched


def _damaged(name: str) -> WeatherError:
    return no_weather_in(name, "This file of fetched weather is damaged.", _AGAIN)


def same_place(fetched: Fetched, latitude: Degree, longitude: Degree) -> bool:
    """Whether what was fetched is of this place still."""
    return abs(fetched.latitude - latitude) < _SAME_PLACE and abs(fetched.longitude - longitude) < _SAME_PLACE


def hours_of_fetched(fetched: Fetched) -> Hours:
    """The hours for the same mill as those of a file."""
    number = len(fetched.columns["temp_c"])
    begins = fetched.begins + np.arange(number, dtype=np.int64)
    months = begins.astype("datetime64[h]").astype("datetime64[M]").astype(np.int64) % 12
    temp_c = fetched.columns["temp_c"]
    dew_c = temp_c - np.maximum(fetched.depression[months, begins % 24], 0.0)
    columns = {
        **fetched.columns,
        "humidity": humidity_at(temp_c, dew_c),
        "pressure": fetched.pressure[months],
    }
    station = Station("PVGIS", fetched.database, fetched.latitude, fetched.longitude, fetched.elevation, 0.0)
    lines = np.zeros(number, dtype=np.int64)
    return Hours(station, begins, lines, columns, False, late=fetched.late, early=0.5)


def first_hour_of(year: int) -> int:
    """Hours since 1970 at which a year of UTC begins."""
    one = np.ones(1, dtype=np.int64)
    return int(hour_number(one * year, one, one, one - 1)[0])


def _text(fetched: Fetched) -> str:
    table = np.column_stack([fetched.columns[key] for key in _COLUMNS])
    heads = [
        f"layout: {LAYOUT}",
        "source: PVGIS, European Commission, Joint Research Centre; hours of UTC",
        f"fetched: {fetched.date}",
        f"database: {fetched.database}",
        f"latitude: {fetched.latitude!r}",
        f"longitude: {fetched.longitude!r}",
        f"elevation: {fetched.elevation!r}",
        f"first hour: {fetched.begins}",
        f"hours: {len(table)}",
        f"sun later than mid-hour: {fetched.late!r}",
        f"air pressure: {_row(fetched.pressure)}",
        *(
            f"dew point under temperature, month {month + 1}: {_row(fetched.depression[month])}"
            for month in range(12)
        ),
    ]
    rows = "\n".join(",".join(f"{value:.6g}" for value in row) for row in table.tolist())
    return "\n".join([*(f"# {head}" for head in heads), _HEADS, rows, ""])


def _row(values: Array) -> str:
    return ",".join(f"{value:.6g}" for value in values.tolist())


def _numbers(text: str, count: int) -> Array:
    """So many numbers parted by commas or line ends. Raises ValueError."""
    values = np.array(text.replace(",", " ").split(), dtype=float)
    if len(values) != count:
        raise ValueError(f"{len(values)} numbers in place of {count}")
    return values
