"""Every drawing of the answer."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tidestead.core.scene import Scene
from tidestead.core.units import System
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.drawings_box import elevation, plan_view, section
from tidestead.studies.structure.drawings_fields import Field, bent_frame, field_scene
from tidestead.studies.structure.drawings_tower import ring_view, tower_section
from tidestead.studies.structure.facts import VesselJudged
from tidestead.studies.structure.found import box_walls
from tidestead.studies.structure.window_facts import WindowFacts

GRID = (41, 31)


def scenes_of(inputs: Inputs, judged: Sequence[VesselJudged]) -> tuple[Scene, ...]:
    """Elevations, plan, section, bow and stress of every window, the bent frame."""
    found: list[Scene] = []
    for vessel in judged:
        facts = vessel.facts
        key, drawn = facts.subject.key, facts.subject.vessel
        if drawn.shape == "box":
            places = box_walls(drawn)
            found += [elevation(key, drawn, place, inputs.system) for place in places]
            found += [
                plan_view(key, drawn, places, inputs.system),
                section(key, drawn, places, inputs.system),
            ]
        else:
            found += [tower_section(key, drawn, inputs.system), ring_view(key, drawn, inputs.system)]
        if facts.cases:
            service = facts.cases[0]
            for window in service.windows:
                found += window_fields(window, service.case.words, inputs.system)
            if service.frame is not None:
                found.append(bent_frame(key, service.frame.state, inputs.system))
    return tuple(found)


def window_fields(window: WindowFacts, case: str, system: System) -> list[Scene]:
    """Bow for good, and the pull on either face, over the sheet."""
    grid = window.state.grid(*GRID)
    axes = (grid.x, grid.y)
    per_moment = 6.0 / window.thickness**2
    row = window.row
    pulls = (("water", grid.water_side), ("air", grid.air_side))
    at = f"structure.{window.at.key}"
    found = [
        field_scene(
            Field(f"{at}.bow", window.at.words, "bow for good", "m", case),
            axes,
            grid.bow.T / max(window.creep),
            system,
        )
    ]
    for side, moments in pulls:
        limit = row.si(f"stress_{side}_side") if row.has(f"stress_{side}_side") else None
        found.append(
            field_scene(
                Field(f"{at}.stress.{side}", window.at.words, f"pull on the {side} side", "Pa", case, limit),
                axes,
                np.maximum(moments.T, 0.0) * per_moment,
                system,
            )
        )
    return found
