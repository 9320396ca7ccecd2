"""How light dies away under water: of the sun along its bent ray, of the sky, and the sun's heat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, LightFlow, Metre, PerMetre, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse, optics

METER_ERROR: Ratio = 0.05
"""By how much one reading of a light meter strays from the next. Common practice, no source."""


@dataclass(frozen=True)
class WaterFit:
    """What readings at depths tell: attenuation `rate`, its standard `error`, the light just under the surface."""

    rate: PerMetre
    error: PerMetre
    surface: LightFlow


@dataclass(frozen=True)
class HeatBands:
    """The sun's heat in two bands: `quick` is the share of the first, `first` and `second` their lengths."""

    quick: Ratio
    first: Metre
    second: Metre


CLEAR_OCEAN = HeatBands(0.58, 0.35, 23.0)
COASTAL = HeatBands(0.78, 1.4, 7.9)
"""Jerlov's water types I and III. Source: C. Paulson and J. Simpson (1977), J. Phys. Oceanogr. 7:952-956, as quoted."""


def sun_under_water(angle: Radian, depth: Metre, rate: PerMetre) -> Ratio:
    """Share of the sun's light on the water that arrives at a depth, loss at the surface taken off.

        share = (1 - r(theta))*exp(-Kd*z/cos(theta_w)),  sin(theta_w) = sin(theta)/1.34

    theta: the sun's angle to the upright, r: Fresnel's reflectance of a flat surface.

    Source: Beer and Lambert along the ray that Snell bends.
    Valid:  flat surface, one rate for all colours. Red goes first, so the rate is greater near the surface.
    """
    _refuse.negative(depth=depth, attenuation=rate)
    bent = np.cos(optics.refraction_angle(angle, optics.SEAWATER_INDEX))
    lost = optics.fresnel_reflectance(angle, optics.SEAWATER_INDEX)
    share: Ratio = (1.0 - lost) * np.exp(-rate * depth / bent)
    return share


def sky_under_water(depth: Metre, rate: PerMetre) -> Ratio:
    """Share of an evenly bright sky's light on the water that arrives at a depth.

        share = mean over the half sphere of `sun_under_water`, each direction by its cosine

    Source: `sun_under_water`, summed.
    Valid:  as `sun_under_water`; sheet over the water lets slant light through less well, so the true share is
            slightly greater.
    """
    return float(optics.hemispherical_mean(lambda angle: sun_under_water(angle, depth, rate)))


def straight_share(depth: Metre, rate: PerMetre) -> Ratio:
    """Share of light that is left at a depth under lamps straight above, loss at the surface not taken off.

        share = exp(-Kd*z)

    Source: Beer and Lambert.
    Valid:  light that goes straight down.
    """
    _refuse.negative(depth=depth, attenuation=rate)
    left: Ratio = np.exp(-rate * depth)
    return left


def fitted_rate(depths: Sequence[Metre], lights: Sequence[LightFlow], meter: Ratio = METER_ERROR) -> WaterFit:
    """Attenuation from readings at two depths or more, taken within a minute: the line of least squares in ln(P).

        ln(P) = ln(P0) - Kd*z;   two readings: Kd = ln(P1/P2)/(z2 - z1)
        error = s/sqrt(sum (z - mean z)^2),   s: scatter about the line, or the meter's where that is more

    Source: Beer and Lambert; least squares.
    Valid:  steady sun, the meter level. Walls that throw light on make it smaller, a low sun greater.
    """
    _refuse.not_positive(light=np.asarray(lights, dtype=float))  # type: ignore[arg-type]  # numbers or arrays
    _refuse.negative(depth=np.asarray(depths, dtype=float))  # type: ignore[arg-type]  # numbers or arrays
    if len(depths) != len(lights) or len(set(depths)) < 2:
        raise ImpossibleInput(f"readings at two different depths are wanted, got depths {list(depths)}")
    at: Array = np.asarray(depths, dtype=float)
    logs = np.log(np.asarray(lights, dtype=float))
    off = at - at.mean()
    spread = float(np.sum(off**2))
    slope = float(np.sum(off * logs)) / spread
    start = float(logs.mean()) - slope * float(at.mean())
    scatter = 0.0
    if len(at) > 2:
        scatter = float(np.sqrt(np.sum((logs - start - slope * at) ** 2) / (len(at) - 2)))
    return WaterFit(-slope, max(scatter, meter) / spread**0.5, float(np.exp(start)))


def heat_left(depth: Metre, water: HeatBands) -> Ratio:
    """Share of the sun's heat, once under the surface, that goes deeper than a depth.

        I/I0 = R*exp(-z/a) + (1 - R)*exp(-z/b)

    What is left at the floor warms the water only as far as the floor is dark.

    Source: C. Paulson and J. Simpson (1977), J. Phys. Oceanogr. 7:952-956, as quoted.
    Valid:  sun of all colours, high in the sky; open sea of Jerlov's types.
    """
    _refuse.negative(depth=depth)
    left: Ratio = water.quick * np.exp(-depth / water.first) + (1.0 - water.quick) * np.exp(
        -depth / water.second
    )
    return left
