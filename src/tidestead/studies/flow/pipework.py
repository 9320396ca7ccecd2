"""The circuits as pieces between places, for finding what shuts what off: open waters, lips, pipes, named parts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tidestead.physics.flow.isolation import Lip, OpenWater, Piece, PieceKind
from tidestead.plan.model import Plan, Port, Vessel
from tidestead.studies.flow.facts import Line, Run, Running
from tidestead.studies.flow.heights import basin_of, floor_of, place_of, port_of
from tidestead.studies.flow.lines import falls_free

_KINDS: Mapping[str, PieceKind] = {"pipe": "pipe", "fitting": "fitting", "pump": "pump", "apparatus": "unit"}
_LIPS = ("weir", "standpipe")


@dataclass(frozen=True)
class Part:
    """A part that may be taken out: its kind as one says it, and its name in the plan."""

    kind: str
    name: str


@dataclass(frozen=True)
class Pipework:
    """Pieces by names of their own, the part each one is, which line it belongs to, lips, and the open waters."""

    pieces: tuple[Piece, ...]
    parts: Mapping[str, Part]
    owner: Mapping[str, str]
    lips: tuple[Lip, ...]
    waters: Mapping[str, OpenWater]


@dataclass(frozen=True)
class _Bit:
    """A piece to be set between two places: how long it is, and the water in it."""

    name: str
    kind: PieceKind
    part: Part | None
    length: float
    volume: float


def pipework(plan: Plan, lines: tuple[Line, ...], running: Running) -> Pipework:
    """The pieces of all lines in order, between vessels, junctions and places of their own."""
    pieces: list[Piece] = []
    parts: dict[str, Part] = {}
    owner: dict[str, str] = {}
    lips: list[Lip] = []
    for line in lines:
        made = _Layer(plan, line, running)
        made.lay()
        pieces += made.pieces
        lips += made.lips
        parts |= made.parts
        owner |= {piece.name: line.key for piece in made.pieces}
    for piece, part in _stubs(plan, parts):
        pieces.append(piece)
        parts[piece.name] = part
    waters = {
        key: OpenWater(basin_of(plan.vessels[key]), min(level, basin_of(plan.vessels[key]).brim))
        for key, level in running.levels.items()
    }
    return Pipework(tuple(pieces), parts, owner, tuple(lips), waters)


class _Layer:
    """Lays one line: its sections between lips, each a row of pieces."""

    def __init__(self, plan: Plan, line: Line, running: Running) -> None:
        self.plan, self.line, self.running = plan, line, running
        self.start, self.end = port_of(plan, line.circuit.start), port_of(plan, line.circuit.end)
        self.first, self.last = place_of(plan, line.circuit.start), place_of(plan, line.circuit.end)
        self.pieces: list[Piece] = []
        self.lips: list[Lip] = []
        self.parts: dict[str, Part] = {}

    def lay(self) -> None:
        """Everything from the start to the end."""
        line, low, high = self.line, *self._ends()
        place, level = self.first, low
        if self.start is not None and self.start[2].kind in _LIPS:
            place = self._over(place, low, "open")
        sections = list(self._sections())
        for at, (bits, lip) in enumerate(sections):
            final = at == len(sections) - 1
            falls = final and self.end is not None and falls_free(self.end[1], self.end[2])
            to = self.last if final and not falls else f"{line.key}#{'fall' if final else f'top.{at}'}"
            top = high if lip is None else lip
            if bits:
                self._row(bits, (place, to), (level, top), at)
                place = to
            if lip is not None:
                place = self._over(place, lip, f"over.{at}")
            level = top
        if place != self.last:
            self.lips.append(Lip(place, self.last, high))

    def _over(self, source: str, level: float, name: str) -> str:
        place = f"{self.line.key}#{name}"
        self.lips.append(Lip(source, place, level))
        return place

    def _ends(self) -> tuple[float, float]:
        """Levels of both ends. A junction's is not in the plan: that of the line's other end is taken."""
        low, high = self.line.start_level, self.line.end_level
        if low is None and high is None:
            head = self.running.state.heads.get(self.first, 0.0)
            low = head if math.isfinite(head) else 0.0
        start = low if low is not None else high
        end = high if high is not None else low
        return start or 0.0, end or 0.0

    def _sections(self) -> Iterator[tuple[list[_Bit], float | None]]:
        """Rows of pieces, each with the level of the riser it ends at; the last one ends at none."""
        runs = iter([run for run in self.line.runs if run.item.count or run.item.kind != "fitting"])
        bits: list[_Bit] = []
        if self.start is not None and self.start[2].bulkhead is not None and self.start[2].kind not in _LIPS:
            bits.append(_hole(self.line.circuit.start))
        number = 0
        for item in self.line.circuit.route:
            if item.kind == "riser":
                yield bits, item.level
                bits = []
                continue
            bits.append(_bit(self.line.key, number, next(runs)))
            number += 1
        if self.end is not None and self.end[2].bulkhead is not None:
            bits.append(_hole(self.line.circuit.end))
        yield bits, None

    def _row(
        self, bits: list[_Bit], ends: tuple[str, str], levels: tuple[float, float], section: int
    ) -> None:
        """Pieces one after the other between two places."""
        heights = self._heights(bits, *levels)
        for at, bit in enumerate(bits):
            begin = ends[0] if at == 0 else f"{self.line.key}#{section}.{at}"
            finish = ends[1] if at == len(bits) - 1 else f"{self.line.key}#{section}.{at + 1}"
            self.pieces.append(
                Piece(bit.name, bit.kind, begin, finish, heights[at], heights[at + 1], bit.volume)
            )
            if bit.part is not None:
                self.parts[bit.name] = bit.part

    def _heights(self, bits: list[_Bit], low: float, high: float) -> list[float]:
        """Levels of the joints: up or down to the pump, which stands where the plan says, else as low as the start."""
        lengths = [bit.length for bit in bits]
        at = next((at for at, bit in enumerate(bits) if bit.kind == "pump"), None)
        if at is None:
            return _climb(lengths, low, high)
        said = self.plan.pumps[self.line.pump].level if self.line.pump is not None else None
        stands = said if said is not None else low
        return [*_climb(lengths[:at], low, stands), *_climb(lengths[at + 1 :], stands, high)]


def _climb(lengths: list[float], low: float, high: float) -> list[float]:
    """Levels between pieces that rise evenly with their length, from one level to another."""
    total, gone, found = sum(lengths) or 1.0, 0.0, [low]
    for length in lengths:
        gone += length
        found.append(low + (high - low) * gone / total)
    return [*found[:-1], high] if lengths else found


def _hole(port: str) -> _Bit:
    return _Bit(f"bulkhead {port}", "bulkhead", Part("bulkhead", port), 0.0, 0.0)


def _bit(key: str, number: int, run: Run) -> _Bit:
    item = run.item
    if item.kind == "valve":
        kind: PieceKind = "check valve" if run.checks else "valve"
        return _Bit(f"valve {item.name}", kind, Part(kind, item.name), 0.0, 0.0)
    if item.kind in ("pump", "apparatus"):
        part = Part(item.kind, item.name)
        return _Bit(f"{item.kind} {item.name}", _KINDS[item.kind], part, 0.0, run.volume)
    return _Bit(f"{key}.{number}", _KINDS[item.kind], None, item.length, run.volume)


def _stubs(plan: Plan, parts: Mapping[str, Part]) -> Iterator[tuple[Piece, Part]]:
    """Fittings through walls that no line's water stands behind: capped ones, and those that a standpipe stands in."""
    for key, vessel in plan.vessels.items():
        for name, port in vessel.ports.items():
            bit = _hole(f"{key}.{name}")
            if port.bulkhead is None or bit.name in parts or bit.part is None:
                continue
            level = _hole_level(vessel, port)
            yield Piece(bit.name, bit.kind, key, f"{key}.{name}#capped", level, level), bit.part


def _hole_level(vessel: Vessel, port: Port) -> float:
    """Of a standpipe's hole only its lip is known: it is taken to be at the floor."""
    deep = port.kind in _LIPS or (port.bulkhead is not None and port.bulkhead.wall == "floor")
    return floor_of(vessel) + (0.0 if deep else port.level)
