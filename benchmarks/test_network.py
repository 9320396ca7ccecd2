"""Networks of 23 and of about 500 links: ours beside EPANET's, on the same networks in the same run.

Run with `pytest benchmarks/test_network.py`. EPANET is timed on a network that is laid out already; ours lays
it out, solves it, and checks every law and balance.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.agree.epanet_network import Circuit, circuit, grid, opened
from tests.published.test_flow_fittings import joining
from tidestead.physics.flow.network import solve_network
from tidestead.physics.flow.tee_network import solve_with_tees

SMALL, LARGE = circuit(), grid(16, 17)
LIMITS = {"small": 0.005, "large": 0.100}
"""Seconds."""


def least(benchmark: Any) -> float:
    """Least time of a benchmark in seconds: what else the machine does can only add to it."""
    return float(benchmark.stats.stats.min)


def ours(benchmark: Any, given: Circuit, limit: float) -> None:
    benchmark(lambda: solve_network(given.links, given.fixed, given.injections))
    assert least(benchmark) < limit


def theirs(benchmark: Any, given: Circuit, folder: Path) -> None:
    other = opened(given, folder)
    benchmark.pedantic(other.solve, rounds=30, warmup_rounds=1)
    other.close()
    assert least(benchmark) > 0.0


@pytest.mark.benchmark(group="network of 23 links")
def test_small(benchmark: Any) -> None:
    ours(benchmark, SMALL, LIMITS["small"])


@pytest.mark.benchmark(group="network of 23 links")
def test_small_again(benchmark: Any) -> None:
    """From the answer to a network a little different, as a sweep asks."""
    start = solve_network(SMALL.links, {**SMALL.fixed, "sump": 0.3}, SMALL.injections)
    benchmark(lambda: solve_network(SMALL.links, SMALL.fixed, SMALL.injections, start))
    assert least(benchmark) < LIMITS["small"]


@pytest.mark.benchmark(group="network of 23 links")
def test_epanet_small(benchmark: Any, tmp_path: Path) -> None:
    theirs(benchmark, SMALL, tmp_path)


@pytest.mark.benchmark(group="network of 512 links")
def test_large(benchmark: Any) -> None:
    assert len(LARGE.links) > 500
    ours(benchmark, LARGE, LIMITS["large"])


@pytest.mark.benchmark(group="network of 512 links")
def test_epanet_large(benchmark: Any, tmp_path: Path) -> None:
    theirs(benchmark, LARGE, tmp_path)


@pytest.mark.benchmark(group="one tee")
def test_tee(benchmark: Any) -> None:
    benchmark(lambda: solve_with_tees(**joining()))
    assert least(benchmark) < LIMITS["small"] * 10.0
