"""Drains and suctions that meet in one pipe, shut lines, loops: what is blocked with what, and what is not."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of
from tests.journeys.test_flow_apart import twins
from tests.journeys.test_flow_review import WITH_HEADER, likely
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import loads

DOWN = (
    '[circuits.down]\nstart = "tank.edge"\nroute = ["pipe dwv-4in 1.5 m", "elbow-90 x2"]\nend = "sump.fall"\n'
)
EDGE2 = ("ports.jet =", 'ports.edge2 = { kind = "weir", level = "0.80 m", length = "1.5 m" }\nports.jet =')


def into(place: str) -> str:
    """Two short pipes from the tank's two weirs to a junction."""
    return "".join(
        f'[circuits.{key}]\nstart = "tank.{port}"\nroute = ["pipe dwv-4in 0.3 m"]\nend = "{place}"\n\n'
        for key, port in (("e1", "edge"), ("e2", "edge2"))
    )


JOINED = changed(
    SMALL,
    EDGE2,
    (DOWN, into("join") + DOWN.replace('"tank.edge"', '"join"')),
)
LOOP = (
    '[pumps.wave]\ncurve = ["0 m3/h at 3 m", "10 m3/h at 0 m"]\n\n'
    '[circuits.loop]\nstart = "tank.lo"\nroute = ["pipe pvc-75-pn10 0.5 m", "pump wave"]\nend = "wj"\n\n'
    '[circuits.loop2]\nstart = "wj"\nroute = ["pipe pvc-75-pn10 1 m"]\nend = "tank.back"\n\n[targets]'
)
LOOP_PORTS = (
    "ports.jet =",
    'ports.lo = { kind = "inlet", level = "0.10 m" }\nports.back = { kind = "outlet", level = "0.50 m" }\nports.jet =',
)


def test_two_overflows_in_one_pipe_are_blocked_by_one_blockage() -> None:
    """By hand as with one weir: the sump's water on top of the tank's, its level a little lower over two weirs."""
    facts, answer = facts_of(JOINED), answer_of(JOINED)
    drain = next(one for one in facts.drains if one.vessel == "tank")
    assert drain.sole == "down"
    check = check_of(answer, "flow.tank.drains.one_blocked")
    assert "with down blocked" in check.what
    assert likely(check) == pytest.approx(1.88 - facts.levels["tank"] - drain.held.reserve / 6.0, abs=1e-6)
    assert check.verdict is Verdict.FAILS
    plain = likely(check_of(answer_of(SMALL), "flow.tank.drains.one_blocked"))
    assert likely(check) == pytest.approx(
        plain + facts_of(SMALL).levels["tank"] - facts.levels["tank"], abs=2e-3
    )


def test_a_box_behind_a_junction_backs_up_what_runs_into_it() -> None:
    """The tank spills through a junction into a tall box: held back there, both rise as one."""
    box = (
        '[vessels.box]\nrole = "vat"\nmade = "bought"\nshape = "box"\nlength = "1.0 m"\nwidth = "0.6 m"\n'
        'height = "2.6 m"\nwater = "0.42 m"\nplace = { floor = "0.6 m" }\n'
        'ports.in = { kind = "spill", level = "0.70 m" }\n'
        'ports.out = { kind = "weir", level = "0.40 m", length = "1.0 m" }\n\n[vessels.sump]'
    )
    joint = '[circuits.j]\nstart = "join"\nroute = ["pipe dwv-4in 0.5 m"]\nend = "box.in"\n\n'
    text = changed(
        SMALL,
        EDGE2,
        ("[vessels.sump]", box),
        (DOWN, into("join") + joint + DOWN.replace('"tank.edge"', '"box.out"')),
    )
    held = next(one for one in facts_of(text).drains if one.vessel == "box").held
    assert set(held.risen) == {"box", "tank"}
    assert held.tightest == "tank"


SIDE = """[vessels.side]
role = "vat"
made = "bought"
shape = "box"
length = "1 m"
width = "1 m"
height = "1 m"
water = "0.42 m"
place = { floor = "0.7 m" }
ports.in = { kind = "spill", level = "0.8 m" }
ports.out = { kind = "weir", level = "0.40 m", length = "0.8 m" }

[circuits.on]
start = "side.out"
route = ["pipe dwv-4in 1 m"]
end = "sump.fall"

[vessels.sump]"""


def test_a_loop_in_the_display_is_no_suction_of_the_sump_and_does_not_empty_it() -> None:
    """What its pump draws comes back to it: held back in a vat behind, the tank gives what stands over its weir."""
    text = changed(SMALL, LOOP_PORTS, ("[targets]", LOOP))
    plain = check_of(answer_of(SMALL), "flow.sump.restart")
    assert likely(check_of(answer_of(text), "flow.sump.restart")) == pytest.approx(likely(plain), abs=1e-3)
    behind = changed(text, (DOWN, DOWN.replace("sump.fall", "side.in")), ("[vessels.sump]", SIDE))
    held = next(one for one in facts_of(behind).drains if one.vessel == "side").held
    assert "tank" in held.risen or held.sunk["tank"].end == pytest.approx(1.80)


def test_a_loop_in_one_circuit_is_told_how_to_part() -> None:
    loop = (
        '[pumps.wave]\ncurve = ["0 m3/h at 3 m", "10 m3/h at 0 m"]\n\n[circuits.loop]\nstart = "tank.lo"\n'
        'route = ["pipe pvc-75-pn10 1 m", "pump wave"]\nend = "tank.back"\n\n[targets]'
    )
    with pytest.raises(PlanError) as caught:
        loads(changed(SMALL, LOOP_PORTS, ("[targets]", loop)))
    assert any("Part the loop behind its pump" in str(fault) for fault in caught.value.faults)


def test_a_shut_leg_to_the_suction_draws_nothing() -> None:
    leg = (
        '[circuits.drainleg]\nstart = "sump.hi"\nroute = ["pipe pvc-63-pn10 2 m", "valve dl"]\nend = "header"\n\n'
        "[circuits.main]"
    )
    text = changed(
        WITH_HEADER,
        ("[vessels.sump.ports]", '[vessels.sump.ports]\nhi = { kind = "inlet", level = "0.42 m" }'),
        ("[apparatus.strainer]", 'dl = { kind = "ball", open = "0 %" }\n\n[apparatus.strainer]'),
        ("[circuits.main]", leg),
    )
    plain, shut = answer_of(WITH_HEADER), answer_of(text)
    assert "flow.pumps.return.drainleg.cover" not in {check.id for check in shut.checks}
    for ident in ("flow.pumps.return.cover", "flow.sump.restart"):
        assert likely(check_of(shut, ident)) == pytest.approx(likely(check_of(plain, ident)), abs=1e-6)


def test_a_shut_valve_between_two_waters_keeps_them_apart() -> None:
    link = (
        '[valves.w1]\nkind = "ball"\nopen = "0 %"\n\n[circuits.x1]\nstart = "tank.bottom"\n'
        'route = ["pipe pvc-63-pn10 1 m", "valve w1"]\nend = "rear.inl"\n\n[targets]'
    )
    both = twins(SMALL)
    text = changed(
        both,
        ("[vessels.tank]", '[vessels.tank]\nports.bottom = { kind = "inlet", level = "0.05 m" }'),
        ("[vessels.rear]", '[vessels.rear]\nports.inl = { kind = "outlet", level = "0.30 m" }'),
        ("[targets]", link),
    )
    before, after = answer_of(both), answer_of(text)
    for ident in ("flow.sump.runback.check", "flow.pit.runback.check", "flow.tank.drains.one_blocked"):
        assert likely(check_of(after, ident)) == pytest.approx(likely(check_of(before, ident)), abs=1e-6)


def test_examples_have_no_pipe_that_blocks_two_ways() -> None:
    """What the two examples say of their drains is unchanged by looking at junctions."""
    assert [one.sole for one in facts_of(example("skerry")).drains] == ["comb", "", ""]
