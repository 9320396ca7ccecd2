"""The hours of a weather file as its reader hands them on: SI units, the file's own clock, nothing mended yet."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]

NAMES = ("temp_c", "humidity", "dew_c", "pressure", "wind", "total", "beam", "diffuse", "beam_level", "sky")
"""What a column may be: as in a year of weather, and the dew point in degC and direct sun on level ground in W/m2."""

SUN = ("total", "beam", "diffuse", "beam_level")
FIRST_YEAR, LAST_YEAR = 1850, 2150


@dataclass(frozen=True)
class Station:
    """Whom a file speaks of. What it does not say is None; `utc_offset` is that of its stamps, in hours."""

    kind: str
    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    elevation: float | None = None
    utc_offset: float | None = None


def on_earth(latitude: float, longitude: float, elevation: float, utc_offset: float = 0.0) -> bool:
    """Whether a place that a heading gives can be one: degrees, metres, hours."""
    return (
        abs(latitude) <= 90.0
        and abs(longitude) <= 180.0
        and abs(elevation) < 9000.0
        and abs(utc_offset) <= 14.0
    )


@dataclass(frozen=True, eq=False)
class Hours:
    """One row for each stamp, in the order of the file.

    `begins` are the hours since 1970 at which the row's hour begins, by the file's clock; `lines` where the row
    stands in the file, from 1. A value that the file marks as missing is not a number. `typical` is None where the
    file does not say whether its months come from different years. `step` is the time between rows in hours.

    `late` says by how much the sun of a row is later than the middle of its hour, hours; `early` by how much its
    other values are earlier than that: half an hour where they are of the moment at which the hour begins.
    """

    station: Station
    begins: Whole
    lines: Whole
    columns: dict[str, Array]
    typical: bool | None = None
    step: float = 1.0
    late: float = 0.0
    early: float = 0.0
    notes: tuple[str, ...] = field(default=())


def hour_number(year: Whole, month: Whole, day: Whole, hour: Whole) -> Whole:
    """Hours since 1970 of the beginning of hour 0 to 23 of a day. The date must exist."""
    months = (year - 1970).astype("datetime64[Y]").astype("datetime64[M]") + (month - 1)
    days = months.astype("datetime64[D]") + (day - 1)
    number: Whole = days.astype(np.int64) * 24 + hour
    return number


def no_dates(year: Whole, month: Whole, day: Whole) -> Flags:
    """Where year, month and day are no date."""
    wrong: Flags = (year < FIRST_YEAR) | (year > LAST_YEAR) | (month < 1) | (month > 12) | (day < 1)
    safe_year, safe_month = np.where(wrong, 2000, year), np.where(wrong, 1, month)
    months = (safe_year - 1970).astype("datetime64[Y]").astype("datetime64[M]") + (safe_month - 1)
    length = ((months + 1).astype("datetime64[D]") - months.astype("datetime64[D]")).astype(np.int64)
    found: Flags = wrong | (day > length)
    return found
