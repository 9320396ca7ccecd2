"""What still water weighs and how it lies: volumes, weight, pressure on the floor, push on a window.

Pressure at a depth and the push on a whole wall stand in `pressure.py`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Count,
    CubicMetre,
    G,
    KgPerM3,
    Kilogram,
    Metre,
    Newton,
    NewtonPerMetre,
    Pascal,
    SquareMetre,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._arrays import choose
from tidestead.physics.structure.pressure import water_pressure


@dataclass(frozen=True)
class WindowLoad:
    """Water on one metre of the width of a window.

    `wet` is the height of the part under water. `push` acts `above` the window's bottom edge; both are
    nothing where the window is dry.
    """

    pressure_bottom: Pascal
    pressure_top: Pascal
    wet: Metre
    push: NewtonPerMetre
    above: Metre


def window_load(density: KgPerM3, head: Metre, height: Metre) -> WindowLoad:
    """Load on an upright window whose bottom edge lies `head` below the water.

        wet = min(head, height)
        p_bottom = density*g*head      p_top = density*g*(head - wet)
        push = wet*(p_bottom + p_top)/2
        above = wet/3 * (p_bottom + 2*p_top)/(p_bottom + p_top)

    A window that reaches above the water bears a triangle, one wholly below it a trapezoid.
    Source: elementary hydrostatics (pressure prism of a vertical rectangle).
    Valid:  still water, same air pressure on both sides.
    """
    _refuse.negative(head=head, density=density)
    _refuse.not_positive(window_height=height)
    wet = np.minimum(head, height)
    bottom, top = water_pressure(head, density), water_pressure(head - wet, density)
    both = bottom + top
    share = choose(
        np.greater(both, 0.0), (bottom + 2.0 * top) / choose(np.greater(both, 0.0), both, 1.0), 0.0
    )
    return WindowLoad(bottom, top, wet, wet * both / 2.0, wet / 3.0 * share)


def box_volume(length: Metre, width: Metre, depth: Metre) -> CubicMetre:
    """Water in a box.

        V = L * B * h

    Source: geometry.
    Valid:  upright walls, level floor.
    """
    _refuse.negative(length=length, width=width, depth=depth)
    return length * width * depth


def polygon_area(across: Metre, sides: Count) -> SquareMetre:
    """Area of a regular polygon from its width across flats (twice the apothem).

        A = n/4 * d**2 * tan(pi/n)

    Source: geometry.
    Valid:  three sides or more. An odd number has no facing sides: `across` is then twice the apothem.
    """
    _refuse.negative(width_across=across)
    if np.any(np.less(sides, 3)):
        raise ImpossibleInput(f"a polygon has at least three sides, got {sides}")
    area: SquareMetre = sides / 4.0 * across**2 * np.tan(np.pi / sides)
    return area


def round_area(diameter: Metre) -> SquareMetre:
    """Area of a circle.

        A = pi/4 * d**2

    Source: geometry.
    Valid:  any circle.
    """
    _refuse.negative(diameter=diameter)
    return np.pi / 4.0 * diameter**2


def prism_volume(area: SquareMetre, depth: Metre) -> CubicMetre:
    """Water in an upright vessel of any plan.

        V = A * h

    Source: geometry.
    Valid:  the same plan at every height, level floor.
    """
    _refuse.negative(area=area, depth=depth)
    return area * depth


def cone_volume(wide: Metre, narrow: Metre, height: Metre) -> CubicMetre:
    """Room in a cone cut off at both ends, from its two diameters.

        V = pi*h/12 * (D**2 + D*d + d**2)

    Source: geometry (frustum of a cone).
    Valid:  straight sides. A narrow end of nothing is a whole cone.
    """
    _refuse.negative(wide_end=wide, narrow_end=narrow, height=height)
    return np.pi * height / 12.0 * (wide**2 + wide * narrow + narrow**2)


def water_mass(volume: CubicMetre, density: KgPerM3) -> Kilogram:
    """Mass of so much water.

        m = rho * V

    Source: definition of density.
    Valid:  one density throughout.
    """
    _refuse.negative(volume=volume, density=density)
    return density * volume


def weight_of(mass: Kilogram) -> Newton:
    """Weight of a mass.

        W = m * g

    Source: elementary mechanics; g is the standard acceleration of free fall.
    Valid:  on the ground; local g differs by up to 0.3 %.
    """
    _refuse.negative(mass=mass)
    return mass * G


def floor_pressure(depth: Metre, density: KgPerM3, own_mass: Kilogram, area: SquareMetre) -> Pascal:
    """Pressure of a standing vessel on what is under it, spread over its whole plan.

        p = density*g*h + m*g/A

    Source: elementary statics.
    Valid:  the bottom lies flat everywhere. Feet, walls and a floor out of level press harder in places.
    """
    _refuse.negative(own_mass=own_mass)
    _refuse.not_positive(area=area)
    return water_pressure(depth, density) + own_mass * G / area
