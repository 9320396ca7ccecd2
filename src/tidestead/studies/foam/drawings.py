"""The tower in section, true to scale, with what goes on in it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.core.scene import Area, Measure, Note, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.foam.bubble_steps import size_words
from tidestead.studies.foam.checks import likely_state
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.foam.neck_checks import likely_neck

_STUB = 0.16
"""Metres from the wall to the end of a port's pipe, and to the riser."""

_BESIDE = 0.34
"""Metres from the wall to the line that shows where water and bubbles meet."""

_LIST = 0.52
"""Metres from the wall to the list of figures."""

_LINES = 15.0
"""So many lines of words the height of a tower has room for."""


def scenes_of(plan: Plan, facts: FoamFacts, system: System) -> tuple[Scene, ...]:
    """One section for each fractionator."""
    return tuple(_section(plan.vessels[tower.key], tower, system) for tower in facts.towers)


def _section(vessel: Vessel, tower: TowerFoam, system: System) -> Scene:
    half, key = tower.width / 2.0, tower.key
    lines = [*_level_words(tower, system), *_figures(tower, system)]
    top = vessel.height + (vessel.cone.height if vessel.cone is not None else 0.0)
    pitch, begin = top / _LINES, _surface(tower)
    listed = [Note((half + _LIST, begin - pitch * number), words, key) for number, words in enumerate(lines)]
    shapes: list[Shape] = [
        *_water(tower, half),
        Stroke(((-half, vessel.height), (-half, 0.0), (half, 0.0), (half, vessel.height)), "outline", key),
        Measure((-half, 0.0), (half, 0.0), -0.12, "sheet"),
        *_levels(tower, half),
        *_cone(vessel, tower, half, system),
        *_diffuser(tower, half),
        *_ports(vessel, tower, half),
        *_riser(tower, half),
        *listed,
    ]
    told = f"Section of {key} to scale: " + _in_words([*_neck_words(tower, system), *lines]) + "."
    return Scene(f"foam.{key}.section", f"{key}: what goes on in it", told, tuple(shapes))


def _in_words(lines: Sequence[str]) -> str:
    """The same in one sentence; a line that breaks off goes on with the next."""
    return "; ".join(lines).replace("water; ", "water ")


def _surface(tower: TowerFoam) -> float:
    """With the air on, where that could be told."""
    return tower.lift.level.likely if tower.lift.level is not None else tower.level


def _water(tower: TowerFoam, half: float) -> list[Shape]:
    surface = _surface(tower)
    return [
        Area(((-half, 0.0), (half, 0.0), (half, surface), (-half, surface)), "water", f"{tower.key}.water")
    ]


def _level_words(tower: TowerFoam, system: System) -> list[str]:
    clear, surface = tower.level, _surface(tower)
    if surface <= clear:
        return [f"{show(clear, 'm', system, 'level')} deep"]
    return [
        f"{show(surface, 'm', system, 'level')} with air",
        f"{show(clear, 'm', system, 'level')} without",
    ]


def _levels(tower: TowerFoam, half: float) -> list[Shape]:
    """Both surfaces, and the height along which water and bubbles meet."""
    clear, surface, part = tower.level, _surface(tower), f"{tower.key}.water"
    shapes: list[Shape] = []
    if surface > clear:
        shapes.append(Stroke(((-half, clear), (half, clear)), "ghost", part, "level without the air"))
    upper = max(tower.way.heights.feed, tower.way.heights.outlet)
    if tower.way.met > 0.0:
        foot = upper - tower.way.met
        shapes.append(Measure((half, foot), (half, upper), -_BESIDE, "level"))
    return shapes


def _neck_words(tower: TowerFoam, system: System) -> list[str]:
    if not tower.necks:
        return []
    neck = likely_neck(tower)
    return [
        f"air in the neck {show(neck.gas_speed, 'm/s', system)}",
        f"foam of {size_words(neck.bubble, system)}",
        f"bears {show(neck.largest_speed, 'm/s', system)}",
    ]


def _cone(vessel: Vessel, tower: TowerFoam, half: float, system: System) -> list[Shape]:
    """The cone with its slope, the neck with its width and what its foam bears."""
    if vessel.cone is None:
        return []
    base, rise, neck = vessel.height, vessel.cone.height, vessel.cone.neck / 2.0
    part, top = f"{tower.key}.neck", vessel.height + vessel.cone.height
    shapes: list[Shape] = [
        Stroke(((-half, base), (-neck, top)), "outline", part),
        Stroke(((half, base), (neck, top)), "outline", part),
        Measure((-neck, top), (neck, top), 0.1, "sheet", "neck"),
    ]
    if tower.slope is not None:
        words = f"slope {show(tower.slope, 'rad', system)}"
        shapes.append(Note((-half - _STUB, base + 0.75 * rise), words, part))
    for number, words in enumerate(_neck_words(tower, system)):
        shapes.append(Note((half + _LIST, top - (number + 0.5) * top / _LINES), words, part))
    return shapes


def _diffuser(tower: TowerFoam, half: float) -> list[Shape]:
    height, part = tower.way.heights.diffuser, f"{tower.key}.air"
    return [
        Stroke(((-0.7 * half, height), (0.7 * half, height)), "solid", part),
        Note((0.0, height + 0.06), "diffuser", part),
    ]


def _ports(vessel: Vessel, tower: TowerFoam, half: float) -> list[Shape]:
    found: list[Shape] = []
    for name, port in vessel.ports.items():
        side = 1.0 if port.kind in ("outlet", "spill") else -1.0
        part, end = f"{tower.key}.{name}", side * (half + _STUB)
        found.append(Stroke(((side * half, port.level), (end, port.level)), "outline", part))
        if name != tower.way.outlet or tower.way.riser is None:
            found.append(Note((end, port.level), name, part))
    return found


def _riser(tower: TowerFoam, half: float) -> list[Shape]:
    """The standpipe outside, full of clear water up to its lip, that sets the level."""
    way = tower.way
    if way.riser is None:
        return []
    left, wide, part = -(half + _STUB), max(way.bore, 0.03), f"{tower.key}.{way.outlet}"
    foot = way.heights.outlet
    return [
        Area(((left - wide, foot), (left, foot), (left, way.riser), (left - wide, way.riser)), "water", part),
        Stroke(
            ((left - wide, way.riser), (left - wide, foot), (left, foot), (left, way.riser)), "outline", part
        ),
        Measure((left - wide, 0.0), (left - wide, way.riser), 0.08, "level", "riser, lip over floor"),
        Note((-0.25 * tower.width, 0.5 * foot), way.outlet, part),
    ]


def _figures(tower: TowerFoam, system: System) -> list[str]:
    """What goes on in the column; short lines, so that each stands on one."""
    likely = likely_state(tower)
    course = "passes them by"
    if tower.way.met > 0.0:
        course = "rises with them" if tower.way.rises else "sinks against them"
    lines = [
        f"bubbles {size_words(likely.bubble, system)}, water",
        course,
        f"water {show(tower.water_flow, 'm3/s', system)}",
        f"over its area {show(likely.water_speed, 'm/s', system)}",
        f"air {show(tower.air_flow, 'm3/s', system, 'air')}",
        f"over its area {show(likely.gas_speed, 'm/s', system)}",
        f"pressure {show(tower.air_pressure, 'Pa', system, 'air')}",
    ]
    if likely.holdup is None or likely.water_dwell is None or likely.bubble_dwell is None:
        return [*lines, "the column floods"]
    lines.append(f"air in the column {100.0 * likely.holdup:.1f} %")
    if math.isfinite(likely.water_dwell):
        lines.append(f"water stays {show(likely.water_dwell, 's', system)}")
    return [*lines, f"bubbles stay {show(likely.bubble_dwell, 's', system)}"]
