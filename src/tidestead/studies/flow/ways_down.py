"""The ways water can take while no pump runs: which are full, where each draws air, what its pipes hold."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from tidestead.physics.flow.runback import HeldWater, Way
from tidestead.plan.model import Plan, Port
from tidestead.studies.flow.facts import Line, Run, Running
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.flow.lines import falls_free

_CRESTS = ("weir", "standpipe")
"""Ports whose level is a crest and not the middle of a hole."""


@dataclass(frozen=True)
class LineEnd:
    """One end of a line: a vessel or a junction by name; levels above the datum.

    `edge` is the lower edge of the mouth, where the last water leaves it and the first air enters. `break_at` is the
    siphon break, where there is one that is large enough.
    """

    place: str
    edge: float = -math.inf
    break_at: float | None = None

    def bare(self, breaks_work: bool) -> float:
        """Level below which no water leaves the vessel by this end."""
        if self.break_at is None or not breaks_work:
            return self.edge
        return max(self.edge, self.break_at)


@dataclass(frozen=True)
class StillLine:
    """A line that is full or spills while no pump runs; `lips` are crests between its ends."""

    line: Line
    start: LineEnd
    end: LineEnd
    lips: tuple[float, ...]


def still_lines(
    plan: Plan, lines: tuple[Line, ...], running: Running, small: Collection[str] = ()
) -> tuple[StillLine, ...]:
    """Every line that is not shut and is full; `small` are ports whose siphon break is too small to count on."""
    found = []
    for line in lines:
        if line.shut or not _is_full(plan, line, running):
            continue
        start, end = (
            _end(plan, name, bore_at_end(line, name), small)
            for name in (line.circuit.start, line.circuit.end)
        )
        found.append(StillLine(line, start, end, inner_lips(plan, line)))
    return tuple(found)


def carries(running: Running, key: str) -> bool:
    """Whether water goes through a line as the pumps run; what is next to nothing is told as nothing."""
    return running.flows[key] != 0.0


def inner_lips(plan: Plan, line: Line) -> tuple[float, ...]:
    """Crests on the way, without the mouth from which it falls into its last vessel."""
    end = port_of(plan, line.circuit.end)
    last = line.links[-1]
    falls = end is not None and falls_free(end[1], end[2]) and last.start == f"{line.key}~fall"
    return line.lips[:-1] if falls else line.lips


def high_point_of(plan: Plan, line: Line) -> float | None:
    """The highest point that the plan gives a line: its own, or the crest of the siphon it starts with."""
    high = [line.circuit.high_point] if line.circuit.high_point is not None else []
    start = port_of(plan, line.circuit.start)
    if start is not None and start[2].crest is not None:
        high.append(floor_of(start[1]) + start[2].crest)
    return max(high, default=None)


def _is_full(plan: Plan, line: Line, running: Running) -> bool:
    """A line over a high point is full where water goes through it, or where water stands over that point."""
    high = high_point_of(plan, line)
    if high is None or carries(running, line.key):
        return True
    ends = (port_of(plan, name) for name in (line.circuit.start, line.circuit.end))
    return any(found is not None and running.levels[found[0]] >= high for found in ends)


def bore_at_end(line: Line, name: str) -> float:
    """Bore of the pipe nearest that end of a line, else of whatever stands there."""
    runs = line.runs if name == line.circuit.start else line.runs[::-1]
    pipes = (run.bore for run in runs if run.item.kind == "pipe")
    return next(pipes, next((run.bore for run in runs if run.bore > 0.0), 0.0))


def _end(plan: Plan, name: str, bore: float, small: Collection[str]) -> LineEnd:
    found = port_of(plan, name)
    if found is None:
        return LineEnd(name)
    key, vessel, port = found
    floor = floor_of(vessel)
    level = floor + port.level
    breaks = port.siphon_break
    at = floor + breaks.level if breaks is not None and name not in small else None
    if bore <= 0.0 and port.kind not in _CRESTS:
        return LineEnd(key, break_at=at)  # no pipe: water falls in over the crest before it
    return LineEnd(key, level - below(port, bore), at)


def below(port: Port, bore: float) -> float:
    """How far the lower edge of a mouth lies below its level."""
    return 0.0 if port.kind in _CRESTS else bore / 2.0


def ways_of(still: tuple[StillLine, ...]) -> tuple[Way, ...]:
    """Each line in both directions: water goes either way, but for a check valve."""
    found = []
    for one in still:
        crest = max(one.lips, default=-math.inf)
        needs = max(one.start.edge, one.end.edge, crest)
        found += [
            Way(one.start.place, one.end.place, needs, one.start.break_at),
            Way(one.end.place, one.start.place, needs, one.end.break_at, one.line.one_way),
        ]
    return tuple(found)


def held_of(still: tuple[StillLine, ...], running: Running) -> tuple[HeldWater, ...]:
    """What pipes and apparatus hold that carry water as the pumps run.

    A junction's height is not in the plan: lines that meet one are counted as if they hung above all water. What
    stands before a riser stays.
    """
    found = []
    top = max(running.levels.values())
    for one in still:
        line = one.line
        if not carries(running, line.key):
            continue
        low, high = _heights(line, top)
        back = "" if _after_riser(line) >= 0 else one.start.place
        found += [
            HeldWater(run.volume, low, high, back, one.end.place, line.one_way)
            for run in _draining(line)
            if run.volume > 0.0
        ]
    return tuple(found)


def unsaid_of(plan: Plan, lines: Iterable[Line], running: Running) -> tuple[str, ...]:
    """Apparatus that may run out at a stop and of which the plan does not say what it holds."""
    found = {
        run.item.name: None
        for line in lines
        if carries(running, line.key)
        for run in _draining(line)
        if run.item.kind == "apparatus" and plan.apparatus[run.item.name].volume is None
    }
    return tuple(found)


def _after_riser(line: Line) -> int:
    """Place of the last riser in a route; -1 where there is none."""
    return max((at for at, item in enumerate(line.circuit.route) if item.kind == "riser"), default=-1)


def _draining(line: Line) -> list[Run]:
    """Items that do not stay full before a riser."""
    staying = {id(item) for item in line.circuit.route[: max(_after_riser(line), 0)]}
    return [run for run in line.runs if id(run.item) not in staying]


def _heights(line: Line, top: float) -> tuple[float, float]:
    ends = [level for level in (line.start_level, line.end_level) if level is not None]
    high_point = [] if line.circuit.high_point is None else [line.circuit.high_point]
    high = max([*ends, *line.lips, *high_point], default=top)
    if len(ends) < 2:
        return max(high, top), max(high, top)
    return min(ends), high
