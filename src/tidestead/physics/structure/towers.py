"""A tall vessel as a whole: whether it turns over, how its feet press, and what a cone does to its seat."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Count,
    G,
    KgPerM3,
    Metre,
    Newton,
    NewtonPerMetre,
    Pascal,
    Radian,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._arrays import choose


@dataclass(frozen=True)
class FootingPressure:
    """Pressure under a rectangular foot, and how much of its width touches. `peak` is endless if it tips."""

    peak: Pascal
    least: Pascal
    contact: Metre


@dataclass(frozen=True)
class ConeSeat:
    """What a cone does to the ring it stands on. Thrust is outward; `hoop` is the pull along that ring."""

    along_slope: NewtonPerMetre
    thrust: NewtonPerMetre
    hoop: Newton


def overturning_safety(weight: Newton, base: Metre, push: Newton, height: Metre) -> Ratio:
    """Safety of a standing thing against turning over.

        SF = W * B/2 / (F*z)        F: sideways push, acting z above the foot; endless without a push

    Ask for it empty (a knock governs) and full (shaking governs).

    Source: statics; common practice, no source, wants 1.5.
    Valid:  weight over the middle of the base; stiff ground; nothing anchored.
    """
    _refuse.negative(weight=weight, push=push, height=height)
    _refuse.not_positive(base=base)
    turning = np.multiply(push, height)
    none = turning <= 0.0
    return choose(none, np.inf, weight * base / 2.0 / choose(none, 1.0, turning))


def buttressed_base(radius: Metre, reach: Metre, buttresses: Count) -> Metre:
    """Width to put into `overturning_safety` for a tower on buttresses: twice the way from its middle to the
    line between two neighbouring feet.

        B = 2 * (R + reach) * cos(pi/n)

    Source: geometry.
    Valid:  equal buttresses evenly round the tower, three at least, each able to hold the tower on its foot.
    """
    _refuse.not_positive(radius=radius)
    _refuse.negative(reach=reach)
    if np.any(np.less(buttresses, 3)):
        raise ImpossibleInput(f"a tower needs three feet at least, got {buttresses}")
    base: Metre = 2.0 * (radius + reach) * np.cos(np.pi / buttresses)
    return base


def footing_pressure(load: Newton, eccentricity: Metre, width: Metre, length: Metre) -> FootingPressure:
    """Pressure under a rectangular foot whose load stands off its middle.

        e <= B/6:  p = N/(B*L) * (1 +- 6*e/B)
        e >  B/6:  p = 2*N / (3*L*(B/2 - e)), touching over 3*(B/2 - e)
        e >= B/2:  it tips: endless pressure on no width           B: width, along which the load is off

    Source: elementary strength of materials (the middle third), known from memory.
    Valid:  stiff foot on ground that yields in proportion and cannot pull.
    """
    _refuse.negative(load=load, eccentricity=eccentricity)
    _refuse.not_positive(width=width, length=length)
    mean = np.divide(load, width * length)
    arm = np.maximum(np.subtract(width / 2.0, eccentricity), 0.0)
    inside = np.less_equal(eccentricity, np.multiply(width / 6.0, 1.0 + 1e-12))
    tips = arm <= 0.0
    partial = choose(tips, np.inf, 2.0 * load / (3.0 * length * choose(tips, 1.0, arm)))
    return FootingPressure(
        peak=choose(inside, mean * (1.0 + 6.0 * eccentricity / width), partial),
        least=choose(inside, mean * (1.0 - 6.0 * eccentricity / width), 0.0),
        contact=choose(inside, width, 3.0 * arm),
    )


def cone_seat(weight: Newton, radius: Metre, slope_rad: Radian) -> ConeSeat:
    """What a cone that narrows upward does to the ring it stands on.

        q = W/(2*pi*R),   N = q/sin(a),   thrust = q/tan(a) outward,   hoop = thrust*R
        a: slope of the cone against the level

    A funnel that hangs by its wide upper rim pulls that rim inward by the same amounts.

    Source: membrane theory of a conical shell, S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and
            Shells, 2nd edition (1959), section 108, known from memory.
    Valid:  thin cone, 0 < slope < 90 degrees, weight carried all round; edge bending is left out.
    """
    _refuse.negative(weight=weight)
    _refuse.not_positive(radius=radius)
    _check_slope(slope_rad)
    line = weight / (2.0 * np.pi * radius)
    thrust: NewtonPerMetre = line / np.tan(slope_rad)
    return ConeSeat(along_slope=line / np.sin(slope_rad), thrust=thrust, hoop=thrust * radius)


def cone_uplift(density: KgPerM3, radius: Metre, slope_rad: Radian, water: Metre) -> Newton:
    """Lift of water that stands inside a cone, above its seat.

        F = density*g * (pi*R**2*z - pi*z/3*(R**2 + R*r + r**2)),   r = R - z/tan(a)

    The cone's own weight and its fastenings must hold this down.

    Source: elementary hydrostatics (the weight of the water that is missing outside the cone).
    Valid:  cone narrowing upward, water no higher than where the cone closes.
    """
    _refuse.negative(density=density, water=water)
    _refuse.not_positive(radius=radius)
    _check_slope(slope_rad)
    neck = radius - water / np.tan(slope_rad)
    if np.any(neck < -1e-9 * np.asarray(radius)):
        raise ImpossibleInput(f"water {water} m above the seat is higher than the cone closes")
    lift: Newton = density * G * np.pi * water * (radius**2 - (radius**2 + radius * neck + neck**2) / 3.0)
    return lift


def _check_slope(slope_rad: Radian) -> None:
    if not np.all((np.asarray(slope_rad) > 0.0) & (np.asarray(slope_rad) < np.pi / 2.0)):
        raise ImpossibleInput(f"a cone slopes between level and upright, got {slope_rad} rad")
