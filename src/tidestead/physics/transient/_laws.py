"""Rates of a well mixed water, as the compiled run uses them. Seconds, grams, cubic metres."""

from __future__ import annotations

import math

import numpy as np

from tidestead.core.dims import Array

_KELVIN = 273.15
_MOLAR, _MOLAR_VOLUME = 31.9988, 22391.6
"""As `oxygen`: grams in a mole of oxygen, cm3 of it as a real gas."""
_COLDEST, _WARMEST, _SALTIEST = -2.0, 45.0, 80.0
"""Beyond these the water is taken to hold as much oxygen and un-ionised ammonia as at them."""

NITRIFIED_OXYGEN = 4.57
"""Grams of oxygen for a gram of ammonia nitrogen, without growth: 2 O2 to the atom, 64/14. Source: stoichiometry."""
FRESH = 997.0
"""kg/m3 of what evaporates. Source: EOS-80, 997.05 at 25 degC."""
FALL = 9.80665
_AMMONIA_OF_NITROGEN = 17.031 / 14.007
"""Source: IUPAC standard atomic weights."""


def oxygen_held(sal_psu: float, temp_c: float) -> float:
    """Oxygen at saturation in air of one atmosphere, g/m3: Garcia and Gordon (1992), as `oxygen.saturation_mass`."""
    held_at = min(max(temp_c, _COLDEST), _WARMEST)
    Ts = math.log((298.15 - held_at) / (_KELVIN + held_at))
    alone = 2.00907 + Ts * (3.22014 + Ts * (4.05010 + Ts * (4.94457 + Ts * (-0.256847 + Ts * 3.88767))))
    salted = -6.24523e-3 + Ts * (-7.37614e-3 + Ts * (-1.03410e-2 + Ts * -8.17083e-3))
    S = min(max(sal_psu, 0.0), _SALTIEST)
    return math.exp(alone + S * salted - 4.88682e-7 * S * S) * (1000.0 * _MOLAR / _MOLAR_VOLUME)


def left_of(level: float, half: float) -> float:
    """Share of its uptake that something keeps at a level of oxygen: C/(C + half); all of it where half is nothing."""
    if half <= 0.0:
        return 1.0
    there = max(level, 0.0)
    return there / (there + half)


def heater_share(temp_c: float, setpoint: float, band: float) -> float:
    """Share of its power that a heater in proportion gives: half of it at the setpoint."""
    return min(max((setpoint - temp_c) / band + 0.5, 0.0), 1.0)


def hole_flow(head: float, area: float, hole: float, net: float, step: float) -> float:
    """Mean flow of a hole over a step, by its head m in the middle of it.

        m = h + dt/(2*A)*(net - c*sqrt(m))      c = hole*sqrt(2*g)

    `net` is what else the body gains, m3/s.
    """
    c = hole * math.sqrt(2.0 * FALL)
    pull = 0.25 * c * step / area
    middle = max(head + 0.5 * net * step / area, 0.0)
    return c * (math.sqrt(pull * pull + middle) - pull)


def ammonia(tan: Array, temp_c: Array, sal_psu: Array, ph: Array) -> Array:
    """Un-ionised ammonia (g NH3/m3) of total ammonia nitrogen, in the form of EPA 440/5-88-004 (1989).

    pKa = 9.245 + 0.116*I + 0.0324*(298 - T) + 0.0415*P/T      I = 19.9273*S/(1000 - 1.005109*S), P 1 atm
    """
    T = np.clip(temp_c, _COLDEST, _WARMEST) + _KELVIN
    S = np.clip(sal_psu, 0.0, _SALTIEST)
    strength = 19.9273 * S / (1000.0 - 1.005109 * S)
    pKa = 9.245 + 0.116 * strength + 0.0324 * (298.0 - T) + 0.0415 / T
    found: Array = _AMMONIA_OF_NITROGEN * tan / (1.0 + np.power(10.0, pKa - ph))
    return found
