"""The flow that a head drives through parts in a row, against closed forms."""

from __future__ import annotations

import math

import pytest

from tests.published.case import FOOT, INCH, Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow.draining import driven_flow
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import SeriesLaw, ShutLaw
from tidestead.physics.flow.pumps import PowerPumpLaw

ENERGY = "energy equation, solved by hand"

PARABOLA = PowerPumpLaw(5.0, 5.0 / 0.005**2, 2.0)
"""5 m without flow, 5 L/s without head: Q = 5 L/s * sqrt(1 - H/5)."""

CASES = [
    Case("four velocity heads of 50 mm under 1 m: half the speed of free fall", driven_flow,
         {"law": FittingLaw(4.0, 0.05), "head": 1.0}, 4.3479, 5e-5, ENERGY, "pi/4*0.05**2*sqrt(2*9.80665/4)",
         "computed", unit=1e-3),
    Case("the same in inches and feet", driven_flow, {"law": FittingLaw(4.0, 2 * INCH), "head": 4 * FOOT}, 0.17501,
         5e-6, ENERGY, "0.0218166*sqrt(2*32.174*4/4) cfs", "computed", unit=FOOT**3),
    Case("two parts in a row count as one", driven_flow,
         {"law": SeriesLaw((FittingLaw(1.5, 0.05), FittingLaw(2.5, 0.05))), "head": 1.0}, 4.3479, 5e-5, ENERGY,
         "sum of K", "computed", unit=1e-3),
    Case("a pump that lifts 3.2 m of its 5: three fifths of its flow", driven_flow,
         {"law": PARABOLA, "head": -3.2}, 3.0, 5e-2, ENERGY, "5*sqrt(1 - 3.2/5)", "computed", unit=1e-3),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_driven_flow_holds_to_hand(case: Case) -> None:
    assert case.holds()


def test_what_does_not_move_has_no_flow() -> None:
    assert driven_flow(PARABOLA, -5.0) == 0.0
    assert driven_flow(FittingLaw(1.0, 0.05), 0.0) == 0.0
    assert driven_flow(SeriesLaw((FittingLaw(1.0, 0.05), ShutLaw())), 1.0) == 0.0
    with pytest.raises(ImpossibleInput, match="no head"):
        driven_flow(SeriesLaw(()), 1.0)


@pytest.mark.parametrize("head", [1e-6, 1e-3, 0.4, 3.0, 40.0])
def test_the_flow_found_loses_the_head(head: float) -> None:
    law = SeriesLaw((PARABOLA, FittingLaw(7.0, 0.04)))
    assert law.at(driven_flow(law, head - 4.0)).head == pytest.approx(head - 4.0, abs=1e-9)
    assert math.isfinite(driven_flow(law, head))
