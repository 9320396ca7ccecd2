"""Layers out of boards: a thickness in whole layers, areas and not volumes, and each line its own money."""

from __future__ import annotations

import itertools
from collections.abc import Iterable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.cost_plans import bought, cost_of, told_of, with_row
from tests.journeys.flow_plans import example
from tests.many import many
from tidestead.build.cost.boards import ALIKE, laid_of, stack_of
from tidestead.build.cost.ensemble import Three
from tidestead.build.cost.offers import Money, Offer
from tidestead.build.cost.tables import cash_lines
from tidestead.build.lists import Line
from tidestead.core.answer import Estimate
from tidestead.plan.items import Item

PLY = Item("layer", "plywood")
EUR = Money("EUR", {})


def board(thick: float, price: float | None, owned: float = 0.0, at_most: int | None = None) -> Offer:
    """Of 2.5 x 1.25 m."""
    three = None if price is None else Three(price, price, price)
    return Offer(f"book.{1e3 * thick:g}", PLY, three, "EUR", "m3", (2.5, 1.25, thick), owned, at_most)


def layer(area: float, thick: float, what: str = "a wall") -> Line:
    amount = Estimate.exact(area * thick)
    return Line(PLY, amount, "m3", what, "building", "building", "house", basis="so much", thick=thick)


def test_eighteen_is_not_made_of_twelve() -> None:
    """By volume 20 m2 of 18 mm would be 9.6 boards of 12 mm, and no wall of them is 18 mm thick."""
    (one,) = laid_of([layer(20.0, 0.018)], [board(0.012, 44.0)], EUR)
    assert one.buys == ()
    assert one.missing == "18 mm thick is not made of whole boards as they are sold, 12 mm"


def test_eighteen_is_two_of_nine() -> None:
    """20 m2 twice and a tenth for cuts: 44/3.125 = 14.1, fifteen boards."""
    (one,) = laid_of([layer(20.0, 0.018)], [board(0.012, 44.0), board(0.009, 30.0)], EUR)
    assert [(buy.offer.row, buy.count) for buy in one.buys] == [("book.9", 15.0)]
    assert one.lines[0].basis == "so much, 2 layers of book.9"


def test_boards_that_are_there_are_laid_first() -> None:
    """22 m2 with cuts: 7.04, eight."""
    (one,) = laid_of([layer(20.0, 0.018)], [board(0.018, 63.0, owned=4.0)], EUR)
    assert [(buy.count, buy.here) for buy in one.buys] == [(4.0, 4.0)]
    (few,) = laid_of([layer(20.0, 0.018)], [board(0.018, 63.0, at_most=5)], EUR)
    assert few.missing.startswith("cannot all be had")
    (bare,) = laid_of([layer(20.0, 0.018)], [board(0.018, None, owned=4.0)], EUR)
    assert bare.missing == "has no price for what is not there"


def test_thicknesses_that_share_a_board_are_rounded_up_once() -> None:
    """10 m2 of 12 mm and of 24 mm: 10 + 20 m2 with cuts are 10.56 boards, eleven and not four and eight; one part of
    three and two.

    A layer told twice in one wall is two layers.
    """
    lines = [layer(10.0, 0.012), layer(10.0, 0.024, "another")]
    (one,) = laid_of(lines, [board(0.012, 44.0)], EUR)
    assert [buy.count for buy in one.buys] == [11.0]
    assert one.shares == pytest.approx((1.0 / 3.0, 2.0 / 3.0))
    (twice,) = laid_of([lines[0], lines[0]], [board(0.012, 44.0)], EUR)
    assert [buy.count for buy in twice.buys] == [8.0]


def dotted(counts: Iterable[int], values: Iterable[int]) -> int:
    return sum(count * value for count, value in zip(counts, values, strict=True))


@given(
    st.lists(st.sampled_from([6, 9, 12, 15, 18, 21]), min_size=1, max_size=4, unique=True),
    st.integers(6, 60),
    st.lists(st.integers(10, 90), min_size=4, max_size=4),
)
@settings(max_examples=many(300, 60), deadline=None)
def test_a_stack_is_the_cheapest_that_is_as_thick(sold: list[int], wanted: int, prices: list[int]) -> None:
    """Against every stack there is."""
    found = stack_of(wanted / 1e3, [one / 1e3 for one in sold], [float(one) for one in prices[: len(sold)]])
    every = [
        counts
        for counts in itertools.product(*(range(wanted // one + 1) for one in sold))
        if sum(count * one for count, one in zip(counts, sold, strict=True)) == wanted
    ]
    assert (found is None) == (not every)
    if found is not None:
        cost = min(dotted(counts, prices[: len(sold)]) for counts in every)
        assert abs(dotted(found, sold) - wanted) / 1e3 < ALIKE
        assert dotted(found, prices[: len(sold)]) == cost


def test_boards_of_the_skerry_house() -> None:
    """Back wall 7.2 x 3.4 = 24.48 m2 of 18 mm, left end 4.6 x (2.3 + 3.4)/2 = 13.11 m2 of 18 and of 12 mm: with a
    tenth for cuts 41.35/3.125 = 13.2, fourteen of 18 mm; 4.6, five of 12 mm.
    """
    found = [one for one in cost_of(example("skerry")).purchase.once if one.item == PLY]
    counts = {buy.offer.row: buy.count for one in found for buy in one.buys}
    assert counts == {"book.boards": 5.0, "book.boards-18": 14.0}
    money = {
        row.line.what: row.money for row in cash_lines(cost_of(example("skerry"))) if row.line.item == PLY
    }
    assert money["plywood 12 mm, the left end"] == pytest.approx(5 * 44.0)
    assert money["plywood 18 mm, the back"] == pytest.approx(14 * 63.0 * 24.48 / 37.59)


def test_a_thickness_that_nothing_makes_marks_the_total() -> None:
    text = with_row("skerry", "boards-18", None)
    without = cost_of(text)
    (bare,) = (one for one in without.purchase.unpriced)
    assert bare.needed == pytest.approx(37.59 * 0.018)
    assert "cannot be bought as it is sold" in told_of(text).sentence
    assert "18 mm thick" in bare.missing


def test_what_is_loose_fills_any_thickness() -> None:
    """Wool by the bag of 0.29 m3: 37.59 m2 of 100 mm and a tenth for cuts, 14.3."""
    assert bought(cost_of(example("skerry")), "layer mineral-wool").buys[0].count == 15.0
