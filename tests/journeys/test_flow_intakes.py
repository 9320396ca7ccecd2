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


@pytest.mark.parametrize(
    ("vessel", "level", "words"),
    [
        ("sump", "0.25 m", "lets the water sink 150.0 mm below the depth in the plan"),
        ("tank", "0.81 m", "tank sinks when the power stops, the valve opens"),
    ],
)
def test_a_float_valve_that_other_checks_do_not_reckon_with_is_unproven(
    vessel: str, level: str, words: str
) -> None:
    """The sump's water is 0.40 m deep in the plan; the tank rests at its weir after a stop."""
    answer = answer_of(changed(SMALL, ("[pumps.lift]", TOP_OFF.format(vessel, level))))
    check = check_of(answer, f"flow.{vessel}.top_off.level")
    assert check.verdict is Verdict.UNPROVEN
    assert words in check.missing


def test_a_float_valve_at_the_level_of_the_plan_needs_no_such_word() -> None:
    answer = answer_of(changed(SMALL, ("[pumps.lift]", TOP_OFF.format("sump", "0.40 m"))))
    assert "flow.sump.top_off.level" not in [check.id for check in answer.checks]


def test_a_break_that_a_line_through_the_wall_may_never_come_to_counts_for_nothing() -> None:
    """The jet goes through the wall at 0.20 m and the hole lies at 1.16 m: no hole there ever meets its water."""
    plain = 'jet = { kind = "outlet", level = "1.14 m", siphon_break = { level = "1.16 m", hole = "10 mm" } }'
    wall = (
        'jet = { kind = "outlet", level = "0.20 m", siphon_break = { level = "1.16 m", hole = "10 mm" }, '
        'bulkhead = { fitting = "metric-63", wall = "north", from_left = "3.85 m", seat = "membrane" } }'
    )
    answer = answer_of(changed(example("skerry"), (plain, wall)))
    check = check_of(answer, "flow.basin.jet.siphon_break")
    assert check.verdict is Verdict.UNPROVEN
    assert "goes through the wall below the hole" in check.missing
    assert check_of(answer, "flow.sump.runback.check").verdict is Verdict.FAILS


def test_a_blocked_drain_counts_what_runs_out_behind_it() -> None:
    """Skerry with its comb blocked: the sump down to 170 mm, and the weir box down to its siphon's mouth.

    By hand: 1.8 m2 of sump from 0.45 m, 0.39 m2 of box from its level to 0.20 m.
    """
    facts = facts_of(example("skerry"))
    basin = next(one for one in facts.drains if one.vessel == "basin")
    box = 0.39 * (facts.levels["weirbox"] - 0.65 - 0.20)
    assert basin.reserve == pytest.approx(1.8 * (0.45 - 0.17) + box, rel=1e-9)
