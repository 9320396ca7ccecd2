"""Pressure in pipes and at a pump's inlet: net positive suction head, and how near the water is to boiling."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import G, KgPerM3, Metre, Pascal, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

STANDARD_AIR: Pascal = 101325.0
"""Air at sea level. Source: ISO 2533 (1975), standard atmosphere."""

WARMTH, COOLER = 288.15, 0.0065
_POWER = 9.80665 * 0.0289644 / (8.31432 * 0.0065)
_EARTH: Metre = 6356766.0
"""K at sea level and K less for each metre; g*M/(R*L); radius of the earth that gravity falls off by.
Source: U.S. Standard Atmosphere (1976); ISO 2533 (1975)."""

_HIGHEST: Metre = 11000.0


def air_pressure(elevation: Metre) -> Pascal:
    """Mean pressure of the air at a height above the sea.

        p = 101325*((T0 - L*H)/T0)**(g*M/(R*L))      H = r*z/(r + z), T0 = 288.15 K, L = 6.5 K/km

    Source: U.S. Standard Atmosphere (1976); the same as ISO 2533 (1975) to 11 km.
    Valid:  -5 to 11 km, mean weather: a deep low takes some 4 % off.
    """
    if not -5000.0 <= elevation <= _HIGHEST:
        raise ImpossibleInput(f"a place between -5 and 11 km above the sea is meant, got {elevation} m")
    even = _EARTH * elevation / (_EARTH + elevation)
    pressure: Pascal = STANDARD_AIR * (1.0 - COOLER * even / WARMTH) ** _POWER
    return pressure


@dataclass(frozen=True)
class Suction:
    """Where a pump draws from. `surface_pressure` and `vapour_pressure` are absolute.

    `lift` is the height of the pump's inlet above the water it draws from (below it: negative), `loss` the head
    lost on the way.
    """

    surface_pressure: Pascal
    vapour_pressure: Pascal
    density: KgPerM3
    lift: Metre
    loss: Metre


def npsh_available(suction: Suction) -> Metre:
    """Net positive suction head at a pump's inlet: head of all energy there above that of boiling water.

        NPSHa = (p - p_v)/(rho*g) - lift - loss

    Source: Crane TP-410 (2009), example 7-32; Hydraulic Institute, in any text on pumps.
    Valid:  steady flow; air in the water brings trouble sooner.
    """
    _refuse.not_positive(density=suction.density)
    _refuse.negative(loss=suction.loss, vapour_pressure=suction.vapour_pressure)
    pressure = suction.surface_pressure - suction.vapour_pressure
    return pressure / (suction.density * G) - suction.lift - suction.loss


def npsh_wanted(required: Metre, margin: Ratio) -> Metre:
    """Net positive suction head to be provided for what the pump's maker requires.

        NPSH = margin * NPSHr

    Source: Crane TP-410 (2009), example 7-32 (margin 1.3).
    Valid:  `required` at the flow the pump runs at; at its printed value the pump has lost 3 % of its head.
    """
    _refuse.negative(required=required)
    _refuse.not_positive(margin=margin)
    return required * margin


@dataclass(frozen=True)
class PipePlace:
    """A place in a pipe: its height, the head of all energy there, and the head of velocity."""

    height: Metre
    head: Metre
    velocity_head: Metre


def pipe_pressure(place: PipePlace, air_pressure: Pascal, density: KgPerM3) -> Pascal:
    """Absolute pressure of the water at a place in a pipe.

        p = p_air + rho*g*(H - z - v**2/(2*g))

    Below the vapour pressure the water column breaks; well above it already air comes out of the water.

    Source: D. Bernoulli, Hydrodynamica (1738), in any text on hydraulics.
    Valid:  heads counted from the datum of the heights, with the pressure of the air as zero.
    """
    _refuse.not_positive(density=density)
    _refuse.negative(velocity_head=place.velocity_head, air_pressure=air_pressure)
    return air_pressure + density * G * (place.head - place.height - place.velocity_head)


def boiling_height(
    place: PipePlace, air_pressure: Pascal, vapour_pressure: Pascal, density: KgPerM3
) -> Metre:
    """Height at which a pipe with this head and velocity would have water boil in it.

        z = H + (p_air - p_v)/(rho*g) - v**2/(2*g)

    Source: D. Bernoulli, Hydrodynamica (1738), in any text on hydraulics.
    Valid:  as `pipe_pressure`. Keep some metres below: air comes out of the water sooner.
    """
    _refuse.not_positive(density=density)
    _refuse.negative(velocity_head=place.velocity_head, vapour_pressure=vapour_pressure)
    return place.head + (air_pressure - vapour_pressure) / (density * G) - place.velocity_head
