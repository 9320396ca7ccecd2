"""Every drawing of the answer."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tidestead.core.scene import Scene
from tidestead.core.units import System
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.case_facts import Subject
from tidestead.studies.structure.drawings_bought import bought_scenes
from tidestead.studies.structure.drawings_box import elevation, plan_view, section
from tidestead.studies.structure.drawings_fields import Field, bent_frame, field_scene
from tidestead.studies.structure.drawings_holes import bored_of
from tidestead.studies.structure.drawings_tower import ring_view, tower_section
from tidestead.studies.structure.drawings_whole import whole_scenes
from tidestead.studies.structure.facts import VesselJudged
from tidestead.studies.structure.found import box_walls
from tidestead.studies.structure.window_facts import WindowFacts

GRID = (41, 31)


def scenes_of(inputs: Inputs, judged: Sequence[VesselJudged]) -> tuple[Scene, ...]:
    """Elevations, plan and section of every vessel; of built ones also the fields of windows and the bent frame."""
    found: list[Scene] = []
    for vessel in judged:
        facts = vessel.facts
        found += _views(inputs, facts.subject)
        if facts.cases:
            service = facts.cases[0]
            for window in service.windows:
                found += window_fields(window, service.case.words, inputs.system)
            if service.frame is not None:
                found.append(bent_frame(facts.subject.key, service.frame.state, inputs.system))
    return tuple(found)


def _views(inputs: Inputs, subject: Subject) -> list[Scene]:
    """A vessel from outside, from above, and cut through."""
    key, drawn, system = subject.key, subject.vessel, inputs.system
    holes = bored_of(inputs.plan, key)
    if drawn.made == "bought":
        return bought_scenes(key, drawn, holes, system)
    if drawn.shape == "box":
        places = box_walls(drawn)
        return [
            *(elevation(key, drawn, place, system, holes) for place in places),
            plan_view(key, drawn, places, system),
            section(key, drawn, places, system),
        ]
    return [
        *whole_scenes(key, drawn, subject.tables, holes, system),
        tower_section(key, drawn, system),
        ring_view(key, drawn, system),
    ]


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
