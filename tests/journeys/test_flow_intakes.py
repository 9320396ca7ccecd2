"""What pumps draw from: a pump over the water, no vessel that is the sump, a vessel that would run empty."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of
from tidestead.core.answer import Verdict

LEVEL = 'needs_head = "2 m"'
NO_SUMP = ('[vessels.sump]\nrole = "sump"', '[vessels.sump]\nrole = "vat"')


@pytest.mark.parametrize(
    ("level", "over", "verdict"),
    [("0.10 m", 0.30, Verdict.SOUND), ("0.39 m", 0.01, Verdict.SOUND), ("0.85 m", -0.45, Verdict.FAILS)],
)
def test_a_plain_pump_stands_under_the_water_it_draws_from(level: str, over: float, verdict: Verdict) -> None:
    """The sump stands 0.40 m deep on the datum. That a pump over it stands dry: common practice, no source."""
    check = check_of(
        answer_of(changed(SMALL, (LEVEL, f'{LEVEL}\nlevel = "{level}"'))), "flow.pumps.lift.primed"
    )
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(over, abs=1e-9)
    assert check.verdict is verdict
    assert "does not prime itself" in check.advice


def test_without_a_sump_the_vessel_that_the_pump_draws_from_keeps_its_level() -> None:
    plain, other = facts_of(SMALL), facts_of(changed(SMALL, NO_SUMP))
    assert other.fixed == plain.fixed == {"sump": pytest.approx(0.40)}
    assert other.flows == plain.flows


def test_two_vessels_that_pumps_draw_from_ask_for_the_sump() -> None:
    second = (
        '[pumps.back]\ncurve = ["0 m3/h at 3 m", "4 m3/h at 0 m"]\n\n[circuits.second]\nstart = "tank.low"\n'
        'route = ["pipe pvc-50-pn10 2 m", "pump back"]\nend = "sump.more"\n\n[targets]'
    )
    text = changed(
        SMALL,
        NO_SUMP,
        ("ports.jet =", 'ports.low = { kind = "inlet", level = "0.10 m" }\nports.jet ='),
        ("ports.fall =", 'ports.more = { kind = "spill", level = "0.60 m" }\nports.fall ='),
        ("[targets]", second),
    )
    (why,) = facts_of(text).missing
    assert why == (
        "pumps draw from sump and tank and no vessel is the sump: say which one the water comes back to by itself, "
        'vessels.sump.role = "sump"'
    )
    assert answer_of(text).checks[0].verdict is Verdict.UNPROVEN


def test_a_vessel_that_pumps_would_empty_has_no_level() -> None:
    """A pump out of the tank that moves more than comes in: no level below the floor is ever told."""
    strong = (
        '[pumps.back]\ncurve = ["0 m3/h at 6 m", "30 m3/h at 0 m"]\n\n[circuits.second]\nstart = "tank.low"\n'
        'route = ["pipe pvc-90-pn10 1 m", "pump back"]\nend = "sump.more"\n\n[targets]'
    )
    text = changed(
        SMALL,
        ("ports.jet =", 'ports.low = { kind = "inlet", level = "0.10 m" }\nports.jet ='),
        ("ports.fall =", 'ports.more = { kind = "spill", level = "0.60 m" }\nports.fall ='),
        ("[targets]", strong),
    )
    (why,) = facts_of(text).missing
    assert why.startswith("tank runs empty: more is drawn from it than comes in")


TOP_OFF = (
    '\n[vessels.{}.top_off]\nlevel = "{}"\nflow = "20 L/h"\nstock = "60 L"\nevaporation = "20 L/day"\n\n'
    "[pumps.lift]"
)


def test_a_sump_runs_at_the_level_that_its_float_valve_keeps() -> None:
    """It opens at 0.25 m, the plan says 0.40: suction and start are judged at the one, run-back at the other."""
    text = changed(SMALL, ("[pumps.lift]", TOP_OFF.format("sump", "0.25 m")))
    facts, answer = facts_of(text), answer_of(text)
    assert facts.levels["sump"] == pytest.approx(0.25)
    before = {one.id: one for one in answer_of(SMALL).checks}
    now = {one.id: one for one in answer.checks}
    for ident in ("flow.lift.suction.cover", "flow.lift.npsh"):
        if ident in before:
            assert now[ident].use != before[ident].use
    assert facts.stop is not None
    assert facts.stop.free == pytest.approx(1.6 * 0.8 * (0.80 - 0.40))
    (assumed,) = [one for one in answer.assumptions if one.key == "vessels.sump.water"]
    assert "250" in assumed.value or "0.25" in assumed.value
    assert not [one for one in answer_of(SMALL).assumptions if one.key == "vessels.sump.water"]


def test_a_float_valve_above_the_plans_level_fills_the_sump_before_a_stop() -> None:
    facts = facts_of(changed(SMALL, ("[pumps.lift]", TOP_OFF.format("sump", "0.45 m"))))
    assert facts.levels["sump"] == pytest.approx(0.40)
    assert facts.stop is not None
    assert facts.stop.free == pytest.approx(1.6 * 0.8 * (0.80 - 0.45))


def test_a_float_valve_in_a_vessel_that_an_overflow_keeps_full_sees_nothing() -> None:
    """A planted mistake. What evaporates is missing in the sump; the tank's weir lets it sink by next to nothing."""
    text = changed(SMALL, ("[pumps.lift]", TOP_OFF.format("tank", "0.81 m")))
    check = check_of(answer_of(text), "flow.tank.top_off.follows")
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    assert 0.0 <= check.estimate.likely < 0.05
    assert "float valve in sump" in check.advice


def test_its_stock_comes_down_too_when_its_vessel_sinks() -> None:
    """At a stop the tank rests at its weir, the valve opens, and 60 L run on into the sump, by hand on top."""
    text = changed(SMALL, ("[pumps.lift]", TOP_OFF.format("tank", "0.81 m")))
    plain = check_of(answer_of(SMALL), "flow.sump.runback.all").estimate
    with_it = check_of(answer_of(text), "flow.sump.runback.all").estimate
    assert plain is not None
    assert with_it is not None
    assert with_it.likely == pytest.approx(plain.likely + 0.060, abs=1e-9)
    mains = check_of(answer_of(text.replace('stock = "60 L"\n', "")), "flow.sump.runback.all")
    assert mains.verdict is Verdict.UNPROVEN
    assert "vessels.tank.top_off.stock" in mains.missing


def test_apparatus_that_may_run_out_must_say_what_it_holds() -> None:
    lamp = '[apparatus.cooler]\nkind = "chiller"\nloss = "1 mm at 10 m3/h"\n\n[valves.set]'
    text = changed(SMALL, ("[valves.set]", lamp), ('"valve set"]', '"valve set", "apparatus cooler"]'))
    check = check_of(answer_of(text), "flow.sump.runback.check")
    assert check.verdict is Verdict.UNPROVEN
    assert "apparatus.cooler.volume" in check.missing
    said = text.replace("at 10 m3/h", 'at 10 m3/h"\nvolume = "9 L')
    plain = check_of(
        answer_of(text.replace(', "apparatus cooler"]', "]")), "flow.sump.runback.check"
    ).estimate
    found = check_of(answer_of(said), "flow.sump.runback.check").estimate
    assert plain is not None
    assert found is not None
    # of a line from 0.10 m to 1.775 m what lies over the sump's 0.40 m runs out
    by_hand = 0.009 * (1.775 - 0.40) / (1.775 - 0.10)
    assert found.likely - plain.likely == pytest.approx(by_hand, abs=5e-5)


def test_a_break_that_a_line_through_the_wall_may_never_come_to_counts_for_nothing() -> None:
    """The jet goes through the wall at 0.20 m and the hole lies at 1.155 m: no hole there ever meets its water."""
    plain = (
        'jet = { kind = "outlet", level = "1.135 m", siphon_break = { level = "1.155 m", hole = "10 mm" } }'
    )
    wall = (
        'jet = { kind = "outlet", level = "0.20 m", siphon_break = { level = "1.155 m", hole = "10 mm" }, '
        'bulkhead = { fitting = "metric-63", wall = "north", from_left = "3.85 m", seat = "membrane" } }'
    )
    answer = answer_of(changed(example("skerry"), (plain, wall)))
    check = check_of(answer, "flow.basin.jet.siphon_break")
    assert check.verdict is Verdict.UNPROVEN
    assert "goes through the wall below the hole" in check.missing
    assert check_of(answer, "flow.sump.runback.check").verdict is Verdict.FAILS


def test_a_blocked_drain_counts_what_runs_out_behind_it() -> None:
    """Skerry with its comb blocked: the sump down to the lower edge of its suction, the weir box of its siphon.

    By hand: 1.8 m2 of sump from 0.45 m to 195 mm less half of 81.4, 0.39 m2 of box from its level to 0.28 m less half
    of 57.0 (bores of PN10 pipe of 90 and 63 mm), and the tower from its level to its riser's lip at 1.41 m.
    """
    facts = facts_of(example("skerry"))
    held = next(one for one in facts.drains if one.vessel == "basin").held
    box = 0.39 * (facts.levels["weirbox"] - 0.65 - (0.28 - 0.0570 / 2.0))
    tower = held.sunk["tower"].area * (facts.levels["tower"] - 1.41)
    assert held.reserve == pytest.approx(1.8 * (0.45 - (0.195 - 0.0814 / 2.0)) + box + tower, rel=1e-3)
    assert set(held.sunk) == {"sump", "weirbox", "tower"}
    check = check_of(answer_of(example("skerry")), "flow.basin.drains.one_blocked")
    assert check.estimate is not None
    assert facts.ranges is not None
    over = facts.ranges.level("basin").high - facts.levels["basin"]
    # at the least the corners' levels of the basin itself, before any head over a crest is off
    assert check.estimate.likely - check.estimate.low > over
    assert check.estimate.likely == pytest.approx(
        0.10 + 1.27 - facts.levels["basin"] - held.reserve / 8.8, abs=2e-3
    )


def test_a_float_valve_goes_on_filling_a_sump_that_is_pumped_down() -> None:
    """Its stock of 60 L goes up with the rest, over 8.8 m2: 6.8 mm. On the mains there is no end to it."""
    text = changed(
        example("skerry"), ("[pumps.return]", TOP_OFF.format("sump", "0.45 m").replace("lift", "return"))
    )
    plain = check_of(answer_of(example("skerry")), "flow.basin.drains.one_blocked").estimate
    found = check_of(answer_of(text), "flow.basin.drains.one_blocked").estimate
    assert plain is not None
    assert found is not None
    area = next(one for one in facts_of(text).drains if one.vessel == "basin").held.area
    assert plain.likely - found.likely == pytest.approx(0.060 / area, rel=1e-6)
    mains = check_of(answer_of(text.replace('stock = "60 L"\n', "")), "flow.basin.drains.one_blocked")
    assert mains.verdict is Verdict.UNPROVEN
    assert "vessels.sump.top_off.stock" in mains.missing
