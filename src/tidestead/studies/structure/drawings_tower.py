"""Drawings of a tower: a ring from above, and a section with rings, water, cone and window."""

from __future__ import annotations

import math

from tidestead.core.scene import Area, Measure, Point, Scene, Shape, Stroke, Stuff
from tidestead.core.units import System, show
from tidestead.plan.model import Vessel
from tidestead.studies.structure.drawings_holes import level_marks, ports_told, stands_told, under_stuff

ROUND_SIDES = 72


def polygon(apothem: float, sides: int) -> tuple[Point, ...]:
    """Corners of a regular polygon round the origin, one flat side to the south."""
    radius = apothem / math.cos(math.pi / sides)
    first = -math.pi / 2.0 - math.pi / sides
    return tuple(
        (
            radius * math.cos(first + 2.0 * math.pi * n / sides),
            radius * math.sin(first + 2.0 * math.pi * n / sides),
        )
        for n in range(sides)
    )


def ring_heights(vessel: Vessel) -> tuple[float, ...]:
    """Heights of the rings above the floor, the bottom and top plates among them."""
    rings = vessel.rings
    if rings is None:
        return ()
    if rings.at:
        return tuple(sorted({0.0, *rings.at, vessel.height}))
    if rings.spacing is None:
        return ()
    bays = max(1, math.ceil((vessel.height - 1e-9) / rings.spacing))
    return tuple(vessel.height * number / bays for number in range(bays + 1))


def ring_view(key: str, vessel: Vessel, system: System) -> Scene:
    """A ring from above, round the sheathing and the water."""
    across = vessel.across or 0.0
    sides = vessel.sides if vessel.shape == "polygon" and vessel.sides else ROUND_SIDES
    outward = (
        vessel.rings.section.depth if vessel.rings is not None and vessel.rings.section is not None else 0.05
    )
    inner, outer = across / 2.0, across / 2.0 + outward
    shapes: list[Shape] = [
        Area(polygon(outer, sides), "timber", f"{key}.rings"),
        Area(polygon(inner, sides), "water", f"{key}.water"),
    ]
    if vessel.buttresses is not None and vessel.buttresses.count and vessel.buttresses.reach:
        reach = outer + vessel.buttresses.reach
        for number in range(vessel.buttresses.count):
            angle = math.pi / 4.0 + 2.0 * math.pi * number / vessel.buttresses.count
            foot = (reach * math.cos(angle), reach * math.sin(angle))
            shapes.append(
                Stroke(
                    ((outer * math.cos(angle), outer * math.sin(angle)), foot), "timber", f"{key}.buttresses"
                )
            )
    shapes.append(Measure((-inner, 0.0), (inner, 0.0), 0.0, "sheet"))
    told = f"A ring of {key} from above: {sides if vessel.shape == 'polygon' else 'round'}"
    told += f"{' sides' if vessel.shape == 'polygon' else ''}, {show(across, 'm', system, 'sheet')} across inside."
    return Scene(f"structure.{key}.ring", f"A ring of {key} from above", told, tuple(shapes))


def tower_section(key: str, vessel: Vessel, system: System) -> Scene:
    """A cut up the middle of a tower."""
    half, height = (vessel.across or 0.0) / 2.0, vessel.height
    rings = vessel.rings
    size = (
        (rings.section.breadth, rings.section.depth) if rings is not None and rings.section else (0.045, 0.05)
    )
    shapes: list[Shape] = []
    if vessel.water is not None:
        shapes.append(_box(-half, 0.0, half, vessel.water, "water", f"{key}.water"))
        shapes.append(Measure((half, 0.0), (half, vessel.water), -0.25, "level"))
    shapes.append(_box(-half - 0.5, -0.1, half + 0.5, 0.0, under_stuff(vessel), f"{key}.stands_on"))
    for side in (-1.0, 1.0):
        shapes.append(_box(side * half, 0.0, side * (half + 0.018), height, "sheet", f"{key}.sheathing"))
    shapes += _standing(key, vessel, half + 0.018)
    heights = ring_heights(vessel)
    for number, level in enumerate(heights):
        bottom = min(max(level - size[0] / 2.0, 0.0), height - size[0])
        for side in (-1.0, 1.0):
            begin, end = side * (half + 0.018), side * (half + 0.018 + size[1])
            shapes.append(_box(begin, bottom, end, bottom + size[0], "timber", f"{key}.rings.{number}"))
    for face, wall in vessel.walls.items():
        for name, window in wall.windows.items():
            if window.sill is not None and window.height:
                thick = window.thickness or 0.012
                shapes.append(
                    _box(
                        -half,
                        window.sill,
                        thick - half,
                        window.sill + window.height,
                        "clear",
                        f"{key}.{face}.{name}",
                    )
                )
    shapes += _cone(key, vessel, half)
    shapes += level_marks(key, vessel, half + 0.018 + size[1], system)
    shapes.append(Measure((-half - 0.018 - size[1], 0.0), (-half - 0.018 - size[1], height), 0.2, "level"))
    told = (
        f"Section of {key}: {show(height, 'm', system)} high, {len(heights)} rings with bottom and top plates"
    )
    if vessel.water is not None:
        told += f", water {show(vessel.water, 'm', system)} deep"
    told += f".{stands_told(vessel, system)}{ports_told(vessel, system)}"
    return Scene(f"structure.{key}.section", f"Section through {key}", told, tuple(shapes))


def _standing(key: str, vessel: Vessel, outside: float) -> list[Shape]:
    """Ribs along the faces, and buttresses from the top plate down to their feet, on both sides of the cut."""
    found: list[Shape] = []
    ribs, prop = vessel.ribs, vessel.buttresses
    for side in (-1.0, 1.0):
        if ribs is not None and ribs.section is not None:
            deep = outside + ribs.section.depth
            found.append(_box(side * outside, 0.0, side * deep, vessel.height, "timber", f"{key}.ribs"))
        if prop is not None and prop.reach:
            top, foot = (side * outside, vessel.height), (side * (outside + prop.reach), 0.0)
            found.append(Stroke((top, foot), "timber", f"{key}.buttresses", label="buttress"))
    return found


def _box(left: float, bottom: float, right: float, top: float, stuff: Stuff, part: str) -> Area:
    low, high = min(left, right), max(left, right)
    return Area(((low, bottom), (high, bottom), (high, top), (low, top)), stuff, part)


def _cone(key: str, vessel: Vessel, half: float) -> list[Shape]:
    if vessel.cone is None:
        return []
    base, top = vessel.height, vessel.height + vessel.cone.height
    neck = vessel.cone.neck / 2.0
    return [
        Stroke(((-half, base), (-neck, top)), "outline", f"{key}.cone"),
        Stroke(((half, base), (neck, top)), "outline", f"{key}.cone"),
        Stroke(((-neck, top), (neck, top)), "outline", f"{key}.cone"),
    ]
