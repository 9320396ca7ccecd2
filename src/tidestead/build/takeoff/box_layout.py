"""Where the timbers and windows of one wall of a box stand, taken from its elevation, and what is left of its studs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tidestead.build.takeoff.box_corners import Box
from tidestead.core.scene import Area
from tidestead.studies.openings import Rect, opening_or_sheet
from tidestead.studies.structure.drawings_box import elevation, stud_places
from tidestead.studies.structure.found import WallPlace
from tidestead.studies.structure.round_faces import rect_of, thick

LEAST = 0.03
"""Timbers shorter than this are packing, not pieces, metres. Own choice."""

_HAIR = 1e-6
_FRAME = ("jambs", "sill", "header")


@dataclass(frozen=True)
class Upright:
    """One length of a stud: its place along the wall, from where to where, and whether it reaches plate and rim."""

    at: float
    foot: float
    head: float
    on_plate: bool
    under_rim: bool

    @property
    def length(self) -> float:
        return self.head - self.foot

    @property
    def words(self) -> str:
        if self.on_plate and self.under_rim:
            return "stud"
        if self.on_plate:
            return "short stud under a window"
        return "short stud over a window" if self.under_rim else "short stud between windows"


@dataclass(frozen=True)
class Layout:
    """One wall: thickness of its plate, its windows, the clear openings behind them and the timbers round these as
    rectangles, its studs.
    """

    place: WallPlace
    plate: float
    windows: Mapping[str, Rect]
    openings: Mapping[str, Rect]
    frames: Mapping[str, Mapping[str, tuple[Rect, ...]]]
    uprights: tuple[Upright, ...]
    half: float
    """Half the breadth of a stud, all its pieces."""

    @property
    def replaced(self) -> int:
        """Studs whose place jambs take."""
        return sum(_in_jambs(self, at) for at in stud_places(self.place))


def layout_of(box: Box, wall: str) -> Layout:
    """The wall as its elevation has it."""
    place = box.walls[wall]
    part = f"{box.key}.{wall}"
    areas = [
        shape for shape in elevation(box.key, box.vessel, place, "metric").shapes if isinstance(shape, Area)
    ]
    windows = {
        name: rect_of(area)
        for name in place.wall.windows
        for area in areas
        if area.part == f"{part}.{name}" and area.stuff == "clear"
    }
    frames = {
        name: {
            kind: tuple(rect_of(area) for area in areas if area.part == f"{part}.{name}.opening.{kind}")
            for kind in _FRAME
        }
        for name in windows
    }
    studs = place.wall.studs
    half = thick(studs.section) / 2.0 if studs is not None and studs.section is not None else 0.0
    openings = {name: opening_or_sheet(place.wall.windows[name], rect) for name, rect in windows.items()}
    found = Layout(place, _plate(place), windows, openings, frames, (), half)
    return replace(found, uprights=_uprights(found))


def _plate(place: WallPlace) -> float:
    """The bottom plate's thickness: as the plan says, else a stud laid flat."""
    studs, base = place.wall.studs, place.wall.base
    if base is not None and base.plate is not None:
        return base.plate
    return studs.section.breadth if studs is not None and studs.section is not None else 0.0


def _uprights(layout: Layout) -> tuple[Upright, ...]:
    """Studs where no jamb takes their place, cut at windows and at the timbers under and over them."""
    found: list[Upright] = []
    for at in stud_places(layout.place):
        if _in_jambs(layout, at):
            continue
        for foot, head in _free(layout, at):
            if head - foot < LEAST:
                continue
            on_plate, under_rim = foot < layout.plate + _HAIR, head > layout.place.height - _HAIR
            found.append(Upright(at, foot, head, on_plate, under_rim))
    return tuple(found)


def _in_jambs(layout: Layout, at: float) -> bool:
    """Whether a stud here would stand in a jamb's place, wholly or in part."""
    jambs = [rect for frame in layout.frames.values() for rect in frame["jambs"]]
    return any(left - layout.half + _HAIR < at < right + layout.half - _HAIR for left, _, right, _ in jambs)


def _free(layout: Layout, at: float) -> list[tuple[float, float]]:
    """Heights between plate and rim that nothing stands in at one place along the wall."""
    level = [rect for frame in layout.frames.values() for kind in ("sill", "header") for rect in frame[kind]]
    taken = sorted(
        (low, high) for left, low, right, high in (*layout.openings.values(), *level) if left < at < right
    )
    found, begin = [], layout.plate
    for low, high in taken:
        if low > begin:
            found.append((begin, low))
        begin = max(begin, high)
    if layout.place.height > begin:
        found.append((begin, layout.place.height))
    return found


def bays_at(layout: Layout, level: float) -> list[float]:
    """Clear widths between the uprights at one height, where blocking can stand; windows are left out."""
    bars = [
        (one.at - layout.half, one.at + layout.half) for one in layout.uprights if one.foot < level < one.head
    ]
    solid = [rect for frame in layout.frames.values() for kind in _FRAME for rect in frame[kind]]
    bars += [(left, right) for left, low, right, high in solid if low < level < high]
    holes = [(left, right) for left, low, right, high in layout.openings.values() if low < level < high]
    ordered = sorted([*bars, *holes])
    found, end = [], None
    for left, right in ordered:
        if end is not None and left - end > LEAST:
            found.append(left - end)
        end = right if end is None else max(end, right)
    return found
