"""Checks and figures of a structure alone, for who asks the same of many plans: no searches, tables or pictures.

Each is, to the last bit, the one that the whole answer has; only where a rule that another part of the vessel hangs on
cannot be found, which silences all timber there, a wall asked for alone is still judged.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from tidestead.core.answer import Check, Figure
from tidestead.core.units import System
from tidestead.plan.model import Vessel
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, adverse
from tidestead.studies.structure.bought import judge_bought
from tidestead.studies.structure.case_checks import every_check, top_checked, walls_checked
from tidestead.studies.structure.case_facts import Alone, CaseFacts, Subject, find_case
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.figures import figures_of
from tidestead.studies.structure.study import judge_vessel, tables_of
from tidestead.studies.structure.water import WaterFacts, load_cases, water_facts

_OF_THE_FRAME = frozenset(("rim", "ties", "corners", "buttresses", "timber"))
"""Parts of ids of checks that the whole frame has a say in."""

_OF_THE_TOP = frozenset(("ties", "corners"))
"""Parts of a vessel that are judged without its walls."""

_OF_A_WALL = frozenset(("sheathing", "studs", "base"))
"""Parts of a wall that are judged by themselves, as are its windows."""


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
    """What each load does; of the rest no more than the checks that are sought hang on.

    No tie is taken away in turn: that is for a table, and no check hangs on it.
    """
    framed = ids is None or any(_OF_THE_FRAME & set(ident.split(".")[2:]) for ident in ids)
    alone = None if ids is None else _alone(subject.vessel, ids)
    for case in load_cases(subject.vessel, water):
        yield find_case(subject, case, with_frame=framed, alone=alone)


def _alone(vessel: Vessel, ids: Collection[str]) -> Alone | None:
    """The walls that all these checks are of, where they hang on nothing else; None where one does."""
    walls, timber = set(), False
    for _, _, name, *below in (ident.split(".") for ident in ids):
        wall = vessel.walls.get(name)
        if vessel.shape != "box" or wall is None or not below:
            return None
        if below[0] not in _OF_A_WALL and below[0] not in wall.windows:
            return None
        walls.add(name)
        timber = timber or below[0] not in wall.windows or "opening" in below
    return Alone(frozenset(walls), timber)


def _judged(facts: VesselFacts, ids: Collection[str] | None, system: System) -> tuple[Judged, ...]:
    """The adverse case of each check that is sought."""
    if ids is None or not facts.cases:
        return judge_vessel(facts, system)
    return adverse(
        [one.in_case(case.case.words) for one in _of_case(facts.subject, case, ids, system)]
        for case in facts.cases
    )


def _of_case(subject: Subject, case: CaseFacts, ids: Collection[str], system: System) -> list[Judged]:
    """The checks of these ids."""
    ask, alone = subject.ask(case.case), _alone(subject.vessel, ids)
    if ask is None or case.unsolved or subject.vessel.shape != "box":
        found = every_check(subject, case, system)
    elif alone is not None:
        found = [*case.silent, *walls_checked(subject, case, ask, system)]
    else:
        found = []
        if all(ident.split(".")[2] in _OF_THE_TOP for ident in ids):
            found = [*case.silent, *top_checked(subject, case, ask)]
        if not {one.check.id for one in found} >= set(ids):
            found = every_check(subject, case, system)
    return [one for one in found if one.check.id in ids]
