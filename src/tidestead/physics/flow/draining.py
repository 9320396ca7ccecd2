"""How long a vessel takes to sink to a level: through a hole, through a pipe, or by a pump.

A vessel is told by its water surface at a few levels; between them the surface grows or shrinks evenly. Levels are
metres above one datum, which is also that of the network.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tidestead.core.dims import (
    Array,
    CubicMetre,
    CubicMetrePerSecond,
    G,
    Metre,
    Ratio,
    Second,
    SquareMetre,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.laws import Law

_TRICKLE, _SMALL, _MOST = 1e-9, 1e-3, 1e3
"""A flow that shows whether anything passes, the first that is tried, and the most, m3/s."""

_CLOSE = 1e-12


@dataclass(frozen=True)
class Basin:
    """A vessel as water sees it: surfaces (m2) at rising levels (m), even between them, the first at its floor."""

    levels: tuple[Metre, ...]
    surfaces: tuple[SquareMetre, ...]

    def __post_init__(self) -> None:
        if len(self.levels) < 2 or len(self.levels) != len(self.surfaces):
            raise ImpossibleInput("a basin needs a surface at each of two or more levels")
        if not all(np.isfinite(self.levels)) or not all(np.diff(self.levels) > 0.0):
            raise ImpossibleInput(f"levels of a basin must rise, got {self.levels}")
        if not all(np.isfinite(self.surfaces)):
            raise ImpossibleInput(f"surfaces of a basin must be finite, got {self.surfaces}")
        _refuse.not_positive(surface=self.surfaces)  # type: ignore[arg-type]  # numbers or arrays

    @property
    def floor(self) -> Metre:
        """The lowest level."""
        return self.levels[0]

    @property
    def brim(self) -> Metre:
        """The highest level."""
        return self.levels[-1]


@dataclass(frozen=True)
class Outlet:
    """Where water leaves a vessel: level of its middle, area of the bore, and share of the ideal speed it keeps."""

    level: Metre
    area: SquareMetre
    coefficient: Ratio


def upright_basin(floor: Metre, brim: Metre, surface: SquareMetre) -> Basin:
    """A vessel with upright walls.

        one surface from floor to brim

    Source: geometry.
    Valid:  brim above floor.
    """
    return Basin((floor, brim), (surface, surface))


def surface_at(basin: Basin, level: Metre) -> SquareMetre:
    """Water surface of a vessel at a level.

        read off between the levels given; the end ones carry on

    Source: geometry.
    Valid:  levels between floor and brim.
    """
    surface: SquareMetre = np.interp(level, basin.levels, basin.surfaces)
    return surface


def volume_at(basin: Basin, level: Metre) -> CubicMetre:
    """Water in a vessel filled to a level.

        V = integral of A(z) from floor to level, exact for surfaces that change evenly

    Below the floor it is nothing; above the brim the last surface carries on.
    Source: geometry.
    Valid:  any level; what stands above the brim is in truth on the floor of the room.
    """
    levels, surfaces, below, steeper = _table(basin)
    place = np.clip(np.searchsorted(levels, level, side="right") - 1, 0, len(levels) - 1)
    up = np.maximum(level - levels[place], 0.0)
    volume: CubicMetre = (below[place] + (surfaces[place] + 0.5 * steeper[place] * up) * up)[()]
    return volume


def level_of(basin: Basin, volume: CubicMetre) -> Metre:
    """Level to which so much water fills a vessel; the reverse of `volume_at`.

        up = 2*v/(A + sqrt(A**2 + 2*A'*v))      v: volume above the last level given, A: surface there, A' its slope

    Source: geometry.
    Valid:  volumes that are not negative.
    """
    _refuse.negative(volume=volume)
    levels, surfaces, below, slopes = _table(basin)
    place = np.clip(np.searchsorted(below, volume, side="right") - 1, 0, len(levels) - 1)
    rest = volume - below[place]
    surface, steeper = surfaces[place], slopes[place]
    root = np.sqrt(np.maximum(surface**2 + 2.0 * steeper * rest, 0.0))
    level: Metre = (levels[place] + 2.0 * rest / (surface + root))[()]
    return level


def pipe_coefficient(resistance: Ratio) -> Ratio:
    """Share of the ideal speed that a pipe at the outlet leaves.

        C = 1/sqrt(R)      R: 1 + sum of K + f*L/D

    Source: energy equation. A sharp hole without a pipe: 0.61.
    Valid:  pipe full, friction factor taken as constant.
    """
    if np.any(np.less(resistance, 1.0)):
        raise ImpossibleInput(f"a full pipe loses at least one velocity head, got {resistance}")
    share: Ratio = 1.0 / resistance**0.5
    return share


def outlet_flow(outlet: Outlet, level: Metre) -> CubicMetrePerSecond:
    """Flow out of a hole or pipe for the water's level.

        Q = C*a*sqrt(2*g*h)      h: level above the middle of the outlet, none below it

    Source: Torricelli.
    Valid:  outlet small against the water over it, free or under still water at its own level.
    """
    head = np.maximum(level - outlet.level, 0.0)
    flow: CubicMetrePerSecond = outlet.coefficient * outlet.area * (2.0 * G * head) ** 0.5
    return flow


def draining_time(surface: SquareMetre, outlet: Outlet, start: Metre, end: Metre) -> Second:
    """Time in which a vessel with upright walls sinks from one level to another.

        t = 2*A*(sqrt(h0) - sqrt(h1))/(C*a*sqrt(2*g))      h: levels above the middle of the outlet

    Source: Torricelli; any textbook of hydraulics.
    Valid:  nothing flows in; outlet small against the surface.
    """
    _refuse.not_positive(surface=surface, outlet_area=outlet.area, coefficient=outlet.coefficient)
    _refuse.negative(water_over_the_outlet=end - outlet.level, fall=start - end)
    roots = (start - outlet.level) ** 0.5 - (end - outlet.level) ** 0.5
    time: Second = 2.0 * surface * roots / (outlet.coefficient * outlet.area * (2.0 * G) ** 0.5)
    return time


def basin_draining_time(basin: Basin, outlet: Outlet, start: Metre, end: Metre) -> Second:
    """Time in which a vessel of any shape sinks from one level to another. One vessel at a time.

        t = integral of 2*A(u**2)*du/(C*a*sqrt(2*g))      u = sqrt(h); exact between the levels given

    Source: Torricelli, integrated piece by piece.
    Valid:  as draining_time.
    """
    _refuse.not_positive(outlet_area=outlet.area, coefficient=outlet.coefficient)
    _refuse.negative(water_over_the_outlet=end - outlet.level, fall=start - end)
    inner = [level for level in basin.levels if end < level < start]
    cuts = np.array([end, *inner, start])
    heads = cuts - outlet.level
    surfaces = np.asarray(surface_at(basin, cuts))  # type: ignore[arg-type]  # numbers or arrays
    roots = np.sqrt(heads)
    # A = A0 + A'*(h - h0); the integral of A over u is A0*u + A'*(u**3/3 - h0*u)
    steeper = np.diff(surfaces) / np.where(np.diff(heads) > 0.0, np.diff(heads), 1.0)
    first, last = roots[:-1], roots[1:]
    flat = (surfaces[:-1] - steeper * heads[:-1]) * (last - first)
    total = float(np.sum(flat + steeper * (last**3 - first**3) / 3.0))
    time: Second = 2.0 * total / (outlet.coefficient * outlet.area * (2.0 * G) ** 0.5)
    return time


def driven_flow(law: Law, head: Metre, guess: CubicMetrePerSecond = _SMALL) -> CubicMetrePerSecond:
    """Flow that a head drives through parts in a row; a pump among them adds its own.

        h(Q) = head      h: what the parts lose, solved for Q by Newton's steps between bounds

    Nothing where the head does not move it at all. The head is below nothing where a pump must lift. The search
    begins at `guess`.
    Source: energy equation.
    Valid:  parts full of water whose loss rises with flow.
    """
    if law.at(0.0).head >= head or math.isinf(law.at(_TRICKLE).slope):
        return 0.0
    low, high, flow = 0.0, math.inf, max(guess, _TRICKLE)
    while high - low > _CLOSE * high or math.isinf(high):
        found = law.at(flow)
        low, high = (flow, high) if found.head < head else (low, flow)
        step = float(flow - (found.head - head) / found.slope) if found.slope > 0.0 else math.inf
        if abs(step - flow) <= _CLOSE * flow:
            return step
        if low < step < high:
            flow = step
        elif flow > _MOST:
            raise ImpossibleInput("the parts lose no head at any flow: give them a pipe or a fitting")
        else:
            flow = 0.5 * (low + high) if high < math.inf else 2.0 * flow
    return flow


def pumped_down_time(
    basin: Basin, start: Metre, end: Metre, flows: tuple[tuple[Metre, CubicMetrePerSecond], ...]
) -> Second:
    """Time in which a pump draws a vessel down, its flow known at some levels. One vessel at a time.

        t = sum of dV*ln(Q1/Q2)/(Q1 - Q2)      between levels; flow taken as even in the volume drawn

    `flows` are pairs of level and flow, levels rising; beyond them the end ones carry on.
    Source: continuity, integrated between the points of the pump's working.
    Valid:  flow above nothing all the way down; the pump must still be covered at the end level.
    """
    _refuse.negative(fall=start - end)
    levels, known = np.array([pair[0] for pair in flows]), np.array([pair[1] for pair in flows])
    if len(levels) == 0 or np.any(np.diff(levels) <= 0.0):
        raise ImpossibleInput("a pump's flows must be given at rising levels")
    cuts = np.linspace(end, start, 65)
    inner = [level for level in (*basin.levels, *levels) if end < level < start]
    cuts = np.unique(np.concatenate([cuts, inner]))
    at = np.interp(cuts, levels, known)
    _refuse.not_positive(pump_flow=at)
    volumes = np.diff(volume_at(basin, cuts))  # type: ignore[arg-type]  # numbers or arrays
    return float(np.sum(volumes / _log_mean(at[:-1], at[1:])))


@lru_cache(maxsize=256)
def _table(basin: Basin) -> tuple[Array, Array, Array, Array]:
    """Levels, surfaces, the volumes below the levels, and how fast the surface grows above each."""
    levels, surfaces = np.array(basin.levels), np.array(basin.surfaces)
    slices = 0.5 * (surfaces[:-1] + surfaces[1:]) * np.diff(levels)
    steeper = np.append(np.diff(surfaces) / np.diff(levels), 0.0)
    return levels, surfaces, np.concatenate([[0.0], np.cumsum(slices)]), steeper


def _log_mean(one: Array, other: Array) -> Array:
    ratio = other / one
    near = np.abs(ratio - 1.0) < 1e-6
    logs = np.log(np.where(near, 2.0, ratio))
    mean: Array = np.where(near, 0.5 * (one + other), (other - one) / logs)
    return mean
