"""A tower as it is planned: its faces by number, how thick their sheets are, where its rings and ribs stand."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.physics.structure.rings import polygon_side
from tidestead.plan import wall_of
from tidestead.plan.model import Vessel, Wall
from tidestead.studies.openings import Rect
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_box import window_left
from tidestead.studies.structure.drawings_tower import ring_heights
from tidestead.studies.structure.round_box import sheet_thickness
from tidestead.studies.structure.round_tower import bay_of, rib_places, ring_bands


@dataclass(frozen=True)
class Tower:
    """A polygon or a round tower."""

    key: str
    vessel: Vessel
    tables: Tables

    @property
    def path(self) -> str:
        """Its key in the plan."""
        return f"vessels.{self.key}"

    @property
    def sides(self) -> int:
        """Flat sides; none where it is round."""
        return self.vessel.sides or 0 if self.vessel.shape == "polygon" else 0

    @property
    def inner(self) -> float:
        """From the middle to the inside of a face."""
        return (self.vessel.across or 0.0) / 2.0

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its walls."""
        return tuple(str(number) for number in range(1, self.sides + 1)) if self.sides else ("1",)

    def path_of(self, face: str) -> str:
        """The key of a face: its own where the plan says something of it, else that of all."""
        return f"{self.path}.walls.{face if face in self.vessel.walls else 'all'}"

    def wall(self, face: str) -> Wall:
        """A face with what all of them share."""
        return wall_of(self.vessel, face)

    def sheet(self, face: str) -> float | None:
        """Thickness of one sheet of a face; None where the plan names none that is known."""
        sheathing = self.wall(face).sheathing
        if sheathing is None or sheathing.sheet is None or sheathing.sheet not in self.tables["sheathing"]:
            return None
        return sheet_thickness(sheathing, self.tables) / sheathing.layers

    def outside(self) -> float | None:
        """From the middle to the outside of the sheathing, where rings and ribs begin: of the thickest face."""
        found = []
        for face in self.faces:
            one, sheathing = self.sheet(face), self.wall(face).sheathing
            if one is None or sheathing is None:
                return None
            found.append(one * sheathing.layers)
        return self.inner + max(found)

    def width(self, layer_outside: float) -> float:
        """Width of a face so far out from the inside: a side, or the girth."""
        if self.sides:
            return float(polygon_side(self.inner + layer_outside, self.sides))
        return 2.0 * math.pi * (self.inner + layer_outside)

    def windows(self, face: str) -> Iterator[tuple[str, Rect]]:
        """Windows of a face by name, as rectangles along its inside; those without sizes are left out."""
        length = self.width(0.0)
        for name, window in self.wall(face).windows.items():
            if window.sill is not None and window.height and window.width:
                left = window_left(window, length)
                yield name, (left, window.sill, left + window.width, window.sill + window.height)

    def ribs_at(self) -> tuple[float, ...]:
        """Middles of the ribs along the inside of a face, those at corners left out; of all ribs of a round one."""
        if self.sides:
            return rib_places(self.vessel, self.width(0.0))
        count = self.vessel.ribs.per_face or 0 if self.vessel.ribs is not None else 0
        return tuple(self.width(0.0) * number / count for number in range(count))

    def clear_bay(self, rect: Rect) -> tuple[float, float]:
        """From the top of the ring under a window to the underside of the ring over it."""
        foot, head = bay_of(self.vessel, rect)
        bands = dict(zip(ring_heights(self.vessel), ring_bands(self.vessel), strict=True))
        return (bands[foot][1] if foot in bands else foot), (bands[head][0] if head in bands else head)

    def rib_ends(self) -> tuple[float, float]:
        """From the top of the bottom plate to the underside of the top plate."""
        bands = ring_bands(self.vessel)
        return (bands[0][1], bands[-1][0]) if bands else (0.0, self.vessel.height)
