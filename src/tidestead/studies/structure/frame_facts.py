"""The whole box as one frame in space, built from the plan, and what it says beside the hand formulas."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.frame_model import BarSection
from tidestead.physics.structure.frames import FrameState, solve_frame
from tidestead.physics.structure.members import MemberSection
from tidestead.physics.structure.tank_frame import box_frame
from tidestead.physics.structure.tank_spec import BoxFrameSpec, Opening, TieBar, WallFrame, WallLine, lost_tie
from tidestead.plan.model import Timber, Vessel
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.drawings_box import stud_places
from tidestead.studies.structure.found import LEFT_IS_FAR, WallPlace, timber_left
from tidestead.studies.structure.rims import RimFacts
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.wall_loads import JambLoads, WallLoads, sliced

SHEAR_OF_YOUNG = 1.0 / 16.0
"""Shear modulus of softwood over its modulus along the grain. Source: EN 338:2016, G = E/16, from memory."""

AGREE = 0.25
"""How far hand and frame may differ before the answer says so. Own choice: the hand formulas take corners as
hinges and ties as rigid, the frame does not."""


@dataclass(frozen=True)
class FrameFacts:
    """The solved frame, and what is left of it when each tie in turn is lost.

    `lost` pairs a tie's words with the largest rim moment over that with all ties, and the pull in the next tie
    over the same.
    """

    state: FrameState
    lost: tuple[tuple[str, float, float], ...]
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
        lost = _lost(spec, state) if with_lost else ()
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


def _timber(timber: Timber | None, ask: Ask) -> BarSection | None:
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
            for patch in sliced(side.place, side.line_load, window.sill, side.total)
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
            for patch in sliced(edge.place, edge.line_load, start, edge.total)
        ]
    return found


def _lost(spec: BoxFrameSpec, whole: FrameState) -> tuple[tuple[str, float, float], ...]:
    """Each tie taken away in turn: rim moment and tie pull over those with all of them."""
    names = [f"{side}.rim" for side in ("south", "north", "west", "east")]
    before = max(whole.moment(name) for name in names)
    pull = max(abs(whole.axial(f"tie.{number}")) for number in range(len(spec.ties))) if spec.ties else 0.0
    found = []
    for number, tie in enumerate(spec.ties):
        state = solve_frame(box_frame(lost_tie(spec, number)))
        after = max(state.moment(name) for name in names)
        others = [abs(state.axial(f"tie.{other}")) for other in range(len(spec.ties)) if other != number]
        found.append((f"{tie.at:.4f}", after / before, max(others, default=0.0) / pull if pull else 0.0))
    return tuple(found)
