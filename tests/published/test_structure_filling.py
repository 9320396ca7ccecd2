"""Bow at the steps of the first fill against handbook formulas."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest

from tests.published.case import Case
from tidestead.physics.structure import filling

HANDBOOK = "handbook of beams: cantilever under a load that grows to its foot, end bow w h4/(30 E I)"


def _post(depth: float) -> float:
    """Bow at the water line of a post fixed at its foot, in units of its bow when full at 1 m.

    w grows with the depth, so that the bow grows with its fifth power.
    """
    return depth**5


def _at_once(number: int) -> Callable[[Sequence[filling.FillStep]], float]:
    """What reads the bow at one step, before it creeps."""
    return lambda steps: steps[number].at_once


CASES = [
    Case(
        f"post at {printed_share}",
        of=filling.fill_steps,
        given={"bow_at": _post, "depth": 1.0, "creep_rise": 1.0},
        printed=printed,
        to=to,
        pick=_at_once(number),
        source=HANDBOOK,
        place="bow at the water line over the bow when full",
        known="recalled",
    )
    for number, (printed_share, printed, to) in enumerate(
        [
            ("a quarter", 0.00098, 0.000005),
            ("a half", 0.03125, 0.000005),
            ("three quarters", 0.2373, 0.00005),
            ("the top", 1.0, 0.0005),
        ]
    )
] + [
    Case(
        "lasting bow of wood in a humid house",
        of=filling.fill_steps,
        given={"bow_at": _post, "depth": 1.0, "creep_rise": 2.0},
        printed=2.0,
        to=0.005,
        pick=lambda steps: steps[-1].lasting,
        source="AWC, NDS-2018, section 3.5.2",
        place="creep factor 2.0 for unseasoned or wet lumber",
        known="read",
    ),
    Case(
        "reading to stop at, of a post that bows 1 m and creeps to 2 m",
        of=filling.fill_steps,
        given={"bow_at": _post, "depth": 1.0, "creep_rise": 2.0},
        printed=1.2505,
        to=0.00005,
        pick=lambda steps: steps[-1].stop_above,
        source="common practice, no source",
        place="bow at once, a quarter of the creep to come, half a millimetre of reading error",
        known="practice",
    ),
    Case(
        "hours at the top",
        of=filling.fill_steps,
        given={"bow_at": _post, "depth": 1.0, "creep_rise": 2.0},
        printed=72.0,
        to=0.5,
        pick=lambda steps: steps[-1].hold,
        source="common practice, no source",
        place="hold of 24 to 72 hours",
        known="practice",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
