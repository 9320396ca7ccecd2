"""When the power stops: what runs back, with every guard working and with one failed; and the start after it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.physics.flow import levels, runback, surge
from tidestead.physics.flow.laws import HeadAt, Law
from tidestead.physics.flow.pipes import pipe_area
from tidestead.plan.model import Plan
from tidestead.studies.flow.drains import gravity_lines
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import basin_of, brim_of, brimful_basin, floor_of, port_of
from tidestead.studies.flow.lines import falls_free
from tidestead.studies.vessels import plan_area

PRIMING = 60.0
"""Seconds for which a siphon is taken to carry nothing after a start. Common practice, no source."""

SHOWN_FOR = 600.0
"""Seconds of a power stop that are drawn."""


@dataclass(frozen=True)
class Course:
    """Levels of vessels against time, seconds and metres above the datum."""

    name: str
    times: tuple[float, ...]
    levels: Mapping[str, tuple[float, ...]]


@dataclass(frozen=True)
class SquareLaw:
    """A line's loss as it is at one flow, grown with the square: quick, and a few per cent off elsewhere."""

    coefficient: float

    def at(self, flow: float) -> HeadAt:
        """Head and slope."""
        size = abs(flow) + _CREEP
        return HeadAt(self.coefficient * flow * size, self.coefficient * (size + abs(flow)))


_CREEP = 1e-7
"""m3/s added to a flow's size, so that a loss never stops growing with it."""


@dataclass(frozen=True)
class StopFacts:
    """A power stop. `free` is the room of the sump; `missing` says why nothing could be reckoned.

    `start` is the sump at its lowest after a start, `rise` how far each vessel with a siphon rises meanwhile.
    """

    sump: str = ""
    stop: runback.PowerStop | None = None
    vessels: tuple[str, ...] = ()
    cases: runback.RunbackCases | None = None
    free: float = 0.0
    courses: tuple[Course, ...] = ()
    start: surge.StartSurge | None = None
    suction: float | None = None
    rise: Mapping[str, float] | None = None
    missing: str = ""


@dataclass(frozen=True)
class _Above:
    """The sump's key and level, and after it the vessels above it."""

    keys: tuple[str, ...]
    falling: tuple[runback.Falling, ...]
    sump_level: float


def stop_facts(
    plan: Plan, lines: tuple[Line, ...], fixed: Mapping[str, float], running: Running
) -> StopFacts:
    """The stop of all pumps at once."""
    if len(fixed) != 1:
        return StopFacts(missing=f"{len(fixed)} sumps: what runs back to which cannot be told")
    ((sump, level),) = fixed.items()
    if level > brim_of(plan.vessels[sump]):
        return StopFacts(missing=f"{sump} runs above its brim")
    above = tuple(key for key in running.levels if key != sump)
    falling = tuple(_falling(plan, lines, running, key) for key in above)
    basin = brimful_basin(plan.vessels[sump])
    stop = runback.PowerStop(falling, _held(lines, running), basin, level)
    cases = runback.runback_cases(stop)
    rise = _rises(plan, lines, running, above)
    waiting = sum(height * plan_area(plan.vessels[key]) for key, height in rise.items())
    start = surge.start_surge(
        waiting / plan_area(plan.vessels[sump]), plan_area(plan.vessels[sump]), basin, level
    )
    mouths = [line.start_level for line in lines if line.pump is not None and line.start_level is not None]
    return StopFacts(
        sump,
        stop,
        above,
        cases,
        float(runback.free_volume(basin, level)),
        tuple(_courses(plan, lines, _Above((sump, *above), falling, level), cases)),
        start,
        max(mouths, default=None),
        rise,
    )


def _falling(plan: Plan, lines: tuple[Line, ...], running: Running, key: str) -> runback.Falling:
    vessel, level = plan.vessels[key], running.levels[key]
    basin = basin_of(vessel)
    level = min(max(level, basin.floor), basin.brim)
    rests = [rest_of(plan, line) for line in gravity_lines(plan, lines, key)]
    return runback.Falling(
        basin, level, min([level, *rests]), tuple(line for line, _ in returns_of(plan, lines, key))
    )


def rest_of(plan: Plan, line: Line) -> float:
    """Level down to which a gravity line empties its vessel: its mouth, or the lip it must pass."""
    start = port_of(plan, line.circuit.start)
    mouth = line.start_level if line.start_level is not None else float("-inf")
    if start is None:
        return mouth
    breaks = start[2].siphon_break
    if breaks is not None:
        mouth = max(mouth, floor_of(start[1]) + breaks.level)
    return max([mouth, *line.lips])


def returns_of(
    plan: Plan, lines: tuple[Line, ...], key: str
) -> list[tuple[runback.ReturnLine, tuple[Line, ...]]]:
    """Outlets under water that a pump feeds, each with the lines from it back to the pump."""
    found = []
    for line in lines:
        end = port_of(plan, line.circuit.end)
        if end is None or end[0] != key or line.end_level is None or falls_free(end[1], end[2]):
            continue
        way = _back_to_pump(lines, line)
        if way and not any(lip > line.end_level for part in way for lip in part.lips):
            breaks = end[2].siphon_break
            at = floor_of(end[1]) + breaks.level if breaks is not None else None
            checked = any(part.one_way for part in way)
            found.append((runback.ReturnLine(line.end_level, at, checked), way))
    return found


def _back_to_pump(lines: tuple[Line, ...], line: Line) -> tuple[Line, ...]:
    """The line and those before it up to one with a pump; empty where there is none."""
    way: list[Line] = []
    here: Line | None = line
    while here is not None and here not in way:
        way.append(here)
        if here.pump is not None:
            return tuple(way)
        start = here.circuit.start
        feeding = [other for other in lines if other.circuit.end == start]
        here = next((other for other in feeding if other.pump is not None), next(iter(feeding), None))
    return ()


def _held(lines: tuple[Line, ...], running: Running) -> tuple[runback.HeldPipe, ...]:
    """Pipes that are full while pumps run: those of pumped lines."""
    found = []
    for line in lines:
        way = _back_to_pump(lines, line)
        if not way or running.flows[line.key] <= 0.0:
            continue
        ends = [level for level in (line.start_level, line.end_level) if level is not None]
        low, high = min(ends, default=0.0), max(ends, default=0.0)
        low = min(low, min((part.start_level for part in way if part.start_level is not None), default=low))
        checked = any(part.one_way for part in way)
        top = max([high, line.circuit.high_point or high])
        found += [
            runback.HeldPipe(run.bore, run.item.length, low, top, True, checked)
            for run in line.runs
            if run.item.kind == "pipe"
        ]
    return tuple(found)


def _rises(plan: Plan, lines: tuple[Line, ...], running: Running, above: tuple[str, ...]) -> dict[str, float]:
    """How far vessels rise at a start until their siphons carry, the other ways helping not at all."""
    found = {}
    for key in above:
        ways = gravity_lines(plan, lines, key)
        slow = [way for way in ways if _is_siphon(plan, way)]
        if not slow:
            continue
        carried = sum(max(running.flows[way.key], 0.0) for way in ways if way not in slow)
        flow = running.inflow[key]
        found[key] = float(surge.waiting_rise(flow, carried, plan_area(plan.vessels[key]), PRIMING))
        spill = [way.lips[0] for way in ways if way not in slow and way.lips]
        if spill:
            found[key] = min(found[key], max(max(spill) - running.levels[key], 0.0) + 0.03)
    return found


def _is_siphon(plan: Plan, line: Line) -> bool:
    start = port_of(plan, line.circuit.start)
    return start is not None and start[2].kind == "siphon"


def _worst(cases: runback.RunbackCases) -> tuple[str, runback.Guards]:
    if cases.break_blocked.total >= cases.check_failed.total:
        return "siphon breaks blocked", runback.Guards(breaks_work=False)
    return "check valves failed", runback.Guards(checks_hold=False)


def _courses(plan: Plan, lines: tuple[Line, ...], above: _Above, cases: runback.RunbackCases) -> list[Course]:
    """Levels against time with every guard working, and with the worst single failure."""
    basins = [basin_of(plan.vessels[key]) for key in above.keys]
    start = [above.sump_level, *(fall.running for fall in above.falling)]
    found = []
    for name, guards in (("every guard working", runback.Guards()), _worst(cases)):
        ways = _ways(plan, lines, above, guards)
        if not ways:
            continue
        course = levels.level_course(basins, start, ways, SHOWN_FOR)
        times = tuple(float(time) for time in course.times)
        by_key = {key: tuple(map(float, course.levels[:, at])) for at, key in enumerate(above.keys)}
        found.append(Course(name, times, by_key))
    return found


def _ways(
    plan: Plan, lines: tuple[Line, ...], above: _Above, guards: runback.Guards
) -> list[levels.Spill | levels.Siphon | levels.Pumped]:
    ways: list[levels.Spill | levels.Siphon | levels.Pumped] = []
    for at, key in enumerate(above.keys[1:], start=1):
        for line in gravity_lines(plan, lines, key):
            way = _gravity_way(plan, line, at, above.keys)
            if way is not None:
                ways.append(way)
        level = above.falling[at - 1].running
        for back, parts in returns_of(plan, lines, key):
            rests = runback.line_rests(back, level, guards)
            law = squared(parts, max(level - above.sump_level, 0.05))
            if rests < level and law is not None:
                ways.append(levels.Siphon(at, 0, rests, law))
    return ways


def squared(parts: tuple[Line, ...], head: float) -> SquareLaw | None:
    """What lines lose together, pump and check valves open, as a square law that holds at a head."""
    laws: list[Law] = [
        run.law for part in parts for run in part.runs if run.item.kind != "pump" and not run.checks
    ]
    bore = min((part.bore for part in parts if part.bore > 0.0), default=0.0)
    if not laws or bore <= 0.0 or any(math.isinf(law.at(1e-6).slope) for law in laws):
        return None
    flow = pipe_area(bore)
    for _ in range(4):
        lost = sum(float(law.at(flow).head) for law in laws)
        flow *= (head / lost) ** 0.5
    return SquareLaw(head / flow**2)


def _gravity_way(
    plan: Plan, line: Line, at: int, keys: tuple[str, ...]
) -> levels.Spill | levels.Siphon | None:
    end = port_of(plan, line.circuit.end)
    if end is None or end[0] not in keys:
        return None
    to, first = keys.index(end[0]), line.links[0]
    if first.over is not None:
        return levels.Spill(at, to, first.crest, first.over)
    law = squared((line,), 0.5)
    if law is None:
        return None
    if line.lips:
        return levels.Spill(at, to, max(line.lips[0], line.start_level or line.lips[0]), law)
    return levels.Siphon(at, to, rest_of(plan, line), law)
