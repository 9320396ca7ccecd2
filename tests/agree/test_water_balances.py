"""Closed forms of changes, nutrients and stocking against scipy's steps through time."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tidestead.physics.water import changes, nutrients, salts, stock
from tidestead.physics.water.nutrients import Balance, Film
from tidestead.physics.water.stock import Stocking

BALANCES = [
    Balance(20.0, 8.28),
    Balance(20.0, 8.28, pace=0.01, renewed=0.3),
    Balance(20.0, 8.28, pace=0.02, renewed=0.5, uptake=3.0, incoming=4.0),
]


def stepped(slope: Callable[[float, float], float], start: float, time: float) -> float:
    run = solve_ivp(lambda t, y: [slope(t, y[0])], (0.0, time), [start], rtol=1e-10, atol=1e-12)
    return float(run.y[0, -1])


@pytest.mark.parametrize("balance", BALANCES)
@pytest.mark.parametrize("start", [0.0, 50.0])
def test_nutrient(balance: Balance, start: float) -> None:
    def slope(_: float, level: float) -> float:
        came = balance.made + balance.renewed * (balance.incoming - level) - balance.uptake
        return came / balance.volume - balance.pace * level

    for days in (1.0, 30.0, 200.0):
        ours = nutrients.nutrient_after(balance, start, days)
        assert ours == pytest.approx(stepped(slope, start, days), rel=1e-7)
        assert nutrients.days_to_nutrient(balance, start, ours) == pytest.approx(days, rel=1e-6)
    settled = nutrients.settled_nutrient(balance)
    assert math.isinf(settled) or slope(0.0, settled) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("pace", [0.0, 0.02])
def test_nutrient_that_is_bound_faster_than_it_comes(pace: float) -> None:
    """Stepped until nothing is left: the day of that is the closed form's, and nothing is left from then on."""
    balance = Balance(20.0, 2.0, pace=pace, renewed=0.3, uptake=5.0)

    def slope(_: float, level: float) -> float:
        return (2.0 - 5.0 - 0.3 * level) / 20.0 - pace * level

    gone = float(nutrients.days_to_nutrient(balance, 4.0, 0.0))
    assert stepped(slope, 4.0, gone) == pytest.approx(0.0, abs=1e-8)
    assert nutrients.nutrient_after(balance, 4.0, 0.5 * gone) == pytest.approx(
        stepped(slope, 4.0, 0.5 * gone), rel=1e-7
    )
    assert nutrients.nutrient_after(balance, 4.0, 1.01 * gone) == 0.0
    assert nutrients.settled_nutrient(balance) == 0.0


def test_water_run_through() -> None:
    ours = changes.level_after_flow(50.0, 5.0, 0.7)
    assert ours == pytest.approx(stepped(lambda _, level: 5.0 - level, 50.0, 0.7), rel=1e-8)
    assert changes.flow_to_reach(50.0, 5.0, ours) == pytest.approx(0.7)


def test_drained_while_filled() -> None:
    gone = 1.0 - stepped(lambda _, level: -level, 1.0, 0.25)
    assert changes.share_together(0.25) == pytest.approx(gone, rel=1e-8)


def test_weekly_changes_settle_where_they_are_said_to() -> None:
    level = 3.0
    for _ in range(500):
        before = level + 0.414 * 7.0
        level = before + 0.1 * (2.0 - before)
    assert changes.settled_before(2.0, 0.414, 7.0, 0.1) == pytest.approx(before)
    assert changes.settled_after(2.0, 0.414, 7.0, 0.1) == pytest.approx(level)


def test_lost_salt() -> None:
    drift = salts.lost_salt_drift
    ours = salts.lost_salt_salinity(35.0, 20.0, 0.02, 365.0)
    assert ours == pytest.approx(stepped(lambda _, sal: drift(sal, 20.0, 0.02), 35.0, 365.0), rel=1e-8)


@pytest.mark.parametrize("added", [1e-4, 0.05, 0.25])
def test_peak_of_ammonia_after_an_addition(added: float) -> None:
    """The filter's share of the load grows by a quarter in a week until it takes all of it."""
    stocking = Stocking(4.0, 0.5, 3.0, 0.25, 20.0, 0.05)
    pace = math.log(1.25) / 7.0
    caught = math.log(1.0 + added) / pace

    def slope(day: float, _: float) -> float:
        return 3.0 * 0.5 * (1.0 + added - math.exp(pace * day)) / 20.0

    peak = stock.addition_peak(stocking, 0.5, added)
    assert peak == pytest.approx(stepped(slope, 0.0, caught), rel=1e-5)


@pytest.mark.parametrize("before", [0.5, 1.0, 3.0, 100.0])
def test_largest_addition(before: float) -> None:
    stocking = Stocking(400.0, 0.5, 3.0, 0.25, 20.0, 0.05)
    over = stock.addition_peak(stocking, before, 0.25) - 0.05
    theirs = (
        brentq(lambda x: stock.addition_peak(stocking, before, x) - 0.05, 0.0, 0.25, xtol=1e-13)
        if over > 0.0
        else 0.25
    )
    assert stock.largest_addition(stocking, before) == pytest.approx(theirs, rel=1e-6)


@pytest.mark.parametrize("load", [0.5, 4.0, 16.0])
def test_film_and_load_balance(load: float) -> None:
    film = Film(ceiling=math.inf)
    theirs = brentq(lambda s: 60.0 * nutrients.film_rate(s, 24.0, film) - load, 1e-9, 10.0, xtol=1e-14)
    assert nutrients.film_ammonia(load, 60.0, 24.0, film) == pytest.approx(theirs, rel=1e-6)
    assert nutrients.film_area(load, theirs, 24.0, film) == pytest.approx(60.0, rel=1e-6)


def test_two_measured_slow_downs_by_sea_are_both_within_reach() -> None:
    """0.28 over 0.69 in the sea against 0.6: the film of the slower one needs half as much area again."""
    slow, fast = Film(sea=0.28 / 0.69), Film()
    ratio = nutrients.film_area(1.0, 0.05, 24.0, slow) / nutrients.film_area(1.0, 0.05, 24.0, fast)
    assert ratio == pytest.approx(0.6 / 0.4058, rel=1e-3)
    assert np.isfinite(ratio)
