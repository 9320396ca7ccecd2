"""The curve of a new system against its closed forms, where bacteria neither grow nor die."""

from __future__ import annotations

from math import exp, inf, log

import pytest
from scipy.special import lambertw

from tests.published.case import Case
from tidestead.physics.water import cycling
from tidestead.physics.water.cycling import CyclingCurve, NewWater, Nitrifier

CLOSED = "Monod's law integrated, by Lambert's W function"
ZERO = "even decay, by hand"
FIRST = "decay by shares, by hand"
FAST = Nitrifier(growth=0.0, half=0.5, decay=0.0, most=inf, start=1e3)


def _still(half: float, able: float) -> Nitrifier:
    return Nitrifier(growth=0.0, half=half, decay=0.0, most=inf, start=able)


def _left(start: float, half: float, able: float, days: float) -> float:
    """A where half*ln(A0/A) + A0 - A = c*t."""
    return half * float(lambertw(start / half * exp((start - able * days) / half)).real)


def _last(found: CyclingCurve) -> float:
    return float(found.ammonia[-1])


def _given(start: float, half: float, able: float, days: float) -> dict[str, object]:
    return {
        "water": NewWater(start, 0.0, 0.0, 0.0), "first": _still(half, able), "second": _still(0.5, 1.0),
        "until": days, "every": 0.5,
    }  # fmt: skip


def _curve_of(start: float, half: float, able: float, days: float) -> CyclingCurve:
    return cycling.cycling_curve(
        NewWater(start, 0.0, 0.0, 0.0), _still(half, able), FAST, until=days, every=0.01
    )


CASES = [
    Case("half at the half-saturation", cycling.monod, {"food": 0.7, "half": 0.7}, 0.5, 1e-12, ZERO, "C/(K + C)",
         "computed", why="exact"),
    *[Case(f"{start} mg/L, K {half}, c {able}: after {days} days", cycling.cycling_curve,
           _given(start, half, able, days), _left(start, half, able, days), 1e-8, CLOSED, "ammonia left", "computed",
           pick=_last, why="integration to 1e-10")
      for start, half, able, days in ((3.0, 0.5, 0.6, 4.0), (3.0, 0.5, 0.6, 7.0), (2.0, 2.0, 1.0, 5.0))],
    Case("plenty: 3 mg/L less 0.5 a day for 4 days", cycling.cycling_curve, _given(3.0, 1e-7, 0.5, 4.0), 1.0, 1e-6,
         ZERO, "3 - 0.5*4", "computed", pick=_last, why="the half-saturation is not quite nothing"),
    Case("scarce: 0.01 mg/L, a tenth a day for 10 days", cycling.cycling_curve, _given(0.01, 1e4, 1e3, 10.0), 3.6788,
         5e-5, FIRST, "10*exp(-1) ug/L", "computed", pick=_last, unit=1e-3),
    Case("2 mg/L until 0.5: 1.5 days and a little", cycling.days_until_low,
         {"curve": _curve_of(2.0, 1e-3, 1.0, 3.0), "level": 0.5}, 1.5 + 1e-3 * log(4.0), 1e-4, CLOSED, "days",
         "computed", why="straight between steps of 0.01 day"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_cycling_holds_to_closed_forms(case: Case) -> None:
    assert case.holds()
