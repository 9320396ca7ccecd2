"""How the four walls of a box meet: which timbers and sheets run over a corner, and which stand between.

One rule for all of it: plates, sheets and rims of the north and south walls run through to the outside of the walls
beside them, those of the east and west walls stand between. The planks of rims that lie flat on each other change
over from layer to layer, so that every corner is lapped.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.plan.model import Vessel
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.found import ROUND, WallPlace, box_walls
from tidestead.studies.structure.round_box import sheet_thickness, stud_depth
from tidestead.studies.structure.round_faces import thick

THROUGH = ("north", "south")
"""Walls whose parts run over the corners."""

RULE = "north and south run through, east and west stand between"

LAPPED = "planks lap at the corners in turn, the lowest of north and south first"


@dataclass(frozen=True)
class Box:
    """A box vessel as it is planned: its walls by name and what the corners need of each."""

    key: str
    vessel: Vessel
    walls: Mapping[str, WallPlace]
    tables: Tables

    @property
    def path(self) -> str:
        """Its key in the plan."""
        return f"vessels.{self.key}"

    def beside(self, wall: str) -> tuple[str, str]:
        """The walls at the left and the right end of one, seen from outside."""
        number = ROUND.index(wall)
        return ROUND[number - 1], ROUND[(number + 1) % len(ROUND)]

    def across(self, direction: str) -> tuple[str, str]:
        """The walls that a timber from side to side joins: width from south to north, length from west to east."""
        return ("south", "north") if direction == "width" else ("west", "east")

    def sheet(self, wall: str) -> float | None:
        """Thickness of one sheet of a wall's sheathing; None where the plan names none that is known."""
        sheathing = self.walls[wall].wall.sheathing
        if sheathing is None or sheathing.sheet is None or sheathing.sheet not in self.tables["sheathing"]:
            return None
        return sheet_thickness(sheathing, self.tables) / sheathing.layers

    def sheets(self, wall: str) -> float | None:
        """Thickness of the whole sheathing."""
        sheathing, one = self.walls[wall].wall.sheathing, self.sheet(wall)
        return None if sheathing is None or one is None else one * sheathing.layers

    def studs_outside(self, wall: str) -> float | None:
        """How far the outside of a wall's studs and plate stands out from its inner face."""
        studs, sheet = self.walls[wall].wall.studs, self.sheets(wall)
        if studs is None or studs.section is None or sheet is None:
            return None
        return sheet + stud_depth(self.walls[wall])

    def rim_width(self, wall: str) -> float | None:
        """How far a wall's rim stands out from its inner face, where it begins."""
        rim = self.walls[wall].wall.rim
        if rim is None or rim.section is None or rim.lies is None:
            return None
        return thick(rim.section) if rim.lies == "on edge" else rim.section.depth

    def rims_flat(self) -> bool:
        """Whether all four rims lie flat, so that their planks can change over at the corners."""
        rims = [place.wall.rim for place in self.walls.values()]
        return all(rim is not None and rim.lies == "flat" for rim in rims)


def box_of(key: str, vessel: Vessel, tables: Tables) -> Box:
    """The walls of a box."""
    return Box(key, vessel, {place.name: place for place in box_walls(vessel)}, tables)


def plate_length(box: Box, wall: str) -> float | None:
    """Length of a bottom plate, from outside to outside or between; None where a neighbour is not described."""
    outside = box.studs_outside if wall in THROUGH else box.sheets
    return _with_ends(box.walls[wall].length, [outside(name) for name in box.beside(wall)])


def rim_length(box: Box, wall: str, plank: int) -> float | None:
    """Length of one plank of a rim, counted from the lowest; None where a neighbour's rim is not described."""
    through = (wall in THROUGH) == (plank % 2 == 0) if box.rims_flat() else wall in THROUGH
    widths = [box.rim_width(name) for name in box.beside(wall)]
    if any(width is None for width in widths):
        return None
    return _with_ends(box.walls[wall].length, widths if through else [0.0, 0.0])


def sheet_ends(box: Box, wall: str, layer: int) -> tuple[float, float] | None:
    """How far a layer of sheathing reaches beyond the inside length at its left and right end.

    Layers count from the inside. Each runs over, or stands between, the same layer of the walls beside it.
    """
    layers = layer + 1 if wall in THROUGH else layer
    found = [box.sheet(name) for name in box.beside(wall)]
    if layers and any(one is None for one in found):
        return None
    left, right = (layers * (one or 0.0) for one in found)
    return left, right


def _with_ends(length: float, ends: list[float | None]) -> float | None:
    if any(end is None for end in ends):
        return None
    return length + sum(end or 0.0 for end in ends)
