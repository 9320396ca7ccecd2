"""What the foam study finds for every fractionator of the plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from tidestead.core.answer import Estimate
from tidestead.core.units import System
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import ColumnState
from tidestead.physics.foam.contact import Heights
from tidestead.physics.foam.diffusers import ATMOSPHERE
from tidestead.physics.foam.froth import NeckState

USUAL = 0.8e-3
"""Diameter of the bubbles taken as likely. Common practice, no source."""

EFFICIENCIES = (1.0, 0.5, 0.25)
"""Shares of what can be skimmed that one pass takes: the flattering case, the likely one and a poor one, where nobody
has measured it. Common practice, no source."""

BLOWER = 0.3
"""Efficiency of a small air pump. Common practice, no source."""


@dataclass(frozen=True)
class Way:
    """How the water goes through a tower. Heights above its floor.

    `feed` and `outlet` name the two ports, of all that carry, between which it meets the fewest bubbles. `met` is the
    height along which it does. `rises` says that it goes up with the bubbles, `spills` that it leaves over an edge;
    `bore` is that of the outlet's pipe, `riser` the lip of its standpipe outside, None where it has none.
    """

    feed: str
    outlet: str
    heights: Heights
    met: float
    rises: bool
    spills: bool
    bore: float
    riser: float | None = None


@dataclass(frozen=True)
class Lift:
    """Levels above the tower's floor: `clear` without air, `level` with it (None where the column floods).

    `foot` is where bubbly water begins to weigh less than the riser's, `holdup` the share of air taken. `lips` are
    overflows that are dry without air.
    """

    clear: Estimate
    level: Estimate | None
    foot: float
    holdup: Estimate | None
    lips: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class TowerFoam:
    """One fractionator. Areas in m2, flows in m3/s, times in s, pressure in Pa above the air.

    `columns` are states at the likely flow for the bubbles that are compared; `best` is that of the largest bubble at
    the least flow, `worst` of the smallest at the greatest. `necks` are states for the foam sizes shown.
    `efficiencies` are shares that a pass may take of what can be skimmed, flattering, likely and poor; `times` a share
    removed with the times it then takes. `of_pumps` is its water as a share of what all pumps move, `bubble` the size
    the plan says, `depth` the water over its diffuser.
    """

    key: str
    properties: WaterProperties
    area: float
    width: float
    neck_area: float | None
    slope: float | None
    depth: float
    volume: float
    system: float
    share_of_system: float
    flow: Estimate
    air_flow: float
    air_pressure: float
    air_loss: float
    air_power: float
    columns: tuple[ColumnState, ...]
    best: ColumnState
    worst: ColumnState
    necks: tuple[NeckState, ...]
    of_pumps: float | None
    efficiencies: tuple[float, ...]
    times: tuple[tuple[float, ...], ...]
    bubble: float | None
    way: Way
    lift: Lift

    @property
    def water_flow(self) -> float:
        """What likely goes through it."""
        return self.flow.likely

    @property
    def level(self) -> float:
        """The likely depth of its water without air."""
        return self.lift.clear.likely

    @property
    def turns(self) -> Estimate:
        """How often an hour the system's water goes through it."""
        flow, share = self.flow, 3600.0 / self.system
        return Estimate(flow.low * share, flow.likely * share, flow.high * share, flow.basis)


@dataclass(frozen=True)
class GasGain:
    """A way in which oxygen comes in: grams an hour at the level of danger, low, likely and high.

    Of open water its `area` and the likely `speed` of exchange, m/s.
    """

    where: str
    how: str
    low: float
    likely: float
    high: float
    area: float = 0.0
    speed: float = 0.0


@dataclass(frozen=True)
class GasFacts:
    """Oxygen the water can hold, g/m3, at the coolest and the warmest kept; the level of danger; what comes in.

    `air_pressure` is that of the place, Pa, and `temps` the coolest and the warmest, degC. `fish` is what the resting
    fish take by which it is told in a system of units, at the warmest, g/h.
    """

    cool: float
    warm: float
    danger: float
    gains: tuple[GasGain, ...]
    fish: Mapping[System, float] = field(default_factory=dict)
    air_pressure: float = ATMOSPHERE
    temps: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class FoamFacts:
    """Fractionators that could be reckoned, and what is missing of the others."""

    towers: tuple[TowerFoam, ...]
    missing: tuple[tuple[str, str], ...]
    sal_gkg: float
    sal_psu: float
    density: float
    gas: GasFacts = field(default_factory=lambda: GasFacts(0.0, 0.0, 0.0, ()))
