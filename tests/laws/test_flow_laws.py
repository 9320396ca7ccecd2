"""Laws of elements: they rise with flow, their slopes are those of their heads, losses turn with the flow."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.flow_networks import CURVE, pipe
from tests.many import many
from tidestead.physics.flow.fittings import FittingLaw, StrainerLaw
from tidestead.physics.flow.laws import SeriesLaw
from tidestead.physics.flow.pipes import HazenWilliamsLaw, PipeLaw
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw

LAWS = [
    PipeLaw(3.0, 0.0409, 1.5e-6, 0.94e-6),
    PipeLaw(3.0, 0.0409, 1e-4, 0.94e-6, 7.0),
    PipeLaw(0.1, 0.0158, 0.0, 1.4e-6),
    HazenWilliamsLaw(3.0, 0.05, 140.0, 1.0),
    FittingLaw(2.0, 0.03),
    StrainerLaw(2.0, 0.03, 0.4),
    CURVE,
    PumpLaw(CURVE.points, 0.7),
    PowerPumpLaw(8.0, 2e5, 1.8, 0.9),
    SeriesLaw((pipe(1.0, 0.03), FittingLaw(2.0, 0.03), CURVE)),
]


@given(law=st.sampled_from(LAWS), flow=st.floats(1e-9, 8e-3), more=st.floats(1e-4, 1.0))
@settings(deadline=None, max_examples=many(300))
def test_laws_rise_with_flow(law: PipeLaw, flow: float, more: float) -> None:
    near, far = law.at(flow), law.at(flow * (1.0 + more))
    assert far.head > near.head - 1e-15 * abs(near.head)
    assert near.slope >= 0.0


@given(law=st.sampled_from(LAWS), flow=st.floats(1e-6, 8e-3), back=st.booleans())
@settings(deadline=None, max_examples=many(300))
def test_slopes_are_those_of_the_heads(law: PipeLaw, flow: float, back: bool) -> None:
    flow = -flow if back else flow
    step = 1e-6 * abs(flow)
    rise = (law.at(flow + step).head - law.at(flow - step).head) / (2.0 * step)
    knees = [abs(flow - point.flow * share) for point in CURVE.points for share in (1.0, 0.7)]
    if min(knees) > 2.0 * step:
        assert law.at(flow).slope == pytest.approx(rise, rel=1e-4, abs=1e-4 * (1.0 + abs(law.at(flow).head)))


@given(law=st.sampled_from([one for one in LAWS if "Pump" not in repr(one)]), flow=st.floats(0.0, 8e-3))
@settings(deadline=None, max_examples=many(100))
def test_losses_turn_with_the_flow(law: PipeLaw, flow: float) -> None:
    assert law.at(-flow).head == -law.at(flow).head
    assert law.at(-flow).slope == law.at(flow).slope
