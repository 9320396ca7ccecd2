"""Everything judged of one vessel under one load case."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.core.answer import Estimate
from tidestead.core.dims import G
from tidestead.core.errors import CatalogError, ImpossibleInput, SolverError
from tidestead.core.kept import kept
from tidestead.core.units import System
from tidestead.studies.checks import At
from tidestead.studies.judged import Judged
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.base_checks import base_checks
from tidestead.studies.structure.case_facts import CaseFacts, Subject, unfound
from tidestead.studies.structure.cracked import cracked_checks
from tidestead.studies.structure.found import BOX_ORDER
from tidestead.studies.structure.frame_checks import frame_checks
from tidestead.studies.structure.ground_checks import ground_checks, slosh_checks
from tidestead.studies.structure.lining_checks import lining_checks
from tidestead.studies.structure.rim_checks import buttress_checks, corner_checks, rim_checks, tie_checks
from tidestead.studies.structure.rims import tie_forces
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.tower_checks import judge_tower
from tidestead.studies.structure.tower_facts import TowerFacts
from tidestead.studies.structure.tower_openings import tower_opening_checks
from tidestead.studies.structure.tower_standing import (
    cone_checks,
    footing_checks,
    shaken_checks,
    standing_checks,
    strut_checks,
)
from tidestead.studies.structure.wall_checks import judge_wall, nothing
from tidestead.studies.structure.wall_loads import WallLoads
from tidestead.studies.structure.window_checks import judge_window
from tidestead.studies.structure.window_facts import WindowFacts


def judge_case(subject: Subject, facts: CaseFacts, system: System) -> list[Judged]:
    """Every check of a vessel under one load case, which each of them names."""
    return [judged.in_case(facts.case.words) for judged in every_check(subject, facts, system)]


def every_check(subject: Subject, facts: CaseFacts, system: System) -> list[Judged]:
    """The same, without the name of the case."""
    found = list(facts.silent)
    ask = subject.ask(facts.case)
    if ask is not None and not facts.unsolved:
        found += _refused_or(subject, _timber(subject, facts, ask, system))
    found += cracked_checks(subject.at, subject.vessel)
    found += lining_checks(subject.at, subject.vessel, facts.moves or facts.unsolved, subject.tables)
    found += ground_checks(subject.at, subject.vessel, facts.standing, subject.tables)
    found += slosh_checks(subject.at, subject.vessel, subject.plan.site, facts.case)
    return found


def walls_checked(subject: Subject, facts: CaseFacts, ask: Ask, system: System) -> list[Judged]:
    """Windows and walls of a box alone."""
    return _refused_or(subject, _walls(subject, facts, ask, system))


def top_checked(subject: Subject, facts: CaseFacts, ask: Ask) -> list[Judged]:
    """Ties and corners of a box alone."""
    return _refused_or(subject, _top(subject, facts, ask))


def _refused_or(subject: Subject, parts: Iterator[Sequence[Judged]]) -> list[Judged]:
    """All parts, or why nothing can be said of any."""
    try:
        return [one for part in list(parts) for one in part]
    except CatalogError as fault:
        return [unfound(subject, "rules", str(fault))]
    except (SolverError, ImpossibleInput) as fault:
        return [unfound(subject, "solved", str(fault))]


def _timber(subject: Subject, facts: CaseFacts, ask: Ask, system: System) -> Iterator[Sequence[Judged]]:
    """Windows, then a tower or the walls of a box and what holds them, part by part.

    Raises CatalogError, SolverError or ImpossibleInput where a part cannot be judged by the rules of the plan.
    """
    yield from _walls(subject, facts, ask, system)
    if facts.tower is not None:
        yield from _judge_tower(subject, facts, facts.tower, ask)
    if subject.vessel.shape == "box":
        yield from _top(subject, facts, ask)


def _walls(subject: Subject, facts: CaseFacts, ask: Ask, system: System) -> Iterator[Sequence[Judged]]:
    """Windows and the walls of a box, each by itself. Raises as `_timber` does."""
    for window in facts.windows:
        yield judge_window(window, system, seat_timber(window, ask))
    for name in BOX_ORDER:
        if name in facts.walls:
            yield _judge_wall(subject, facts, name, ask)


def _judge_tower(
    subject: Subject, facts: CaseFacts, tower: TowerFacts, ask: Ask
) -> Iterator[Sequence[Judged]]:
    at, vessel, standing = subject.at, subject.vessel, facts.standing
    yield judge_tower(at, tower, vessel, ask)
    yield standing_checks(at, vessel, standing.water_mass * G, standing.own_mass * G)
    yield footing_checks(at, vessel, standing.weight, subject.tables)
    yield cone_checks(at, tower, vessel, ask)
    yield strut_checks(at, vessel, ask)
    if facts.case.duration == "permanent":
        yield shaken_checks(at, vessel, subject.plan.site, standing)
    for window in facts.windows:
        yield tower_opening_checks(window, tower, vessel, ask)


def seat_timber(window: WindowFacts, ask: Ask) -> Piece | None:
    """The timber the lower edge leans on: its sill's, else its jambs'."""
    opening = window.window.opening
    for timber in (opening.sill, opening.jambs, opening.header):
        if timber is not None and timber.section is not None and timber.grade is not None:
            return ask.piece(timber.grade, timber.section)
    return None


def _judge_wall(subject: Subject, facts: CaseFacts, name: str, ask: Ask) -> list[Judged]:
    loads = facts.walls[name]
    at = subject.at.below(name, f"{name} wall", f"walls.{name}")
    found = [*_judge_upright(at, loads, subject.vessel.stands_on.slab_thickness, ask)]
    rim = facts.rims.get(name)
    here = at.below("rim", "rim")
    if rim is None:
        return found + nothing(
            here, "bending", "bending of the rim", f"say {here.path}: section, grade and how it lies"
        )
    found += rim_checks(here, rim, ask)
    found += buttress_checks(at.below("buttresses", "buttresses"), rim, ask)
    return found


@kept(at_most=128)
def _judge_upright(at: At, loads: WallLoads, slab: float | None, ask: Ask) -> tuple[Judged, ...]:
    """A wall without its rim."""
    return (*judge_wall(at, loads, ask), *base_checks(at.below("base", "base"), loads, slab, ask))


def _top(subject: Subject, facts: CaseFacts, ask: Ask) -> Iterator[Sequence[Judged]]:
    """Ties, corners, and rims by the whole frame. Raises as `_timber` does."""
    for name, tie in subject.vessel.ties.items():
        walls = ("south", "north") if tie.across == "width" else ("west", "east")
        by_hand = tie_forces(facts.rims, walls)
        forces = {at: _with_frame(subject, facts, tie.across, at, force) for at, force in by_hand.items()}
        here = subject.at.below(f"ties.{name}", f"ties {name}")
        yield tie_checks(here, tie, forces, facts.rims.get(walls[0]), ask)
    yield corner_checks(subject.at, subject.vessel.corners, facts.rims, ask)
    yield frame_checks(subject.at, facts.rims, facts.frame_missing, ask)


def _with_frame(subject: Subject, facts: CaseFacts, across: str, at: float, hand: float) -> Estimate:
    """A tie's pull by hand and by frame."""
    if facts.frame is None:
        return Estimate.exact(hand, "by hand")
    number = 0
    for tie in subject.vessel.ties.values():
        for count, place in enumerate(tie.at, start=1):
            if count in tie.as_built.cracked:
                continue
            if tie.across == across and abs(place - at) < 1e-3:
                frame = abs(facts.frame.state.axial(f"tie.{number}"))
                low, high = sorted((hand, frame))
                return Estimate(low, hand, high, "hand formula and whole frame")
            number += 1
    return Estimate.exact(hand, "by hand")
