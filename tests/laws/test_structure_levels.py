"""The search for the highest safe level, on checks whose use is known at every level."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.studies.structure import levels

MOST_LOOKS = 36
"""Halving from the least depth to four metres takes eleven, and every third look halves; the ends are two more. So
many are met only where a check jumps."""


def search(laws: list[tuple[float, float, float]], top: float) -> tuple[float | None, int]:
    """Checks with use (level/root)**power, and nothing below `start`; the level found and how many were looked at."""
    looked: set[float] = set()

    def judged(level: float) -> list[Any]:
        looked.add(level)
        return [
            SimpleNamespace(
                by_level=True,
                use=(level / root) ** power if level > start else 0.0,
                check=SimpleNamespace(id=str(at), near=0.2),
            )
            for at, (root, power, start) in enumerate(laws)
        ]

    return levels._highest(levels._Reach(judged, sound=False), top, ()), len(looked)


LAW = st.tuples(st.floats(0.02, 6.0), st.floats(0.3, 6.0), st.sampled_from([0.0, 0.3, 1.0]))


@given(laws=st.lists(LAW, min_size=1, max_size=5), top=st.floats(0.5, 4.0))
@settings(deadline=None, max_examples=many(300))
def test_the_level_is_the_first_crossing(laws: list[tuple[float, float, float]], top: float) -> None:
    """A check that starts late crosses where it starts, or at its root."""
    found, looked = search(laws, top)
    true = min(max(root, start) for root, _, start in laws)
    if true >= top:
        assert found == top
    elif true < levels.LEAST:
        assert found is None
    else:
        assert found is not None
        assert true - levels.CLOSE - 1e-12 <= found <= true + 1e-12
    assert looked <= MOST_LOOKS


def test_a_power_law_takes_few_looks() -> None:
    found, looked = search([(0.9, 2.7, 0.0)], 1.4)
    assert found == pytest.approx(0.9, abs=levels.CLOSE)
    assert looked <= 5


def test_two_power_laws_that_take_turns() -> None:
    found, looked = search([(0.9, 1.1, 0.0), (0.95, 5.0, 0.0), (1.0, 2.0, 0.3)], 1.4)
    assert found == pytest.approx(0.9, abs=levels.CLOSE)
    assert looked <= 6
