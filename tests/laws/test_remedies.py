"""Laws of remedies: the cheapest cover is the cheapest, sizes read back, shares keep their unit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain, combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tidestead.core.answer import Check, Estimate, MustBe
from tidestead.core.source import STATICS
from tidestead.core.units import parse
from tidestead.report.wording import with_worst
from tidestead.trials.covering import Offer, cheapest_cover
from tidestead.trials.keys import apart
from tidestead.trials.moves.sizes import scaled, typed_length
from tidestead.trials.pricing import difference
from tidestead.trials.remedy import Priced, State

CHECKS = ("a", "b", "c", "d")
OFFERS = st.lists(
    st.builds(
        Offer,
        st.integers(0, 20).map(float) | st.sampled_from((1e6, 8e6, 1e9)),
        st.frozensets(st.sampled_from(CHECKS), min_size=1),
        st.frozensets(st.sampled_from(("k", "l", "m", "m.a", "m.b")), max_size=2),
    ),
    max_size=7,
)


@settings(deadline=None)
@given(OFFERS, st.frozensets(st.sampled_from(CHECKS)))
def test_no_set_of_offers_mends_more_or_is_cheaper(offers: list[Offer], first: frozenset[str]) -> None:
    """Against every set of them in which no two set the same key; none of those that fail is left for one near."""
    sets = chain.from_iterable(combinations(offers, count) for count in range(len(offers) + 1))
    best = min(_worth(taken, first) for taken in sets if _is_apart(taken))
    found = cheapest_cover(offers, CHECKS, first)
    taken = [offers[at] for at in found.taken]
    assert found.proven
    assert _is_apart(taken)
    assert _worth(taken, first) == best
    assert found.cost == best[2]
    for at in range(len(taken)):  # none is taken for nothing
        assert _worth([*taken[:at], *taken[at + 1 :]], first)[:2] > best[:2]


def test_a_dear_offer_makes_no_cheap_one_dearer() -> None:
    """Two at 10 each are less than one at 20.5, whatever a third costs."""
    cheap = [Offer(10.0, frozenset("a")), Offer(10.0, frozenset("b")), Offer(20.5, frozenset("ab"))]
    found = cheapest_cover([*cheap, Offer(1e9, frozenset("c"))], CHECKS)
    assert found.taken == (0, 1, 3)
    assert found.cost == 1e9 + 20.0


def test_one_that_fails_is_mended_before_two_that_are_near() -> None:
    """The two changes set one key, so that one of them alone can be made."""
    offers = [Offer(5.0, frozenset("a"), frozenset({"k"})), Offer(1.0, frozenset("bc"), frozenset({"k"}))]
    assert cheapest_cover(offers, CHECKS).taken == (1,)
    assert cheapest_cover(offers, CHECKS, frozenset("a")).taken == (0,)
    with pytest.raises(ValueError, match="no number"):
        cheapest_cover([*offers, Offer(math.inf, frozenset("d"))], CHECKS)


def _is_apart(taken: Sequence[Offer]) -> bool:
    """No two of them set the same, nor one a table and another something in it."""
    return not any(
        key == other or key.startswith(f"{other}.") or other.startswith(f"{key}.")
        for one, two in combinations(taken, 2)
        for key in one.sets
        for other in two.sets
    )


def _worth(taken: Sequence[Offer], first: frozenset[str]) -> tuple[int, int, float]:
    """How many that fail are mended and how many in all, and at what cost."""
    mended = frozenset(chain.from_iterable(one.mends for one in taken))
    return -len(mended & first), -len(mended), sum(one.cost for one in taken)


@given(st.integers(1, 4000))
def test_a_length_reads_back_in_either_system(sixteenths: int) -> None:
    inches = sixteenths / 16.0 * 0.0254
    assert parse(typed_length(inches, "us"), "length") == pytest.approx(inches, rel=1e-12)
    millimetres = sixteenths / 1e3
    assert parse(typed_length(millimetres, "metric"), "length") == pytest.approx(millimetres, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "factor", "most", "new"),
    [
        ("350 mL/day", 0.5, None, "175 mL/day"),
        ("48 %", 3.0, 100.0, "100 %"),
        ("1.3 cfm", 1.25, None, "1.62 cfm"),
        ("20 1/h", 2.0, None, "40 1/h"),
        ("3 1/2 in", 2.0, None, ""),
        ("100 %", 2.0, 100.0, ""),
    ],
)
def test_a_share_keeps_the_unit_that_was_typed(
    text: str, factor: float, most: float | None, new: str
) -> None:
    assert scaled(text, factor, most) == new


def test_a_price_difference_is_told_throw_by_throw() -> None:
    """Two sums that rise together: their difference is surer than the ends of each."""
    common = np.linspace(0.0, 1000.0, 1001)
    before = Priced(Estimate(100.0, 500.0, 900.0), "USD", sums=common)
    after = Priced(Estimate(140.0, 540.0, 940.0), "USD", sums=common + 40.0)
    found = difference(before, after)
    assert found is not None
    assert (found.cash.low, found.cash.likely, found.cash.high) == pytest.approx((40.0, 40.0, 40.0))


def test_a_price_difference_names_what_is_newly_without_a_price() -> None:
    before = Priced(Estimate(90.0, 100.0, 120.0), "USD", None, ("old thing",))
    after = Priced(Estimate(100.0, 130.0, 170.0), "USD", None, ("old thing", "sheet"))
    found = difference(before, after)
    assert found is not None
    assert (found.cash.low, found.cash.likely, found.cash.high) == (
        -20.0,
        30.0,
        80.0,
    )  # as far as they can be
    assert found.unpriced == ("sheet",)
    gone = difference(after, before)
    assert gone is not None
    assert gone.unpriced == ("sheet",)  # what it cost is not known: what is saved is no total
    assert difference(None, after) is None
    assert difference(Priced(before.cash, "EUR"), after) is None


@pytest.mark.parametrize(
    ("must_be", "ends", "told"),
    [
        ("below", (0.001, 0.0015, 0.0036), "1.5 mm (up to 3.6 mm)"),
        ("above", (0.001, 0.0015, 0.0036), "1.5 mm (down to 1 mm)"),
        ("below", (0.001, 0.0015, 0.0015), "1.5 mm"),
        ("within", (0.001, 0.0015, 0.0036), "1.5 mm"),
    ],
)
def test_a_state_tells_the_end_of_its_range_that_is_judged(
    must_be: MustBe, ends: tuple[float, float, float], told: str
) -> None:
    """Else what is used of a limit could not be reckoned from what stands beside it."""
    limit = (0.0, 0.004) if must_be == "within" else 0.004
    state = State.of(Check("a.b", "bow", "here", "m", Estimate(*ends), limit, STATICS, must_be=must_be))
    assert state.value is not None
    assert with_worst(state.value, state.worst, state.unit, "metric") == told


@pytest.mark.parametrize(
    ("mine", "theirs", "are_apart"),
    [
        ({"lamps.bars.power"}, {"lamps.bars.hours"}, True),
        ({"lamps.bars.power"}, {"lamps.bars.power"}, False),
        ({"airpumps.added"}, {"airpumps.added.share"}, False),
        ({"circuits.main[2].pipe"}, {"circuits.main[2]"}, False),
        ({"vessels.reef.walls.south"}, {"vessels.reef.walls.southern.studs"}, True),
        (set(), {"show"}, True),
    ],
)
def test_a_table_and_what_stands_in_it_are_not_changed_by_two(
    mine: set[str], theirs: set[str], are_apart: bool
) -> None:
    assert apart(mine, theirs) is are_apart
    assert apart(theirs, mine) is are_apart
