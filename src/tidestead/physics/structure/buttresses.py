"""Props that stand outside a wall: what one must hold, how it lifts its anchors, raking struts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Count, G, KgPerM3, Metre, Newton, NewtonMetre, Radian
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure.pressure import wall_base_moment, wall_thrust


@dataclass(frozen=True)
class ButtressLoad:
    """What one buttress must hold: the push, and its moment about the floor."""

    thrust: Newton
    moment: NewtonMetre


@dataclass(frozen=True)
class RakingStrut:
    """Forces of a post that leans on a raking strut. Pushes are outward, the strut is in compression.

    `post_uplift` lifts the foot of the post; `foot_push` (outward) and `foot_load` (down) press the ground.
    """

    compression: Newton
    length: Metre
    slope_rad: Radian
    post_uplift: Newton
    post_shear: Newton
    foot_push: Newton
    foot_load: Newton


def buttress_load(depth: Metre, density: KgPerM3, spacing: Metre) -> ButtressLoad:
    """What one of a row of buttresses holds when nothing else holds the wall.

        F = density*g*h**2/2 * S,   M = density*g*h**3/6 * S

    Source: elementary hydrostatics.
    Valid:  equal spacing, wall able to span between buttresses, still water.
    """
    _refuse.not_positive(spacing=spacing)
    return ButtressLoad(
        thrust=wall_thrust(depth, density) * spacing,
        moment=wall_base_moment(depth, density) * spacing,
    )


def anchor_uplift(moment: NewtonMetre, base: Metre, dead_load: Newton, anchors: Count = 1) -> Newton:
    """Uplift on each anchor at the inner edge of a buttress that would turn over its outer edge.

        T = max(M/B - W/2, 0) / n       W: weight standing on the middle of the base

    Source: statics.
    Valid:  stiff base that turns about its outer edge; count only weight that is surely there when full.
    """
    _refuse.negative(moment=moment, dead_load=dead_load)
    _refuse.not_positive(base=base, anchors=anchors)
    uplift: Newton = np.maximum(moment / base - dead_load / 2.0, 0.0) / anchors
    return uplift


def anchor_shear(thrust: Newton, anchors: Count) -> Newton:
    """Sideways force on each anchor of a buttress or base plate.

        V = F / n

    Source: statics; sharing evenly is common practice.
    Valid:  equal anchors that fit without play. Friction is not counted.
    """
    _refuse.negative(thrust=thrust)
    _refuse.not_positive(anchors=anchors)
    return thrust / anchors


def raking_strut(load: ButtressLoad, height: Metre, reach: Metre) -> RakingStrut:
    """Forces of a post, held at its foot, and the strut that meets it at `height` and the ground at `reach`.

        H = M/z,   C = H/cos(slope),   uplift of the post = H*z/x,   shear at its foot = F - H
        z: height, x: reach, tan(slope) = z/x

    Source: statics of a three-hinged prop.
    Valid:  both ends of the strut and the foot of the post free to turn; the foot of the post held down.
    """
    _refuse.not_positive(height=height, reach=reach)
    push = load.moment / height
    length: Metre = np.hypot(height, reach)
    return RakingStrut(
        compression=push * length / reach,
        length=length,
        slope_rad=np.arctan2(height, reach),
        post_uplift=push * height / reach,
        post_shear=load.thrust - push,
        foot_push=push,
        foot_load=push * height / reach,
    )


def raking_post_moment(depth: Metre, density: KgPerM3, spacing: Metre, height: Metre) -> NewtonMetre:
    """Largest moment in a post that leans on a raking strut at `height` above the floor.

        k = density*g*S,   H = k*h**3/(6*z),   at the strut: k*(h - z)**3/6 where it stands below the water
        in the field: H*(y - h + z) - k*y**3/6 at y = sqrt(2*H/k) below the surface

    Source: statics of a beam with an overhang.
    Valid:  water at or below the head of the post. Below a third of the depth the strut cannot hold the post.
    """
    _refuse.not_positive(depth=depth, density=density, spacing=spacing, height=height)
    if np.any(np.less(height, np.divide(depth, 3.0))):
        raise ImpossibleInput(f"a strut {height} m up cannot hold {depth} m of water: the post turns over it")
    gradient = density * G * spacing
    push = gradient * depth**3 / (6.0 * height)
    over = np.maximum(depth - height, 0.0)
    below = np.sqrt(2.0 * push / gradient)
    field = push * (below - depth + height) - gradient * below**3 / 6.0
    largest: NewtonMetre = np.maximum(gradient * over**3 / 6.0, field)
    return largest
