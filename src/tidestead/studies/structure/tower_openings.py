"""Judging the timbers round a window in a tower's face: they take its load to the rings above and below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tidestead.plan.model import Crosspiece, Vessel
from tidestead.studies.checks import At
from tidestead.studies.judged import Judged
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import SEAT_SHARE, beam_checks, simple_beam
from tidestead.studies.structure.joint_checks import Member, end_or_side, fixing_check
from tidestead.studies.structure.patches import Patch, ends, point, sliced
from tidestead.studies.structure.tower_facts import TowerFacts
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.window_facts import WindowFacts


@dataclass(frozen=True)
class _Bay:
    """The two rings a window stands between: heights of their middles."""

    low: float
    high: float

    @property
    def span(self) -> float:
        return self.high - self.low


def tower_opening_checks(window: WindowFacts, facts: TowerFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """Jambs from ring to ring, a sill and a header from jamb to jamb; a ring in the way is nobody's to cut."""
    crossed = _crossed(window, facts)
    if crossed:
        why = (
            f"ring {crossed} from the floor crosses it, and a ring that is cut holds nothing: move the window between "
            "two rings, or the rings apart (rings.at)"
        )
        return nothing(window.at.below("ring", "ring across it"), "cut", "ring across the window", why)
    bay = _bay(window, facts)
    pressure = facts.weight * max(facts.depth - bay.low, 0.0)
    found: list[Judged] = []
    loads: list[tuple[float, tuple[Patch, ...]]] = []
    opening, reactions = window.window.opening, window.reactions
    top = window.sill + window.height
    pieces = (
        ("sill", "timber under it", opening.sill, reactions.bottom, (window.sill, window.sill - bay.low)),
        ("header", "timber over it", opening.header, reactions.top, (top, bay.high - top)),
    )
    for name, words, timber, edge, (level, gap) in pieces:
        beyond = Patch(0.0, window.width, pressure * max(gap, 0.0), pressure * max(gap, 0.0))
        patches = (*sliced(edge, 0.0), beyond)
        loads.append((level, patches))
        found += _crosspiece(window.at.below(f"opening.{name}", words), timber, patches, window, ask)
    return found + _jambs(window, (facts, bay, pressure), loads, vessel, ask)


def _crossed(window: WindowFacts, facts: TowerFacts) -> str:
    """Numbers of the rings that stand before the sheet, plates at foot and top left out."""
    low = window.window.sill or 0.0
    high, half = low + (window.window.height or 0.0), facts.ring_piece.section.breadth / 2.0
    inner = facts.rings[1:-1]
    return ", ".join(
        str(ring.number) for ring in inner if low < ring.level + half and ring.level - half < high
    )


def _bay(window: WindowFacts, facts: TowerFacts) -> _Bay:
    middle = window.sill + window.height / 2.0
    bays = [_Bay(low, high) for low, high in pairwise(facts.levels)]
    return next((bay for bay in bays if bay.low <= middle <= bay.high), bays[-1])


def _crosspiece(
    at: At, timber: Crosspiece | None, patches: Sequence[Patch], window: WindowFacts, ask: Ask
) -> list[Judged]:
    if timber is None or timber.section is None or timber.grade is None:
        return nothing(at, "bending", "bending", f"say its section and grade: {at.path}")
    used = ask.piece(timber.grade, timber.section)
    found = beam_checks(at, used, simple_beam(used, patches, window.width), ask, SEAT_SHARE)
    jambs, here = window.window.opening.jambs, at.below("joint", "its ends")
    if jambs is None or jambs.section is None or jambs.grade is None:
        return found + nothing(here, "force", "fixing to the jambs", "the jambs are not described")
    level = Member(timber.grade, timber.section.breadth)
    jamb = Member(jambs.grade, jambs.section.breadth * jambs.section.pieces)
    force = max(ends(patches, window.width))
    members = end_or_side(timber.joint, level, jamb)
    return [*found, fixing_check(here, "fixing to the jambs", force, timber.joint, members, ask)]


def _jambs(
    window: WindowFacts,
    place: tuple[TowerFacts, _Bay, float],
    loads: Sequence[tuple[float, tuple[Patch, ...]]],
    vessel: Vessel,
    ask: Ask,
) -> list[Judged]:
    """The busier jamb: the sheet's side, sill and header, and the face beside it to the corner. A rib in the way of
    the window is cut: what it took, these take."""
    facts, bay, pressure = place
    here = window.at.below("opening.jambs", "timbers beside it")
    jambs = window.window.opening.jambs
    if jambs is None or jambs.section is None or jambs.grade is None:
        return nothing(here, "bending", "bending", f"say their section and grade: {here.path}")
    side = max(window.reactions.left, window.reactions.right, key=lambda edge: edge.total)
    beside = pressure * max(facts.side - window.width, 0.0) / 2.0
    patches = [
        *sliced(side, window.sill - bay.low),
        Patch(0.0, bay.span, beside, beside),
        *(point(level - bay.low, max(ends(held, window.width)), bay.span) for level, held in loads),
    ]
    used = ask.piece(jambs.grade, jambs.section)
    found = beam_checks(here, used, simple_beam(used, patches, bay.span), ask, SEAT_SHARE)
    bottom, top = ends(patches, bay.span)
    upright = Member(jambs.grade, jambs.section.breadth)
    ring = upright
    if vessel.rings is not None and vessel.rings.grade is not None:
        ring = Member(vessel.rings.grade, facts.ring_piece.section.depth)
    for name, words, force, fixing in (("top", "head", top, jambs.top), ("foot", "foot", bottom, jambs.foot)):
        members = end_or_side(fixing, upright, ring)
        found.append(fixing_check(here.below(name, words), "fixing to the ring", force, fixing, members, ask))
    return found
