"""Formulas set as mathematics say what the working says: Python's own parser and arithmetic are the referee."""

from __future__ import annotations

import ast
import math
import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.house.tree import parsed, python_files
from tests.laws.mathml_text import CORE, OUTSIDE, greek_named, linear, tree_of, words_of, written
from tests.many import many
from tidestead.core.answer import Given, Step
from tidestead.core.source import Known, Source
from tidestead.core.units import System, show
from tidestead.report.mathml import formula_markup, symbol_markup
from tidestead.report.plain import clean
from tidestead.report.steps import told_step, worded_step

NAMES = "a h L rho gamma eta mu_0 F_b F_b' C_D f_c90,d M_R,k u0 theta0 z_2 k_mod lift EI Re w_inf jg_f a1' pi"
NUMBERS = ("2", "10", "0.61", "6.245e-3", "1e6", "3.5e+2", "1.0e2", "0.5")
FUNCTIONS = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "max": max,
    "min": min,
    "tan": math.tan,
    "abs": abs,
}


def as_python(text: str) -> str:
    """The text of a formula with its names as Python can have them, its power signs and its bars as given."""
    named = re.sub(r"(_\w+),(?=[a-z0-9])", r"\1_comma_", text)
    return named.replace("'", "_prime").replace("^", "**")


Pair = tuple[str, str]
"""The same expression in the notation of the working and in Python."""

ATOMS = st.one_of(st.sampled_from(NAMES.split()), st.sampled_from(NUMBERS))

TEMPLATES = (
    ("{} + {}", "{} - {}", "{}*{}", "{}/{}", "{}**{}") * 3
    + ("({})", "-{}", "({})*({})", "({})/({})", "({})**({})", "{} - ({})", "-({})") * 2
    + ("max({}, {})", "sqrt({})", "exp({})", "|{}|", "{}^{}", "{}*({})/{}", "{}/({}*{})")
)
"""Nothing is bracketed but where a bracket stands: a sum put into a product must come out as Python reads the text."""


@st.composite
def expressions(draw: st.DrawFn, deep: int = 4) -> Pair:
    """A random formula, in both ways."""
    if deep == 0 or (deep < 3 and draw(st.integers(0, 3)) == 0):
        atom = draw(ATOMS)
        return atom, as_python(atom)
    template = draw(st.sampled_from(TEMPLATES))
    parts = [draw(expressions(deep - 1)) for _ in range(template.count("{}"))]
    python = template.replace("|{}|", "abs({})").replace("^", "**")
    return template.format(*(one for one, _ in parts)), python.format(*(two for _, two in parts))


EXPRESSIONS = expressions()


def _tree(python: str) -> str:
    return ast.dump(ast.parse(python, mode="eval"))


@settings(max_examples=many(600), deadline=None)
@given(EXPRESSIONS)
@example(("-(a*h)", "-(a*h)"))
@example(("a - (-h)", "a - (-h)"))
@example(("(a/h)**2", "(a/h)**2"))
@example(("a*(h/L)", "a*(h/L)"))
@example(("(6.245e-3)**2", "(6.245e-3)**2"))
@example(("10**6*1e6", "10**6*1e6"))
@example(("2**3**(a/h/L)", "2**3**(a/h/L)"))
def test_what_is_set_has_the_order_of_work_of_what_is_written(pair: Pair) -> None:
    """Python parses both; the trees must be the same, so that no rank has changed and nothing has gone."""
    markup = symbol_markup(pair[0])
    assert not words_of(markup).strip()
    for raised in tree_of(markup).iter("msup"):
        signs = {mark.text for mark in raised[0] if mark.tag == "mo"}
        assert raised[0].tag in {"mi", "mn", "msub", "msqrt"} or signs & {"(", "|", "\u2032", "\u2061"}
    assert _tree(as_python(linear(markup, ("abs(", ")")))) == _tree(pair[1])


@settings(max_examples=many(300), deadline=None)
@given(EXPRESSIONS, st.lists(st.floats(0.3, 3.0), min_size=30, max_size=30))
def test_what_is_set_gives_the_same_number(pair: Pair, values: list[float]) -> None:
    known = dict(zip((as_python(name) for name in NAMES.split()), values, strict=False))

    def number(python: str) -> complex | float | str:
        tree = ast.parse(python, mode="eval")
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, int):
                node.value = float(node.value)  # whole numbers would grow without end
        found: complex | float | str
        try:
            found = eval(compile(tree, "formula", "eval"), {"__builtins__": {}}, {**FUNCTIONS, **known})
        except (ArithmeticError, ValueError, TypeError) as fault:
            found = type(fault).__name__
        return found

    told, meant = number(as_python(linear(symbol_markup(pair[0]), ("abs(", ")")))), number(pair[1])
    assert told == meant or all(isinstance(one, float) and math.isnan(one) for one in (told, meant))


PROSE = st.text(alphabet="abLhz_'(),;:|*+-/=^<> .0129e&\"ρé\n", max_size=60)


def _seen(text: str) -> str:
    """What must be there again: all but gaps and brackets, which the setting makes anew."""
    return re.sub(r"[\s()\u2060]", "", greek_named(text)).replace("^", "**")


@settings(max_examples=many(600), deadline=None)
@given(st.one_of(st.text(max_size=40), PROSE))
@example("p = N/A*(1 + e*x*A/I) of the foot's own outline; where it lifts")
@example("a__b_*'(")
@example("((" * 300)
@example("a*" * 900 + "b")
@example("-" * 500 + "a")
@example("a**" * 400 + "b")
@example("(a " * 200)
@example("x" * 5000)
@example("<script>alert(1)</script> = a*b")
@example('" onclick="go() = a*b')
def test_no_text_is_lost_or_breaks_out(text: str) -> None:
    markup = formula_markup(text)
    assert {element.tag for element in tree_of(markup).iter()} <= CORE | OUTSIDE | {"p"}
    assert written(markup) == re.sub(
        r"[\n\t]", " ", clean(text).replace("\u2060", "")
    )  # as XML reads attributes
    assert _seen(linear(markup)) == _seen(clean(text))
    assert _seen(linear(symbol_markup(text))) == _seen(clean(text))


def formulas_of_the_studies() -> list[str]:
    """What stands in the source as the third word of a step: every formula that is not put together at run time."""
    found = set()
    for path in python_files("src/tidestead/studies"):
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "step" and len(node.args) > 2:
                formula = node.args[2]
                if isinstance(formula, ast.Constant) and isinstance(formula.value, str):
                    found.add(formula.value)
    return sorted(found)


FORMULAS = formulas_of_the_studies()


def test_the_studies_have_formulas_to_set() -> None:
    assert len(FORMULAS) > 90


@pytest.mark.parametrize("text", FORMULAS)
def test_formula_of_a_study_is_set_whole(text: str) -> None:
    """Nothing is lost, and no equation is left among the words."""
    markup = formula_markup(text)
    assert _seen(linear(markup)) == _seen(text)
    assert written(markup) == text
    assert not re.search(r"[=*^]", words_of(markup)), words_of(markup)


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("h = (Q/(C*L))**(2/3)", [("h", "(Q/(C*L))**(2/3)")]),
        ("q*L**2/8 hinged; q*L**2/12 and /24 stiff", []),
        ("w = k*c*p*s**4/EI, k: creep", [("w", "k*c*p*s**4/EI")]),
        ("R = q*h**2/(6*L): beam on two props", [("R", "q*h**2/(6*L)")]),
    ],
)
def test_first_side_and_words_part_where_they_should(text: str, sides: list[Pair]) -> None:
    first = tree_of(formula_markup(text)).find("math")
    assert first is not None
    told = first.get("alttext") or ""
    assert told == (" = ".join(sides[0]) if sides else "q*L**2/8")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("larger of turn + dry (wall to floor) and sheets", "larger of (wall to floor) and sheets"),
        ("w0 from the loads over EI", "from the loads over"),
        ("c: of a strip over as many equal spans", ": of a strip over as many equal spans"),
        ("end-grain of the foot's rail", "end-grain of the foot's rail"),
        ("each load from a to b", "each load from to"),
        ("0: none, 1: some", "0: none, 1: some"),
        ("A pump gives head", "A pump gives head"),
    ],
)
def test_words_stay_words(text: str, words: str) -> None:
    assert words_of(formula_markup(text)).split() == words.split()


def test_no_two_symbols_of_one_formula_look_the_same() -> None:
    """z_2 and z2 are set alike, so no formula may have both."""
    for text in FORMULAS:
        names = set(re.findall(r"[A-Za-z]\w*", text))
        assert len({name.replace("_", "") for name in names}) == len(names), text


def test_wide_run_is_one_picture_in_pieces() -> None:
    text = "Q = Q_s + Q_m + Q_l + Q_h + Q_c + Q_e + Q_a + Q_r + Q_w + Q_t + Q_out"
    tree = tree_of(formula_markup(text))
    (span,) = tree
    assert (span.get("role"), span.get("aria-label")) == ("math", text)
    assert len(span.findall("math")) > 1
    assert {one.get("aria-hidden") for one in span.findall("math")} == {"true"}
    assert len(tree_of(formula_markup("Q = Q_s + Q_m")).findall("math")) == 1


STEP = Step(
    "F_b'",
    "what bending may be",
    "F_b*C_D",
    (Given("F_b", 1.0e7, "Pa"), Given("w", 0.0123, "m", "bow")),
    1.6e7,
    "Pa",
    Source("a book", "a page", Known.READ),
)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_step_is_told_in_the_units_of_its_reader(system: System) -> None:
    worded, told = worded_step(STEP, system), told_step(STEP, system)
    assert worded.formula == "F_b' = F_b*C_D"
    assert worded.numbers[0] == ("F_b", show(1.0e7, "Pa", system))
    assert worded.numbers[1] == ("w", show(0.0123, "m", system))  # not as read off a rule
    assert (told.result, told.meaning, told.source) == (worded.result, STEP.meaning, STEP.source)
    assert [value for _, value in told.numbers] == [value for _, value in worded.numbers]
    assert written(told.formula_mathml) == worded.formula
    assert [written(symbol) for symbol, _ in told.numbers] == ["F_b", "w"]
