"""Checks and figures of a structure alone, for who asks the same of many plans: no searches, tables or pictures.

Each is, to the last bit, the one that the whole answer has.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from tidestead.core.answer import Check, Figure
from tidestead.core.units import System
from tidestead.plan.model import Vessel
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, adverse
from tidestead.studies.structure.bought import judge_bought
from tidestead.studies.structure.case_facts import CaseFacts, Subject, every_check, find_case
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.figures import figures_of
from tidestead.studies.structure.study import judge_vessel, tables_of
from tidestead.studies.structure.water import WaterFacts, load_cases, water_facts

_OF_THE_FRAME = frozenset(("rim", "ties", "corners", "buttresses", "timber"))
"""Parts of ids of checks that the whole frame has a say in."""


def sought(
    inputs: Inputs, ids: Collection[str] | None = None
) -> tuple[tuple[Check, ...], tuple[Figure, ...]]:
    """The checks and figures of these ids, those of every id for None. An id that there is not is passed over."""
    tables = tables_of(inputs)
    checks: list[Check] = []
    built: list[VesselFacts] = []
    bought: dict[str, tuple[Vessel, WaterFacts]] = {}
    for key, vessel in inputs.plan.vessels.items():
        mine = None if ids is None else {ident for ident in ids if ident.startswith(f"structure.{key}.")}
        if mine is not None and not mine:
            continue
        subject, water = Subject(key, vessel, inputs.plan, tables), water_facts(inputs.plan, vessel)
        if vessel.made == "bought":
            bought[key] = (vessel, water)
            found: tuple[Judged, ...] = judge_bought(subject, water).judged
        else:
            facts = VesselFacts(subject, water, tuple(_cases(subject, water, mine)), (), None, None)
            built.append(facts)
            found = _judged(facts, mine, inputs.system)
        checks += (one.check for one in found if mine is None or one.check.id in mine)
    figures = figures_of(StructureFacts(tuple(built), bought))
    return tuple(checks), tuple(one for one in figures if ids is None or one.id in ids)


def _cases(subject: Subject, water: WaterFacts, ids: Collection[str] | None) -> Iterator[CaseFacts]:
    """What each load does; the whole frame only where a check that is sought hangs on it.

    No tie is taken away in turn: that is for a table, and no check hangs on it.
    """
    framed = ids is None or any(_OF_THE_FRAME & set(ident.split(".")[2:]) for ident in ids)
    for case in load_cases(subject.vessel, water):
        yield find_case(subject, case, with_frame=framed)


def _judged(facts: VesselFacts, ids: Collection[str] | None, system: System) -> tuple[Judged, ...]:
    """The adverse case of each check that is sought."""
    if ids is None or not facts.cases:
        return judge_vessel(facts, system)
    return adverse(
        [
            one.in_case(case.case.words)
            for one in every_check(facts.subject, case, system)
            if one.check.id in ids
        ]
        for case in facts.cases
    )
