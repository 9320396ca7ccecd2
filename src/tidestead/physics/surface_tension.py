"""How hard the surface of the water pulls: surface tension of fresh water and seawater against air.

Clean water is meant. What a fractionator skims lowers it, by how much nobody can say for a tank; bubbles smaller
than a millimetre feel little of it.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Celsius, GramPerKg, Kelvin, NewtonPerMetre
from tidestead.core.errors import ImpossibleInput

_CRITICAL: Kelvin = 647.096
_AMPLITUDE: NewtonPerMetre = 0.2358
_POWER = 1.256
_SECOND_TERM = 0.625
"""Constants of the surface tension of water. Source: IAPWS R1-76(2014), as four public codes quote it."""

_SALT = 3.766e-4
_SALT_AND_WARMTH = 2.347e-6
"""Growth with salt in kg/g, and with salt times degC. Source: Nayar et al. (2014), as public codes quote it."""

_ZERO_CELSIUS: Kelvin = 273.15


def fresh_surface_tension(temp_c: Celsius) -> NewtonPerMetre:
    """Surface tension of pure water.

        sigma = 0.2358 * x**1.256 * (1 - 0.625*x)      x = 1 - T/647.096, T in kelvin

    Source: IAPWS R1-76(2014), Revised Release on Surface Tension of Ordinary Water Substance, quoted.
    Valid:  from -25 degC to the critical point, within 0.5 % below 100 degC (from memory); clean water.
    """
    if not np.all((np.asarray(temp_c) > -_ZERO_CELSIUS) & (np.asarray(temp_c) < _CRITICAL - _ZERO_CELSIUS)):
        raise ImpossibleInput(f"liquid water has no surface at {temp_c} degC")
    x = 1.0 - (np.add(temp_c, _ZERO_CELSIUS)) / _CRITICAL
    tension: NewtonPerMetre = _AMPLITUDE * x**_POWER * (1.0 - _SECOND_TERM * x)
    return tension


def surface_tension(sal_gkg: GramPerKg, temp_c: Celsius) -> NewtonPerMetre:
    """Surface tension of seawater.

        sigma = sigma_fresh * (1 + 3.766e-4*S + 2.347e-6*S*t)      S in g/kg, t in degC

    Source: K. Nayar, D. Panchanathan, G. McKinley and J. Lienhard, J. Phys. Chem. Ref. Data 43 (2014) 043103;
            the formula as public codes quote it, range and error from its abstract, which was seen. It is also
            the IAPWS guideline G14-19.
    Valid:  0 to 131 g/kg, 1 to 92 degC, clean water at the pressure of the air; 0.19 % off on average and 0.6 %
            at most.
    """
    if not np.all(np.greater_equal(sal_gkg, 0.0)):
        raise ImpossibleInput(f"salt cannot be negative, got {sal_gkg} g/kg")
    salt = np.multiply(sal_gkg, _SALT + np.multiply(_SALT_AND_WARMTH, temp_c))
    tension: NewtonPerMetre = fresh_surface_tension(temp_c) * (1.0 + salt)
    return tension
