"""What every line of working must keep to: its symbols are given, and its numbers put into it give its result."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from tidestead.core.answer import Answer, Step

NAMES = {
    "sqrt": math.sqrt,
    "pi": math.pi,
    "min": min,
    "max": max,
    "ln": math.log,
    "log10": math.log10,
    "exp": math.exp,
}
"""Functions and numbers that formulas name without giving them."""

AT_BALANCE = {
    "Q_in = Q_out": ("Q_in", "Q_out"),
    "H(Q) = lift + losses(Q)": ("H", "lift + losses"),
    "H_pump(Q) = lift + losses(Q)": ("H_pump", "lift + losses"),
    "jg/e + jl/(1 - e) = U*(1 - e)**(n - 1)": ("jg/e + jl/(1 - e)", "U*(1 - e)**(n - 1)"),
    "U*(1 - e_f)**n*(1 - n*e_f) = jl": ("U*(1 - e_f)**n*(1 - n*e_f)", "jl"),
}
"""Balances that are solved for a symbol: both sides must come to the same with the result put in."""

BY_TABLE = ("Q = Q0(h)*(1 - (h2/h)**1.5)**0.385, solved for h", "U(d) = v", "H_0 = H_pump(Q)")
"""Formulas with a curve or a law in them that has steps of its own."""

_AN_HOUR = {"1/h": 3600.0, "g/h": 3600.0}
"""Units of results by the hour, where flows put in are by the second."""


def steps_of(answer: Answer) -> Iterable[Step]:
    """Every step of an answer."""
    return (step for working in answer.working for step in working.steps)


def not_given(step: Step) -> set[str]:
    """Symbols of a formula that no number stands for."""
    if step.formula in BY_TABLE:
        return set()
    told = (
        {one.symbol for one in step.numbers}
        | {step.symbol}
        | set(NAMES)
        | {"log", "Q0", "U", "solved", "for"}
    )
    set_there = set(re.findall(r"(\w+) = ", step.formula))
    used = set(re.findall(r"(?<![\w.])[A-Za-z]\w*", re.sub(r"(?<!\w)[\d.]+e-?\d+", "", step.formula)))
    return used - told - set_there


def misses(step: Step) -> str:
    """Why a formula with its numbers does not give its result; empty where it does."""
    numbers = NAMES | {one.symbol: one.value for one in step.numbers} | {"__builtins__": {}}
    if step.formula in BY_TABLE:
        return ""
    if step.formula in AT_BALANCE:
        numbers.setdefault(step.symbol, step.result)
        one, other = (_worked(side, numbers) for side in AT_BALANCE[step.formula])
        return "" if math.isclose(one, other, rel_tol=2e-3) else f"{step.formula}: {one} is not {other}"
    # log Re = ...: the law gives the logarithm
    left, _, right = step.formula.partition(" = ")
    where, found = right.partition(", W = ")[::2]
    if found:
        numbers["W"] = _worked(found.replace("log10 Nd", "log10(Nd)"), numbers)
    worked = _worked(where if found else right.partition(" for ")[0], numbers)
    if left.startswith("log "):
        worked = 10.0**worked
    worked *= _AN_HOUR.get(step.unit, 1.0)
    if math.isclose(worked, step.result, rel_tol=0.005, abs_tol=1e-6):
        return ""
    return f"{step.formula} comes to {worked}, {step.result} is told"


def off(answer: Answer) -> list[str]:
    """What is wrong with the working of an answer."""
    steps = list(steps_of(answer))
    found = [] if len(steps) > 6 else [f"only {len(steps)} steps"]
    for step in steps:
        found += [f"{step.formula}: {symbol} is not given" for symbol in not_given(step)]
        found += [
            words for words in (misses(step), "" if step.unit else f"{step.symbol} has no unit") if words
        ]
    return found


def _worked(formula: str, numbers: dict[str, object]) -> float:
    return float(eval(formula, numbers))  # formulas are the project's own
