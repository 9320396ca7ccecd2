"""From parts on a board to the cuts that part them, in order, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from tidestead.build.cutting.sheet_job import NANO, Layout, Spot
from tidestead.build.cutting.sheet_types import Cut, OffCut, SheetSaw


class _Piece(NamedTuple):
    """What is in hand between two cuts, one kerf larger each way, with the parts in it."""

    x: int
    y: int
    along: int
    across: int
    spots: tuple[Spot, ...]


class _Line(NamedTuple):
    """Where to cut a piece: how far along (upright) or across (level) the nearer piece reaches."""

    upright: bool
    at: int


class Sawn(NamedTuple):
    """Cuts in order and off-cuts, largest first. None of either where no saw can part the parts."""

    cuts: tuple[Cut, ...] = ()
    offcuts: tuple[OffCut, ...] = ()


class _Work:
    """A board being cut."""

    def __init__(self, kerf: int, trim: float) -> None:
        self.kerf, self.trim = kerf, trim
        self.cuts: list[Cut] = []
        self.offcuts: list[OffCut] = []

    def part(self, piece: _Piece) -> bool:
        """Cut a piece until every part lies alone. False where that cannot be done."""
        waiting = [piece]
        while waiting:
            piece = waiting.pop()
            if not piece.spots:
                self._leave(piece)
            elif not _done(piece):
                line = _best_line(piece, self.kerf)
                if line is None:
                    return False
                nearer, farther = _halves(piece, line)
                self._saw(piece, line)
                waiting += [farther, nearer]
        return True

    def _saw(self, piece: _Piece, line: _Line) -> None:
        """The cut ends where the piece does; sizes here are one kerf more than the wood."""
        x0, y0 = piece.x, piece.y
        x1, y1 = piece.x + piece.along - self.kerf, piece.y + piece.across - self.kerf
        if line.upright:
            x0 = x1 = line.at - self.kerf
        else:
            y0 = y1 = line.at - self.kerf
        self.cuts.append(Cut(len(self.cuts) + 1, *map(self._metres, (x0, y0, x1, y1))))

    def _leave(self, piece: _Piece) -> None:
        along, across = piece.along - self.kerf, piece.across - self.kerf
        if along > 0 and across > 0:
            self.offcuts.append(
                OffCut(self._metres(piece.x), self._metres(piece.y), along / NANO, across / NANO)
            )

    def _metres(self, place: int) -> float:
        """From the trimmed corner to the sheet's own."""
        return self.trim + place / NANO


def sawn(layout: Layout, kerf: int, saw: SheetSaw) -> Sawn:
    """How a board is cut. An off-cut is cut off first where there is one, the largest first; then parts are parted."""
    work = _Work(kerf, saw.trim)
    if not work.part(_Piece(0, 0, layout.board.along, layout.board.across, layout.spots)):
        return Sawn()
    return Sawn(tuple(work.cuts), tuple(sorted(work.offcuts, key=lambda one: -one.area)))


def _done(piece: _Piece) -> bool:
    """Whether a piece is one part and no more."""
    lay = piece.spots[0].lay
    return len(piece.spots) == 1 and (lay.along, lay.across) == (piece.along, piece.across)


def _best_line(piece: _Piece, kerf: int) -> _Line | None:
    """The largest clean off-cut, else the first line between parts, along the sheet before across it."""
    left = [(area, line) for area, line in _edges(piece, kerf) if area > 0]
    if left:
        return max(left, key=lambda one: one[0])[1]
    return next(_between(piece), None)


def _edges(piece: _Piece, kerf: int) -> Iterator[tuple[int, _Line]]:
    """The sides of the box round all parts, each with the area beyond it; a near side only with room for the blade."""
    low_x, low_y = min(spot.x for spot in piece.spots), min(spot.y for spot in piece.spots)
    top_x = max(spot.x + spot.lay.along for spot in piece.spots)
    top_y = max(spot.y + spot.lay.across for spot in piece.spots)
    yield (piece.x + piece.along - top_x) * piece.across, _Line(upright=True, at=top_x)
    yield (piece.y + piece.across - top_y) * piece.along, _Line(upright=False, at=top_y)
    if low_x - piece.x >= kerf:
        yield (low_x - piece.x) * piece.across, _Line(upright=True, at=low_x)
    if low_y - piece.y >= kerf:
        yield (low_y - piece.y) * piece.along, _Line(upright=False, at=low_y)


def _between(piece: _Piece) -> Iterator[_Line]:
    """Lines that no part crosses."""
    spots = piece.spots
    for at in _clear([(spot.x, spot.x + spot.lay.along) for spot in spots]):
        yield _Line(upright=True, at=at)
    for at in _clear([(spot.y, spot.y + spot.lay.across) for spot in spots]):
        yield _Line(upright=False, at=at)


def _clear(spans: Sequence[tuple[int, int]]) -> Iterator[int]:
    """Starts of spans that no span before them reaches over: the farther piece then begins with its parts."""
    reach = None
    for start, end in sorted(spans):
        if reach is not None and start >= reach:
            yield start
        reach = end if reach is None else max(reach, end)


def _halves(piece: _Piece, line: _Line) -> tuple[_Piece, _Piece]:
    """The piece nearer to the corner, and the other."""
    if line.upright:
        near = tuple(spot for spot in piece.spots if spot.x < line.at)
        far = tuple(spot for spot in piece.spots if spot.x >= line.at)
        size = line.at - piece.x
        return (
            _Piece(piece.x, piece.y, size, piece.across, near),
            _Piece(line.at, piece.y, piece.along - size, piece.across, far),
        )
    near = tuple(spot for spot in piece.spots if spot.y < line.at)
    far = tuple(spot for spot in piece.spots if spot.y >= line.at)
    size = line.at - piece.y
    return (
        _Piece(piece.x, piece.y, piece.along, size, near),
        _Piece(piece.x, line.at, piece.along, piece.across - size, far),
    )
