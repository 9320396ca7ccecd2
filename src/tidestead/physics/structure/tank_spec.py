"""What a timber-framed box vessel is made of, for its frame: walls, openings, buttresses, ties.

Along a wall, places count from the west end (south and north walls) or from the south end (west and east).
Heights count from the foot of the studs. Lengths run between the middle lines of the timbers.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from tidestead.core.dims import Count, KgPerM3, Metre, NewtonPerMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.frame_model import BarSection

Side: TypeAlias = Literal["south", "north", "west", "east"]

SIDES: tuple[Side, ...] = ("south", "north", "west", "east")

SAME_PLACE: Metre = 0.0199
"""Places nearer together than this count as one: two timbers cannot stand there, and a bar so short would spoil
the sums. Own choice, a little under 20 mm: no round distance is then decided by the last digit of a sum."""

RACKING: NewtonPerMetre = 1e6
"""Stiffness of a sheathed wall against leaning along itself, common practice, no source. In a level vessel
the pushes balance and it carries nothing; it stops studs, hinged at both ends, from leaning over together."""


@dataclass(frozen=True)
class Opening:
    """A hole for a window. Studs within it are left out, trimmers stand at its sides.

    Water pressure on the hole itself is not the frame's: what the window hands to its seats comes as
    `WallLine`. Without a sill beam the strip below is a kerb that stands on the base by itself; without a
    header the strip above hangs on the rim.
    """

    start: Metre
    end: Metre
    sill: Metre
    head: Metre
    sill_beam: BarSection | None = None
    header: BarSection | None = None
    trimmer: BarSection | None = None

    def beams(self, height: Metre) -> tuple[tuple[str, BarSection, Metre], ...]:
        """Name, section and height of its beams, where studs are `height` long.

        A beam that would lie on the base or at the rim is not one: base and rim carry its load.
        """
        both = (("sill", self.sill_beam, self.sill), ("header", self.header, self.head))
        return tuple(
            (name, section, level)
            for name, section, level in both
            if section and SAME_PLACE < level < height - SAME_PLACE
        )


@dataclass(frozen=True)
class Buttress:
    """A post of a wall that a raking strut holds from outside or, without one, its own clamped foot."""

    at: Metre
    post: BarSection
    strut: BarSection | None = None
    height: Metre = 0.0
    reach: Metre = 0.0


@dataclass(frozen=True)
class WallLine:
    """An outward line load on a wall beside the water's: `up` a post that stands `at` a place, or `across` a
    rim, sill beam or header that lies `at` a height. It runs from `start` to `end` and grows evenly.
    """

    runs: Literal["up", "across"]
    at: Metre
    start: Metre
    end: Metre
    load_start: NewtonPerMetre
    load_end: NewtonPerMetre


@dataclass(frozen=True)
class WallFrame:
    """One wall. `studs` are places along it, without the corners: see `stud_places`.

    `rim_deep` says which way the deep side of the rim points: "out" when it lies flat, "up" when on edge. The
    depths are of the water above the foot of the studs at the wall's start and end.
    """

    studs: tuple[Metre, ...]
    stud: BarSection
    rim: BarSection
    depth_start: Metre
    depth_end: Metre
    rim_deep: Literal["out", "up"] = "out"
    openings: tuple[Opening, ...] = ()
    buttresses: tuple[Buttress, ...] = ()
    lines: tuple[WallLine, ...] = ()
    racking: NewtonPerMetre = RACKING


@dataclass(frozen=True)
class TieBar:
    """A timber across the top, along the vessel's width or length, at a place along the other direction."""

    across: Literal["width", "length"]
    at: Metre
    section: BarSection


@dataclass(frozen=True)
class BoxFrameSpec:
    """A whole box: length runs west to east, width south to north, height is that of the studs.

    `corners` says whether the rims are stiffly joined where they meet. `lost` numbers ties that are left out.
    """

    length: Metre
    width: Metre
    height: Metre
    density: KgPerM3
    corner_post: BarSection
    corners: Literal["pinned", "rigid"]
    south: WallFrame
    north: WallFrame
    west: WallFrame
    east: WallFrame
    ties: tuple[TieBar, ...] = ()
    lost: tuple[Count, ...] = ()

    def wall(self, side: Side) -> WallFrame:
        """The wall on that side."""
        walls = {"south": self.south, "north": self.north, "west": self.west, "east": self.east}
        return walls[side]

    def run(self, side: Side) -> Metre:
        """Length of the wall on that side."""
        return self.length if side in {"south", "north"} else self.width


def stud_places(length: Metre, spacing: Metre) -> tuple[Metre, ...]:
    """Places of studs at a spacing from a wall's start, without the corners; the last bay is what is left.

    Source: how walls are laid out, common practice, no source.
    Valid:  plain numbers.
    """
    if not spacing > 0.0 or not length > 0.0:
        raise ImpossibleInput(f"studs cannot stand every {spacing} m along {length} m")
    count = int((length - SAME_PLACE) / spacing)
    return tuple(number * spacing for number in range(1, count + 1))


def lost_tie(spec: BoxFrameSpec, number: Count) -> BoxFrameSpec:
    """The same vessel with one tie gone, counted from nothing in the order of `ties`.

    Source: robustness check, common practice, no source.
    Valid:  ties that are there.
    """
    if not 0 <= number < len(spec.ties):
        raise ImpossibleInput(f"there is no tie {number}; the vessel has {len(spec.ties)}")
    return replace(spec, lost=(*spec.lost, number))
