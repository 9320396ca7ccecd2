"""Every drawing of the answer."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tidestead.core.kept import kept
from tidestead.core.scene import Scene
from tidestead.core.units import System
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.case_facts import CaseFacts, Subject
from tidestead.studies.structure.drawings_bought import bought_scenes
from tidestead.studies.structure.drawings_box import elevation, plan_view, section
from tidestead.studies.structure.drawings_fields import Field, bent_frame, field_scene
from tidestead.studies.structure.drawings_holes import Bored, bored_of
from tidestead.studies.structure.drawings_tower import ring_view, tower_section
from tidestead.studies.structure.drawings_whole import whole_scenes
from tidestead.studies.structure.facts import KEPT_VESSELS, VesselFacts, VesselJudged, read_of
from tidestead.studies.structure.found import box_walls
from tidestead.studies.structure.window_bow import bow_allowed, bows_of
from tidestead.studies.structure.window_checks import pull_allowed, pull_on

GRID = (41, 31)


def scenes_of(inputs: Inputs, judged: Sequence[VesselJudged]) -> tuple[Scene, ...]:
    """Elevations, plan and section of every vessel; of built ones also the fields of windows and the bent frame."""
    found: list[Scene] = []
    for vessel in judged:
        facts = vessel.facts
        found += _views(facts.subject, tuple(bored_of(inputs.plan, facts.subject.key)), inputs.system)
        if facts.cases:
            found += _fields(facts, inputs.system)
    return tuple(found)


@kept(at_most=KEPT_VESSELS, by=read_of)
def _fields(facts: VesselFacts, system: System) -> tuple[Scene, ...]:
    """Bow and pull over every window, and the bent frame."""
    service, found = facts.cases[0], list[Scene]()
    for number in range(len(service.windows)):
        found += window_fields(facts.cases, number, system)
    if service.frame is not None:
        found.append(bent_frame(facts.subject.key, service.frame.state, system))
    return tuple(found)


@kept(at_most=KEPT_VESSELS, by=lambda subject, holes, system: (subject.read, holes, system))
def _views(subject: Subject, holes: tuple[Bored, ...], system: System) -> tuple[Scene, ...]:
    """A vessel from outside, from above, and cut through."""
    key, drawn = subject.key, subject.vessel
    if drawn.made == "bought":
        return tuple(bought_scenes(key, drawn, holes, system))
    if drawn.shape == "box":
        places = box_walls(drawn)
        return (
            *(elevation(key, drawn, place, system, holes) for place in places),
            plan_view(key, drawn, places, system),
            section(key, drawn, places, system),
        )
    return (
        *whole_scenes(key, drawn, subject.tables, holes, system),
        tower_section(key, drawn, system),
        ring_view(key, drawn, system),
    )


def window_fields(cases: Sequence[CaseFacts], number: int, system: System) -> list[Scene]:
    """Bow for good, and the pull on either face, over a sheet: each as its check judges it, at its worst.

    `number` is the window's place in every load case; each field is of the case in which it is worst.
    """
    windows = [(case.windows[number], case.case.words) for case in cases]
    lasting = [one for one in windows if one[0].lasting] or windows
    window, words = max(lasting, key=lambda one: bows_of(one[0]).lasting.high)
    grid, bows = window.state.grid(*GRID), bows_of(window)
    at, name = f"structure.{window.at.key}", window.at.words
    bow = Field(f"{at}.bow", name, "bow for good", "m", words, bows.lasting, bow_allowed(window))
    found = [field_scene(bow, (grid.x, grid.y), grid.bow.T, system)]
    for side in ("water", "air"):
        window, words = max(windows, key=lambda one: pull_on(one[0], side).high)
        grid = window.state.grid(*GRID)
        moments = grid.water_side if side == "water" else grid.air_side
        what = f"pull on the {side} side"
        limit = pull_allowed(window, side)
        pull = Field(f"{at}.stress.{side}", name, what, "Pa", words, pull_on(window, side), limit)
        found.append(field_scene(pull, (grid.x, grid.y), np.maximum(moments.T, 0.0), system))
    return found
