"""What an example costs: lists, cut plans and purchase; then its throws beside a plain sum in numpy.

Run with `pytest benchmarks/test_cost.py`. The plain sum draws every price by itself by numpy's own triangle and knows
of no ranks that go together: what it leaves out is what the time goes for. Means must agree.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tidestead.build.cost.ensemble import THROWS
from tidestead.build.cost.facts import Purchase
from tidestead.build.cost.finding import found, purchased
from tidestead.build.cost.totals import throw_cash
from tidestead.build.takeoff.rest import Studies
from tidestead.core.kept import forget
from tidestead.plan import load
from tidestead.plan.model import Plan

EXAMPLES = Path(__file__).parents[1] / "examples"
NAMES = ("packhouse", "skerry")


def plan_of(name: str) -> Plan:
    return load(EXAMPLES / f"{name}.toml").plan


def plain(bought: Purchase) -> float:
    """The mean of so many sums, each price and rate drawn alone."""
    random = np.random.default_rng(1)
    worth = {
        name: random.triangular(rate.low, rate.likely, rate.high, THROWS)
        for name, rate in bought.money.rates.items()
    }
    sums = np.zeros(THROWS)
    for one in bought.once:
        for buy in one.buys:
            price = buy.offer.price
            if price is not None and buy.count and price.high > price.low:
                drawn = random.triangular(price.low, price.likely, price.high, THROWS)
                sums += buy.count * drawn * worth.get(bought.money.rate(buy.offer.currency), 1.0)
    return float(sums.mean()) + sum(one.chance * one.cost.mean for one in bought.mishaps)


@pytest.mark.parametrize("name", NAMES)
def test_purchase(benchmark: Any, name: str) -> None:
    benchmark.group = f"what {name} takes and how it is bought"
    plan = plan_of(name)
    bought = benchmark.pedantic(lambda: purchased(plan, Studies()), setup=forget, rounds=3)
    assert not bought.unpriced


@pytest.mark.parametrize("name", NAMES)
def test_again(benchmark: Any, name: str) -> None:
    """With cut plans and throws kept, as a search for remedies asks."""
    benchmark.group = f"what {name} costs, asked again"
    plan = plan_of(name)
    facts = benchmark(lambda: found(plan, Studies()))
    assert facts.totals is not None


@pytest.mark.parametrize("name", NAMES)
def test_throws(benchmark: Any, name: str) -> None:
    benchmark.group = f"throws of {name}"
    bought = purchased(plan_of(name), Studies())
    throws = benchmark.pedantic(
        lambda: throw_cash(bought.once, bought.money, bought.mishaps, bought.together), setup=forget, rounds=3
    )
    assert throws.mean == pytest.approx(plain(bought), rel=0.01)


@pytest.mark.parametrize("name", NAMES)
def test_plain_sum(benchmark: Any, name: str) -> None:
    benchmark.group = f"throws of {name}"
    bought = purchased(plan_of(name), Studies())
    assert benchmark(lambda: plain(bought)) > 0.0
