"""Lines through which vessels run out by their own weight."""

from __future__ import annotations

import math
from collections.abc import Iterable

from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line
from tidestead.studies.flow.heights import port_of
from tidestead.studies.flow.solving import is_shut


def gravity_lines(plan: Plan, lines: tuple[Line, ...], key: str) -> tuple[Line, ...]:
    """Lines through which a vessel runs out by itself."""
    found = []
    for line in lines:
        start = port_of(plan, line.circuit.start)
        if start is not None and start[0] == key and line.pump is None and not is_shut(line):
            found.append(line)
    return tuple(line for line in found if not _feeds_pump(plan, lines, line))


def _feeds_pump(plan: Plan, lines: tuple[Line, ...], line: Line) -> bool:
    """Whether the line ends at a junction from which a pump draws."""
    if port_of(plan, line.circuit.end) is not None:
        return False
    return any(other.pump is not None and other.circuit.start == line.circuit.end for other in lines)


def drawn_through(plan: Plan, lines: Iterable[Line], pumped: Line) -> list[Line]:
    """Lines that begin at a vessel and through which a pump's line draws: itself, or those that meet at its start."""
    every, found = list(lines), []
    queue, seen = [pumped], {pumped.key}
    while queue:
        line = queue.pop()
        if port_of(plan, line.circuit.start) is not None:
            found.append(line)
            continue
        for other in every:
            if other.circuit.end == line.circuit.start and other.key not in seen:
                seen.add(other.key)
                queue.append(other)
    return found


def top_of(line: Line) -> float:
    """Level over which a line must be reached: its lips, else its mouth."""
    mouth = line.start_level if line.start_level is not None else -math.inf
    return max([mouth, *line.lips])
