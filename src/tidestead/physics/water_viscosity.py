"""How thick the water is, and at what pressure it boils: viscosity and vapour pressure of fresh and salt water."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Celsius, Pascal, PascalSecond, PracticalSalinity, SquareMetrePerSecond
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import seawater

_KG_PER_KG = 35.16504e-3 / 35.0
"""Salt in water of practical salinity one. Source: F. Millero et al., Deep-Sea Research I 55 (2008) 50-72."""

_ZERO_CELSIUS = 273.15


def _check(sal_psu: PracticalSalinity, temp_c: Celsius) -> None:
    if np.any(np.less(sal_psu, 0.0)) or not np.all(np.isfinite(sal_psu)):
        raise ImpossibleInput(f"salinity cannot be negative, got {sal_psu}")
    if np.any(np.less(temp_c, -10.0)) or not np.all(np.less(temp_c, 100.0)):
        raise ImpossibleInput(f"liquid water between -10 and 100 degC is meant, got {temp_c} degC")


def fresh_viscosity(temp_c: Celsius) -> PascalSecond:
    """Dynamic viscosity of pure water.

        mu = 4.2844e-5 + 1/(0.157*(t + 64.993)**2 - 91.296)

    Source: M. Sharqawy, J. Lienhard and S. Zubair, Desalination and Water Treatment 16 (2010) 354-380,
            equation 23.
    Valid:  0 to 180 degC, within 0.05 % of the IAPWS formulation of 2008.
    """
    _check(0.0, temp_c)
    return 4.2844e-5 + 1.0 / (0.157 * (temp_c + 64.993) ** 2 - 91.296)


def dynamic_viscosity(sal_psu: PracticalSalinity, temp_c: Celsius) -> PascalSecond:
    """Dynamic viscosity of seawater.

        mu = mu_fresh*(1 + A*S + B*S**2)                 S: salt in kg/kg
        A = 1.541 + 1.998e-2*t - 9.52e-5*t**2,   B = 7.974 - 7.561e-2*t + 4.724e-4*t**2

    Millero's formula of 1974 gives 0.3 % less at 25 degC and S = 35.

    Source: M. Sharqawy, J. Lienhard and S. Zubair, Desalination and Water Treatment 16 (2010) 354-380,
            equation 22.
    Valid:  0 to 180 degC, 0 to 150 g/kg, within 1.5 %.
    """
    _check(sal_psu, temp_c)
    salt = sal_psu * _KG_PER_KG
    first = 1.541 + 1.998e-2 * temp_c - 9.52e-5 * temp_c**2
    second = 7.974 - 7.561e-2 * temp_c + 4.724e-4 * temp_c**2
    return fresh_viscosity(temp_c) * (1.0 + first * salt + second * salt**2)


def kinematic_viscosity(sal_psu: PracticalSalinity, temp_c: Celsius) -> SquareMetrePerSecond:
    """Kinematic viscosity of seawater.

        nu = mu/rho

    Source: definition; `dynamic_viscosity`, and density by TEOS-10.
    Valid:  as both: -2 to 40 degC, salinity 0 to 42.
    """
    return dynamic_viscosity(sal_psu, temp_c) / seawater.density(sal_psu, temp_c)


def fresh_vapour_pressure(temp_c: Celsius) -> Pascal:
    """Pressure at which pure water boils.

        ln p = -5800.2206/T + 1.3914993 - 4.8640239e-2*T + 4.1764768e-5*T**2 - 1.4452093e-8*T**3 + 6.5459673*ln T

    Source: R. Hyland and A. Wexler, ASHRAE Transactions 89 (1983) 500-519; ASHRAE Handbook Fundamentals, chapter on
            psychrometrics.
    Valid:  0 to 200 degC.
    """
    _check(0.0, temp_c)
    temp_k = temp_c + _ZERO_CELSIUS
    powers = 1.3914993 - 4.8640239e-2 * temp_k + 4.1764768e-5 * temp_k**2 - 1.4452093e-8 * temp_k**3
    pressure: Pascal = np.exp(-5800.2206 / temp_k + powers + 6.5459673 * np.log(temp_k))
    return pressure


def vapour_pressure(sal_psu: PracticalSalinity, temp_c: Celsius) -> Pascal:
    """Pressure at which seawater boils.

        ln(p/p_fresh) = -4.58180e-4*S - 2.04430e-6*S**2      S: salt in g/kg

    Source: K. Nayar, M. Sharqawy, L. Banchik and J. Lienhard, Desalination 390 (2016) 1-24.
    Valid:  0 to 180 degC, 0 to 160 g/kg.
    """
    _check(sal_psu, temp_c)
    salt = 1000.0 * sal_psu * _KG_PER_KG
    pressure: Pascal = fresh_vapour_pressure(temp_c) * np.exp(-4.58180e-4 * salt - 2.04430e-6 * salt**2)
    return pressure
