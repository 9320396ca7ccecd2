"""Laws that plans of lengths keep, and that their checker notices when they do not."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.build.cutting.check_lengths import check_lengths
from tidestead.build.cutting.lengths import Bar, LengthPlan, Need, Saw, Stock, cut_lengths
from tidestead.build.cutting.lengths_refused import too_long
from tidestead.core.errors import ImpossibleInput, QuantityError

FOOT = 0.3048
SAW = Saw(0.003, 0.01, 0.3)
STUDS = (Stock("8 ft", 8 * FOOT, 4.0), Stock("12 ft", 12 * FOOT, 6.5), Stock("left over", 1.9, 0.0, 2))
LIST = (Need("stud", 1.3, 5), Need("rafter", 2.05, 3), Need("block", 0.356, 7))

pieces = st.lists(
    st.tuples(st.floats(0.05, 2.3), st.integers(1, 4)), min_size=1, max_size=4, unique_by=lambda one: one[0]
)
kerfs = st.sampled_from([0.0, 0.003, 0.004])


def needed(drawn: list[tuple[float, int]]) -> list[Need]:
    return [Need(f"m{at}", length, count) for at, (length, count) in enumerate(drawn)]


@given(pieces, kerfs, st.integers(0, 3), st.floats(2.0, 9.0))
@settings(max_examples=many(100, 25), deadline=None)
def test_plans_hold_and_lose_no_wood(
    drawn: list[tuple[float, int]], kerf: float, on_hand: int, price: float
) -> None:
    needs, saw = needed(drawn), Saw(kerf, 0.01, 0.3)
    stocks = [Stock("8 ft", 2.4384, price), Stock("10 ft", 3.048, 5.2), Stock("left over", 1.6, 0.0, on_hand)]
    plan = cut_lengths(needs, stocks, saw)
    assert check_lengths(plan, needs, stocks, saw) == ()
    assert 0.0 <= plan.bound <= plan.cost
    assert plan.proven == (plan.gap == 0.0)
    left = math.fsum(bar.times * bar.offcut for bar in plan.bars)
    dust = plan.stock_length - plan.trimmed - plan.net_length - left
    cuts = sum(bar.times * len(bar.marks) for bar in plan.bars)
    assert -1e-6 <= dust <= cuts * kerf + 1e-6
    kept = math.fsum(length * times for length, times in plan.kept)
    assert plan.waste == pytest.approx(plan.trimmed + dust + left - kept, abs=1e-6)


@given(pieces, kerfs)
@settings(max_examples=many(60, 12), deadline=None)
def test_a_longer_cheaper_stock_costs_no_more(drawn: list[tuple[float, int]], kerf: float) -> None:
    needs, saw = needed(drawn), Saw(kerf, 0.0, 0.3)
    stocks = [Stock("8 ft", 2.4384, 4.0), Stock("9 ft", 2.7432, 4.9)]
    before = cut_lengths(needs, stocks, saw)
    after = cut_lengths(needs, [*stocks, Stock("12 ft", 3.6576, 3.9)], saw)
    assert before.proven
    assert after.cost <= before.cost


@given(pieces, kerfs)
@settings(max_examples=many(60, 12), deadline=None)
def test_the_order_of_the_list_changes_no_cost(drawn: list[tuple[float, int]], kerf: float) -> None:
    needs, saw = needed(drawn), Saw(kerf, 0.0, 0.3)
    assert cut_lengths(needs[::-1], STUDS[::-1], saw).cost == pytest.approx(
        cut_lengths(needs, STUDS, saw).cost
    )


@given(st.floats(0.01, 0.5), st.integers(1, 9), kerfs)
@settings(max_examples=many(60, 20), deadline=None)
def test_the_last_piece_needs_no_kerf(length: float, count: int, kerf: float) -> None:
    """A length made for so many pieces and one cut fewer takes them all; a nanometre shorter or two, it does not."""
    exact = count * length + (count - 1) * kerf
    needs, saw = [Need("piece", length, count)], Saw(kerf, 0.0, 0.3)
    assert cut_lengths(needs, [Stock("exact", exact + 1e-8, 1.0)], saw).cost == 1.0
    if count > 1:
        assert cut_lengths(needs, [Stock("short", exact - 2e-8, 1.0)], saw).cost == 2.0


@pytest.mark.parametrize("sixteenths", [1, 5, 16, 57])
def test_inches_fit_exactly(sixteenths: int) -> None:
    inch = 0.0254
    length = sixteenths * inch / 16
    plan = cut_lengths(
        [Need("piece", length, 12)], [Stock("twelve", 12 * sixteenths * inch / 16, 1.0)], Saw(0.0, 0.0, 0.1)
    )
    assert (plan.cost, plan.bars[0].offcut) == (1.0, 0.0)


def test_trim_comes_off_once_for_both_ends() -> None:
    needs, stocks = [Need("piece", 1.0, 2)], [Stock("two", 2.0, 1.0)]
    assert cut_lengths(needs, stocks, Saw(0.0, 0.0, 0.1)).cost == 1.0
    assert cut_lengths(needs, stocks, Saw(0.0, 1e-6, 0.1)).cost == 2.0


def test_what_is_on_hand_is_taken_first_and_not_overdrawn() -> None:
    plan = cut_lengths([Need("piece", 0.9, 7)], [Stock("new", 2.0, 3.0), Stock("old", 1.0, 0.0, 4)], SAW)
    taken = [sum(bar.times for bar in plan.bars if bar.stock.name == name) for name in ("new", "old")]
    assert taken in ([2, 3], [2, 4])
    assert plan.cost == 6.0


def test_the_shortest_of_what_costs_nothing_is_cut() -> None:
    stocks = [Stock("long", 5.0, 0.0, 1), Stock("short", 0.6, 0.0, 1), Stock("new", 3.0, 4.0)]
    plan = cut_lengths([Need("piece", 0.5, 1)], stocks, SAW)
    assert [bar.stock.name for bar in plan.bars] == ["short"]


def test_the_same_list_gives_the_same_plan() -> None:
    assert cut_lengths(LIST, STUDS, SAW) == cut_lengths(LIST, STUDS, SAW)


def test_nothing_wanted_costs_nothing() -> None:
    plan = cut_lengths([], STUDS, SAW)
    assert (plan.bars, plan.cost, plan.proven, plan.waste) == ((), 0.0, True, 0.0)


def test_it_tells_how_far_it_is_and_can_be_stopped() -> None:
    told: list[tuple[int, int]] = []
    cut_lengths(LIST, STUDS, SAW, tick=lambda done, of: told.append((done, of)))
    assert told == sorted(told)
    assert told[-1] == (100, 100)

    def stop(done: int, of: int) -> None:
        raise QuantityError("stopped", "", "")

    with pytest.raises(QuantityError):
        cut_lengths(LIST, STUDS, SAW, tick=stop)


def test_without_time_there_is_still_a_plan_that_holds() -> None:
    plan = cut_lengths(LIST, STUDS, SAW, budget_s=0.0)
    assert check_lengths(plan, LIST, STUDS, SAW) == ()
    assert plan.bound <= plan.cost


REFUSED: list[tuple[tuple[Need, ...], tuple[Stock, ...], Saw, str]] = [
    ((Need("beam", 4.2, 1),), STUDS, SAW, "beam is 4200 mm .* long; .* 3657.6 mm = 12 ft, 3647.6 .*trimmed. Splice"),
    ((Need("beam", 3.65, 1),), STUDS, SAW, "add a longer stock"),
    ((Need("beam", -1.0, 1),), STUDS, SAW, "beam must have a length of more than nothing, got -1 m"),
    ((Need("beam", 0.0, 1),), STUDS, SAW, "more than nothing"),
    ((Need("beam", math.nan, 1),), STUDS, SAW, "more than nothing, got nan"),
    ((Need("beam", 1.0, 0),), STUDS, SAW, "wanted once or more, in whole pieces, got 0"),
    ((Need("beam", 1.0, -3),), STUDS, SAW, "got -3"),
    ((Need("beam", 1.0, 1), Need("beam", 1.1, 1)), STUDS, SAW, "beam is given twice"),
    (LIST, (), SAW, "no stock to cut stud from"),
    (LIST, (Stock("new", -2.0, 1.0),), SAW, "new must have a length of more than nothing"),
    (LIST, (Stock("new", 3.0, -1.0),), SAW, "new must have a price of nothing or more, got -1"),
    (LIST, (Stock("new", 3.0, 0.0),), SAW, "new costs nothing and has no end"),
    (LIST, (Stock("new", 3.0, 1.0, -2),), SAW, "on hand in whole lengths, none or more, got -2"),
    (LIST, (Stock("new", 3.0, 1.0), Stock("new", 3.0, 1.0)), SAW, "given twice alike"),
    (LIST, STUDS, Saw(-0.003, 0.0, 0.3), "kerf must be a length of nothing or more"),
    (LIST, STUDS, Saw(0.003, -1.0, 0.3), "trim must be"),
    (LIST, STUDS, Saw(0.003, 0.0, -0.3), "least useful off-cut must be"),
    ((Need("stud", 1.0, 3),), (Stock("old", 1.5, 0.0, 2),), SAW, "not give all pieces.*1 of 1000 mm .*stud. uncut"),
    ((Need("stud", 1.0, 3),), (Stock("old", 1.5, 0.0, 0),), SAW, "no stock to cut stud from"),
]  # fmt: skip


@pytest.mark.parametrize(("needs", "stocks", "saw", "told"), REFUSED)
def test_what_cannot_be_is_told(
    needs: tuple[Need, ...], stocks: tuple[Stock, ...], saw: Saw, told: str
) -> None:
    with pytest.raises(ImpossibleInput, match=told):
        cut_lengths(needs, stocks, saw)


def test_pieces_that_are_too_long_are_named_beforehand() -> None:
    beam = Need("beam", 3.65, 1)
    assert too_long((*LIST, beam), STUDS, SAW) == [beam]


def first(plan: LengthPlan, **changes: object) -> LengthPlan:
    """The plan with its first bar changed."""
    bar = dataclasses.replace(plan.bars[0], **changes)  # type: ignore[arg-type]  # changes of any sort, on purpose
    return dataclasses.replace(plan, bars=(bar, *plan.bars[1:]))


def bar(plan: LengthPlan) -> Bar:
    return plan.bars[0]


TAMPERED: list[tuple[str, Callable[[LengthPlan], LengthPlan], str]] = [
    ("a piece less", lambda plan: first(plan, marks=bar(plan).marks[1:]), "rafter is cut 0 times, and wanted 3 times"),
    ("a length more", lambda plan: first(plan, times=bar(plan).times + 1), "and wanted"),
    ("a mark unknown", lambda plan: first(plan, marks=(*bar(plan).marks, "lid")), "lid is cut and not wanted"),
    ("too much on it", lambda plan: first(plan, stock=Stock("short", 1.0, 4.0)), "m longer than it is"),
    ("a stock unknown", lambda plan: first(plan, stock=Stock("odd", 9.0, 4.0)), "odd is not among the stock"),
    ("another off-cut", lambda plan: first(plan, offcut=bar(plan).offcut + 1e-6), "its off-cut is told as"),
    ("no off-cut", lambda plan: first(plan, offcut=math.nan), "its off-cut is told as nan"),
    ("never cut", lambda plan: first(plan, times=0), "is cut 0 times"),
    ("nothing cut of it", lambda plan: first(plan, marks=()), "nothing is cut of it"),
    ("another order", lambda plan: first(plan, marks=("block", *bar(plan).marks)), "not cut longest first"),
    ("another cost", lambda plan: dataclasses.replace(plan, cost=plan.cost + 0.01), "Its cost is told as"),
    ("a bound above", lambda plan: dataclasses.replace(plan, bound=plan.cost + 1.0), "that no plan is below"),
    ("another gap", lambda plan: dataclasses.replace(plan, gap=0.5, proven=False), "Its gap is told as"),
    ("proven with a gap", lambda plan: dataclasses.replace(plan, gap=0.5), "called proven, and there is a gap"),
]  # fmt: skip


@pytest.mark.parametrize(("tamper", "told"), [row[1:] for row in TAMPERED], ids=[row[0] for row in TAMPERED])
def test_a_plan_that_was_tampered_with_is_noticed(
    tamper: Callable[[LengthPlan], LengthPlan], told: str
) -> None:
    plan = cut_lengths(LIST, STUDS[:2], SAW)
    assert check_lengths(plan, LIST, STUDS[:2], SAW) == ()
    assert told in " ".join(check_lengths(tamper(plan), LIST, STUDS[:2], SAW))


def test_stock_on_hand_that_is_overdrawn_is_noticed() -> None:
    stocks = [Stock("old", 1.0, 0.0, 2)]
    plan = cut_lengths([Need("piece", 0.9, 2)], stocks, SAW)
    more = dataclasses.replace(plan, bars=(dataclasses.replace(plan.bars[0], times=3),))
    assert "old is cut 3 times, and 2 are on hand." in check_lengths(
        more, [Need("piece", 0.9, 3)], stocks, SAW
    )


def test_a_kerf_that_is_left_out_is_noticed() -> None:
    plan = cut_lengths([Need("piece", 0.5, 4)], [Stock("two", 2.0, 1.0)], Saw(0.0, 0.0, 0.3))
    told = check_lengths(plan, [Need("piece", 0.5, 4)], [Stock("two", 2.0, 1.0)], Saw(0.001, 0.0, 0.3))
    assert told == ("Bar 1 (two): its pieces and cuts are 0.003000 m longer than it is.",)
