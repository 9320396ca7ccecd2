"""How fast a bubble rises in water that is not clean.

What a fractionator is there to remove coats every bubble at once, so that its surface is stiff: it rises like a
hard ball while it is small, and slower than in pure water when it is large. One bubble alone is meant here; a
crowd of them is in `columns`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import G, KgPerM3, Metre, MetrePerSecond, NewtonPerMetre, PascalSecond, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.foam._arrays import choose

AIR: KgPerM3 = 1.2
"""Density of air at 20 degC and the pressure at sea level. Source: elementary gas law (1.204), rounded. Three
metres of water make it a third heavier, which changes the lift of a bubble by 0.04 %."""

REFERENCE_VISCOSITY: PascalSecond = 0.0009
_MORTON_POWER = -0.149
_ELLIPSOID_OFFSET = 0.857
_WOBBLE: Ratio = 59.3
"""Constants of deformed bubbles.
Source: Clift, Grace and Weber (1978), equations 7-4 to 7-7, pages 175 and 176, quoted."""

_LOW_BEST: Ratio = 73.0
_MIDDLE_BEST: Ratio = 580.0
"""Ends of the first two ranges for spheres.
Source: Clift, Grace and Weber (1978), equation 5-15 and following, page 133, quoted."""

_CAP_EOTVOS: Ratio = 40.0
_CAP = 0.711
"""Where a bubble becomes a cap, and its speed. Source: Clift, Grace and Weber (1978), equation 8-11, quoted."""

_JOIN: Ratio = 5.0
"""Shape number up to which the faster of ball and ellipsoid is taken. Ours: the book's change at 2 makes the
speed fall by a sixth as a bubble grows; the curves cross between 3.9 and 4.5 in any seawater from 0 to 40 degC."""


@dataclass(frozen=True)
class WaterProperties:
    """What a bubble feels of the water it rises in, and the density of the air inside it."""

    density: KgPerM3
    viscosity: PascalSecond
    surface_tension: NewtonPerMetre
    air_density: KgPerM3 = AIR

    def __post_init__(self) -> None:
        """Refuse what no water is."""
        _refuse.not_positive(
            density=self.density, viscosity=self.viscosity, surface_tension=self.surface_tension
        )
        _refuse.negative(air_density=self.air_density)
        if not np.all(np.less(self.air_density, self.density)):
            raise ImpossibleInput(f"air of {self.air_density} kg/m3 does not rise in water")


def eotvos(diameter: Metre, properties: WaterProperties) -> Ratio:
    """Eotvos number: lift of a bubble against the pull of its surface.

        Eo = g*(rho - rho_air)*d**2 / sigma

    Source: R. Clift, J. Grace and M. Weber, Bubbles, Drops, and Particles (1978), page 26, quoted.
    Valid:  any bubble; d is the diameter of the ball of the same volume.
    """
    _refuse.not_positive(diameter=diameter)
    return G * _lift(properties) * diameter**2 / properties.surface_tension


def morton(properties: WaterProperties) -> Ratio:
    """Morton number: the liquid's part in how bubbles deform, about 2e-11 for seawater.

        M = g*mu**4*(rho - rho_air) / (rho**2*sigma**3)

    Source: Clift, Grace and Weber (1978), page 26, quoted.
    Valid:  any liquid.
    """
    stiffness = properties.density**2 * properties.surface_tension**3
    return G * properties.viscosity**4 * _lift(properties) / stiffness


def best_number(diameter: Metre, properties: WaterProperties) -> Ratio:
    """Best number: drag coefficient times Reynolds number squared, which holds no speed.

        Nd = 4*rho*(rho - rho_air)*g*d**3 / (3*mu**2)

    Source: Clift, Grace and Weber (1978), page 133, quoted.
    Valid:  any ball or bubble.
    """
    _refuse.not_positive(diameter=diameter)
    weight = properties.density * _lift(properties) * G
    return 4.0 * weight * diameter**3 / (3.0 * properties.viscosity**2)


def shape_number(diameter: Metre, properties: WaterProperties) -> Ratio:
    """The number that says whether a bubble is a ball (below 2) or deformed.

        H = 4/3 * Eo * M**-0.149 * (mu/0.0009)**-0.14

    Source: Clift, Grace and Weber (1978), equation 7-7, page 176, quoted.
    Valid:  M below 0.001, Eo below 40; mu in Pa s.
    """
    thickness = np.divide(properties.viscosity, REFERENCE_VISCOSITY)
    number: Ratio = (
        4.0 / 3.0 * eotvos(diameter, properties) * morton(properties) ** _MORTON_POWER * thickness**-0.14
    )
    return number


def sphere_rise(diameter: Metre, properties: WaterProperties) -> MetrePerSecond:
    """Rise of a small bubble with a stiff surface: that of a hard ball.

        Re = Nd/24 - 1.7569e-4*Nd**2 + 6.9252e-7*Nd**3 - 2.3027e-10*Nd**4      Nd <= 73
        log Re = -1.7095 + 1.33438*W - 0.11591*W**2                            Nd <= 580
        log Re = -1.81391 + 1.34671*W - 0.12427*W**2 + 0.006344*W**3           above
        U = mu*Re/(rho*d),   W = log10 Nd,   Nd: `best_number`

    Source: Clift, Grace and Weber (1978), equation 5-15 and following, page 133, as a research code for ocean
            plumes quotes them.
    Valid:  Nd up to 1.55e7; the three ranges meet within 0.1 %. Other laws of drag, the same book's among them,
            give up to 4 % less from 0.4 to 1 mm. A single bubble, far from walls.
    """
    best = best_number(diameter, properties)
    w = np.log10(best)
    low = np.minimum(best, _LOW_BEST)
    creeping = low / 24.0 - 1.7569e-4 * low**2 + 6.9252e-7 * low**3 - 2.3027e-10 * low**4
    middle = 10.0 ** (-1.7095 + 1.33438 * w - 0.11591 * w**2)
    quick = 10.0 ** (-1.81391 + 1.34671 * w - 0.12427 * w**2 + 0.006344 * w**3)
    reynolds_number = choose(best <= _LOW_BEST, creeping, choose(best <= _MIDDLE_BEST, middle, quick))
    return _speed(reynolds_number, diameter, properties)


def ellipsoid_rise(diameter: Metre, properties: WaterProperties) -> MetrePerSecond:
    """Rise of a bubble that is flattened and wobbles, with a coated surface.

        U = mu/(rho*d) * M**-0.149 * (J - 0.857)
        J = 0.94*H**0.757 for H <= 59.3, else 3.42*H**0.441

    Source: Clift, Grace and Weber (1978), equation 7-4 and following, page 175, quoted.
    Valid:  2 < H < 1000, Eo < 40, M < 0.001; below H = 2 a bubble is a ball and this gives too little.
    """
    shape = shape_number(diameter, properties)
    j = choose(shape <= _WOBBLE, 0.94 * shape**0.757, 3.42 * shape**0.441)
    return _speed(morton(properties) ** _MORTON_POWER * (j - _ELLIPSOID_OFFSET), diameter, properties)


def cap_rise(diameter: Metre, properties: WaterProperties) -> MetrePerSecond:
    """Rise of a bubble so large that it is a cap with a flat foot.

        U = 0.711 * sqrt(g*d*(rho - rho_air)/rho)

    Source: Clift, Grace and Weber (1978), equation 8-11, page 206, quoted.
    Valid:  Eo > 40 (about 17 mm in seawater), Re > 150. It is the speed of caps, not a ceiling for others.
    """
    _refuse.not_positive(diameter=diameter)
    speed: MetrePerSecond = _CAP * np.sqrt(G * diameter * _lift(properties) / properties.density)
    return speed


def rise_speed(diameter: Metre, properties: WaterProperties) -> MetrePerSecond:
    """Rise of one bubble of any size in water that is not clean.

        H < 5:    the larger of `sphere_rise` and `ellipsoid_rise`
        H >= 5:   `ellipsoid_rise`;   Eo >= 40: `cap_rise`

    Source: Clift, Grace and Weber (1978), quoted. How the parts join is ours: the book changes from ball to
            ellipsoid at H = 2, where the speed would fall by a sixth; the larger is taken until the curves cross,
            near 0.8 mm in warm seawater.
    Valid:  seawater from 0 to 40 degC. In clean water bubbles of 1 to 2 mm rise nearly twice as fast (from memory).
    """
    ellipsoid = ellipsoid_rise(diameter, properties)
    small = np.maximum(sphere_rise(diameter, properties), ellipsoid)
    joined = choose(shape_number(diameter, properties) < _JOIN, small, ellipsoid)
    is_cap = np.greater_equal(eotvos(diameter, properties), _CAP_EOTVOS)
    return choose(is_cap, cap_rise(diameter, properties), joined)


def reynolds(speed: MetrePerSecond, diameter: Metre, properties: WaterProperties) -> Ratio:
    """Reynolds number of a rising bubble.

        Re = rho*U*d / mu

    Source: Clift, Grace and Weber (1978), page 26, quoted.
    Valid:  any bubble.
    """
    _refuse.negative(speed=speed)
    _refuse.not_positive(diameter=diameter)
    return properties.density * speed * diameter / properties.viscosity


def _lift(properties: WaterProperties) -> KgPerM3:
    return properties.density - properties.air_density


def _speed(reynolds_number: Ratio, diameter: Metre, properties: WaterProperties) -> MetrePerSecond:
    return properties.viscosity * reynolds_number / (properties.density * diameter)
