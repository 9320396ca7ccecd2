"""A formula two percent off must be caught by print: every formula with a published case, not a sample."""

from __future__ import annotations

import pytest

from tests.house.proofs import proven_by_print
from tests.published.case import Case

OFF = 1.02
BY_PRINT = {name: [case for case in cases if not case.differs] for name, cases in proven_by_print().items()}


@pytest.mark.parametrize("name", sorted(BY_PRINT))
def test_two_percent_off_breaks_a_case(name: str) -> None:
    cases = BY_PRINT[name]
    assert cases, f"{name}: every case of it differs from print, so nothing holds it"
    assert any(not case.holds(OFF) for case in cases), f"{name}: no case notices a result 2 % too large"


def test_a_blunt_case_is_noticed() -> None:
    """The check itself: a tolerance of five percent hides a fault of two."""
    blunt = Case("blunt", lambda: 100.0, {}, 100.0, 5.0, "made up", "here", "computed")
    sharp = Case("sharp", lambda: 100.0, {}, 100.0, 0.5, "made up", "here", "computed")
    assert blunt.holds(OFF)
    assert sharp.holds()
    assert not sharp.holds(OFF)
