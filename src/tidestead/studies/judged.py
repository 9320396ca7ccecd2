"""A check with its working, as the parts of a study hand them up, and how they are put together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tidestead.core.answer import Check, Given, Step, Working
from tidestead.core.source import Source


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
        return Working(title, self.steps, check=self.check.id, part=self.check.part)


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
