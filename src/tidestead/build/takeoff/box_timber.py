"""Timber of a box: studs, plates, rims, timbers round windows, ties, buttresses."""

from __future__ import annotations

import math

from tidestead.build.takeoff.box_corners import LAPPED, RULE, Box, plate_length, rim_length
from tidestead.build.takeoff.box_layout import Layout
from tidestead.build.takeoff.fixings import HEEL_ANCHOR, UPLIFT_ANCHOR, joints, strut_anchors
from tidestead.build.takeoff.gathered import Cut, Gathered, Part
from tidestead.build.takeoff.struts import strut_of
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import Section
from tidestead.plan.model import Crosspiece, Jambs, Timber, WallButtresses, Window
from tidestead.studies.openings import opening_or_sheet
from tidestead.studies.structure.drawings_box import stud_places
from tidestead.studies.structure.props import props_along

LETTERS = {"north": "N", "south": "S", "east": "E", "west": "W"}
"""What marks of a wall begin with."""


def wall_timber(gathered: Gathered, box: Box, layout: Layout) -> None:
    """All timber of one wall, and what joins it."""
    wall = layout.place.name
    path = f"{box.path}.walls.{wall}"
    _studs(gathered, path, layout)
    _plate(gathered, box, path, layout)
    _rim(gathered, box, path, wall)
    for name, window in layout.place.wall.windows.items():
        if name in layout.windows:
            _opening(gathered, f"{path}.windows.{name}.opening", (wall, name, window), layout)
    prop = layout.place.wall.buttresses
    if prop is not None:
        _buttresses(gathered, f"{path}.buttresses", prop, layout)


def _studs(gathered: Gathered, path: str, layout: Layout) -> None:
    wall, studs = layout.place.name, layout.place.wall.studs
    if studs is None or studs.section is None or studs.grade is None or studs.spacing is None:
        gathered.lacks(f"{path}.studs", f"Say section, grade and spacing of the {wall} wall's studs.")
        return
    cuts = [Cut(one.length, 1, f"{one.words}, {wall} wall") for one in layout.uprights]
    places = stud_places(layout.place)
    height, plate = layout.place.height, layout.plate
    basis = (
        f"{len(places)} places, {gathered.told(places[1] - places[0])} apart; from the plate to the underside of the "
        f"rim, {gathered.told(height)} less {gathered.told(plate)}"
    )
    if layout.replaced:
        basis += f"; jambs take the place of {layout.replaced}"
    part = Part(f"{path}.studs", f"studs of the {wall} wall", LETTERS[wall])
    gathered.timber(part, (studs.section, studs.grade), cuts, basis)
    number = len(layout.uprights)
    for end, words, fixing in (("top", "heads", studs.top), ("foot", "feet", studs.foot)):
        joined = Part(f"{path}.studs.{end}", f"{words} of the {wall} wall's studs, short ones too", "")
        joints(gathered, joined, fixing, number)


def _plate(gathered: Gathered, box: Box, path: str, layout: Layout) -> None:
    """The bottom plate, and the ledger outside it."""
    wall, studs, base = layout.place.name, layout.place.wall.studs, layout.place.wall.base
    if studs is None or studs.section is None or studs.grade is None:
        return  # told with the studs
    length = plate_length(box, wall)
    if length is None:
        sentence = f"Say studs and sheathing of the walls beside the {wall} wall: its plate ends there."
        gathered.lacks(f"{box.path}.walls", sentence)
        return
    section, source = _laid(layout.plate, studs.section), PRACTICE
    how = "assumed, since the plan names none: a stud laid flat"
    if base is not None and base.plate is not None:
        how, source = f"{gathered.told(base.plate)} thick as the plan says, as wide as its studs", COMPUTED
    level = _bedded(gathered, box)
    part = Part(f"{path}.base", f"bottom plate of the {wall} wall", LETTERS[wall])
    gathered.timber(part, (section, studs.grade), [Cut(length, 1)], f"{how}; {RULE}{level}", source)
    if base is not None and base.carried_by == "ledger":
        part = Part(f"{path}.base", f"ledger of the {wall} wall", LETTERS[wall])
        gathered.timber(
            part, (section, studs.grade), [Cut(length, 1)], f"{how}; as long as the plate", source
        )


def _laid(thickness: float, stud: Section) -> Section:
    """One timber as thick as asked and as wide as a stud is deep."""
    if thickness == stud.breadth:
        return Section(1, stud.breadth, stud.depth, stud.nominal)
    return Section(1, thickness, stud.depth, "")


def _bedded(gathered: Gathered, box: Box) -> str:
    fall = box.vessel.stands_on.drop
    return f"; bedded level where the floor falls {gathered.told(fall)}" if fall else ""


def _rim(gathered: Gathered, box: Box, path: str, wall: str) -> None:
    rim = box.walls[wall].wall.rim
    if rim is None or rim.section is None or rim.grade is None or rim.lies is None:
        gathered.lacks(f"{path}.rim", f"Say section and grade of the {wall} wall's rim and how it lies.")
        return
    single = Section(1, rim.section.breadth, rim.section.depth, rim.section.nominal)
    lengths = [rim_length(box, wall, plank) for plank in range(rim.section.pieces)]
    if any(length is None for length in lengths):
        sentence = f"Say the rims of the walls beside the {wall} wall: its own ends there."
        gathered.lacks(f"{box.path}.walls", sentence)
        return
    flat = box.rims_flat()
    basis = f"{rim.section.pieces} lying {rim.lies}; {LAPPED if flat else RULE}"
    part = Part(f"{path}.rim", f"rim of the {wall} wall", LETTERS[wall])
    gathered.timber(part, (single, rim.grade), [Cut(length or 0.0, 1) for length in lengths], basis)
    planes = (rim.section.pieces - 1) / rim.section.pieces
    gathered.fastened(part, planes * sum(length or 0.0 for length in lengths), rim.section.breadth)


def _opening(gathered: Gathered, path: str, window: tuple[str, str, Window], layout: Layout) -> None:
    """Timbers round a window in a box: jambs from plate to rim, sill and header from jamb to jamb."""
    wall, name, what = window
    words = f"window {name} in the {wall} wall"
    span = layout.place.height - layout.plate
    basis = f"from plate to rim, {gathered.told(layout.place.height)} less {gathered.told(layout.plate)}"
    round_window(gathered, path, (words, LETTERS[wall]), what, (span, basis))


def round_window(
    gathered: Gathered, path: str, called: tuple[str, str], window: Window, jamb: tuple[float, str]
) -> None:
    """The timbers round a window; `jamb` is the length of one and how it follows."""
    opening, (words, letters) = window.opening, called
    if opening.jambs is not None:
        part = Part(f"{path}.jambs", f"jambs of {words}", letters)
        section = _said(gathered, part, opening.jambs)
        if section is not None:
            gathered.timber(part, section, [Cut(jamb[0], 2)], f"one on each side, {jamb[1]}")
        for end, fixing in (("top", opening.jambs.top), ("foot", opening.jambs.foot)):
            joints(gathered, Part(f"{path}.jambs.{end}", f"{end} of the jambs of {words}", ""), fixing, 2)
    for kind, timber in (("sill", opening.sill), ("header", opening.header)):
        if timber is None:
            continue
        part = Part(f"{path}.{kind}", f"{kind} of {words}", letters)
        section = _said(gathered, part, timber)
        if section is not None:
            left, _, right, _ = opening_or_sheet(
                window, (0.0, 0.0, window.width or 0.0, window.height or 0.0)
            )
            told = "from jamb to jamb, as wide as the clear opening"
            gathered.timber(part, section, [Cut(right - left, 1)], told)
        joints(gathered, Part(f"{path}.{kind}.joint", f"ends of the {kind} of {words}", ""), timber.joint, 2)


def _said(
    gathered: Gathered, part: Part, timber: Timber | Crosspiece | Jambs | WallButtresses
) -> tuple[Section, str] | None:
    """A timber's section and grade, where the plan says both."""
    if timber.section is None or timber.grade is None:
        gathered.lacks(part.key, f"Say section and grade of the {part.what}.")
        return None
    return timber.section, timber.grade


def _buttresses(gathered: Gathered, path: str, prop: WallButtresses, layout: Layout) -> None:
    """Raking struts: between the corners, no further apart than the spacing."""
    wall = layout.place.name
    part = Part(path, f"buttresses of the {wall} wall", LETTERS[wall])
    section = _said(gathered, part, prop)
    if prop.spacing is None or prop.reach is None:
        gathered.lacks(path, f"Say spacing and reach of the {part.what}.")
        return
    if section is None:
        return
    strut = strut_of(prop.reach, layout.place.height, section[0].depth)
    if strut is None:
        gathered.lacks(f"{path}.reach", f"The {part.what} reach no further than they are deep.")
        return
    count = max(len(props_along(layout.place.length, prop.spacing)) - 2, 0)
    basis = strut.told(gathered, prop.reach, layout.place.height)
    cut = Cut(strut.length, count, ends=(strut.angle, -strut.angle))
    gathered.timber(part, section, [cut], f"{count} between the corners; {basis}")
    joints(gathered, Part(f"{path}.joint", f"heads of the {part.what}", ""), prop.joint, count)
    if prop.anchor_capacity is not None:
        words = f"anchors against uplift beside the {part.what}"
        strut_anchors(gathered, f"{path}.anchor_capacity", words, (UPLIFT_ANCHOR, count))
    if prop.heel_capacity is not None:
        words = f"anchors at the heels of the {part.what}"
        strut_anchors(gathered, f"{path}.heel_capacity", words, (HEEL_ANCHOR, count))


def ties(gathered: Gathered, box: Box) -> None:
    """Timbers across the top, from rim to rim."""
    vessel = box.vessel
    for name, tie in vessel.ties.items():
        path = f"{box.path}.ties.{name}"
        part = Part(path, f"ties {name}", "T")
        if tie.section is None or tie.grade is None:
            gathered.lacks(path, f"Say section and grade of the {part.what}.")
            continue
        inside = (vessel.width if tie.across == "width" else vessel.length) or 0.0
        between = tie.end_joint.into == "end"
        widths = [0.0, 0.0] if between else [box.rim_width(wall) for wall in box.across(tie.across)]
        if any(width is None for width in widths):
            gathered.lacks(f"{box.path}.walls", f"Say the rims that the {part.what} hold.")
            continue
        over = "between the rims, fixed into its ends" if between else "over both rims to their outsides"
        length = inside + sum(width or 0.0 for width in widths)
        basis = f"{over}, {gathered.told(inside)} inside"
        gathered.timber(part, (tie.section, tie.grade), [Cut(length, len(tie.at))], basis)
        ends = Part(f"{path}.end_joint", f"ends of the {part.what}", "")
        joints(gathered, ends, tie.end_joint, 2 * len(tie.at))


def floor_ties(gathered: Gathered, box: Box) -> None:
    """Timbers under the floor from wall to wall; two opposite walls that are held by them share them."""
    for direction in ("width", "length"):
        held = [
            (name, base)
            for name in box.across(direction)
            if (base := box.walls[name].wall.base) is not None and base.carried_by == "floor ties"
        ]
        spaced = [one for one in held if one[1].spacing is not None]
        if not spaced:
            continue
        wall, base = min(spaced, key=lambda one: one[1].spacing or math.inf)
        path = f"{box.path}.walls.{wall}.base"
        outside = [box.studs_outside(name) for name in box.across(direction)]
        inside = (box.vessel.width if direction == "width" else box.vessel.length) or 0.0
        if base.tie is None or base.tie.section is None or base.tie.grade is None:
            gathered.lacks(f"{path}.tie", f"Say section and grade of the floor ties of the {wall} wall.")
            continue
        if any(one is None for one in outside):
            sentence = f"Say studs and sheathing of both walls that the floor ties of the {wall} wall join."
            gathered.lacks(f"{box.path}.walls", sentence)
            continue
        count = len(props_along(box.walls[wall].length, base.spacing or math.inf))
        part = Part(f"{path}.tie", f"floor ties of the {wall} wall", "F")
        cut = Cut(inside + sum(one or 0.0 for one in outside), count)
        basis = (
            f"{count} along {gathered.told(box.walls[wall].length)}, from outside to outside of the plates"
        )
        gathered.timber(part, (base.tie.section, base.tie.grade), [cut], basis)
        joints(gathered, Part(f"{path}.tie_joint", f"ends of the {part.what}", ""), base.tie_joint, 2 * count)


def corners(gathered: Gathered, box: Box) -> None:
    """What joins the rims at the four corners."""
    corner = box.vessel.corners
    path = f"{box.path}.corners"
    if corner is None:
        gathered.lacks(path, "Say how the rims are joined at the corners.")
        return
    joints(gathered, Part(f"{path}.joint", "corners of the rims", ""), corner.joint, 4)
