"""The working can be followed: what is put into each formula of a limit gives its result again."""

from __future__ import annotations

import math

import pytest

from tests.journeys.structure_plans import PLAIN, TOWER, VAT, asked, changed
from tidestead.core.answer import Answer, Step


@pytest.fixture(scope="module", params=[PLAIN, VAT, TOWER], ids=["plain", "vat", "tower"])
def answer(request: pytest.FixtureRequest) -> Answer:
    return asked(request.param)


def numbers(step: Step) -> dict[str, float]:
    return {given.symbol: given.value for given in step.numbers}


def steps(answer: Answer) -> list[Step]:
    return [step for working in answer.working for step in working.steps]


def reckoned(step: Step) -> float | None:
    """The right side of a formula of the shape "x = ..., words", worked out; None where it is told in words."""
    right = step.formula.partition(" = ")[2]
    parts = right.split(", ")
    names = {name: value for name, value in numbers(step).items() if name.isidentifier()}
    values = {**names, "sqrt": math.sqrt, "pi": math.pi, "tan": math.tan}
    for part in parts[1:]:
        name, sign, more = part.partition(" = ")
        if sign and name.isidentifier():
            try:
                values[name] = eval(more, {"__builtins__": {}}, values)  # our own formulas
            except (NameError, SyntaxError, TypeError):
                return None
    try:
        return float(eval(parts[0], {"__builtins__": {}}, values))  # our own formulas
    except (NameError, SyntaxError, TypeError):
        return None


def test_formulas_give_their_results_from_the_numbers_beside_them(answer: Answer) -> None:
    """Every formula that is one, not words: among them all limits of lumber, sheets and fasteners."""
    found = [(step, reckoned(step)) for step in steps(answer)]
    told = [(step, value) for step, value in found if value is not None]
    for step, value in told:
        assert value == pytest.approx(step.result, rel=1e-9, abs=1e-15), (
            step.symbol,
            step.formula,
            step.numbers,
        )
    assert {"f_b", "f_v", "P", "R"} <= {step.symbol for step, _ in told}
    assert len(told) > 15


LAMINATED = (
    ('"acrylic-cast"', '"glass-annealed"'),
    ('thickness = "1 1/4 in"', 'plies = ["1 1/4 in", "1 1/4 in"]'),
)


def test_glass_ends_at_the_value_of_its_check() -> None:
    """Among the steps of both checks of a laminate stands what is judged, load factor and all."""
    told = asked(changed(VAT, *LAMINATED))
    shown = {working.check: working.steps for working in told.working}
    glass = [check for check in told.checks if check.id.endswith((".pane.stress", ".pane.broken_ply"))]
    assert len(glass) == 2
    for check in glass:
        assert check.estimate is not None
        last = [step for step in shown[check.id] if step.symbol.startswith("sigma")][-1]
        assert last.result == pytest.approx(check.estimate.likely)
        limit = next(step for step in shown[check.id] if step.symbol == "f_d")
        assert limit.result == pytest.approx(check.limit)
        assert reckoned(limit) == pytest.approx(limit.result)


def test_every_limit_of_timber_is_worked(answer: Answer) -> None:
    shown = {working.check: working.steps for working in answer.working}
    for check in answer.checks:
        if (
            check.unit == "Pa"
            and "timber" not in check.id
            and check.id.endswith(("studs.bending", "studs.shear"))
        ):
            results = [step.result for step in shown[check.id]]
            assert any(result == pytest.approx(check.limit) for result in results), check.id


def test_every_fastener_is_worked_from_its_sizes(answer: Answer) -> None:
    for working in answer.working:
        if working.check.endswith(".force"):
            symbols = [step.symbol for step in working.steps]
            assert {"Z", "R"} <= set(symbols) or {"R_k", "R"} <= set(symbols), working.check
