"""Levels against time in vessels joined by weirs, siphons and pumps: power stops and restarts as they run.

Volumes are carried from vessel to vessel, so that no water is won or lost; levels follow from volumes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, Count, CubicMetrePerSecond, Metre, Second
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics import _refuse
from tidestead.physics.flow._inverse import flow_of
from tidestead.physics.flow.draining import Basin, level_of, surface_at, volume_at
from tidestead.physics.flow.laws import Law

_MOST_STEPS = 20_000
_FINE: Metre = 1e-6
"""Error of a level that one step may make."""

_BARE: Metre = 1e-8
"""A siphon whose water is this near to its break has drawn air."""

_GIVES_WAY: Metre = 1e-3
"""Last depth over which a pump's flow fades as its inlet falls bare, so that steps do not chatter."""

_FIRST: Second = 1e-3

_LEAN = 1.0 / (2.0 + 2.0**0.5)
_CHECK = 6.0 + 2.0**0.5
"""d and e32 of Shampine and Reichelt's ode23s."""


@dataclass(frozen=True)
class Spill:
    """Water that leaves one vessel for another over a crest; vessels are told by their place in the list."""

    start: Count
    end: Count
    crest: Metre
    law: Law


@dataclass(frozen=True)
class Siphon:
    """A full pipe from one vessel to another that breaks for good once the first has sunk to `breaks_at`."""

    start: Count
    end: Count
    breaks_at: Metre
    law: Law


@dataclass(frozen=True)
class Pumped:
    """A pump's flow from one vessel to another, none while the first stands at or below `needs`."""

    start: Count
    end: Count
    flow: CubicMetrePerSecond
    needs: Metre


@dataclass(frozen=True)
class LevelCourse:
    """Times, and for each of them (row) the level and the volume of each vessel (column)."""

    times: Array
    levels: Array
    volumes: Array


def level_course(
    basins: Sequence[Basin], start: Sequence[Metre], ways: Sequence[Spill | Siphon | Pumped], until: Second
) -> LevelCourse:
    """Levels of vessels against time while water runs between them.

        dV/dt = flows in - flows out      flow of a spill: law(Q) = z1 - crest;  of a siphon: law(Q) = z1 - z2

    Steps are those of Rosenbrock's kind, order 2, which the slopes of the laws keep steady where small vessels even
    out fast; each is held to a millionth of a metre. Nothing runs backwards.
    Raises SolverError where the steps do not come to the end.
    Source: continuity; L. Shampine and M. Reichelt, SIAM Journal on Scientific Computing 18 (1997) 1-22, ode23s.
    Valid:  still surfaces; water's own inertia left out. Drowned weirs run as free ones. A vessel filled above its
            brim is taken to have walls that go on.
    """
    _refuse.not_positive(time=until)
    if len(basins) != len(start) or any(
        not 0 <= end < len(basins) for way in ways for end in (way.start, way.end)
    ):
        raise ImpossibleInput("each vessel needs a level, and each way two vessels of the list")
    march = _March(basins, ways)
    volumes = np.array([float(volume_at(basin, level)) for basin, level in zip(basins, start, strict=True)])
    time, step, times, states = 0.0, min(_FIRST, until), [0.0], [volumes]
    for _ in range(_MOST_STEPS):
        if time >= until * (1.0 - 1e-12):
            break
        step = min(step, until - time)
        trial, error = march.step(volumes, step)
        short = march.overshoot(volumes, trial)
        if short < 1.0:
            step *= short
        elif error > 1.0:
            step *= max(0.2, 0.8 * error ** (-1.0 / 3.0))
        else:
            time, volumes = time + step, trial
            times.append(time)
            states.append(volumes)
            step *= min(4.0, 0.8 * max(error, 1e-6) ** (-1.0 / 3.0))
        march.break_bare(volumes)
    else:
        raise SolverError(f"levels did not come to {until} s; they stand at {time} s")
    levels = np.array([march.levels(state) for state in states])
    return LevelCourse(np.array(times), levels, np.array(states))


class _March:
    """One step after another, and which siphons have drawn air."""

    def __init__(self, basins: Sequence[Basin], ways: Sequence[Spill | Siphon | Pumped]) -> None:
        self._basins, self._ways = basins, ways
        self._broken = [False] * len(ways)
        self._last = [1e-4] * len(ways)

    def levels(self, volumes: Array) -> Array:
        return np.array(
            [
                float(level_of(basin, max(float(v), 0.0)))
                for basin, v in zip(self._basins, volumes, strict=True)
            ]
        )

    def step(self, volumes: Array, step: Second) -> tuple[Array, float]:
        """The volumes one step on, and the error in shares of what is allowed."""
        surfaces = self._surfaces(volumes)
        rates, gains = self._rates(volumes)
        within = np.eye(len(rates)) - step * _LEAN * gains / surfaces
        one = np.linalg.solve(within, rates)
        middle, _ = self._rates(volumes + 0.5 * step * one)
        two = np.linalg.solve(within, middle - one) + one
        after = volumes + step * two
        last, _ = self._rates(after)
        three = np.linalg.solve(within, last - _CHECK * (two - middle) - 2.0 * (one - rates))
        error = step / 6.0 * (one - 2.0 * two + three)
        return after, float(np.max(np.abs(error) / surfaces)) / _FINE

    def overshoot(self, volumes: Array, trial: Array) -> float:
        """The share of a step that brings the first siphon to its break; 1 where none gets there."""
        before, after = self.levels(volumes), self.levels(trial)
        share = 1.0
        for way, broken in zip(self._ways, self._broken, strict=True):
            if not isinstance(way, Siphon) or broken or after[way.start] >= way.breaks_at - _BARE:
                continue
            left, fall = before[way.start] - way.breaks_at, before[way.start] - after[way.start]
            if fall > 0.0:
                share = min(share, max(left, 0.5 * _BARE) / fall)
        return share

    def break_bare(self, volumes: Array) -> None:
        """Siphons that have sunk to their break let air in for good."""
        levels = self.levels(volumes)
        for place, way in enumerate(self._ways):
            if isinstance(way, Siphon) and levels[way.start] <= way.breaks_at + _BARE:
                self._broken[place] = True

    def _surfaces(self, volumes: Array) -> Array:
        levels = self.levels(volumes)
        return np.array([float(surface_at(basin, z)) for basin, z in zip(self._basins, levels, strict=True)])

    def _rates(self, volumes: Array) -> tuple[Array, Array]:
        """How fast each vessel gains, and how much faster for each metre that each vessel stands higher."""
        levels, count = self.levels(volumes), len(self._basins)
        rates, gains = np.zeros(count), np.zeros((count, count))
        for place, way in enumerate(self._ways):
            flow, gain = self._flow(place, way, levels)
            rates[way.start] -= flow
            rates[way.end] += flow
            gains[way.start, way.start] -= gain
            gains[way.end, way.start] += gain
            if isinstance(way, Siphon):
                gains[way.start, way.end] += gain
                gains[way.end, way.end] -= gain
        return rates, gains

    def _flow(self, place: int, way: Spill | Siphon | Pumped, levels: Array) -> tuple[float, float]:
        """Flow of a way, and how much more for each metre of head."""
        if isinstance(way, Pumped):
            share = float(levels[way.start] - way.needs) / _GIVES_WAY
            return way.flow * min(max(share, 0.0), 1.0), way.flow / _GIVES_WAY if 0.0 < share < 1.0 else 0.0
        below = way.crest if isinstance(way, Spill) else levels[way.end]
        head = float(levels[way.start] - below)
        if head <= 0.0 or self._broken[place]:
            return 0.0, 0.0
        flow, gain = flow_of(way.law, head, self._last[place])
        self._last[place] = flow
        return flow, gain
