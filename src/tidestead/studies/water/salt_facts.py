"""What is found of salt, changes, evaporation: frozen numbers in SI, and why some could not be had."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.core.source import Source
from tidestead.physics.water.salts import Body
from tidestead.studies.water.costs import Cost
from tidestead.studies.water.waters import Recipe, Supply, Vat


@dataclass(frozen=True)
class Instrument:
    """How one instrument shows the kept salinity: what it reads, in words, and what is thought when that is taken for
    another scale.
    """

    words: str
    reads: str
    taken_for: str
    thought_psu: float


@dataclass(frozen=True)
class Batch:
    """An amount of finished water: what goes in, hours of the source, water to waste, money."""

    volume: float
    recipe: Recipe
    making: float | None
    reject: float
    cost: Cost


@dataclass(frozen=True)
class SaltingFacts:
    """Salt for all the water and for a load of the vat. `missing` says why there is none."""

    missing: str
    factor: Estimate
    factor_source: Source
    supply: Supply | None
    vat: Vat
    whole: Batch | None = None
    load: Batch | None = None
    instruments: tuple[Instrument, ...] = ()


@dataclass(frozen=True)
class Round:
    """Replacing a share of all the water by loads of the vat: how many of `load` m3, what each part takes in seconds
    for one load, the heat for one load in J.

    `stirring` counts from when the load is full; it is warmed meanwhile. A part that is None cannot be told, `warming`
    None is not done. `replaced` is the share of the old water that is gone after it, `loads_for_all` how many full
    loads really replace the share.
    """

    share: float
    amount: float
    load: float
    loads: int
    making: float | None
    stirring: float
    warming: float | None
    draining: float | None
    pumping: float | None
    heat: float
    replaced: float
    loads_for_all: float
    cost: Cost

    @property
    def standing(self) -> float:
        """How long a load stands in the vat, full: stirred and warmed at the same time."""
        return max(self.stirring, self.warming or 0.0)

    @property
    def one(self) -> float | None:
        """One load from empty vat to empty vat."""
        parts = (self.making, self.draining, self.pumping)
        if any(part is None for part in parts):
            return None
        return self.standing + sum(part for part in parts if part is not None)

    @property
    def whole(self) -> float | None:
        """All loads, one after the other in one vat."""
        return None if self.one is None else self.loads * self.one


@dataclass(frozen=True)
class Effect:
    """What one change does: steps of temperature (K) and salinity, as sizes; what it was found from."""

    tank: Body
    new: Body
    after: Body
    warmth: Estimate
    salinity: Estimate
    largest: float


@dataclass(frozen=True)
class Path:
    """Changes of a share until nitrate is where it should be: how many by what new water holds, likely and at worst."""

    share: float
    likely: float
    worst: float


@dataclass(frozen=True)
class NitrateSeries:
    """From where to where, g/m3; `incoming` what the new water holds, `now` whether the start is the plan's reading."""

    start: float
    now: bool
    goal: float
    goal_source: Source
    incoming: Estimate
    paths: tuple[Path, ...]


@dataclass(frozen=True)
class Dose:
    """Chlorine that one use of a source brings, before any of it is used up: `incoming` kg/m3 in `volume` m3 of it as
    it comes, `left` behind the share that `carbon` takes and behind `thiosulfate`, kg/m3; `level` kg/m3 in all the
    water. `missing` says what to write.
    """

    use: str
    words: str
    supply: str
    incoming: float
    volume: float
    level: float
    missing: str = ""
    carbon: float = 0.0
    thiosulfate: float = 0.0
    left: float = 0.0


@dataclass(frozen=True)
class ChangingFacts:
    """The plan's changes. `missing` says why there are none."""

    missing: str
    supply: Supply | None
    vat: Vat
    replaced: float = 0.0
    effect: Effect | None = None
    usual: Round | None = None
    big: Round | None = None
    series: NitrateSeries | None = None
    doses: tuple[Dose, ...] = ()


@dataclass(frozen=True)
class Unstopped:
    """Salinity after a time without top-off, s and psu."""

    time: float
    salinity: Estimate | None


@dataclass(frozen=True)
class DriftFacts:
    """Salt water lost, m3/s, by where it goes; salinity that falls by it: in a day, in a month, from one change to the
    next, and where it settles under the changes. `weekly` is dry mix, kg, that holds it; `saltier` what new water
    would have to be above what is kept to hold it.
    """

    lost: tuple[tuple[str, float], ...]
    daily: float
    monthly: float
    between: float | None
    settled: float | None
    weekly: Estimate
    saltier: float | None

    @property
    def flow(self) -> float:
        return sum(flow for _, flow in self.lost)


@dataclass(frozen=True)
class EvaporatingFacts:
    """Evaporation by month in m3/s, the top-off's stock, and salinity. `missing` says why nothing evaporates.

    `draw` is the worst month's evaporation with what losses take, `days` the seconds that the stock lasts then.
    """

    missing: str
    low: tuple[float, ...] = ()
    likely: tuple[float, ...] = ()
    high: tuple[float, ...] = ()
    basis: str = ""
    year: Estimate | None = None
    worst: int = 0
    draw: Estimate | None = None
    stock: float | None = None
    endless: tuple[str, ...] = ()
    valves: float | None = None
    supply: Supply | None = None
    lasts: Estimate | None = None
    without: tuple[Unstopped, ...] = ()
    stuck: float | None = None
    drift: DriftFacts | None = None
    no_drift: str = ""
