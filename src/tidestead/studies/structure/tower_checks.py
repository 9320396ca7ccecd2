"""Judging a tower: faces, ribs, rings and their corners, the cone's seat, and whether it stands."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tidestead.core.answer import Step
from tidestead.core.errors import ImpossibleInput
from tidestead.core.source import PRACTICE, STATICS
from tidestead.physics.structure import beams, eurocode, nds, timber_stress
from tidestead.plan.model import Fixing, Vessel
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import (
    BOW_SHARE,
    Bent,
    beam_checks,
    share_step,
    up_to,
)
from tidestead.studies.structure.joint_checks import Member, net_of, pulled_check
from tidestead.studies.structure.sheets import Spans, Strip, strip
from tidestead.studies.structure.tower_facts import RingFacts, TowerFacts
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.wall_loads import busiest_share


def judge_tower(at: At, facts: TowerFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """Every check of a tower but its windows, lining and ground."""
    found = face_checks(at.below("sheathing", "sheathing", "walls.all.sheathing"), facts, vessel, ask)
    here = at.below("ribs", "ribs")
    if facts.rib is not None and facts.rib_piece is not None:
        found += rib_checks(here, facts, vessel, ask)
    elif vessel.ribs is not None:
        found += nothing(here, "bending", "bending", f"say {here.path}: section, grade and per_face")
    busiest = max(facts.rings, key=lambda ring: ring.line_load)
    where = at.below("rings", f"ring {busiest.number} from the floor")
    found += ring_checks(where, facts, busiest, vessel, ask)
    return found


def face_checks(at: At, facts: TowerFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """The sheathing spans the way that works it less: from ring to ring, or from upright to upright."""
    sheathing = vessel.walls["all"].sheathing if "all" in vessel.walls else None
    if sheathing is None or sheathing.sheet is None:
        return nothing(at, "bending", "bending of the sheathing", f"say which sheet: {at.path}.sheet")
    row = ask.tables["sheathing"][sheathing.sheet]
    ways = []
    for spans in _ways(vessel):
        sheet = strip(ask.setting, row, sheathing, ask.case.duration, spans)
        ways.append((sheet, _upright(facts, sheet) if spans == "upright" else _level(facts, sheet)))
    sheet, span = min(ways, key=lambda way: _face_use(*way))
    if sheet.refused:
        return nothing(at, "bending", "bending of the sheathing", sheet.refused)
    return _face_judged(at, facts, sheet, span, ask)


def _ways(vessel: Vessel) -> tuple[Spans, ...]:
    """How a face may span: from upright to upright only where uprights stand at the corners too."""
    framed = vessel.shape == "polygon" and vessel.ribs is not None and vessel.ribs.at_corners
    return ("upright", "level") if framed else ("upright",)


def _face_use(sheet: Strip, span: FaceSpan) -> float:
    """The larger share of its strength that a strip uses."""
    if sheet.refused:
        return float("inf")
    return sheet.load_factor * max(span.moment / sheet.bending, span.shear / sheet.shear)


CLOSER = "a thicker sheet, rings closer together, or ribs with one at each corner"


def _face_judged(at: At, facts: TowerFacts, sheet: Strip, span: FaceSpan, ask: Ask) -> list[Judged]:
    line, creep = facts.pressure * span.span, ask.lasting(sheet.creep)
    moment, shear = sheet.load_factor * span.moment, sheet.load_factor * span.shear
    bent = Limit(sheet.bending, sheet.bending_source, sheet.includes)
    rolled = Limit(sheet.shear, sheet.shear_source, sheet.includes)
    bowed = Limit(span.span / BOW_SHARE, PRACTICE, f"span over {BOW_SHARE:g}")
    given_all = (
        given("g", sheet.load_factor, "1"),
        given("p", facts.pressure, "Pa"),
        given("s", span.span, "m", "lumber"),
        given("EI", sheet.stiffness, "N m2/m"),
        given("k", creep, "1"),
    )

    def worked(form: str, share: float, result: tuple[float, str], *more: Step) -> tuple[Step, ...]:
        formula = f"{form}, c: of a beam over the uprights or rings, g: load factor, k: creep"
        return step(form[0], span.how, formula, (*given_all, given("c", share, "1")), result, STATICS), *more

    bow = span.bow * creep
    first = worked(
        "M = g*c*p*s**2", span.moment / (line * span.span), (moment, "N m/m"), sheet.limits["bending"]
    )
    second = worked("V = g*c*p*s", span.shear / line, (shear, "N/m"), sheet.limits["shear"])
    third = worked(
        "w = k*c*p*s**4/EI",
        span.bow * sheet.stiffness / (line * span.span**3),
        (bow, "m"),
        share_step(span.span, BOW_SHARE),
    )
    return [
        Judged(below(at, "bending", "bending", moment, "N m/m", bent, advice=CLOSER), first),
        Judged(below(at, "rolling", "rolling shear", shear, "N/m", rolled, advice=CLOSER), second),
        Judged(below(at, "bow", "lasting bow", bow, "m", bowed, style="bow", advice=CLOSER), third),
    ]


@dataclass(frozen=True)
class FaceSpan:
    """A strip of a face over its span: moment and shear per metre, bow at once."""

    span: float
    moment: float
    shear: float
    bow: float
    how: str


def _upright(facts: TowerFacts, sheet: Strip) -> FaceSpan:
    up = beams.hydrostatic_beam(np.asarray(facts.levels), facts.depth, facts.weight, sheet.stiffness)
    bow = float(max(abs(up.deflection)))
    span = float(facts.bays.max())
    return FaceSpan(span, up.moment, float(up.shear.max()), bow, "strip from ring to ring")


def _level(facts: TowerFacts, sheet: Strip) -> FaceSpan:
    across = facts.rib_spacing or facts.side
    count = max(1, round(facts.side / across))
    level = beams.equal_spans(facts.pressure, across, count, sheet.stiffness)
    bent = (float(level.moment), float(level.shear), float(level.deflection))
    return FaceSpan(across, *bent, "strip from upright to upright")


def rib_checks(at: At, facts: TowerFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """Ribs run from the bottom plate to the top plate and lean on the rings."""
    state, piece = facts.rib, facts.rib_piece
    if state is None or piece is None:
        return []
    more = busiest_share(round(facts.side / facts.rib_spacing)) if vessel.shape == "polygon" else 1.0
    bent = Bent(
        up_to(state.moment, more),
        up_to(float(state.shear.max()), more),
        up_to(float(max(abs(state.deflection))), more),
        float(facts.bays.max()),
        "rib over all rings under the water",
    )
    return beam_checks(at, piece, bent, ask)


def ring_checks(at: At, facts: TowerFacts, ring: RingFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """The busiest ring: pull and bending of a side together, the half of it that is left at a lap, and the joint."""
    found = [_ring_use(at, facts, ring, ask)]
    rings = vessel.rings
    if rings is None or rings.grade is None:
        return found
    if vessel.shape == "polygon" and rings.corners == "rigid" and rings.corner_capacity is None:
        why = f"stiff corners count only with their moment capacity: say {at.path}.corner_capacity"
        found += nothing(at, "corner_moment", "moment at a corner", why)
    found += _lap_checks(at, facts, ring, rings.joint, ask)
    half = facts.ring_piece.section.breadth / 2.0
    here = at.below("joint", "corner joint")
    lap = Member(rings.grade, half, facts.ring_piece.section.depth)
    joint = (lap, lap)
    side = ring.bending.shear if ring.bending is not None else 0.0
    force = math.hypot(ring.pull, side)
    found.append(pulled_check(here, "pull on a corner joint", force, _halved(rings.joint), joint, ask))
    return found


def _lap_checks(at: At, facts: TowerFacts, ring: RingFacts, joint: Fixing, ask: Ask) -> list[Judged]:
    """Ring pieces lap at half their thickness: there half the wood, less the holes of bolts, takes the pull, the push
    of the side and a stiff corner's moment."""
    piece, bending = facts.ring_piece, ring.bending
    corner, side = (bending.corner, bending.shear) if bending is not None else (0.0, 0.0)
    half, deep = piece.section.breadth * piece.section.pieces / 2.0, piece.section.depth
    words = "pull on the half left at a lap"
    try:
        area = net_of(piece.shape.area / 2.0, joint, half, ask)
    except ImpossibleInput as fault:
        return nothing(at, "lap", words, str(fault))
    pulled = piece.load_factor * float(timber_stress.axial_stress(ring.pull, area))
    # holes lie in the middle of the depth or to both sides of it: the section bends as if narrower by their share
    left = area / (piece.shape.area / 2.0)
    bent = piece.load_factor * float(
        timber_stress.bending_stress(corner, left * piece.shape.strong_modulus / 2.0)
    )
    both = eurocode.tension_bending_use if ask.setting.rules == "EC5" else nds.tension_bending_use
    use = float(both(pulled / piece.tension, bent / piece.bending))
    stresses = (given("f_t", pulled, "Pa"), given("F_t", piece.tension, "Pa"), given("f_b", bent, "Pa"))
    shares = (*stresses, given("A_net", area, "m2"), given("g", piece.load_factor, "1"))
    form = "u = g*T/A_net/F_t + f_b/F_b, A_net: half the section less holes"
    steps = (step("u", words, form, shares, (use, "1"), piece.source),)
    whole = Limit(1.0, piece.source, piece.includes)
    lap = below(at, "lap", words, use, "1", whole, advice=LARGER_RINGS, cautions=(LAP,))
    found = [Judged(lap, steps)]
    if bending is not None:
        stress = piece.load_factor * float(timber_stress.shear_stress(side, half, deep, piece.crack_factor))
        numbers = (
            given("g", piece.load_factor, "1"),
            given("V", side, "N"),
            given("k", piece.crack_factor, "1"),
            given("b", 2.0 * half, "m", "lumber"),
            given("d", deep, "m", "lumber"),
        )
        lines = (step("f_v", "shear at a lap", "f_v = g*1.5*V/(k*b/2*d)", numbers, (stress, "Pa"), STATICS),)
        limit = Limit(piece.shear, piece.source, piece.includes)
        check = below(at, "shear", "shear at a lap", stress, "Pa", limit, advice=LARGER_RINGS)
        found.append(Judged(check, lines))
    return found


LARGER_RINGS = "rings of a larger section, or closer together"

LAP = "Ring pieces are taken as halved into each other at the corners."


def _ring_use(at: At, facts: TowerFacts, ring: RingFacts, ask: Ask) -> Judged:
    piece, bending = facts.ring_piece, ring.bending
    pulled = piece.load_factor * float(timber_stress.axial_stress(ring.pull, piece.shape.area))
    moment = max(bending.middle, bending.corner) if bending is not None else 0.0
    bent = piece.load_factor * float(timber_stress.bending_stress(moment, piece.shape.strong_modulus))
    both = eurocode.tension_bending_use if ask.setting.rules == "EC5" else nds.tension_bending_use
    use = float(both(pulled / piece.tension, bent / piece.bending))
    corners = "stiff corners, as shown" if ring.rigid_corners else "corners taken as hinges"
    load = given("q", ring.line_load, "N/m")
    radius, side = given("r", facts.apothem, "m", "sheet"), given("L", facts.side, "m", "sheet")
    shares = (
        given("f_t", pulled, "Pa"),
        given("F_t", piece.tension, "Pa"),
        given("f_b", bent, "Pa"),
        given("F_b", piece.bending, "Pa"),
    )
    bends = "M = q*L**2/8 hinged; q*L**2/12 and /24 stiff"
    words = "pull and bending together"
    steps = (
        step("T", "pull round the ring", "T = q*r", (load, radius), (ring.pull, "N"), STATICS),
        step("M", f"bending of a side, {corners}", bends, (load, side), (moment, "N m"), STATICS),
        piece.limits["tension"],
        piece.limits["bending"],
        step("u", words, "f_t/F_t + f_b/F_b, F the allowed ones", shares, (use, "1"), piece.source),
    )
    advice = "a larger ring, rings closer together, or a corner joint with a shown moment capacity"
    limit = Limit(1.0, piece.source, piece.includes)
    return Judged(below(at, "pull_and_bending", words, use, "1", limit, advice=advice), steps)


def _halved(joint: Fixing) -> Fixing:
    """Ring pieces lap at half their thickness: the head bears in one half, the point in the other."""
    return joint if joint.through is not None else joint.model_copy(update={"into": joint.into or "side"})
