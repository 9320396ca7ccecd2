"""Where the water goes through a tower and how high air lifts it, by hand and with planted mistakes."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed, check_of, example
from tests.journeys.foam_plans import found
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import loads


def test_air_lifts_the_level_by_what_the_riser_balances() -> None:
    """(L - z)*(1 - e) = L0 - z over the diffuser, by hand; some centimetres here."""
    facts, answer = found(example("skerry"))
    tower = facts.towers[0]
    lift, state = tower.lift, next(one for one in tower.columns if one.bubble == 0.8e-3)
    assert lift.level is not None
    assert state.holdup is not None
    foot = 1.36 - 1.15
    assert (lift.level.likely - foot) * (1.0 - state.holdup) == pytest.approx(
        lift.clear.likely - foot, rel=1e-9
    )
    assert 0.015 < lift.level.likely - lift.clear.likely < 0.06
    assert lift.level.high - lift.clear.high > lift.level.low - lift.clear.low
    room = check_of(answer, "foam.tower.lifted")
    assert room.estimate is not None
    assert room.estimate.low == pytest.approx(1.49 - lift.level.high)


def test_lift_that_reaches_a_dry_lip_fails() -> None:
    """A planted mistake: without air the spare stays dry, with it foam runs down it."""
    text = changed(example("skerry"), ('spare = { kind = "standpipe", level = "1.45 m" }',
                                       'spare = { kind = "standpipe", level = "1.39 m" }'))  # fmt: skip
    facts, answer = found(text)
    assert facts.towers[0].lift.clear.high < 1.39
    check = check_of(answer, "foam.tower.spare.lifted")
    assert check.verdict is Verdict.FAILS
    assert "riser" in check.advice


def test_lift_that_takes_the_freeboard_fails() -> None:
    text = changed(
        example("skerry"),
        ('brim = "1.49 m"\nplace = { x = "6.3 m"', 'brim = "1.43 m"\nplace = { x = "6.3 m"'),
        (
            'spare = { kind = "standpipe", level = "1.45 m" }',
            'spare = { kind = "standpipe", level = "1.42 m" }',
        ),
    )
    facts, answer = found(text)
    assert 1.43 - facts.towers[0].lift.clear.high > 0.02
    assert check_of(answer, "foam.tower.lifted").verdict is Verdict.FAILS


def test_water_in_the_cone_is_held_against_the_neck() -> None:
    """Where the plan lets water into the cone, it may stand up to the neck, 500 mm over the cone's seat."""
    text = changed(example("skerry"), ('neck = "330 mm"', 'neck = "330 mm"\nwater = "100 mm"'))
    facts, answer = found(text)
    level = facts.towers[0].lift.level
    check = check_of(answer, "foam.tower.lifted")
    assert level is not None
    assert check.estimate is not None
    assert "neck" in check.what
    assert check.estimate.low == pytest.approx(2.0 - level.high)


FEED = 'feed = { kind = "outlet", level = "1.20 m" }'


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (((FEED, FEED.replace("1.20 m", "0.35 m")),), "feed higher"),
        (((FEED, FEED.replace("1.20 m", "0.16 m")),), "pass"),
        (
            ((FEED, FEED.replace("1.20 m", "0.60 m")), ('depth = "1.15 m"', 'depth = "0.40 m"')),
            "both ports lie under the diffuser",
        ),
    ],
    ids=["inlet beside the outlet", "inlet at the outlet, both under the diffuser", "diffuser over both"],
)
def test_water_that_passes_the_bubbles_by_fails(changes: tuple[tuple[str, str], ...], words: str) -> None:
    """Planted mistakes."""
    _, answer = found(changed(example("skerry"), *changes))
    check = check_of(answer, "foam.tower.way")
    assert check.verdict is Verdict.FAILS
    assert words in check.advice


def test_inlet_beside_the_outlet_leaves_no_time() -> None:
    """The time among the bubbles counts the height between the ports only, not the whole column."""
    text = changed(example("skerry"), (FEED, FEED.replace("1.20 m", "0.25 m")))
    near, far = (found(one)[0].towers[0] for one in (text, example("skerry")))
    state, other = near.columns[0], far.columns[0]
    assert state.water_dwell is not None
    assert other.water_dwell is not None
    expected = (0.25 - 0.21) / (1.20 - 0.21) * far.water_flow / near.water_flow
    assert state.water_dwell / other.water_dwell == pytest.approx(expected, rel=1e-3)


def test_outlet_among_the_bubbles_fails() -> None:
    """A diffuser on the floor, the outlet 140 mm over it."""
    _, answer = found(changed(example("skerry"), ('depth = "1.15 m"', 'depth = "1.36 m"')))
    check = check_of(answer, "foam.tower.outlet")
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(-0.14)


def test_water_that_rises_with_the_bubbles_is_named_and_its_carry_is_unproven() -> None:
    """Feed at the foot, and out over the spare's lip: side by side, and bubbles leave with the water."""
    text = changed(
        example("skerry"),
        (FEED, FEED.replace("1.20 m", "0.30 m")),
        (
            'spare = { kind = "standpipe", level = "1.45 m" }',
            'spare = { kind = "standpipe", level = "1.25 m" }',
        ),
    )
    facts, answer = found(text)
    way = facts.towers[0].way
    assert way.rises
    assert way.outlet == "spare"
    assert any("side by side" in figure.what for figure in answer.figures)
    assert check_of(answer, "foam.tower.outlet").verdict is Verdict.FAILS
    assert check_of(answer, "foam.tower.carry_under").verdict is Verdict.UNPROVEN


def test_diffuser_deeper_than_its_water_is_a_fault_of_the_plan() -> None:
    text = changed(example("skerry"), ('depth = "1.15 m"', 'depth = "1.60 m"'))
    with pytest.raises(PlanError) as raised:
        loads(text)
    (fault,) = raised.value.faults
    assert "vessels.tower.air.depth" in str(fault)
    assert "deeper than its water" in str(fault)


def test_diffuser_out_of_the_water_proves_nothing() -> None:
    """Hung 20 mm under the plan's water, which the riser does not reach."""
    text = changed(
        example("skerry"), ('depth = "1.15 m"', 'depth = "20 mm"'), ('"riser 1.41 m"', '"riser 1.20 m"')
    )
    _, answer = found(text)
    check = check_of(answer, "foam.tower.works")
    assert check.verdict is Verdict.UNPROVEN
    assert "out of the water" in check.missing
