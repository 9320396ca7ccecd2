"""Everything a timber box takes: its walls, what holds them together, its windows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tidestead.build.lists import Hole
from tidestead.build.takeoff.box_corners import Box, box_of
from tidestead.build.takeoff.box_layout import layout_of
from tidestead.build.takeoff.box_sheets import wall_sheets, wall_windows
from tidestead.build.takeoff.box_timber import corners, floor_ties, ties, wall_timber
from tidestead.build.takeoff.fixings import base_fixings
from tidestead.build.takeoff.gathered import Gathered
from tidestead.plan.model import Vessel
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_holes import Bored
from tidestead.studies.structure.found import BOX_ORDER

SizeOf = Callable[[str], tuple[float, float]]
"""Size of a sheet along and across its face grain, by its catalogue name."""


def take_box(
    gathered: Gathered, vessel: Vessel, tables: Tables, size_of: SizeOf, bored: Sequence[Bored]
) -> None:
    """The list of a box vessel."""
    box = box_of(gathered.vessel, vessel, tables)
    for wall in BOX_ORDER:
        _wall(gathered, box, wall, size_of, bored)
    ties(gathered, box)
    floor_ties(gathered, box)
    corners(gathered, box)


def _wall(gathered: Gathered, box: Box, wall: str, size_of: SizeOf, bored: Sequence[Bored]) -> None:
    layout = layout_of(box, wall)
    wall_timber(gathered, box, layout)
    base_fixings(gathered, box, wall)
    sheathing = layout.place.wall.sheathing
    size = size_of(sheathing.sheet if sheathing is not None and sheathing.sheet else "")
    holes = holes_of(gathered, wall, bored)
    wall_sheets(gathered, box, layout, size, holes)
    wall_windows(gathered, box, layout, holes)


def holes_of(gathered: Gathered, wall: str, bored: Sequence[Bored]) -> list[Hole]:
    """Holes of bulkheads through one wall or face, in places of the wall."""
    found = []
    named = f"face {wall}" if wall.isdigit() else f"{wall} wall"
    for hole in bored:
        if hole.wall != wall:
            continue
        if hole.along is None:
            key = f"vessels.{hole.key}.ports.{hole.port}.bulkhead.from_left"
            gathered.lacks(key, f"Say where the hole of port {hole.port} is: its sheet is listed without it.")
            continue
        found.append(Hole(hole.along, hole.level, hole.hole, f"bulkhead of port {hole.port}, {named}"))
    return found
