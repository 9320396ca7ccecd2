"""Timber of a tower: rings with their plates, ribs, timbers round windows, buttresses, and its cone."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.build.takeoff.box_layout import LEAST
from tidestead.build.takeoff.box_timber import round_window
from tidestead.build.takeoff.fixings import HEEL_ANCHOR, joints, strut_anchors
from tidestead.build.takeoff.gathered import Counted, Cut, Gathered, Part
from tidestead.build.takeoff.ring_pieces import RingPiece, bent, halved, mitred
from tidestead.build.takeoff.struts import strut_of
from tidestead.build.takeoff.tower_shape import Tower
from tidestead.core.units import Section, show
from tidestead.plan.items import Item
from tidestead.plan.model import Rings
from tidestead.studies.structure.drawings_tower import ring_heights
from tidestead.studies.structure.round_tower import bay_of


def tower_timber(gathered: Gathered, tower: Tower) -> None:
    """All timber of a tower, and its cone."""
    _rings(gathered, tower)
    _ribs(gathered, tower)
    _openings(gathered, tower)
    _buttresses(gathered, tower)
    if tower.vessel.cone is not None:
        cone = Part(f"{tower.path}.cone", f"cone of {tower.key}", "")
        high, neck = (
            gathered.told(one, "sheet") for one in (tower.vessel.cone.height, tower.vessel.cone.neck)
        )
        basis = f"{high} high, its neck {neck} wide"
        gathered.counted(
            Item("cone", tower.key), 1.0, cone, basis, Counted(trade="machines", phase="pipework")
        )


def _rings(gathered: Gathered, tower: Tower) -> None:
    rings, path = tower.vessel.rings, f"{tower.path}.rings"
    levels = ring_heights(tower.vessel)
    if rings is None or rings.section is None or rings.grade is None or not levels:
        gathered.lacks(path, f"Say section, grade and spacing of the rings of {tower.key}.")
        return
    inner = tower.outside()
    if inner is None:
        gathered.lacks(f"{tower.path}.walls", f"Say the sheathing of {tower.key}: its rings lie round it.")
        return
    piece, how, work = _ring_piece(gathered, tower, rings, inner)
    each = tower.sides or 1
    names = ["bottom plate", *["ring"] * (len(levels) - 2), "top plate"]
    cuts = [
        Cut(piece.length, each, f"{name} of {tower.key}", (piece.angle, piece.angle), work) for name in names
    ]
    part = Part(path, f"rings of {tower.key}", "R")
    basis = f"{len(levels)} with bottom and top plate, {each} piece{'s' if each > 1 else ''} each; {how}"
    gathered.timber(part, (rings.section, rings.grade), cuts, basis)
    where = Part(f"{path}.joint", f"corners of the rings of {tower.key}", "")
    joints(gathered, where, rings.joint, each * len(levels))


def _ring_piece(gathered: Gathered, tower: Tower, rings: Rings, inner: float) -> tuple[RingPiece, str, str]:
    """One piece, how it follows, and what else is cut of it."""
    section = rings.section
    depth, breadth = (section.depth, section.breadth) if section is not None else (0.0, 0.0)
    if not tower.sides:
        hoop = "assumed bent or laminated: the outer girth, without a scarf"
        return bent(inner, depth), hoop, ""
    lapped = rings.joint.into != "end"
    piece = (halved if lapped else mitred)(inner, depth, tower.sides)
    angle = show(piece.angle, "rad", gathered.system)
    size = (
        f"{gathered.told(2.0 * inner, 'sheet')} across inside the ring, {gathered.told(depth, 'sheet')} deep"
    )
    if lapped:
        side = "inside" if tower.sides > 3 else "outside"
        how = "halved into each other at the corners, as the check of rings takes them"
        return (
            piece,
            f"{how}: {size}, ends {angle} off square",
            f"long side {side}; both ends halved to {gathered.told(breadth / 2.0)}",
        )
    return piece, f"mitred at the corners: {size}, ends {angle} off square", "long side outside"


def _ribs(gathered: Gathered, tower: Tower) -> None:
    ribs, path = tower.vessel.ribs, f"{tower.path}.ribs"
    if ribs is None:
        return
    if ribs.section is None or ribs.grade is None:
        gathered.lacks(path, f"Say section and grade of the ribs of {tower.key}.")
        return
    foot, head = tower.rib_ends()
    cuts = list(_face_ribs(tower, foot, head))
    if tower.sides and ribs.at_corners:
        turn = show(math.pi / tower.sides, "rad", gathered.system)
        bevel = f"inner edge bevelled {turn} to both sides"
        cuts.append(Cut(head - foot, tower.sides, f"corner rib of {tower.key}", holes=bevel))
    basis = (
        f"in one length from bottom plate to top plate, {gathered.told(tower.vessel.height)} less both, as their check "
        "takes them; where a ring crosses, one is let into the other, and no check counts what that takes away"
    )
    gathered.timber(Part(path, f"ribs of {tower.key}", "U"), (ribs.section, ribs.grade), cuts, basis)


def _face_ribs(tower: Tower, foot: float, head: float) -> Iterator[Cut]:
    """Ribs of every face; one in the way of a window ends at the rings under and over it."""
    for face in tower.faces:
        windows = [rect for _, rect in tower.windows(face)]
        for at in tower.ribs_at():
            crossed = [rect for rect in windows if rect[0] < at < rect[2]]
            begin = foot
            for rect in sorted(crossed, key=lambda one: one[1]):
                low, high = _rings_round(tower, rect)
                if low - begin > LEAST:
                    yield Cut(low - begin, 1, f"rib of {tower.key} under a window")
                begin = max(begin, high)
            if head - begin > LEAST:
                words = f"rib of {tower.key} over a window" if crossed else f"rib of {tower.key}"
                yield Cut(head - begin, 1, words)


def _rings_round(tower: Tower, rect: tuple[float, float, float, float]) -> tuple[float, float]:
    """From the underside of the ring under a window to the top of the ring over it: no rib stands between."""
    tall = _ring_height(tower)
    foot, head = tower.clear_bay(rect)
    low, high = bay_of(tower.vessel, rect)
    return (foot - tall if low > 0.0 else foot), (head + tall if high < tower.vessel.height else head)


def _ring_height(tower: Tower) -> float:
    """How tall a ring is."""
    rings = tower.vessel.rings
    return rings.section.breadth if rings is not None and rings.section is not None else 0.0


def _openings(gathered: Gathered, tower: Tower) -> None:
    """Timbers round windows: jambs from ring to ring, sill and header from jamb to jamb."""
    for face in tower.faces:
        for name, rect in tower.windows(face):
            low, high = tower.clear_bay(rect)
            words = f"window {name} in face {face} of {tower.key}"
            path = f"{tower.path_of(face)}.windows.{name}.opening"
            told = f"from ring to ring, {gathered.told(high - low)} between them"
            round_window(gathered, path, (words, "O"), tower.wall(face).windows[name], (high - low, told))


def _buttresses(gathered: Gathered, tower: Tower) -> None:
    props, path = tower.vessel.buttresses, f"{tower.path}.buttresses"
    if props is None:
        return
    if not props.count or not props.reach or props.section is None or props.grade is None:
        gathered.lacks(path, f"Say count, reach, section and grade of the buttresses of {tower.key}.")
        return
    strut = strut_of(props.reach, tower.vessel.height, props.section.depth)
    if strut is None:
        gathered.lacks(f"{path}.reach", f"The buttresses of {tower.key} reach no further than they are deep.")
        return
    cut = Cut(strut.length, props.count, ends=(strut.angle, -strut.angle))
    section: Section = props.section
    told = strut.told(gathered, props.reach, tower.vessel.height)
    basis = f"{props.count}: {told}"
    gathered.timber(Part(path, f"buttresses of {tower.key}", "B"), (section, props.grade), [cut], basis)
    if props.anchor_capacity is not None:
        words = f"anchors at the heels of the buttresses of {tower.key}"
        strut_anchors(gathered, f"{path}.anchor_capacity", words, (HEEL_ANCHOR, props.count))
