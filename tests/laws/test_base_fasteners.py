"""The busiest fastener at the foot of a wall, by hand: it may stand right behind a jamb, and closer never is worse."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.studies.structure.base_checks import busiest, rows_along, shares
from tidestead.studies.structure.patches import Patch

LENGTH = 3.6
EVEN = Patch(0.0, LENGTH, 2000.0, 2000.0)


def foot(at: float, force: float, wide: float) -> Patch:
    """A jamb's foot."""
    return Patch(at - wide / 2.0, at + wide / 2.0, force / wide, force / wide)


@pytest.mark.parametrize("at", [0.9, 1.0, 1.05, 1.35])
@pytest.mark.parametrize("bays", [9, 12, 18])
def test_a_fastener_behind_a_jamb_takes_what_the_lever_gives(at: float, bays: int) -> None:
    """By hand: 5 kN over b = 0.15 m, fasteners s apart, one in the middle of the foot. Of a load x beside it a
    fastener takes 1 - x/s, which is 1 - b/(4 s) on the mean of the foot; of 2 kN/m it takes its bay.
    """
    bay, wide, force = LENGTH / bays, 0.15, 5000.0
    by_hand = force * (1.0 - wide / (4.0 * bay)) + 2000.0 * bay
    assert busiest([EVEN, foot(at, force, wide)], LENGTH, bay, 0) == pytest.approx(by_hand, rel=1e-3)


@given(
    st.floats(0.4, 3.2),
    st.floats(0.05, 0.25),
    st.lists(st.integers(4, 60), min_size=2, max_size=2, unique=True),
)
def test_closer_fasteners_never_bear_more(at: float, wide: float, bays: list[int]) -> None:
    few, many = sorted(bays)
    loads = [EVEN, foot(at, 5000.0, wide)]
    assert busiest(loads, LENGTH, LENGTH / many, 0) <= busiest(loads, LENGTH, LENGTH / few, 0) * 1.002 + 1.0


@given(st.floats(0.4, 3.2), st.integers(4, 40))
def test_every_row_carries_the_whole(at: float, bays: int) -> None:
    loads = [EVEN, foot(at, 5000.0, 0.1)]
    rows = rows_along(loads, LENGTH, LENGTH / bays)
    assert len(rows) == 1 + len(loads)
    for row in rows:
        assert row == sorted(row)
        assert max(two - one for one, two in pairwise(row)) <= LENGTH / bays + 1e-3
        assert sum(shares(loads, row)) == pytest.approx(2000.0 * LENGTH + 5000.0, rel=1e-6)
