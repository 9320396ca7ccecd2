"""Working of the flow answer: what stands in a formula is given, and the formula with its numbers gives the result."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import answer_of, example

WORKED = ("V_free", "z_2", "a", "s", "Q_hole", "f", "n")
"""Symbols whose formula is plain arithmetic."""


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_a_formula_with_its_numbers_gives_its_result(name: str) -> None:
    seen = 0
    for working in answer_of(example(name)).working:
        for step in working.steps:
            restart = step.formula.startswith("z = z_0")
            if not restart and (step.symbol not in WORKED or "=" not in step.formula or step.unit == "1/h"):
                continue
            numbers = {one.symbol: one.value for one in step.numbers}
            formula = step.formula.partition(" = ")[2]
            names = {"sqrt": math.sqrt, "pi": math.pi, "min": min, "__builtins__": {}}
            assert eval(formula, names | numbers) == pytest.approx(step.result, rel=0.01, abs=1e-5), (
                step.formula
            )
            seen += 1
    assert seen >= 10


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_a_level_in_balance_is_told_with_what_comes_and_what_goes(name: str) -> None:
    steps = [step for working in answer_of(example(name)).working for step in working.steps]
    balances = [step for step in steps if step.formula == "Q_in = Q_out"]
    assert balances
    for step in balances:
        numbers = {one.symbol: one.value for one in step.numbers}
        assert numbers["Q_in"] == pytest.approx(numbers["Q_out"], rel=1e-3)
