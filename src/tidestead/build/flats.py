"""Parts as they lie flat before they are cut out: outline, openings, holes, grain, mark; true to size, in metres."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from tidestead.build.lists import Hole, Outline, Piece, SheetPart, TakenOff
from tidestead.build.materials import Rows, shipped, thickness_of, title_of
from tidestead.build.notches import notched
from tidestead.build.timber_sizes import end_loss, section_words
from tidestead.core.errors import ImpossibleInput
from tidestead.core.units import show

if TYPE_CHECKING:
    from tidestead.core.dims import Metre, Radian
    from tidestead.core.scene import Point
    from tidestead.core.units import System

Grain = Literal["", "level", "upright"]


@dataclass(frozen=True)
class Flat:
    """One part with its lower left corner at nought. `told` are lines of words to stand beside it."""

    mark: str
    outline: Outline
    openings: tuple[Outline, ...] = ()
    holes: tuple[Hole, ...] = ()
    grain: Grain = ""
    told: tuple[str, ...] = ()

    @property
    def width(self) -> Metre:
        return max(x for x, _ in self.outline)

    @property
    def height(self) -> Metre:
        return max(y for _, y in self.outline)


def flats_of(taken: TakenOff, system: System, rows: Rows = shipped) -> tuple[Flat, ...]:
    """Every sheet part, and the timber pieces whose ends are not square, such as segments of a tower's rings."""
    mitred = (piece for piece in taken.pieces if any(piece.ends))
    return (
        *(flat_part(part, system, rows) for part in taken.parts),
        *(flat_piece(piece, system, rows) for piece in mitred),
    )


def flat_part(part: SheetPart, system: System, rows: Rows = shipped) -> Flat:
    """A sheet part as it is built in, seen from the side that its outline was measured from."""
    outline, openings = notched(part.outline or rectangle(part.width, part.height), part.openings)
    grain: Grain = "" if part.item.sort == "clear" else "level" if part.level == "along" else "upright"
    thick = thickness_of(part.item, rows)
    size = _by([part.width, part.height, *([thick] if thick else [])], system)
    words = [title_of(part.item, rows), part.edges]
    told = (counted(part.mark, part.count), size, *filter(None, words))
    return Flat(part.mark, outline, openings, part.holes, grain, told)


def flat_piece(piece: Piece, system: System, rows: Rows = shipped) -> Flat:
    """A timber piece on its wide face, its long edge below."""
    section = f"{section_words(piece.item, system)} {title_of(piece.item, rows)}"
    told = (
        counted(piece.mark, piece.count),
        _by([piece.length], system),
        section,
        *filter(None, [piece.holes]),
    )
    outline = mitred(piece.length, piece.item.sizes[1], piece.ends)
    return Flat(piece.mark, outline, (), (), "level", told)


def rectangle(width: Metre, height: Metre) -> Outline:
    """Corners counter-clockwise from the lower left."""
    return (0.0, 0.0), (width, 0.0), (width, height), (0.0, height)


def mitred(length: Metre, width: Metre, ends: tuple[Radian, Radian]) -> Outline:
    """The wide face of a piece that is so long from point to point.

    An end that is cut off square by a positive angle has its point on the lower edge, by a negative one on the upper.
    Raises ImpossibleInput where the cuts leave nothing.
    """
    corners = list(rectangle(length, width))
    left, right = (end_loss(width, end) for end in ends)
    if left:
        corners = _kept(corners, (0.0, left) if ends[0] > 0.0 else (left, 0.0), width, 1.0)
    if right:
        low, high = (0.0, right) if ends[1] > 0.0 else (right, 0.0)
        corners = _kept(corners, (length - low, length - high), width, -1.0)
    if len(corners) < 3:
        raise ImpossibleInput(
            f"a piece {length:g} m long and {width:g} m wide cannot be cut off square by so much at both ends"
        )
    return tuple(corners)


def _kept(corners: list[Point], line: tuple[Metre, Metre], width: Metre, side: float) -> list[Point]:
    """What is left of a piece on one side (1: right, -1: left) of a cut from the lower edge to the upper."""
    low, high = line

    def beyond(corner: Point) -> float:
        return side * (corner[0] - low - (high - low) * corner[1] / width)

    kept: list[Point] = []
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        here, there = beyond(one), beyond(other)
        if here >= 0.0:
            kept.append(one)
        if here * there < 0.0:
            share = here / (here - there)
            kept.append((one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])))
    return kept


def counted(mark: str, count: int) -> str:
    """A mark with how many there are of it."""
    return mark if count == 1 else f"{mark}, {count} off"


def file_stems(marks: Iterable[str]) -> list[str]:
    """A safe file name for each mark, without its ending; marks that come to the same, on a disk that
    does not tell capitals from small letters, are numbered.
    """
    taken: dict[str, str] = {}
    for mark in marks:
        stem = re.sub(r"[^A-Za-z0-9._-]+", "-", mark).strip(".-") or "part"
        name, number = stem, 1
        while name.lower() in taken:
            number += 1
            name = f"{stem}-{number}"
        taken[name.lower()] = name
    return list(taken.values())


def _by(sizes: list[float], system: System) -> str:
    return " x ".join(show(size, "m", system, "sheet") for size in sizes)
