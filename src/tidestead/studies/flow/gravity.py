"""Lines through which vessels run out by their own weight."""

from __future__ import annotations

import math
from collections.abc import Iterable

from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line
from tidestead.studies.flow.heights import port_of


def gravity_lines(plan: Plan, lines: tuple[Line, ...], key: str) -> tuple[Line, ...]:
    """Lines through which a vessel runs out by itself."""
    suctions = {
        one.key for line in lines if line.pump is not None for one in drawn_through(plan, lines, line)
    }
    return tuple(
        line
        for line in lines
        if line.pump is None
        and not line.shut
        and line.key not in suctions
        and (start := port_of(plan, line.circuit.start)) is not None
        and start[0] == key
    )


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
            if other.circuit.end == line.circuit.start and other.key not in seen and not other.shut:
                seen.add(other.key)
                queue.append(other)
    return found


def leads_to(plan: Plan, lines: Iterable[Line], first: Line, without: str = "") -> set[str]:
    """Vessels and outfalls that the water of a line may come to, through junctions; `without` one other line."""
    ways = [line for line in lines if not line.shut and line.key != without]
    found, queue, seen = set(), [first], {first.key}
    while queue:
        end = queue.pop().circuit.end
        vessel = port_of(plan, end)
        onward = [line for line in ways if line.circuit.start == end and line.key not in seen]
        if vessel is not None:
            found.add(vessel[0])
        elif end in plan.outfalls:
            found.add(end)
        seen |= {line.key for line in onward}
        queue += onward
    return found


def onward_of(lines: tuple[Line, ...], ways: Iterable[Line]) -> list[Line]:
    """Lines without a pump that carry on what comes to junctions through some ways."""
    found: dict[str, Line] = {}
    queue = list(ways)
    while queue:
        end = queue.pop().circuit.end
        for line in lines:
            if line.circuit.start == end and line.key not in found and line.pump is None and not line.shut:
                found[line.key] = line
                queue.append(line)
    return list(found.values())


def top_of(line: Line) -> float:
    """Level over which a line must be reached: its lips, else its mouth."""
    mouth = line.start_level if line.start_level is not None else -math.inf
    return max([mouth, *line.lips])
