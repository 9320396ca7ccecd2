"""Fasteners sideways under either set of rules: what one carries, and what a joint of them carries."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi

from tidestead.catalog import Row
from tidestead.core.answer import Step
from tidestead.core.errors import CatalogError
from tidestead.core.kept import kept
from tidestead.core.source import Known, Source
from tidestead.physics.structure import eurocode, eurocode_fasteners, nds_fasteners
from tidestead.physics.structure.eurocode_fasteners import EcJoint
from tidestead.physics.structure.nds_fasteners import JointConditions, Moisture, NdsJoint
from tidestead.plan.model import Fixing
from tidestead.studies.structure.fastener_steps import ec_each, ec_value, nds_each, nds_value
from tidestead.studies.structure.timber import Setting, factor, kmod, nds_duration
from tidestead.studies.structure.water import Duration

NDS_YIELD = Source("AWC, NDS-2018", "12.3.1, yield modes of dowels", Known.QUOTED)
EC_YIELD = Source("EN 1995-1-1", "8.2.2, Johansen's modes without rope effect", Known.RECALLED)

TOO_CLOSE = "fasteners of a row stand closer along the pull than counts"
TOO_SHORT = "the fastener does not reach deep enough into the wood behind"
END_GRAIN = "a fastener in end grain counts for nothing sideways by Eurocode 5 (8.3.1.2)"
REMEDIES = {
    TOO_CLOSE: "more rows side by side ({path}.rows), or further apart ({path}.row_spacing)",
    TOO_SHORT: "a longer fastener, or where more wood is behind than is drawn say how much: {path}.behind",
    END_GRAIN: 'a joint into side grain (then write {path}.into = "side") or an angle',
}
"""What to do where a fastener counts for nothing, by the reason."""

_MOISTURE: dict[Moisture, str] = {
    "dry": "dry joint",
    "wet": "wet joint",
    "wets": "made dry, wet later",
    "dries": "made wet, dry later",
}

SCREW_THICK = 6.0e-3
"""Screws thicker than this bear as bolts do. Source: EN 1995-1-1 8.7.1."""


@dataclass(frozen=True)
class Wood:
    """One timber of a joint: how thick it is along the fastener, and how heavy.

    `gravity` is the oven-dry specific gravity of the American rules, `density` the characteristic one in kg/m3.
    `modulus` along the grain and `area` of the section say how it stretches beside a row of fasteners.
    """

    thickness: float
    gravity: float | None
    density: float | None
    modulus: float
    area: float


@dataclass(frozen=True)
class Sides:
    """The two timbers of a joint: the one under the head, and the one that holds the point."""

    head: Wood
    point: Wood


@dataclass(frozen=True)
class Held:
    """What one fastener carries sideways and how it was found; `refused` says why it counts for nothing.

    `effective` is how many of them count together, all where None.
    """

    each: float
    count: int
    mode: str
    source: Source
    includes: str
    load_factor: float
    refused: str = ""
    steps: tuple[Step, ...] = ()
    effective: float | None = None
    cautions: tuple[str, ...] = ()

    @property
    def remedy(self) -> str:
        """What to do where it counts for nothing; `{path}` stands for the joint's place in the plan."""
        return REMEDIES.get(self.refused, "another joint")

    @property
    def total(self) -> float:
        return self.each * self.counted

    @property
    def counted(self) -> float:
        """Fasteners that count: fewer than there are where they stand in a row along the pull."""
        return float(self.count) if self.effective is None else self.effective


def joint_count(fixing: Fixing) -> int:
    """Fasteners that are there."""
    return max((fixing.count or 0) - fixing.as_built.missing, 0)


def wood(row: Row, thickness: float, width: float | None = None) -> Wood:
    """A timber of a grade in a joint; as wide as it is thick, which is the least it can be, where nobody says."""
    return Wood(
        thickness,
        row.si("specific_gravity") if row.has("specific_gravity") else None,
        row.si("density_characteristic") if row.has("density_characteristic") else None,
        row.si("modulus"),
        thickness * (width or thickness),
    )


@kept(at_most=256)
def held(setting: Setting, fastener: Row, fixing: Fixing, sides: Sides, duration: Duration) -> Held:
    """One fastener of a joint. Raises CatalogError where it has no figures for the vessel's rules."""
    bases = fastener.tag("bases")
    if isinstance(bases, tuple) and setting.rules not in bases:
        raise CatalogError(
            f'fastener "{fastener.name}" has no figures for the {setting.rules} rules; it has for {", ".join(bases)}.'
        )
    found = (_nds_held if setting.rules == "NDS" else _ec_held)(setting, fastener, fixing, sides, duration)
    out = pokes_out(fastener, sides)
    return replace(found, cautions=(POKES,)) if out > _FLUSH else found


POKES = (
    "The fastener is longer than both timbers together: its point comes out on the far side. Where that is the side of "
    "the water it must not reach the lining; take a shorter one."
)

_FLUSH = 0.001
"""This much may show, metres. Own choice."""


def pokes_out(fastener: Row, sides: Sides) -> float:
    """How far a nail or a screw comes out on the far side. A bolt is cut to its length."""
    if not fastener.has("length") or fastener.tag("kind") == "bolt":
        return 0.0
    return max(fastener.si("length") - sides.head.thickness - sides.point.thickness, 0.0)


def _point_length(fastener: Row, sides: Sides) -> float:
    """How much of the fastener bears in the timber behind."""
    if not fastener.has("length"):
        return sides.point.thickness
    tip = fastener.si("tip") if fastener.has("tip") else 0.0
    return min(fastener.si("length") - sides.head.thickness - tip, sides.point.thickness)


def _nds_held(setting: Setting, fastener: Row, fixing: Fixing, sides: Sides, duration: Duration) -> Held:
    if sides.head.gravity is None or sides.point.gravity is None:
        raise CatalogError("the timber of this joint has no specific gravity for the NDS rules.")
    diameter = fastener.si("diameter")
    # Thread crosses the joint: the root yields. Bearing, depth and moisture go by the nominal diameter.
    yielding = fastener.si("root") if fastener.has("root") else diameter
    point = _point_length(fastener, sides)
    end_grain = fixing.into != "side"
    conditions = JointConditions(
        nds_duration(duration), setting.moisture, setting.warmest_c, end_grain=end_grain
    )
    count = joint_count(fixing)
    includes = f"load duration {conditions.duration:g}, {_MOISTURE[conditions.moisture]}" + (
        ", end grain" if end_grain else ""
    )
    lag = fastener.tag("kind") == "lag screw"
    share = float(nds_fasteners.penetration_factor(max(point, 0.0), diameter, lag))
    if fastener.tag("kind") == "bolt":
        share = 1.0
    if point <= 0.0 or share == 0.0:
        return Held(0.0, count, "too short", NDS_YIELD, includes, 1.0, TOO_SHORT)
    main = nds_fasteners.dowel_bearing(sides.point.gravity, diameter, pi / 2.0)
    side = nds_fasteners.dowel_bearing(sides.head.gravity, diameter, pi / 2.0)
    joint = NdsJoint(yielding, point, sides.head.thickness, main, side, fastener.si("bending_yield"))
    value = nds_fasteners.lateral_value(joint, pi / 2.0)
    each = value.value * share * float(nds_fasteners.lateral_factor(diameter, conditions))
    steps = (
        nds_value(joint, value, pi / 2.0, NDS_YIELD),
        nds_each(value, diameter, conditions, share, each, NDS_YIELD),
    )
    return Held(each, count, f"yield mode {value.mode}", NDS_YIELD, includes, 1.0, steps=steps)


_DEEP_SMOOTH, _DEEP = 8.0, 6.0
"""Least depth of the point in diameters: smooth nails, then nails with rings and screws.
Source: EN 1995-1-1, 8.3.1.2(1) and (2), from memory. Of a screw the effective diameter counts, which its rules put in
the place of a nail's; that is more than the four thread diameters that assessments of screws ask."""


def _least_depth(fastener: Row) -> float:
    """Diameters that the point must reach; a bolt goes through."""
    if fastener.tag("kind") == "bolt":
        return 0.0
    return _DEEP_SMOOTH if fastener.tag("withdrawal") in ("smooth nail", "stainless nail") else _DEEP


def _ec_held(setting: Setting, fastener: Row, fixing: Fixing, sides: Sides, duration: Duration) -> Held:
    if sides.head.density is None or sides.point.density is None:
        raise CatalogError("the timber of this joint has no characteristic density for the EC5 rules.")
    point, count = _point_length(fastener, sides), joint_count(fixing)
    lasting, gamma = kmod(setting, duration), factor("ec-gamma-material", "connection")
    includes = (
        f"load times {setting.load_factor:g}, strength times {lasting:g} over {gamma:g}, no rope effect"
    )
    if fixing.into != "side":
        return Held(0.0, count, "end grain", EC_YIELD, includes, setting.load_factor, END_GRAIN)
    diameter = fastener.si("diameter")
    if fastener.has("root"):
        diameter = float(eurocode_fasteners.screw_diameter(diameter, fastener.si("root"), 0.0))
    if point < _least_depth(fastener) * diameter * (1.0 - 1e-9):
        return Held(0.0, count, "too short", EC_YIELD, includes, setting.load_factor, TOO_SHORT)
    thick = fastener.tag("kind") == "bolt" or diameter > SCREW_THICK
    head, behind = (
        eurocode_fasteners.bolt_embedment(density, diameter, pi / 2.0)
        if thick
        else eurocode_fasteners.nail_embedment(density, diameter)
        for density in (sides.head.density, sides.point.density)
    )
    hinge = eurocode_fasteners.yield_moment(fastener.si("tensile_strength"), diameter)
    joint = EcJoint(diameter, sides.head.thickness, point, head, behind, hinge)
    capacity = eurocode_fasteners.shear_capacity(joint)
    each = float(eurocode.design_strength(capacity.value, lasting, gamma))
    steps = (ec_value(joint, capacity, EC_YIELD), ec_each(capacity.value, lasting, gamma, each, EC_YIELD))
    return Held(each, count, f"mode {capacity.mode}", EC_YIELD, includes, setting.load_factor, steps=steps)
