"""A vessel of which every way out is blocked: all that the pumps can lift into it, and how high it then stands."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from tidestead.physics.flow.draining import Basin, surface_at, volume_at
from tidestead.plan.model import Plan
from tidestead.studies.flow.adverse import sets_level
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import leads_to, top_of
from tidestead.studies.flow.heights import basin_of, brim_of, floor_of, place_of, port_of
from tidestead.studies.flow.ways_down import below, bore_at_end

_STEPS, _CLOSE = 200, 1e-13
"""Steps at most, more than halving down to the last digit takes; share of the water to which the level is found."""


@dataclass(frozen=True)
class Sunk:
    """A vessel that runs down: its area, m2, and the levels above the datum before and after."""

    area: float
    start: float
    end: float

    @property
    def volume(self) -> float:
        """What it gives, m3."""
        return self.area * (self.start - self.end)


@dataclass(frozen=True)
class Held:
    """What stands in a vessel where every way out of it is shut and the pumps have drawn all else down.

    `level` is that it comes to, above the datum, not a number where it cannot be told; `area` that of its water and of
    the vessels it then backs up, `risen` their names with their own areas and levels before. `sunk` are all others of
    its water, down to the lowest lip or lower edge of a mouth that they have. `fresh` is the stock of float valves that
    open meanwhile, endless where the plan does not tell it. `tightest` is the vessel nearest to its `brim`;
    `valved` are vessels whose level a valve is set for.
    """

    level: float
    area: float
    risen: Mapping[str, tuple[float, float]]
    sunk: Mapping[str, Sunk]
    fresh: Mapping[str, float]
    tightest: str
    brim: float
    valved: frozenset[str] = frozenset()

    @property
    def reserve(self) -> float:
        """All that comes, m3."""
        return sum(one.volume for one in self.sunk.values()) + sum(self.fresh.values())


@dataclass(frozen=True)
class _Water:
    """One water: its vessels with their levels, and the lines between them."""

    plan: Plan
    lines: tuple[Line, ...]
    levels: Mapping[str, float]


def held_back(
    plan: Plan,
    lines: tuple[Line, ...],
    running: Running,
    highest: Mapping[str, float],
    group: Collection[str],
) -> dict[str, Held]:
    """For every vessel of a group that is not at a fixed level: what comes to it, on top of what stands in it.

    `highest` are the fixed levels, each at the highest it may have.
    """
    levels = {key: highest.get(key, level) for key, level in running.levels.items() if key in group}
    water = _Water(plan, lines, levels)
    valved = frozenset(
        line.circuit.start.partition(".")[0] for line in lines if sets_level(plan, line, highest, running)
    )
    return {key: replace(_held(water, key), valved=valved) for key in levels if key not in highest}


def _held(water: _Water, key: str) -> Held:
    """Vessels that it backs up rise with it, from where their lips drown; all others run down."""
    risen = [key]
    while True:
        sunk = {other: _sunk(water, other) for other in water.levels if other not in risen}
        fresh = {
            other: stock for other, one in sunk.items() if (stock := _stock_of(water.plan, other, one)) > 0.0
        }
        coming = sum(one.volume for one in sunk.values()) + sum(fresh.values())
        known = math.isfinite(coming) and all(math.isfinite(water.levels[one]) for one in risen)
        level = _filled(water, risen, coming) if known else math.nan
        more = _backed_up(water, risen, level) if known else []
        if not more:
            break
        risen += more
    brims = {one: brim_of(water.plan.vessels[one]) for one in risen}
    tightest = min(brims, key=lambda one: brims[one])
    areas = {one: (_area(water.plan, one), water.levels[one]) for one in risen}
    return Held(level, sum(area for area, _ in areas.values()), areas, sunk, fresh, tightest, brims[tightest])


def _area(plan: Plan, key: str) -> float:
    return basin_of(plan.vessels[key]).surfaces[-1]


def _sunk(water: _Water, key: str) -> Sunk:
    """What a vessel still gives: down to the lowest lip, or lower edge of a mouth, by which water leaves it."""
    level, floor = water.levels[key], floor_of(water.plan.vessels[key])
    ways = [
        line
        for line in water.lines
        if _leaves(line, key) and not line.shut and leads_to(water.plan, water.lines, line) != {key}
    ]
    rests = [max([_lower_edge(water.plan, line), *(line.lips if line.pump is None else ())]) for line in ways]
    end = min(max(min(rests, default=level), floor), level)
    return Sunk(_area(water.plan, key), level, end)


def _leaves(line: Line, key: str) -> bool:
    """Whether a line begins at a port of a vessel."""
    return "." in line.circuit.start and line.circuit.start.partition(".")[0] == key


def _lower_edge(plan: Plan, line: Line) -> float:
    """Where air comes into the mouth that a line begins at: a crest is its own edge."""
    found = port_of(plan, line.circuit.start)
    if line.start_level is None or found is None:
        return -math.inf
    return line.start_level - below(found[2], bore_at_end(line, line.circuit.start))


def _stock_of(plan: Plan, key: str, sunk: Sunk) -> float:
    """Fresh water that a float valve lets in as its vessel runs down: endless where the plan is silent."""
    valve = plan.vessels[key].top_off
    if valve is None or sunk.end >= floor_of(plan.vessels[key]) + valve.level:
        return 0.0
    return math.inf if valve.stock is None else valve.stock


def _filled(water: _Water, risen: Collection[str], coming: float) -> float:
    """The level at which vessels that stand as one hold their own water and what comes.

    Newton's steps, the slope being the surface; halved where one would leave the bounds.
    """
    basins: list[Basin] = [basin_of(water.plan.vessels[one]) for one in risen]
    own = sum(float(volume_at(basin, water.levels[one])) for basin, one in zip(basins, risen, strict=True))
    low = min(basin.floor for basin in basins)
    high = max(water.levels[one] for one in risen) + (own + coming) / min(one.surfaces[-1] for one in basins)
    level = high
    for _ in range(_STEPS):
        off = sum(float(volume_at(basin, level)) for basin in basins) - own - coming
        if abs(off) <= _CLOSE * (own + coming):
            break
        low, high = (level, high) if off < 0.0 else (low, level)
        surface = sum(float(surface_at(basin, level)) for basin in basins if level > basin.floor)
        step = level - off / surface if surface > 0.0 else low
        before, level = level, step if low < step < high else 0.5 * (low + high)
        if level == before or not low < high:
            break
    return max(level, low)  # a lone vessel that is given as lower than its floor stands at it


def _backed_up(water: _Water, risen: Collection[str], level: float) -> list[str]:
    """Vessels that run out into one that has risen over the lip or mouth they run from, through junctions too."""
    found: dict[str, None] = {}
    queue, seen = list(risen), set(risen)
    while queue:
        place = queue.pop()
        for line in water.lines:
            if line.pump is not None or line.shut or place_of(water.plan, line.circuit.end) != place:
                continue
            before = place_of(water.plan, line.circuit.start)
            if before in seen or top_of(line) >= level:
                continue
            seen.add(before)
            if before in water.levels:
                found[before] = None
            else:
                queue.append(before)
    return list(found)
