"""How heavy the water is, and what heat it holds: density, hydrometer readings, specific weight and heat.

The equation of state is TEOS-10 (the international thermodynamic equation of seawater, 2010) as the library
gsw gives it. It is imported inside the functions that need it, so that nothing else pays for it.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import (
    Celsius,
    G,
    GramPerKg,
    JoulePerKgKelvin,
    KgPerM3,
    NewtonPerMetre3,
    PracticalSalinity,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput, SolverError

_PRACTICAL_OF_STANDARD: PracticalSalinity = 35.0
_GRAMS_OF_STANDARD: GramPerKg = 35.16504
"""Salinity of standard seawater on the practical scale and in g/kg.
Source: F. Millero et al., Deep-Sea Research I 55 (2008) 50-72."""

_BRINE: PracticalSalinity = 60.0
"""Saltiest water a hydrometer reading is searched for; beyond it the reading is a mistake."""

_STEPS = 30
_CLOSE = 1e-12


def density(sal_psu: PracticalSalinity, temp_c: Celsius) -> KgPerM3:
    """Density of seawater at the pressure of the air.

        rho = rho_t_exact(SR, t, 0)     SR = 35.16504/35 * S, reference salinity in g/kg

    Water of standard composition is meant: salt mixes come near, and no place at sea is known for them.
    A few metres of depth add less than 0.02 kg/m3, which is left out.
    Source: TEOS-10, IOC Manuals and Guides 56 (2010), equations 2.4.1 and 2.8.1, through the library gsw.
    Valid:  salinity 0 to 42, -2 to 40 degC. Saltier or hotter water is computed all the same.
    """
    _refuse_no_water(sal_psu, temp_c)
    import gsw  # noqa: PLC0415 - only where density is asked for

    heavy: KgPerM3 = gsw.rho_t_exact(gsw.SR_from_SP(sal_psu), temp_c, 0.0)
    return heavy


def fresh_density(temp_c: Celsius) -> KgPerM3:
    """Density of pure, air-free water at the pressure of the air.

        rho = rho_t_exact(0, t, 0)

    Source: TEOS-10, IOC Manuals and Guides 56 (2010), pure water part (IAPWS-09), through the library gsw.
    Valid:  -2 to 40 degC; tap water is heavier by about as many parts in a million as it holds mg/L of salts.
    """
    return density(0.0, temp_c)


def specific_heat(sal_psu: PracticalSalinity, temp_c: Celsius) -> JoulePerKgKelvin:
    """Heat that warms a kilogram of seawater by one kelvin, at the pressure of the air.

        cp = cp_t_exact(SR, t, 0)     SR = 35.16504/35 * S

    Source: TEOS-10, IOC Manuals and Guides 56 (2010), through the library gsw.
    Valid:  salinity 0 to 42, -2 to 40 degC.
    """
    _refuse_no_water(sal_psu, temp_c)
    import gsw  # noqa: PLC0415 - only where it is asked for

    held: JoulePerKgKelvin = gsw.cp_t_exact(gsw.SR_from_SP(sal_psu), temp_c, 0.0)
    return held


def practical_from_absolute(sal_gkg: GramPerKg) -> PracticalSalinity:
    """Practical salinity of water with so many grams of salt in a kilogram.

        S = SR * 35 / 35.16504

    Source: TEOS-10, IOC Manuals and Guides 56 (2010), equation 2.4.1; Millero et al. (2008).
    Valid:  salt of the sea's composition; 0 to 42 g/kg.
    """
    if np.any(np.less(sal_gkg, 0.0)):
        raise ImpossibleInput(f"salt cannot be negative, got {sal_gkg} g/kg")
    return sal_gkg * _PRACTICAL_OF_STANDARD / _GRAMS_OF_STANDARD


def specific_weight(density: KgPerM3) -> NewtonPerMetre3:
    """Weight of a cubic metre.

        gamma = rho * g

    Source: elementary mechanics; g is the standard acceleration of free fall.
    Valid:  on the ground; local g differs by up to 0.3 %.
    """
    if np.any(np.less(density, 0.0)):
        raise ImpossibleInput(f"density cannot be negative, got {density}")
    return density * G


def specific_gravity(sal_psu: PracticalSalinity, temp_c: Celsius, reference_temp_c: Celsius) -> Ratio:
    """What a hydrometer made for `reference_temp_c` should read in this water.

        sg = rho(S, t) / rho(0, t_ref)

    Source: definition of relative density (ISO 80000-4); densities by TEOS-10.
    Valid:  as density. The glass of the hydrometer is taken not to expand (about 0.0001 in 5 K).
    """
    return density(sal_psu, temp_c) / fresh_density(reference_temp_c)


def salinity_from_specific_gravity(
    gravity: Ratio, temp_c: Celsius, reference_temp_c: Celsius
) -> PracticalSalinity:
    """Salinity from a specific gravity read at `temp_c` with an instrument made for `reference_temp_c`.

        S such that rho(S, t) = sg * rho(0, t_ref)
        found by S <- S + (wanted - rho(S, t)) / slope, the slope being that of the chord from fresh to brine

    Raises ImpossibleInput where no salinity from 0 to 60 gives the reading.
    Source: definition of relative density (ISO 80000-4); densities by TEOS-10.
    Valid:  as density.
    """
    wanted = gravity * fresh_density(reference_temp_c)
    fresh, brine = density(0.0, temp_c), density(_BRINE, temp_c)
    if np.any(np.less(wanted, fresh * (1.0 - _CLOSE))) or np.any(np.greater(wanted, brine * (1.0 + _CLOSE))):
        raise ImpossibleInput(f"no water from fresh to {_BRINE:g} psu reads {gravity} at {temp_c} degC")
    slope = (brine - fresh) / _BRINE
    salinity = (wanted - fresh) / slope
    for _ in range(_STEPS):
        salinity = np.maximum(salinity, 0.0)
        change = (wanted - density(salinity, temp_c)) / slope
        salinity = salinity + change
        if np.all(np.abs(change) <= _CLOSE * _BRINE):
            found: PracticalSalinity = np.maximum(salinity, 0.0)
            return found
    raise SolverError(f"salinity for a specific gravity of {gravity} at {temp_c} degC was not found")


def _refuse_no_water(sal_psu: PracticalSalinity, temp_c: Celsius) -> None:
    if np.any(np.less(sal_psu, 0.0)) or not np.all(np.isfinite(sal_psu)):
        raise ImpossibleInput(f"salinity cannot be negative, got {sal_psu}")
    if np.any(np.less(temp_c, -10.0)) or not np.all(np.less(temp_c, 100.0)):
        raise ImpossibleInput(f"liquid water between -10 and 100 degC is meant, got {temp_c} degC")
