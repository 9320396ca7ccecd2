"""Years run through the engine, on all cores, and what is kept of each."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from threading import Lock
from typing import TypeVar

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, WeatherYear
from tidestead.physics import _air_laws, air
from tidestead.physics.heat import engine
from tidestead.physics.heat.engine import HeatYear, Prepared
from tidestead.studies.inputs import Tick

DAYS = 365
_NIGHT = np.array([hour >= 18 or hour < 8 for hour in range(24)])
"""Hours, by the end of each, that belong to a night."""

_BOILING = 100.0

KEPT = (
    "w_sun", "w_machines", "w_lamps", "w_heaters", "w_chillers", "w_evaporation", "w_air", "w_rays", "w_sides",
    "w_topped_up", "w_stored",
)  # fmt: skip
"""Parts of the water's balance."""


@dataclass(frozen=True, eq=False)
class YearKept:
    """What is kept of a year. By day (365): coldest, mean and warmest water, degC, and the balance, J. By month (12):
    water evaporated and condensed, kg; hours with wet glazing and with damp timber; mean relative humidity; warmest
    mean of five days of the air, degC.
    """

    coldest: Array
    mean: Array
    warmest: Array
    balance: dict[str, Array]
    evaporated: Array
    condensed: Array
    wet: Array
    damp: Array
    humidity: Array
    warm_air: float
    coldest_air: float
    warmest_air: float
    nights: int
    heater: float
    chiller: float
    air_heater: float
    opened: float
    closure: float

    @property
    def finite(self) -> bool:
        """Whether the water kept a temperature at which it is water."""
        return bool(np.all(np.isfinite(self.mean)) and self.warmest.max() < _BOILING)

    def month(self, name: str) -> Array:
        """A part of the balance by month, J."""
        return by_month(np.repeat(self.balance[name] / 24.0, 24))


def by_month(hours: Array) -> Array:
    """Sums of hours by month."""
    return np.bincount(MONTH_OF_HOUR, weights=hours, minlength=12).astype(np.float64)


def over_years(values: Sequence[float]) -> Estimate:
    """Tenth, median and ninetieth of a hundred."""
    low, middle, high = np.quantile(values, (0.1, 0.5, 0.9))
    return Estimate(float(low), float(middle), float(high), "P10 to P90 of the years")


def day_means(hours: Array) -> Array:
    """Means of the days of a year."""
    mean: Array = hours.reshape(DAYS, 24).mean(axis=1)
    return mean


def kept_of(year: HeatYear, weather: WeatherYear, factor: float, limit: float) -> YearKept:
    """A year boiled down. `factor` is f_Rsi of the timber inside, `limit` the humidity at it that counts as damp."""
    water = year.water_c[0] if len(year.water_c) else year["air_c"]
    days = water.reshape(DAYS, 24)
    heater_days = (year["w_heaters"].reshape(DAYS, 24)[:, _NIGHT]).sum(axis=1)
    five = np.convolve(day_means(year["air_c"]), np.ones(5) / 5.0, "valid")
    return YearKept(
        days.min(axis=1),
        days.mean(axis=1),
        days.max(axis=1),
        {name: year[name].reshape(DAYS, 24).sum(axis=1) for name in KEPT},
        by_month(year["evaporated"]),
        by_month(year["condensate"]),
        by_month(year["wet"]),
        by_month((face_humidity(year, weather, factor) > limit).astype(float)),
        by_month(np.minimum(year["humidity"], 1.0)) / by_month(np.ones(HOURS)),
        float(five.max()),
        float(year["coldest_c"].min()),
        float(year["warmest_c"].max()),
        int((heater_days > 0.0).sum()),
        float(year["w_heaters"].sum()),
        float(-year["w_chillers"].sum()),
        float(year["h_air_heater"].sum()),
        float(year["open"].sum()),
        year.closure,
    )


_FINE = 400
"""Temperatures at which saturation is worked out; between them its logarithm is taken as straight."""


def face_humidity(year: HeatYear, weather: WeatherYear, factor: float) -> Array:
    """Relative humidity at the inner face of the timber, by hour. Air that a run has made impossible is told as such by
    the run: here it is not refused."""
    face = weather.temp_c + factor * (year["air_c"] - weather.temp_c)
    vapour = np.asarray(_air_laws.vapour_of_ratio(year["ratio"], weather.pressure))  # type: ignore[arg-type]  # numbers or arrays
    temps = np.linspace(-60.0, 90.0, _FINE)
    return vapour / np.exp(np.interp(face, temps, np.log(air.saturation_pressure(temps))))  # type: ignore[arg-type]  # numbers or arrays


@dataclass(frozen=True, eq=False)
class Runner:
    """A system ready to be run over years, and where each begins."""

    prepared: Prepared
    temps: tuple[float, ...]
    air_c: float
    keep: Callable[[HeatYear, WeatherYear], YearKept]

    def year(self, weather: WeatherYear, steps: int = engine.STEPS) -> HeatYear:
        """One year with its own warm-up."""
        rows = self.prepared.rows(weather)
        return engine.run_year(self.prepared, rows, self.temps, self.air_c, steps)

    def chain(self, years: Sequence[WeatherYear], steps: int, done: Callable[[], None]) -> list[YearKept]:
        """Years one after the other: each begins as the one before has ended. `done` is called after each."""
        found: list[YearKept] = []
        state = None
        for weather in years:
            rows = self.prepared.rows(weather)
            if state is None:
                run = engine.run_year(self.prepared, rows, self.temps, self.air_c, steps)
            else:
                run = engine.run(self.prepared, rows, state, HOURS, 0, steps)
            state = run.end
            found.append(self.keep(run, weather))
            done()
        return found


Result = TypeVar("Result")


def on_all_cores(jobs: Sequence[Callable[[], Result]]) -> list[Result]:
    """Results of jobs in their order; the compiled engine lets other threads run beside it."""
    if len(jobs) == 1:
        return [jobs[0]()]
    with ThreadPoolExecutor(max_workers=min(len(jobs), os.cpu_count() or 1)) as pool:
        return list(pool.map(lambda job: job(), jobs))


def run_all(
    runner: Runner, years: Sequence[WeatherYear], steps: int, tick: Tick | None = None
) -> list[YearKept]:
    """Every year, in as many chains as there are cores; `tick` hears how many of how many are done."""
    cores = min(os.cpu_count() or 1, len(years))
    size = -(-len(years) // cores)
    parts = [years[start : start + size] for start in range(0, len(years), size)]
    lock, count = Lock(), [0]

    def done() -> None:
        with lock:
            count[0] += 1
            if tick is not None:
                tick(count[0], len(years))

    runs = on_all_cores([partial(runner.chain, part, steps, done) for part in parts])
    return [kept for run in runs for kept in run]
