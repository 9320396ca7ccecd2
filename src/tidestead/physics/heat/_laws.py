"""Heat and vapour at surfaces, one number at a time. Private: the calculators beside it check and offer them, the
year's engine compiles them.

Each law stands alone (no law calls another), so that a compiler can take it by itself. Temperatures in degC, vapour
pressures in Pa. Sources stand with the calculators: `evaporation`, `films`, `sky`.
"""

from __future__ import annotations

import math

from tidestead.physics import _sky_laws

sky_temperature = _sky_laws.sky_temperature

KELVIN = 273.15
_DRY, LIGHTER = 287.042, 0.621945
"""Gas constant of dry air, J/(kg K), and molar mass of water over that of dry air. Source: as `_air_laws`."""

STEFAN = 5.670374419e-8
"""Stefan-Boltzmann constant, W/(m2 K4). Source: 2019 SI."""

_HOUR = 3600.0

_STILL = 35.0
DRIVEN = 5e-5
MOVING = 0.15
_MOVING_POWER = 0.7
"""Shah's constants: natural convection; kg/(m2 h Pa) where it is weak; speed of air above which it is driven, m/s."""

_LEWIS, _MOIST_HEAT, _PRESSURE = 0.9, 1006.0, 101325.0
"""Lewis number to the power two thirds, from memory; heat of air, J/(kg K); standard pressure, Pa."""

_HANDBOOK = 0.1 * 0.45359237 / 3600.0 / 0.09290304 / 3386.389
"""0.1 lb/(h ft2 inHg) as kg/(s m2 Pa)."""

_SMITH = 95.0 * 1055.05585262 / 3600.0 / 0.09290304 / 3386.389
_SMITH_WIND = 0.425 * 1055.05585262 / 3600.0 / 0.09290304 / 3386.389 / 0.00508
"""95 and 0.425 Btu/(h ft2 inHg), the second for each ft/min, as W/(m2 Pa) and for each m/s."""

_SHEET_FILMS = 0.13 + 0.04
"""Resistance of the two films in a printed transmittance, m2 K/W."""


def evaporation_shah(
    temp_w: float, temp_a: float, vapour_w: float, vapour_a: float, pressure: float, speed: float
) -> float:
    """Water that leaves an undisturbed surface, kg/(m2 s); below nothing where vapour condenses on it.

    `vapour_w` is the pressure over the water's surface, with what salt takes off already in it.
    """
    difference = vapour_w - vapour_a
    weak = DRIVEN * difference
    if difference <= 0.0:
        return weak / _HOUR
    dry_w = (pressure - vapour_w) / (_DRY * (temp_w + KELVIN))
    dry_a = (pressure - vapour_a) / (_DRY * (temp_a + KELVIN))
    rising = dry_a - dry_w
    hourly = weak
    if speed > MOVING:
        hourly = weak * math.pow(speed / MOVING, _MOVING_POWER)
    if rising > 0.0:
        ratio_w = LIGHTER * vapour_w / (pressure - vapour_w)
        ratio_a = LIGHTER * vapour_a / (pressure - vapour_a)
        hourly = max(hourly, _STILL * dry_w * math.pow(rising, 1.0 / 3.0) * (ratio_w - ratio_a))
    return hourly / _HOUR


def evaporation_ashrae(vapour_w: float, vapour_a: float, activity: float) -> float:
    """Water that leaves a pool by its activity factor, kg/(m2 s); below nothing where vapour condenses on it."""
    return _HANDBOOK * activity * (vapour_w - vapour_a)


def evaporation_smith(vapour_w: float, vapour_a: float, speed: float, latent: float) -> float:
    """Water that leaves a pool in use in moving air, kg/(m2 s); below nothing where vapour condenses on it."""
    return (_SMITH + _SMITH_WIND * speed) * (vapour_w - vapour_a) / latent


def film_wind(speed: float) -> float:
    """Heat between an outside face and the air that blows past it, W/(m2 K)."""
    return 2.8 + 3.0 * speed


def film_wall(difference: float) -> float:
    """Heat between an upright face and still air, W/(m2 K)."""
    return 1.31 * math.pow(abs(difference), 1.0 / 3.0)


def film_up(difference: float) -> float:
    """Heat that rises from a level face into still air: a warm face looking up, a cold one looking down, W/(m2 K)."""
    return 9.482 / (7.238 - 1.0) * math.pow(abs(difference), 1.0 / 3.0)


def film_down(difference: float) -> float:
    """Heat that sinks at a level face: a cold face looking up, a warm one looking down, W/(m2 K)."""
    return 1.810 / (1.382 + 1.0) * math.pow(abs(difference), 1.0 / 3.0)


def film_tilted(difference: float, cosine: float) -> float:
    """Heat between a face of any tilt and still air, W/(m2 K).

    `difference` is the face less the air; `cosine` is 1 of a face that looks up, 0 of an upright one, -1 of one that
    looks down.
    """
    if difference * cosine > 0.0:
        return 9.482 / (7.238 - abs(cosine)) * math.pow(abs(difference), 1.0 / 3.0)
    return 1.810 / (1.382 + abs(cosine)) * math.pow(abs(difference), 1.0 / 3.0)


def film_water(difference: float) -> float:
    """Heat from open water to still air, W/(m2 K). `difference` is the water less the air; colder water has cool air
    lying on it, as `film_down`."""
    if difference > 0.0:
        return 1.52 * math.pow(difference, 1.0 / 3.0)
    return 1.810 / (1.382 + 1.0) * math.pow(-difference, 1.0 / 3.0)


def film_with_vapour(speed: float) -> float:
    """Heat that goes between water and air with the vapour, by how fast vapour does, W/(m2 K)."""
    driven = DRIVEN / _HOUR
    if speed > MOVING:
        driven = driven * (speed / MOVING) ** _MOVING_POWER
    return _LEWIS * _MOIST_HEAT * _PRESSURE / LIGHTER * driven


def radiation_film(temp1_c: float, temp2_c: float, emissivity: float) -> float:
    """Heat by radiation between two temperatures for each kelvin between them, W/(m2 K); exact, not a mean."""
    one, two = temp1_c + KELVIN, temp2_c + KELVIN
    return emissivity * STEFAN * (one * one + two * two) * (one + two)


def sheet_conductance(transmittance: float) -> float:
    """Heat through a sheet from face to face, by its printed transmittance with films, W/(m2 K)."""
    return 1.0 / (1.0 / transmittance - _SHEET_FILMS)
