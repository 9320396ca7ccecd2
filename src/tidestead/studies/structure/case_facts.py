"""Everything found of one vessel under one load case, and everything judged of it."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeAlias

from tidestead.core.answer import Estimate
from tidestead.core.dims import G
from tidestead.core.errors import CatalogError, ImpossibleInput, SolverError
from tidestead.core.kept import kept
from tidestead.core.source import PRACTICE
from tidestead.core.units import System
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.checks import At, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.structure.ask import Ask, Tables
from tidestead.studies.structure.base_checks import base_checks
from tidestead.studies.structure.cracked import cracked_checks
from tidestead.studies.structure.found import BOX_ORDER, WallPlace, box_walls, same_place
from tidestead.studies.structure.frame_checks import frame_checks
from tidestead.studies.structure.frame_facts import FrameFacts, beside, find_frame
from tidestead.studies.structure.ground_checks import Standing, find_standing, ground_checks, slosh_checks
from tidestead.studies.structure.lining_checks import Moves, lining_checks
from tidestead.studies.structure.lining_moves import box_moves, tower_moves
from tidestead.studies.structure.rim_checks import buttress_checks, corner_checks, rim_checks, tie_checks
from tidestead.studies.structure.rims import RimFacts, find_rims, rim_piece, rim_stiffness, tie_forces
from tidestead.studies.structure.timber import Piece, setting_of
from tidestead.studies.structure.tower_checks import judge_tower
from tidestead.studies.structure.tower_facts import TowerFacts, find_tower
from tidestead.studies.structure.tower_facts import missing_words as tower_missing
from tidestead.studies.structure.tower_openings import tower_opening_checks
from tidestead.studies.structure.tower_standing import (
    cone_checks,
    footing_checks,
    shaken_checks,
    standing_checks,
    strut_checks,
)
from tidestead.studies.structure.wall_checks import judge_wall, nothing
from tidestead.studies.structure.wall_loads import WallLoads, wall_loads
from tidestead.studies.structure.water import LoadCase
from tidestead.studies.structure.window_checks import judge_window
from tidestead.studies.structure.window_facts import (
    WindowFacts,
    WindowSetting,
    find_window,
    missing_words,
    window_top,
)


@dataclass(frozen=True)
class CaseFacts:
    """One vessel under one load case. `unsolved` says why nothing could be found of its timber; empty where it was."""

    case: LoadCase
    standing: Standing
    windows: tuple[WindowFacts, ...] = ()
    walls: Mapping[str, WallLoads] = field(default_factory=dict)
    rims: Mapping[str, RimFacts] = field(default_factory=dict)
    frame: FrameFacts | None = None
    frame_missing: str = ""
    tower: TowerFacts | None = None
    moves: Moves | None = None
    silent: tuple[Judged, ...] = ()
    unsolved: str = ""


@dataclass(frozen=True)
class Subject:
    """One vessel of the plan as it is judged: its key, the vessel (as found or as drawn), the tables."""

    key: str
    vessel: Vessel
    plan: Plan
    tables: Tables

    @property
    def at(self) -> At:
        return At(self.key, self.key, path=f"vessels.{self.key}")

    @cached_property
    def places(self) -> tuple[WallPlace, ...]:
        """The walls of a box."""
        return tuple(map(same_place, box_walls(self.vessel)))

    @cached_property
    def read(self) -> Hashable:
        """All that anything of this vessel is found and judged by, besides the water: what is kept is kept by it."""
        building, quake = self.plan.building, self.plan.site.earthquake
        around = (building.warmest_wood, building.humidity, repr(quake), own_rows(self.plan))
        return self.key, repr(self.vessel), around

    def ask(self, case: LoadCase) -> Ask | None:
        setting = setting_of(self.plan, self.vessel)
        return None if setting is None else Ask(setting, case, self.tables)


def own_rows(plan: Plan) -> Hashable:
    """The user's own rows of every table, and the gallon they are read with."""
    return repr(plan.yours), plan.gallons


def find_case(
    subject: Subject, case: LoadCase, *, with_lost: bool = False, with_frame: bool = True
) -> CaseFacts:
    """What the water does to a vessel at one level. `with_lost` also takes each tie away in turn.

    Not `with_frame` rims and ties are followed by hand alone, for who asks about neither.
    """
    standing = find_standing(subject.vessel, case)
    ask = subject.ask(case)
    if ask is None:
        why = f"say which rules: vessels.{subject.key}.timber_rules"
        return CaseFacts(case, standing, silent=(_unfound(subject, "rules", why),), unsolved=why)
    try:
        if subject.vessel.shape == "box":
            return _find_box(subject, ask, standing, with_lost if with_frame else None)
        return _find_tower(subject, ask, standing)
    except CatalogError as fault:
        silent = (_unfound(subject, "rules", str(fault)),)
        return CaseFacts(case, standing, silent=silent, unsolved=str(fault))
    except (SolverError, ImpossibleInput) as fault:
        silent = (_unfound(subject, "solved", str(fault)),)
        return CaseFacts(case, standing, silent=silent, unsolved=str(fault))


def _unfound(subject: Subject, name: str, why: str) -> Judged:
    """The timber as a whole, where nothing can be said of it: no level is then known to be safe."""
    return Judged(unproven(subject.at.below("timber", "timber"), name, "timber", "1", why, PRACTICE))


def _find_box(subject: Subject, ask: Ask, standing: Standing, with_lost: bool | None) -> CaseFacts:
    """`with_lost` None: without the frame."""
    places = {place.name: place for place in subject.places}
    silent: list[Judged] = []
    pieces: dict[str, Piece] = {}
    for name, place in places.items():
        piece = rim_piece(place, ask)
        if piece is not None:
            pieces[name] = piece
    walls: dict[str, WallLoads] = {}
    windows: list[WindowFacts] = []
    for name, place in places.items():
        found, unsaid = _wall_windows(subject, place, pieces.get(name), ask.case)
        silent += unsaid
        windows += found
        loads = wall_loads(place, ask.case.weight, ask.case.level, tuple(found))
        if loads is None:
            here = subject.at.below(name, f"{name} wall", f"walls.{name}").below("studs", "studs")
            silent += nothing(
                here, "bending", "bending of the studs", f"say {here.path}: section, grade and spacing"
            )
        else:
            walls[name] = loads
    top: _Top = (_by_hand(walls, pieces), "the whole frame was not asked for")
    if with_lost is not None:
        top = _find_top(subject.vessel, walls, pieces, ask, with_lost)
    rims, frame = top
    return CaseFacts(
        ask.case,
        standing,
        tuple(windows),
        walls,
        rims,
        frame if isinstance(frame, FrameFacts) else None,
        frame if isinstance(frame, str) else "",
        moves=box_moves(subject.vessel, subject.plan.building, walls, ask),
        silent=tuple(silent),
    )


_Top: TypeAlias = tuple[Mapping[str, RimFacts], FrameFacts | str]
"""The rims, and the frame or why there is none."""


def _top_reads(
    vessel: Vessel, walls: Mapping[str, WallLoads], pieces: Mapping[str, Piece], ask: Ask, with_lost: bool
) -> Hashable:
    """What rims and frame hang on. A rim's piece follows from its wall; joints are judged later."""
    ties = tuple(
        (tie.across, tie.at, tie.section, tie.grade, repr(tie.as_built)) for tie in vessel.ties.values()
    )
    corners = vessel.corners.kind if vessel.corners is not None else None
    sizes = (vessel.length, vessel.width, corners, ties)
    return sizes, tuple(walls.items()), tuple(pieces), ask, with_lost


@kept(at_most=32, by=_top_reads)
def _find_top(
    vessel: Vessel, walls: Mapping[str, WallLoads], pieces: Mapping[str, Piece], ask: Ask, with_lost: bool
) -> _Top:
    rims = _by_hand(walls, pieces)
    frame = find_frame(vessel, walls, rims, ask, with_lost)
    return (beside(rims, frame) if isinstance(frame, FrameFacts) else rims), frame


def _by_hand(walls: Mapping[str, WallLoads], pieces: Mapping[str, Piece]) -> Mapping[str, RimFacts]:
    return find_rims(walls, {name: piece for name, piece in pieces.items() if name in walls})


def _wall_windows(
    subject: Subject, place: WallPlace, rim: Piece | None, case: LoadCase
) -> tuple[list[WindowFacts], list[Judged]]:
    found: list[WindowFacts] = []
    silent: list[Judged] = []
    give = rim_stiffness(place, rim) if rim is not None and place.wall.windows else None
    for name, window in place.wall.windows.items():
        at = At(
            f"{subject.key}.{place.name}.{name}",
            f"{subject.key}, window {name} in the {place.name} wall",
            path=f"vessels.{subject.key}.walls.{place.name}.windows.{name}",
        )
        unsaid = missing_words(window)
        if window_top(window, place) == "rim" and give is None:
            unsaid.append("the rim it leans on")
        if unsaid:
            silent += nothing(at, "stress", "stress in the sheet", "say " + ", ".join(unsaid))
            continue
        setting = WindowSetting(
            place, case.level, case.weight, give, subject.tables, case.duration == "permanent"
        )
        try:
            found.append(find_window(at, name, window, setting))
        except (SolverError, ImpossibleInput) as fault:
            silent.append(Judged(unproven(at, "stress", "stress in the sheet", "Pa", str(fault), PRACTICE)))
    return found, silent


def _find_tower(subject: Subject, ask: Ask, standing: Standing) -> CaseFacts:
    unsaid = tower_missing(subject.key, subject.vessel)
    silent: list[Judged] = []
    if unsaid:
        silent += nothing(
            subject.at.below("rings", "rings"), "pull_and_bending", "the rings", "say " + "; ".join(unsaid)
        )
    windows: list[WindowFacts] = []
    fall = (subject.vessel.stands_on.drop or 0.0) + (subject.vessel.stands_on.settles or 0.0)
    for face, wall in subject.vessel.walls.items():
        if wall.windows:
            place = same_place(
                WallPlace(
                    face, wall, subject.vessel.across or 0.0, subject.vessel.height, fall, fall, (), 0.0
                )
            )
            found, more = _wall_windows(subject, place, None, ask.case)
            windows += found
            silent += more
    tower = None if unsaid else find_tower(subject.vessel, ask)
    moved = tower_moves(subject.vessel, subject.plan.building, tower) if tower is not None else None
    return CaseFacts(ask.case, standing, tuple(windows), tower=tower, moves=moved, silent=tuple(silent))


def judge_case(subject: Subject, facts: CaseFacts, system: System) -> list[Judged]:
    """Every check of a vessel under one load case, which each of them names."""
    return [judged.in_case(facts.case.words) for judged in every_check(subject, facts, system)]


def every_check(subject: Subject, facts: CaseFacts, system: System) -> list[Judged]:
    """The same, without the name of the case."""
    found = list(facts.silent)
    ask = subject.ask(facts.case)
    if ask is not None and not facts.unsolved:
        try:
            found += _judge_timber(subject, facts, ask, system)
        except CatalogError as fault:
            found.append(_unfound(subject, "rules", str(fault)))
        except (SolverError, ImpossibleInput) as fault:
            found.append(_unfound(subject, "solved", str(fault)))
    found += cracked_checks(subject.at, subject.vessel)
    found += lining_checks(subject.at, subject.vessel, facts.moves or facts.unsolved, subject.tables)
    found += ground_checks(subject.at, subject.vessel, facts.standing, subject.tables)
    found += slosh_checks(subject.at, subject.vessel, subject.plan.site, facts.case)
    return found


def _judge_timber(subject: Subject, facts: CaseFacts, ask: Ask, system: System) -> list[Judged]:
    found: list[Judged] = []
    for window in facts.windows:
        found += judge_window(window, system, seat_timber(window, ask))
    if facts.tower is not None:
        found += judge_tower(subject.at, facts.tower, subject.vessel, ask)
        found += standing_checks(
            subject.at, subject.vessel, facts.standing.water_mass * G, facts.standing.own_mass * G
        )
        found += footing_checks(subject.at, subject.vessel, facts.standing.weight, subject.tables)
        found += cone_checks(subject.at, facts.tower, subject.vessel, ask)
        found += strut_checks(subject.at, subject.vessel, ask)
        if facts.case.duration == "permanent":
            found += shaken_checks(subject.at, subject.vessel, subject.plan.site, facts.standing)
        for window in facts.windows:
            found += tower_opening_checks(window, facts.tower, subject.vessel, ask)
    for name in BOX_ORDER:
        if name in facts.walls:
            found += _judge_wall(subject, facts, name, ask)
    if subject.vessel.shape == "box":
        found += _judge_top(subject, facts, ask)
    return found


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


def _judge_top(subject: Subject, facts: CaseFacts, ask: Ask) -> list[Judged]:
    """Ties and corners."""
    found: list[Judged] = []
    for name, tie in subject.vessel.ties.items():
        walls = ("south", "north") if tie.across == "width" else ("west", "east")
        by_hand = tie_forces(facts.rims, walls)
        forces = {at: _with_frame(subject, facts, tie.across, at, force) for at, force in by_hand.items()}
        here = subject.at.below(f"ties.{name}", f"ties {name}")
        found += tie_checks(here, tie, forces, facts.rims.get(walls[0]), ask)
    found += corner_checks(subject.at, subject.vessel.corners, facts.rims, ask)
    found += frame_checks(subject.at, facts.rims, facts.frame_missing, ask)
    return found


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
