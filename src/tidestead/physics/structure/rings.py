"""Towers held by timber rings: load of each ring, hoop pull, bending between corners, ribs and buttresses.

`line_load` is the push of the water outward on one metre of ring, as far as that ring takes it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tidestead.core.dims import (
    Array,
    Count,
    G,
    KgPerM3,
    Metre,
    Newton,
    NewtonMetre,
    NewtonMetre2,
    NewtonPerMetre,
    NewtonPerMetre2,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._arrays import choose

FEWEST_SIDES = 3
"""A polygon has three sides at least. Source: geometry."""


@dataclass(frozen=True)
class RingBending:
    """Bending of one side of a ring, beside its hoop pull: at the corner, at mid-side, and the bow."""

    corner: NewtonMetre
    middle: NewtonMetre
    shear: Newton
    deflection: Metre


def ring_loads(levels: Array, depth: Metre, density: KgPerM3) -> Array:
    """Line load on each of several rings, in N/m, from the strip of wall nearest to it.

        q = density*g*(d2**2 - d1**2)/2           d1, d2: depth at the strip's upper and lower edge
        lowest ring: q = density*g*d2*(d2 - d1)   the pressure at the foot of its strip, over the whole strip

    Strips end halfway between rings; the lowest reaches to the floor, the uppermost to the water surface.
    `levels` are heights above the floor, rising. A bottom plate that is itself a ring is a level of nothing.

    Source: elementary hydrostatics; the lowest ring's rule is common practice, no source.
    Valid:  ribs or sheet able to span from ring to ring. Stiff ribs that run through load rings differently:
            `beams.hydrostatic_beam` gives their reactions.
    """
    heights = np.asarray(levels, dtype=float)
    _refuse.negative(lowest_level=heights[0], depth=depth, density=density)
    if np.any(np.diff(heights) <= 0.0):
        raise ImpossibleInput(f"levels of rings must rise, got {heights.tolist()}")
    middles = [(low + high) / 2.0 for low, high in pairwise(heights)]
    edges = np.array([0.0, *middles, max(depth, float(heights[-1]))])
    deep = np.maximum(depth - edges, 0.0)
    loads: Array = density * G * (deep[:-1] ** 2 - deep[1:] ** 2) / 2.0
    loads[0] = density * G * deep[0] * min(edges[1], depth)
    return loads


def hoop_tension(line_load: NewtonPerMetre, radius: Metre) -> Newton:
    """Pull along a ring from water pressing outward.

        T = q * r          r: radius of a round ring, or the apothem (middle to side) of a regular polygon

    Source: elementary statics of a thin ring (half of it cut free); the same for a polygon's side.
    Valid:  the same load all round, closed ring.
    """
    _refuse.negative(line_load=line_load)
    _refuse.not_positive(radius=radius)
    return line_load * radius


def polygon_side(apothem: Metre, sides: Count) -> Metre:
    """Length of a side of a regular polygon.

        L = 2 * r * tan(pi/n)

    Source: geometry.
    Valid:  three sides and more.
    """
    _refuse.not_positive(apothem=apothem)
    if np.any(np.less(sides, FEWEST_SIDES)):
        raise ImpossibleInput(f"a polygon has three sides at least, got {sides}")
    side: Metre = 2.0 * apothem * np.tan(np.pi / sides)
    return side


def ring_bending(
    line_load: NewtonPerMetre,
    side: Metre,
    stiffness: NewtonMetre2,
    corner_stiffness: NewtonMetre,
) -> RingBending:
    """Bending of a polygon ring's side, with corners anywhere between hinge and rigid.

        M_corner = q*L**2/12 / (1 + EI/(k*L)),   M_middle = q*L**2/8 - M_corner
        rigid (k endless): q*L**2/12 and q*L**2/24;   hinged (k = 0): 0 and q*L**2/8
        bow = 5*q*L**4/(384*EI) - M_corner*L**2/(8*EI)

    `corner_stiffness` k is moment in N m per radian by which the two sides turn against each other.

    Source: slope of a simple beam under even load and end moments; the corner does not turn, by symmetry, so
            each side's end turns by half of what the joint gives.
    Valid:  regular polygon, the same load on every side. Show the joint's strength before counting on it:
            `held_ring_bending`.
    """
    _refuse.negative(line_load=line_load, corner_stiffness=corner_stiffness)
    _refuse.not_positive(side=side, stiffness=stiffness)
    rigid = np.isinf(corner_stiffness)
    spring = choose(rigid, 0.0, corner_stiffness) * side
    corner: NewtonMetre = choose(rigid, 1.0, spring / (spring + stiffness)) * line_load * side**2 / 12.0
    return RingBending(
        corner=corner,
        middle=line_load * side**2 / 8.0 - corner,
        shear=line_load * side / 2.0,
        deflection=(5.0 * line_load * side**4 / 384.0 - corner * side**2 / 8.0) / stiffness,
    )


def held_ring_bending(rigid: RingBending, pinned: RingBending, corner_capacity: NewtonMetre) -> RingBending:
    """The bending to check: stiff corners only where they can bear their moment, else hinged ones.

        stiff corners count while M_corner <= capacity

    Source: statics; that a joint without shown strength counts as a hinge is common practice, no source.
    Valid:  timber joints, which break rather than yield. A capacity of nothing means none has been shown.
    """
    _refuse.negative(corner_capacity=corner_capacity)
    holds: Ratio = choose(np.less_equal(rigid.corner, corner_capacity), 1.0, 0.0)
    return RingBending(
        corner=pinned.corner + holds * (rigid.corner - pinned.corner),
        middle=pinned.middle + holds * (rigid.middle - pinned.middle),
        shear=rigid.shear,
        deflection=pinned.deflection + holds * (rigid.deflection - pinned.deflection),
    )


def out_of_round_moment(tension: Newton, out_of_round: Metre) -> NewtonMetre:
    """Largest bending in a round ring that is not quite round.

        M = T * e          e: how far the ring's axis strays from the circle through it

    Source: statics; the line of pull of even pressure is a circle. Upper bound: the ring also straightens.
    Valid:  small e. A ring laminated on a form strays by its gaps and its flats.
    """
    _refuse.negative(tension=tension, out_of_round=out_of_round)
    return tension * out_of_round


def buttress_gradient(density: KgPerM3, radius: Metre, buttresses: Count) -> NewtonPerMetre2:
    """Growth with depth of the outward line load on each upright of a tower held by uprights alone.

        dw/dz = density * g * 2*r*sin(pi/n)      r: middle to upright (corner of the polygon)

    The upright then spans from bottom plate to top plate like a stud with base load dw/dz * depth.

    Source: statics; push on the two half sides next to the upright, resolved outward.
    Valid:  equal uprights evenly round the tower, the wall between them able to span from one to the next.
    """
    _refuse.negative(density=density)
    _refuse.not_positive(radius=radius)
    if np.any(np.less(buttresses, FEWEST_SIDES)):
        raise ImpossibleInput(f"a tower needs three uprights at least, got {buttresses}")
    gradient: NewtonPerMetre2 = density * G * 2.0 * radius * np.sin(np.pi / buttresses)
    return gradient


def plate_tension(force: Newton, points: Count) -> Newton:
    """Pull along a ring or plate rim that holds `points` equal outward forces spread evenly round it.

        T = P / (2*sin(pi/n))

    Source: statics of a regular polygon of strings.
    Valid:  forces at the corners of the ring, or ring stiff enough to pass them on.
    """
    _refuse.negative(force=force)
    if np.any(np.less(points, FEWEST_SIDES)):
        raise ImpossibleInput(f"a ring needs three points at least, got {points}")
    tension: Newton = force / (2.0 * np.sin(np.pi / points))
    return tension
