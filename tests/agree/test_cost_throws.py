"""Sums that are thrown, beside scipy's triangle and rank correlation, and beside sums worked out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tidestead.build.cost.correlation import blocks, in_order
from tidestead.build.cost.ensemble import Mishap, Term, Three, Togetherness, thrown
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


def test_ranks_go_together_as_asked() -> None:
    """Spearman's coefficient by scipy, every pair of six columns in two groups."""
    random = np.random.default_rng(7)
    samples = random.random((10_000, 6)) ** 2
    wanted = blocks(("a", "a", "a", "b", "b", "b"), 0.6, 0.2)
    turned = in_order(samples, wanted, seed=3)
    found = stats.spearmanr(turned).statistic
    # normal scores with a product-moment of r have a rank correlation of 6/pi asin(r/2), which is a little less
    expected = 6.0 / math.pi * np.arcsin(wanted / 2.0)
    assert np.abs(found - expected).max() < 0.02
    assert np.array_equal(np.sort(turned, axis=0), np.sort(samples, axis=0))


def test_columns_that_are_asked_for_alone_stay_alone() -> None:
    random = np.random.default_rng(8)
    turned = in_order(random.random((10_000, 5)), np.eye(5), seed=1)
    apart = stats.spearmanr(turned).statistic - np.eye(5)
    assert np.abs(apart).max() < 0.02


@pytest.mark.parametrize(("within", "across"), [(1.0, 0.0), (0.2, 0.3), (0.5, -0.1)])
def test_correlations_that_cannot_be(within: float, across: float) -> None:
    with pytest.raises(ImpossibleInput, match="do not rise from 0 to below 1"):
        blocks(("a", "b"), within, across)


def test_correlations_that_exclude_each_other() -> None:
    odd = np.array([[1.0, 0.9, -0.9], [0.9, 1.0, 0.9], [-0.9, 0.9, 1.0]])
    with pytest.raises(ImpossibleInput, match="cannot all hold at once"):
        in_order(np.random.default_rng(1).random((100, 3)), odd, seed=1)


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
