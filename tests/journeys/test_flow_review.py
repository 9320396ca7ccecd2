"""Plans in which something floods, runs dry or stands open, each once told sound: what is told of them now."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import answer_of, changed, check_of, example, facts_of
from tidestead import desk
from tidestead.core.answer import Check, Verdict
from tidestead.plan import loads

SKERRY = example("skerry")
SUCTION = (
    '[vessels.sump.ports.suction]\nkind = "inlet"\nlevel = "195 mm"\n'
    'bulkhead = { fitting = "heavy-3", wall = "east", from_left = "0.30 m", seat = "rigid", thickness = "12 mm" }\n'
)
CHAMBER = """
[vessels.chamber]
role = "vat"
made = "bought"
shape = "box"
length = "1.0 m"
width = "1.0 m"
height = "0.75 m"
water = "0.44 m"
place = { floor = "0 m" }

[vessels.chamber.ports]
link = { kind = "outlet", level = "0.20 m" }
suction = { kind = "inlet", level = "195 mm" }

[circuits.link]
start = "sump.link"
route = ["pipe pvc-125-pn10 0.2 m"]
end = "chamber.link"
"""
WITH_CHAMBER = (
    changed(
        SKERRY,
        ("[vessels.sump.ports]", '[vessels.sump.ports]\nlink = { kind = "inlet", level = "0.20 m" }'),
        ('start = "sump.suction"', 'start = "chamber.suction"'),
        (SUCTION, ""),
    )
    + CHAMBER
)
DRAW = """[circuits.draw]
start = "sump.suction"
route = ["pipe pvc-90-pn10 0.5 m", "valve suction"]
end = "header"

[circuits.main]"""
WITH_HEADER = changed(
    SKERRY,
    ('start = "sump.suction"', 'start = "header"'),
    ('"pipe pvc-90-pn10 0.5 m", "valve suction", ', ""),
    ("[circuits.main]", DRAW),
    ("[pumps.return]", '[pumps.return]\nlevel = "0.10 m"'),
)
SUMP_DEPTH = 'height = "0.75 m"\nwater = "0.45 m"'


def top_off(vessel: str, level: str, stock: str) -> str:
    """A float valve at the end of a plan."""
    return (
        f'\n[vessels.{vessel}.top_off]\nlevel = "{level}"\nflow = "2 L/min"\nstock = "{stock}"\n'
        'evaporation = "40 L/day"\n'
    )


def likely(check: Check) -> float:
    assert check.estimate is not None
    return check.estimate.likely


def test_a_chamber_behind_the_sump_is_drawn_down_with_it() -> None:
    """By hand: sump to the lower edge of the link, chamber to that of its suction, weir box and tower to theirs."""
    facts = facts_of(WITH_CHAMBER)
    held = next(one for one in facts.drains if one.vessel == "basin").held
    assert {"sump", "chamber"} <= set(held.sunk)
    link = 0.20 - 0.1137 / 2.0
    assert held.sunk["sump"].end == pytest.approx(link, abs=2e-3)
    assert held.sunk["chamber"].end == pytest.approx(0.195 - 0.0814 / 2.0, abs=1e-4)
    check = check_of(answer_of(WITH_CHAMBER), "flow.basin.drains.one_blocked")
    assert check.verdict is Verdict.FAILS
    assert likely(check) == pytest.approx(1.37 - facts.levels["basin"] - held.reserve / 8.8, abs=1e-6)
    assert likely(check) < 0.0


def test_a_suction_through_a_junction_is_judged_as_one_without() -> None:
    plain, header = answer_of(SKERRY), answer_of(WITH_HEADER)
    dry = "flow.basin.drains.one_blocked"
    assert likely(check_of(header, dry)) == pytest.approx(likely(check_of(plain, dry)), abs=1e-3)
    for ident in ("flow.pumps.return.cover", "flow.sump.restart"):
        assert likely(check_of(header, ident)) == pytest.approx(likely(check_of(plain, ident)), abs=1e-3)
    speed = check_of(header, "flow.circuits.draw.suction")
    assert likely(speed) == pytest.approx(likely(check_of(plain, "flow.circuits.main.suction")), rel=0.01)
    low = answer_of(
        changed(WITH_HEADER, ('height = "0.75 m"\nwater = "0.45 m"', 'height = "0.75 m"\nwater = "0.20 m"'))
    )
    assert check_of(low, "flow.pumps.return.cover").verdict is Verdict.FAILS
    assert check_of(low, "flow.sump.restart").verdict is Verdict.FAILS


@pytest.mark.parametrize("share", [30, 25, 22])
def test_a_part_open_valve_behind_a_lip_is_not_opened_in_a_trial(share: int) -> None:
    """A standby's lip sets its level: with its valve twice as stiff, as makes differ, it takes less."""
    text = changed(
        SKERRY,
        (
            '"pipe pvc-90-pn10 1.5 m", "elbow-90 x2"]',
            '"pipe pvc-90-pn10 1.5 m", "elbow-90 x2", "valve standby"]',
        ),
        (
            "[apparatus.strainer]",
            f'standby = {{ kind = "gate", open = "{share} %" }}\n\n[apparatus.strainer]',
        ),
    )
    check = check_of(answer_of(text), "flow.weirbox.drains.siphon_blocked")
    assert check.estimate is not None
    assert check.estimate.low < 0.0
    assert check.verdict is Verdict.FAILS


def test_a_low_float_valve_does_not_hide_what_the_plans_depth_would_do() -> None:
    """60 cm in the plan: the sump may stand so high, and then the basin floods with its comb blocked."""
    deep = changed(SKERRY, ('height = "0.75 m"\nwater = "0.45 m"', 'height = "0.75 m"\nwater = "0.60 m"'))
    with_valve = deep + top_off("sump", "0.45 m", "5 L")
    for text in (deep, with_valve):
        check = check_of(answer_of(text), "flow.basin.drains.one_blocked")
        assert check.verdict is Verdict.FAILS
    assert likely(check_of(answer_of(with_valve), "flow.pumps.return.cover")) == pytest.approx(0.45 - 0.195)


def test_a_float_valve_over_the_water_of_its_vessel_stands_open() -> None:
    text = WITH_CHAMBER + top_off("chamber", "0.60 m", "400 L")
    check = check_of(answer_of(text), "flow.chamber.top_off.shuts")
    assert check.verdict is Verdict.FAILS
    assert likely(check) == pytest.approx(0.60 - facts_of(text).levels["chamber"])


def test_float_valves_of_all_vessels_that_run_down_count() -> None:
    text = SKERRY + top_off("weirbox", "0.46 m", "100 L")
    ident = "flow.basin.drains.one_blocked"
    less = likely(check_of(answer_of(SKERRY), ident)) - likely(check_of(answer_of(text), ident))
    assert less == pytest.approx(0.100 / 8.8, abs=1e-4)


def test_a_float_valve_far_under_the_water_stays_shut_at_a_stop() -> None:
    plain = check_of(answer_of(SKERRY), "flow.sump.runback.check")
    low = check_of(answer_of(SKERRY + top_off("basin", "1.00 m", "200 L")), "flow.sump.runback.check")
    assert low.estimate == plain.estimate


def test_a_full_vessel_backs_up_the_one_before_it() -> None:
    """A weir box with one drain, its brim higher than the comb: it fills with the basin, by hand over both areas."""
    text = changed(
        SKERRY,
        ('standby = { kind = "standpipe", level = "0.46 m" }\n', ""),
        ('from_standby = { kind = "spill", level = "0.60 m" }\n', ""),
        ('height = "0.70 m"\nwater = "0.47 m"', 'height = "0.90 m"\nwater = "0.47 m"'),
        ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "47 %" }'),
        (
            '[circuits.standby]\nstart = "weirbox.standby"\nroute = ["pipe pvc-90-pn10 1.5 m", "elbow-90 x2"]\n'
            'end = "sump.from_standby"\n',
            "",
        ),
    )
    facts = facts_of(text)
    held = next(one for one in facts.drains if one.vessel == "weirbox").held
    assert set(held.risen) == {"weirbox", "basin"}
    before = 8.8 * facts.levels["basin"] + 0.39 * facts.levels["weirbox"]
    assert held.level == pytest.approx((before + held.reserve) / 9.19, abs=1e-6)
    assert held.tightest == "basin"
    check = check_of(answer_of(text), "flow.weirbox.drains.one_blocked")
    assert check.what.startswith("freeboard of basin")
    # it was told to flood by a metre; what is left fails only until the siphon's valve is set by the level
    assert likely(check) == pytest.approx(1.37 - held.level)
    assert likely(check) > 0.03


def test_another_place_is_not_answered_with_the_first_ones_air() -> None:
    """The desk keeps answers by what a subject reads: height above the sea among it."""
    low, high = (changed(SKERRY, ('elevation = "9 m"', f'elevation = "{at} m"')) for at in (0, 3000))
    first, then = (desk.answer(loads(text), ("flow", "foam")) for text in (low, high))
    npsh = [check_of(one["flow"], "flow.pumps.return.npsh").estimate for one in (first, then)]
    held = [check_of(one["foam"], "foam.oxygen.held").estimate for one in (first, then)]
    assert npsh[0] is not None
    assert npsh[1] is not None
    assert npsh[1].likely < npsh[0].likely - 2.5
    assert held[0] is not None
    assert held[1] is not None
    assert held[1].likely < 0.75 * held[0].likely


def test_water_that_cannot_hold_enough_fails_and_keeps_the_order_of_its_ends() -> None:
    """4800 m up warm seawater holds less than the level of danger: air takes oxygen out."""
    answer = desk.answer(loads(changed(SKERRY, ('elevation = "9 m"', 'elevation = "4800 m"'))), ("foam",))[
        "foam"
    ]
    assert check_of(answer, "foam.oxygen.held").verdict is Verdict.FAILS
    rows = next(table for table in answer.tables if table.id == "foam.oxygen").rows
    for _, _, low, middle, high in rows:
        assert isinstance(low, float)
        assert isinstance(middle, float)
        assert isinstance(high, float)
        assert low <= middle <= high < 0.0


def test_two_pumps_that_meet_are_both_answered() -> None:
    text = changed(
        SKERRY,
        (
            "[vessels.sump.ports.suction]",
            '[vessels.sump.ports.second]\nkind = "inlet"\nlevel = "195 mm"\n\n[vessels.sump.ports.suction]',
        ),
        ("[pumps.return]", '[pumps.booster]\ncurve = ["0 m3/h at 5 m", "8 m3/h at 0 m"]\n\n[pumps.return]'),
        (
            "[circuits.jet]",
            '[circuits.main2]\nstart = "sump.second"\nroute = ["pipe pvc-63-pn10 1 m", "pump booster", '
            '"pipe pvc-63-pn10 1 m"]\nend = "manifold"\n\n[circuits.jet]',
        ),
    )
    answer = answer_of(text)
    assert {"flow.pumps.return.delivers", "flow.pumps.booster.delivers"} <= {
        check.id for check in answer.checks
    }


def test_a_bypass_that_takes_all_the_water_is_named_first() -> None:
    bypass = (
        '[circuits.bypass]\nstart = "manifold"\nroute = ["pipe pvc-90-pn10 0.5 m"]\nend = "sump.back"\n\n'
        "[circuits.jet]"
    )
    text = changed(
        SKERRY,
        ("[vessels.sump.ports]", '[vessels.sump.ports]\nback = { kind = "outlet", level = "0.30 m" }'),
        ("[circuits.jet]", bypass),
    )
    answer = answer_of(text)
    check = check_of(answer, "flow.basin.turnover")
    assert check.verdict is Verdict.FAILS
    assert likely(check) == 0.0
    assert "throttling bypass" in check.advice
    assert check.advice in answer.sentence


def test_a_weak_pump_is_told_before_what_it_brings() -> None:
    curve = 'curve = ["0 m3/h at 5.2 m", "6 m3/h at 4.5 m", "12 m3/h at 2.6 m", "16 m3/h at 0 m"]'
    text = changed(SKERRY, (curve, 'curve = ["0 m3/h at 2.0 m", "2 m3/h at 1.6 m", "5 m3/h at 0 m"]'))
    sentence = answer_of(text).sentence
    assert "a stronger pump" in sentence or "a pump with more head" in sentence
    assert "siphon" not in sentence.partition("Try")[0].lower()


def test_a_comb_under_water_is_told_with_a_longer_one() -> None:
    text = changed(SKERRY, ('length = "1.2 m", open = "50 %"', 'length = "0.2 m", open = "50 %"'))
    answer = answer_of(text)
    check = check_of(answer, "flow.basin.comb.teeth")
    assert check.verdict is Verdict.FAILS
    assert "a longer comb" in check.advice
    assert "a longer comb" in check_of(answer, "flow.basin.level").advice
    assert check_of(answer_of(SKERRY), "flow.basin.comb.teeth").verdict is Verdict.SOUND


def test_a_pipe_behind_a_weir_is_blamed_and_not_the_vessel_it_runs_to() -> None:
    answer = answer_of(changed(example("packhouse"), ("pipe dwv-4in 6 ft", "pipe pvc40-1.5in 6 ft")))
    for ident in ("flow.reef.freeboard", "flow.reef.level"):
        check = check_of(answer, ident)
        assert check.verdict is Verdict.FAILS
        assert "a wider pipe for comb" in check.advice


def test_a_hole_as_wide_as_its_pipe_is_no_siphon_break() -> None:
    check = check_of(
        answer_of(changed(SKERRY, ('hole = "10 mm"', 'hole = "100 mm"'))), "flow.basin.jet.siphon_break"
    )
    assert check.verdict is Verdict.UNPROVEN
    assert "wider than half its pipe" in check.missing


def test_a_hole_over_the_water_fails_and_not_only_is_not_proved() -> None:
    text = changed(SKERRY, ('level = "1.155 m", hole', 'level = "1.25 m", hole'))
    check = check_of(answer_of(text), "flow.basin.jet.siphon_break")
    assert check.verdict is Verdict.FAILS
    assert "a lower break" in check.advice


def test_a_pump_that_gives_more_than_it_takes_is_not_believed() -> None:
    text = changed(SKERRY, ('power = "150 W"', 'power = "15 W"'))
    check = check_of(answer_of(text), "flow.pumps.return.power")
    assert check.verdict is Verdict.UNPROVEN
    assert "pumps.return.power" in check.missing
