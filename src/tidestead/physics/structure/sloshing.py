"""What shaking does to the water in a box: a part that moves with the walls, a part that sloshes.

Only used where the plan gives accelerations; without them nothing here is asked and still water alone is
checked. "Along" is the inside length in the direction of the shaking. Heights are above the floor. Heights
"with the floor" give the turning moment at the base of the whole vessel, the others that on the walls.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    G,
    KgPerM3,
    Metre,
    MetrePerSecond2,
    Newton,
    NewtonMetre,
    NewtonPerMetre,
    Ratio,
    Second,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._arrays import choose

_RIGID = 0.866
_FREE = 0.264
_WAVE = 3.16
_LOW_BOX = 1.333
_LOW_BOX_WITH_FLOOR = 0.75
"""Constants of Housner's box of water. Source: ACI 350.3-06, section 9.2, quoted; Housner (1963)."""


@dataclass(frozen=True)
class ShakenBox:
    """A box of water and how it is shaken.

    `stiff` is the acceleration of the walls, `slow` the one felt at the period of the slosh.
    """

    along: Metre
    across: Metre
    depth: Metre
    density: KgPerM3
    stiff: MetrePerSecond2
    slow: MetrePerSecond2


@dataclass(frozen=True)
class SloshLoad:
    """Sideways loads of the shaken water. Force and moment are of both parts together, root of squares."""

    impulsive: Newton
    convective: Newton
    force: Newton
    wall_moment: NewtonMetre
    base_moment: NewtonMetre
    period: Second
    rise: Metre


def impulsive_share(along: Metre, depth: Metre) -> Ratio:
    """Share of the water that moves with the walls.

        Wi/W = tanh(0.866*x) / (0.866*x)      x = L/H

    Source: ACI 350.3-06, 9.2.1, quoted; Housner (1963). Exact small waves give 6 to 11 % less.
    Valid:  rectangular box, stiff walls, floor on the ground. Walls that bow shake harder.
    """
    x = _RIGID * _slenderness(along, depth)
    share: Ratio = np.tanh(x) / x
    return share


def convective_share(along: Metre, depth: Metre) -> Ratio:
    """Share of the water that sloshes.

        Wc/W = 0.264*x*tanh(3.16/x)      x = L/H

    Source: ACI 350.3-06, 9.2.1, quoted; Housner (1963).
    Valid:  rectangular box, first slosh only, waves small against the depth.
    """
    x = _slenderness(along, depth)
    share: Ratio = _FREE * x * np.tanh(_WAVE / x)
    return share


def impulsive_height(along: Metre, depth: Metre) -> Metre:
    """Height at which the part that moves with the walls pushes on them.

        hi = (0.5 - 0.09375*x)*H    for x < 1.333, else 0.375*H      x = L/H

    Source: ACI 350.3-06, 9.2.2, quoted.
    Valid:  as impulsive_share.
    """
    x = _slenderness(along, depth)
    return choose(np.less(x, _LOW_BOX), 0.5 - 0.09375 * x, 0.375) * depth


def convective_height(along: Metre, depth: Metre) -> Metre:
    """Height at which the sloshing part pushes on the walls.

        hc = (1 - (cosh k - 1)/(k*sinh k))*H      k = 3.16*H/L

    Source: ACI 350.3-06, 9.2.2, quoted.
    Valid:  as convective_share.
    """
    return _convective_height(along, depth, 1.0)


def impulsive_height_with_floor(along: Metre, depth: Metre) -> Metre:
    """Height that gives the turning moment of the part that moves with the walls, floor pressure included.

        hi' = 0.45*H    for x < 0.75, else (0.866*x/(2*tanh(0.866*x)) - 1/8)*H      x = L/H

    Source: ACI 350.3-06, 9.2.3, quoted.
    Valid:  as impulsive_share. It lies above the water in a shallow box: it is a lever, not a place.
    """
    x = _slenderness(along, depth)
    return choose(np.less(x, _LOW_BOX_WITH_FLOOR), 0.45, 0.5 / impulsive_share(along, depth) - 0.125) * depth


def convective_height_with_floor(along: Metre, depth: Metre) -> Metre:
    """Height that gives the turning moment of the sloshing part, floor pressure included.

        hc' = (1 - (cosh k - 2.01)/(k*sinh k))*H      k = 3.16*H/L

    Source: ACI 350.3-06, 9.2.3, quoted.
    Valid:  as convective_share. It is a lever, not a place.
    """
    return _convective_height(along, depth, 2.01)


def slosh_period(along: Metre, depth: Metre) -> Second:
    """Time of one slosh to and fro.

        Tc = 2*pi*sqrt(L) / sqrt(3.16*g*tanh(3.16*H/L))

    Source: ACI 350.3-06, 9.2.4, quoted; Housner (1963).
    Valid:  first slosh, small waves.
    """
    k = _WAVE / _slenderness(along, depth)
    period: Second = 2.0 * np.pi * np.sqrt(along / (_WAVE * G * np.tanh(k)))
    return period


def slosh_rise(along: Metre, slow: MetrePerSecond2) -> Metre:
    """How far the water climbs the end wall.

        d = L/2 * a/g

    Source: ACI 350.3-06, chapter 7, from memory; the tilt of water under a steady push gives the same.
    Valid:  waves small against depth and length; freeboard below this spills.
    """
    _refuse.negative(along=along, slow_acceleration=slow)
    return 0.5 * along * slow / G


def wall_line_load(force: Newton, at_height: Metre, depth: Metre, above: Metre) -> NewtonPerMetre:
    """Push on one end wall to each metre of height, over the whole width of the wall.

        P_y = P/2 * (4*H - 6*h - (6*H - 12*h)*y/H) / H**2

    A straight line over the depth whose sum is half the force and whose centre lies at `at_height`. Divide by
    the width of the wall for the pressure.
    Source: ACI 350.3-06, R5.3, quoted.
    Valid:  heights without the floor; 0 <= y <= H.
    """
    _refuse.negative(height_of_force=at_height, height=above)
    _refuse.not_positive(depth=depth)
    if np.any(np.greater(above, depth * (1.0 + 1e-9))):
        raise ImpossibleInput(f"{above} m is above water {depth} m deep")
    line = 4.0 * depth - 6.0 * at_height - (6.0 * depth - 12.0 * at_height) * above / depth
    return force / 2.0 * line / depth**2


def slosh_load(box: ShakenBox) -> SloshLoad:
    """Forces and moments of a shaken box of water.

        Pi = Wi*a/g      Pc = Wc*ac/g      V = sqrt(Pi**2 + Pc**2)      M likewise from P*h

    Accelerations are used as given: factors for importance and yielding belong in them.
    Source: ACI 350.3-06, chapters 4 and 9, quoted; combination from memory.
    Valid:  as impulsive_share and convective_share; the vessel's own mass comes on top.
    """
    _refuse.not_positive(across=box.across, density=box.density)
    _refuse.negative(stiff_acceleration=box.stiff, slow_acceleration=box.slow)
    size = (box.along, box.depth)
    mass = box.density * box.along * box.across * box.depth
    rigid = mass * impulsive_share(*size) * box.stiff
    free = mass * convective_share(*size) * box.slow
    wall = np.hypot(rigid * impulsive_height(*size), free * convective_height(*size))
    base = np.hypot(rigid * impulsive_height_with_floor(*size), free * convective_height_with_floor(*size))
    return SloshLoad(
        impulsive=rigid,
        convective=free,
        force=np.hypot(rigid, free),
        wall_moment=wall,
        base_moment=base,
        period=slosh_period(*size),
        rise=slosh_rise(box.along, box.slow),
    )


def _slenderness(along: Metre, depth: Metre) -> Ratio:
    _refuse.not_positive(along=along, depth=depth)
    return along / depth


def _convective_height(along: Metre, depth: Metre, less: Ratio) -> Metre:
    k = _WAVE / _slenderness(along, depth)
    height: Metre = (1.0 - (np.cosh(k) - less) / (k * np.sinh(k))) * depth
    return height
