"""The tower in section, true to scale, with what goes on in it."""

from __future__ import annotations

from tidestead.core.scene import Area, Measure, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.foam.facts import FoamFacts, TowerFoam

_ASIDE = 0.25
"""Metres from the wall to the words beside it."""


def scenes_of(plan: Plan, facts: FoamFacts, system: System) -> tuple[Scene, ...]:
    """One section for each fractionator."""
    return tuple(_section(plan.vessels[tower.key], tower, system) for tower in facts.towers)


def _section(vessel: Vessel, tower: TowerFoam, system: System) -> Scene:
    half = (vessel.across if vessel.across is not None else vessel.width or 0.0) / 2.0
    key, height = tower.key, vessel.height
    shapes: list[Shape] = [
        Area(((-half, 0.0), (half, 0.0), (half, tower.level), (-half, tower.level)), "water", f"{key}.water"),
        Stroke(((-half, height), (-half, 0.0), (half, 0.0), (half, height)), "outline", key),
        Measure((-half, 0.0), (half, 0.0), -0.12, "sheet"),
        Measure((-half, 0.0), (-half, tower.level), 0.2, "level"),
    ]
    shapes += _cone(vessel, key, half)
    diffuser = max(tower.level - tower.depth, 0.0)
    shapes.append(Stroke(((-0.7 * half, diffuser), (0.7 * half, diffuser)), "metal", f"{key}.air"))
    lines = _figures(tower, system)
    top = height + (vessel.cone.height if vessel.cone is not None else 0.0)
    for number, words in enumerate(lines):
        at: Point = (half + _ASIDE, top - 0.14 * (number + 1))
        shapes.append(Note(at, words, key))
    shapes += _ports(vessel, key, half)
    told = f"Section of {key} to scale: " + "; ".join(lines) + "."
    return Scene(f"foam.{key}.section", f"{key}: what goes on in it", told, tuple(shapes))


def _cone(vessel: Vessel, key: str, half: float) -> list[Shape]:
    if vessel.cone is None:
        return []
    base, top, neck = vessel.height, vessel.height + vessel.cone.height, vessel.cone.neck / 2.0
    return [
        Stroke(((-half, base), (-neck, top)), "outline", f"{key}.neck"),
        Stroke(((half, base), (neck, top)), "outline", f"{key}.neck"),
        Measure((-neck, top), (neck, top), 0.1, "sheet"),
    ]


def _ports(vessel: Vessel, key: str, half: float) -> list[Shape]:
    found: list[Shape] = []
    for name, port in vessel.ports.items():
        side = -1.0 if port.kind in ("outlet", "spill") else 1.0
        found.append(
            Stroke(((side * half, port.level), (side * (half + 0.15), port.level)), "metal", f"{key}.{name}")
        )
        found.append(Note((side * (half + 0.15), port.level), name, f"{key}.{name}"))
    return found


def _figures(tower: TowerFoam, system: System) -> list[str]:
    likely = min(tower.columns, key=lambda one: abs(one.bubble - (tower.bubble or 0.8e-3)))
    lines = [
        f"water {show(tower.water_flow, 'm3/s', system)}, sinks at {show(likely.water_speed, 'm/s', system)}",
        f"air {show(tower.air_flow, 'm3/s', system, 'air')}, {show(likely.gas_speed, 'm/s', system)}",
        f"air pressure {show(tower.air_pressure, 'Pa', system)}",
    ]
    if likely.holdup is not None and likely.water_dwell is not None and likely.bubble_dwell is not None:
        lines.append(f"air in the column {100.0 * likely.holdup:.0f} %")
        lines.append(f"water stays {show(likely.water_dwell, 's', system)}")
        lines.append(f"bubbles stay {show(likely.bubble_dwell, 's', system)}")
    if tower.neck_area is not None:
        lines.append(f"air in the neck {show(tower.air_flow / tower.neck_area, 'm/s', system)}")
    return lines
