"""Weather as studies take it: hours of one or more years at a place, the sun's path there, and where it came from.

A year has 8,760 hours in local standard time. Hour 0 is the one that ends at 01:00 on 1 January; every value is that
of the hour as a whole. Rooms that read files, fetch or make weather fill these records; laws of nature take the arrays.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from typing import Literal, TypeAlias

import numpy as np

from tidestead.core import months
from tidestead.core.dims import Array
from tidestead.core.source import COMPUTED, Source

HOURS = 8760
"""Hours of a year; the 29th of February is left out."""

MONTHS, MONTH_DAYS = months.MONTHS, months.MONTH_DAYS

MONTH_OF_HOUR = np.repeat(np.arange(12), [24 * days for days in MONTH_DAYS])
"""For each hour of the year its month, from 0."""

Origin: TypeAlias = Literal["file", "fetched", "normals"]


@dataclass(frozen=True, eq=False)
class WeatherYear:
    """One year of hours. Arrays of shape (8760,), read-only.

    `temp_c` in degC, `humidity` relative over water, 0 to 1, `pressure` in Pa, `wind` in m/s at 10 m. `beam` is direct
    sun on a plane that faces it, `diffuse` and `total` fall on level ground, all W/m2. `sky` is longwave from above
    in W/m2, not a number where nobody measured it.
    """

    label: str
    temp_c: Array
    humidity: Array
    pressure: Array
    wind: Array
    beam: Array
    diffuse: Array
    total: Array
    sky: Array

    @property
    def columns(self) -> tuple[Array, ...]:
        """All eight, in the order above."""
        return tuple(getattr(self, one.name) for one in fields(self) if one.name != "label")


@dataclass(frozen=True, eq=False)
class SunPath:
    """Where the sun stands in the middle of the sunlit part of every hour of a year of 365 days; shape (8760,).

    `zenith_rad` from straight up, without refraction below the horizon; `azimuth_rad` from north through east.
    `up` is the share of the hour during which the sun's middle is above the horizon. `top` is the sun's strength
    outside the air on level ground, mean of the hour, W/m2.
    """

    zenith_rad: Array
    azimuth_rad: Array
    up: Array
    top: Array


@dataclass(frozen=True)
class Normals:
    """Twelve monthly means: `temp_c` in degC, `sun` on level ground in W/m2, mean of day and night, relative `humidity`
    0 to 1, `wind` in m/s at 10 m.

    `swing` is the mean difference of the warmest and the coldest hour of a day, K; None where nobody said.
    """

    temp_c: tuple[float, ...]
    sun: tuple[float, ...]
    humidity: tuple[float, ...]
    wind: tuple[float, ...]
    swing: tuple[float, ...] | None = None


@dataclass(frozen=True)
class Spell:
    """A cold spell or a heat wave that is added to the weather: days, and the mean temperature of them, degC."""

    days: float
    mean_c: float
    told: str = ""


@dataclass(frozen=True, eq=False)
class Weather:
    """The weather of a plan. `years` are real or typical years (none where only normals are known).

    `normals` are those of the plan, or of its years. `typical` says that the one year is patched from typical months.
    `origin` and `words` say where it comes from, `notes` what was mended or is odd, in whole sentences, `tried`
    sources that come first but could not be used, and why.
    """

    latitude: float
    longitude: float
    elevation: float
    utc_offset: float
    years: tuple[WeatherYear, ...]
    normals: Normals | None
    sun: SunPath
    origin: Origin
    words: str
    source: Source = COMPUTED
    typical: bool = False
    notes: tuple[str, ...] = field(default=())
    tried: tuple[str, ...] = field(default=())
