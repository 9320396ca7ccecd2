"""A timber box in space: each wall's pieces where its elevation has them, ties, corners, water."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tidestead.core.scene import Area, Point
from tidestead.core.solids import Solid, between, upright
from tidestead.core.units import System, show
from tidestead.plan.model import BOX_WALLS, Sheathing, Vessel, Window
from tidestead.studies.openings import Rect, opening_or_sheet
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_box import elevation
from tidestead.studies.structure.found import WallPlace, box_walls
from tidestead.studies.structure.round_faces import Piece, Side, left_of, rect_of, thick
from tidestead.studies.structure.ties_lie import rim_height, rim_width, tie_ends

FILM = 0.002
"""A lining is drawn so thick, whatever it is, metres."""

UNNAMED_SHEET = 0.018
"""A sheet that the plan does not name is drawn so thick, as in the sections, metres."""

_ROUND_WINDOW = ("jambs", "sill", "header")


def sheet_thickness(sheathing: Sheathing | None, tables: Tables) -> float:
    """The sheathing's whole thickness."""
    if sheathing is None or sheathing.sheet is None or sheathing.sheet not in tables["sheathing"]:
        return UNNAMED_SHEET
    one = sheathing.as_built.thickness or tables["sheathing"][sheathing.sheet].si("thickness")
    return one * sheathing.layers


def lining_height(vessel: Vessel) -> float:
    """How far up the walls the lining is carried; nothing where there is none or no water."""
    if vessel.lining is None or vessel.water is None:
        return 0.0
    return min(vessel.water + (vessel.lining.ends_above_water or 0.0), vessel.height)


def window_thickness(window: Window) -> float:
    """A clear sheet's thickness as found, else as planned."""
    return window.as_built.thickness or window.thickness or sum(window.plies) or 0.02


def box_sides(vessel: Vessel, corner: Point, floor: float) -> dict[str, Side]:
    """The four faces by the names of their walls; `corner` is the inside corner in the south-west."""
    length, width = vessel.length or 0.0, vessel.width or 0.0
    (x, y), far_x, far_y = corner, corner[0] + length, corner[1] + width
    return {
        "south": Side((x, y), (1.0, 0.0), (0.0, -1.0), length, floor, 1.0),
        "east": Side((far_x, y), (0.0, 1.0), (1.0, 0.0), width, floor, 1.0),
        "north": Side((far_x, far_y), (-1.0, 0.0), (0.0, 1.0), length, floor, 1.0),
        "west": Side((x, far_y), (0.0, -1.0), (-1.0, 0.0), width, floor, 1.0),
    }


def box_solids(
    key: str, vessel: Vessel, tables: Tables, sides: Mapping[str, Side], system: System
) -> Iterator[Solid]:
    """Every piece of a built box."""
    places = {place.name: place for place in box_walls(vessel)}
    for name, side in sides.items():
        yield from _Wall(key, vessel, places[name], side, tables, system).solids()
    yield from _ties(key, vessel, places, sides["south"])
    yield from _corners(key, places, sides)
    yield from box_water(key, vessel, sides["south"].corner, sides["south"].floor)


def box_water(key: str, vessel: Vessel, corner: Point, floor: float) -> Iterator[Solid]:
    """The water of a box, deeper where its floor falls."""
    if vessel.water is not None:
        outline = _rectangle(corner, vessel.length or 0.0, vessel.width or 0.0)
        beside = (("south", "west"), ("south", "east"), ("north", "east"), ("north", "west"))
        foot = [(*place, floor - _fall(vessel, walls)) for place, walls in zip(outline, beside, strict=True)]
        top = [(*place, floor + vessel.water) for place in outline]
        yield between(foot, top, "water", f"{key}.water", "water")


def _fall(vessel: Vessel, walls: tuple[str, str]) -> float:
    """How much lower than stated the floor lies in a corner; half of it all over where nobody says which way."""
    fall = total_fall(vessel)
    if vessel.stands_on.falls_to in BOX_WALLS:
        return fall if vessel.stands_on.falls_to in walls else 0.0
    return fall / 2.0


def total_fall(vessel: Vessel) -> float:
    """How much the floor falls from end to end, with what it settles."""
    return (vessel.stands_on.drop or 0.0) + (vessel.stands_on.settles or 0.0)


def _rectangle(corner: Point, length: float, width: float) -> tuple[Point, ...]:
    (x, y), far = corner, (corner[0] + length, corner[1] + width)
    return ((x, y), (far[0], y), far, (x, far[1]))


def outward(vessel: Vessel, tables: Tables) -> float:
    """How far the walls of a box reach outside its inside measures, at most."""
    return max(
        max(sheet_thickness(place.wall.sheathing, tables) + stud_depth(place), rim_width(place))
        for place in box_walls(vessel)
    )


def on_wet_side(window: Window) -> tuple[float, float]:
    """From where to where outward a clear sheet reaches: against the sheathing, its outer face just past the water."""
    return FILM - window_thickness(window), FILM


def stud_depth(place: WallPlace) -> float:
    """How deep the studs are outward; nothing where the plan names none."""
    studs = place.wall.studs
    return studs.section.depth if studs is not None and studs.section is not None else 0.0


class _Wall:
    """One wall: the areas of its elevation, each given its place outward."""

    def __init__(
        self,
        key: str,
        vessel: Vessel,
        place: WallPlace,
        side: Side,
        tables: Tables,
        system: System,
    ) -> None:
        self.part, self.key, self.vessel, self.place, self.side = (
            f"{key}.{place.name}",
            key,
            vessel,
            place,
            side,
        )
        self.sheet = sheet_thickness(place.wall.sheathing, tables)
        self.system = system
        # Only its areas are used, and in metric their words, which are not, are quickest to write.
        drawn = [shape for shape in elevation(key, vessel, place, "metric").shapes if isinstance(shape, Area)]
        self.areas = [area for area in drawn if area.label != "tie"]
        self.windows = {
            name: rect_of(area)
            for name in place.wall.windows
            for area in self.areas
            if area.part == f"{self.part}.{name}"
        }
        self.openings = {
            name: opening_or_sheet(place.wall.windows[name], rect) for name, rect in self.windows.items()
        }
        self.frames = [rect_of(area) for area in self.areas if area.part.split(".")[-1] in _ROUND_WINDOW]

    def solids(self) -> Iterator[Solid]:
        """Every piece of the wall."""
        yield from self._lining()
        for area in self.areas:
            yield from self._pieces(area)
        plate = self._plate()
        if plate is not None:
            base = Piece("timber", f"{self.part}.base", "bottom plate")
            yield self.side.block(plate, self._behind(stud_depth(self.place)), base, mitred=True)

    def _behind(self, depth: float) -> tuple[float, float]:
        """From the back of the sheathing outward."""
        return self.sheet, self.sheet + depth

    def _plate(self) -> Rect | None:
        """The plate along the foot, as high as the plan says, else as its studs are broad."""
        studs, base = self.place.wall.studs, self.place.wall.base
        if studs is None or studs.section is None:
            return None
        tall = base.plate if base is not None and base.plate is not None else studs.section.breadth
        return 0.0, 0.0, self.place.length, tall

    def _lining(self) -> Iterator[Solid]:
        top = lining_height(self.vessel)
        if top > 0.0:
            for rect in left_of((0.0, 0.0, self.place.length, top), self.openings.values()):
                piece = Piece("membrane", f"{self.key}.lining", "lining")
                yield self.side.block(rect, (0.0, FILM), piece, mitred=True)

    def _pieces(self, area: Area) -> Iterator[Solid]:
        kind, rect = area.part.split(".")[-1], rect_of(area)
        if area.part.count(".") == self.part.count(".") + 1 and kind in self.windows:
            window = self.place.wall.windows[kind]
            told = show(window_thickness(window), "m", self.system, "sheet")
            piece = Piece("clear", area.part, f"window {kind}, {told} thick")
            yield self.side.block(rect, on_wet_side(window), piece)
        elif kind == "sheathing":
            inner = FILM if self.vessel.lining is not None else 0.0
            for left in left_of(rect, self.openings.values()):
                yield self.side.block(left, (inner, self.sheet), Piece("sheet", area.part), mitred=True)
        elif kind == "rim":
            piece = Piece("timber", area.part, "rim")
            yield self.side.block(rect, (0.0, rim_width(self.place)), piece)
        elif kind == "studs" or kind in _ROUND_WINDOW:
            yield from self._uprights(area, kind, rect)

    def _uprights(self, area: Area, kind: str, rect: Rect) -> Iterator[Solid]:
        """Studs, and the timbers round a window."""
        plate = self._plate()
        holes = [plate] if plate is not None else []
        depth, label = stud_depth(self.place), "stud"
        if kind in _ROUND_WINDOW:
            name = area.part.split(".")[-3]
            timber = getattr(self.place.wall.windows[name].opening, kind)
            depth, label = timber.section.depth, {"jambs": "jamb"}.get(kind, kind)
        else:
            holes += [*self.frames, *self.openings.values()]
        for left in left_of(rect, holes):
            yield self.side.block(left, self._behind(depth), Piece("timber", area.part, label))


def _ties(key: str, vessel: Vessel, places: Mapping[str, WallPlace], south: Side) -> Iterator[Solid]:
    """Timbers across the top, over the rims or between them."""
    length, width = vessel.length or 0.0, vessel.width or 0.0
    for name, tie in vessel.ties.items():
        half = (tie.section.depth if tie.section else 0.1) / 2.0
        tall = thick(tie.section) if tie.section else 0.1
        ends = tie_ends(tie, places)
        for at in tie.at:
            rect = (
                (at - half, at + half, -ends.before, width + ends.after)
                if tie.across == "width"
                else (-ends.before, length + ends.after, at - half, at + half)
            )
            x, y = south.corner
            outline = _rectangle((x + rect[0], y + rect[2]), rect[1] - rect[0], rect[3] - rect[2])
            low = south.floor + vessel.height + ends.up
            yield upright(outline, (low, low + tall), "timber", f"{key}.ties.{name}", "tie")


def _corners(key: str, places: Mapping[str, WallPlace], sides: Mapping[str, Side]) -> Iterator[Solid]:
    """Where two rims meet."""
    for here, beyond in (("south", "east"), ("east", "north"), ("north", "west"), ("west", "south")):
        first, second = places[here], places[beyond]
        if first.wall.rim is None or second.wall.rim is None:
            continue
        if first.wall.rim.section is None or second.wall.rim.section is None:
            continue
        tall = min(rim_height(first), rim_height(second))
        rect = (first.length, first.height, first.length + rim_width(second), first.height + tall)
        yield sides[here].block(rect, (0.0, rim_width(first)), Piece("timber", f"{key}.corners", "corner"))
