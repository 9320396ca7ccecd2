"""The working can be followed: what is put into each formula of a limit gives its result again."""

from __future__ import annotations

import math
import re

import pytest

from tests.journeys.structure_plans import PLAIN, TOWER, VAT, asked, changed
from tidestead.core.answer import Answer, Step, Verdict
from tidestead.core.scene import Contours
from tidestead.report.wording import adverse, allowed


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
        likely = [step for step in shown[check.id] if step.symbol in ("sigma", "sigma_r")]
        last = likely[-1]
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


def test_working_reaches_the_worst_that_is_judged_and_the_bow_that_is_allowed(answer: Answer) -> None:
    """A reader of the working alone must see why a check fails: its judged end, and the limit of every bow."""
    shown = {working.check: [step.result for step in working.steps] for working in answer.working}
    ranged = 0
    for check in answer.checks:
        value, results = check.estimate, shown.get(check.id)
        if value is None or not results:
            continue
        near = pytest.approx
        if value.high != value.likely and any(result == near(value.likely) for result in results):
            ranged += 1
            judged = value.high if check.must_be == "below" else value.low
            assert any(result == near(judged) for result in results), check.id
        if re.search(r" over \d+$", check.limit_includes):
            assert any(result == near(check.limit) for result in results), check.id
    assert ranged


def test_picture_of_a_window_says_what_its_checks_judge() -> None:
    """Worst value and limit of bow and of pull stand in the words, and the field drawn reaches them."""
    told = asked(changed(VAT, ('thickness = "1 1/4 in"', 'thickness = "1/2 in"')))
    checks = {check.id: check for check in told.checks}
    pairs = (("bow", "bow.long"), ("stress.water", "stress.water"), ("stress.air", "stress.air"))
    for picture, ident in pairs:
        scene = next(one for one in told.scenes if one.id == f"structure.vat.south.pane.{picture}")
        check = checks[f"structure.vat.south.pane.{ident}"]
        (field,) = (shape for shape in scene.shapes if isinstance(shape, Contours))
        assert check.estimate is not None
        assert max(map(max, field.values)) == pytest.approx(check.estimate.high)
        assert field.limit == pytest.approx(check.limit)
        value, limit = adverse(check, "us").removeprefix("up to "), allowed(check, "us")
        assert f"up to {value}, allowed {limit}" in scene.title
        assert f"it is {'over' if check.verdict is Verdict.FAILS else 'within'} that" in scene.told
    assert checks["structure.vat.south.pane.bow.long"].verdict is Verdict.FAILS
