"""Years of made weather: how long one takes, and what a thousand do.

Run with `pytest benchmarks/test_climate.py`. The year's limit is that of the issue: weather counts in the figure for a
thousand years, so it may take a third of it at most.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.laws.sun_paths import sun_path
from tests.laws.test_climate import COAST
from tidestead.physics.climate import years
from tidestead.physics.climate._kernel import year_into

LIMITS = {"year": 0.005, "climate": 0.100}
"""Seconds."""


def least(benchmark: Any) -> float:
    """Least time of a benchmark in seconds: what else the machine does can only add to it."""
    return float(benchmark.stats.stats.min)


@pytest.mark.benchmark(group="weather")
def test_year(benchmark: Any) -> None:
    """One year into an array that is there already, as an ensemble draws it."""
    ready = years.climate_of(COAST, sun_path(55.3))
    out = np.empty((8, 8760))
    benchmark(lambda: year_into(out, ready.months, ready.hours, ready.pressure, 1, 2))
    assert least(benchmark) < LIMITS["year"]


@pytest.mark.benchmark(group="weather")
def test_climate(benchmark: Any) -> None:
    """Normals and sun made ready, once for an ensemble."""
    sun = sun_path(55.3)
    benchmark(lambda: years.climate_of(COAST, sun))
    assert least(benchmark) < LIMITS["climate"]
