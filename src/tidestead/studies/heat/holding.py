"""What surrounds the water when something has stopped: heat and vapour as straight lines of its own temperature.

The year of heat is run twice from one moment, once with the water a few kelvin colder; the two runs give, hour by hour,
what the surroundings give to the water and how that hangs on how warm it is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, WeatherYear
from tidestead.physics.heat import engine
from tidestead.physics.heat.engine import HeatYear, Prepared
from tidestead.studies.heat import cases
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.facts import Holding
from tidestead.studies.heat.running import on_all_cores

DAYS = 10
LONG_DAYS = 40
"""Days followed with something stopped, and where the power is there and no cover is tried: what goes on for weeks."""
COVERED = 0.9
_COLDER = -3.0
_LEAST = 0.3
"""Share of the display under the cover that is tried; kelvin between the two runs, and the least of them left at which
the difference still says something. Own choices."""


@dataclass(frozen=True)
class _Season:
    """Its name, its weather, and the hour of the year at which things stop."""

    name: str
    weather: WeatherYear
    first: int


@dataclass(frozen=True)
class _Wanted:
    """One run to make: in which season, with what turned."""

    season: _Season
    power: bool
    covered: bool

    @property
    def hours(self) -> int:
        """That it is followed."""
        return 24 * (LONG_DAYS if self.power and not self.covered else DAYS)


def holdings_of(bench: cases.Bench, cold: WeatherYear, hot: WeatherYear) -> tuple[Holding, ...]:
    """Ten days, or forty, from the coldest hour of the cold spell and from the warmest days on, with power and without,
    with the plan's covers and with one laid on.
    """
    seasons = (_Season("winter", cold, _first(cold, -1.0)), _Season("summer", hot, _first(hot, 1.0)))
    starts = on_all_cores([partial(_start, bench, one) for one in seasons])
    tried = [
        partial(_held, bench, _Wanted(season, power, covered), start)
        for season, start in zip(seasons, starts, strict=True)
        for power in (False, True)
        for covered in (False, True)
    ]
    return tuple(on_all_cores(tried))


def _first(weather: WeatherYear, sign: float) -> int:
    """Where the coldest or the warmest three days on end begin; at the sixth hour after noon, when nobody looks."""
    means = sign * weather.temp_c.reshape(-1, 24).mean(axis=1)
    sums = np.convolve(np.concatenate([means, means[:3]]), np.ones(3), "valid")[: len(means)]
    return 24 * int(np.argmax(sums)) + _EVENING


_EVENING = 18
"""Hour of the day at which things stop: the night lies before. Own choice."""


def _start(bench: cases.Bench, season: _Season) -> HeatYear:
    """The days before, as usual, after which water and walls forget how they began."""
    before, prepared = 24 * engine.WARM_UP, bench.prepared()
    begin = engine.begin(prepared, bench.temps(prepared), bench.wanted_c - 4.0)
    return engine.run(prepared, prepared.rows(season.weather), begin, before, (season.first - before) % HOURS)


def _held(bench: cases.Bench, wanted: _Wanted, start: HeatYear) -> Holding:
    """Water, walls and air go on from the start with other machines."""
    other, first, hours = bench.prepared(_dials(wanted)), wanted.season.first, wanted.hours
    if not wanted.power:
        other = Prepared(other.system, other.tables, other.place._replace(power=np.zeros(HOURS)))
    rows, stores = other.rows(wanted.season.weather), np.array([body.stores for body in other.system.bodies])
    state = start.end._replace(heatings=other.tables.heatings, bodies=other.tables.bodies)
    kept = engine.run(other, rows, state, hours, first)
    less = engine.run(other, rows, engine.shifted(state, _COLDER), hours, first)
    return _lines(wanted, (kept, less), stores, _mean(start.water_c[:, -1:], stores)[0])


def _dials(wanted: _Wanted) -> Dials:
    base = replace(AS_PLANNED, heaters=0.0, chiller=False)
    return replace(base, cover=COVERED) if wanted.covered else base


def _mean(water: Array, stores: Array) -> Array:
    """Mean of all bodies, by what each stores."""
    mean: Array = stores @ water / stores.sum()
    return mean


def _lines(wanted: _Wanted, runs: tuple[HeatYear, HeatYear], stores: Array, first: float) -> Holding:
    """Two runs as straight lines: watts and vapour at any temperature of the water."""
    (kept, less), season = runs, wanted.season
    temps = [np.concatenate([[first + shift], _mean(run.water_c, stores)])
             for run, shift in ((kept, 0.0), (less, _COLDER))]  # fmt: skip
    middles = [(one[1:] + one[:-1]) / 2.0 for one in temps]
    watts = [run["w_stored"] / 3600.0 for run in runs]
    vapour = [run["evaporated"] / 3600.0 for run in runs]
    apart = middles[0] - middles[1]
    loss = np.maximum(_slope(-(watts[0] - watts[1]), apart), 0.0)
    warm = np.maximum(_slope(vapour[0] - vapour[1], apart), 0.0)
    outdoors = np.take(season.weather.temp_c, range(season.first, season.first + len(apart)), mode="wrap")
    return Holding(
        season.name,
        wanted.power,
        wanted.covered,
        first,
        float(season.first % 24),
        tuple(map(float, watts[0] + loss * middles[0])),
        tuple(map(float, loss)),
        tuple(map(float, vapour[0] - warm * middles[0])),
        tuple(map(float, warm)),
        float(stores.sum()),
        tuple(map(float, temps[0])),
        float(outdoors[:72].mean()),
    )


def _slope(change: Array, apart: Array) -> Array:
    """Change for each kelvin; where the two runs have come too close, as it was before."""
    good = apart > _LEAST
    if not good.any():
        return np.zeros_like(apart)
    slope = np.where(good, change / np.where(good, apart, 1.0), np.nan)
    last = np.nanmean(slope)
    filled = np.where(np.isnan(slope), last, slope)
    return _smooth(filled)


def _smooth(values: Array) -> Array:
    """Means of a day round each hour: what hangs on the temperature changes slowly, its noise does not."""
    width = min(25, len(values) - (1 - len(values) % 2))
    padded = np.pad(values, width // 2, mode="edge")
    return np.convolve(padded, np.ones(width) / width, "valid")
