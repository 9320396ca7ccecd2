"""Nails, screws and lag screws pulled out by the American rules against print."""

from __future__ import annotations

import operator
from typing import Any

import pytest

from tests.published.case import INCH, LB_PER_IN, Case
from tidestead.physics.structure import nds_fasteners, nds_withdrawal

NDS = "AWC, NDS-2018"
AWC = "AWC, Structural Wood Design Solved Example Problems (2015/2018)"
VALUE = operator.attrgetter("value")


def _withdrawal(of: Any, gravity: float, diameter: float, printed: float, to: float, said: str) -> Case:
    place, known = said.split("; ")
    return Case(
        f"{of.__name__.replace('_', ' ')}, G {gravity}, {diameter} in",
        of=of,
        given={"specific_gravity": gravity, "diameter": diameter * INCH},
        printed=printed,
        to=to,
        unit=LB_PER_IN,
        source=AWC if "example" in place else NDS,
        place=place,
        known=known,
    )


SMOOTH, STAINLESS = nds_withdrawal.smooth_nail_withdrawal, nds_withdrawal.stainless_nail_withdrawal
SCREW, LAG = nds_withdrawal.wood_screw_withdrawal, nds_withdrawal.lag_screw_withdrawal
RING = nds_withdrawal.ring_nail_withdrawal
EQ = "equation {}, computed by hand; computed"

FACTORS: list[tuple[str, nds_fasteners.Moisture, bool, bool, float]] = [
    ("smooth nail", "wets", False, False, 0.25),
    ("smooth nail", "dries", False, False, 0.25),
    ("stainless nail", "wet", False, False, 1.0),
    ("smooth nail", "wets", False, True, 0.67),
    ("wood screw", "wet", False, False, 0.7),
    ("lag screw", "dry", True, False, 0.75),
    ("wood screw", "dry", True, False, 0.0),
    ("ring nail", "dry", True, False, 0.0),
]
"""Kind, moisture, whether it is in end grain and toe-nailed, and the factor."""

CASES = [
    _withdrawal(SMOOTH, 0.42, 0.131, 20.67, 0.005, "example E2.1a; quoted"),
    _withdrawal(SMOOTH, 0.50, 0.162, 39.5, 0.05, EQ.format("12.2-3")),
    _withdrawal(SMOOTH, 0.55, 0.162, 50.2, 0.05, EQ.format("12.2-3")),
    _withdrawal(SMOOTH, 0.43, 0.162, 27.1, 0.05, EQ.format("12.2-3")),
    _withdrawal(SMOOTH, 0.42, 0.162, 25.6, 0.05, EQ.format("12.2-3")),
    _withdrawal(STAINLESS, 0.42, 0.162, 20.5, 0.05, EQ.format("12.2-4")),
    _withdrawal(STAINLESS, 0.50, 0.162, 26.6, 0.05, EQ.format("12.2-4")),
    _withdrawal(RING, 0.42, 0.148, 47.0, 0.05, EQ.format("12.2-5")),
    _withdrawal(SCREW, 0.50, 0.190, 135.0, 0.5, EQ.format("12.2-2")),
    _withdrawal(SCREW, 0.55, 0.190, 164.0, 0.5, EQ.format("12.2-2")),
    _withdrawal(SCREW, 0.42, 0.190, 96.0, 0.5, EQ.format("12.2-2")),
    _withdrawal(LAG, 0.50, 0.5, 378.0, 0.5, "Table 12.2A; recalled"),
    _withdrawal(LAG, 0.50, 0.375, 305.0, 0.5, "Table 12.2A; recalled"),
    Case(
        "1/2 in lag screw, 4 in long, through a 2x, Southern Pine",
        of=nds_withdrawal.withdrawal_value,
        given={
            "kind": "lag screw",
            "specific_gravity": 0.55,
            "diameter": 0.5 * INCH,
            "held": (4.0 - 1.5 - 0.3125) * INCH,
            "conditions": nds_fasteners.JointConditions(1.0),
        },
        printed=4247.94,
        to=0.005,
        pick=VALUE,
        source=AWC,
        place="example E2.3",
        known="quoted",
    ),
    *[
        Case(
            f"{kind} pulled, {moisture}{', end grain' if end_grain else ''}{', toe-nailed' if toe else ''}",
            of=nds_withdrawal.withdrawal_factor,
            given={
                "kind": kind,
                "conditions": nds_fasteners.JointConditions(
                    1.0, moisture=moisture, end_grain=end_grain, toe_nailed=toe
                ),
            },
            printed=printed,
            to=0.002,
            source=NDS,
            place="Table 11.3.3, 12.5.2 and 12.5.4",
            known="quoted",
        )
        for kind, moisture, end_grain, toe, printed in FACTORS
    ],
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_withdrawal_agrees_with_print(case: Case) -> None:
    assert case.holds(), case.ours()


def test_screw_in_end_grain_says_why_it_counts_for_nothing() -> None:
    pulled = nds_withdrawal.withdrawal_value(
        "wood screw", 0.42, 0.005, 0.05, nds_fasteners.JointConditions(0.9, end_grain=True)
    )
    assert pulled.value == 0.0
    assert "end grain" in pulled.reason
