"""Overflows with water above their lip on the far side: the level is found with it, or nothing is proved with it."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of, loaded
from tidestead.core.answer import Verdict
from tidestead.studies.flow.doubts import doubts_of

DROWNED = changed(
    example("skerry"), ('floor = "0.65 m"', 'floor = "0.83 m"'), ('open = "42 %"', 'open = "38 %"')
)
"""The box behind the comb set higher and its siphon throttled, so that it backs up over the comb's crest."""

LIP = changed(
    SMALL,
    (
        'ports.edge = { kind = "weir", level = "0.80 m", length = "1.5 m" }',
        'ports.edge = { kind = "standpipe", level = "0.80 m" }',
    ),
    (
        'ports.fall = { kind = "spill", level = "0.60 m" }',
        'ports.fall = { kind = "outlet", level = "0.20 m" }',
    ),
    ('place = { floor = "0 m" }', 'place = { floor = "1.405 m" }'),
    ('open = "100 %"', 'open = "12 %"'),
)
"""A standpipe that ends under water 5 mm over its lip: too little to run full, too much to spill free."""


def test_level_before_a_drowned_comb_equals_a_hand_calculation() -> None:
    """USBR's coefficients in SI, slots narrowed as Francis has it, Villemonte's share: solved by halving."""
    facts = facts_of(DROWNED)
    flow, behind = facts.flows["comb"], facts.levels["weirbox"] - 1.260
    assert behind > 0.02

    def over(head: float) -> float:
        free = (
            0.5521 * (3.220 + 0.4000 * head / 1.160) * 50 * (0.012 - 0.2 * 0.004) * (head + 0.000914) ** 1.5
        )
        return float(free * (1.0 - (behind / head) ** 1.5) ** 0.385)

    low, high = behind, behind + 0.1
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if over(middle) < flow else (low, middle)
    assert facts.levels["basin"] - 1.260 == pytest.approx(low, abs=1e-5)
    head = next(one for one in facts.overflows if one.line == "comb")
    assert head.regime == "drowned"
    assert head.tail == pytest.approx(behind)


def test_a_drowned_weir_is_said_and_its_level_judged_with_what_it_backs_up_to() -> None:
    free, drowned = answer_of(example("skerry")), answer_of(DROWNED)
    check = check_of(drowned, "flow.basin.comb.head")
    assert "above its crest" in check.cautions[0]
    assert any("reckoned as drowned" in words for words in drowned.cautions)
    assert not any("drowned" in words for words in free.cautions)
    assert check.estimate is not None
    low, high = facts_of(DROWNED).overflows[1].tail, check.estimate.high
    assert check.estimate.low >= low
    assert high - check.estimate.likely > 0.01, (
        "nearly level: up to the free head on top of what stands behind"
    )
    assert check_of(free, "flow.basin.level").verdict is Verdict.SOUND
    assert check_of(drowned, "flow.basin.level").verdict is Verdict.FAILS


def test_a_blocked_way_is_judged_by_the_vessel_that_it_backs_up() -> None:
    """With the standby blocked the box stands over the basin's brim: the basin runs over, not the box."""
    check = check_of(answer_of(DROWNED), "flow.weirbox.drains.standby_blocked")
    assert check.verdict is Verdict.FAILS
    assert check.what == "freeboard of basin with siphon alone, standby blocked"
    assert check.estimate is not None
    assert check.estimate.likely < 0.0
    assert "wider siphon" in check.advice


def test_a_lip_drowned_too_little_to_run_full_proves_nothing() -> None:
    facts, answer = facts_of(LIP), answer_of(LIP)
    assert facts.running is not None
    assert facts.running.state.branch["down"] == "over"
    assert list(doubts_of(loaded(LIP).plan, facts.lines, facts.running)) == ["tank"]
    for name in ("tank.level", "tank.freeboard", "tank.edge.head", "tank.drains.one_blocked"):
        check = check_of(answer, f"flow.{name}")
        assert check.verdict is Verdict.UNPROVEN
        assert "above the lip of down" in check.missing
    assert any("not to be trusted" in words for words in answer.cautions)


def test_a_lip_drowned_deep_runs_full_and_is_judged() -> None:
    """With 60 mm over its lip the pipe is full: level of the tank is that of the sump and the loss of the pipe."""
    text = changed(LIP, ('floor = "1.405 m"', 'floor = "1.46 m"'), ('height = "0.90 m"', 'height = "1.20 m"'))
    facts = facts_of(text)
    lost = sum(passed.head for passed in facts.passed["down"])
    assert facts.levels["tank"] == pytest.approx(1.86 + lost, abs=1e-7)
    head = check_of(answer_of(text), "flow.tank.edge.head")
    assert head.estimate is not None
    assert head.estimate.likely == pytest.approx(0.06 + lost, abs=1e-7)


def test_heads_over_lips_and_risers_carry_a_range_into_level_and_freeboard() -> None:
    """15 % for a lip that runs as a weir, a third of the flow for one that may swirl, a quarter for a riser."""
    facts, answer = facts_of(example("skerry")), answer_of(example("skerry"))
    lip = check_of(answer, "flow.weirbox.standby.head").estimate
    assert lip is not None
    assert (lip.low, lip.high) == pytest.approx((0.85 * lip.likely, 1.15 * lip.likely))
    riser = next(link for link in facts.line("outlet").links if link.over is not None)
    assert riser.over is not None
    head = riser.over.at(facts.flows["outlet"]).head
    level = check_of(answer, "flow.tower.level").estimate
    assert level is not None
    assert level.high - level.likely == pytest.approx(0.25 * head)
    spare = check_of(answer, "flow.weirbox.drains.siphon_blocked").estimate
    assert spare is not None
    drowned = 0.6 * math.pi * 0.0814**2 / 4.0
    most = next(one for one in facts.drains if one.vessel == "weirbox").tightest["blocked", "siphon"].most
    assert most > facts.flows["comb"]
    at_likely, at_half_more = (
        (flow / drowned) ** 2 / (2.0 * 9.80665) for flow in (facts.flows["comb"], 1.5 * most)
    )
    assert spare.low == pytest.approx(0.70 - 0.46 - at_half_more, abs=1e-3)
    assert spare.likely == pytest.approx(0.70 - 0.46 - at_likely, abs=1e-3)


def test_freeboard_is_judged_before_any_valve_is_set() -> None:
    facts, answer = facts_of(example("skerry")), answer_of(example("skerry"))
    assert facts.ranges is not None
    left = check_of(answer, "flow.tower.freeboard").estimate
    assert left is not None
    highest = max(corner.levels["tower"] for corner in facts.ranges.corners)
    assert left.low < 0.10 + 1.49 - highest


def test_what_lies_outside_two_limits_is_told_with_its_numbers() -> None:
    text = changed(
        SMALL, ('water = "0.82 m"', 'water = "0.74 m"'), ('height = "0.90 m"', 'height = "1.30 m"'),
        ('brim = "0.88 m"', 'brim = "1.25 m"'),
    )  # fmt: skip
    answer = answer_of(text)
    assert check_of(answer, "flow.tank.level").verdict is Verdict.FAILS
    assert (
        "level against the plan's depth fails: 0.08 m where -0.03 m to 0.03 m is allowed" in answer.sentence
    )
