"""The years that a study tries: real ones where there are enough, else years made from monthly means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, overload

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import Weather, WeatherYear
from tidestead.physics.flow.suction import air_pressure

if TYPE_CHECKING:
    from tidestead.physics.climate.years import Climate

SEED = 58
"""Of made years: the same in every study, so that light and heat speak of the same years."""

ENOUGH = 5
"""Real years from which on nothing is made."""

USUAL = 20
"""Years that are made where the plan says no number."""


class MadeYears(Sequence[WeatherYear]):
    """Years made from monthly means, each when it is asked for, so that a thousand of them take no more room than one.

    Which year stands at a number hangs on the seed and the number alone.
    """

    def __init__(self, climate: Climate, numbers: range) -> None:
        self._climate, self._numbers = climate, numbers

    def __len__(self) -> int:
        return len(self._numbers)

    @overload
    def __getitem__(self, at: int) -> WeatherYear: ...

    @overload
    def __getitem__(self, at: slice) -> MadeYears: ...

    def __getitem__(self, at: int | slice) -> WeatherYear | MadeYears:
        from tidestead.physics.climate.years import year_of  # noqa: PLC0415 - brings the compiler

        if isinstance(at, slice):
            return MadeYears(self._climate, self._numbers[at])
        return year_of(self._climate, SEED, self._numbers[at])


@dataclass(frozen=True, eq=False)
class Ensemble:
    """Years that are tried. `words` say what they are; `made` that they come from monthly means."""

    years: Sequence[WeatherYear]
    made: bool
    words: str


def ensemble_of(weather: Weather, count: int | None) -> Ensemble | None:
    """The years to try; None where there is neither a real year nor a monthly mean."""
    if len(weather.years) >= ENOUGH:
        years = weather.years if count is None else weather.years[:count]
        return Ensemble(years, False, "one real year" if len(years) == 1 else f"{len(years)} real years")
    if weather.normals is None:
        return None
    from tidestead.physics.climate.years import climate_of  # noqa: PLC0415 - brings the compiler

    number = count or USUAL
    words = "one year" if number == 1 else f"{number} years"
    climate = climate_of(weather.normals, weather.sun, float(air_pressure(weather.elevation)))
    return Ensemble(MadeYears(climate, range(number)), True, f"{words} made from monthly means")


def tenths(values: Array) -> tuple[Array, Array, Array]:
    """P10, median and P90 along the first axis: that of the years."""
    low, middle, high = np.quantile(values, (0.1, 0.5, 0.9), axis=0)
    return low, middle, high
