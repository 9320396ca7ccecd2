"""Whether what leaves a vessel by its own weight can carry all of it, each way alone and each way blocked."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.physics.flow.draining import level_of, volume_at
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import basin_of, brim_of, brimful_basin, port_of
from tidestead.studies.flow.solving import tried


@dataclass(frozen=True)
class DrainFacts:
    """One vessel. Levels above the datum; None where the trial has no solution.

    `alone` and `blocked` are levels by line, with every other way shut and with this one shut. `pumped_dry` is the
    level where every way is shut and the sumps have pumped themselves down to their suctions; `reserve` that water.
    """

    vessel: str
    flow: float
    brim: float
    level: float
    lines: tuple[str, ...]
    alone: Mapping[str, float | None]
    blocked: Mapping[str, float | None]
    pumped_dry: float
    reserve: float


def gravity_lines(plan: Plan, lines: tuple[Line, ...], key: str) -> tuple[Line, ...]:
    """Lines through which a vessel runs out by itself."""
    found = []
    for line in lines:
        start = port_of(plan, line.circuit.start)
        if start is not None and start[0] == key and line.pump is None and not _shut(line):
            found.append(line)
    return tuple(line for line in found if not _feeds_pump(plan, lines, line))


def _shut(line: Line) -> bool:
    return any(run.law.at(1e-6).slope == math.inf for run in line.runs)


def _feeds_pump(plan: Plan, lines: tuple[Line, ...], line: Line) -> bool:
    """Whether the line ends at a junction from which a pump draws."""
    if port_of(plan, line.circuit.end) is not None:
        return False
    return any(other.pump is not None and other.circuit.start == line.circuit.end for other in lines)


def drain_facts(
    plan: Plan, lines: tuple[Line, ...], fixed: Mapping[str, float], running: Running
) -> tuple[DrainFacts, ...]:
    """Every vessel that water is sent into, but the sumps."""
    found = []
    for key, flow in running.inflow.items():
        ways = gravity_lines(plan, lines, key)
        if key in fixed or not ways or flow <= 0.0:
            continue
        level = running.levels.get(key, math.nan)
        reserve = sum(_above_suction(plan, lines, sump, at) for sump, at in fixed.items())
        basin = basin_of(plan.vessels[key])
        dry = float(level_of(basin, volume_at(basin, level) + reserve)) if math.isfinite(level) else math.nan
        several = len(ways) > 1
        found.append(
            DrainFacts(
                key,
                flow,
                brim_of(plan.vessels[key]),
                level,
                tuple(way.key for way in ways),
                {way.key: _level(plan, lines, fixed, key, _others(ways, way)) for way in ways if several},
                {way.key: _level(plan, lines, fixed, key, (way,)) for way in ways if several},
                dry,
                reserve,
            )
        )
    return tuple(found)


def _others(ways: tuple[Line, ...], way: Line) -> tuple[Line, ...]:
    return tuple(other for other in ways if other is not way)


def _level(
    plan: Plan, lines: tuple[Line, ...], fixed: Mapping[str, float], key: str, without: tuple[Line, ...]
) -> float | None:
    left = tuple(line for line in lines if line not in without)
    running = tried(plan, left, fixed)
    return None if running is None else running.levels.get(key)


def _above_suction(plan: Plan, lines: tuple[Line, ...], key: str, level: float) -> float:
    """Water of a sump above the lowest port that a pump draws from."""
    mouths = [
        line.start_level
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
