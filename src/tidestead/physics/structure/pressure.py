"""How still water pushes on an upright wall: pressure, push, where it acts, a floor out of level."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    G,
    KgPerM3,
    Metre,
    Newton,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    Pascal,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class WallPush:
    """The whole push on one wall, and where it acts: `along` from its start, `above` its floor."""

    force: Newton
    along: Metre
    above: Metre


def water_pressure(depth: Metre, density: KgPerM3) -> Pascal:
    """Pressure of still water at `depth` below its surface.

        p = density * g * depth

    Source: elementary hydrostatics.
    Valid:  still water, over the pressure of the air.
    """
    _refuse.negative(depth=depth, density=density)
    return density * G * depth


def wall_thrust(depth: Metre, density: KgPerM3) -> NewtonPerMetre:
    """Total push of still water on one metre of upright wall.

        F = density * g * depth**2 / 2

    Source: elementary hydrostatics (integral of density*g*z over the depth).
    Valid:  still water, same air pressure on both sides.
    """
    _refuse.negative(depth=depth, density=density)
    return density * G * depth**2 / 2.0


def thrust_height(depth: Metre) -> Metre:
    """Height above the floor at which the push on an upright wall acts.

        z = depth / 3

    Source: elementary hydrostatics (centre of pressure of a triangle).
    Valid:  still water, wall wet from the floor to the surface.
    """
    _refuse.negative(depth=depth)
    return depth / 3.0


def wall_base_moment(depth: Metre, density: KgPerM3) -> NewtonMetrePerMetre:
    """Moment of the push on one metre of wall about its foot.

        M = density * g * depth**3 / 6

    Source: elementary hydrostatics (thrust times depth/3).
    Valid:  still water, upright wall.
    """
    _refuse.negative(depth=depth, density=density)
    return density * G * depth**3 / 6.0


def sloped_depth(start: Metre, end: Metre, length: Metre, along: Metre) -> Metre:
    """Depth of water at a place along a wall whose floor is out of level.

        h = h1 + (h2 - h1) * s / L

    Source: geometry, floor straight from end to end.
    Valid:  places on the wall; both ends wet or just dry.
    """
    _refuse.negative(depth_at_start=start, depth_at_end=end, place_along_the_wall=along)
    if np.any(np.less_equal(length, 0.0)) or np.any(np.greater(along, length * (1.0 + 1e-9))):
        raise ImpossibleInput(f"a place {along} m along a wall of {length} m is not on it")
    return start + (end - start) * along / length


def sloped_wall_push(start: Metre, end: Metre, length: Metre, density: KgPerM3) -> WallPush:
    """The whole push on a wall whose water is `start` deep at one end and `end` deep at the other.

        F = density*g*L/6 * (a**2 + a*b + b**2)
        along = L/4 * (a**2 + 2*a*b + 3*b**2) / (a**2 + a*b + b**2)
        above = (a**3 + a**2*b + a*b**2 + b**3) / (4*(a**2 + a*b + b**2))
        a, b: depth at start and end

    Source: integral of the elementary push along the wall.
    Valid:  still water, straight floor, upright wall, not wholly dry.
    """
    _refuse.negative(depth_at_start=start, depth_at_end=end, density=density)
    squares = start**2 + start * end + end**2
    if np.any(np.less_equal(squares, 0.0)) or np.any(np.less_equal(length, 0.0)):
        raise ImpossibleInput("a dry wall has no push, and no place where it acts")
    cubes = start**3 + start**2 * end + start * end**2 + end**3
    return WallPush(
        force=density * G * length * squares / 6.0,
        along=length / 4.0 * (start**2 + 2.0 * start * end + 3.0 * end**2) / squares,
        above=cubes / (4.0 * squares),
    )
