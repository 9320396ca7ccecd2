"""What must hold for any plan: order means nothing, more open is more flow, pumps follow their speed, no crash."""

from __future__ import annotations

import pickle
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.flow_plans import SMALL, changed, example, facts_of
from tidestead.plan import loads
from tidestead.studies import flow
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.inputs import Inputs


def shuffled(name: str, seed: int) -> FlowFacts:
    """The facts of an example whose circuits, vessels and valves stand in another order."""
    plan = loads(example(name)).plan
    mixed = {}
    for field in ("circuits", "vessels", "valves", "pumps"):
        items = list(getattr(plan, field).items())
        random.Random(seed).shuffle(items)
        mixed[field] = dict(items)
    return flow.find(Inputs(plan.model_copy(update=mixed), "metric"))


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_order_of_the_plan_changes_nothing(name: str) -> None:
    straight, mixed = facts_of(example(name)), shuffled(name, 7)
    for key, value in straight.flows.items():
        assert mixed.flows[key] == pytest.approx(value, rel=1e-9, abs=1e-15)
    for key, level in straight.levels.items():
        assert mixed.levels[key] == pytest.approx(level, abs=1e-9)


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_facts_travel_from_process_to_process(name: str) -> None:
    facts = facts_of(example(name))
    again = pickle.loads(pickle.dumps(facts))
    assert again.flows == facts.flows
    assert again.levels == facts.levels
    assert [one.name for one in again.shutting] == [one.name for one in facts.shutting]


@settings(max_examples=12, deadline=None)
@given(first=st.integers(5, 99), more=st.integers(1, 60))
def test_more_open_is_never_less_flow(first: int, more: int) -> None:
    less = facts_of(changed(SMALL, ('open = "100 %"', f'open = "{first} %"'))).flows["up"]
    wider = facts_of(changed(SMALL, ('open = "100 %"', f'open = "{min(first + more, 100)} %"'))).flows["up"]
    assert wider >= less * (1.0 - 1e-9)


@settings(max_examples=8, deadline=None)
@given(length=st.floats(0.3, 1.5))
def test_a_longer_weir_stands_lower(length: float) -> None:
    def level(metres: float) -> float:
        return facts_of(changed(SMALL, ('length = "1.5 m" }', f'length = "{metres:.4f} m" }}'))).levels[
            "tank"
        ]

    assert level(length) >= level(1.5) - 1e-9


@settings(max_examples=8, deadline=None)
@given(speed=st.integers(70, 100))
def test_a_slower_pump_moves_less_and_stays_on_its_own_curve(speed: int) -> None:
    """h(Q) = n**2*h1(Q/n)."""
    full = facts_of(SMALL).pumps[0]
    slow = facts_of(changed(SMALL, ('power = "160 W"', f'power = "160 W"\nspeed = "{speed} %"'))).pumps[0]
    share = speed / 100.0
    assert slow.flow <= full.flow * (1.0 + 1e-9)
    again = -full.law.at(slow.flow / share).head * share**2
    assert slow.head == pytest.approx(again, rel=1e-6)


@settings(max_examples=10, deadline=None)
@given(
    edge=st.floats(0.05, 0.9),
    jet=st.floats(0.0, 0.9),
    length=st.floats(0.01, 4.0),
    floor=st.floats(-3.0, 6.0),
)
def test_any_sizes_end_in_an_answer(edge: float, jet: float, length: float, floor: float) -> None:
    text = changed(
        SMALL,
        ('level = "0.80 m", length = "1.5 m"', f'level = "{edge:.3f} m", length = "{length:.3f} m"'),
        ('level = "0.775 m"', f'level = "{jet:.3f} m"'),
        ('floor = "1.0 m"', f'floor = "{floor:.3f} m"'),
    )
    inputs = Inputs(loads(text).plan, "metric")
    answer = flow.judge(inputs, flow.find(inputs))
    assert answer.checks
    assert answer.sentence


def test_what_runs_back_is_what_the_sump_gains() -> None:
    facts = facts_of(SMALL)
    assert facts.stop is not None
    assert facts.stop.cases is not None
    gained = (facts.stop.cases.working.sump_level - facts.levels["sump"]) * 1.6 * 0.8
    assert gained == pytest.approx(facts.stop.cases.working.total, rel=1e-9)


def test_courses_keep_the_water_there_is() -> None:
    facts = facts_of(SMALL)
    assert facts.stop is not None
    for course in facts.stop.courses:
        whole = [
            6.0 * tank + 1.28 * sump
            for tank, sump in zip(course.levels["tank"], course.levels["sump"], strict=True)
        ]
        assert max(whole) - min(whole) < 1e-6
