"""Drawings of a box vessel: each wall from outside, the plan from above, a section through it."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.scene import Area, Measure, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Vessel, Window
from tidestead.studies.openings import Rect, opening_or_sheet
from tidestead.studies.structure.drawings_holes import (
    Bored,
    level_marks,
    ports_told,
    square_on,
    stands_told,
    under_stuff,
)
from tidestead.studies.structure.found import WallPlace
from tidestead.studies.structure.ties_lie import SIDES, rim_height, rim_width, tie_ends

GROUND = 0.12


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    """Corner points, counter-clockwise from the lower left."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def window_left(window: Window, wall_length: float) -> float:
    """Where a window begins along its wall; centred where the plan does not say."""
    width = window.width or 0.0
    return window.from_left if window.from_left is not None else (wall_length - width) / 2.0


def stud_places(place: WallPlace) -> tuple[float, ...]:
    """Centres of the studs along a wall: at both ends, and no further apart than the stated spacing."""
    studs = place.wall.studs
    if studs is None or studs.spacing is None:
        return ()
    bays = max(1, -int(-(place.length - 1e-9) // studs.spacing))
    return tuple(place.length * number / bays for number in range(bays + 1))


def elevation(
    key: str, vessel: Vessel, place: WallPlace, system: System, holes: Sequence[Bored] = ()
) -> Scene:
    """One wall from outside: studs, rim, windows, bulkheads, water line, sizes."""
    part = f"{key}.{place.name}"
    shapes: list[Shape] = [
        Area(rectangle(0.0, 0.0, place.length, place.height), "sheet", f"{part}.sheathing"),
        Stroke(((-0.15, 0.0), (place.length + 0.15, 0.0)), "ground"),
        Stroke(((0.0, 0.0), (place.length, 0.0)), "outline", f"{part}.base"),
    ]
    shapes += _studs(part, place)
    shapes += _rim(part, place)
    shapes += _tie_ends(part, vessel, place)
    for name, window in place.wall.windows.items():
        shapes += _window(f"{part}.{name}", window, place, system)
    shapes += square_on([hole for hole in holes if hole.wall == place.name], 0.0, system)
    if vessel.water is not None:
        shapes.append(Stroke(((-0.05, vessel.water), (place.length + 0.05, vessel.water)), "water"))
        shapes.append(Note((place.length + 0.06, vessel.water), "water line"))
        shapes.append(Measure((0.0, 0.0), (0.0, vessel.water), 0.25, "level"))
        brim = vessel.brim if vessel.brim is not None else place.height
        shapes.append(Stroke(((0.0, brim), (place.length, brim)), "ghost", label="brim"))
    centres = stud_places(place)
    if len(centres) > 1:
        shapes.append(Measure((centres[-2], 0.0), (centres[-1], 0.0), -0.12, "lumber"))
    shapes.append(Measure((0.0, 0.0), (place.length, 0.0), -0.25, "level"))
    shapes.append(Measure((place.length, 0.0), (place.length, place.height), -0.35, "level"))
    return Scene(
        f"structure.{part}.elevation",
        f"{place.name.capitalize()} wall of {key}, from outside",
        _told_elevation(vessel, place, system),
        tuple(dict.fromkeys(shapes)),  # windows of one height are measured once
    )


def _studs(part: str, place: WallPlace) -> list[Shape]:
    studs = place.wall.studs
    if studs is None or studs.section is None:
        return []
    half = studs.section.pieces * studs.section.breadth / 2.0
    shapes: list[Shape] = []
    for centre in stud_places(place):
        left, right = max(0.0, centre - half), min(place.length, centre + half)
        openings = [_opening(window, place.length) for window in place.wall.windows.values()]
        crossed = [(low, high) for begin, low, end, high in openings if begin < centre < end]
        bottom = 0.0
        for low, high in sorted(crossed):
            shapes.append(Area(rectangle(left, bottom, right, low), "timber", f"{part}.studs"))
            bottom = high
        if bottom < place.height:
            shapes.append(Area(rectangle(left, bottom, right, place.height), "timber", f"{part}.studs"))
    return shapes


def _opening(window: Window, length: float) -> Rect:
    """The clear opening behind a window in a wall of this length."""
    left, sill = window_left(window, length), window.sill or 0.0
    return opening_or_sheet(window, (left, sill, left + (window.width or 0.0), sill + (window.height or 0.0)))


def _rim(part: str, place: WallPlace) -> list[Shape]:
    rim = place.wall.rim
    if rim is None or rim.section is None:
        return []
    top = place.height
    return [Area(rectangle(0.0, top, place.length, top + rim_height(place)), "timber", f"{part}.rim")]


def _tie_ends(part: str, vessel: Vessel, place: WallPlace) -> list[Shape]:
    """Ends of ties as they show above the rim; behind it where they stand between the rims."""
    tie = next((tie for tie in vessel.ties.values() if place.name in SIDES[tie.across]), None)
    if tie is None or tie.section is None or place.wall.rim is None:
        return []
    half, tall = tie.section.depth / 2.0, tie.section.pieces * tie.section.breadth
    low = place.height + (0.0 if tie.end_joint.into == "end" else rim_height(place))
    key = f"{part.rsplit('.', 1)[0]}.ties"
    return [
        Area(rectangle(at - half, low, at + half, low + tall), "timber", key, label="tie")
        for at in place.tie_places
    ]


def _window(part: str, window: Window, place: WallPlace, system: System) -> list[Shape]:
    if window.width is None or window.height is None or window.sill is None:
        return []
    left = window_left(window, place.length)
    outline = rectangle(left, window.sill, left + window.width, window.sill + window.height)
    name = part.rsplit(".", 1)[-1]
    thick = window.as_built.thickness or window.thickness or sum(window.plies)
    label = f"{name}, {show(thick, 'm', system, 'sheet')} thick" if thick else name
    # measured off the wall's edges, where no stud strikes the figures through and short ones have room beside them
    foot = [Measure((0.0, 0.0), (0.0, window.sill), 0.4, "sheet")] if window.sill > 0.0 else []
    return [
        Area(outline, "clear", part, label=label),
        *_round_window(part, window, _opening(window, place.length), place.height),
        Stroke((*outline, outline[0]), "ghost", label="edge of the clear sheet"),
        *foot,
        Measure((left, 0.0), (left + window.width, 0.0), -0.12, "sheet"),
        Measure((0.0, window.sill), (0.0, window.sill + window.height), 0.4, "sheet"),
    ]


def _round_window(part: str, window: Window, opening: Rect, top: float) -> list[Shape]:
    """Jambs, sill and header, as far as the plan names them: flush with the clear opening, behind the sheet's seat."""
    left, sill, right, head = opening
    found: list[Shape] = []
    jambs, beam, header = window.opening.jambs, window.opening.sill, window.opening.header
    if jambs is not None and jambs.section is not None:
        wide = jambs.section.pieces * jambs.section.breadth
        found.append(Area(rectangle(left - wide, 0.0, left, top), "timber", f"{part}.opening.jambs"))
        found.append(Area(rectangle(right, 0.0, right + wide, top), "timber", f"{part}.opening.jambs"))
    if beam is not None and beam.section is not None:
        low = max(sill - beam.section.pieces * beam.section.breadth, 0.0)
        found.append(Area(rectangle(left, low, right, sill), "timber", f"{part}.opening.sill"))
    if header is not None and header.section is not None:
        high = min(head + header.section.pieces * header.section.breadth, top)
        found.append(Area(rectangle(left, head, right, high), "timber", f"{part}.opening.header"))
    return found


def _told_elevation(vessel: Vessel, place: WallPlace, system: System) -> str:
    studs, sheathing = place.wall.studs, place.wall.sheathing
    words = [
        f"{place.name} wall, {show(place.length, 'm', system)} long and {show(place.height, 'm', system)} high"
    ]
    if studs is not None and studs.section is not None and len(stud_places(place)) > 1:
        apart = stud_places(place)[1] - stud_places(place)[0]
        words.append(f"studs {show(apart, 'm', system, 'lumber')} apart at most")
    if sheathing is not None and sheathing.sheet is not None:
        words.append(f"sheathing {sheathing.sheet}")
    if vessel.water is not None:
        words.append(f"water stands {show(vessel.water, 'm', system)} above the floor")
    for name, window in place.wall.windows.items():
        if window.width and window.height and window.sill is not None:
            words.append(
                f"window {name}, {show(window.width, 'm', system, 'sheet')} by "
                f"{show(window.height, 'm', system, 'sheet')}, sill at {show(window.sill, 'm', system, 'sheet')}"
            )
    return "; ".join(words) + "."


def plan_view(key: str, vessel: Vessel, places: tuple[WallPlace, ...], system: System) -> Scene:
    """The box from above: walls, water, ties, windows."""
    length, width = vessel.length or 0.0, vessel.width or 0.0
    thick = {place.name: _wall_thickness(place) for place in places}
    shapes: list[Shape] = [
        Area(
            rectangle(-thick["west"], -thick["south"], length + thick["east"], width + thick["north"]),
            "timber",
            f"{key}.walls",
        ),
        Area(rectangle(0.0, 0.0, length, width), "water", f"{key}.water"),
    ]
    for place in places:
        for name, window in place.wall.windows.items():
            shapes.append(_window_from_above(f"{key}.{place.name}.{name}", window, place, (length, width)))
    for tie_name, tie in vessel.ties.items():
        half = (tie.section.depth if tie.section else 0.1) / 2.0
        ends = tie_ends(tie, {place.name: place for place in places})
        for at in tie.at:
            outline = (
                rectangle(at - half, -ends.before, at + half, width + ends.after)
                if tie.across == "width"
                else rectangle(-ends.before, at - half, length + ends.after, at + half)
            )
            shapes.append(Area(outline, "timber", f"{key}.ties.{tie_name}"))
    shapes.append(Measure((0.0, -thick["south"]), (length, -thick["south"]), -0.25, "level"))
    shapes.append(Measure((-thick["west"], 0.0), (-thick["west"], width), 0.25, "level"))
    shapes += [
        Note((length / 2.0, width + thick["north"] + 0.12), "north"),
        Note((length / 2.0, -thick["south"] - 0.42), "south"),
        Note((length + thick["east"] + 0.12, width / 2.0), "east"),
        Note((-thick["west"] - 0.42, width / 2.0), "west"),
    ]
    told = (
        f"Plan of {key}: inside {show(length, 'm', system)} west to east by {show(width, 'm', system)} south to "
        f"north, {sum(len(tie.at) for tie in vessel.ties.values())} ties."
    )
    return Scene(f"structure.{key}.plan", f"{key.capitalize()} from above", told, tuple(shapes))


def _wall_thickness(place: WallPlace) -> float:
    studs = place.wall.studs
    return studs.section.depth if studs is not None and studs.section is not None else 0.1


def _cut_ties(key: str, vessel: Vessel, places: tuple[WallPlace, ...]) -> list[Shape]:
    """Ties and rims as a cut from south to north meets them."""
    width, height = vessel.width or 0.0, vessel.height
    named = {place.name: place for place in places}
    shapes: list[Shape] = []
    for name, left in (("south", -rim_width(named["south"])), ("north", width)):
        right = left + rim_width(named[name])
        if right > left:
            outline = rectangle(left, height, right, height + rim_height(named[name]))
            shapes.append(Area(outline, "timber", f"{key}.{name}.rim"))
    for name, tie in vessel.ties.items():
        if tie.across == "width":
            ends, tall = (
                tie_ends(tie, named),
                tie.section.pieces * tie.section.breadth if tie.section else 0.1,
            )
            outline = rectangle(-ends.before, height + ends.up, width + ends.after, height + ends.up + tall)
            shapes.append(Area(outline, "timber", f"{key}.ties.{name}"))
    return shapes


def _window_from_above(part: str, window: Window, place: WallPlace, size: tuple[float, float]) -> Area:
    length, width = size
    begin = window_left(window, place.length)
    end, thick = begin + (window.width or 0.0), window.thickness or sum(window.plies) or 0.02
    # Places along a wall run from its left end seen from outside; the sheet lies on the wall's wet side.
    if place.name == "south":
        outline = rectangle(begin, 0.0, end, thick)
    elif place.name == "north":
        outline = rectangle(length - end, width - thick, length - begin, width)
    elif place.name == "east":
        outline = rectangle(length - thick, begin, length, end)
    else:
        outline = rectangle(0.0, width - end, thick, width - begin)
    return Area(outline, "clear", part)


def section(key: str, vessel: Vessel, places: tuple[WallPlace, ...], system: System) -> Scene:
    """A cut across the box, south to north: walls, water, ground, and the push of the water."""
    width, height = vessel.width or 0.0, vessel.height
    south = next(place for place in places if place.name == "south")
    thick = _wall_thickness(south)
    shapes: list[Shape] = [
        Area(
            rectangle(-thick - 0.4, -GROUND, width + thick + 0.4, 0.0),
            under_stuff(vessel),
            f"{key}.stands_on",
        ),
        Area(rectangle(-thick, 0.0, 0.0, height), "timber", f"{key}.south.studs"),
        Area(rectangle(width, 0.0, width + thick, height), "timber", f"{key}.north.studs"),
    ]
    shapes += _cut_ties(key, vessel, places)
    told = f"Section of {key}, {show(width, 'm', system)} wide and {show(height, 'm', system)} high inside"
    if vessel.water is not None:
        shapes.insert(0, Area(rectangle(0.0, 0.0, width, vessel.water), "water", f"{key}.water"))
        reach = 0.35 * vessel.water
        shapes.append(
            Area(
                ((width, 0.0), (width, vessel.water), (width - reach, 0.0)),
                "load",
                f"{key}.load",
                "push of the water",
            )
        )
        shapes.append(Measure((0.0, 0.0), (0.0, vessel.water), -0.15, "level"))
        brim = vessel.brim if vessel.brim is not None else height
        shapes.append(Stroke(((0.0, brim), (width, brim)), "ghost", label="brim"))
        told += f", water {show(vessel.water, 'm', system)} deep, spilling at {show(brim, 'm', system)}"
    shapes.append(Measure((-thick, 0.0), (-thick, height), 0.2, "level"))
    shapes.append(Measure((0.0, 0.0), (width, 0.0), -GROUND - 0.2, "level"))
    shapes += level_marks(key, vessel, width + thick, system)
    told += f".{stands_told(vessel, system)}{ports_told(vessel, system)}"
    return Scene(f"structure.{key}.section", f"Section through {key}, looking west", told, tuple(shapes))
