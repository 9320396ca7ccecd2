"""Judging a wall: its sheathing, its studs and their fixings, the timbers round its windows."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.answer import Given
from tidestead.core.source import PRACTICE, STATICS, Known
from tidestead.physics.structure import walls
from tidestead.plan.model import Crosspiece, Fixing, Wall
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import (
    BOW_SHARE,
    SEAT_SHARE,
    beam_checks,
    share_step,
    simple_beam,
    up_to,
)
from tidestead.studies.structure.found import timber_left
from tidestead.studies.structure.joint_checks import Member, end_or_side, fixing_check
from tidestead.studies.structure.patches import Patch, ends
from tidestead.studies.structure.sheets import Strip, strip
from tidestead.studies.structure.wall_loads import JambLoads, WallLoads

REPETITIVE_SPACING = 0.61
"""24 in: no further apart do studs share load through the sheathing. Source: NDS-2018 4.3.9."""

THICKER = "closer studs or a thicker sheet"


def judge_wall(at: At, loads: WallLoads, ask: Ask) -> list[Judged]:
    """Every check of one wall but its windows, its rim and its base."""
    found = sheathing_checks(at.below("sheathing", "sheathing"), loads, ask)
    found += stud_checks(at.below("studs", "studs"), loads, ask)
    for jamb in loads.jambs:
        found += opening_checks(jamb, loads, ask)
    return found


def nothing(at: At, name: str, words: str, why: str) -> list[Judged]:
    """One check that cannot be made because the plan is silent."""
    return [Judged(unproven(at, name, words, "1", why, PRACTICE), by_level=False)]


def sheathing_checks(at: At, loads: WallLoads, ask: Ask) -> list[Judged]:
    """The lowest strip of sheathing, which spans from stud to stud."""
    sheathing = loads.place.wall.sheathing
    if sheathing is None or sheathing.sheet is None:
        return nothing(at, "bending", "bending of the sheathing", f"say which sheet: {at.path}.sheet")
    sheet = strip(ask.setting, ask.tables["sheathing"][sheathing.sheet], sheathing, ask.case.duration)
    if sheet.refused:
        return nothing(at, "bending", "bending of the sheathing", sheet.refused)
    spans = max(1, round(loads.place.length / loads.spacing))
    state = walls.sheathing_strip(loads.pressure, loads.spacing, spans, sheet.stiffness)
    return [
        _sheet_bending(at, loads, sheet, float(state.moment)),
        _sheet_rolling(at, loads, sheet, float(state.shear)),
        _sheet_bow(at, loads, sheet, float(state.deflection), ask),
    ]


_SPANS = "g: load factor, c: of a strip over as many equal spans as the wall has"


def _strip_numbers(loads: WallLoads, sheet: Strip) -> tuple[Given, ...]:
    return (
        given("g", sheet.load_factor, "1"),
        given("p", loads.pressure, "Pa"),
        given("s", loads.spacing, "m", "lumber"),
    )


def _sheet_bending(at: At, loads: WallLoads, sheet: Strip, moment: float) -> Judged:
    acting = sheet.load_factor * moment
    numbers = (
        *_strip_numbers(loads, sheet),
        given("c", moment / (loads.pressure * loads.spacing**2), "1"),
    )
    formula = f"M = g*c*p*s**2, {_SPANS}"
    steps = (
        step("M", "moment of a strip", formula, numbers, (acting, "N m/m"), STATICS),
        sheet.limits["bending"],
    )
    limit = Limit(sheet.bending, sheet.bending_source, sheet.includes)
    return Judged(below(at, "bending", "bending", acting, "N m/m", limit, advice=THICKER), steps)


def _sheet_rolling(at: At, loads: WallLoads, sheet: Strip, shear: float) -> Judged:
    acting = sheet.load_factor * shear
    numbers = (
        *_strip_numbers(loads, sheet),
        given("c", shear / (loads.pressure * loads.spacing), "1"),
    )
    formula = f"V = g*c*p*s, {_SPANS}"
    steps = (
        step("V", "force across a strip", formula, numbers, (acting, "N/m"), STATICS),
        sheet.limits["shear"],
    )
    doubt = "The limit is from memory, on the low side; ask the sheet's maker."
    cautions = (doubt,) if sheet.shear_source.known is Known.RECALLED else ()
    limit = Limit(sheet.shear, sheet.shear_source, sheet.includes)
    check = below(at, "rolling", "rolling shear", acting, "N/m", limit, advice=THICKER, cautions=cautions)
    return Judged(check, steps)


def _sheet_bow(at: At, loads: WallLoads, sheet: Strip, bow: float, ask: Ask) -> Judged:
    creep = ask.lasting(sheet.creep)
    numbers = (
        given("p", loads.pressure, "Pa"),
        given("s", loads.spacing, "m", "lumber"),
        given("EI", sheet.stiffness, "N m2/m"),
        given("k", creep, "1"),
        given("c", bow * sheet.stiffness / (loads.pressure * loads.spacing**4), "1"),
    )
    formula = f"w = k*c*p*s**4/EI, k: creep, {_SPANS}"
    steps = (
        step("w", "bow between studs, with creep", formula, numbers, (bow * creep, "m", "bow"), STATICS),
        share_step(loads.spacing, BOW_SHARE),
    )
    limit = Limit(loads.spacing / BOW_SHARE, PRACTICE, f"span over {BOW_SHARE:g}")
    return Judged(
        below(at, "bow", "lasting bow", bow * creep, "m", limit, style="bow", advice=THICKER), steps
    )


def stud_checks(at: At, loads: WallLoads, ask: Ask) -> list[Judged]:
    """The busiest stud, and the fixings at its head and foot."""
    studs = loads.place.wall.studs
    if studs is None or studs.section is None or studs.grade is None:
        return nothing(at, "bending", "bending of the studs", f"say {at.path}.section and .grade")
    section = timber_left(studs.section, studs.as_built)
    timber = ask.piece(studs.grade, section, repetitive=loads.spacing <= REPETITIVE_SPACING)
    patches = (Patch(0.0, min(loads.depth, loads.span), loads.stud_base, 0.0),)
    found = beam_checks(at, timber, simple_beam(timber, patches, loads.span, loads.busiest), ask)
    upright = Member(studs.grade, section.breadth)
    heads = end_or_side(studs.top, upright, rim_member(loads.place.wall, upright, studs.top))
    feet = end_or_side(studs.foot, upright, plate_member(loads.place.wall, upright))
    ends_of = (
        ("top", "head", "fixing to the rim", loads.stud_top, studs.top, heads),
        ("foot", "foot", "fixing to the base", loads.stud_bottom, studs.foot, feet),
    )
    for key, where, words, force, fixing, members in ends_of:
        acting = up_to(force, loads.busiest)
        found.append(fixing_check(at.below(key, where), words, acting, fixing, members, ask))
    return found


def rim_member(wall: Wall, other: Member, fixing: Fixing) -> Member:
    """The rim as a fastener finds it: one plank under a head, all of them behind a stud."""
    rim = wall.rim
    if rim is None or rim.section is None or rim.grade is None:
        return other
    plank = min(rim.section.breadth, rim.section.depth)
    return Member(rim.grade, plank * rim.section.pieces if fixing.into == "side" else plank)


def plate_member(wall: Wall, upright: Member) -> Member:
    """The bottom plate: as thick as the plan says, else one plank like the stud's."""
    thick = wall.base.plate if wall.base is not None and wall.base.plate is not None else upright.thickness
    return Member(upright.grade, thick)


FLOOR_JOINT = 0.06
"""A sill this near to the floor can stand on the base, metres. Common practice, no source."""


def opening_checks(jamb: JambLoads, loads: WallLoads, ask: Ask) -> list[Judged]:
    """The timbers round one window, and how they hold to each other, to the rim and to the base."""
    opening, at = jamb.window.window.opening, jamb.window.at
    here = at.below("opening.sill", "timber under it")
    if jamb.sill and opening.sill_held_by is None:
        return nothing(here, "bending", "bending", f"say what holds it: {at.path}.opening.sill_held_by")
    if jamb.kerb and jamb.window.sill > FLOOR_JOINT:
        why = "a timber this high above the floor cannot stand on the base by itself: let the jambs hold it"
        return nothing(here, "bending", "bending", why)
    found: list[Judged] = []
    jambs = opening.jambs
    if not jamb.kerb:
        found += _crosspiece(here, opening.sill, jamb.sill, jamb, ask)
    if jamb.header:
        over = at.below("opening.header", "timber over it")
        found += _crosspiece(over, opening.header, jamb.header, jamb, ask)
    here = at.below("opening.jambs", "timbers beside it")
    if jambs is None or jambs.section is None or jambs.grade is None:
        return found + nothing(here, "bending", "bending", f"say their section and grade: {here.path}")
    used = ask.piece(jambs.grade, jambs.section)
    found += beam_checks(here, used, simple_beam(used, jamb.busier.patches, loads.span), ask)
    upright = Member(jambs.grade, jambs.section.breadth)
    heads = end_or_side(jambs.top, upright, rim_member(loads.place.wall, upright, jambs.top))
    feet = end_or_side(jambs.foot, upright, plate_member(loads.place.wall, upright))
    top, bottom = (max(getattr(side, end) for side in jamb.sides) for end in ("top", "bottom"))
    found.append(fixing_check(here.below("top", "head"), "fixing to the rim", top, jambs.top, heads, ask))
    found.append(
        fixing_check(here.below("foot", "foot"), "fixing to the base", bottom, jambs.foot, feet, ask)
    )
    return found


def _crosspiece(
    at: At, timber: Crosspiece | None, patches: Sequence[Patch], jamb: JambLoads, ask: Ask
) -> list[Judged]:
    """A sill or a header: bending, and what holds its ends to the jambs."""
    if timber is None or timber.section is None or timber.grade is None:
        return nothing(at, "bending", "bending", f"say its section and grade: {at.path}")
    used = ask.piece(timber.grade, timber.section)
    found = beam_checks(at, used, simple_beam(used, patches, jamb.clear), ask, SEAT_SHARE)
    jambs = jamb.window.window.opening.jambs
    here = at.below("joint", "its ends")
    if jambs is None or jambs.section is None or jambs.grade is None:
        return found + nothing(here, "force", "fixing to the jambs", "the jambs are not described")
    wide = jambs.section.breadth * jambs.section.pieces
    level = Member(timber.grade, timber.section.breadth)
    members = end_or_side(timber.joint, level, Member(jambs.grade, wide))
    force = max(ends(patches, jamb.clear))
    return [*found, fixing_check(here, "fixing to the jambs", force, timber.joint, members, ask)]
