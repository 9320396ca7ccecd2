"""One drain blocked and the most water coming that what is uncertain allows: by hand, and judged by it."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of
from tidestead.core.answer import Verdict
from tidestead.physics.flow.weirs import WeirLaw, weir_head
from tidestead.plan import loads
from tidestead.studies.flow.adverse import most_water
from tidestead.studies.flow.elements import stock_of
from tidestead.studies.flow.solving import solve
from tidestead.studies.flow.water_kind import water_kind

TWO_EDGES = changed(
    SMALL,
    ('open = "100 %"', 'open = "50 %"'),
    ("ports.jet = {", 'ports.other = { kind = "weir", level = "0.80 m", length = "1.5 m" }\nports.jet = {'),
    ("[targets]", '[circuits.beside]\nstart = "tank.other"\nend = "sump.fall2"\n\n[targets]'),
    (
        'ports.fall = { kind = "spill", level = "0.60 m" }',
        'ports.fall = { kind = "spill", level = "0.60 m" }\nports.fall2 = { kind = "spill", level = "0.60 m" }',
    ),
)


def test_level_over_the_edge_that_is_left_by_hand() -> None:
    """Two edges, one blocked: the most that the half open valve and the elbows let come, over the other one.

    That flow is the high end of the line's range, which has a check by hand of its own.
    """
    facts = facts_of(TWO_EDGES)
    drain = next(one for one in facts.drains if one.vessel == "tank")
    tight = drain.tightest["blocked", "beside"]
    assert facts.ranges is not None
    # the level of the tank moves the lift by millimetres: the jet lies under water
    assert tight.most == pytest.approx(facts.ranges.flow("up").high, rel=0.003)
    assert tight.most > 1.02 * drain.flow
    law = facts.line("down").links[0].over
    assert isinstance(law, WeirLaw)
    assert (law.weir.length, law.weir.height) == (1.5, 0.80)
    over = weir_head(law.weir, tight.most).high
    assert tight.highest == pytest.approx(1.0 + 0.80 + over, abs=1e-4)
    check = check_of(answer_of(TWO_EDGES), "flow.tank.drains.beside_blocked")
    assert check.estimate is not None
    assert check.estimate.low == pytest.approx(1.88 - tight.highest, abs=1e-9)
    assert check.estimate.likely == pytest.approx(1.88 - tight.level, abs=1e-9)


def test_a_spare_that_only_just_takes_the_likely_flow_fails() -> None:
    """A planted mistake: a spare 15 mm higher passes what likely comes, not what the valves may let come."""
    text = changed(
        example("skerry"),
        (
            'spare = { kind = "standpipe", level = "1.45 m" }',
            'spare = { kind = "standpipe", level = "1.465 m" }',
        ),
    )
    check = check_of(answer_of(text), "flow.tower.drains.outlet_blocked")
    assert check.estimate is not None
    assert check.estimate.likely > 0.010 > check.estimate.low
    assert check.verdict is Verdict.FAILS
    assert "a wider spare" in check.advice


@pytest.mark.parametrize("key", ["basin", "weirbox", "tower"])
def test_most_water_comes_and_the_siphons_valve_is_set_for_it(key: str) -> None:
    """More comes than likely, no more than the corners' most; the level that a valve sets stands where it was."""
    plan = loads(example("skerry")).plan
    facts = facts_of(example("skerry"))
    assert facts.running is not None
    assert facts.ranges is not None
    stock = stock_of(plan, water_kind(plan).kinematic_viscosity)
    lines = most_water(plan, stock, facts.lines, facts.fixed, facts.running, key)
    assert lines is not None
    running = solve(plan, lines, facts.fixed)
    assert facts.inflow[key] * 1.02 < running.inflow[key] < facts.ranges.inflow(key).high * 1.02
    assert running.levels["weirbox"] == pytest.approx(facts.levels["weirbox"], abs=0.002)


def test_a_valve_that_stands_all_but_open_can_be_set_no_further() -> None:
    """A siphon in narrow pipe, its valve at 98 %: the greater flow lifts the level before it."""
    text = changed(
        example("skerry"),
        ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "98 %" }'),
        (
            'route = ["pipe pvc-63-pn10 1.6 m", "elbow-90 x2", "valve siphon"]',
            'route = ["pipe pvc-50-pn10 1.6 m", "elbow-90 x2", "valve siphon"]',
        ),
    )
    plan, facts = loads(text).plan, facts_of(text)
    assert facts.running is not None
    stock = stock_of(plan, water_kind(plan).kinematic_viscosity)
    lines = most_water(plan, stock, facts.lines, facts.fixed, facts.running, "weirbox")
    assert lines is not None
    assert solve(plan, lines, facts.fixed).levels["weirbox"] > facts.levels["weirbox"] + 0.005
