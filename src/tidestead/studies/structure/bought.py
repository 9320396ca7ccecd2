"""Judging a bought vessel: its maker answers for its walls, nobody for the floor under it."""

from __future__ import annotations

from dataclasses import replace

from tidestead.studies.judged import Judged
from tidestead.studies.structure.case_facts import Subject
from tidestead.studies.structure.facts import VesselFacts, VesselJudged
from tidestead.studies.structure.ground_checks import find_standing, ground_checks
from tidestead.studies.structure.water import LoadCase, WaterFacts

FULL = "filled to the brim"


def judge_bought(subject: Subject, water: WaterFacts) -> VesselJudged:
    """What the full vessel presses on, filled to its brim for good: nobody watches a sump when the power fails."""
    vessel = subject.vessel
    level = vessel.brim if vessel.brim is not None else vessel.height
    case = LoadCase("brim", FULL, level, water.density, "permanent")
    found = ground_checks(subject.at, vessel, find_standing(vessel, case), subject.tables)
    facts = VesselFacts(subject, water, (), (), None, None)
    return VesselJudged(facts, tuple(_whatever_level(one) for one in found))


def _whatever_level(judged: Judged) -> Judged:
    """A level to keep it at is not looked for: it is taken as full."""
    return replace(judged, by_level=False).in_case(FULL)
