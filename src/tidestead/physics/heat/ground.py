"""Heat through a floor into the ground: slabs on ground, losses along their edge, and how warm the ground is."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import (
    Array,
    Celsius,
    Count,
    Metre,
    Ratio,
    SquareMetre,
    SquareMetreKelvinPerWatt,
    WattPerKelvin,
    WattPerM2K,
    WattPerMetreKelvin,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_INSIDE: SquareMetreKelvinPerWatt = 0.17
"""Film over a floor, heat going down. Source: ISO 6946, from memory."""

_SOIL: Metre = 0.5
"""Soil that a wall by layers takes in below a slab. Source: ISO 13370 (2017), annex F, from memory."""

_DAY = 24


def floor_dimension(area: SquareMetre, perimeter: Metre) -> Metre:
    """How wide a floor is as the ground sees it. `perimeter`: of it what borders on the outdoors.

        B' = A/(0.5*P)

    Source: ISO 13370 (2017), as quoted.
    Valid:  floors of any shape; half the width of a square one.
    """
    _refuse.negative(area=area)
    _refuse.not_positive(perimeter=perimeter)
    return area / (0.5 * perimeter)


def equivalent_thickness(
    wall: Metre, conductivity: WattPerMetreKelvin, resistance: SquareMetreKelvinPerWatt
) -> Metre:
    """Ground that holds as much heat back as the slab and its films. `wall`: thickness of the walls round the floor.

        dt = w + lambda*R          R: film inside 0.17, all layers of the slab, film outside 0.04; lambda of the ground

    Source: ISO 13370 (2017), as quoted.
    Valid:  a slab insulated evenly all over.
    """
    _refuse.negative(wall=wall, resistance=resistance)
    _refuse.not_positive(conductivity=conductivity)
    return wall + conductivity * resistance


def slab_transmittance(dimension: Metre, thickness: Metre, conductivity: WattPerMetreKelvin) -> WattPerM2K:
    """Heat from the room through a slab and the ground to the outdoors, mean of the year.

        dt < B':  U = 2*lambda/(pi*B' + dt)*ln(pi*B'/dt + 1)        else  U = lambda/(0.457*B' + dt)

    Source: ISO 13370 (2017), as quoted.
    Valid:  slab on ground, its floor near the ground's level; no ground water near. Clay 1.5, sand 2.0, rock 3.5 W/mK.
    """
    _refuse.not_positive(floor_dimension=dimension, equivalent_thickness=thickness, conductivity=conductivity)
    B, dt = np.asarray(dimension, dtype=float), np.asarray(thickness, dtype=float)
    thin = 2.0 * conductivity / (np.pi * B + dt) * np.log(np.pi * B / dt + 1.0)
    thick = conductivity / (0.457 * B + dt)
    found: WattPerM2K = np.where(dt < B, thin, thick)[()]
    return found


def virtual_resistance(
    transmittance: WattPerM2K, floor: SquareMetreKelvinPerWatt, conductivity: WattPerMetreKelvin
) -> SquareMetreKelvinPerWatt:
    """Resistance to lay below a slab and half a metre of soil, so that in a long time they lose what the slab does.

        Rv = 1/U - 0.17 - R_f - 0.5/lambda, not below nothing

    Source: ISO 13370 (2017), annex F, from memory.
    Valid:  steady loss right, swings of days by the soil. Nothing is left below floors under half a metre wide.
    """
    _refuse.not_positive(transmittance=transmittance, conductivity=conductivity)
    _refuse.negative(floor_resistance=floor)
    left: SquareMetreKelvinPerWatt = np.maximum(
        1.0 / transmittance - _INSIDE - floor - _SOIL / conductivity, 0.0
    )
    return left


def edge_conductance(factor: WattPerMetreKelvin, perimeter: Metre) -> WattPerKelvin:
    """Heat that a slab loses to the outdoors, by a printed loss for each metre of its edge.

        H = F*P

    Source: ASHRAE Handbook, Fundamentals, chapter 18, as quoted: F 0.73 Btu/(h ft F) without insulation.
    Valid:  houses of usual size; a second opinion on `slab_transmittance`.
    """
    _refuse.negative(edge_loss=factor, perimeter=perimeter)
    return factor * perimeter


def ground_temperature(yearly_c: Celsius, recent_c: Celsius, share: Ratio) -> Celsius:
    """Temperature that the underside of a slab loses to: between the year's mean outdoors and that of late.

        T = (1 - s)*T_year + s*T_recent

    Source: own choice, common practice: heat leaves a slab to the open ground beside it and to the deep alike.
    Valid:  slabs a few metres wide; s about 0.5. A soil model would be better for basements.
    """
    _refuse.not_a_share(share=share)
    return (1.0 - share) * yearly_c + share * recent_c


def recent_mean(temp_c: Array, days: Count) -> Array:
    """Mean of the days up to each hour; the year before is taken as this one. Hours of whole days, (hours,).

        mean of t over the 24*n hours that end with this one

    Source: definition.
    Valid:  fewer days than the year has.
    """
    hours = np.asarray(temp_c, dtype=float)
    span = _DAY * days
    if not 0 < span <= hours.size:
        raise ImpossibleInput(f"from 1 to {hours.size // _DAY} days are meant, got {days}")
    summed = np.concatenate(([0.0], np.cumsum(np.concatenate((hours[-span:], hours)))))
    mean: Array = (summed[span + 1 :] - summed[1:-span]) / span
    return mean
