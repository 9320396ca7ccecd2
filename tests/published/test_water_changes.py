"""Water changes against worked examples: what is left, how many, where it settles, warmth and salt of one."""

from __future__ import annotations

import math

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import changes
from tidestead.physics.water.changes import StepLimits
from tidestead.physics.water.salts import Body

MATTER = "balance of matter, by hand"
HAND = "worked by hand from densities and specific heats of TEOS-10"
TANK = Body(20.0, 35.0, 26.0)
COLD = Body(1.0, 35.0, 10.0)
ONE = StepLimits(1.0, 1.0)
PERCENT = 0.01
KWH = 3.6e6

CASES = [
    Case("ten changes of a tenth remove 65.132 %", changes.level_after_changes,
         {"start": 1.0, "incoming": 0.0, "share": 0.1, "changes": 10}, 34.868, 5e-4, MATTER, "0.9**10", "computed",
         unit=PERCENT),
    Case("with 5 in the new water", changes.level_after_changes,
         {"start": 50.0, "incoming": 5.0, "share": 0.2, "changes": 3}, 28.04, 0.005, MATTER, "5 + 45*0.512",
         "computed"),
    Case("44 changes of a tenth leave a hundredth", changes.changes_to_reach,
         {"start": 100.0, "incoming": 0.0, "goal": 1.0, "share": 0.1}, 44.0, 0.4, MATTER,
         "ln 0.01/ln 0.9 = 43.7", "computed"),
    Case("one volume run through removes 63.212 %", changes.level_after_flow,
         {"start": 1.0, "incoming": 0.0, "turned": 1.0}, 36.788, 5e-4, MATTER, "exp(-1)", "computed", unit=PERCENT),
    Case("run through to halve", changes.flow_to_reach, {"start": 40.0, "incoming": 0.0, "goal": 20.0}, 0.6931, 5e-5,
         MATTER, "ln 2", "computed"),
    Case("a tenth drained while filled", changes.share_together, {"exchanged": 0.1}, 9.516, 5e-4, MATTER,
         "1 - exp(-0.1)", "computed", unit=PERCENT),
    Case("a whole volume drained while filled", changes.share_together, {"exchanged": 1.0}, 63.212, 5e-4, MATTER,
         "1 - exp(-1)", "computed", unit=PERCENT),
    Case("a tenth filled, then drained", changes.share_filled_first, {"exchanged": 0.1}, 9.091, 5e-4, MATTER, "1/11",
         "computed", unit=PERCENT),
    Case("0.414 mg/L a day, a tenth each week, before", changes.settled_before,
         {"incoming": 0.0, "made": 0.414, "interval": 7.0, "share": 0.1}, 28.98, 0.005, MATTER, "p*D/f", "computed"),
    Case("0.414 mg/L a day, a tenth each week, after", changes.settled_after,
         {"incoming": 0.0, "made": 0.414, "interval": 7.0, "share": 0.1}, 26.082, 5e-4, MATTER, "p*D*(1 - f)/f",
         "computed"),
    Case("before, with 2 in the new water", changes.settled_before,
         {"incoming": 2.0, "made": 0.414, "interval": 7.0, "share": 0.1}, 30.98, 0.005, MATTER, "2 + p*D/f",
         "computed"),
    Case("after, with 2 in the new water", changes.settled_after,
         {"incoming": 2.0, "made": 0.414, "interval": 7.0, "share": 0.1}, 28.082, 5e-4, MATTER, "2 + p*D*(1 - f)/f",
         "computed"),
    Case("0.414 mg/L a day, a hundredth run through", changes.settled_flow,
         {"incoming": 2.0, "made": 0.414, "pace": 0.01}, 43.4, 0.05, MATTER, "2 + 41.4", "computed"),
    Case("weeks to within a twentieth", changes.days_to_settle_changes, {"interval": 7.0, "share": 0.1, "left": 0.05},
         203.0, 0.5, MATTER, "29 changes, 28.4 rounded up", "computed"),
    Case("a hundredth run through, to within a twentieth", changes.days_to_settle_flow, {"pace": 0.01, "left": 0.05},
         299.6, 0.05, MATTER, "ln 20/0.01", "computed"),
    Case("salinity after a tenth of 33 and 20 degC", changes.changed_water,
         {"tank": TANK, "new_psu": 33.0, "new_c": 20.0, "share": 0.1}, 34.8, 5e-4, HAND, "35 - 2*2046.5/20461.1",
         "computed", pick=lambda body: body.sal_psu),
    Case("temperature after a tenth of 33 and 20 degC", changes.changed_water,
         {"tank": TANK, "new_psu": 33.0, "new_c": 20.0, "share": 0.1}, 25.399, 5e-4, HAND, "26 - 6*8.1985/81.848",
         "computed", pick=lambda body: body.temp_c),
    Case("largest change with water 6 K colder", changes.largest_share,
         {"tank": TANK, "new_psu": 33.0, "new_c": 20.0, "limits": ONE}, 0.16641, 5e-6, HAND,
         "a sixth of the way by heat", "computed"),
    Case("largest change with water 5 less salty", changes.largest_share,
         {"tank": TANK, "new_psu": 30.0, "new_c": 25.0, "limits": ONE}, 0.20054, 5e-6, HAND,
         "a fifth of the way by weight", "computed"),
    Case("a cubic metre from 10 to 26 degC", changes.heat_to_warm, {"supply": COLD, "goal_c": 26.0}, 18.234, 5e-4, HAND,
         "1026.954*3994.93*16", "computed", unit=KWH),
    Case("by 6 kW", changes.hours_to_warm, {"supply": COLD, "goal_c": 26.0, "heater": 6000.0}, 3.039, 5e-4, HAND,
         "18.234/6", "computed"),
    Case("by 6 kW with 500 W lost", changes.hours_to_warm,
         {"supply": COLD, "goal_c": 26.0, "heater": 6000.0, "loss": 500.0}, 3.315, 5e-4, HAND, "18.234/5.5",
         "computed"),
    Case("a vat of 0.49 m3 for 20 m3", changes.vat_loads, {"needed": 20.0, "vat": 0.49}, 41.0, 0.4, "counting",
         "40.8 rounded up", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_changes_hold_to_print(case: Case) -> None:
    assert case.holds()


def test_a_goal_below_the_new_water_is_never_reached() -> None:
    assert math.isinf(changes.changes_to_reach(50.0, 10.0, 10.0, 0.2))
    assert math.isinf(changes.changes_to_reach(50.0, 10.0, 20.0, 0.0))
    assert math.isinf(changes.changes_to_reach(50.0, 10.0, 5.0, 1.0))
    assert math.isinf(changes.flow_to_reach(50.0, 10.0, 10.0))


def test_nothing_is_needed_where_nothing_is_to_do() -> None:
    assert changes.changes_to_reach(5.0, 0.0, 5.0, 0.1) == 0.0
    assert changes.changes_to_reach(5.0, 0.0, 1.0, 1.0) == 1.0
    assert changes.changes_to_reach(100.0, 0.0, 81.0, 0.1) == 2.0
    assert changes.flow_to_reach(5.0, 0.0, 6.0) == 0.0
    assert changes.heat_to_warm(TANK, 20.0) == changes.hours_to_warm(TANK, 20.0, 0.0) == 0.0
    assert changes.vat_loads(1.0, 0.1) == 10


def test_a_vat_that_loses_what_it_gets_is_never_warm() -> None:
    assert math.isinf(changes.hours_to_warm(COLD, 26.0, 400.0, 400.0))


def test_water_like_the_tank_may_be_changed_whole() -> None:
    assert changes.largest_share(TANK, 35.5, 26.5, ONE) == pytest.approx(1.0)
    assert changes.largest_share(TANK, 30.0, 26.0, StepLimits(1.0, 0.0)) == 0.0


@pytest.mark.parametrize("left", [0.0, -0.1, 1.1])
def test_no_way_is_gone_whole(left: float) -> None:
    with pytest.raises(ImpossibleInput, match="never reached"):
        changes.days_to_settle_flow(0.1, left)
    with pytest.raises(ImpossibleInput, match="never reached"):
        changes.days_to_settle_changes(7.0, 0.1, left)
