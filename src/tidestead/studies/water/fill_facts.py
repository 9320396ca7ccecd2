"""What is found of the first fill: for every source its steps in time, its water, salt, heat and money."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.studies.water.costs import Cost
from tidestead.studies.water.waters import Recipe, Supply


@dataclass(frozen=True)
class Test:
    """The fill that proves a vessel: m3 to its level, how long it stands full (s), with what. `said` is whether the
    plan tells how long.
    """

    vessel: str
    volume: float
    lasts: float
    fresh: bool
    said: bool


@dataclass(frozen=True)
class FillStep:
    """One line of the timetable, seconds from the start; steps may run beside each other."""

    words: str
    begin: float
    end: float


@dataclass(frozen=True)
class Course:
    """What a fill by one source comes to: m3 for the tests, of the source in all, of another (fresh) source; times of
    draining the tests, stirring and warming, s. `reused` is whether the tests' water stays.
    """

    supply: Supply
    recipe: Recipe
    tests: tuple[Test, ...]
    water: float
    loads: int
    other: Supply | None
    other_water: float
    reused: bool
    draining: float
    stirring: float
    warming: float

    @property
    def tested(self) -> float:
        return sum(one.volume for one in self.tests)


@dataclass(frozen=True)
class SourceFill:
    """The first fill by one source. `missing` says what to write where no timetable can be made; then there is none.

    `water` is the source's water, m3, that for tests among it; `heat` J; `ready` seconds until fish may come, `filled`
    until the water is salted and warm. `salted` is the same with a salty source's own water for the tests.
    """

    supply: Supply
    missing: str
    recipe: Recipe | None = None
    steps: tuple[FillStep, ...] = ()
    water: float = 0.0
    loads: int = 0
    heat: float = 0.0
    filled: float = 0.0
    ready: Estimate | None = None
    cost: Cost | None = None
    course: Course | None = None
    salted: SourceFill | None = None


@dataclass(frozen=True)
class FillingFacts:
    """All sources side by side. `past`: the display is filled already. `untested`: vessels of the builder's own without
    a test in the plan.
    """

    missing: str
    past: bool
    tests: tuple[Test, ...] = ()
    untested: tuple[str, ...] = ()
    fills: tuple[SourceFill, ...] = ()
    heaters: float = 0.0
    cycling: Estimate | None = None

    @property
    def told(self) -> tuple[SourceFill, ...]:
        """Those that have a timetable."""
        return tuple(one for one in self.fills if not one.missing)
