"""The year of heat: how long one takes, what a general solver takes for the same, and many years on two threads.

Run with `pytest benchmarks/test_heat.py -s`; some print what they found. Times are those of this machine while it does
whatever else it does; the least of many runs is the one to compare. The limits are those of the subject: a year in
50 ms, a thousand in 15 s on two cores, and for each hour of weather at least fifty times as quick as LSODA on the same
compiled physics, at the accuracy that tests/agree/test_heat_referee.py holds both to.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from time import perf_counter, process_time
from typing import Any

import numpy as np
import pytest

from tests.agree import heat_rates
from tests.agree.test_heat_referee import LONG, laid_out
from tests.laws import heat_systems as made
from tests.laws.sun_paths import sun_path
from tests.laws.test_climate import COAST
from tidestead.core.compiled import PLAIN
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS
from tidestead.physics.climate import years
from tidestead.physics.climate._kernel import year_into
from tidestead.physics.heat import engine
from tidestead.physics.heat._rows import finished

LIMITS = {"year": 0.050, "two steps": 0.030, "ratio": 50.0, "many": 2.0 * 15.0 / 1000.0}
"""Seconds; of `many` of one core for each year, whoever else uses the cores; times as quick."""

MEMORY = 60e6
"""Bytes that many years may take more than none."""

MANY, CHUNK = 50, 5
"""Years of the large run, and how many are held in memory at once on each thread. Twenty such runs are a thousand."""


def least(benchmark: Any) -> float:
    """Least time of a benchmark in seconds: what else the machine does can only add to it."""
    return float(benchmark.stats.stats.min)


def a_year(steps: int) -> Any:
    ready = made.prepared(made.leanto())
    state = engine.begin(ready, [22.0], 15.0)
    return lambda: engine.run(ready, made.coast(), state, HOURS, 0, steps)


@pytest.mark.benchmark(group="a year of heat")
def test_year(benchmark: Any) -> None:
    """A lean-to with a tank: nine chains, a heater, vents and shade, at the default steps."""
    benchmark(a_year(engine.STEPS))
    assert least(benchmark) < LIMITS["year"]


@pytest.mark.benchmark(group="a year of heat")
def test_year_in_two_steps(benchmark: Any) -> None:
    benchmark(a_year(2))
    assert least(benchmark) < LIMITS["two steps"]


@pytest.mark.benchmark(group="a year of heat")
def test_year_of_a_pond(benchmark: Any) -> None:
    ready = made.prepared(made.pond())
    state = engine.begin(ready, [12.0], 12.0)
    benchmark(lambda: engine.run(ready, made.coast(), state))
    assert least(benchmark) < LIMITS["year"]


@pytest.mark.benchmark(group="a year of heat")
def test_laying_out(benchmark: Any) -> None:
    """What comes before the first year of a system."""
    system, sun = made.leanto(), sun_path(made.LATITUDE)
    benchmark(lambda: engine.prepare(system, sun))
    assert least(benchmark) < LIMITS["year"]


@pytest.mark.benchmark(group="twenty days")
def test_twenty_days(benchmark: Any) -> None:
    ready = laid_out(LONG["twenty winter days"])
    benchmark(ready.ours)
    assert least(benchmark) < LIMITS["year"]


@pytest.mark.benchmark(group="twenty days")
def test_twenty_days_by_lsoda(benchmark: Any) -> None:
    """The referee's solver on the same compiled rates, asked for no more than the engine's own accuracy."""
    ready = laid_out(LONG["twenty winter days"])
    start = heat_rates.begun(ready.prepared, ready.state)

    def theirs() -> Array:
        found = heat_rates.through(ready.prepared, ready.rows, start, ready.stretch, rtol=1e-4)
        return found.water()

    benchmark.pedantic(theirs, rounds=3, warmup_rounds=1)
    took = []
    for _ in range(5):
        begun = perf_counter()
        ours = ready.ours()
        took.append(perf_counter() - begun)
    ratio = least(benchmark) / min(took)
    print(
        f"\nengine {min(took) * 1e3:.2f} ms, LSODA {least(benchmark) * 1e3:.0f} ms: {ratio:.0f} times as quick"
    )
    assert np.abs(ours.water_c[0] - theirs()).max() < 0.02
    assert ratio > LIMITS["ratio"]


def most_memory() -> float:
    """The most that this process ever held, bytes."""
    return 1024.0 * resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def chunk(ready: engine.Prepared, climate: years.Climate, first: int) -> float:
    """Some years one after the other, made and run; the coldest water of all. Only one year's weather is held."""
    rows, coldest = np.empty((9, HOURS)), np.inf
    state = engine.begin(ready, [22.0], 15.0)
    for number in range(first, first + CHUNK):
        year_into(rows[:8], climate.months, climate.hours, climate.pressure, 11, number)
        found = engine.run(ready, finished(rows, ready.place.top), state, HOURS, 0, 2)
        state, coldest = found.end, min(coldest, float(found.water_c.min()))
    return coldest


@pytest.mark.benchmark(group="many years")
def test_fifty_years_on_two_threads(benchmark: Any) -> None:
    """Made weather and heat together, in chunks, at two steps an hour. A thousand years are twenty of these: the
    printed figure is this run times twenty, not a run of a thousand."""
    ready, climate = made.prepared(made.leanto()), years.climate_of(COAST, sun_path(made.LATITUDE))

    def all_of_them() -> list[float]:
        with ThreadPoolExecutor(2) as pool:
            return list(pool.map(lambda first: chunk(ready, climate, first), range(0, MANY, CHUNK)))

    all_of_them()
    held, busy, rounds = most_memory(), process_time(), 3
    benchmark.pedantic(all_of_them, rounds=rounds)
    busy = (process_time() - busy) / rounds
    took, more = least(benchmark), most_memory() - held
    print(f"\n{MANY} years: {took:.2f} s by the clock, {busy:.2f} s of the cores, {more / 1e6:.0f} MB more")
    alone = busy / MANY * 1000.0 / 2.0
    print(f"a thousand: {took / MANY * 1000.0:.0f} s by the clock, {alone:.0f} s on two cores left alone")
    assert busy / MANY < LIMITS["many"]
    assert more < MEMORY


PLAIN_DAY = """
from time import perf_counter
from tests.laws import heat_systems as made
from tidestead.physics.heat import engine
ready = made.prepared(made.leanto())
rows, state = made.steady(5.0), engine.begin(ready, [22.0], 15.0)
begun = perf_counter()
engine.run(ready, rows, state, 24)
print(perf_counter() - begun)
"""


@pytest.mark.benchmark(group="plain Python")
def test_a_day_in_plain_python(benchmark: Any) -> None:
    """Where there is no compiler: the time of a day inside the process, which starts anew for it."""
    took: list[float] = []

    def a_day() -> None:
        done = subprocess.run(
            [sys.executable, "-c", PLAIN_DAY],
            env={**os.environ, PLAIN: "1"},
            capture_output=True,
            text=True,
            check=True,
        )
        took.append(float(done.stdout))

    benchmark.pedantic(a_day, rounds=2)
    print(f"\na day {min(took):.2f} s, a year about {min(took) * 365:.0f} s")
    assert min(took) < 5.0
