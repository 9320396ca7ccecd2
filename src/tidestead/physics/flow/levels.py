"""Levels against time in vessels joined by weirs, full pipes and pumps: power stops and restarts as they run.

Volumes are carried from vessel to vessel, so that no water is won or lost; levels follow from volumes.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import inf, sqrt

import numpy as np

from tidestead.core.dims import Array, Count, CubicMetrePerSecond, Metre, MetrePerSecond, Second
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics import _refuse
from tidestead.physics.flow._inverse import flow_of
from tidestead.physics.flow._web_heads import Matrix, Passed, Web, covered
from tidestead.physics.flow.draining import Basin, volume_at
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.webs import Pipe
from tidestead.physics.flow.weirs import WeirLaw, drowned_share

_MOST_STEPS = 20_000
_FINE: Metre = 1e-6
"""Error of a level that one step may make."""

_FIRST: Second = 1e-3

_EVEN: Metre = 1e-3
"""Difference of levels below which a drowned weir's flow falls with the difference itself: its slope stays finite."""

_NUDGE = 1e-6
"""Share of a head by which it is raised to find a slope."""

_LEAN = 1.0 / (2.0 + 2.0**0.5)
_CHECK = 6.0 + 2.0**0.5
"""d and e32 of Shampine and Reichelt's ode23s."""


@dataclass(frozen=True)
class Spill:
    """Water that leaves a vessel over a crest for another vessel or a junction; all are told by their places."""

    start: Count
    end: Count
    crest: Metre
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
    """Times, and for each of them (row) the level and the volume of each vessel (column).

    `lowest` is the lowest level of each vessel that any step looked at.
    """

    times: Array
    levels: Array
    volumes: Array
    lowest: tuple[Metre, ...]

    def is_of(
        self, found_with: Sequence[Spill | Pipe | Pumped], ways: Sequence[Spill | Pipe | Pumped]
    ) -> bool:
        """Whether a course `found_with` some ways is to the last digit that of others too.

        So it is where they differ at most in how low the water may sink before a mouth draws air, and no step looked
        at water as low as that.
        """
        return len(found_with) == len(ways) and all(
            one == other or self._is_alike(one, other) for one, other in zip(found_with, ways, strict=True)
        )

    def _is_alike(self, one: Spill | Pipe | Pumped, other: Spill | Pipe | Pumped) -> bool:
        if not (isinstance(one, Pipe) and isinstance(other, Pipe)):
            return False
        start, end = (
            replace(side, bare=here.bare) for side, here in ((other.start, one.start), (other.end, one.end))
        )
        return replace(other, start=start, end=end) == one and all(
            here.bare == there.bare
            or (
                here.place < len(self.lowest)
                and all(
                    covered(self.lowest[here.place], one_end.bare) == (1.0, 0.0) for one_end in (here, there)
                )
            )
            for here, there in ((one.start, other.start), (one.end, other.end))
        )


def level_course(
    basins: Sequence[Basin],
    start: Sequence[Metre],
    ways: Sequence[Spill | Pipe | Pumped],
    until: Second,
    still: MetrePerSecond = 0.0,
) -> LevelCourse:
    """Levels of vessels against time while water runs between them.

        dV/dt = flows in - flows out
        flow of a spill: law(Q) = z1 - crest;  of pipes: `webs.pipe_flows`

    It ends early once no level moves faster than `still`. Steps are those of Rosenbrock's kind, order 2, which the
    slopes of the laws keep steady where small vessels even out fast; each is held to a millionth of a metre.
    Places from the number of vessels on are junctions of pipes.
    Raises SolverError where the steps do not come to the end.
    Source: continuity; L. Shampine and M. Reichelt, SIAM Journal on Scientific Computing 18 (1997) 1-22, ode23s.
    Valid:  still surfaces; water's own inertia left out. Drowned weirs as `weirs.drowned_share`, other drowned crests
            by the difference of levels. A siphon that drew air is taken to run again when covered: the adverse case.
            A vessel filled above its brim is taken to have walls that go on.
    """
    _refuse.not_positive(time=until)
    if len(basins) != len(start) or any(not 0 <= place < len(basins) for place in _vessels_of(ways)):
        raise ImpossibleInput("each vessel needs a level, and each way two vessels of the list")
    march = _March(basins, ways)
    volumes = np.array([float(volume_at(basin, level)) for basin, level in zip(basins, start, strict=True)])
    time, step, times, states = 0.0, min(_FIRST, until), [0.0], [volumes]
    for _ in range(_MOST_STEPS):
        if time >= until * (1.0 - 1e-12) or (still > 0.0 and march.fastest(volumes) <= still):
            break
        step = min(step, until - time)
        trial, error = march.step(volumes, step)
        if error > 1.0:
            step *= max(0.2, 0.8 * error ** (-1.0 / 3.0))
            continue
        time, volumes = time + step, trial
        times.append(time)
        states.append(volumes)
        step *= min(4.0, 0.8 * max(error, 1e-6) ** (-1.0 / 3.0))
    else:
        raise SolverError(f"levels did not come to {until} s; they stand at {time} s")
    levels = np.array([march.levels(state) for state in states])
    return LevelCourse(np.array(times), levels, np.array(states), tuple(march.lowest))


def _vessels_of(ways: Sequence[Spill | Pipe | Pumped]) -> list[int]:
    """Every place that has to be a vessel: of spills and pumps, unless pipes meet there."""
    pipes = [way for way in ways if isinstance(way, Pipe)]
    met = {end.place for pipe in pipes for end in (pipe.start, pipe.end)}
    found = []
    for way in ways:
        if isinstance(way, Pipe):
            continue
        found.append(way.start)
        found += [] if isinstance(way, Spill) and way.end in met else [way.end]
    return found


class _March:
    """One step after another. What is found for the end of a step is kept for the start of the next."""

    def __init__(self, basins: Sequence[Basin], ways: Sequence[Spill | Pipe | Pumped]) -> None:
        self._shapes = [_Shape(basin) for basin in basins]
        self._poured = [way for way in ways if not isinstance(way, Pipe)]
        self._web = Web([way for way in ways if isinstance(way, Pipe)], len(basins))
        self._last = [1e-4] * len(self._poured)
        self.lowest = [inf] * len(basins)
        self._whole = np.eye(len(basins))
        self._kept: tuple[Array, _Rates] | None = None

    def levels(self, volumes: Array) -> list[float]:
        return [shape.at(one)[0] for shape, one in zip(self._shapes, volumes.tolist(), strict=True)]

    def fastest(self, volumes: Array) -> float:
        """How fast the level that moves most does."""
        now = self._rates(volumes)
        return float(np.max(np.abs(now.rates) / now.surfaces))

    def step(self, volumes: Array, step: Second) -> tuple[Array, float]:
        """The volumes one step on, and the error in shares of what is allowed."""
        now = self._rates(volumes)
        solved = np.linalg.inv(self._whole - step * _LEAN * now.gains / now.surfaces)
        one = solved @ now.rates
        middle = np.array(self._gained(volumes + 0.5 * step * one)[0])
        two = solved @ (middle - one) + one
        after = volumes + step * two
        last = self._rates(after).rates
        three = solved @ (last - _CHECK * (two - middle) - 2.0 * (one - now.rates))
        error = step / 6.0 * (one - 2.0 * two + three)
        off = float(np.max(np.abs(error) / now.surfaces)) / _FINE
        if off > 1.0:
            self._kept = (volumes, now)
        return after, off

    def _rates(self, volumes: Array) -> _Rates:
        """How fast each vessel gains, and how much faster for each metre that each vessel stands higher."""
        if self._kept is not None and self._kept[0] is volumes:
            return self._kept[1]
        rates, gains, read = self._gained(volumes)
        surfaces = np.array([one[1] for one in read])
        found = _Rates(np.array(rates), self._web.eliminated(gains), surfaces)
        self._kept = (volumes, found)
        return found

    def _gained(self, volumes: Array) -> tuple[list[float], Matrix, list[tuple[float, float]]]:
        """What each vessel gains, the slopes of that at every place, levels and surfaces."""
        read = [shape.at(one) for shape, one in zip(self._shapes, volumes.tolist(), strict=True)]
        levels, count = [one[0] for one in read], len(read)
        self.lowest = list(map(min, self.lowest, levels))
        flows = [self._flow(at, way, levels) for at, way in enumerate(self._poured)]
        poured = [0.0] * self._web.junctions
        for way, (flow, _, _) in zip(self._poured, flows, strict=True):
            if way.end >= count:
                poured[way.end - count] += flow
        self._web.settle(levels, poured)
        rates, gains = self._web.rates(levels)
        for way, (flow, at_start, at_end) in zip(self._poured, flows, strict=True):
            start, end = way.start, way.end
            rates[start] -= flow
            rates[end] += flow
            gains[start][start] -= at_start
            gains[end][start] += at_start
            gains[start][end] -= at_end
            gains[end][end] += at_end
        return rates[:count], gains, read

    def _flow(self, at: int, way: Spill | Pumped, levels: Sequence[float]) -> Passed:
        """Flow of a spill or a pump, and how much more for each metre at its start, and at its end."""
        if isinstance(way, Pumped):
            share, fades = covered(levels[way.start], way.needs)
            return share * way.flow, fades * way.flow, 0.0
        head = levels[way.start] - way.crest
        tail = levels[way.end] - way.crest if way.end < len(levels) else 0.0
        if head <= max(tail, 0.0):
            return 0.0, 0.0, 0.0
        if isinstance(way.law, WeirLaw):
            return _over_weir(way.law, head, max(tail, 0.0))
        flow, gain = flow_of(way.law, head - max(tail, 0.0), self._last[at])
        self._last[at] = flow
        return flow, gain, -gain if tail > 0.0 else 0.0


def _over_weir(law: WeirLaw, head: Metre, tail: Metre) -> Passed:
    """Flow over a weir, free or drowned. Where both waters are all but level it goes with their difference."""
    apart = min(_EVEN, 0.5 * head)
    if head - tail < apart:
        flow = law.flow(head) * float(drowned_share(head, head - apart))
        return flow * (head - tail) / apart, flow / apart, -flow / apart
    nudge = head * _NUDGE

    def at(before: Metre, behind: Metre) -> float:
        return law.flow(before) * float(drowned_share(before, behind))

    flow = at(head, tail)
    at_end = (at(head, tail + nudge) - flow) / nudge if tail > 0.0 else 0.0
    return flow, (at(head + nudge, tail) - flow) / nudge, at_end


@dataclass(frozen=True)
class _Rates:
    """What each vessel gains, the slopes of that, and the surfaces."""

    rates: Array
    gains: Array
    surfaces: Array


class _Shape:
    """A vessel's level and surface for its volume, one at a time and quickly."""

    def __init__(self, basin: Basin) -> None:
        self._levels, self._surfaces = basin.levels, basin.surfaces
        self._below = [float(volume_at(basin, level)) for level in basin.levels]
        rises = zip(pairwise(basin.levels), pairwise(basin.surfaces), strict=True)
        self._steeper = [(b - a) / (top - low) for (low, top), (a, b) in rises] + [0.0]

    def at(self, volume: float) -> tuple[float, float]:
        place = max(bisect_right(self._below, volume) - 1, 0)
        rest = max(volume - self._below[place], 0.0)
        surface, steeper = self._surfaces[place], self._steeper[place]
        wide = sqrt(max(surface * surface + 2.0 * steeper * rest, 0.0))
        return self._levels[place] + 2.0 * rest / (surface + wide), wide
