"""Heat between faces and air, between faces by radiation, and through sheets by their printed transmittance."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Celsius, Kelvin, MetrePerSecond, Radian, Ratio, WattPerM2K
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics._each import each
from tidestead.physics.heat import _laws

_ABSOLUTE_ZERO: Celsius = -273.15


def wind_film(speed: MetrePerSecond) -> WattPerM2K:
    """Heat between an outside face and the wind along it.

        h = 2.8 + 3.0*v

    Source: Watmuff, Charters and Proctor (1977), as quoted.
    Valid:  0 to 7 m/s at the face, which is less than a weather station 10 m up measures. Radiation is not in it.
    """
    _refuse.negative(wind=speed)
    return each(_laws.film_wind, speed)


def wall_film(difference: Kelvin) -> WattPerM2K:
    """Heat between an upright face and still air.

        h = 1.31*|dT|**(1/3)

    Source: ASHRAE Handbook, Fundamentals, natural convection at walls, as TARP has it (Walton 1983), from memory.
    Valid:  turbulent: faces higher than about half a metre.
    """
    return each(_laws.film_wall, difference)


def tilted_film(difference: Kelvin, tilt: Radian) -> WattPerM2K:
    """Heat between a face of any tilt and still air. `difference`: the face less the air; `tilt` of the side that
    touches the air: 0 looks up, pi looks down.

        h = 9.482*|dT|**(1/3)/(7.238 - |cos b|)       warm looking up, cold looking down
        h = 1.810*|dT|**(1/3)/(1.382 + |cos b|)       warm looking down, cold looking up

    Source: Walton, Thermal Analysis Research Program (1983), from memory.
    Valid:  still air; faces wider than about half a metre.
    """
    return each(_laws.film_tilted, difference, np.cos(tilt))


def rising_film(difference: Kelvin) -> WattPerM2K:
    """Heat that rises from a level face into still air: a warm one looking up, a cold one looking down.

        h = 9.482*|dT|**(1/3)/6.238

    Source: Walton, Thermal Analysis Research Program (1983), from memory.
    Valid:  as `tilted_film`.
    """
    return each(_laws.film_up, difference)


def sinking_film(difference: Kelvin) -> WattPerM2K:
    """Heat at a level face on which the air lies still: a cold one looking up, a warm one looking down.

        h = 1.810*|dT|**(1/3)/2.382

    Source: Walton, Thermal Analysis Research Program (1983), from memory.
    Valid:  as `tilted_film`.
    """
    return each(_laws.film_down, difference)


def water_film(difference: Kelvin) -> WattPerM2K:
    """Heat between open water and still air. `difference`: the water less the air.

        h = 1.52*dT**(1/3)        0.22 Btu/(h ft2 F); colder water as `sinking_film`

    Source: a pool heating text, as quoted; it is `rising_film` by another hand.
    Valid:  still air. A fan adds to it.
    """
    return each(_laws.film_water, difference)


def vapour_film(speed: MetrePerSecond) -> WattPerM2K:
    """Heat that goes between water and air where vapour does: no less, or water would be colder than a wet bulb.

        h = Le**(2/3)*cp*p/0.622*k        k = 5e-5 kg/(m2 h Pa), times (u/0.15)**0.7 above 0.15 m/s; Le**(2/3) = 0.9

    Source: Lewis relation with k of Shah (2014), as quoted; the Lewis number from memory.
    Valid:  at the pressure of the sea's level; winds to some m/s, as Shah's formula.
    """
    _refuse.negative(speed=speed)
    return each(_laws.film_with_vapour, speed)


def radiation_film(temp1_c: Celsius, temp2_c: Celsius, emissivity: Ratio) -> WattPerM2K:
    """Heat by radiation between two temperatures, for each kelvin between them.

        h = e*s*(T1**2 + T2**2)*(T1 + T2)

    Source: Stefan-Boltzmann law, with the difference of fourth powers divided out.
    Valid:  exact; `emissivity` is that of the pair: e1*e2/(e1 + e2 - e1*e2) of large faces that look at each other.
    """
    _refuse.not_a_share(emissivity=emissivity)
    for temp_c in (temp1_c, temp2_c):
        if not np.all(np.greater_equal(temp_c, _ABSOLUTE_ZERO)):
            raise ImpossibleInput(f"nothing is colder than {_ABSOLUTE_ZERO} degC, got {temp_c} degC")
    return each(_laws.radiation_film, temp1_c, temp2_c, emissivity)


def sheet_conductance(transmittance: WattPerM2K) -> WattPerM2K:
    """Heat through a sheet from face to face, by the transmittance its maker prints, films and all.

        h = 1/(1/U - 0.13 - 0.04)

    Source: films of EN 673 and ISO 6946, as quoted.
    Valid:  a sheet that stands upright indoors when its maker tested it; U below 5.9 W/(m2 K).
    """
    _refuse.not_positive(transmittance=transmittance)
    if not np.all(np.greater(np.divide(1.0, transmittance), 0.17)):
        raise ImpossibleInput(f"{transmittance} W/(m2 K) is more than the films of air alone let through")
    return each(_laws.sheet_conductance, transmittance)
