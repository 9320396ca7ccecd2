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
class SourceFill:
    """The first fill by one source. `missing` says what to write where no timetable can be made; then there is none.

    `water` is the source's water, m3, that for tests among it; `heat` J; `ready` seconds until fish may come, `filled`
    until the water is salted and warm.
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
    hinders: tuple[str, ...] = ()


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
