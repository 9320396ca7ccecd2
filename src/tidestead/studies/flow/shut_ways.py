"""Which valves of the plan stand shut in the way of the water."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line
from tidestead.studies.flow.heights import port_of


def shut_in(line: Line) -> tuple[str, ...]:
    """Shut valves of a line, by name."""
    return tuple(run.item.name for run in line.runs if run.item.kind == "valve" and run.lets_nothing)


def shut_beyond(plan: Plan, lines: Sequence[Line], line: Line) -> tuple[str, ...]:
    """Shut valves that keep a line from moving water: its own, else those of every way on, else of every way to it."""
    own = shut_in(line)
    if own:
        return own
    for forward in (True, False):
        found = _every_way(plan, lines, line, forward, {line.key})
        if found:
            return tuple(dict.fromkeys(found))
    return ()


def shut_towards(plan: Plan, lines: Sequence[Line], vessel: str) -> tuple[str, ...]:
    """Shut valves in the lines that end in a vessel, and in what feeds those."""
    ending = [line for line in lines if (end := port_of(plan, line.circuit.end)) and end[0] == vessel]
    found: list[str] = []
    for line in ending:
        found += shut_in(line) or _every_way(plan, lines, line, False, {line.key})
    return tuple(dict.fromkeys(found))


def _every_way(plan: Plan, lines: Sequence[Line], line: Line, forward: bool, seen: set[str]) -> list[str]:
    """Shut valves of all the lines beyond a line's junction; none where one way is open or it ends in a vessel."""
    place = line.circuit.end if forward else line.circuit.start
    if port_of(plan, place) is not None:
        return []
    found: list[str] = []
    for other in _at(lines, place, forward):
        if other.key in seen:
            continue
        seen.add(other.key)
        shut = shut_in(other) or _every_way(plan, lines, other, forward, seen)
        if not shut:
            return []
        found += shut
    return found


def _at(lines: Iterable[Line], place: str, forward: bool) -> list[Line]:
    return [line for line in lines if (line.circuit.start if forward else line.circuit.end) == place]


def named(valves: Sequence[str]) -> str:
    """Valves in words: "valve main", "valves main and basin"."""
    words = " and ".join(valves)
    return f"valve {words}" if len(valves) == 1 else f"valves {words}"
