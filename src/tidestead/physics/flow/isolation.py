"""Which valves shut off a part of the pipework, what is lost when it is opened, and what still runs meanwhile.

The pipework is a graph: pieces between named places, some of them open waters. Valves can be shut; check valves
are not trusted to hold.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.dims import CubicMetre, Metre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow.draining import Basin, volume_at
from tidestead.physics.flow.runback import share_above

PieceKind: TypeAlias = Literal["pipe", "valve", "check valve", "pump", "bulkhead", "fitting", "unit"]


@dataclass(frozen=True)
class Piece:
    """A piece of pipework between two places, the level of each end, and the water in it.

    An end at an open water is that water's mouth: the vessel cannot run out through it below this level (the siphon
    break's, where that is trusted).
    """

    name: str
    kind: PieceKind
    start: str
    end: str
    start_level: Metre
    end_level: Metre
    volume: CubicMetre = 0.0

    @property
    def low(self) -> Metre:
        """Level of its lower end."""
        return min(self.start_level, self.end_level)

    @property
    def high(self) -> Metre:
        """Level of its higher end."""
        return max(self.start_level, self.end_level)

    def level_at(self, place: str) -> Metre:
        """Level of the end at a place."""
        return self.start_level if place == self.start else self.end_level

    def other_end(self, place: str) -> str:
        """The place at the other end."""
        return self.end if place == self.start else self.start


@dataclass(frozen=True)
class OpenWater:
    """A vessel at a place of the graph, and the level its water stands at."""

    basin: Basin
    level: Metre


@dataclass(frozen=True)
class Isolation:
    """What opening one piece, or emptying one vessel, takes.

    `valves` to shut; `drains` are the vessels that would still run out, each down to its level in `down_to`; `lost`
    the water that comes out of the pipes between and out of those vessels; `pumps` must be off; `serviceable` says
    that no vessel drains.
    """

    name: str
    valves: tuple[str, ...]
    pumps: tuple[str, ...]
    drains: tuple[str, ...]
    section: tuple[str, ...]
    lost: CubicMetre
    serviceable: bool
    down_to: tuple[Metre, ...] = ()


def isolation(pieces: Sequence[Piece], waters: Mapping[str, OpenWater], name: str) -> Isolation:
    """Which valves shut one piece off, and what is lost when it is opened at its lowest point.

        from both its ends on through everything but valves, up to open waters
        lost = water of those pieces above the opening + vessels down to the higher of mouth and opening

    Source: search of the graph, breadth first.
    Valid:  valves that hold; siphons over a rise counted as running, air let in at the top would stop them.
    """
    piece = _named(pieces, name)
    section, valves, mouths = _reached(pieces, waters, (piece.start, piece.end), piece)
    opening = piece.low
    drained = [
        (place, max(mouth, opening)) for place, mouth in mouths if waters[place].level > max(mouth, opening)
    ]
    lost = sum(inner.volume * share_above(inner.low, inner.high, opening) for inner in section)
    lost += sum(_down_to(waters[place], level) for place, level in _lowest(drained).items())
    return _found(name, section, valves, drained, lost)


def vessel_isolation(pieces: Sequence[Piece], waters: Mapping[str, OpenWater], place: str) -> Isolation:
    """Which valves shut one vessel off so that it can be emptied while the rest stays full.

        from each of its mouths on through everything but valves, up to other open waters
        lost = the vessel, the pipes up to the valves, other vessels down to their mouths

    Source: search of the graph, breadth first.
    Valid:  as isolation; weirs and free falls into the vessel are not pieces: see `fed_by`.
    """
    if place not in waters:
        raise ImpossibleInput(f'there is no open water "{place}"')
    water = waters[place]
    section, valves, mouths = _reached(pieces, waters, (place,), None)
    drained = [
        (other, max(mouth, water.basin.floor))
        for other, mouth in mouths
        if other != place and waters[other].level > max(mouth, water.basin.floor)
    ]
    lost = float(volume_at(water.basin, water.level)) + sum(inner.volume for inner in section)
    lost += sum(_down_to(waters[other], level) for other, level in _lowest(drained).items())
    return _found(place, section, valves, drained, lost)


@dataclass(frozen=True)
class Lip:
    """A crest over which water falls one way: from a place, a vessel or the top of a riser, to another place."""

    source: str
    place: str
    level: Metre


@dataclass(frozen=True)
class Feed:
    """What brings water to a place against which nothing but these helps: `valves` to shut, `pumps` to stop.

    `vessels` give what stands above their mouths or lips, down to the level beside each, and no more.
    """

    valves: tuple[str, ...]
    pumps: tuple[str, ...]
    vessels: tuple[tuple[str, Metre], ...]


def fed_by(
    pieces: Sequence[Piece], lips: Sequence[Lip], waters: Mapping[str, OpenWater], places: Sequence[str]
) -> Feed:
    """What must be stopped so that nothing more comes to some places.

        from each place back, against the way of the water and over lips, up to the first valve or pump;
        a vessel on the way gives what stands above its mouth, and is followed back too

    Source: search of the graph, breadth first.
    Valid:  pieces drawn the way the water goes; check valves pass it.
    """
    valves: dict[str, None] = {}
    pumps: dict[str, None] = {}
    vessels: dict[str, Metre] = {}
    queue = [(place, place, -math.inf) for place in dict.fromkeys(places)]
    seen = {place for place, _, _ in queue}
    while queue:
        place, first, above = queue.pop(0)
        steps = [(lip.source, max(above, lip.level)) for lip in lips if lip.place == place]
        for piece in pieces:
            if piece.end != place:
                continue
            if piece.kind in ("valve", "pump"):
                (valves if piece.kind == "valve" else pumps)[piece.name] = None
                continue
            steps.append((piece.start, max(above, piece.start_level if piece.start in waters else above)))
        for back, level in steps:
            if back in waters and back != first:
                vessels[back] = min(level, vessels.get(back, math.inf))
            if back not in seen:
                seen.add(back)
                queue.append((back, first, -math.inf if back in waters else level))
    gives = tuple((key, level) for key, level in vessels.items() if waters[key].level > level)
    return Feed(tuple(valves), tuple(pumps), gives)


def still_flowing(
    pieces: Sequence[Piece], waters: Mapping[str, OpenWater], shut: Sequence[str]
) -> tuple[str, ...]:
    """The pieces that can still carry water while some are shut or taken out, in their order.

        pieces left once dead ends are struck off one after another; open waters are no dead ends

    Source: search of the graph.
    Valid:  says what may flow, not how much: solve the network for that.
    """
    closed = set(shut)
    for name in closed:
        _named(pieces, name)
    left = [piece for piece in pieces if piece.name not in closed]
    while True:
        counts: dict[str, int] = {}
        for piece in left:
            counts[piece.start] = counts.get(piece.start, 0) + 1
            counts[piece.end] = counts.get(piece.end, 0) + 1
        kept = [
            piece
            for piece in left
            if all(counts[end] > 1 or end in waters for end in (piece.start, piece.end))
        ]
        if len(kept) == len(left):
            return tuple(piece.name for piece in kept)
        left = kept


def _named(pieces: Sequence[Piece], name: str) -> Piece:
    found = [piece for piece in pieces if piece.name == name]
    if len(found) != 1:
        raise ImpossibleInput(f'there {"is no piece" if not found else "are several pieces"} named "{name}"')
    return found[0]


def _reached(
    pieces: Sequence[Piece], waters: Mapping[str, OpenWater], starts: tuple[str, ...], opened: Piece | None
) -> tuple[list[Piece], list[str], list[tuple[str, Metre]]]:
    """Pieces in free touch with the starting places, valves that bound them, and mouths of open waters met."""
    touching: dict[str, list[Piece]] = {}
    for piece in pieces:
        for place in {piece.start, piece.end}:
            touching.setdefault(place, []).append(piece)
    section: list[Piece] = []
    valves: list[str] = []
    mouths: list[tuple[str, Metre]] = []
    queue = list(starts)
    if opened is not None:
        section.append(opened)
        mouths += [(place, opened.level_at(place)) for place in starts if place in waters]
        queue = [place for place in starts if place not in waters]
    seen = {*starts}
    while queue:
        place = queue.pop(0)
        for piece in touching.get(place, ()):
            if piece in section or piece.name in valves:
                continue
            if piece.kind == "valve":
                valves.append(piece.name)
                continue
            section.append(piece)
            beyond = piece.other_end(place)
            if beyond in waters and not (opened is None and beyond in starts):
                mouths.append((beyond, piece.level_at(beyond)))
            elif beyond not in seen:
                seen.add(beyond)
                queue.append(beyond)
    return section, valves, mouths


def _lowest(drained: Iterable[tuple[str, Metre]]) -> dict[str, Metre]:
    lowest: dict[str, Metre] = {}
    for place, level in drained:
        lowest[place] = min(level, lowest.get(place, level))
    return lowest


def _down_to(water: OpenWater, level: Metre) -> CubicMetre:
    return float(volume_at(water.basin, water.level) - volume_at(water.basin, level))


def _found(
    name: str, section: list[Piece], valves: list[str], drained: list[tuple[str, Metre]], lost: CubicMetre
) -> Isolation:
    lowest = _lowest(drained)
    drains = tuple(sorted(lowest))
    return Isolation(
        name=name,
        valves=tuple(valves),
        pumps=tuple(_pumps(section)),
        drains=drains,
        section=tuple(piece.name for piece in section),
        lost=float(lost),
        serviceable=not drains,
        down_to=tuple(lowest[place] for place in drains),
    )


def _pumps(section: Iterable[Piece]) -> Iterator[str]:
    return (piece.name for piece in section if piece.kind == "pump")
