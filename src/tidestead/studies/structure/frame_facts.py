"""The whole box as one frame in space, built from the plan, and what it says beside the hand formulas."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.frame_model import BarSection
from tidestead.physics.structure.frames import FrameState, solve_frame
from tidestead.physics.structure.members import MemberSection
from tidestead.physics.structure.tank_frame import box_frame
from tidestead.physics.structure.tank_spec import BoxFrameSpec, Opening, TieBar, WallFrame, WallLine, lost_tie
from tidestead.plan.model import Crosspiece, Jambs, Timber, Vessel
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.drawings_box import stud_places
from tidestead.studies.structure.found import LEFT_IS_FAR, WallPlace, timber_left
from tidestead.studies.structure.patches import sliced
from tidestead.studies.structure.rims import RimFacts, RimInFrame
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.wall_loads import JambLoads, WallLoads

SHEAR_OF_YOUNG = 1.0 / 16.0
"""Shear modulus of softwood over its modulus along the grain. Source: EN 338:2016, G = E/16, from memory."""

AGREE = 0.25
"""How far hand and frame may differ before the answer says so. Own choice: the hand formulas take corners as
hinges and ties as rigid, the frame does not."""


@dataclass(frozen=True)
class LostTie:
    """One tie gone. Moments and pulls are over those with all ties; `use` is bending over what the rim bears for days.

    `rim` is the one whose moment grows most, `busiest` the one that uses most of its strength then.
    """

    at: float
    rim: str
    growth: float
    busiest: str
    use: float
    pull: float


@dataclass(frozen=True)
class FrameFacts:
    """The solved frame, and what is left of it when each tie in turn is lost."""

    state: FrameState
    lost: tuple[LostTie, ...]
    why_not: str = ""


def find_frame(
    vessel: Vessel, loads: Mapping[str, WallLoads], rims: Mapping[str, RimFacts], ask: Ask, with_lost: bool
) -> FrameFacts | str:
    """The frame of a box; words where it cannot be built."""
    needed = ("south", "north", "west", "east")
    if any(name not in loads or name not in rims for name in needed):
        return "the whole frame needs studs and a rim on all four walls"
    if any(loads[name].place.wall.buttresses is not None for name in needed):
        return "walls with buttresses are checked by hand only"
    try:
        spec = _spec(vessel, loads, rims, ask)
        state = solve_frame(box_frame(spec))
        lost = _lost(spec, state, rims, ask) if with_lost else ()
    except (SolverError, ImpossibleInput) as fault:
        return str(fault)
    return FrameFacts(state, lost)


def _spec(
    vessel: Vessel, loads: Mapping[str, WallLoads], rims: Mapping[str, RimFacts], ask: Ask
) -> BoxFrameSpec:
    walls = {name: _wall_frame(loads[name], rims[name], ask) for name in ("south", "north", "west", "east")}
    return BoxFrameSpec(
        vessel.length or 0.0,
        vessel.width or 0.0,
        max(loads[name].span for name in walls),
        ask.case.density,
        _corner(walls["south"].stud),
        "rigid" if vessel.corners is not None and vessel.corners.kind == "rigid" else "pinned",
        walls["south"],
        walls["north"],
        walls["west"],
        walls["east"],
        _ties(vessel, ask),
    )


def _bar(section: MemberSection, modulus: float) -> BarSection:
    return BarSection.of(section, modulus, modulus * SHEAR_OF_YOUNG)


def _corner(stud: BarSection) -> BarSection:
    """A corner post: two studs square to each other, as stiff one way as the other."""
    both = stud.strong + stud.weak
    return replace(stud, area=2.0 * stud.area, strong=both, weak=both, torsion=2.0 * stud.torsion)


def _of(piece: Piece) -> BarSection:
    return _bar(piece.shape, piece.modulus)


def _timber(timber: Timber | Crosspiece | Jambs | None, ask: Ask) -> BarSection | None:
    if timber is None or timber.section is None or timber.grade is None:
        return None
    return _of(ask.piece(timber.grade, timber.section))


def _ties(vessel: Vessel, ask: Ask) -> tuple[TieBar, ...]:
    found = []
    for tie in vessel.ties.values():
        if tie.section is None or tie.grade is None:
            raise SolverError("a tie has no section or grade")
        bar = _of(ask.piece(tie.grade, timber_left(tie.section, tie.as_built)))
        found += [
            TieBar(tie.across, at, bar)
            for number, at in enumerate(tie.at, start=1)
            if number not in tie.as_built.cracked
        ]
    return tuple(found)


def _wall_frame(loads: WallLoads, rim: RimFacts, ask: Ask) -> WallFrame:
    place, studs = loads.place, loads.place.wall.studs
    if studs is None or studs.section is None or studs.grade is None:
        raise SolverError(f"the {place.name} wall's studs have no section or grade")
    stud = _of(ask.piece(studs.grade, timber_left(studs.section, studs.as_built)))
    deep = max(loads.depth, 0.0)
    return WallFrame(
        tuple(at for at in stud_places(place) if 0.0 < at < place.length),
        stud,
        _of(rim.piece),
        deep,
        deep,
        openings=tuple(_opening(jamb, place, ask) for jamb in loads.jambs),
        lines=tuple(line for jamb in loads.jambs for line in _lines(jamb, loads)),
    )


def _turned(place: WallPlace, at: float) -> float:
    """Places counted from the west or south end, as the frame counts them."""
    return place.length - at if place.name in LEFT_IS_FAR else at


def _opening(jamb: JambLoads, place: WallPlace, ask: Ask) -> Opening:
    window = jamb.window
    start, end = sorted((_turned(place, jamb.left), _turned(place, jamb.right)))
    on_jambs = window.window.opening.sill_held_by == "jambs"
    return Opening(
        start,
        end,
        window.sill,
        min(window.sill + window.height, place.height),
        _timber(window.window.opening.sill, ask) if on_jambs else None,
        _timber(window.window.opening.header, ask) if window.top_on == "header" else None,
        _timber(window.window.opening.jambs, ask),
    )


def _lines(jamb: JambLoads, loads: WallLoads) -> list[WallLine]:
    """What a window hands to the timbers round it."""
    window, place = jamb.window, loads.place
    reactions, opening = window.reactions, window.window.opening
    start = min(_turned(place, jamb.left), _turned(place, jamb.right)) + jamb.inset
    found = []
    for side, at in ((reactions.left, jamb.left), (reactions.right, jamb.right)):
        found += [
            WallLine("up", _turned(place, at), patch.start, patch.end, patch.at_start, patch.at_end)
            for patch in sliced(side, window.sill)
        ]
    across = []
    if opening.sill_held_by == "jambs":
        across.append((reactions.bottom, window.sill))
    if window.top_on == "rim":
        across.append((reactions.top, loads.span))
    elif window.top_on == "header":
        across.append((reactions.top, window.sill + window.height))
    for edge, level in across:
        found += [
            WallLine("across", level, patch.start, patch.end, patch.at_start, patch.at_end)
            for patch in sliced(edge, start)
        ]
    return found


def beside(rims: Mapping[str, RimFacts], frame: FrameFacts) -> dict[str, RimFacts]:
    """The rims with what the frame says of each."""
    names = tuple(bar.name for bar in frame.state.model.bars if ".rim." in bar.name)
    paths = dict(zip(names, frame.state.paths(names, _STATIONS), strict=True))
    return {name: rim.beside(rim_in_frame(rim, frame.state, paths)) for name, rim in rims.items()}


_OUT = {"south": (1, -1.0), "north": (1, 1.0), "west": (0, -1.0), "east": (0, 1.0)}
"""Which of x and y points outward at a wall, and with which sign."""


Path: TypeAlias = tuple[Array, Array]
"""Where the points of a bar were and how they moved."""


def rim_in_frame(rim: RimFacts, state: FrameState, paths: Mapping[str, Path]) -> RimInFrame:
    """One rim's moment, shear and movement; `paths` are of every piece of every rim, by name."""
    wall = rim.place.name
    along, outward = _outward([path for name, path in paths.items() if name.startswith(f"{wall}.rim.")], wall)
    if wall in LEFT_IS_FAR:
        along, outward = rim.place.length - along[::-1], outward[::-1]
    moved = outward - np.interp(along, along[[0, -1]], outward[[0, -1]])
    props = np.asarray(rim.props)
    strayed = outward - np.interp(along, props, np.interp(props, along, outward))
    return RimInFrame(
        state.moment(f"{wall}.rim"),
        state.shear(f"{wall}.rim"),
        float(np.abs(strayed).max()),
        float(outward[[0, -1]].max()),
        along,
        moved,
    )


def _outward(paths: Sequence[Path], wall: str) -> tuple[Array, Array]:
    """Places along a wall from its west or south end, and how far the rim there moves outward."""
    axis, sign = _OUT[wall]
    along = np.concatenate([rest[:, 1 - axis] for rest, _ in paths])
    moved = np.concatenate([sign * way[:, axis] for _, way in paths])
    places, first = np.unique(np.round(along, 9), return_index=True)
    return places, moved[first]


_STATIONS = 9
"""Places looked at along each piece of a rim between studs."""


_COUNTS = 0.05
"""A rim whose moment stays under this share of the largest one is left out when growth is told. Own choice: a moment
of next to nothing may grow a hundredfold and still be next to nothing."""


def _lost(
    spec: BoxFrameSpec, whole: FrameState, rims: Mapping[str, RimFacts], ask: Ask
) -> tuple[LostTie, ...]:
    """Each tie taken away in turn."""
    before = {name: whole.moment(f"{name}.rim") for name in rims}
    may = {name: _moment_for_days(rim, ask) for name, rim in rims.items()}
    pull = max(abs(whole.axial(f"tie.{number}")) for number in range(len(spec.ties))) if spec.ties else 0.0
    found = []
    for number, tie in enumerate(spec.ties):
        state = solve_frame(box_frame(lost_tie(spec, number)))
        after = {name: state.moment(f"{name}.rim") for name in rims}
        most = max(after.values())
        growth = {
            name: after[name] / before[name]
            for name in rims
            if before[name] > 0.0 and after[name] >= _COUNTS * most
        }
        use = {name: after[name] / may[name] for name in rims}
        others = [abs(state.axial(f"tie.{other}")) for other in range(len(spec.ties)) if other != number]
        grown = max(growth, key=growth.__getitem__, default="")
        busiest = max(use, key=use.__getitem__)
        pulled = max(others, default=0.0) / pull if pull else 0.0
        found.append(LostTie(tie.at, grown, growth.get(grown, 0.0), busiest, use[busiest], pulled))
    return tuple(found)


def _moment_for_days(rim: RimFacts, ask: Ask) -> float:
    """What a rim may bear in bending while the water is let out: its load factor taken off."""
    timber = rim.place.wall.rim
    if timber is None or timber.grade is None:
        raise SolverError(f"the {rim.place.name} rim has no grade")
    days = replace(ask, case=replace(ask.case, duration="days"))
    piece = days.piece(timber.grade, rim.piece.section)
    return piece.bending * piece.shape.strong_modulus / piece.load_factor
