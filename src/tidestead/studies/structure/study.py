"""Will it hold? Find what the water does to every vessel, then judge it."""

from __future__ import annotations

from typing import TypeAlias

from tidestead.catalog import table
from tidestead.core.answer import Answer
from tidestead.core.kept import kept
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, adverse
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.bought import judge_bought
from tidestead.studies.structure.case_checks import judge_case
from tidestead.studies.structure.case_facts import CaseFacts, Subject, find_case, own_rows
from tidestead.studies.structure.facts import KEPT_VESSELS, StructureFacts, VesselFacts, VesselJudged, read_of
from tidestead.studies.structure.first_fill import FillPoint, find_fill
from tidestead.studies.structure.found import as_drawn, has_measured
from tidestead.studies.structure.levels import SafeLevel, safe_level
from tidestead.studies.structure.told import tell
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.water import LoadCase, WaterFacts, load_cases, water_facts

TABLES = ("lumber", "sheathing", "fasteners", "clear", "linings", "seals", "soils", "floors")


def tables_of(inputs: Inputs) -> Tables:
    """Our tables with the user's own rows in them; the same rows for as long as the user leaves their own alone."""
    return _tables(inputs.plan)


@kept(at_most=4, by=own_rows)
def _tables(plan: Plan) -> Tables:
    return Tables(
        {
            name: table(name).with_yours(plan.yours[name], plan.gallons)
            if name in plan.yours
            else table(name)
            for name in TABLES
        }
    )


def find(inputs: Inputs) -> StructureFacts:
    """What still water does to every vessel of the plan."""
    tables = tables_of(inputs)
    built, bought = [], {}
    for key, vessel in inputs.plan.vessels.items():
        water = water_facts(inputs.plan, vessel)
        if vessel.made == "bought":
            bought[key] = (vessel, water)
        else:
            built.append(_find_vessel(Subject(key, vessel, inputs.plan, tables), water))
    return StructureFacts(tuple(built), bought)


def _find_vessel(subject: Subject, water: WaterFacts) -> VesselFacts:
    return VesselFacts(subject, water, *_found(subject, water))


_Found: TypeAlias = tuple[tuple[CaseFacts, ...], tuple[FillPoint, ...], SafeLevel | None, SafeLevel | None]
"""Cases, first fill, safe level as found and as drawn."""


@kept(at_most=KEPT_VESSELS, by=lambda subject, water: (subject.read, water))
def _found(subject: Subject, water: WaterFacts) -> _Found:
    cases = load_cases(subject.vessel, water)
    found = tuple(find_case(subject, case, with_lost=case.name == "service") for case in cases)
    if not found:
        return (), (), None, None
    last: LoadCase = next((case for case in cases if case.name == "test"), cases[0])
    drawn = None
    if has_measured(subject.vessel):
        drawn = safe_level(
            Subject(subject.key, as_drawn(subject.vessel), subject.plan, subject.tables), water
        )
    return found, find_fill(subject, last), safe_level(subject, water), drawn


def judge(inputs: Inputs, facts: StructureFacts) -> Answer:
    """Every check, the sentence, tables, drawings and cautions."""
    judged = [VesselJudged(vessel, judge_vessel(vessel, inputs.system)) for vessel in facts.built]
    tables = tables_of(inputs)
    for key, (vessel, water) in facts.bought.items():
        judged.append(judge_bought(Subject(key, vessel, inputs.plan, tables), water))
    return tell(inputs, facts, judged)


@kept(at_most=KEPT_VESSELS, by=read_of)
def judge_vessel(facts: VesselFacts, system: System) -> tuple[Judged, ...]:
    """The checks of one vessel, each in the load case that uses most of its limit."""
    if not facts.cases:
        why = f"say how deep the water is: vessels.{facts.subject.key}.water"
        return tuple(nothing(facts.subject.at, "water", "depth of the water", why))
    return adverse(judge_case(facts.subject, case, system) for case in facts.cases)
