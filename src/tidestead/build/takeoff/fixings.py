"""Fasteners and anchors: so many in each joint, and along the foot of a wall."""

from __future__ import annotations

import math

from tidestead.build.takeoff.box_corners import Box
from tidestead.build.takeoff.gathered import ASSUMED, Counted, Gathered, Part
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import BaseJoint, Fixing
from tidestead.studies.structure.props import props_along

EDGE_SCREWS, FIELD_SCREWS = 0.150, 0.300
"""Apart along the edges of a sheet and over the timbers between, metres. Common practice, no source."""

SCREW_LENGTHS = 2.5
"""A screw through a sheet is so many times as long as the sheet is thick. Common practice, no source."""

SHEATHING_SCREW = Item(OWN, "sheathing-screw")
STEEL_ANGLE = Item(OWN, "steel-angle")
HEEL_ANCHOR, UPLIFT_ANCHOR = Item(OWN, "heel-anchor"), Item(OWN, "uplift-anchor")


def strut_anchors(gathered: Gathered, key: str, words: str, of: tuple[Item, int]) -> None:
    """What holds struts to the floor, one at each place, as its check takes it."""
    item, count = of
    basis = f"1 at each of {count}, as the check takes it; the plan does not tell its size"
    gathered.counted(item, float(count), Part(key, words, ""), basis)


def joints(gathered: Gathered, part: Part, fixing: Fixing, count: int) -> None:
    """The fasteners of so many equal joints."""
    if count < 1:
        return
    if fixing.fastener is None or fixing.count is None:
        absent = [name for name in ("fastener", "count") if getattr(fixing, name) is None]
        gathered.lacks(f"{part.key}.{absent[0]}", f"Say what holds the {part.what}, and how many of it.")
        return
    one = "joint" if count == 1 else "joints"
    basis = f"{fixing.count} in each of {count} {one}"
    gathered.counted(Item("fastener", fixing.fastener), float(fixing.count * count), part, basis)


def base_fixings(gathered: Gathered, box: Box, wall: str) -> None:
    """What holds the bottom plate or the ledger to the floor."""
    base, length = box.walls[wall].wall.base, box.walls[wall].length
    path = f"{box.path}.walls.{wall}.base"
    if base is None or base.carried_by is None:
        gathered.lacks(f"{path}.carried_by", f"Say what holds the foot of the {wall} wall.")
        return
    if base.spacing is None:
        gathered.lacks(f"{path}.spacing", f"Say how far apart the {base.carried_by} of the {wall} wall are.")
        return
    if base.bears_on == "steel" and base.carried_by != "floor ties":
        angle = Part(path, f"angle of steel along the plate of the {wall} wall", "")
        basis = f"along the {gathered.told(length)} wall; the plan does not tell its size"
        gathered.counted(STEEL_ANGLE, length, angle, basis, Counted(unit="m"))
    if base.carried_by == "floor ties":
        return
    count = len(props_along(length, base.spacing))
    told = f"one at each end of {gathered.told(length)}, {gathered.told(base.spacing)} apart at most"
    _fasteners(gathered, Part(path, f"foot of the {wall} wall", ""), base, count, told)


def _fasteners(gathered: Gathered, part: Part, base: BaseJoint, count: int, basis: str) -> None:
    if base.carried_by == "anchors":
        if base.diameter is None:
            gathered.lacks(f"{part.key}.diameter", f"Say how thick the anchors at the {part.what} are.")
            return
        gathered.counted(Item.anchor(base.diameter), float(count), _called(part, "anchors"), basis)
        return
    if base.fastener is None:
        gathered.lacks(f"{part.key}.fastener", f"Say what fastens the ledger at the {part.what}.")
        return
    gathered.counted(Item("fastener", base.fastener), float(count), _called(part, "ledger"), basis)


def _called(part: Part, words: str) -> Part:
    return Part(part.key, f"{words} at the {part.what}", part.letters)


def sheathing_screws(gathered: Gathered, part: Part, lengths: tuple[float, float], thickness: float) -> None:
    """Screws through sheets: `lengths` are of all edges, openings' among them, and of the timbers between."""
    edges, field = lengths
    count = math.ceil(edges / EDGE_SCREWS) + math.ceil(field / FIELD_SCREWS)
    long = [gathered.told(one, "level") for one in lengths]
    apart = f"{gathered.told(EDGE_SCREWS)} at edges and {gathered.told(FIELD_SCREWS)} between"
    basis = (
        f"assumed, since the plan names no fastener of sheets: every {apart}; {long[0]} of edges, {long[1]} of timbers "
        f"between; at least {gathered.told(SCREW_LENGTHS * thickness)} long"
    )
    gathered.counted(SHEATHING_SCREW, float(count), part, basis, ASSUMED)
