"""What the stock does to the water, as other matters and other studies read it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from tidestead.core.answer import Estimate


@dataclass(frozen=True)
class Exchange:
    """One way in which oxygen comes in while the pumps run: water brought back to saturation, m3/h."""

    where: str
    how: str
    clears: Estimate


@dataclass(frozen=True)
class Capacity:
    """Fish that one thing lets the water carry, kg; `why` where it cannot be told."""

    by: str
    words: str
    mass: Estimate | None
    why: str = ""


@dataclass(frozen=True)
class Load:
    """Fish at one time, of the vessels that share the water.

    `mass` and `by_vessel` kg, `feed` kg/s (None where the plan does not tell it), `fish`, `bacteria` and `uptake` g/h
    of oxygen (`uptake` with corals, a reading of yours wins), `ammonia` g/h of nitrogen, `tan` total ammonia that the
    filter settles at, g/m3 of nitrogen (inf where the load is beyond it), `oxygen` g/m3 at the end of a long dark
    night with the pumps running.
    """

    mass: float
    by_vessel: Mapping[str, float]
    feed: float | None
    fish: Estimate
    bacteria: Estimate
    uptake: Estimate
    ammonia: Estimate | None
    tan: Estimate | None
    oxygen: Estimate | None


@dataclass(frozen=True)
class StockFacts:
    """Fish, corals and bacteria: what they breathe and what they leave; what air and filter make good.

    Oxygen g/h, ammonia nitrogen g/h, concentrations g/m3 (mg/L), masses kg, areas m2, `clearance` m3/h: water that the
    filter frees of ammonia in an hour, its law taken straight from nothing through the level it settles at now.
    `ceiling` is the most that it takes, g/h. `missing` says what could not be told, each with the key to write.
    """

    now: Load
    grown: Load
    protein: float
    coral_uptake: Estimate
    area: float
    clearance: Estimate | None
    ceiling: float
    exchanges: tuple[Exchange, ...]
    exchange: Estimate
    saturation: float
    capacities: tuple[Capacity, ...]
    measured: bool
    missing: tuple[str, ...] = ()
    areas: Mapping[str, float] = field(default_factory=dict)

    @property
    def mass_now(self) -> float:
        return self.now.mass

    @property
    def mass_grown(self) -> float:
        return self.grown.mass

    @property
    def feed(self) -> float | None:
        """kg/s, as the plan has it."""
        return self.now.feed

    @property
    def fish_uptake(self) -> Estimate:
        return self.now.fish

    @property
    def uptake(self) -> Estimate:
        """Oxygen that everything in the water takes now, g/h."""
        return self.now.uptake

    @property
    def ammonia(self) -> Estimate | None:
        """Ammonia that the feed becomes now, g of nitrogen in an hour."""
        return self.now.ammonia

    @property
    def governs(self) -> Capacity | None:
        """What lets the fewest fish be carried, of what can be told."""
        told = [one for one in self.capacities if one.mass is not None]
        return min(told, key=lambda one: one.mass.likely if one.mass else 0.0, default=None)
