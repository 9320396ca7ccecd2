"""Levels that are not to be trusted: before a lip that is drowned from behind, and before what such a level drowns."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import port_of


def doubts_of(plan: Plan, lines: Sequence[Line], running: Running) -> dict[str, str]:
    """Why not to trust the level found in a vessel, by vessel; those that can be trusted are left out."""
    found: dict[str, str] = {}
    for line in lines:
        for key, why in _at_lips(plan, line, running):
            found.setdefault(key, why)
    more = True
    while more:
        more = False
        for line in lines:
            start, end = _vessel(plan, line.circuit.start), _vessel(plan, line.circuit.end)
            if end in found and start and start not in found and _feels(line, running):
                found[start], more = found[end], True
    return found


def _at_lips(plan: Plan, line: Line, running: Running) -> list[tuple[str, str]]:
    """The vessels beside a doubtful lip of a line."""
    state, start, end = running.state, _vessel(plan, line.circuit.start), _vessel(plan, line.circuit.end)
    names = [link.name for link in line.links if link.name in state.doubtful]
    if not names:
        return []
    what = f"water stands above the lip of {line.key} on its far side"
    mend = f"let {line.key} end free, or lower the water behind it"
    if any(state.branch[name] == "shut" for name in names):
        why = f"{what} and would run back over it: {mend}"
        return [(key, why) for key in (start, end) if key]
    why = f"{what}, and what passes it then is not known: {mend}"
    return [(start, why)] if start else []


def _feels(line: Line, running: Running) -> bool:
    """Whether the level behind a line, or its doubt, reaches the water before it."""
    if line.pump is not None:
        return False
    return not line.lips or any(link.name in running.state.drowned for link in line.links)


def _vessel(plan: Plan, name: str) -> str:
    found = port_of(plan, name)
    return "" if found is None else found[0]
