"""Flows at the ends of what is uncertain, by hand, and the checks that are judged by the adverse end."""

from __future__ import annotations

import dataclasses
import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of
from tidestead.core.answer import Estimate, Verdict
from tidestead.physics.flow.laws import OutfallLaw
from tidestead.plan import loads
from tidestead.studies.flow.elements import stock_of
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.lamps import lamp_doses
from tidestead.studies.flow.ranges import Ranges, pushed
from tidestead.studies.flow.turnover import turnover_checks

HALF_OPEN = changed(SMALL, ('open = "100 %"', 'open = "50 %"'))
GUESSED = changed(
    SMALL,
    (
        'curve = ["0 m3/h at 5 m", "8 m3/h at 4 m", "14 m3/h at 2 m", "18 m3/h at 0 m"]',
        'curve = ["0 m3/h at 5 m", "18 m3/h at 0 m"]',
    ),
)


def ranges(facts: FlowFacts) -> Ranges:
    """The ranges, which a plan that was solved has."""
    assert facts.ranges is not None
    return facts.ranges


def lost_by_hand(facts: FlowFacts, flow: float, way: float, valve: float) -> float:
    """Losses of the line up at a flow: Darcy and Colebrook, elbows 30 f_T with 40 % either way, ends 30 %."""
    lost = 0.0
    for bore, length, entry, others in ((0.0814, 0.5, 0.5, False), (0.0678, 2.5, 1.0, True)):
        speed, nu = flow / (math.pi * bore**2 / 4.0), facts.water.kinematic_viscosity
        root = 7.0
        for _ in range(50):
            root = -2.0 * math.log10(1.524e-6 / bore / 3.7 + 2.51 * root / (speed * bore / nu))
        turbulent = 0.25 / math.log10(4.572e-5 / bore / 3.7) ** 2
        k = entry * (1.0 + 0.3 * way) + (3 * 30.0 * turbulent * (1.0 + 0.4 * way) + valve if others else 0.0)
        lost += (length / bore / root**2 + k) * speed**2 / (2.0 * 9.80665)
    return lost


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_part_open_valve_at_half_and_twice_its_table_by_hand(way: float) -> None:
    """A gate half open loses 4.5 heads (Perry's, as the catalogue quotes it); makes differ by a factor of two.

    Elbows differ by 40 % (Hydraulic Institute, as the catalogue quotes it).
    """
    facts = facts_of(HALF_OPEN)
    found = ranges(facts).flow("up")
    flow = found.low if way > 0.0 else found.high
    corner = next(one for one in ranges(facts).corners if one.flows["up"] == flow)
    rise = corner.levels["tank"] - corner.levels["sump"]
    head = -facts.line("up").runs[2].law.at(flow).head
    assert facts.line("up").runs[2].item.kind == "pump"
    assert head == pytest.approx(rise + lost_by_hand(facts, flow, way, 4.5 * 2.0**way), rel=2e-3)


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_guessed_pump_a_fifth_of_its_head_away_by_hand(way: float) -> None:
    """h = h0*(1 -+ 0.2) - h0*(Q/Qmax)**2 at the ends: the curve of two numbers, a fifth of h0 lower and higher."""
    facts = facts_of(GUESSED)
    found = ranges(facts).flow("up")
    flow = found.low if way > 0.0 else found.high
    corner = next(one for one in ranges(facts).corners if one.flows["up"] == flow)
    rise = corner.levels["tank"] - corner.levels["sump"]
    head = 5.0 * (1.0 - 0.2 * way) - 5.0 * (flow * 3600.0 / 18.0) ** 2
    turbulent = 0.25 / math.log10(4.572e-5 / 0.0678 / 3.7) ** 2
    valve = max(0.17, 8.0 * turbulent) * (1.0 + 0.3 * way)
    assert head == pytest.approx(rise + lost_by_hand(facts, flow, way, valve), rel=2e-3)


def test_part_open_valves_and_guessed_pumps_widen_the_range_and_say_so() -> None:
    def width(text: str) -> float:
        found = ranges(facts_of(text)).flow("up")
        assert found.low < found.likely < found.high
        return (found.high - found.low) / found.likely

    assert width(HALF_OPEN) > 1.2 * width(SMALL)
    assert width(GUESSED) > 3.0 * width(SMALL)
    assert "factor of two" in ranges(facts_of(HALF_OPEN)).basis
    assert "factor of two" not in ranges(facts_of(SMALL)).basis
    assert "fifth" in ranges(facts_of(GUESSED)).basis


def test_lines_that_share_a_flow_are_pushed_against_each_other() -> None:
    """The feed gets least where its own valve is stiff and the jet beside it is not, less than with all stiff."""
    facts = facts_of(example("skerry"))
    found = ranges(facts)
    together = [corner.flows["feed"] for corner in found.corners[:2]]
    assert found.flow("feed").low < 0.99 * min(together)
    assert found.flow("feed").high > 1.01 * max(together)


def test_every_corner_is_in_balance() -> None:
    for corner in ranges(facts_of(example("skerry"))).corners:
        for key, came in corner.inflow.items():
            assert came == pytest.approx(corner.outflow[key], abs=1e-9 * max(corner.flows.values()))


def test_turnover_is_judged_by_the_least_inflow() -> None:
    facts, answer = facts_of(HALF_OPEN), answer_of(HALF_OPEN)
    check = check_of(answer, "flow.tank.turnover")
    assert check.estimate is not None
    assert check.estimate.low == pytest.approx(
        3600.0 * ranges(facts).inflow("tank").low / facts.volumes["tank"], rel=1e-9
    )
    assert check.estimate.basis


def test_velocity_and_pump_are_judged_by_the_greatest_flow() -> None:
    facts, answer = facts_of(HALF_OPEN), answer_of(HALF_OPEN)
    most = ranges(facts).flow("up").high
    velocity = check_of(answer, "flow.circuits.up.velocity").estimate
    curve = check_of(answer, "flow.pumps.lift.curve").estimate
    assert velocity is not None
    assert curve is not None
    assert velocity.high == pytest.approx(most / (math.pi * 0.0678**2 / 4.0), rel=1e-6)
    assert curve.high == most


def test_dose_is_least_in_yellow_water_badly_mixed_at_the_greatest_flow() -> None:
    """Half of P*gap/V * water * sleeve * lamp * V/Q with water = (1 - T)/(-ln T) over the gap, T = 0.8 per cm."""
    facts = facts_of(example("skerry"))
    (lamp,) = lamp_doses(loads(example("skerry")).plan, facts)
    assert lamp.dose is not None
    gap = 0.0625 - 0.014
    passed = 0.8 ** (100.0 * gap)
    light = 110.0 * gap * (1.0 - passed) / -math.log(passed) * lamp.shares[1] * 0.8
    assert lamp.dose.low == pytest.approx(0.5 * light / ranges(facts).flow("jet").high, rel=1e-9)
    assert lamp.dose.likely < lamp.dose.high


def test_a_dose_that_is_enough_in_the_mean_alone_is_not_sound() -> None:
    """Some water of a badly mixed chamber gets half: the mean is enough at every flow, the half is not."""
    answer = answer_of(changed(example("skerry"), ('uvc = "110 W"', 'uvc = "75 W"')))
    check = check_of(answer, "flow.apparatus.lamp.dose")
    assert check.estimate is not None
    assert 2.0 * check.estimate.low > 250.0 > check.estimate.low
    assert check.verdict is Verdict.FAILS
    assert "half the mean dose" in check.estimate.basis
    table = next(table for table in answer.tables if table.id == "flow.lamps")
    assert ("Least for intake water (Norway)", "perhaps") in {(row[1], row[4]) for row in table.rows}


def test_corner_that_is_not_found_leaves_checks_unproven() -> None:
    facts = facts_of(HALF_OPEN)
    lame = dataclasses.replace(facts, ranges=dataclasses.replace(ranges(facts), lost=1))
    (judged,) = turnover_checks(loads(HALF_OPEN).plan, lame)
    assert judged.check.verdict is Verdict.UNPROVEN
    assert judged.check.estimate is not None
    assert "not found" in judged.check.estimate.basis


def test_nothing_uncertain_has_no_range() -> None:
    running = facts_of(SMALL).running
    assert running is not None
    found = Ranges(running, (), "")
    assert found.flow("up") == Estimate.exact(found.likely.flows["up"])


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_doubt_of_the_last_part_before_a_free_fall_reaches_the_network(way: float) -> None:
    """The line down ends over the sump: the speed it loses there is as uncertain in its links as in its parts."""
    plan = loads(SMALL).plan
    facts = facts_of(SMALL)
    line, stock = facts.line("down"), stock_of(plan, facts.water.kinematic_viscosity)
    assert line.runs[-1].item.name == "outlet"
    moved = pushed(plan, stock, line, way)
    flow = 2e-3
    for one in (line, moved):
        over = [link.over for link in one.links if isinstance(link.over, OutfallLaw)]
        assert [law.at(flow).head for law in over] == [one.runs[-1].law.at(flow).head]
    share = moved.runs[-1].law.at(flow).head / line.runs[-1].law.at(flow).head
    assert share == pytest.approx(1.0 + 0.3 * way, rel=1e-9)  # ends 30 % either way, as in `lost_by_hand`
