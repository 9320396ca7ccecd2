"""Shutting off: for every pump, valve, apparatus, bulkhead and vessel, which valves, what is lost, what still runs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow.isolation import (
    Isolation,
    OpenWater,
    Piece,
    PieceKind,
    isolation,
    vessel_isolation,
)
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Run, Running
from tidestead.studies.flow.heights import basin_of, port_of
from tidestead.studies.flow.lines import falls_free
from tidestead.studies.flow.solving import tried

_KINDS: Mapping[str, PieceKind] = {"pipe": "pipe", "fitting": "fitting", "pump": "pump", "apparatus": "unit"}


@dataclass(frozen=True)
class ShutFacts:
    """What taking out one part takes. `remains` is the share of the displays' inflow that still runs; None unknown."""

    kind: str
    name: str
    words: str
    isolation: Isolation
    remains: float | None


@dataclass(frozen=True)
class Pipework:
    """Pieces, which line each belongs to, and the open waters."""

    pieces: tuple[Piece, ...]
    owner: Mapping[str, str]
    waters: Mapping[str, OpenWater]


def shut_facts(
    plan: Plan, lines: tuple[Line, ...], fixed: Mapping[str, float], running: Running
) -> tuple[ShutFacts, ...]:
    """Every part worth taking out."""
    work = pipework(plan, lines, running)
    remaining = _Remaining(plan, lines, fixed, running)
    found = []
    for kind, name, words in _parts(work):
        try:
            if kind == "vessel":
                cut = vessel_isolation(work.pieces, work.waters, name)
            else:
                cut = isolation(work.pieces, work.waters, name)
        except ImpossibleInput:
            continue
        gone = {work.owner[piece] for piece in (*cut.section, *cut.valves) if piece in work.owner}
        if kind == "vessel":
            gone |= {line.key for line in lines if name in _vessels_of(plan, line)}
        found.append(ShutFacts(kind, name, words, cut, remaining.without(frozenset(gone))))
    return tuple(found)


def _vessels_of(plan: Plan, line: Line) -> set[str]:
    ends = (port_of(plan, name) for name in (line.circuit.start, line.circuit.end))
    return {found[0] for found in ends if found is not None}


def _parts(work: Pipework) -> Iterable[tuple[str, str, str]]:
    for piece in work.pieces:
        if piece.kind in ("pump", "valve", "check valve", "unit", "bulkhead"):
            kind = "apparatus" if piece.kind == "unit" else piece.kind
            yield kind, piece.name, piece.name
    for key in work.waters:
        yield "vessel", key, key


@dataclass
class _Remaining:
    """Flow that is left without some lines; each set of lines is solved once."""

    plan: Plan
    lines: tuple[Line, ...]
    fixed: Mapping[str, float]
    running: Running
    known: dict[frozenset[str], float | None] = field(default_factory=dict)

    def without(self, gone: frozenset[str]) -> float | None:
        left = _pruned(self.plan, [line for line in self.lines if line.key not in gone], self.fixed)
        key = frozenset(line.key for line in left)
        if key not in self.known:
            self.known[key] = self._share(left)
        return self.known[key]

    def _share(self, left: Sequence[Line]) -> float | None:
        targets = _targets(self.plan, self.running)
        whole = sum(self.running.inflow.get(key, 0.0) for key in targets)
        if not any(line.pump is not None for line in left):
            return 0.0
        running = tried(self.plan, left, self.fixed)
        if running is None or whole <= 0.0:
            return None
        return sum(running.inflow.get(key, 0.0) for key in targets) / whole


def _targets(plan: Plan, running: Running) -> list[str]:
    """Displays; without one, all vessels but the sumps."""
    shown = [key for key in running.inflow if plan.vessels[key].role == "display"]
    return shown or [key for key in running.inflow if plan.vessels[key].role != "sump"]


def _pruned(plan: Plan, lines: list[Line], fixed: Mapping[str, float]) -> list[Line]:
    """Lines without those that have become dead ends or would fill a vessel with no way out."""
    while True:
        kept = [
            line for line in lines if _goes_on(plan, line, lines, fixed) and _is_fed(plan, line, lines, fixed)
        ]
        if len(kept) == len(lines):
            return kept
        lines = kept


def _place(plan: Plan, name: str) -> str:
    found = port_of(plan, name)
    return name if found is None else found[0]


def _goes_on(plan: Plan, line: Line, lines: list[Line], fixed: Mapping[str, float]) -> bool:
    end = _place(plan, line.circuit.end)
    return end in fixed or any(_place(plan, other.circuit.start) == end for other in lines)


def _is_fed(plan: Plan, line: Line, lines: list[Line], fixed: Mapping[str, float]) -> bool:
    start = _place(plan, line.circuit.start)
    return start in fixed or any(_place(plan, other.circuit.end) == start for other in lines)


def pipework(plan: Plan, lines: tuple[Line, ...], running: Running) -> Pipework:
    """The pieces of all lines in order, between vessels, junctions and places of their own."""
    pieces: list[Piece] = []
    owner: dict[str, str] = {}
    for line in lines:
        for piece in _pieces(plan, line, running):
            pieces.append(piece)
            owner[piece.name] = line.key
    waters = {
        key: OpenWater(basin_of(plan.vessels[key]), min(level, basin_of(plan.vessels[key]).brim))
        for key, level in running.levels.items()
    }
    return Pipework(tuple(pieces), owner, waters)


def _pieces(plan: Plan, line: Line, running: Running) -> list[Piece]:
    start, end = port_of(plan, line.circuit.start), port_of(plan, line.circuit.end)
    first, last = _place(plan, line.circuit.start), _place(plan, line.circuit.end)
    if start is not None and start[2].kind == "weir":
        first = f"{line.key}#open"
    if end is not None and falls_free(end[1], end[2]):
        last = f"{line.key}#fall"
    low = line.start_level if line.start_level is not None else _head(running, first, line.end_level)
    high = line.end_level if line.end_level is not None else _head(running, last, low)
    named: list[tuple[str, PieceKind, float, float]] = []
    if start is not None and start[2].bulkhead is not None:
        named.append((line.circuit.start, "bulkhead", 0.0, 0.0))
    named += [
        _piece(line, at, run)
        for at, run in enumerate(line.runs)
        if run.item.count or run.item.kind != "fitting"
    ]
    if end is not None and end[2].bulkhead is not None:
        named.append((line.circuit.end, "bulkhead", 0.0, 0.0))
    total = sum(length for _, _, length, _ in named) or 1.0
    found, gone = [], 0.0
    for at, (name, kind, length, volume) in enumerate(named):
        begin = first if at == 0 else f"{line.key}#{at}"
        finish = last if at == len(named) - 1 else f"{line.key}#{at + 1}"
        below = low + (high - low) * gone / total
        gone += length
        found.append(Piece(name, kind, begin, finish, below, low + (high - low) * gone / total, volume))
    return found


def _head(running: Running, node: str, fallback: float | None) -> float:
    """Height of a junction: it is not in the plan, so the level of the line's other end is taken."""
    if fallback is not None:
        return fallback
    head = running.state.heads.get(node, 0.0)
    return head if math.isfinite(head) else 0.0


def _piece(line: Line, at: int, run: Run) -> tuple[str, PieceKind, float, float]:
    """Name, kind, length and volume of one run."""
    item = run.item
    if item.kind == "valve":
        return item.name, "check valve" if run.checks else "valve", 0.0, 0.0
    if item.kind in ("pump", "apparatus"):
        return item.name, _KINDS[item.kind], 0.0, run.volume
    return f"{line.key}.{at}", _KINDS[item.kind], item.length, run.volume
