"""The pumps' water behind a drain that is blocked: what the sump still gives, and what runs out beyond."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tidestead.physics.flow.draining import level_of, volume_at
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import gravity_lines
from tidestead.studies.flow.heights import basin_of, brimful_basin, port_of
from tidestead.studies.flow.ways_down import below, bore_at_end


@dataclass(frozen=True)
class Held:
    """What stands in a vessel where every way out of it is shut and the sumps have pumped themselves down.

    `level` is that it comes to, above the datum, not a number where it cannot be told. `sunk` is what each sump gives
    down to the lower edge of its lowest suction, and each vessel behind this one down to its lips; `fresh` the stock of
    float valves in the sumps, which open meanwhile, endless where the plan does not tell it. `areas` are those of the
    vessels behind.
    """

    level: float
    sunk: Mapping[str, float]
    fresh: Mapping[str, float]
    areas: Mapping[str, float]

    @property
    def reserve(self) -> float:
        """All that comes, m3."""
        return sum(self.sunk.values()) + sum(self.fresh.values())


def held_back(
    plan: Plan, lines: tuple[Line, ...], fixed: Mapping[str, float], running: Running, key: str
) -> Held:
    """What comes to a vessel of which every way out is blocked, put on top of what stands in it."""
    sunk = {sump: _above_suction(plan, lines, sump, at) for sump, at in fixed.items()}
    behind = _after(plan, lines, key) - set(fixed)
    sunk |= {other: _runs_out(plan, lines, running, other) for other in behind}
    fresh = {sump: stock for sump in fixed if (stock := _stock_of(plan, sump)) > 0.0}
    areas = {other: basin_of(plan.vessels[other]).surfaces[-1] for other in behind}
    found = Held(math.nan, sunk, fresh, areas)
    level, basin = running.levels.get(key, math.nan), basin_of(plan.vessels[key])
    if not (math.isfinite(level) and math.isfinite(found.reserve)):
        return found
    return replace(found, level=float(level_of(basin, volume_at(basin, level) + found.reserve)))


def _after(plan: Plan, lines: tuple[Line, ...], key: str) -> set[str]:
    """Vessels that get their water from this one by its own weight: they run out when it is held back."""
    found: set[str] = set()
    queue = [key]
    while queue:
        for line in gravity_lines(plan, lines, queue.pop()):
            end = port_of(plan, line.circuit.end)
            if end is not None and end[0] != key and end[0] not in found:
                found.add(end[0])
                queue.append(end[0])
    return found


def _runs_out(plan: Plan, lines: tuple[Line, ...], running: Running, key: str) -> float:
    """What a vessel still sends down when no water comes to it: to the lowest lip, or lower edge of a mouth, it has."""
    ways = gravity_lines(plan, lines, key)
    rests = [max([_lower_edge(plan, line), *line.lips]) for line in ways]
    level, basin = running.levels[key], basin_of(plan.vessels[key])
    if not rests or not math.isfinite(level):
        return 0.0
    rest = min(max(min(rests), basin.floor), level)
    return float(volume_at(basin, level) - volume_at(basin, rest))


def _lower_edge(plan: Plan, line: Line) -> float:
    """Where air comes into the mouth that a line begins at: a crest is its own edge."""
    found = port_of(plan, line.circuit.start)
    if line.start_level is None or found is None:
        return -math.inf
    return line.start_level - below(found[2], bore_at_end(line, line.circuit.start))


def _stock_of(plan: Plan, key: str) -> float:
    """Fresh water that a float valve in a vessel can draw on: endless where the plan is silent, none without one."""
    valve = plan.vessels[key].top_off
    if valve is None:
        return 0.0
    return math.inf if valve.stock is None else valve.stock


def _above_suction(plan: Plan, lines: tuple[Line, ...], key: str, level: float) -> float:
    """Water of a sump above the lower edge of the lowest port that a pump draws from: air comes in there last."""
    mouths = [
        _lower_edge(plan, line)
        for line in lines
        if line.pump is not None
        and line.start_level is not None
        and (found := port_of(plan, line.circuit.start)) is not None
        and found[0] == key
    ]
    if not mouths:
        return 0.0
    basin = brimful_basin(plan.vessels[key])
    return max(float(volume_at(basin, level) - volume_at(basin, max(min(mouths), basin.floor))), 0.0)
