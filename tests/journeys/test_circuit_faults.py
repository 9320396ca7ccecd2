"""Circuits that do not fit: each fault in its line, with what to write; and what only the study can tell."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, facts_of
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import loads
from tidestead.studies.flow.lowering import lowered

CASES = (
    (
        "unknown port",
        ('start = "sump.suction"', 'start = "sump.suctoin"'),
        "circuits.up.start",
        'Did you mean "suction"?',
    ),
    ("unknown vessel", ('end = "tank.jet"', 'end = "tnk.jet"'), "circuits.up.end", 'Did you mean "tank"?'),
    ("vessel without port", ('end = "tank.jet"', 'end = "tank"'), "circuits.up.end", "name one of its ports"),
    ("unknown pump", ('"pump lift"', '"pump lifft"'), "circuits.up.route[2]", 'Did you mean "lift"?'),
    ("unknown valve", ('"valve set"', '"valve sett"'), "circuits.up.route[5]", 'Did you mean "set"?'),
    ("unknown pipe", ("pvc-90-pn10 0.5", "pvc-90-pn11 0.5"), "circuits.up.route[1]", "catalogue of pipes"),
    (
        "pipe without a length",
        ("pipe pvc-90-pn10 0.5 m", "pipe pvc-90-pn10"),
        "circuits.up.route[1]",
        "size and a length",
    ),
    ("unknown fitting", ('"elbow-90 x3"', '"elbw-90 x3"'), "circuits.up.route[4]", 'Did you mean "elbow-90'),
    ("dead end", ('end = "tank.jet"', 'end = "manifold"'), "circuits.up.end", "no circuit goes on from it"),
    (
        "nothing leads to it",
        ('start = "tank.edge"', 'start = "edge"'),
        "circuits.down.start",
        "no circuit leads to it",
    ),
    (
        "water into an inlet",
        ('end = "sump.fall"', 'end = "sump.suction"'),
        "circuits.down.end",
        "no water comes in",
    ),
    (
        "water out of an outlet",
        ('start = "tank.edge"', 'start = "tank.jet"'),
        "circuits.down.start",
        "no water leaves",
    ),
    (
        "weir without length",
        ('level = "0.80 m", length = "1.5 m"', 'level = "0.80 m"'),
        "vessels.tank.ports.edge.length",
        "a weir needs it",
    ),
    (
        "siphon without crest",
        ('kind = "weir", level = "0.80 m", length = "1.5 m"', 'kind = "siphon", level = "0.60 m"'),
        "vessels.tank.ports.edge.crest",
        "a siphon needs it",
    ),
    (
        "port above its vessel",
        ('kind = "weir", level = "0.80 m"', 'kind = "weir", level = "0.95 m"'),
        "vessels.tank.ports.edge.level",
        "above its vessel",
    ),
    (
        "length of an inlet",
        ('kind = "inlet", level = "0.10 m"', 'kind = "inlet", level = "0.10 m", length = "1 m"'),
        "vessels.sump.ports.suction.length",
        "means nothing",
    ),
    (
        "curve that rises",
        ('"8 m3/h at 4 m"', '"8 m3/h at 5.4 m"'),
        "pumps.lift.curve[2]",
        "rises: it has no less head than",
    ),
    (
        "curve that goes back",
        ('"14 m3/h at 2 m"', '"7 m3/h at 2 m"'),
        "pumps.lift.curve[3]",
        "no more flow than",
    ),
    (
        "a valve at 140 %",
        ('open = "100 %"', 'open = "140 %"'),
        "valves.set.open",
        "must be from 0 % to 100 %",
    ),
    ("a valve at 1.4", ('open = "100 %"', "open = 1.4"), "valves.set.open", "must be from 0 % to 100 %"),
    (
        "a size without its sort",
        ("pipe pvc-75-pn10 2.5 m", "pipe 3in 2.5 m"),
        "circuits.up.route[3]",
        'names a pipe "3in" that is not in the catalogue of pipes. Put "pvc40-3in" or "pvc80-3in" or "dwv-3in"',
    ),
    (
        "a length without a size",
        ("pipe pvc-75-pn10 2.5 m", "pipe 1.6 m"),
        "circuits.up.route[3]",
        "says how long a pipe is but not which: its size is missing. Write the size before the length, such as "
        '"pipe pvc40-2in 1.6 m"',
    ),
    (
        "a length below nothing",
        ("pipe pvc-75-pn10 2.5 m", "pipe pvc-75-pn10 -2.5 m"),
        "circuits.up.route[3]",
        'a length of nothing or less; it must be more. Write it like "pipe pvc-75-pn10 3.2 m"',
    ),
    (
        "a bulkhead as a list",
        ('level = "0.10 m" }', 'level = "0.10 m", bulkhead = ["heavy-3", "east"] }'),
        "vessels.sump.ports.suction.bulkhead",
        "its keys: fitting, wall, from_left",
    ),
    (
        "a place that may be an outfall",
        ('end = "sump.fall"', 'end = "gully"'),
        "circuits.down.end",
        "add [outfalls.gully] where it leaves the system",
    ),
    (
        "water out of an outfall",
        (
            '[circuits.down]\nstart = "tank.edge"',
            '[outfalls.gully]\nlevel = "-0.2 m"\n\n[circuits.down]\nstart = "gully"',
        ),
        "circuits.down.start",
        "is an outfall, from which no water comes",
    ),
    ("a bare number in a curve", ('"8 m3/h at 4 m"', '"8 at 4"'), "pumps.lift.curve[2]", "has no unit"),
)


def faults_in(text: str) -> list[str]:
    with pytest.raises(PlanError) as caught:
        loads(text)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("change", "where", "says"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_fault_is_told_where_it_stands(change: tuple[str, str], where: str, says: str) -> None:
    faults = faults_in(changed(SMALL, change))
    told = [fault for fault in faults if fault.startswith(where) and says in fault]
    assert told, faults
    assert "(line " in told[0]


def test_pump_used_twice_is_told_with_its_first_place() -> None:
    text = changed(SMALL, ('"elbow-90 x2"]', '"elbow-90 x2", "pump lift"]'))
    assert any("stands in circuit up already" in fault for fault in faults_in(text))


def test_fitting_without_any_pipe_has_no_bore() -> None:
    text = changed(SMALL, ('"pipe dwv-4in 1.5 m", ', ""))
    assert any("its bore is not known" in fault for fault in faults_in(text))


def test_two_lines_from_one_hole_are_told() -> None:
    text = SMALL + (
        '\n[vessels.tank.ports.second]\nkind = "outlet"\nlevel = "0.7 m"\n'
        '[circuits.more]\nstart = "sump.suction"\nroute = ["pipe pvc-50-pn10 2 m"]\nend = "tank.second"\n'
    )
    assert any("is the start of circuit up too" in fault for fault in faults_in(text))


def test_bulkhead_in_a_wall_that_is_not_there() -> None:
    hole = 'bulkhead = { fitting = "heavy-2", wall = "nroth", from_left = "0.3 m" }'
    text = changed(SMALL, ('level = "0.10 m" }', f'level = "0.10 m", {hole} }}'))
    assert any("is not a wall of this vessel" in fault for fault in faults_in(text))


def test_circuit_with_no_way_back_is_unproven_with_its_reason() -> None:
    text = SMALL[: SMALL.index("[circuits.down]")] + '[targets]\nturnover = "1.0"\n'
    check = check_of(answer_of(text), "flow.circulation.flow")
    assert check.verdict is Verdict.UNPROVEN
    assert "no way back" in check.missing


def test_free_falls_into_a_vessel_below_the_sump_are_unproven() -> None:
    low = (
        '\n[vessels.cellar]\nrole = "vat"\nmade = "bought"\nshape = "box"\nlength = "1 m"\nwidth = "1 m"\n'
        'height = "1 m"\nwater = "0.2 m"\nplace = { floor = "-2 m" }\n'
        'ports.one = { kind = "spill", level = "0.9 m" }\nports.two = { kind = "spill", level = "0.9 m" }\n'
        '[vessels.tank.ports.hole]\nkind = "inlet"\nlevel = "0.2 m"\n'
        '[circuits.lost]\nstart = "tank.hole"\nroute = ["pipe pvc-50-pn10 3 m"]\nend = "cellar.two"\n'
    )
    text = changed(SMALL, ('end = "sump.fall"', 'end = "cellar.one"')) + low
    check = check_of(answer_of(text), "flow.circulation.flow")
    assert check.verdict is Verdict.UNPROVEN
    assert "cellar" in check.missing


def _loose(name: str, start: str, end: str) -> str:
    return f'[circuits.{name}]\nstart = "{start}"\nroute = ["pipe pvc-50-pn10 3 m"]\nend = "{end}"\n'


def test_a_loose_end_is_not_offered_another_loose_end() -> None:
    """Only a place that lacks the other side can have been meant, and not that of the same circuit."""
    both = faults_in(SMALL + _loose("one", "header-a", "header-b"))
    assert len(both) == 2
    assert not any("Did you mean" in fault for fault in both)
    text = changed(SMALL, ("ports.jet = {", 'ports.more = { kind = "inlet", level = "0.2 m" }\n'
                   'ports.most = { kind = "inlet", level = "0.3 m" }\nports.jet = {'))  # fmt: skip
    ends = faults_in(text + _loose("one", "tank.more", "header-a") + _loose("two", "tank.most", "header-b"))
    assert len(ends) == 2
    assert not any("Did you mean" in fault for fault in ends)
    joined = faults_in(
        changed(SMALL, ('end = "tank.jet"', 'end = "manifold"')) + _loose("z", "manifald", "tank.jet")
    )
    assert any('Did you mean "manifald"?' in fault for fault in joined)


RING = (
    '[valves.one]\nkind = "check-flapper"\n[valves.two]\nkind = "check-flapper"\n'
    '[circuits.there]\nstart = "a"\nroute = ["pipe pvc-75-pn10 1 m", "valve one"]\nend = "b"\n'
    '[circuits.back]\nstart = "b"\nroute = ["pipe pvc-75-pn10 1 m", "valve two"]\nend = "a"\n'
)


@pytest.mark.parametrize("joined", [True, False])
def test_a_ring_of_check_valves_is_unproven_and_names_them(joined: bool) -> None:
    text = SMALL + RING
    if joined:
        text = changed(text, ('end = "tank.jet"', 'end = "a"')) + _loose("on", "b", "tank.jet")
    check = check_of(answer_of(text), "flow.circulation.flow")
    assert check.verdict is Verdict.UNPROVEN
    assert "there, back" in check.missing
    assert "(one, two)" in check.missing


def test_two_check_valves_side_by_side_are_no_ring() -> None:
    beside = changed(
        RING, ('start = "b"', 'start = "a"'), ('"valve two"]\nend = "a"', '"valve two"]\nend = "b"')
    )
    text = changed(SMALL + beside, ('end = "tank.jet"', 'end = "a"')) + _loose("on", "b", "tank.jet")
    assert facts_of(text).solved


OUTFALLS = (
    '[vessels.sump.ports.one]\nkind = "inlet"\nlevel = "0.05 m"\n'
    '[vessels.sump.ports.two]\nkind = "inlet"\nlevel = "0.08 m"\n'
    '[outfalls.gully]\nlevel = "-0.4 m"\n[outfalls.beach]\nlevel = "-1.5 m"\n'
    '[valves.one]\nkind = "ball"\nopen = "OPEN"\n[valves.two]\nkind = "ball"\nopen = "OPEN"\n'
    '[circuits.west]\nstart = "sump.one"\nroute = ["pipe pvc-50-pn10 3 m", "valve one"]\nend = "gully"\n'
    '[circuits.east]\nstart = "sump.two"\nroute = ["pipe pvc-50-pn10 3 m", "valve two"]\nend = "beach"\n'
)


def test_two_free_outfalls_below_the_sump_are_unproven_each_with_its_reason() -> None:
    answer = answer_of(SMALL + OUTFALLS.replace("OPEN", "100 %"))
    told = [check.missing for check in answer.checks if check.id.startswith("flow.circulation")]
    assert all(
        check.verdict is Verdict.UNPROVEN for check in answer.checks if check.id.startswith("flow.circ")
    )
    assert any("circuit west" in words and "outfall gully" in words for words in told)
    assert any("circuit east" in words and "outfall beach" in words for words in told)


def test_shut_outfalls_let_the_rest_run_and_empty_the_sump() -> None:
    text = SMALL + OUTFALLS.replace("OPEN", "0 %")
    facts = facts_of(text)
    assert facts.flows == pytest.approx(facts_of(SMALL).flows)
    ways = {one.way.words: one for one in lowered(loads(text).plan, facts) if one.vessel == "sump"}
    assert ways["line west"].level == pytest.approx(0.05)
    assert (ways["line east"].way.out, ways["line east"].way.outlet) == ("out at beach", -1.5)
    sump = next(one for one in facts.shutting if one.words == "vessel sump")
    assert {"one", "two"} <= set(sump.shut)


def test_pump_that_cannot_lift_fails_and_its_check_valve_holds() -> None:
    curve = 'curve = ["0 m3/h at 5 m", "8 m3/h at 4 m", "14 m3/h at 2 m", "18 m3/h at 0 m"]'
    weak = 'curve = ["0 m3/h at 0.9 m", "8 m3/h at 0.4 m"]\ncheck_valve = true'
    check = check_of(answer_of(changed(SMALL, (curve, weak))), "flow.pumps.lift.delivers")
    assert check.verdict is Verdict.FAILS


def test_pump_past_the_end_of_its_curve_is_unproven() -> None:
    text = changed(SMALL, (', "14 m3/h at 2 m", "18 m3/h at 0 m"]', ', "9 m3/h at 3.8 m"]'))
    check = check_of(answer_of(text), "flow.pumps.lift.curve")
    assert check.verdict is Verdict.UNPROVEN
    assert "throttle" in check.missing


def test_check_valves_one_against_the_other_stop_the_water() -> None:
    """Two check valves in a ring that let water only toward each other: no flow, no crash."""
    text = changed(
        SMALL,
        ("[circuits.up]", '[valves.back]\nkind = "check-swing"\n\n[circuits.up]'),
        ('"valve set"]', '"valve set"]'),
    ) + (
        '\n[vessels.tank.ports.low]\nkind = "inlet"\nlevel = "0.3 m"\n[vessels.sump.ports.back]\nkind = "outlet"\n'
        'level = "0.2 m"\n[circuits.ring]\nstart = "tank.low"\n'
        'route = ["pipe pvc-50-pn10 2 m", "valve back"]\nend = "sump.back"\n'
    )
    assert answer_of(text).checks


def test_shut_valve_leaves_a_pump_that_moves_nothing() -> None:
    answer = answer_of(changed(SMALL, ('open = "100 %"', 'open = "0 %"')))
    assert answer.verdict in (Verdict.FAILS, Verdict.UNPROVEN)
    assert [check for check in answer.checks if check.id.startswith("flow.")]


def test_missing_curve_and_missing_loss_name_their_keys() -> None:
    start = SMALL.index("curve = [")
    text = SMALL[:start] + SMALL[SMALL.index("\n", start) + 1 :]
    check = check_of(answer_of(text), "flow.circulation.flow")
    assert "pumps.lift.curve" in check.missing
