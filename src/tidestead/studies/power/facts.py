"""What the power study finds: what every circuit draws, loses and leaks, what stops together, what goes on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tidestead.catalog import Row
from tidestead.core.answer import Estimate
from tidestead.plan.water_fields import OnCircuit

DeviceKind = Literal["breaker", "residual", "main"]


@dataclass(frozen=True)
class Sort:
    """Rows of the catalogue that say how one sort of apparatus behaves."""

    factor: Row
    starting: Row
    leakage: Row


@dataclass(frozen=True)
class LoadFacts:
    """One line of what hangs on a circuit: `count` alike, `power` W of all of them, currents of all of them in A.

    `extra` is what the start of one of them takes on top of its running. `leaks` are low, likely and high of one, A.
    """

    item: OnCircuit
    words: str
    power: float
    count: int
    sort: Sort
    factor: float
    running: Estimate
    extra: Estimate
    together: float
    leaks: Estimate


@dataclass(frozen=True)
class CableFacts:
    """A cable: copper m2, length one way m, resistance of a metre low, likely and high; ampacity A where known.

    `row` is the size of the catalogue that it is held to, the next smaller one where it lies between two.
    """

    area: float | None
    length: float | None
    resistance: Estimate | None
    row: Row | None
    ampacity: float | None
    derated: float = 1.0


@dataclass(frozen=True)
class LeakFacts:
    """All that one residual-current device watches: its rating and from where on it may trip, A; which circuits.

    `leakage` is low: all at their least; likely: all as new; high: one of them aged, the rest as new. `aged` is the
    sum with all of them aged. `counted` are kinds of apparatus, how many and what one leaks as new.
    """

    key: str
    circuits: tuple[str, ...]
    rated: float
    trip_low: float
    standing: float
    row: Row
    leakage: Estimate
    aged: float
    counted: tuple[tuple[Row, int], ...]
    oldest: Row | None


@dataclass(frozen=True)
class CircuitFacts:
    """One circuit. Currents A: running of all that hangs on it; `worst` while the largest start comes last; `together`
    when everything starts at once. `drop` is the voltage lost in its own cable, `drop_share` with that of the supply,
    both as shares of the supply's; None where a cable is not known. `leakage` is all that its own things leak.
    """

    key: str
    breaker: float
    residual: float | None
    volts: float
    running: Estimate
    worst: Estimate
    together: float
    power: float
    factor: float
    cable: CableFacts
    drop: Estimate | None
    drop_share: Estimate | None
    leakage: Estimate
    loads: tuple[LoadFacts, ...]

    @property
    def lit(self) -> bool:
        """Whether lamps hang on it."""
        return any(load.item.kind == "lamp" for load in self.loads)


@dataclass(frozen=True)
class SupplyFacts:
    """What comes to the building: V, A of the main device, phases; current in its busiest line and all starts, A.

    `drop` is the share of its voltage lost on the way, None where the way is not known.
    """

    volts: float
    amps: float
    phases: int
    running: Estimate
    worst: Estimate
    together: float
    power: float
    factor: float
    cable: CableFacts
    drop: Estimate | None


@dataclass(frozen=True)
class Dying:
    """All that stops when one device opens. `carried` are those of them that a battery carries on by itself.

    `key` is that of its circuit, of a residual-current device "NAME.residual", of the main device "supply.main".
    `shared_with` are circuits beside its own that hang on the same residual-current device.
    """

    key: str
    words: str
    device: DeviceKind
    items: tuple[OnCircuit, ...]
    shared_with: tuple[str, ...] = ()
    carried: tuple[OnCircuit, ...] = ()


@dataclass(frozen=True)
class BackupFacts:
    """What stands in when the power fails. `load` W hangs on it, `starting` W while the largest start comes last.

    `energy` J that a new battery holds. `hours` in seconds, None where energy or tank is not known; `peak` W that it
    gives for a start, None where its power is not known. `wanted` is the power, W, that it should be rated for.
    `unknown` hangs on it and nobody said what it draws; `peak_told`: the plan says what it gives for a start.
    """

    key: str
    kind: Literal["battery", "generator"]
    carries: tuple[OnCircuit, ...]
    load: float
    starting: Estimate
    hours: Estimate | None
    starts_by_itself: bool
    power: float | None
    peak: Estimate | None
    wanted: Estimate
    unknown: tuple[str, ...] = ()
    energy: float | None = None
    peak_told: bool = False

    @property
    def holds_start(self) -> bool:
        """Whether it bears the hardest start of the largest thing on it with the least that it may give; no where
        that is not known.
        """
        return self.peak is not None and self.starting.high <= self.peak.low


@dataclass(frozen=True)
class EnergyFacts:
    """Energy that one thing takes from the mains in a year, J; `words` names it, `key` is where the plan has it."""

    words: str
    year: Estimate
    key: str


@dataclass(frozen=True)
class Acting:
    """How long it takes until somebody has acted after the power went, s, and what that rests on."""

    seconds: float
    words: str


@dataclass(frozen=True, eq=False)
class PowerFacts:
    """All of it. `missing` says why nothing can be told of currents; what stops together is known without.

    `unfed` draws power and hangs on no circuit; `unknown` is what draws power and the plan does not say how much.
    """

    missing: tuple[str, ...]
    us: bool
    supply: SupplyFacts | None
    circuits: tuple[CircuitFacts, ...]
    leaks: tuple[LeakFacts, ...]
    dying: tuple[Dying, ...]
    backups: tuple[BackupFacts, ...]
    unfed: tuple[OnCircuit, ...]
    unknown: tuple[OnCircuit, ...]
    must_run: tuple[OnCircuit, ...]
    energy: tuple[EnergyFacts, ...]
    uncounted: tuple[str, ...]
    acting: Acting | None

    def circuit(self, key: str) -> CircuitFacts | None:
        """The circuit of that name."""
        return next((one for one in self.circuits if one.key == key), None)

    def backed(self, item: OnCircuit) -> tuple[BackupFacts, ...]:
        """What carries a thing when the power stops."""
        return tuple(one for one in self.backups if item in one.carries)
