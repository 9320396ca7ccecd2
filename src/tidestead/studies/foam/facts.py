"""What the foam study finds for every fractionator of the plan."""

from __future__ import annotations

from dataclasses import dataclass, field

from tidestead.physics.foam.columns import ColumnState
from tidestead.physics.foam.froth import NeckState


@dataclass(frozen=True)
class TowerFoam:
    """One fractionator. Areas in m2, flows in m3/s, times in s, pressure in Pa above the air.

    `columns` are states for the bubbles that are compared, `necks` for the foam sizes shown. `times` are a share
    removed of what can be skimmed with the times it takes, flattering, likely and poor. `of_pumps` is its water as a
    share of what all pumps move, `bubble` the size the plan says, `level` the depth of its water.
    """

    key: str
    area: float
    neck_area: float | None
    slope: float | None
    depth: float
    volume: float
    share_of_system: float
    water_flow: float
    air_flow: float
    air_pressure: float
    air_power: float
    columns: tuple[ColumnState, ...]
    necks: tuple[NeckState, ...]
    turns_per_hour: float
    of_pumps: float | None
    times: tuple[tuple[float, ...], ...]
    bubble: float | None
    level: float


@dataclass(frozen=True)
class GasGain:
    """A way in which oxygen comes in: grams an hour at the level of danger, low, likely and high."""

    where: str
    how: str
    low: float
    likely: float
    high: float


@dataclass(frozen=True)
class GasFacts:
    """Oxygen the water can hold, g/m3, at the coolest and the warmest kept; the level of danger; what comes in."""

    cool: float
    warm: float
    danger: float
    gains: tuple[GasGain, ...]


@dataclass(frozen=True)
class FoamFacts:
    """Fractionators that could be reckoned, and what is missing of the others."""

    towers: tuple[TowerFoam, ...]
    missing: tuple[tuple[str, str], ...]
    sal_gkg: float
    density: float
    gas: GasFacts = field(default_factory=lambda: GasFacts(0.0, 0.0, 0.0, ()))
