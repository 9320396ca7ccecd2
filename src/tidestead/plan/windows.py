"""Whether windows lie within their wall, beside each other, and are described without contradiction."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, islice

from tidestead.plan.merging import SHARED
from tidestead.plan.model import BOX_WALLS
from tidestead.plan.seen import HAIR, Misfit, Seen
from tidestead.plan.statements import Path

MOST_WINDOWS = 100
"""In one wall, that are looked at for place."""


@dataclass(frozen=True)
class _Sheet:
    """A window's sheet on its wall, in metres from the wall's left end and the vessel floor."""

    path: Path
    left: float
    bottom: float
    width: float
    height: float

    def overlaps(self, other: _Sheet) -> bool:
        across = min(self.left + self.width, other.left + other.width) - max(self.left, other.left)
        up = min(self.bottom + self.height, other.bottom + other.height) - max(self.bottom, other.bottom)
        return across > HAIR and up > HAIR


def window_misfits(vessel: Seen, names: tuple[str, ...]) -> Iterator[Misfit]:
    """Every window that does not fit its wall or its neighbour, or says two things at once.

    `names` are the walls the vessel has; windows of a wall it has not cannot be placed.
    """
    walls = vessel.under("walls")
    for _, wall in vessel.parts("walls"):
        for _, window in wall.parts("windows"):
            yield from _contradictions(window)
    for name in names:
        yield from _placed(vessel, name, walls.under(name), walls.under(SHARED))


def _contradictions(window: Seen) -> Iterator[Misfit]:
    if window.has("plies") and window.has("thickness"):
        advice = "Keep thickness for one sheet, plies for laminated glass."
        yield Misfit((*window.path, "plies"), "stands beside a thickness.", advice)
    sill = window.length("sill")
    if sill is not None and sill < -HAIR:
        yield Misfit((*window.path, "sill"), "is below the vessel floor.", "Count up from the floor.")
    edges = window.under("edges")
    for edge in ("left", "right", "bottom"):
        if edges.word(edge) == "rim":
            advice = 'Write "seat", "held", "clamped" or "free".'
            yield Misfit((*edges.path, edge), "cannot lean on the rim; only the top edge can.", advice)


def _placed(vessel: Seen, name: str, wall: Seen, shared: Seen) -> Iterator[Misfit]:
    """The windows of one wall, with those it shares: within the wall, and clear of each other."""
    room = wall_length(vessel, name), vessel.length("height")
    own, common = wall.under("windows"), shared.under("windows")
    sheets: list[_Sheet] = []
    for key, window in islice(wall.over(shared).parts("windows"), MOST_WINDOWS):
        written = (own if own.has(key) else common).under(key).path
        yield from _outside(written, window, name, room)
        sheet = _sheet(written, window, room[0])
        if sheet is not None:
            sheets.append(sheet)
    for first, second in combinations(sheets, 2):
        if first.overlaps(second):
            advice = "Move one of them with from_left or sill."
            yield Misfit(second.path, f"overlaps {first.path[-1]} in wall {name}.", advice)


def _outside(
    path: Path, window: Seen, wall: str, room: tuple[float | None, float | None]
) -> Iterator[Misfit]:
    """Whether a window's sheet sticks out of the wall, upward or sideways."""
    length, top = room
    width, height, sill, left = (window.length(key) for key in ("width", "height", "sill", "from_left"))
    if top is not None and height is not None and (sill or 0.0) + height > top + HAIR:
        key = "sill" if sill is not None and height <= top + HAIR else "height"
        advice = "Sill and height together are at most the height of the wall."
        yield Misfit((*path, key), f"sticks out above wall {wall}.", advice)
    if length is not None and width is not None and (left or 0.0) + width > length + HAIR:
        key = "from_left" if left is not None and width <= length + HAIR else "width"
        advice = "The sheet lies within the inside length of the wall."
        yield Misfit((*path, key), f"sticks out of wall {wall} sideways.", advice)


def _sheet(path: Path, window: Seen, length: float | None) -> _Sheet | None:
    width, height, sill = (window.length(key) for key in ("width", "height", "sill"))
    left = window.length("from_left")
    if left is None and length is not None and width is not None and not window.has("from_left"):
        left = (length - width) / 2.0
    if width is None or height is None or sill is None or left is None:
        return None
    return _Sheet(path, left, sill, width, height)


def wall_length(vessel: Seen, name: str) -> float | None:
    """The inside length of a wall: of a box's side, of one face of a polygon, or across a round vessel."""
    shape, sides, across = vessel.word("shape"), vessel.number("sides"), vessel.length("across")
    if shape == "box" and name in BOX_WALLS:
        return vessel.length("length" if name in ("north", "south") else "width")
    if shape == "round":
        return across
    if shape == "polygon" and across is not None and sides is not None and sides >= 3:
        return across * math.tan(math.pi / sides)
    return None
