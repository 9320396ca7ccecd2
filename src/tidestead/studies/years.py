"""The years that a study tries: real ones where there are enough, else years made from monthly means."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import Weather, WeatherYear
from tidestead.physics.flow.suction import air_pressure

SEED = 58
"""Of made years: the same in every study, so that light and heat speak of the same years."""

ENOUGH = 5
"""Real years from which on nothing is made."""

USUAL = 20
"""Years that are made where the plan says no number."""


@dataclass(frozen=True, eq=False)
class Ensemble:
    """Years that are tried. `words` say what they are; `made` that they come from monthly means."""

    years: tuple[WeatherYear, ...]
    made: bool
    words: str


def ensemble_of(weather: Weather, count: int | None) -> Ensemble | None:
    """The years to try; None where there is neither a real year nor a monthly mean."""
    if len(weather.years) >= ENOUGH:
        years = weather.years if count is None else weather.years[:count]
        return Ensemble(years, False, f"{len(years)} real years")
    if weather.normals is None:
        return None
    from tidestead.physics.climate.years import climate_of, year_of  # noqa: PLC0415 - brings the compiler

    number = count or USUAL
    climate = climate_of(weather.normals, weather.sun, float(air_pressure(weather.elevation)))
    years = tuple(year_of(climate, SEED, at) for at in range(number))
    return Ensemble(years, True, f"{number} years made from monthly means")


def tenths(values: Array) -> tuple[Array, Array, Array]:
    """P10, median and P90 along the first axis: that of the years."""
    low, middle, high = np.quantile(values, (0.1, 0.5, 0.9), axis=0)
    return low, middle, high
