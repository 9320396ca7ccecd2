"""Lists of lengths: column generation beside scipy's milp on an arc-flow program that knows no patterns.

Run with `pytest benchmarks/test_cutting.py`. Both answers must be the same number of lengths, and proven. A list as a
large timber frame gives it, with seven priced lengths, runs without the referee: its whole nanometres are too many
places for arcs.
"""

from __future__ import annotations

import random
from collections import Counter
from typing import Any

import pytest

from tests.agree.arc_flow import least_cost
from tidestead.build.cutting.lengths import Need, Saw, Stock, cut_lengths

ROOM = 150
CLOSE = 1e-3
STOCKS = (2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0)


def even(seed: int) -> list[tuple[int, int]]:
    """Items of 20 to 100 for lengths of 150, as Falkenauer drew his."""
    chance = random.Random(seed)
    return sorted(Counter(chance.randint(20, 100) for _ in range(120)).items())


@pytest.mark.parametrize("seed", [1, 2])
def test_ours(benchmark: Any, seed: int) -> None:
    benchmark.group = f"120 items, list {seed}"
    needs = [Need(str(size), size / 100, many) for size, many in even(seed)]
    plan = benchmark(lambda: cut_lengths(needs, [Stock("length", ROOM / 100, 1.0)], Saw(0.0, 0.0, 0.1)))
    benchmark.extra_info["lengths"] = plan.cost
    assert plan.proven


@pytest.mark.parametrize("seed", [1, 2])
def test_arc_flow(benchmark: Any, seed: int) -> None:
    benchmark.group = f"120 items, list {seed}"
    least = benchmark.pedantic(lambda: least_cost(even(seed), [(ROOM, 1.0, None)]), rounds=1)
    benchmark.extra_info["lengths"] = least
    needs = [Need(str(size), size / 100, many) for size, many in even(seed)]
    assert cut_lengths(needs, [Stock("length", ROOM / 100, 1.0)], Saw(0.0, 0.0, 0.1)).cost == pytest.approx(
        least
    )


@pytest.mark.parametrize("kerf", [0.0, 0.003, 0.004])
def test_timber_list(benchmark: Any, kerf: float) -> None:
    """28 lengths, some 350 pieces, seven priced stock lengths."""
    benchmark.group = f"timber list, kerf {kerf * 1000:g} mm"
    chance = random.Random(7)
    needs = [Need(f"m{at}", chance.uniform(0.3, 3.0), chance.randint(3, 22)) for at in range(28)]
    stocks = [
        Stock(f"{length} m", length, round(3.2 * length * chance.uniform(0.95, 1.05), 2)) for length in STOCKS
    ]
    plan = benchmark(lambda: cut_lengths(needs, stocks, Saw(kerf, 0.0, 0.3)))
    benchmark.extra_info.update({"pieces": sum(need.count for need in needs), "gap": plan.gap})
    assert plan.gap < CLOSE
