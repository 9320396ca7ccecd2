"""What cast acrylic may bear for good, how it creeps, how it grows with heat and water.

Clamped edges are pulled on the water side, the middle of a span on the air side, and the twist of a corner
pulls on both. Moments count as positive where they pull on the air side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Celsius, Kelvin, Metre, NewtonMetrePerMetre, Pascal, PerKelvin, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure.joints import thermal_movement

ASK_TEMPERATURE = (
    "Say how warm the window stays: acrylic creeps faster when warm. Until then the worse run decides."
)
WARM = "The creep figure was found in a cool room; warm acrylic creeps faster, by how much is not known."
TOO_HOT = "Acrylic must not stay this hot: shade it. Nothing is proved at this temperature."


@dataclass(frozen=True)
class FaceStress:
    """Largest pull on each face of a sheet; nothing where a face is only pressed."""

    water_side: Pascal
    air_side: Pascal


@dataclass(frozen=True)
class FaceLimits:
    """What each face may bear for good, and a bonded joint."""

    water_side: Pascal
    air_side: Pascal
    joint: Pascal


@dataclass(frozen=True)
class FaceUse:
    """Share of the permitted stress used on each face, and the larger of the two."""

    water_side: Ratio
    air_side: Ratio
    worst: Ratio


@dataclass(frozen=True)
class CreepBasis:
    """What is known of creep.

    `ratio` is the lasting modulus over the short-term one, found at `test_temp_c`; `pessimistic` is for
    warmer sheets; `hottest_c` is the hottest the sheet may stay.
    """

    ratio: Ratio
    pessimistic: Ratio
    test_temp_c: Celsius
    hottest_c: Celsius


@dataclass(frozen=True)
class CreepRuns:
    """Which ratios to compute the lasting bow with. The least one decides.

    `asks_temperature`: nobody has said how warm the window stays. `too_hot`: it is past what the sheet may
    stay at, so that nothing can be proved.
    """

    ratios: tuple[Ratio, ...]
    asks_temperature: bool
    too_hot: bool
    caution: str


def face_stress(largest: NewtonMetrePerMetre, least: NewtonMetrePerMetre, thickness: Metre) -> FaceStress:
    """Pull on the two faces from the principal moments at a place, or over the whole sheet.

        air side   = 6*max(M1, 0)/t**2
        water side = 6*max(-M2, 0)/t**2      M1 >= M2: largest and least principal moment

    Source: plate theory, bending stress at the faces of a plate.
    Valid:  thin plates that bend little; moments from `plate` with the twist in them.
    """
    _refuse.not_positive(thickness=thickness)
    if np.any(np.less(largest, least)):
        raise ImpossibleInput("the largest principal moment is below the least")
    per_moment = 6.0 / thickness**2
    return FaceStress(per_moment * np.maximum(np.negative(least), 0.0), per_moment * np.maximum(largest, 0.0))


def face_use(stress: FaceStress, limits: FaceLimits) -> FaceUse:
    """How much of the permitted lasting stress each face uses.

        use = stress / limit

    Source: sheet maker's guideline for aquarium glazing: 3 MPa on the water side, 5 MPa on the air side.
    Valid:  cast sheet, cool, annealed, no solvent on it.
    """
    _refuse.not_positive(water_side_limit=limits.water_side, air_side_limit=limits.air_side)
    water, air = stress.water_side / limits.water_side, stress.air_side / limits.air_side
    return FaceUse(water, air, np.maximum(water, air))


def creep_modulus(modulus: Pascal, ratio: Ratio) -> Pascal:
    """Modulus to compute the lasting bow with.

        E_lasting = r * E

    Source: definition of the creep modulus (ISO 899-1).
    Valid:  the temperature, stress and time that the ratio was found at.
    """
    _refuse.not_positive(modulus=modulus, ratio=ratio)
    if np.any(np.greater(ratio, 1.0)):
        raise ImpossibleInput(f"a sheet does not stiffen under load, got a creep ratio of {ratio}")
    return modulus * ratio


def creep_runs(basis: CreepBasis, temp_c: Celsius | None) -> CreepRuns:
    """Which creep ratios to run for a window that stays at `temp_c`.

    At or below the temperature of the creep test its ratio alone; above it, or where nobody has said, the
    pessimistic one as well. How much faster warm acrylic creeps is not known in numbers: none is invented.

    Source: common practice, no source; ISO 899-1 tests at 23 degC (from memory).
    Valid:  up to the hottest lasting temperature of the sheet; beyond it nothing is proved.
    """
    both = (basis.ratio, basis.pessimistic)
    if temp_c is None:
        return CreepRuns(both, asks_temperature=True, too_hot=False, caution=ASK_TEMPERATURE)
    if temp_c > basis.hottest_c:
        return CreepRuns(both, asks_temperature=False, too_hot=True, caution=TOO_HOT)
    if temp_c > basis.test_temp_c:
        return CreepRuns(both, asks_temperature=False, too_hot=False, caution=WARM)
    return CreepRuns((basis.ratio,), asks_temperature=False, too_hot=False, caution="")


def growth_gap(length: Metre, expansion: PerKelvin, temp_rise: Kelvin, moisture_growth: Ratio) -> Metre:
    """Room a sheet needs to grow with heat and water, over its whole length.

        gap = L * (alpha*dT + s)      dT in kelvin above the day it was set; s: growth from dry to soaked

    Source: coefficient of expansion; sheet makers print 0.5 % for heat and moisture together.
    Valid:  free to move in its rebate. Share the gap between both ends.
    """
    _refuse.negative(moisture_growth=moisture_growth, temperature_rise=temp_rise)
    return thermal_movement(length, expansion, temp_rise) + length * moisture_growth


def least_thickness(nominal: Metre, fixed: Metre, share: Ratio) -> Metre:
    """How thin a sheet sold as `nominal` may really be.

        t_min = t - (c + k*t)      cast sheet: c = 0.4 mm, k = 0.1

    Source: ISO 7823-1, as quoted.
    Valid:  cast sheet; measure yours and give it as built.
    """
    _refuse.not_positive(nominal_thickness=nominal)
    least = nominal - (fixed + share * nominal)
    _refuse.not_positive(least_thickness=least)
    return least


def gradient_bow(length: Metre, thickness: Metre, strain_difference: Ratio) -> Metre:
    """Bow of a free sheet whose one face has grown more than the other, by heat or by water.

        f = eps * L**2 / (8*t)      towards the face that has grown

    Source: geometry of an even curvature eps/t.
    Valid:  free sheet, even difference, bow below a tenth of the length. A held sheet is stressed instead.
    """
    _refuse.negative(length=length)
    _refuse.not_positive(thickness=thickness)
    return strain_difference * length**2 / (8.0 * thickness)
