"""What shutting off takes, for every part of a plan, against graphs and volumes worked on paper."""

from __future__ import annotations

import re

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, example, facts_of
from tidestead.plan import loads
from tidestead.studies.flow.shutting import CROWDED, ShutFacts

WIDE = ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "60 %" }')
"""The siphon alone carries all of the pump's flow then."""


def _shut(text: str) -> dict[str, ShutFacts]:
    return {one.words: one for one in facts_of(text).shutting}


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_every_part_is_told_with_its_kind(name: str) -> None:
    """packhouse has a pump, a valve and a vessel of one name."""
    plan = loads(example(name)).plan
    told = {(one.kind.removeprefix("check "), one.name) for one in facts_of(example(name)).shutting}
    wanted = {("pump", key) for key in plan.pumps} | {("valve", key) for key in plan.valves}
    wanted |= {("apparatus", key) for key in plan.apparatus} | {("vessel", key) for key in plan.vessels}
    wanted |= {
        ("bulkhead", f"{key}.{port}")
        for key, vessel in plan.vessels.items()
        for port in vessel.ports
        if vessel.ports[port].bulkhead is not None
    }
    assert told == wanted


def test_a_pump_that_would_push_on_a_shut_valve_or_draw_from_one_is_off() -> None:
    shut = _shut(example("packhouse"))
    assert shut["valve main"].off == ("return",)
    assert shut["valve main"].shut == ("suction",)
    assert shut["apparatus basket"].off == ("return",)
    assert set(shut["apparatus basket"].shut) == {"suction", "main"}
    assert shut["apparatus basket"].dry


def test_a_pump_that_has_another_way_runs_on() -> None:
    """The tower's branch is shut with its own valve; the basin gets what the tower had, and its siphon takes it."""
    tower = _shut(changed(example("skerry"), WIDE))["vessel tower"]
    assert (tower.shut, tower.off) == (("tower",), ())
    assert tower.remains is not None
    assert 1.0 < tower.remains < 1.3
    column = _shut(example("packhouse"))["vessel column"]
    assert (column.shut, column.off) == (("column",), ("column",))
    assert column.remains == pytest.approx(1.0)


def test_all_that_flows_into_a_vessel_is_stopped() -> None:
    """By its own weight too: the basin feeds the weir box over its comb, and the pump that feeds the basin stops."""
    box = _shut(example("skerry"))["vessel weirbox"]
    assert set(box.shut) == {"siphon"}
    assert box.off == ("return",)
    assert dict(box.first) == {"basin": pytest.approx(0.10 + 1.160)}
    sump = _shut(example("skerry"))["vessel sump"]
    assert sump.off == ("return",)
    assert set(sump.shut) == {"siphon", "suction"}
    assert dict(sump.first) == {
        "basin": pytest.approx(0.10 + 1.160),
        "weirbox": pytest.approx(0.65 + 0.46),
        "tower": pytest.approx(1.41),
    }


def test_without_a_valve_the_pump_is_what_stops_the_inflow() -> None:
    text = changed(example("skerry"), ('"apparatus lamp", "valve basin"]', '"apparatus lamp"]'))
    text = text.replace('basin = { kind = "ball" }\n', "")
    box = _shut(text)["vessel weirbox"]
    assert (box.off, box.remains) == (("return",), 0.0)
    assert box.shut == ("siphon",)


def test_litres_lost_by_hand() -> None:
    """No valve in the suction: the sump falls from 0.40 to its port at 0.10 m, and 0.5 m of pipe with bore 81.4 mm."""
    pump = _shut(SMALL)["pump lift"]
    assert dict(pump.falls) == {"sump": pytest.approx(0.10)}
    assert not pump.dry
    assert pump.lost >= 1.6 * 0.8 * 0.30 + 0.5 * 3.14159 * 0.0814**2 / 4.0
    valve = _shut(SMALL)["valve set"]
    assert dict(valve.falls) == {"tank": pytest.approx(1.775)}


def test_behind_a_riser_a_vessel_gives_only_what_stands_over_its_lip() -> None:
    text = changed(
        example("skerry"),
        ('"riser 1.41 m", "pipe pvc-63-pn10 1.4 m", "elbow-90"]', '"riser 1.41 m", "pipe pvc-63-pn10 1.4 m", '
         '"apparatus trap", "elbow-90"]'),
        WIDE,
        ("[circuits.main]", '[apparatus.trap]\nkind = "other"\nloss = "1 mm at 2 m3/h"\n\n[circuits.main]'),
    )  # fmt: skip
    trap = _shut(text)["apparatus trap"]
    assert trap.dry
    assert dict(trap.first) == {"tower": pytest.approx(1.41)}
    assert trap.shut == ("tower",)


STANDBY = """
[circuits.standby]
start = "weirbox.standby"
route = ["pipe pvc-90-pn10 1.5 m", "elbow-90 x2"]
"""


@pytest.mark.parametrize(("standby", "off"), [("pvc-90-pn10", ()), ("pvc-40-pn10", ("return",))])
def test_a_pump_stops_where_the_ways_that_are_left_would_not_carry_its_flow(
    standby: str, off: tuple[str, ...]
) -> None:
    """To take out a strainer in the siphon its valve is shut: the standby drain has all the flow, or spills."""
    text = changed(
        example("skerry"),
        ('"elbow-90 x2", "valve siphon"]', '"valve siphon", "elbow-90 x2", "apparatus screen"]'),
        ('from_siphon = { kind = "outlet", level = "0.30 m" }', 'from_siphon = { kind = "spill", level = "0.60 m" }'),
        ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "60 %" }'),
        (STANDBY, STANDBY.replace("pvc-90-pn10", standby)),
        ("[circuits.main]", '[apparatus.screen]\nkind = "other"\nloss = "1 mm at 10 m3/h"\n\n[circuits.main]'),
    )  # fmt: skip
    screen = _shut(text)["apparatus screen"]
    assert "siphon" in screen.shut
    assert screen.off == off
    assert screen.dry


def test_a_capped_fitting_drains_its_vessel() -> None:
    text = changed(
        SMALL,
        ('ports.fall = {', 'ports.spare = { kind = "inlet", level = "0.25 m", bulkhead = { fitting = "metric-63", '
         'wall = "east", from_left = "0.4 m", seat = "rigid", thickness = "8 mm" } }\nports.fall = {'),
    )  # fmt: skip
    spare = _shut(text)["bulkhead sump.spare"]
    assert dict(spare.falls) == {"sump": pytest.approx(0.25)}
    assert spare.lost == pytest.approx(1.6 * 0.8 * 0.15)


def test_the_table_says_it_and_a_caution_names_what_cannot_be_had_dry() -> None:
    answer = answer_of(example("skerry"))
    rows = {row[0]: row for table in answer.tables if table.id == "flow.shutting" for row in table.rows}
    pump = rows["pump return"]
    assert set(str(pump[1]).split(", ")) == {"suction", "main"}
    assert pump[2] == "return"
    assert pump[6] == 0.0
    assert "sump to 0.20 m" in str(rows["valve suction"][5])
    stuck = next(caution for caution in answer.cautions if "cannot be taken out" in caution)
    assert "valve suction" in stuck
    assert "pump return" not in stuck


def test_a_pump_whose_level_is_said_is_opened_there() -> None:
    """Above the sump's water it takes nothing out of it; below, the sump falls to its port."""
    curve = "[pumps.lift]\n"
    high = _shut(changed(SMALL, (curve, curve + 'level = "0.45 m"\n')))["pump lift"]
    assert high.dry
    low = _shut(changed(SMALL, (curve, curve + 'level = "0.02 m"\n')))["pump lift"]
    assert dict(low.falls) == {"sump": pytest.approx(0.10)}


def test_a_branch_that_would_get_all_of_the_pump_is_stopped_with_it() -> None:
    """With the basin shut the tower alone would take the flow of the pump: with one of its drains blocked it runs over.

    The network solved with the basin's valve shut says how much.
    """
    text = example("skerry")
    alone = facts_of(changed(text, ('basin = { kind = "ball" }', 'basin = { kind = "ball", open = "0 %" }')))
    assert alone.inflow["tower"] > CROWDED * facts_of(text).inflow["tower"]
    basin = _shut(text)["vessel basin"]
    assert basin.shut == ("basin",)
    assert basin.off == ("return",)
    assert basin.remains == 0.0


def _as_left(text: str, one: ShutFacts) -> str:
    """The plan with the valves of a recipe shut."""
    for name in one.shut:
        text = re.sub(rf'(?m)^({name} = {{ kind = "[a-z-]+")(, open = "[^"]*")?', r'\1, open = "0 %"', text)
    return text


RECIPES = [
    ("skerry", ("[site]", "[site]")),
    ("skerry", WIDE),
    ("skerry", ('tower = { kind = "gate", open = "22 %" }', 'tower = { kind = "gate", open = "40 %" }')),
    ("packhouse", ("[site]", "[site]")),
]


@pytest.mark.parametrize(("name", "change"), RECIPES)
def test_no_recipe_that_lets_a_pump_run_floods_a_vessel(name: str, change: tuple[str, str]) -> None:
    """Every recipe is carried out in the plan itself and solved anew: levels, flows, each drain blocked."""
    text = changed(example(name), change)
    today = facts_of(text)
    tried = 0
    for one in today.shutting:
        if one.off or one.remains is None or not set(one.shut) - {"check"}:
            continue
        tried += 1
        then = facts_of(_as_left(text, one))
        assert then.running is not None, one.words
        for key, level in then.levels.items():
            vessel = loads(text).plan.vessels[key]
            brim = (vessel.place.floor or 0.0) + (vessel.brim if vessel.brim is not None else vessel.height)
            assert level < brim - 0.010, (one.words, key)
            assert then.inflow[key] <= CROWDED * today.inflow[key] * 1.001, (one.words, key)
        for drain in then.drains:
            for line, blocked in drain.blocked.items():
                room = drain.tightest["blocked", line]
                grew = drain.flow > 1.01 * today.inflow[drain.vessel]
                assert blocked is not None, (one.words, drain.vessel, line)
                assert not grew or room.brim - room.highest >= 0.010, (one.words, drain.vessel, line)
    assert tried or change != WIDE


def test_a_pump_stops_where_what_is_sent_elsewhere_could_not_leave_with_a_drain_blocked() -> None:
    """Without the tower the basin gets 15 % more: the siphon alone carries today's flow and not that."""
    text = example("skerry")
    box = {one.vessel: one for one in facts_of(text).drains}["weirbox"]
    assert box.tightest["blocked", "standby"].level < box.brim - 0.010
    shut = changed(
        text, ('tower = { kind = "gate", open = "22 %" }', 'tower = { kind = "gate", open = "0 %" }')
    )
    more = {one.vessel: one for one in facts_of(shut).drains}["weirbox"]
    assert more.tightest["blocked", "standby"].level > more.brim
    assert _shut(text)["vessel tower"].off == ("return",)
    assert _shut(changed(text, WIDE))["vessel tower"].off == ()
