"""What drives a sum and what may go wrong, worked by hand: ends of triangles, mishaps, foreign money."""

from __future__ import annotations

from math import sqrt
from pathlib import Path
from types import SimpleNamespace
from typing import cast

import pytest

from tidestead.build.cost.book import mishaps_of
from tidestead.build.cost.charts import _mishaps, drivers
from tidestead.build.cost.ensemble import Mishap, Term, Three, Throws, Togetherness, moved, thrown
from tidestead.build.cost.facts import CostFacts
from tidestead.plan import loads
from tidestead.studies.inputs import Inputs

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
BOARD = Term("board", "timber", Three(80.0, 100.0, 160.0), Three(3.0, 3.0, 3.0))
SEAL = Mishap("the seal leaks", 0.15, Three(200.0, 350.0, 700.0))
GOES = Togetherness(0.6, 0.2)


def _facts(cash: Throws, mishaps: tuple[Mishap, ...]) -> CostFacts:
    purchase = SimpleNamespace(mishaps=mishaps)
    return cast("CostFacts", SimpleNamespace(purchase=purchase, cash=cash, currency="USD"))


def test_the_drivers_are_the_ends_of_each_price_by_hand() -> None:
    """Three boards of 80, 100 or 160: a quarter of the triangle lies below 100.

    P10 = 80 + sqrt(0.1 * 80 * 20) = 92.649, P90 = 160 - sqrt(0.1 * 80 * 60) = 138.091, mean 113.333.
    """
    cash = thrown((BOARD,), {}, (SEAL,), GOES)
    inputs = Inputs(loads(PACKHOUSE.read_text("utf-8"), "p.toml").plan, "us")
    [chart] = drivers(inputs, _facts(cash, (SEAL,)), cash, "cash", "cash still to spend")
    [row] = chart.rows
    assert (
        row.less - cash.mean
        == pytest.approx(3.0 * (80.0 + sqrt(160.0) - 340.0 / 3.0))
        == pytest.approx(-62.0527)
    )
    assert (
        row.more - cash.mean
        == pytest.approx(3.0 * (160.0 - sqrt(480.0) - 340.0 / 3.0))
        == pytest.approx(74.2733)
    )
    assert cash.mean == pytest.approx(340.0 + 62.5, rel=0.01)  # 0.15 * 416.667


def test_a_mishap_is_the_cash_without_it_and_with_it_by_hand() -> None:
    """1250 / 3 = 416.667 at 15 %: 62.5 of it is in the mean already."""
    cash = thrown((BOARD,), {}, (SEAL,), GOES)
    [chart] = _mishaps(_facts(cash, (SEAL,)))
    [row] = chart.rows
    assert row.name == "the seal leaks (15 %)"
    assert row.less - cash.mean == pytest.approx(-62.5)
    assert row.more - cash.mean == pytest.approx(416.6667 - 62.5, abs=1e-3)


def test_a_rate_moves_all_that_is_in_its_money() -> None:
    """100 EUR and one time in ten 400 EUR, at 1.0, 1.1 or 1.5: 1.2 on average, so 140 EUR hang on the rate.

    A fifth of the triangle lies below 1.1: P10 = 1 + sqrt(0.1 * 0.5 * 0.1), P90 = 1.5 - sqrt(0.1 * 0.5 * 0.4).
    """
    term = Term("pump", "machines", Three(90.0, 100.0, 110.0), rate="EUR")
    storm = Mishap("a storm", 0.1, Three(400.0, 400.0, 400.0), rate="EUR")
    rates = {"EUR": Three(1.0, 1.1, 1.5)}
    found = {name: (less, more) for name, less, more in moved((term,), rates, (storm,))}
    low, high = 1.0 + sqrt(0.005), 1.5 - sqrt(0.02)
    assert found["rate of EUR"] == pytest.approx((140.0 * (low - 1.2), 140.0 * (high - 1.2)))
    assert found["a storm"] == pytest.approx((-0.1 * 480.0, 0.9 * 480.0))
    spread = 110.0 - sqrt(0.1 * 20.0 * 10.0) - 100.0
    assert found["price: pump"] == pytest.approx((-1.2 * spread, 1.2 * spread))
    assert thrown((term,), rates, (storm,), GOES).mean == pytest.approx(168.0, rel=0.01)


def test_the_same_mishap_of_two_vessels_has_luck_of_its_own_for_each() -> None:
    """Told in the same words it would come to both or to neither, and one chance would stand for both."""
    text = PACKHOUSE.read_text("utf-8").replace(
        "[risks]\n",
        '[risks]\nfirst = { what = "a seal leaks", chance = "50 %", cost = "100 USD" }\n'
        'second = { what = "a seal leaks", chance = "10 %", cost = "100 USD" }\n',
    )
    two = mishaps_of(loads(text, "p.toml").plan)[:2]
    assert [(one.name, one.chance) for one in two] == [
        ("a seal leaks (first)", 0.5),
        ("a seal leaks (second)", 0.1),
    ]
    sums = thrown((), {}, two, GOES).sums
    assert (sums > 150.0).mean() == pytest.approx(0.05, abs=0.01)
    assert (sums > 50.0).mean() == pytest.approx(0.55, abs=0.015)
