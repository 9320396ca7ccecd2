"""The years that a study tries: real ones where there are enough, else years made from monthly means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, overload

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
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
    """Years of a file, then years made from monthly means, each when it is asked for: a thousand take the room of one.

    Which year is made hangs on the seed and its number alone. `items` are years, or numbers of years to make.
    """

    def __init__(self, climate: Climate, items: Sequence[WeatherYear | int]) -> None:
        self._climate, self._items = climate, items

    def __len__(self) -> int:
        return len(self._items)

    @overload
    def __getitem__(self, at: int) -> WeatherYear: ...

    @overload
    def __getitem__(self, at: slice) -> MadeYears: ...

    def __getitem__(self, at: int | slice) -> WeatherYear | MadeYears:
        from tidestead.physics.climate.years import year_of  # noqa: PLC0415 - brings the compiler

        if isinstance(at, slice):
            return MadeYears(self._climate, self._items[at])
        item = self._items[at]
        return year_of(self._climate, SEED, item) if isinstance(item, int) else item


@dataclass(frozen=True, eq=False)
class Ensemble:
    """Years that are tried. `words` say what they are; `made` that they come from monthly means."""

    years: Sequence[WeatherYear]
    made: bool
    words: str


def ensemble_of(weather: Weather, count: int | None) -> Ensemble | None:
    """The years to try; None where there is neither a year nor a monthly mean.

    Real years where there are enough; else those there are, and the rest made from their means. Raises ImpossibleInput
    where there is no year and the means are such that no year can be made.
    """
    wanted = count or USUAL
    if len(weather.years) >= ENOUGH:
        years = weather.years if count is None else weather.years[:count]
        return Ensemble(years, False, _counted(len(years), "real "))
    if weather.normals is None or wanted <= len(weather.years):
        years = weather.years[:wanted]
        return Ensemble(years, False, _of_file(weather, len(years))) if years else None
    from tidestead.physics.climate.years import climate_of  # noqa: PLC0415 - brings the compiler

    try:
        climate = climate_of(weather.normals, weather.sun, float(air_pressure(weather.elevation)))
    except ImpossibleInput:
        if not weather.years:
            raise
        return Ensemble(weather.years, False, _of_file(weather, len(weather.years)))
    number = wanted - len(weather.years)
    words = f"{_counted(number)} made from monthly means"
    if weather.years:
        words = f"{_of_file(weather, len(weather.years))} and {words}"
    return Ensemble(MadeYears(climate, (*weather.years, *range(number))), True, words)


def _counted(number: int, kind: str = "") -> str:
    return f"one {kind}year" if number == 1 else f"{number} {kind}years"


def _of_file(weather: Weather, number: int) -> str:
    kind = "typical " if weather.typical else "real "
    return f"{_counted(number, kind)} of weather"


def tenths(values: Array) -> tuple[Array, Array, Array]:
    """P10, median and P90 along the first axis: that of the years."""
    low, middle, high = np.quantile(values, (0.1, 0.5, 0.9), axis=0)
    return low, middle, high
