"""What surrounds the water when something has stopped: heat and vapour as straight lines of its own temperature.

The year of heat is run twice from one moment, once with the water a few kelvin colder; the two runs give, hour by hour,
what the surroundings give to the water and how that hangs on how warm it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, WeatherYear
from tidestead.physics.heat import engine
from tidestead.physics.heat._tables import Tables
from tidestead.physics.heat.engine import HeatYear, Prepared
from tidestead.studies.heat import cases
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.facts import Holding
from tidestead.studies.heat.running import on_all_cores

DAYS = 10
COVERED = 0.9
_COLDER = -3.0
_LEAST = 0.3
"""Days followed; share of the display under the cover that is tried; kelvin between the two runs, and the least of
them left at which the difference still says something. Own choices."""


@dataclass(frozen=True)
class _Wanted:
    """One run to make: under which name, in which weather from which hour, with what turned."""

    season: str
    power: bool
    covered: bool
    weather: WeatherYear
    first: int


def holdings_of(bench: cases.Bench, cold: WeatherYear, hot: WeatherYear) -> tuple[Holding, ...]:
    """Ten days from the coldest hour of the cold spell and from the warmest days on, with power and without, with the
    plan's covers and with one laid on.
    """
    tried = list(_wanted(cold, hot))
    return tuple(on_all_cores([partial(_held, bench, one) for one in tried]))


def _wanted(cold: WeatherYear, hot: WeatherYear) -> Iterator[_Wanted]:
    for season, weather, sign in (("winter", cold, -1.0), ("summer", hot, 1.0)):
        first = _first(weather, sign)
        for power in (False, True):
            for covered in (False, True):
                yield _Wanted(season, power, covered, weather, first)


def _first(weather: WeatherYear, sign: float) -> int:
    """Where the coldest or the warmest three days on end begin; at the sixth hour after noon, when nobody looks."""
    means = sign * weather.temp_c.reshape(-1, 24).mean(axis=1)
    sums = np.convolve(np.concatenate([means, means[:3]]), np.ones(3), "valid")[: len(means)]
    return 24 * int(np.argmax(sums)) + _EVENING


_EVENING = 18
"""Hour of the day at which things stop: the night lies before. Own choice."""


def _held(bench: cases.Bench, wanted: _Wanted) -> Holding:
    before, hours = 24 * engine.WARM_UP, 24 * DAYS
    prepared = bench.prepared()
    rows = prepared.rows(wanted.weather)
    begin = engine.begin(prepared, bench.temps(prepared), bench.wanted_c - 4.0)
    start = engine.run(prepared, rows, begin, before, (wanted.first - before) % HOURS)
    other = bench.prepared(_dials(wanted))
    if not wanted.power:
        other = Prepared(other.system, other.tables, other.place._replace(power=np.zeros(HOURS)))
    stores = np.array([body.stores for body in prepared.system.bodies])
    state = _fitted(start, other)
    kept = engine.run(other, rows, state, hours, wanted.first)
    less = engine.run(other, rows, engine.shifted(state, _COLDER), hours, wanted.first)
    first = _mean(start.water_c[:, -1:], stores)[0]
    return _lines(wanted, (kept, less), stores, first)


def _fitted(start: HeatYear, other: Prepared) -> Tables:
    """The state of the water, the walls and the air in a system with other machines."""
    state = Tables(*(np.array(part) for part in start.end))
    return state._replace(heatings=np.array(other.tables.heatings), bodies=np.array(other.tables.bodies))


def _dials(wanted: _Wanted) -> Dials:
    base = replace(AS_PLANNED, heaters=0.0, chiller=False)
    return replace(base, cover=COVERED) if wanted.covered else base


def _mean(water: Array, stores: Array) -> Array:
    """Mean of all bodies, by what each stores."""
    mean: Array = stores @ water / stores.sum()
    return mean


def _lines(wanted: _Wanted, runs: tuple[HeatYear, HeatYear], stores: Array, first: float) -> Holding:
    """Two runs as straight lines: watts and vapour at any temperature of the water."""
    kept, less = runs
    temps = [np.concatenate([[first + shift], _mean(run.water_c, stores)])
             for run, shift in ((kept, 0.0), (less, _COLDER))]  # fmt: skip
    middles = [(one[1:] + one[:-1]) / 2.0 for one in temps]
    watts = [run["w_stored"] / 3600.0 for run in runs]
    vapour = [run["evaporated"] / 3600.0 for run in runs]
    apart = middles[0] - middles[1]
    loss = np.maximum(_slope(-(watts[0] - watts[1]), apart), 0.0)
    warm = np.maximum(_slope(vapour[0] - vapour[1], apart), 0.0)
    outdoors = np.take(wanted.weather.temp_c, range(wanted.first, wanted.first + len(apart)), mode="wrap")
    return Holding(
        wanted.season,
        wanted.power,
        wanted.covered,
        first,
        float(wanted.first % 24),
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
