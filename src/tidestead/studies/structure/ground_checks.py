"""Judging what is under a vessel: ground, slab, floor; and, where accelerations are given, the slosh."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.dims import G
from tidestead.core.source import PRACTICE, STATICS, YOURS, Known, Source
from tidestead.physics.structure import ground, hydrostatics, sloshing
from tidestead.plan.model import Site, StandsOn, Vessel
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.found import box_walls
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.water import LoadCase
from tidestead.studies.vessels import plan_area

OWN_SHARE = 0.12
"""Mass of an empty timber vessel over that of its water, where the plan is silent. Source: common practice, no
source: a heavy timber box of ten cubic metres comes to a tonne."""

FLOOR = "A filled tank on a floor with joists needs an engineer who looks at the joists."


@dataclass(frozen=True)
class Standing:
    """What stands on the ground under one load case. Areas in m2, masses in kg, pressure in Pa."""

    area: float
    volume: float
    water_mass: float
    own_mass: float
    pressure: float

    @property
    def weight(self) -> float:
        return (self.water_mass + self.own_mass) * G


def find_standing(vessel: Vessel, case: LoadCase) -> Standing:
    """Mass and pressure of a vessel filled to a level. A floor that falls away holds half its fall more."""
    area = plan_area(vessel)
    fall = (vessel.stands_on.drop or 0.0) + (vessel.stands_on.settles or 0.0)
    volume = float(hydrostatics.prism_volume(area, case.level + fall / 2.0))
    water = float(hydrostatics.water_mass(volume, case.density))
    share = vessel.dry_mass_share if vessel.dry_mass_share is not None else OWN_SHARE
    full = float(hydrostatics.prism_volume(area, vessel.height)) * case.density
    own = share * full + (vessel.cone.mass or 0.0 if vessel.cone is not None else 0.0)
    pressure = (
        float(hydrostatics.floor_pressure(case.level + fall, case.density, own, area)) if area else math.nan
    )
    return Standing(area, volume, water, own, pressure)


ON_JOISTS = "props or a beam under the joists, by an engineer; or a vessel on a slab of its own"
ON_SOIL = "a footing that spreads further, better ground under it by a report, or a lower water level"


def ground_checks(at: At, vessel: Vessel, standing: Standing, tables: Tables) -> list[Judged]:
    """Pressure of the filled vessel against what is under it."""
    here, stands = at.below("stands_on", "what it stands on"), vessel.stands_on
    words = "pressure of the full vessel"
    numbers = (given("W", standing.weight, "N"), given("A", standing.area, "m2"))
    steps = (
        step("p", words, "p = W/A, W: water and own weight", numbers, (standing.pressure, "Pa"), STATICS),
    )
    limit = bearing_of(stands, tables)
    if limit is None:
        wanted = {"joists": ".capacity by an engineer, or .floor", None: ".kind"}.get(
            stands.kind, ".soil, or .bearing by a report"
        )
        return nothing(here, "pressure", words, f"say what is under it: {here.path}{wanted}")
    cautions = (FLOOR,) if stands.kind == "joists" else _soil_cautions(stands, tables)
    advice = ON_JOISTS if stands.kind == "joists" else ON_SOIL
    pressed = below(here, "pressure", words, standing.pressure, "Pa", limit, advice=advice, cautions=cautions)
    found = [Judged(pressed, steps)]
    return found if stands.kind == "joists" else found + _edge_line(here, vessel, standing, limit)


def bearing_of(stands: StandsOn, tables: Tables) -> Limit | None:
    """What the floor or the ground may bear; None where the plan does not say."""
    if stands.kind is None:
        return None
    if stands.kind == "joists":
        if stands.capacity is not None:
            return Limit(stands.capacity, YOURS, "as your engineer allows")
        if stands.floor is None:
            return None
        row = tables["floors"][stands.floor]
        return Limit(row.si("live_load"), row.figure("live_load").source, "what such floors are built for")
    if stands.bearing is not None:
        return Limit(stands.bearing, YOURS, "as your soil report or code allows")
    if stands.soil is None:
        return None
    row = tables["soils"][stands.soil]
    return Limit(row.si("bearing"), row.figure("bearing").source, "presumed for such ground")


def _soil_cautions(stands: StandsOn, tables: Tables) -> tuple[str, ...]:
    if stands.soil is None:
        return ()
    words = tables["soils"][stands.soil].tag("cautions", ())
    return words if isinstance(words, tuple) else ()


def _edge_line(at: At, vessel: Vessel, standing: Standing, limit: Limit) -> list[Judged]:
    """The walls' own weight stands on a narrow strip beside the water's pressure. Bare ground spreads nothing."""
    if vessel.shape != "box":
        return []
    slab = vessel.stands_on.slab_thickness
    if slab is None and vessel.stands_on.kind == "slab":
        return nothing(at, "edge", "pressure under the walls", f"say {at.key}.slab_thickness")
    slab = slab or 0.0
    girth = 2.0 * ((vessel.length or 0.0) + (vessel.width or 0.0))
    line = standing.own_mass * G / girth
    contact = wall_thickness(vessel)
    spread = float(ground.spread_width(contact, slab, 1.0))
    pressure = float(ground.edge_strip_pressure(line, spread, standing.pressure))
    numbers = (given("q", line, "N/m"), given("b", spread, "m", "level"), given("p", standing.pressure, "Pa"))
    steps = (step("p_e", "under a wall line", "p_e = q/b + p", numbers, (pressure, "Pa"), PRACTICE),)
    advice = f"a thicker slab, which spreads it further; or {ON_SOIL}"
    check = below(at, "edge", "pressure under the walls", pressure, "Pa", limit, advice=advice)
    return [Judged(check, steps)]


def wall_thickness(vessel: Vessel) -> float:
    """Depth of the studs of the thinnest wall, or a hand's breadth where the plan is silent."""
    studs = [place.wall.studs for place in box_walls(vessel)]
    return min(
        (one.section.depth for one in studs if one is not None and one.section is not None), default=0.1
    )


def slosh_checks(at: At, vessel: Vessel, site: Site, case: LoadCase) -> list[Judged]:
    """Freeboard against the slosh, and the shaken force as an addition to the still water's push.

    For water that stands for good only: nobody reckons with a shock while it is at its brim by mishap.
    """
    quake = site.earthquake
    if quake is None or case.duration != "permanent" or case.level <= 0.0:
        return []
    if vessel.shape != "box" or not vessel.length or not vessel.width:
        return []
    found = []
    for along, across, name, words in (
        (vessel.length, vessel.width, "length", "shaken along its length"),
        (vessel.width, vessel.length, "width", "shaken across its width"),
    ):
        box = sloshing.ShakenBox(along, across, case.level, case.density, quake.horizontal, quake.horizontal)
        load = sloshing.slosh_load(box)
        still = case.weight * case.level**2 / 2.0 * across
        numbers = (
            given("V", float(load.force), "N"),
            given("F", still, "N"),
            given("T", float(load.period), "s"),
        )
        steps = (
            step(
                "V/F",
                "shaken push over still push",
                "V = sqrt(Pi**2 + Pc**2)",
                numbers,
                (float(load.force) / still, "1"),
                SLOSH,
            ),
        )
        brim = vessel.brim if vessel.brim is not None else vessel.height
        limit = Limit(brim - case.level, SLOSH)
        here = at.below(f"slosh.{name}", words)
        what, higher = "water climbing the end wall", "a higher brim, or a lower water level"
        check = below(here, "rise", what, float(load.rise), "m", limit, style="level", advice=higher)
        found.append(Judged(check, steps))
        why = "walls, rims and anchors must take this push besides the still one: an engineer's job"
        found += nothing(here, "force", f"shaken push, {float(load.force) / 1000:.1f} kN", why)
    return found


SLOSH = Source("ACI 350.3-06 after Housner", "chapters 4 and 9", Known.QUOTED)
