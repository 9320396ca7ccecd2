"""One line of working as a reader meets it: formula, numbers put in, result; in plain text and as mathematics."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Step
from tidestead.core.source import Source
from tidestead.core.units import System
from tidestead.report import wording
from tidestead.report.mathml import formula_markup, symbol_markup

__all__ = ["StepTold", "StepWorded", "told_step", "worded_step"]


@dataclass(frozen=True)
class StepWorded:
    """A step in plain text. `formula` begins with what it gives, and is empty where the step has none.

    `numbers` are symbols with their values as the reader has them.
    """

    symbol: str
    meaning: str
    formula: str
    numbers: tuple[tuple[str, str], ...]
    result: str
    source: Source


@dataclass(frozen=True)
class StepTold:
    """A step for a page. What ends in `mathml` is markup, made safe; all else is plain text.

    `numbers` are symbols, as markup, with their values, as text.
    """

    symbol_mathml: str
    meaning: str
    formula_mathml: str
    numbers: tuple[tuple[str, str], ...]
    result: str
    source: Source


def worded_step(step: Step, system: System) -> StepWorded:
    """The step in plain text, its numbers in the reader's units."""
    begun = "" if "=" in step.formula else f"{step.symbol} = "
    return StepWorded(
        step.symbol,
        step.meaning,
        f"{begun}{step.formula}" if step.formula else "",
        tuple(
            (given.symbol, _worked(given.value, given.unit, given.style, system)) for given in step.numbers
        ),
        _worked(step.result, step.unit, step.style, system),
        step.source,
    )


def told_step(step: Step, system: System) -> StepTold:
    """The step for a page, its formula and symbols set as mathematics."""
    worded = worded_step(step, system)
    return StepTold(
        symbol_markup(worded.symbol),
        worded.meaning,
        formula_markup(worded.formula),
        tuple((symbol_markup(symbol), value) for symbol, value in worded.numbers),
        worded.result,
        worded.source,
    )


def _worked(value: float, unit: str, style: str, system: System) -> str:
    """A number of the working: one that rounds away as it is read off a rule keeps its digits here."""
    return wording.shown(value, unit, system, "" if style == "bow" else style)
