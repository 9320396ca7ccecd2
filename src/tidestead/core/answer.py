"""The result of a study: one answer, its checks, figures, working, tables, series, drawings, cautions.

Immutable plain data. A check's use, margin and verdict follow from its fields and are no fields of their own.
Values are SI with their unit beside them; doors turn them into what the user reads.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import Literal

from tidestead.core.charts import Chart
from tidestead.core.scene import Scene
from tidestead.core.solids import Round
from tidestead.core.source import Source


class Verdict(StrEnum):
    """The four words. Order of badness: `worst`."""

    SOUND = "sound"
    NEAR = "near"
    UNPROVEN = "unproven"
    FAILS = "fails"


_RANK = {Verdict.SOUND: 0, Verdict.NEAR: 1, Verdict.UNPROVEN: 2, Verdict.FAILS: 3}


def worst(verdicts: list[Verdict] | tuple[Verdict, ...]) -> Verdict:
    """Fails if any fails, else unproven if any is unproven, else the worst; nothing to judge is unproven."""
    return max(verdicts, key=_RANK.__getitem__, default=Verdict.UNPROVEN)


@dataclass(frozen=True)
class Estimate:
    """A value with its range, in SI. `basis` says what the range rests on.

    `followed` is how far a thing was followed, where that has an end: a value that reaches it stands for more.
    """

    low: float
    likely: float
    high: float
    basis: str = ""
    followed: float = math.inf

    @classmethod
    def exact(cls, value: float, basis: str = "") -> Estimate:
        """A value whose range is not considered."""
        return cls(value, value, value, basis)

    def times(self, factor: float, basis: str = "") -> Estimate:
        """The same times a number that is not below nothing, as in another measure."""
        low, likely, high = (factor * one for one in (self.low, self.likely, self.high))
        followed = self.followed if math.isinf(self.followed) else factor * self.followed
        return Estimate(low, likely, high, basis or self.basis, followed)

    @property
    def finite(self) -> bool:
        return (
            all(map(math.isfinite, (self.low, self.likely, self.high)))
            and self.low <= self.likely <= self.high
        )


MustBe = Literal["below", "above", "within"]

NEAR = 0.20
"""Share of a limit that is to be left; with less a check is near. Own choice."""


@dataclass(frozen=True)
class Check:
    """One value against one limit.

    `id` is stable: structure.basin.south.long.bow. `where` names the part in words, `part` is the key that
    drawings carry. `limit` is one number, or (lowest, highest) for `within`. `datum` is the zero that use is
    counted from, for scales without a true zero. `missing` says why nothing can be proved: an input is not in
    the plan, or the formula is past its outer bound. `limit_includes` says what safety the limit already holds.
    `complete` is False where the estimate lacks what nobody has told, so that it is no total.
    """

    id: str
    what: str
    where: str
    unit: str
    estimate: Estimate | None
    limit: float | tuple[float, float] | None
    source: Source
    must_be: MustBe = "below"
    part: str = ""
    case: str = ""
    datum: float = 0.0
    near: float = NEAR
    limit_includes: str = ""
    missing: str = ""
    advice: str = ""
    style: str = ""
    cautions: tuple[str, ...] = ()
    complete: bool = True

    @cached_property
    def use(self) -> float | None:
        """Share of the limit used by the adverse end of the estimate; None where it cannot be told."""
        if self.missing or self.estimate is None or self.limit is None or not self.estimate.finite:
            return None
        if isinstance(self.limit, tuple):
            return _use_within(self.estimate, self.limit)
        if not math.isfinite(self.limit):
            return None
        if self.must_be == "below":
            return _share(self.estimate.high - self.datum, self.limit - self.datum)
        return _share(self.limit - self.datum, self.estimate.low - self.datum)

    @property
    def margin(self) -> float | None:
        """What is left: one less the use."""
        used = self.use
        return None if used is None else 1.0 - used

    @cached_property
    def verdict(self) -> Verdict:
        used = self.use
        if used is None or math.isnan(used):
            return Verdict.UNPROVEN
        if used > 1.0 + 1e-9:
            return Verdict.FAILS
        return Verdict.NEAR if used > 1.0 - self.near + 1e-9 else Verdict.SOUND


def _share(demand: float, room: float) -> float:
    """Demand over room; where there is no room, all of it is used, or more than all by a larger demand."""
    if room > 0.0:
        return max(demand, 0.0) / room
    return math.inf if demand > room else 1.0


def _use_within(value: Estimate, limits: tuple[float, float]) -> float | None:
    low, high = limits
    if not (math.isfinite(low) and math.isfinite(high) and low < high):
        return None
    middle, half = (low + high) / 2.0, (high - low) / 2.0
    return max(abs(value.low - middle), abs(value.high - middle)) / half


@dataclass(frozen=True)
class Figure:
    """A total that has no limit: litres, kilograms, hours. Not `complete` where it lacks what nobody has told."""

    id: str
    what: str
    estimate: Estimate
    unit: str
    source: Source
    style: str = ""
    complete: bool = True


@dataclass(frozen=True)
class Assumption:
    """A default that was used because the plan is silent. `key` is what to write in the plan to override it."""

    key: str
    value: str
    why: str
    source: Source


@dataclass(frozen=True)
class Given:
    """A number put into a formula, in SI with its unit; doors show it in the reader's units."""

    symbol: str
    value: float
    unit: str
    style: str = ""


@dataclass(frozen=True)
class Step:
    """One line of working: the formula in the source's letters, the numbers put in, the result."""

    symbol: str
    meaning: str
    formula: str
    numbers: tuple[Given, ...]
    result: float
    unit: str
    source: Source
    style: str = ""


@dataclass(frozen=True)
class Working:
    """The steps that lead to one check (`check` is its id) or to a shared fact."""

    title: str
    steps: tuple[Step, ...]
    check: str = ""
    part: str = ""


@dataclass(frozen=True)
class Column:
    """A table column; `unit` is the SI unit of its numbers, empty for words."""

    head: str
    unit: str = ""
    style: str = ""


@dataclass(frozen=True)
class Table:
    """Rows of SI numbers or words under columns with units."""

    id: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[float | str | None, ...], ...]
    note: str = ""


@dataclass(frozen=True)
class Series:
    """Values along one axis, with an optional band."""

    id: str
    title: str
    axis: str
    axis_unit: str
    unit: str
    at: tuple[float, ...]
    likely: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()


@dataclass(frozen=True)
class Answer:
    """What a study says to one of the twelve questions.

    `governs` is the id of the check that the sentence tells first, where that is not the most used of the worst
    verdict but the cause of others.
    """

    subject: str
    question: str
    sentence: str
    checks: tuple[Check, ...] = ()
    figures: tuple[Figure, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    working: tuple[Working, ...] = ()
    tables: tuple[Table, ...] = ()
    series: tuple[Series, ...] = ()
    scenes: tuple[Scene, ...] = ()
    cautions: tuple[str, ...] = ()
    extra_sources: tuple[Source, ...] = field(default=())
    charts: tuple[Chart, ...] = ()
    rounds: tuple[Round, ...] = ()
    governs: str = ""

    @property
    def verdict(self) -> Verdict:
        return worst([check.verdict for check in self.checks])

    @property
    def sources(self) -> tuple[Source, ...]:
        """Every source used, each once, in order of appearance."""
        found: dict[Source, None] = {}
        for check in self.checks:
            found[check.source] = None
        for assumption in self.assumptions:
            found[assumption.source] = None
        for working in self.working:
            for step in working.steps:
                found[step.source] = None
        for source in self.extra_sources:
            found[source] = None
        return tuple(found)
