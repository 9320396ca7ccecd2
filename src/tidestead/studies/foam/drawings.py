"""The tower in section, true to scale, with what goes on in it."""

from __future__ import annotations

import math

from tidestead.core.scene import Area, Measure, Note, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.foam.bubble_steps import size_words
from tidestead.studies.foam.checks import likely_state
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.foam.level_checks import course_words
from tidestead.studies.foam.neck_checks import likely_neck

_STUB = 0.16
"""Metres from the wall to the end of a port's pipe, and to the riser."""

_ASIDE = 0.55
"""Metres from the wall to the words beside it."""

_LINE = 0.13
"""Metres between two lines of words."""


def scenes_of(plan: Plan, facts: FoamFacts, system: System) -> tuple[Scene, ...]:
    """One section for each fractionator."""
    return tuple(_section(plan.vessels[tower.key], tower, system) for tower in facts.towers)


def _section(vessel: Vessel, tower: TowerFoam, system: System) -> Scene:
    half, key = tower.width / 2.0, tower.key
    lines = _figures(tower, system)
    shapes: list[Shape] = [
        *_water(tower, half),
        Stroke(((-half, vessel.height), (-half, 0.0), (half, 0.0), (half, vessel.height)), "outline", key),
        Measure((-half, 0.0), (half, 0.0), -0.12, "sheet"),
        *_levels(tower, half, system),
        *_cone(vessel, tower, half, system),
        *_diffuser(tower, half),
        *_ports(vessel, tower, half),
        *_riser(tower, half, system),
    ]
    top = vessel.height + (vessel.cone.height if vessel.cone is not None else 0.0)
    for number, words in enumerate(lines):
        shapes.append(Note((half + _ASIDE, top - _LINE * (number + 1)), words, key))
    told = f"Section of {key} to scale: " + "; ".join(lines) + "."
    return Scene(f"foam.{key}.section", f"{key}: what goes on in it", told, tuple(shapes))


def _surface(tower: TowerFoam) -> float:
    """With the air on, where that could be told."""
    return tower.lift.level.likely if tower.lift.level is not None else tower.level


def _water(tower: TowerFoam, half: float) -> list[Shape]:
    surface = _surface(tower)
    return [
        Area(((-half, 0.0), (half, 0.0), (half, surface), (-half, surface)), "water", f"{tower.key}.water")
    ]


def _levels(tower: TowerFoam, half: float, system: System) -> list[Shape]:
    """Both surfaces, and the height along which water and bubbles meet."""
    clear, surface, part = tower.level, _surface(tower), f"{tower.key}.water"
    shapes: list[Shape] = [Stroke(((-half, clear), (half, clear)), "ghost", part)]
    if tower.lift.level is not None and surface > clear:
        words = f"{show(surface, 'm', system, 'fine')} with air, {show(clear, 'm', system, 'fine')} without"
        shapes.append(Note((half + _STUB / 2.0, surface), words, part))
    heights = tower.way.heights
    upper = max(heights.feed, heights.outlet)
    if tower.way.met > 0.0:
        foot = upper - tower.way.met
        shapes.append(Measure((0.0, foot), (0.0, upper), 0.0, "level", "they meet along"))
    return shapes


def _cone(vessel: Vessel, tower: TowerFoam, half: float, system: System) -> list[Shape]:
    """The cone with its slope, the neck with its width and the least that its foam bears."""
    if vessel.cone is None:
        return []
    base, top, neck = vessel.height, vessel.height + vessel.cone.height, vessel.cone.neck / 2.0
    part = f"{tower.key}.neck"
    shapes: list[Shape] = [
        Stroke(((-half, base), (-neck, top)), "outline", part),
        Stroke(((half, base), (neck, top)), "outline", part),
        Measure((-neck, top), (neck, top), 0.1, "sheet", "neck"),
    ]
    if tower.slope is not None:
        middle = (-(half + neck) / 2.0, (base + top) / 2.0)
        shapes.append(Note((middle[0] - 0.06, middle[1]), f"slope {show(tower.slope, 'rad', system)}", part))
    return shapes


def _diffuser(tower: TowerFoam, half: float) -> list[Shape]:
    """The diffuser, and bubbles over it as a hint, not to scale and not counted."""
    height, part = tower.way.heights.diffuser, f"{tower.key}.air"
    shapes: list[Shape] = [
        Stroke(((-0.7 * half, height), (0.7 * half, height)), "metal", part),
        Note((0.0, height - 0.05), "diffuser", part),
    ]
    return shapes


def _ports(vessel: Vessel, tower: TowerFoam, half: float) -> list[Shape]:
    found: list[Shape] = []
    for name, port in vessel.ports.items():
        side = 1.0 if port.kind in ("outlet", "spill") else -1.0
        part, end = f"{tower.key}.{name}", side * (half + _STUB)
        found.append(Stroke(((side * half, port.level), (end, port.level)), "metal", part))
        if name != tower.way.outlet or tower.way.riser is None:
            found.append(Note((end, port.level), name, part))
    return found


def _riser(tower: TowerFoam, half: float, system: System) -> list[Shape]:
    """The standpipe outside that sets the level, with clear water up to a little over its lip."""
    way = tower.way
    if way.riser is None:
        return []
    left, wide, part = -(half + _STUB), max(way.bore, 0.03), f"{tower.key}.{way.outlet}"
    foot = way.heights.outlet
    return [
        Area(((left - wide, foot), (left, foot), (left, way.riser), (left - wide, way.riser)), "water", part),
        Stroke(
            ((left - wide, way.riser), (left - wide, foot), (left, foot), (left, way.riser)), "metal", part
        ),
        Note((left - wide, way.riser + 0.05), f"riser {show(way.riser, 'm', system, 'level')}", part),
        Note((left - wide, foot), way.outlet, part),
    ]


def _figures(tower: TowerFoam, system: System) -> list[str]:
    likely = likely_state(tower)
    lines = [
        f"water {show(tower.water_flow, 'm3/s', system)}, {show(likely.water_speed, 'm/s', system)}",
        f"it goes {course_words(tower)}" if tower.way.met > 0.0 else course_words(tower),
        f"air {show(tower.air_flow, 'm3/s', system, 'air')}, {show(likely.gas_speed, 'm/s', system)}",
        f"air pressure {show(tower.air_pressure, 'Pa', system, 'air')}",
        f"bubbles {size_words(likely.bubble, system)}",
    ]
    if likely.holdup is None or likely.water_dwell is None or likely.bubble_dwell is None:
        lines.append("the column floods")
    else:
        lines.append(f"air in the column {100.0 * likely.holdup:.1f} %")
        if math.isfinite(likely.water_dwell):
            lines.append(f"water stays {show(likely.water_dwell, 's', system)}")
        lines.append(f"bubbles stay {show(likely.bubble_dwell, 's', system)}")
    if tower.necks:
        neck = likely_neck(tower)
        lines.append(f"air in the neck {show(neck.gas_speed, 'm/s', system)}")
        lines.append(f"its foam bears {show(neck.largest_speed, 'm/s', system)}")
    return lines
