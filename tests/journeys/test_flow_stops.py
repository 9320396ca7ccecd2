"""Power stops of whole plans: what siphons where, by levels and areas worked by hand; planted mistakes."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of, loaded
from tidestead.core.answer import Verdict
from tidestead.core.scene import Stroke
from tidestead.studies.flow.courses import loss_at
from tidestead.studies.flow.stops import StopFacts

LOW_TOWER = changed(
    example("skerry"),
    (
        'place = { x = "6.3 m", y = "1.2 m", floor = "0.10 m" }',
        'place = { x = "6.3 m", y = "1.2 m", floor = "-0.60 m" }',
    ),
    ("riser 1.41 m", "riser 0.78 m"),
    ('jet = { kind = "outlet", level = "1.135 m"', 'jet = { kind = "outlet", level = "0.60 m"'),
)
"""The tower sunk by 0.70 m and the jet of the basin near its floor: the basin stands over the tower's riser."""

NO_BREAK = (', siphon_break = { level = "1.155 m", hole = "10 mm" }', "")

BASIN, WEIRBOX = 4.0 * 2.2, 0.30 * 1.30
_SIDES = loaded(example("skerry")).plan.vessels["tower"].sides or 0
TOWER = _SIDES / 4.0 * 0.64**2 * math.tan(math.pi / _SIDES)
"""Square metres; a polygon, flat to flat: n*a**2*tan(pi/n)/4."""


def stop_of(text: str) -> StopFacts:
    """The power stop of a plan."""
    stop = facts_of(text).stop
    assert stop is not None
    assert stop.cases is not None
    return stop


def test_basin_siphons_through_the_branch_into_the_tower_and_over_its_riser() -> None:
    """A check valve in the main holds nothing here. Basin and tower come down to the riser, the weir box to the lower
    edge of its siphon's mouth, 28.5 mm under its middle."""
    text = changed(LOW_TOWER, NO_BREAK)
    stop, levels = stop_of(text), facts_of(text).levels
    by_hand = (
        BASIN * (levels["basin"] - 0.78)
        + TOWER * (levels["tower"] - 0.78)
        + WEIRBOX * (levels["weirbox"] - (0.93 - 0.0285))
    )
    assert stop.cases is not None
    assert stop.cases.working.from_vessels == pytest.approx(by_hand, rel=1e-6)
    assert 4.4 < by_hand < 4.7
    answer = answer_of(text)
    check = check_of(answer, "flow.sump.runback.all")
    assert check.verdict is Verdict.FAILS
    steps = next(one for one in answer.working if one.check == check.id).steps
    assert "basin comes to rest 499.7 mm lower" in steps[0].meaning


def test_only_the_break_keeps_the_basin_from_the_tower() -> None:
    """A missing or blocked break fails; with it the sump holds, also with the check valve failed."""
    answer = answer_of(LOW_TOWER)
    assert check_of(answer, "flow.sump.runback.break").verdict is Verdict.FAILS
    assert check_of(answer, "flow.sump.runback.all").verdict is not Verdict.FAILS
    assert check_of(answer, "flow.sump.runback.check").verdict is not Verdict.FAILS


def test_skerry_loses_what_stands_over_the_feed_of_its_tower() -> None:
    """Through feed, junction and jet the tower sinks to the lower edge of the feed only where the basin lies lower."""
    facts, stop = facts_of(example("skerry")), stop_of(example("skerry"))
    assert stop.cases is not None
    edge = 1.30 - 0.0362 / 2.0
    assert stop.cases.working.rests["tower"] == pytest.approx(edge, abs=1e-4)
    assert stop.cases.working.rests["basin"] == pytest.approx(0.10 + 1.160)
    by_hand = BASIN * (facts.levels["basin"] - 1.260) + TOWER * (facts.levels["tower"] - edge)
    by_hand += WEIRBOX * (facts.levels["weirbox"] - 0.9015)
    assert stop.cases.working.from_vessels == pytest.approx(by_hand, rel=1e-3)


def test_failed_check_valve_alone_fails_where_no_break_helps() -> None:
    """A planted mistake: a check valve, an outlet 0.70 m deep and no break."""
    text = changed(
        SMALL,
        ('"pump lift"', '"pump lift", "valve back"'),
        ("[valves.set]", '[valves.back]\nkind = "check-swing-straight"\n\n[valves.set]'),
        ('level = "0.775 m"', 'level = "0.60 m"'),
    )
    answer = answer_of(text)
    assert check_of(answer, "flow.sump.runback.all").verdict is Verdict.SOUND
    assert check_of(answer, "flow.sump.runback.break").verdict is Verdict.SOUND
    assert check_of(answer, "flow.sump.runback.check").verdict is Verdict.FAILS
    rests = stop_of(text).cases
    assert rests is not None
    assert rests.check_failed.rests["tank"] == pytest.approx(1.60 - 0.0678 / 2.0)


def test_a_check_valve_in_the_pump_counts_as_one() -> None:
    text = changed(SMALL, ('needs_head = "2 m"', 'needs_head = "2 m"\ncheck_valve = true'))
    cases = stop_of(text).cases
    assert cases is not None
    assert cases.working.rests["tank"] == pytest.approx(1.80)
    assert cases.check_failed.rests["tank"] == pytest.approx(1.775 - 0.0678 / 2.0)


def test_pipes_that_hung_full_come_too() -> None:
    """By hand: 2.5 m of 67.8 mm and 0.5 m of 81.4 mm from 0.10 to 1.775 m, above 0.40 m, and the drain above it."""
    stop = stop_of(SMALL)
    assert stop.cases is not None
    rise = math.pi / 4.0 * (2.5 * 0.0678**2 + 0.5 * 0.0814**2) * (1.775 - 0.40) / (1.775 - 0.10)
    drain = math.pi / 4.0 * 0.10226**2 * 1.5
    assert stop.cases.working.from_pipes == pytest.approx(rise + drain, rel=1e-3)


def test_a_break_on_a_gravity_siphon_is_not_trusted_where_breaks_are_blocked() -> None:
    text = changed(
        example("skerry"),
        (
            'level = "0.28 m"\ncrest = "0.28 m"',
            'level = "0.28 m"\ncrest = "0.28 m"\nsiphon_break = { level = "0.40 m", hole = "20 mm" }',
        ),
    )
    cases = stop_of(text).cases
    assert cases is not None
    assert cases.working.rests["weirbox"] == pytest.approx(0.65 + 0.40)
    assert cases.break_blocked.rests["weirbox"] == pytest.approx(0.65 + 0.28 - 0.0285)


@pytest.mark.parametrize("text", [SMALL, LOW_TOWER, example("skerry"), example("packhouse")])
def test_levels_in_time_end_where_the_table_says(text: str) -> None:
    """Within a millimetre, and never below; the sump is not over its brim."""
    stop = stop_of(text)
    assert stop.cases is not None
    assert not stop.unsteady
    course = stop.courses[0]
    for key in stop.vessels:
        assert course.levels[key][-1] == pytest.approx(stop.cases.working.rests[key], abs=1e-3)
        assert course.levels[key][-1] >= stop.cases.working.rests[key] - 1e-5
    assert course.times[-1] < 12.0 * 3600.0
    assert stop.stop is not None
    before, area = stop.stop.vessels[stop.sump].level, stop.stop.vessels[stop.sump].basin.surfaces[0]
    gained = area * (course.levels[stop.sump][-1] - before)
    assert gained == pytest.approx(stop.cases.working.from_vessels, abs=2e-3)


def test_a_shut_main_still_has_a_course() -> None:
    text = changed(example("skerry"), ('main = { kind = "gate" }', 'main = { kind = "gate", open = "0 %" }'))
    stop = facts_of(text).stop
    assert stop is not None
    assert not stop.missing
    assert not stop.unsteady


def test_a_hole_too_small_for_its_pipe_fails_and_is_not_counted_on() -> None:
    """By hand: s = 0.61*(5/57)**2*sqrt(rho/1.2) = 0.137, where a third is wanted."""
    text = changed(LOW_TOWER, ('hole = "10 mm"', 'hole = "5 mm"'))
    answer = answer_of(text)
    check = check_of(answer, "flow.basin.jet.siphon_break")
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    density = facts_of(text).water.density
    assert check.estimate.likely == pytest.approx(
        0.61 * (5.0 / 57.0) ** 2 * math.sqrt(density / 1.2), rel=1e-6
    )
    assert "7.8 mm" in check.advice
    us = check_of(answer_of(text, "us"), "flow.basin.jet.siphon_break")
    assert " in" in us.advice
    assert "mm" not in us.advice
    assert check_of(answer, "flow.sump.runback.all").verdict is Verdict.FAILS


def test_any_hole_ends_a_flow_that_cannot_carry_air() -> None:
    """A pipe so long and narrow that water creeps back: below 0.345*sqrt(g*D) air rises against it."""
    text = changed(
        SMALL,
        ("pipe pvc-75-pn10 2.5 m", "pipe pvc-75-pn10 2.5 m"),
        ('open = "100 %"', 'open = "3 %"'),
        (
            'ports.jet = { kind = "outlet", level = "0.775 m" }',
            'ports.jet = { kind = "outlet", level = "0.70 m", siphon_break = { level = "0.79 m", hole = "3 mm" } }',
        ),
    )
    stop = stop_of(text)
    assert stop.breaks[0].back < math.pi / 4.0 * 0.0678**2 * 0.345 * math.sqrt(9.80665 * 0.0678)
    assert check_of(answer_of(text), "flow.tank.jet.siphon_break").verdict is Verdict.SOUND


def test_a_break_below_its_mouth_is_no_break() -> None:
    text = changed(
        example("skerry"), ('siphon_break = { level = "1.155 m"', 'siphon_break = { level = "1.10 m"')
    )
    check = check_of(answer_of(text), "flow.basin.jet.siphon_break")
    assert check.verdict is Verdict.UNPROVEN
    assert "raise the break" in check.missing


LOW_VAT = changed(
    SMALL,
    (
        "[pumps.lift]",
        """[vessels.vat]
role = "vat"
made = "bought"
shape = "box"
length = "0.5 m"
width = "0.5 m"
height = "0.80 m"
water = "0.50 m"
place = { floor = "-1.2 m" }
ports.feed = { kind = "outlet", level = "0.30 m" }
ports.draw = { kind = "inlet", level = "0.20 m" }

[pumps.up]
curve = ["0 m3/h at 3 m", "2 m3/h at 2 m", "4 m3/h at 0 m"]

[pumps.lift]""",
    ),
    (
        'ports.fall = { kind = "spill", level = "0.60 m" }',
        'ports.fall = { kind = "spill", level = "0.60 m" }\nports.down = { kind = "inlet", level = "0.20 m" }\n'
        'ports.back = { kind = "spill", level = "0.60 m" }',
    ),
    (
        "[targets]",
        """[circuits.vat]
start = "sump.down"
route = ["pipe pvc-40-pn10 2 m", "elbow-90 x2", "valve vat"]
end = "vat.feed"

[circuits.vat_up]
start = "vat.draw"
route = ["pipe pvc-40-pn10 2 m", "pump up", "elbow-90 x2"]
end = "sump.back"

[targets]""",
    ),
    ("[valves.set]", '[valves.vat]\nkind = "gate"\nopen = "20 %"\n\n[valves.set]'),
)
"""A vat under the sump, fed by gravity and emptied by a pump of its own."""


def test_a_break_over_the_water_of_a_gravity_siphon_draws_air() -> None:
    text = changed(
        example("skerry"),
        (
            'level = "0.28 m"\ncrest = "0.28 m"',
            'level = "0.28 m"\ncrest = "0.28 m"\nsiphon_break = { level = "0.55 m", hole = "20 mm" }',
        ),
    )
    check = check_of(answer_of(text), "flow.weirbox.siphon.siphon_break")
    assert check.verdict is Verdict.FAILS
    assert "a lower break" in check.advice


def test_a_vessel_that_another_floods_fails() -> None:
    """A planted mistake: the pump stops and the feed does not. The vat fills to its brim and over it."""
    stop = stop_of(LOW_VAT)
    assert stop.peaks is not None
    assert stop.peaks["vat"].level == pytest.approx(-0.40, abs=2e-3)
    check = check_of(answer_of(LOW_VAT), "flow.vat.stop_freeboard")
    assert check.verdict is Verdict.FAILS
    assert "runs into it" in check.advice


def test_the_sump_at_its_lowest_after_a_start_by_hand() -> None:
    """While the siphon of the weir box fills, the box stands where the standby takes all of it."""
    facts, stop = facts_of(example("skerry")), stop_of(example("skerry"))
    blocked = next(one for one in facts.drains if one.vessel == "weirbox").blocked["siphon"]
    assert blocked is not None
    assert stop.start is not None
    waiting = WEIRBOX * (blocked - facts.levels["weirbox"])
    assert stop.start.sump_level == pytest.approx(0.45 - waiting / 1.8, abs=1e-6)


def test_time_until_the_sump_is_highest_and_a_drawing_of_it() -> None:
    """The figure, the curves and the drawing show the same course, on an axis that holds its highest."""
    answer, stop = answer_of(example("skerry")), stop_of(example("skerry"))
    figure = next(one for one in answer.figures if one.id == "flow.stop.working.time")
    course = stop.courses[0]
    rise = course.levels["sump"][-1] - 0.45
    reached = float(np.interp(figure.estimate.likely, course.times, course.levels["sump"])) - 0.45
    assert reached >= 0.99 * rise - 1e-9
    curve = next(one for one in answer.series if one.id == "flow.stop.0.sump")
    assert np.ptp(np.diff(curve.at)) < 1e-6
    assert curve.at[-1] > figure.estimate.likely
    assert max(curve.likely) >= 0.45 + 0.99 * rise - 1e-6
    scene = next(one for one in answer.scenes if one.id == "flow.stop")
    assert {"every guard working", "check valves failed"} <= {
        shape.label for shape in scene.shapes if isinstance(shape, Stroke)
    }
    lines = [shape for shape in scene.shapes if isinstance(shape, Stroke) and shape.label]
    assert all(0.0 <= across <= 2.4 + 1e-9 for line in lines for across, _ in line.points)
    assert "sump is highest after" in scene.told


def test_a_tank_runs_out_in_torricellis_time() -> None:
    """Below its weir the tank of 6 m2 sinks through a pipe whose losses go with the square of the flow.

    By hand: sqrt(h) falls evenly, by k/(2*A) a second with Q = k*sqrt(h), h to the water in the sump, which rises.
    """
    deep = ('height = "0.80 m"', 'height = "3.0 m"')
    facts = facts_of(changed(SMALL, ('level = "0.775 m"', 'level = "0.50 m"'), deep))
    assert facts.stop is not None
    course = facts.stop.courses[0]
    lost = loss_at(facts.line("up"), 0.5)
    assert lost is not None
    k = lost / math.sqrt(0.5)
    below = [at for at, z in enumerate(course.levels["tank"]) if z < 1.79]
    first = below[0]
    last = next(at for at in below if course.levels["tank"][at] < 1.62)
    falls = [math.sqrt(course.levels["tank"][at] - course.levels["sump"][at]) for at in (first, last)]
    evenly = 0.5 * k * (1.0 / 6.0 + 1.0 / 1.28)
    time = course.times[last] - course.times[first]
    assert falls[0] - falls[1] == pytest.approx(evenly * time, rel=1e-3)


def test_a_missing_break_is_named_where_it_counts() -> None:
    """With the check valve failed the jet draws the basin down to its own mouth: the sump spills, and this is why."""
    text = changed(example("skerry"), (', siphon_break = { level = "1.155 m", hole = "10 mm" }', ""))
    answer = answer_of(text)
    failed = check_of(answer, "flow.sump.runback.check")
    assert failed.verdict is Verdict.FAILS
    assert "siphon break just under the surface at basin.jet, which has none" in failed.advice
    assert failed.advice in answer.sentence
    assert "tower.feed" not in failed.what  # it has none either, and gives next to nothing
    assert check_of(answer_of(example("skerry")), "flow.sump.runback.check").verdict is not Verdict.FAILS


def test_an_outlet_without_a_siphon_break_is_named_where_nothing_else_holds_its_water() -> None:
    """No check valve to fail either: the case with every guard at work names it, and so does the first sentence."""
    text = changed(
        example("skerry"),
        (', siphon_break = { level = "1.155 m", hole = "10 mm" } }', " }"),
        ('"valve check", ', ""),
        ('check = { kind = "check-swing-straight" }\n', ""),
    )
    answer = answer_of(text)
    for case in ("all", "break", "check"):
        check = check_of(answer, f"flow.sump.runback.{case}")
        assert check.verdict == "fails"
        assert "basin.jet" in check.what
        assert "no siphon break" in check.what
        assert "basin.jet" in check.advice
    assert "basin.jet" in answer.sentence
    assert "no siphon break" in answer.sentence
    whole = answer_of(example("skerry"))
    assert all("no siphon break" not in one.what for one in whole.checks if one.verdict == "sound")
