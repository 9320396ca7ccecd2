"""Where the sun's rays enter a house, and how much of the sky's light falls on a level patch inside it.

A house is a convex body of planes. A ray from a point inside towards the sun leaves through one of them; what that
plane lets through at the ray's angle is what arrives. Light that walls or floors throw on is left out.

Axes of a house: x along the front, to the right of one who stands before it; y from the front to the back; z up.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from tidestead.core.dims import Array, Count, Radian, Ratio
from tidestead.core.errors import ImpossibleInput

_RINGS: Count = 24
_SPOKES: Count = 72
"""Patches of the sky dome: rings of one light each on level ground, and patches of a ring."""

_AWAY = 1e-12
"""A ray that leaves a plane more slowly than this runs along it."""


@dataclass(frozen=True, eq=False)
class ConvexHouse:
    """Planes round a convex space: `normals` (F, 3) of length one point outward, `offsets` (F,) are their distances
    from the origin along them, in metres. A point is inside where normal * point <= offset for every plane.

    `through` (F, A) is the share of light that a plane lets through at angles to its normal that are spread evenly
    from 0 to 90 degrees; what is not clear counts as nothing let through.
    """

    normals: Array
    offsets: Array
    through: Array


def direction(zenith: Radian, azimuth: Radian, facing: Radian) -> Array:
    """Direction towards the sun in the axes of a house whose front looks to the bearing `facing`; shape (..., 3).

        x = -sin(z)*sin(A - b),  y = -sin(z)*cos(A - b),  z = cos(z)

    z: zenith angle, A: azimuth from north through east, b: bearing of the front's outward normal.

    Source: geometry.
    Valid:  any angle.
    """
    turned = np.subtract(azimuth, facing)
    level = np.sin(zenith)
    height = np.cos(zenith) + 0.0 * turned
    return np.stack([-level * np.sin(turned), -level * np.cos(turned), height], axis=-1)


def incidence_cosine(zenith: Radian, azimuth: Radian, tilt: Radian, surface_azimuth: Radian) -> Ratio:
    """Cosine of the angle between the sun and a surface's outward normal; below nothing behind the surface.

        cos(theta) = cos(z)*cos(beta) + sin(z)*sin(beta)*cos(A - gamma)

    beta: tilt from level, gamma: azimuth the surface looks to.

    Source: J. Duffie and W. Beckman, Solar Engineering of Thermal Processes, eq. 1.6.3.
    Valid:  any angle.
    """
    slant = np.sin(zenith) * np.sin(tilt) * np.cos(np.subtract(azimuth, surface_azimuth))
    cosine: Ratio = np.cos(zenith) * np.cos(tilt) + slant
    return cosine


def exit_face(point: Array, direction: Array, house: ConvexHouse) -> Array:
    """Number of the plane through which a ray from a point inside leaves the house.

        t_f = (offset_f - normal_f*point)/(normal_f*direction) where the ray goes outward; the least t leaves first

    `point` is (3,) or (P, 1, 3) against `direction` (..., 3); they broadcast.

    Source: clipping of a ray by half spaces, M. Cyrus and J. Beck (1978), Computers and Graphics 3:23.
    Valid:  points inside; where a ray leaves by an edge, the first plane of those that meet there.
    """
    room = house.offsets - point @ house.normals.T
    if np.any(room < -1e-9):
        raise ImpossibleInput("a ray starts outside the house")
    speed = direction @ house.normals.T
    outward = speed > _AWAY
    times = np.where(outward, room / np.where(outward, speed, 1.0), np.inf)
    faces: Array = np.argmin(times, axis=-1)
    return faces


def share_through(points: Array, directions: Array, house: ConvexHouse) -> Array:
    """Share of the light of each direction that arrives at the points, mean of them; 0 from below level.

        share = mean over points of T_f(theta),  cos(theta) = normal_f*direction,  f: `exit_face`

    `points` is (P, 3), `directions` (H, 3) of length one; the result (H,). Light on level ground outside times this
    share is light on a level patch inside.

    Source: geometry; what planes let through is in `house`.
    Valid:  no light thrown on inside; nothing stands in the way inside; bars and dirt are in `house.through`.
    """
    shares = np.zeros(len(directions))
    above = np.flatnonzero(directions[:, 2] > 0.0)
    rays = directions[above]
    last = house.through.shape[1] - 1
    sums = np.zeros(len(rays))
    for point in points:
        faces = exit_face(point, rays, house)
        cosine = np.clip(np.einsum("ij,ij->i", rays, house.normals[faces]), 0.0, 1.0)
        at = np.arccos(cosine) * (last / (np.pi / 2.0))
        low = np.minimum(at.astype(np.intp), last - 1)
        part = at - low
        sums += house.through[faces, low] * (1.0 - part) + house.through[faces, low + 1] * part
    shares[above] = sums / len(points)
    return shares


def sky_share(points: Array, house: ConvexHouse) -> Ratio:
    """Share of the light of an evenly bright sky that arrives at the points, mean of them.

        share = mean over the dome of `share_through`, each direction weighing as its cosine to the upright

    Source: P. Moon and D. Spencer's even sky, summed over 24 rings by 72 spokes of one weight each.
    Valid:  as `share_through`; a sky as bright at its edge as overhead.
    """
    return float(np.mean(share_through(points, _dome(), house)))


@cache
def _dome() -> Array:
    """Middles of patches that throw one light each on level ground."""
    squares = (np.arange(_RINGS) + 0.5) / _RINGS
    turns = (np.arange(_SPOKES) + 0.5) * (2.0 * np.pi / _SPOKES)
    zenith, azimuth = np.meshgrid(np.arcsin(np.sqrt(squares)), turns, indexing="ij")
    return direction(zenith.ravel(), azimuth.ravel(), 0.0)
