"""Sums that are thrown, beside scipy's triangle and rank correlation, samples ordered all at once by the method of Iman
and Conover, and sums worked out by hand.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tests.agree.iman_conover import blocks, in_order
from tidestead.build.cost.correlation import alone, together
from tidestead.build.cost.ensemble import THROWS, Mishap, Term, Three, Togetherness, thrown, told_apart
from tidestead.core.errors import ImpossibleInput

SPREAD = Three(0.9, 1.0, 1.35)
SIZES = np.linspace(1.0, 3.0, 40)
"""Forty lines of unlike size, ours."""


def terms(sizes: np.ndarray, group: str = "one trade") -> tuple[Term, ...]:
    return tuple(Term(f"line {number}", group, SPREAD.times(size)) for number, size in enumerate(sizes))


@pytest.mark.parametrize(
    ("asked", "spread", "above"),
    [(0.0, 1.5, 9.7), (0.3, 5.0, 12.9), (0.6, 6.9, 15.0)],
    ids=["alone", "some", "much"],
)
def test_forty_lines_spread_as_another_program_had_them(asked: float, spread: float, above: float) -> None:
    """Forty lines of a triangle 0.9, 1, 1.35, as another program of the same method had them: 1.5, 5.0 and 6.9 % of
    spread, 9.7, 12.9 and 15.0 % from base to P80. The sizes of its lines were not kept.
    """
    throws = thrown(terms(SIZES), {}, (), Togetherness(asked, asked))
    assert 100.0 * throws.sums.std() / throws.mean == pytest.approx(spread, abs=0.1)
    assert 100.0 * (throws.share(0.8) / throws.base - 1.0) == pytest.approx(above, abs=0.3)


def test_togetherness_widens_some_four_and_a_half_times() -> None:
    alone, together = (thrown(terms(SIZES), {}, (), Togetherness(share, share)).sums for share in (0.0, 0.6))
    assert together.std() / alone.std() == pytest.approx(4.6, abs=0.2)


GROUPS = ("a", "a", "a", "b", "b", "b")
CHANCE = 3.0 / math.sqrt(THROWS)
"""Three standard deviations of a coefficient of correlation between so many throws."""


@pytest.mark.parametrize(("within", "across"), [(0.6, 0.2), (0.4, 0.1), (0.9, 0.0), (0.3, 0.3)])
def test_ranks_go_together_as_asked(within: float, across: float) -> None:
    """Spearman's coefficient by scipy, every pair of six things in two groups."""
    shares = np.column_stack(
        [together(f"thing {at}", group, within, across, THROWS) for at, group in enumerate(GROUPS)]
    )
    found = stats.spearmanr(shares).statistic
    # normal scores with a product-moment of r have a rank correlation of 6/pi asin(r/2), which is a little less
    expected = 6.0 / math.pi * np.arcsin(blocks(GROUPS, within, across) / 2.0)
    assert np.abs(found - expected).max() < CHANCE


def test_each_part_of_a_spread_is_hit_once() -> None:
    shares = together("thing", "a", 0.6, 0.2, THROWS)
    assert np.sort(shares) == pytest.approx((np.arange(THROWS) + 0.5) / THROWS)


def test_things_that_are_thrown_alone_stay_alone() -> None:
    shares = np.column_stack([alone(f"thing {at}", THROWS) for at in range(5)])
    assert np.abs(stats.spearmanr(shares).statistic - np.eye(5)).max() < CHANCE


@pytest.mark.parametrize(("within", "across"), [(0.6, 0.2), (0.4, 0.1)])
def test_a_sum_spreads_as_samples_that_are_ordered_all_at_once(within: float, across: float) -> None:
    """Forty things in four trades: the referee turns all columns together, ours are thrown name by name."""
    trades = tuple(f"trade {at % 4}" for at in range(40))
    ours = thrown(
        tuple(
            Term(f"line {at}", trade, SPREAD.times(size))
            for at, (trade, size) in enumerate(zip(trades, SIZES, strict=True))
        ),
        {},
        (),
        Togetherness(within, across),
    )
    share = np.random.default_rng(5).random((THROWS, 40))
    samples = stats.triang.ppf(share, 0.1 / 0.45, 0.9, 0.45) * SIZES
    referee = in_order(samples, blocks(trades, within, across), seed=3).sum(axis=1)
    assert ours.mean == pytest.approx(referee.mean(), rel=0.002)
    assert ours.sums.std() == pytest.approx(referee.std(), rel=0.03)
    for part in (0.1, 0.5, 0.8, 0.9):
        assert ours.share(part) == pytest.approx(float(np.quantile(referee, part)), rel=0.004)


def test_what_is_added_leaves_the_throws_of_the_rest() -> None:
    """A thing more, before all others: the sums differ by its own throws, which are its own triangle to the end."""
    more = Term("a new pump", "machines", Three(100.0, 130.0, 190.0))
    goes = Togetherness(0.4, 0.1)
    before, after, bare = (
        thrown(some, {}, (), goes) for some in (terms(SIZES), (more, *terms(SIZES)), (more,))
    )
    assert after.sums - before.sums == pytest.approx(bare.sums, abs=1e-9)
    apart = told_apart(after.sums, before.sums)
    referee = stats.triang(30.0 / 90.0, 100.0, 90.0)
    assert (apart.low, apart.likely, apart.high) == pytest.approx(referee.ppf([0.1, 0.5, 0.9]), abs=0.05)


@pytest.mark.parametrize(("within", "across"), [(1.0, 0.0), (0.2, 0.3), (0.5, -0.1)])
def test_correlations_that_cannot_be(within: float, across: float) -> None:
    with pytest.raises(ImpossibleInput, match="do not rise from 0 to below 1"):
        together("thing", "a", within, across, 10)


@given(
    low=st.floats(0.0, 10.0),
    up=st.floats(0.01, 5.0),
    more=st.floats(0.01, 5.0),
    share=st.floats(0.001, 0.999),
)
def test_the_triangle_is_scipys(low: float, up: float, more: float, share: float) -> None:
    three = Three(low, low + up, low + up + more)
    referee = stats.triang(up / (up + more), low, up + more)
    assert three.at(share) == pytest.approx(referee.ppf(share), rel=1e-9)
    assert three.mean == pytest.approx(referee.mean(), rel=1e-9)


def test_prices_alone_spread_as_their_squares_add() -> None:
    """Standard deviation of a sum of independent things: the root of the sum of squares."""
    throws = thrown(terms(SIZES), {}, (), Togetherness(0.0, 0.0))
    one = stats.triang(0.1 / 0.45, 0.9, 0.45).std()
    assert throws.sums.std() == pytest.approx(one * math.sqrt(float((SIZES**2).sum())), rel=0.03)
    assert throws.mean == pytest.approx(SPREAD.mean * SIZES.sum(), rel=0.002)
    assert throws.base == pytest.approx(SIZES.sum())


def test_a_rate_moves_everything_in_its_money_at_once() -> None:
    """Ten things at a fixed price in foreign money: the sum spreads as the rate does, and not by a root of ten less."""
    rate = Three(1.0, 1.2, 1.3)
    fixed = tuple(Term(f"thing {number}", "t", Three(5.0, 5.0, 5.0), rate="GBP") for number in range(10))
    throws = thrown(fixed, {"GBP": rate}, (), Togetherness(0.4, 0.1))
    referee = stats.triang(0.2 / 0.3, 1.0, 0.3)
    assert throws.sums.std() == pytest.approx(50.0 * referee.std(), rel=0.02)
    assert throws.base == pytest.approx(60.0)
    assert throws.moved[0][0] == "rate of GBP"


def test_a_mishap_adds_its_chance_times_its_cost() -> None:
    mishap = Mishap("a sheet cracks", 0.2, Three(500.0, 800.0, 1700.0))
    fixed = (Term("sheet", "windows", Three(1000.0, 1000.0, 1000.0)),)
    throws = thrown(fixed, {}, (mishap,), Togetherness(0.4, 0.1))
    assert throws.mean == pytest.approx(1000.0 + 0.2 * 1000.0, rel=0.01)
    assert float((throws.sums > 1000.0).mean()) == pytest.approx(0.2, abs=0.012)
    assert throws.base == 1000.0
    name, less, more = throws.moved[0]
    assert (name, round(less), round(more)) == ("a sheet cracks", -200, 800)


def test_what_moves_a_sum_most_stands_first() -> None:
    """A dear sheet with a wide range moves more than a cheap one, and both less than nothing is fixed."""
    found = thrown(
        (
            Term("dear", "a", Three(800.0, 1000.0, 1500.0)),
            Term("cheap", "b", Three(8.0, 10.0, 15.0)),
            Term("fixed", "c", Three(5000.0, 5000.0, 5000.0)),
        ),
        {},
        (),
        Togetherness(0.4, 0.1),
    ).moved
    assert [name for name, _, _ in found] == ["price: dear", "price: cheap"]
    assert found[0][2] - found[0][1] == pytest.approx(100.0 * (found[1][2] - found[1][1]))


def test_the_same_throws_every_time() -> None:
    first, then = (thrown(terms(SIZES), {}, (), Togetherness(0.4, 0.1)).sums for _ in range(2))
    assert np.array_equal(first, then)
