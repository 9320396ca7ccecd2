"""Judging whether a tower stands, what its edge presses on the ground, and the cone on its top."""

from __future__ import annotations

import math

import numpy as np

from tidestead.core.dims import Array, G
from tidestead.core.source import PRACTICE, STATICS
from tidestead.physics.structure import towers
from tidestead.physics.structure.footings import foot_pressure
from tidestead.plan.model import Site, Vessel
from tidestead.studies.checks import At, Limit, above, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask, Tables
from tidestead.studies.structure.ground_checks import Standing, bearing_of
from tidestead.studies.structure.timber import column_strength
from tidestead.studies.structure.tower_facts import TowerFacts
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.vessels import plan_area

KNOCK = 500.0
"""Sideways push of a person leaning on the empty tower at its top, N. Source: common practice, no source: half a
kilonewton is what barriers in houses are made for."""

SAFE = 1.5
"""Least safety against turning over. Source: common practice, no source."""


_FEET = 3
"""Fewest buttresses that make a stand."""


def stand_width(vessel: Vessel) -> float:
    """Least width a tower stands on: its own, or that between its buttresses' feet."""
    radius, props = (vessel.across or 0.0) / 2.0, vessel.buttresses
    if props is not None and props.count is not None and props.reach is not None and props.count >= _FEET:
        return float(towers.buttressed_base(radius, props.reach, props.count))
    return 2.0 * radius


def top_of(vessel: Vessel) -> float:
    """Height at which somebody leans on it."""
    return vessel.height + (vessel.cone.height if vessel.cone is not None else 0.0)


def standing_checks(at: At, vessel: Vessel, water: float, empty: float) -> list[Judged]:
    """Turning over, empty and full, with a person leaning on it. `water` and `empty` are weights in N."""
    base, top, props = stand_width(vessel), top_of(vessel), vessel.buttresses
    anchored = (
        props.anchor_capacity * base if props is not None and props.anchor_capacity is not None else 0.0
    )
    found = []
    for name, weight in (("empty", empty), ("full", empty + water)):
        words = f"turning over {name}, a person leaning on its top"
        safety = float(towers.overturning_safety(weight, base, KNOCK, top)) + anchored / (KNOCK * top)
        numbers = (
            given("W", weight, "N"),
            given("B", base, "m", "sheet"),
            given("F", KNOCK, "N"),
            given("z", top, "m", "level"),
            given("A", anchored, "N m"),
        )
        formula = "SF = (W*B/2 + A)/(F*z), A: one anchor's capacity times B"
        steps = (step("SF", words, formula, numbers, (safety, "1"), STATICS),)
        advice = "wider buttresses, or fasten it to the floor or the building"
        limit = Limit(SAFE, PRACTICE, near=0.0)
        check = above(at, f"overturning.{name}", words, safety, "1", limit, advice=advice)
        found.append(Judged(check, steps, by_level=False))
    return found


def outlines(vessel: Vessel) -> tuple[Array, ...]:
    """The foot's outline, turned with a flat side and with a corner to the push; a round one by many corners."""
    half = (vessel.across or 0.0) / 2.0
    sides = vessel.sides if vessel.shape == "polygon" and vessel.sides else _ROUND_SIDES
    found = []
    for turned in (0.0, math.pi / sides):
        angles = turned + 2.0 * math.pi * np.arange(sides) / sides
        found.append(half / math.cos(math.pi / sides) * np.column_stack((np.cos(angles), np.sin(angles))))
    return tuple(found)


_ROUND_SIDES = 90
"""A round foot has so many corners: their outline is a thousandth larger than it."""


def strut_checks(at: At, vessel: Vessel, ask: Ask) -> list[Judged]:
    """Each buttress as a raking strut: a person's push at the top, all of it on one, goes down it to its foot."""
    props, here = vessel.buttresses, at.below("buttresses", "buttresses")
    if props is None or not props.count:
        return []
    words = "push in one of them, a person leaning on the top"
    if props.reach is None or props.section is None or props.grade is None:
        return nothing(here, "strut", words, f"say {here.path}: reach, section and grade")
    piece = ask.piece(props.grade, props.section)
    top, rise, reach = top_of(vessel), vessel.height, props.reach
    slant = math.hypot(rise, reach)
    along = KNOCK * top / rise * slant / reach
    crushed = piece.load_factor * along / piece.shape.area
    numbers = (
        given("F", KNOCK, "N"),
        given("z", top, "m", "level"),
        given("h", rise, "m", "level"),
        given("r", reach, "m", "sheet"),
    )
    share = (given("g", piece.load_factor, "1"), given("C", along, "N"), given("A", piece.shape.area, "m2"))
    steps = (
        step("C", "along the strut", "C = F*z/h*sqrt(h**2 + r**2)/r", numbers, (along, "N"), STATICS),
        step("f_c", "push over the section", "f_c = g*C/A", share, (crushed, "Pa"), STATICS),
    )
    limit = Limit(column_strength(ask.setting, piece, slant), piece.source, piece.includes)
    advice = "a thicker strut, or a foot further out"
    check = below(here, "strut", words, crushed, "Pa", limit, advice=advice, cautions=(STRUTS,))
    return [Judged(check, steps, by_level=False)]


STRUTS = "Taken as a straight strut from the top plate to its foot; how its ends are fixed is not checked."


def shaken_checks(at: At, vessel: Vessel, site: Site, facts: Standing) -> list[Judged]:
    """Turning over of the full tower where the plan gives an acceleration; the rest is an engineer's."""
    quake, here = site.earthquake, at.below("shaken", "shaken")
    if quake is None:
        return []
    share, base, height = quake.horizontal / G, stand_width(vessel), top_of(vessel) / 2.0
    words = "pushes on rings, ribs, faces and anchors"
    found = nothing(here, "force", words, "shaken water pushes harder than still water: an engineer's job")
    if share <= 0.0:
        return found
    safety = float(towers.overturning_safety(facts.weight, base, share * facts.weight, height))
    numbers = (
        given("W", facts.weight, "N"),
        given("B", base, "m", "sheet"),
        given("s", share, "1"),
        given("z", height, "m", "level"),
    )
    meaning = "turning over, shaken: all of the water moves with its walls, no anchor counted, s = a/g"
    formula = "SF = W*B/2/(s*W*z)"
    steps = (step("SF", meaning, formula, numbers, (safety, "1"), STATICS),)
    limit = Limit(SAFE, PRACTICE, near=0.0)
    advice = "fasten it to the building, or wider buttresses"
    check = above(here, "overturning", "turning over, shaken", safety, "1", limit, advice=advice)
    return [Judged(check, steps, by_level=False), *found]


def footing_checks(at: At, vessel: Vessel, full: float, tables: Tables) -> list[Judged]:
    """Pressure under the edge of a full tower that somebody leans on. `full` is its weight in N."""
    here = at.below("footing", "edge of its foot")
    words = "pressure with a person leaning on its top"
    bearing = bearing_of(vessel.stands_on, tables)
    if bearing is None:
        return nothing(here, "pressure", words, f"say what it stands on: {at.path}.stands_on")
    width = vessel.across or 0.0
    off = KNOCK * top_of(vessel) / full
    foot = max((foot_pressure(full, off, outline) for outline in outlines(vessel)), key=lambda one: one.peak)
    area = plan_area(vessel)
    numbers = (
        given("N", full, "N"),
        given("e", off, "m", "sheet"),
        given("B", width, "m", "sheet"),
        given("A", area, "m2"),
        given("touching", foot.contact, "m", "sheet"),
    )
    formula = "p = N/A*(1 + e*x*A/I) of the foot's own outline; where it lifts, of the part that touches"
    steps = (step("p", words, formula, numbers, (float(foot.peak), "Pa"), STATICS),)
    advice = "a wider foot, or a footing that spreads further"
    check = below(here, "pressure", words, float(foot.peak), "Pa", bearing, advice=advice)
    # The less water is in it the more its foot tips, so that no lower level mends this.
    return [Judged(check, steps, by_level=False)]


def cone_checks(at: At, facts: TowerFacts, vessel: Vessel, ask: Ask) -> list[Judged]:
    """The cone's thrust on the top ring, and whether water in it would lift it."""
    cone = vessel.cone
    if cone is None:
        return []
    radius = facts.apothem
    slope = math.atan2(cone.height, max(radius - cone.neck / 2.0, 1e-6))
    here = at.below("cone", "cone")
    if cone.mass is None:
        return nothing(here, "seat", "push of the cone on its seat", f"say how heavy it is: {here.path}.mass")
    found = [_cone_seat(here, cone.mass * G, (radius, slope), facts)]
    if cone.water is not None:
        found.append(_cone_lift(here, cone.mass * G, (radius, slope, min(cone.water, cone.height)), ask))
        why = "the rings and faces below are reckoned to the top of the wall only: keep the water below the cone"
        found += nothing(here, "head", "push of the water in the cone on what is below", why)
    return found


def _cone_seat(here: At, weight: float, shape: tuple[float, float], facts: TowerFacts) -> Judged:
    """The cone's thrust on the top ring; `shape` is its radius and slope."""
    radius, slope = shape
    piece, pull = facts.ring_piece, float(towers.cone_seat(weight, radius, slope).hoop)
    stress = piece.load_factor * pull / piece.shape.area
    cone = (given("W", weight, "N"), given("R", radius, "m", "sheet"), given("a", slope, "rad"))
    ring = (given("g", piece.load_factor, "1"), given("T", pull, "N"), given("A", piece.shape.area, "m2"))
    steps = (
        step("T", "pull in the top ring", "T = W/(2*pi*R*tan(a))*R", cone, (pull, "N"), STATICS),
        step("f_t", "pull over the section", "f_t = g*T/A", ring, (stress, "Pa"), STATICS),
    )
    limit = Limit(piece.tension, piece.source, piece.includes)
    advice = "a larger top ring, a steeper cone or a lighter one"
    check = below(here, "seat", "pull in the ring under the cone", stress, "Pa", limit, advice=advice)
    return Judged(check, steps, by_level=False)


def _cone_lift(here: At, weight: float, shape: tuple[float, float, float], ask: Ask) -> Judged:
    """Water in the cone against its weight; `shape` is its radius, slope and how high the water stands in it."""
    radius, slope, water = shape
    lift = float(towers.cone_uplift(ask.case.density, radius, slope, water))
    numbers = (
        given("rho", ask.case.density, "kg/m3"),
        given("R", radius, "m", "sheet"),
        given("a", slope, "rad"),
        given("h", water, "m", "level"),
    )
    words = "lift of the water in it against its weight"
    formula = "F = rho*g*(pi*R**2*h - volume of the cone to h)"
    steps = (step("F", words, formula, numbers, (lift, "N"), STATICS),)
    check = below(here, "lift", words, lift, "N", Limit(weight, STATICS), advice="strap it down")
    return Judged(check, steps, by_level=False)
