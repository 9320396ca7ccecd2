"""The water's push on the posts and beams of a box vessel, and the line loads that come from its windows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from tidestead.core.dims import G, Metre, NewtonPerMetre, NewtonPerMetre2
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure._tank_layout import Piece, WallLayout
from tidestead.physics.structure.frame_model import BarLoad, Direction, LineForce
from tidestead.physics.structure.pressure import sloped_depth
from tidestead.physics.structure.tank_spec import SAME_PLACE, BoxFrameSpec, Opening, Side, WallLine


@dataclass(frozen=True)
class _Along:
    """A load that grows evenly between two places of a line: along a wall or up a post."""

    start: Metre
    end: Metre
    load_start: NewtonPerMetre
    load_end: NewtonPerMetre

    def at(self, place: Metre) -> NewtonPerMetre:
        share = (place - self.start) / (self.end - self.start)
        return self.load_start + (self.load_end - self.load_start) * share

    def on(self, pieces: Iterable[Piece], out: Direction) -> Iterator[BarLoad]:
        """The parts of it that lie on the bars of a line, each from one place to another."""
        for bar, first, last in pieces:
            start = self.start if self.start > first else first
            end = self.end if self.end < last else last
            if end - start > 1e-9 * (last - first):
                yield BarLoad(
                    bar, start - first, end - first, _toward(out, self.at(start)), _toward(out, self.at(end))
                )


def _toward(out: Direction, load: NewtonPerMetre) -> LineForce:
    return (out[0] * load, out[1] * load, out[2] * load)


def water_loads(
    spec: BoxFrameSpec, walls: Mapping[Side, WallLayout], pieces: Mapping[str, tuple[Piece, ...]]
) -> Iterator[BarLoad]:
    """The water on every post, sill beam and header.

        w(z) = density * g * b * (h - z)        b: half of a bay beside the post, h: depth at its middle

    Source: elementary hydrostatics; half a bay to each post is common practice, no source.
    Valid:  water at or below the heads of the studs.
    """
    for layout in walls.values():
        for near, far in pairwise(layout.held):
            opening = _opening_between(spec, layout.side, near.at, far.at)
            if opening:
                yield from _round_opening(spec, layout, opening, (near.at, far.at))
                continue
            half = (far.at - near.at) / 2.0
            for station, middle in ((near, near.at + half / 2.0), (far, far.at - half / 2.0)):
                depth = _depth(spec, layout.side, middle)
                if depth > 0.0:
                    push = spec.density * G * half * depth
                    line = _Along(0.0, depth, push, 0.0)
                    yield from line.on(pieces[station.post or ""], layout.out)


def _depth(spec: BoxFrameSpec, side: Side, at: Metre) -> Metre:
    wall = spec.wall(side)
    if wall.depth_start == wall.depth_end:
        return wall.depth_start
    return sloped_depth(wall.depth_start, wall.depth_end, spec.run(side), at)


def _opening_between(spec: BoxFrameSpec, side: Side, near: Metre, far: Metre) -> Opening | None:
    middle = (near + far) / 2.0
    return next((o for o in spec.wall(side).openings if o.start < middle < o.end), None)


def _round_opening(
    spec: BoxFrameSpec, layout: WallLayout, opening: Opening, inside: tuple[Metre, Metre]
) -> Iterator[BarLoad]:
    """What the strips of wall below and above a window hand to its sill beam, its header and the rim.

    `inside` are the places of the posts that stand at its sides.
    """
    gradient = spec.density * G
    depths = [_depth(spec, layout.side, at) for at in inside]
    number = spec.wall(layout.side).openings.index(opening)
    beams = {name for name, _, _ in opening.beams(spec.height)}
    if "sill" in beams:
        low = [_lower_strip(gradient, depth, opening.sill) for depth in depths]
        yield from _Along(*inside, *low).on([(f"{layout.side}.sill.{number}", *inside)], layout.out)
    free = spec.height - opening.head
    if free <= SAME_PLACE or max(depths) <= opening.head:
        return
    rim, header = zip(*(_upper_strip(gradient, depth, opening, free) for depth in depths), strict=True)
    if "header" in beams:
        yield from _Along(*inside, *header).on([(f"{layout.side}.header.{number}", *inside)], layout.out)
    yield from _Along(*inside, *rim).on(layout.rim, layout.out)


def _lower_strip(gradient: NewtonPerMetre2, depth: Metre, sill: Metre) -> NewtonPerMetre:
    """What uprights from base to sill hand to the sill: the head reaction of a stud wholly or partly wet."""
    wet = min(depth, sill)
    over = depth - wet
    return gradient * (over * wet / 2.0 * wet / sill + wet**3 / (6.0 * sill))


def _upper_strip(
    gradient: NewtonPerMetre2, depth: Metre, opening: Opening, free: Metre
) -> tuple[NewtonPerMetre, NewtonPerMetre]:
    """What uprights from header to rim hand to the rim and to the header; all to the rim without a header."""
    wet = max(depth - opening.head, 0.0)
    whole = gradient * wet**2 / 2.0
    rim = whole * wet / (3.0 * free) if opening.header else whole
    return rim, whole - rim


def written_loads(
    spec: BoxFrameSpec, walls: Mapping[Side, WallLayout], pieces: Mapping[str, tuple[Piece, ...]]
) -> Iterator[BarLoad]:
    """The line loads written down for each wall, laid on the bars they belong to.

    Source: geometry.
    Valid:  lines that lie on a post, a rim, a sill beam or a header over their whole length.
    """
    for layout in walls.values():
        lines = spec.wall(layout.side).lines
        beams = tuple(_beams(spec, layout)) if lines else ()
        for line in lines:
            load = _Along(line.start, line.end, line.load_start, line.load_end)
            reach = spec.height if line.runs == "up" else spec.run(layout.side)
            if not -SAME_PLACE < line.start < line.end < reach + SAME_PLACE:
                raise ImpossibleInput(
                    f"{layout.side} wall: a load from {line.start} m to {line.end} m is not on it"
                )
            if line.runs == "up":
                yield from load.on(pieces[_post_at(layout, line)], layout.out)
            else:
                yield from _across(spec, layout, beams, line, load)


def _post_at(layout: WallLayout, line: WallLine) -> str:
    station = min(layout.held, key=lambda held: abs(held.at - line.at))
    if abs(station.at - line.at) >= SAME_PLACE:
        raise ImpossibleInput(f"{layout.side} wall: no post stands {line.at} m along it to take a load")
    return station.post or ""


class _Beam(NamedTuple):
    """A sill beam or a header, as a piece between the posts that stand beside its opening."""

    opening: Opening
    level: Metre
    piece: Piece


def _beams(spec: BoxFrameSpec, layout: WallLayout) -> Iterator[_Beam]:
    for number, opening in enumerate(spec.wall(layout.side).openings):
        beside = _beside(layout, opening)
        for what, _, level in opening.beams(spec.height):
            yield _Beam(opening, level, (f"{layout.side}.{what}.{number}", *beside))


def _across(
    spec: BoxFrameSpec, layout: WallLayout, beams: Iterable[_Beam], line: WallLine, load: _Along
) -> Iterator[BarLoad]:
    if line.at <= SAME_PLACE:
        return  # the base carries it, not the frame
    if line.at >= spec.height - SAME_PLACE:
        yield from load.on(layout.rim, layout.out)
        return
    for opening, level, piece in beams:
        within = opening.start - SAME_PLACE < line.start and line.end < opening.end + SAME_PLACE
        if within and abs(level - line.at) < SAME_PLACE:
            yield from load.on([piece], layout.out)
            return
    raise ImpossibleInput(f"{layout.side} wall: no rim, sill or header lies {line.at} m up to take a load")


def _beside(layout: WallLayout, opening: Opening) -> tuple[Metre, Metre]:
    """Places of the posts that stand at the sides of an opening."""
    start, end = (
        min((station.at for station in layout.held), key=lambda at: abs(at - side))
        for side in (opening.start, opening.end)
    )
    return start, end
