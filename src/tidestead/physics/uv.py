"""Ultraviolet dose: light times time, what water, sleeve and age take off it, and the flow that a target allows.

A dose of 1 mJ/cm2 is 10 J/m2 is 1000 uW s/cm2. An intensity of 1 mW/cm2 is 10 W/m2.
"""

from __future__ import annotations

from math import log
from typing import cast

import numpy as np

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerSecond,
    Hour,
    JoulePerM2,
    Metre,
    PerMetre,
    Ratio,
    Second,
    Watt,
    WattPerM2,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_TEN = log(10.0)
_THIN = 1e-6


def tube_intensity(light: Watt, gap: Metre, volume: CubicMetre) -> WattPerM2:
    """Mean intensity round a lamp that stands along the middle of a tube, in water that takes no light.

        I = P*(R - r)/V      R: tube, r: sleeve; mean of P/(2*pi*x*L) over the ring of water between them

    Source: energy: all the light goes outward and thins out with the distance; integral over the ring.
    Valid:  lamp as long as the tube, walls that throw nothing back. Ends and bare lengths give less.
    """
    _refuse.negative(light=light, gap=gap)
    _refuse.not_positive(lit_volume=volume)
    return light * gap / volume


def dose(intensity: WattPerM2, volume: CubicMetre, flow: CubicMetrePerSecond) -> JoulePerM2:
    """Mean dose of water that passes a lit chamber.

        dose = I*V/Q      I: mean intensity in the lit volume V

    Source: definition of dose (fluence).
    Valid:  the mean: a chamber that mixes badly lets some water through with half of it.
    """
    _refuse.negative(intensity=intensity, lit_volume=volume)
    _refuse.not_positive(flow=flow)
    return intensity * volume / flow


def dose_flow(intensity: WattPerM2, volume: CubicMetre, target: JoulePerM2) -> CubicMetrePerSecond:
    """Largest flow that still gets a dose.

        Q = I*V/dose

    Source: definition of dose (fluence).
    Valid:  as dose.
    """
    _refuse.negative(intensity=intensity, lit_volume=volume)
    _refuse.not_positive(target=target)
    return intensity * volume / target


def contact_time(volume: CubicMetre, flow: CubicMetrePerSecond) -> Second:
    """Mean time that water is lit.

        t = V/Q

    Source: continuity.
    Valid:  a chamber without dead corners.
    """
    _refuse.negative(lit_volume=volume)
    _refuse.not_positive(flow=flow)
    return volume / flow


def absorbance(transmittance: Ratio, path: Metre) -> PerMetre:
    """Absorbance per length of water that lets a share of the light through a path.

        a = -log10(T)/l

    Source: Beer and Lambert; decadic, as spectrometers give it.
    Valid:  254 nm; clear water without milkiness.
    """
    _refuse.not_positive(path=path)
    if not np.all(np.greater(transmittance, 0.0)) or np.any(np.greater(transmittance, 1.0)):
        raise ImpossibleInput(f"transmittance is a share above 0 up to 1, got {transmittance}")
    absorbs: PerMetre = -np.log10(transmittance) / path
    return absorbs


def water_share(absorbs: PerMetre, depth: Metre) -> Ratio:
    """Mean intensity over a depth of water, over that where the light enters.

        (1 - 10**(-a*l))/(a*l*ln 10)

    Source: Bolton and Linden, Journal of Environmental Engineering 129 (2003) 209-215, water factor.
    Valid:  light in one direction; round a lamp light thins out besides, so it is an upper bound.
    """
    _refuse.negative(absorbance=absorbs, depth=depth)
    taken = np.multiply(absorbs, depth) * _TEN
    thin = np.less(taken, _THIN)
    safe = np.where(thin, 1.0, taken)
    return cast(float, np.where(thin, 1.0 - 0.5 * taken, -np.expm1(-safe) / safe)[()])


def lamp_share(burned: Hour, life: Hour, left_at_life: Ratio) -> Ratio:
    """Share of its first light that a lamp still gives, the makers' figure at the end of its life given.

        share = left**(t/life)

    Source: the simplest fall through both known points; makers' curves fall faster at first and slower later.
    Valid:  up to the end of the stated life; a sleeve with a film takes off more, wipe it.
    """
    _refuse.negative(hours_burned=burned)
    _refuse.not_positive(life=life, share_left=left_at_life)
    if np.any(np.greater(left_at_life, 1.0)):
        raise ImpossibleInput(f"a lamp does not grow brighter with age, got {left_at_life}")
    share: Ratio = left_at_life ** (burned / life)
    return share


def reduced_intensity(intensity: WattPerM2, water: Ratio, sleeve: Ratio, lamp: Ratio) -> WattPerM2:
    """Mean intensity in the chamber as it is, from that of a new lamp in a clean sleeve in clear water.

        I = I0*water*sleeve*lamp

    Source: shares multiply.
    Valid:  shares at 254 nm.
    """
    _refuse.negative(intensity=intensity)
    _refuse.not_a_share(share_of_water=water, share_of_sleeve=sleeve, share_of_lamp=lamp)
    return intensity * water * sleeve * lamp


def share_left(target: JoulePerM2, given: JoulePerM2, target_logs: Ratio) -> Ratio:
    """Share of a germ left alive after one pass, where it is known what dose takes off so many powers of ten.

        left = 10**(-logs*dose/target)

    Source: first-order kill, log-linear.
    Valid:  doses near the tested one; tails and clumps live longer.
    """
    _refuse.not_positive(target=target, powers_of_ten=target_logs)
    _refuse.negative(dose=given)
    left: Ratio = 10.0 ** (-target_logs * given / target)
    return left
