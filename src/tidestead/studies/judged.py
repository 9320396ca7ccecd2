"""A check with its working, as the parts of a study hand them up, and how they are put together."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from tidestead.core.answer import Check, Estimate, Given, Step, Working
from tidestead.core.source import COMPUTED, Source


@dataclass(frozen=True)
class Judged:
    """One check, the steps that lead to it, and whether the height of the water changes it."""

    check: Check
    steps: tuple[Step, ...] = ()
    by_level: bool = True

    @property
    def use(self) -> float:
        """Share used; what cannot be proved counts as more than any number."""
        used = self.check.use
        return float("inf") if used is None else used

    def in_case(self, case: str) -> Judged:
        """The same, saying under which load it was found."""
        return replace(self, check=replace(self.check, case=case))

    @property
    def working(self) -> Working:
        title = f"{self.check.where}: {self.check.what}"
        steps = _to_the_worst(self.check, self.steps)
        return Working(title, steps, check=self.check.id, part=self.check.part)


_WORKED_BY_THE_HOUR = ("1/h", "g/h")
"""Units whose values are shown by the hour while the working goes by the second: no step is added in them."""


def _to_the_worst(check: Check, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps; where they stop at the likely value, with a step more to the end of the range that is judged."""
    value = check.estimate
    if value is None or not value.finite or check.must_be == "within" or check.unit in _WORKED_BY_THE_HOUR:
        return steps
    end = value.high if check.must_be == "below" else value.low
    if end == value.likely or any(_same(one.result, end) for one in steps):
        return steps
    at = max((at for at, one in enumerate(steps) if _same(one.result, value.likely)), default=-1)
    if at < 0 or steps[at].unit != check.unit or not steps[at].symbol.isidentifier():
        return steps
    return (*steps[: at + 1], _worst_step(steps[at], value, end), *steps[at + 1 :])


def _worst_step(last: Step, value: Estimate, end: float) -> Step:
    """From the likely value to the end of its range, and what that end counts."""
    unit, style = last.unit, last.style
    symbol, likely = f"{last.symbol}_worst", Given(last.symbol, value.likely, unit, style)
    if min(end, value.likely) > 0.0:
        formula, more = f"{symbol} = k*{last.symbol}", Given("k", end / value.likely, "1")
    else:
        formula, more = f"{symbol} = {last.symbol} + d", Given("d", end - value.likely, unit, style)
    meaning = f"at worst, which is judged: {value.basis.replace('at worst ', '') or 'the end of its range'}"
    return step(symbol, meaning, formula, (more, likely), (end, unit, style), COMPUTED)


def _same(one: float, other: float) -> bool:
    return math.isclose(one, other, rel_tol=1e-6, abs_tol=1e-12)


def step(
    symbol: str,
    meaning: str,
    formula: str,
    given: Iterable[Given],
    result: tuple[float, str] | tuple[float, str, str],
    source: Source,
) -> Step:
    """One line of working; `result` is (value, SI unit), and how it is shown where that is not plain."""
    return Step(symbol, meaning, formula, tuple(given), result[0], result[1], source, *result[2:])


def adverse(cases: Iterable[Iterable[Judged]]) -> tuple[Judged, ...]:
    """For every check id, the case that uses most of its limit, in order of first appearance."""
    kept: dict[str, Judged] = {}
    for case in cases:
        for judged in case:
            before = kept.get(judged.check.id)
            if before is None or _rank(judged) > _rank(before):
                kept[judged.check.id] = judged
    return tuple(kept.values())


def _rank(judged: Judged) -> tuple[float, float]:
    """By use; where that is past any number, by how far the value is on the wrong side of its limit."""
    check, limit = judged.check, judged.check.limit
    if check.use is None or check.estimate is None or not isinstance(limit, float):
        return judged.use, 0.0
    over = check.estimate.high - limit if check.must_be == "below" else limit - check.estimate.low
    return judged.use, over
