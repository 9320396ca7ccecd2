"""Everything a timber tower takes: rings, ribs, faces, windows, buttresses, cone."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.build.takeoff.box import SizeOf, holes_of
from tidestead.build.takeoff.gathered import Gathered
from tidestead.build.takeoff.tower_shape import Tower
from tidestead.build.takeoff.tower_sheets import tower_sheets, tower_windows
from tidestead.build.takeoff.tower_timber import tower_timber
from tidestead.plan.model import Vessel
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_holes import Bored


def take_tower(
    gathered: Gathered, vessel: Vessel, tables: Tables, size_of: SizeOf, bored: Sequence[Bored]
) -> None:
    """The list of a polygon or a round tower."""
    tower = Tower(gathered.vessel, vessel, tables)
    if tower.inner <= 0.0 or (vessel.shape == "polygon" and tower.sides < 3):
        gathered.lacks(f"{tower.path}.across", f"Say how wide {tower.key} is and how many sides it has.")
        return
    tower_timber(gathered, tower)
    holes = {face: holes_of(gathered, face, bored) for face in tower.faces}
    sizes = {
        face: size_of(
            sheathing.sheet if (sheathing := tower.wall(face).sheathing) and sheathing.sheet else ""
        )
        for face in tower.faces
    }
    tower_sheets(gathered, tower, sizes, holes)
    tower_windows(gathered, tower, holes)
