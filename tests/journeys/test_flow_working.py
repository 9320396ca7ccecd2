"""Working of the flow answer: what stands in a formula is given, and the formula with its numbers gives the result."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, example
from tests.journeys.worked import misses, not_given, steps_of

FLOAT_VALVE = (
    "[pumps.lift]",
    '[vessels.sump.top_off]\nlevel = "0.40 m"\nflow = "60 L/h"\nstock = "100 L"\nevaporation = "18 L/day"\n\n'
    "[pumps.lift]",
)
PLANS = {
    "skerry": example("skerry"),
    "packhouse": example("packhouse"),
    "small": SMALL,
    "over a highest point": changed(SMALL, ('end = "tank.jet"', 'end = "tank.jet"\nhigh_point = "4.9 m"')),
    "float valve": changed(SMALL, FLOAT_VALVE),
    "slow break": changed(example("skerry"), ('hole = "10 mm"', 'hole = "3 mm"')),
    "drowned": changed(
        example("skerry"),
        ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "5 %" }'),
    ),
    "no siphon": changed(
        example("skerry"),
        ('siphon = { kind = "gate", open = "42 %" }', 'siphon = { kind = "gate", open = "0 %" }'),
    ),
}


@pytest.mark.parametrize("name", PLANS)
def test_every_formula_has_its_numbers_and_they_give_its_result(name: str) -> None:
    steps = list(steps_of(answer_of(PLANS[name])))
    assert len(steps) > 20
    for step in steps:
        assert not not_given(step), step.formula
        assert not misses(step), misses(step)
        assert step.unit


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_a_level_in_balance_is_told_with_what_comes_and_what_goes(name: str) -> None:
    steps = [step for step in steps_of(answer_of(example(name))) if step.formula == "Q_in = Q_out"]
    assert steps
    for step in steps:
        numbers = {one.symbol: one.value for one in step.numbers}
        assert numbers["Q_in"] == pytest.approx(numbers["Q_out"], rel=1e-3)
