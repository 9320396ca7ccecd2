"""Judging a wall: its sheathing, its studs and their fixings, the timbers round its windows."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.source import PRACTICE, STATICS, Known
from tidestead.physics.structure import walls
from tidestead.plan.model import Timber
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import BOW_SHARE, SEAT_SHARE, beam_checks, simple_beam
from tidestead.studies.structure.found import timber_left
from tidestead.studies.structure.joint_checks import fixing_check
from tidestead.studies.structure.sheets import Strip, strip
from tidestead.studies.structure.wall_loads import JambLoads, Patch, WallLoads

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
        return nothing(at, "bending", "bending of the sheathing", f"say which sheet: {at.key}.sheet")
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


def _sheet_bending(at: At, loads: WallLoads, sheet: Strip, moment: float) -> Judged:
    acting = sheet.load_factor * moment
    numbers = (
        given("g", sheet.load_factor, "1"),
        given("p", loads.pressure, "Pa"),
        given("s", loads.spacing, "m", "lumber"),
    )
    steps = (step("M", "moment of a strip", "M = g*c*p*s**2", numbers, (acting, "N m/m"), STATICS),)
    limit = Limit(sheet.bending, sheet.bending_source, sheet.includes)
    return Judged(below(at, "bending", "bending", acting, "N m/m", limit, advice=THICKER), steps)


def _sheet_rolling(at: At, loads: WallLoads, sheet: Strip, shear: float) -> Judged:
    acting = sheet.load_factor * shear
    numbers = (
        given("g", sheet.load_factor, "1"),
        given("p", loads.pressure, "Pa"),
        given("s", loads.spacing, "m", "lumber"),
    )
    steps = (step("V", "force across a strip", "V = g*c*p*s", numbers, (acting, "N/m"), STATICS),)
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
    )
    steps = (
        step("w", "bow between studs, with creep", "w = k*c*p*s**4/EI", numbers, (bow * creep, "m"), STATICS),
    )
    limit = Limit(loads.spacing / BOW_SHARE, PRACTICE, f"span over {BOW_SHARE:g}")
    return Judged(
        below(at, "bow", "lasting bow", bow * creep, "m", limit, style="bow", advice=THICKER), steps
    )


def stud_checks(at: At, loads: WallLoads, ask: Ask) -> list[Judged]:
    """A plain stud, and the fixings at its head and foot."""
    studs = loads.place.wall.studs
    if studs is None or studs.section is None or studs.grade is None:
        return nothing(at, "bending", "bending of the studs", f"say {at.key}.section and .grade")
    section = timber_left(studs.section, studs.as_built)
    timber = ask.piece(studs.grade, section, repetitive=loads.spacing <= REPETITIVE_SPACING)
    patches = (Patch(0.0, min(loads.depth, loads.span), loads.stud_base, 0.0),)
    found = beam_checks(at, timber, simple_beam(timber, patches, loads.span), ask)
    joint = (studs.grade, section.breadth, section.depth)
    found.append(
        fixing_check(at.below("top", "head"), "fixing to the rim", loads.stud_top, studs.top, joint, ask)
    )
    found.append(
        fixing_check(
            at.below("foot", "foot"), "fixing to the base", loads.stud_bottom, studs.foot, joint, ask
        )
    )
    return found


def opening_checks(jamb: JambLoads, loads: WallLoads, ask: Ask) -> list[Judged]:
    """The timbers round one window."""
    opening, at = jamb.window.window.opening, jamb.window.at
    wanted: list[tuple[str, str, Timber | None, Sequence[Patch], float]] = [
        ("jambs", "timbers beside it", opening.jambs, jamb.jamb, loads.span)
    ]
    if jamb.sill_force > 0.0 and opening.sill_held_by is None:
        here = at.below("sill", "timber under it")
        why = f"say what holds it: {at.key}.opening.sill_held_by"
        return nothing(here, "bending", "bending", why)
    if opening.sill_held_by == "jambs":
        wanted.append(("sill", "timber under it", opening.sill, jamb.sill, jamb.window.width))
    if jamb.header:
        wanted.append(("header", "timber over it", opening.header, jamb.header, jamb.window.width))
    found: list[Judged] = []
    for name, words, timber, patches, span in wanted:
        here = at.below(name, words)
        if timber is None or timber.section is None or timber.grade is None:
            found += nothing(
                here, "bending", "bending", f"say its section and grade: {at.key}.opening.{name}"
            )
            continue
        used = ask.piece(timber.grade, timber.section)
        share = BOW_SHARE if name == "jambs" else SEAT_SHARE
        found += beam_checks(here, used, simple_beam(used, patches, span), ask, share)
    return found
