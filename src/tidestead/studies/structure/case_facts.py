"""Everything found of one vessel under one load case."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeAlias

from tidestead.core.errors import CatalogError, ImpossibleInput, SolverError
from tidestead.core.kept import kept
from tidestead.core.source import PRACTICE
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.checks import At, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.structure.ask import Ask, Tables
from tidestead.studies.structure.found import WallPlace, box_walls, same_place
from tidestead.studies.structure.frame_facts import FrameFacts, beside, find_frame
from tidestead.studies.structure.ground_checks import Standing, find_standing
from tidestead.studies.structure.lining_checks import Moves
from tidestead.studies.structure.lining_moves import box_moves, tower_moves
from tidestead.studies.structure.rims import RimFacts, find_rims, rim_piece, rim_stiffness
from tidestead.studies.structure.timber import Piece, setting_of
from tidestead.studies.structure.tower_facts import TowerFacts, find_tower
from tidestead.studies.structure.tower_facts import missing_words as tower_missing
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.wall_loads import WallLoads, wall_loads
from tidestead.studies.structure.water import LoadCase
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


@dataclass(frozen=True)
class Alone:
    """Walls of a box that are looked at by themselves; without their `timber` only the windows in them."""

    walls: frozenset[str]
    timber: bool


def own_rows(plan: Plan) -> Hashable:
    """The user's own rows of every table, and the gallon they are read with."""
    return repr(plan.yours), plan.gallons


def find_case(
    subject: Subject,
    case: LoadCase,
    *,
    with_lost: bool = False,
    with_frame: bool = True,
    alone: Alone | None = None,
) -> CaseFacts:
    """What the water does to a vessel at one level. `with_lost` also takes each tie away in turn.

    Not `with_frame` rims and ties are followed by hand alone, for who asks about neither. Of a box only what is
    `alone` is found, for who asks about nothing else.
    """
    standing = find_standing(subject.vessel, case)
    ask = subject.ask(case)
    if ask is None:
        why = f"say which rules: vessels.{subject.key}.timber_rules"
        return CaseFacts(case, standing, silent=(unfound(subject, "rules", why),), unsolved=why)
    try:
        if subject.vessel.shape == "box":
            if alone is not None:
                return _find_walls(subject, ask, standing, alone)
            return _find_box(subject, ask, standing, with_lost if with_frame else None)
        return _find_tower(subject, ask, standing)
    except CatalogError as fault:
        silent = (unfound(subject, "rules", str(fault)),)
        return CaseFacts(case, standing, silent=silent, unsolved=str(fault))
    except (SolverError, ImpossibleInput) as fault:
        silent = (unfound(subject, "solved", str(fault)),)
        return CaseFacts(case, standing, silent=silent, unsolved=str(fault))


def unfound(subject: Subject, name: str, why: str) -> Judged:
    """The timber as a whole, where nothing can be said of it: no level is then known to be safe."""
    return Judged(unproven(subject.at.below("timber", "timber"), name, "timber", "1", why, PRACTICE))


def _find_box(subject: Subject, ask: Ask, standing: Standing, with_lost: bool | None) -> CaseFacts:
    """`with_lost` None: without the frame."""
    found = _Walls.of(subject, subject.places, ask)
    top: _Top = (_by_hand(found.loads, found.pieces), "the whole frame was not asked for")
    if with_lost is not None:
        top = _find_top(subject.vessel, found.loads, found.pieces, ask, with_lost)
    rims, frame = top
    return CaseFacts(
        ask.case,
        standing,
        found.windows,
        found.loads,
        rims,
        frame if isinstance(frame, FrameFacts) else None,
        frame if isinstance(frame, str) else "",
        moves=box_moves(subject.vessel, subject.plan.building, found.loads, ask),
        silent=found.silent,
    )


def _find_walls(subject: Subject, ask: Ask, standing: Standing, alone: Alone) -> CaseFacts:
    """Some walls of a box by themselves: no frame, nor how far the whole moves."""
    places = [place for place in subject.places if place.name in alone.walls]
    found = _Walls.of(subject, places, ask)
    if not alone.timber:
        return CaseFacts(ask.case, standing, found.windows, silent=found.silent)
    rims = _by_hand(found.loads, found.pieces)
    return CaseFacts(ask.case, standing, found.windows, found.loads, rims, silent=found.silent)


@dataclass(frozen=True)
class _Walls:
    """Walls of a box one by one: timber of their rims, loads on their uprights, windows, what cannot be said."""

    pieces: Mapping[str, Piece]
    loads: Mapping[str, WallLoads]
    windows: tuple[WindowFacts, ...]
    silent: tuple[Judged, ...]

    @classmethod
    def of(cls, subject: Subject, places: Sequence[WallPlace], ask: Ask) -> _Walls:
        silent: list[Judged] = []
        rims = {place.name: rim_piece(place, ask) for place in places}
        pieces = {name: piece for name, piece in rims.items() if piece is not None}
        loads: dict[str, WallLoads] = {}
        windows: list[WindowFacts] = []
        for place in places:
            found, unsaid = _wall_windows(subject, place, pieces.get(place.name), ask.case)
            silent += unsaid
            windows += found
            load = wall_loads(place, ask.case.weight, ask.case.level, tuple(found))
            if load is not None:
                loads[place.name] = load
                continue
            here = subject.at.below(place.name, f"{place.name} wall", f"walls.{place.name}").below(
                "studs", "studs"
            )
            silent += nothing(
                here, "bending", "bending of the studs", f"say {here.path}: section, grade and spacing"
            )
        return cls(pieces, loads, tuple(windows), tuple(silent))


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
