"""The four scales that a pH is told on, and the way from one to another.

A meter set with common buffers tells the NBS scale; chemists of the sea use the total scale. In seawater the two
lie about 0.14 apart, which is a third of the un-ionised ammonia: a pH without its scale is no reading.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from tidestead.core.dims import PH, Celsius, MolePerKg, PracticalSalinity, Ratio
from tidestead.physics import _refuse

_KELVIN = 273.15
CHLORINITY: Ratio = 1.80655
"""Salinity over chlorinity. Source: UNESCO (1962)."""

SALT_SHARE: Ratio = 0.001005
"""Kilograms of salt in a kilogram of seawater, for each unit of salinity. Source: DOE handbook (1994)."""


class PHScale(StrEnum):
    """What is counted as acid, and what the meter was set with."""

    NBS = "nbs"
    """Activity, as a meter set with NBS (NIST) buffers of fresh water tells it."""
    TOTAL = "total"
    """Free hydrogen ions and those bound to sulphate, in a kilogram of seawater."""
    FREE = "free"
    """Free hydrogen ions only."""
    SEAWATER = "seawater"
    """As total, and those bound to fluoride."""


def sulphate(sal_psu: PracticalSalinity) -> MolePerKg:
    """Sulphate in seawater, free and bound to hydrogen.

        ST = 0.14/96.062 * S/1.80655

    Source: Morris and Riley, Deep-Sea Research 13 (1966) 699-705, as in Dickson, Sabine and Christian (2007).
    Valid:  salt of the sea's composition.
    """
    _refuse.negative(salinity=sal_psu)
    return 0.14 / 96.062 * sal_psu / CHLORINITY


def fluoride(sal_psu: PracticalSalinity) -> MolePerKg:
    """Fluoride in seawater, free and bound to hydrogen.

        FT = 0.000067/18.998 * S/1.80655

    Source: Riley, Deep-Sea Research 12 (1965) 219-220, as in Dickson, Sabine and Christian (2007), chapter 5.
    Valid:  salt of the sea's composition.
    """
    _refuse.negative(salinity=sal_psu)
    return 0.000067 / 18.998 * sal_psu / CHLORINITY


def ionic_strength(sal_psu: PracticalSalinity) -> MolePerKg:
    """Half the sum of charges squared, for a kilogram of water without its salt.

        I = 19.924*S/(1000 - 1.005*S)

    Source: DOE handbook (1994), chapter 5, as in Dickson, Sabine and Christian (2007).
    Valid:  salt of the sea's composition.
    """
    _refuse.negative(salinity=sal_psu)
    return 19.924 * sal_psu / (1000.0 * (1.0 - SALT_SHARE * sal_psu))


def bisulphate_constant(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """How far bisulphate falls into sulphate and hydrogen, free scale.

        ln KS = -4276.1/T + 141.328 - 23.093*ln T + (-13856/T + 324.57 - 47.986*ln T)*I**0.5
                + (35474/T - 771.54 + 114.723*ln T)*I - 2698/T*I**1.5 + 1776/T*I**2 + ln(1 - 0.001005*S)
        I by `ionic_strength`

    Source: Dickson, Journal of Chemical Thermodynamics 22 (1990) 113-127, as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 5 to 45.
    """
    _refuse.no_water(sal_psu, temp_c)
    T = np.add(temp_c, _KELVIN)
    log_T = np.log(T)
    I = ionic_strength(sal_psu)  # noqa: E741 - the source's letter
    logarithm = (
        -4276.1 / T + 141.328 - 23.093 * log_T
        + (-13856.0 / T + 324.57 - 47.986 * log_T) * I**0.5
        + (35474.0 / T - 771.54 + 114.723 * log_T) * I
        - 2698.0 / T * I**1.5 + 1776.0 / T * I**2
    )  # fmt: skip
    constant: MolePerKg = np.exp(logarithm) * (1.0 - SALT_SHARE * sal_psu)
    return constant


def hydrogen_fluoride_constant(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """How far hydrogen fluoride falls into fluoride and hydrogen, free scale.

        ln KF = 874/T - 9.68 + 0.111*S**0.5

    Source: Perez and Fraga, Marine Chemistry 21 (1987) 161-168, as in Dickson, Sabine and Christian (2007).
    Valid:  9 to 33 degC, salinity 10 to 40.
    """
    _refuse.no_water(sal_psu, temp_c)
    constant: MolePerKg = np.exp(874.0 / np.add(temp_c, _KELVIN) - 9.68 + 0.111 * np.sqrt(sal_psu))
    return constant


def hydrogen_activity(sal_psu: PracticalSalinity, temp_c: Celsius) -> Ratio:
    """Hydrogen ions that an NBS meter tells over those of the seawater scale.

        fH = 1.2948 - 0.002036*T + (0.0004607 - 0.000001475*T)*S**2

    Source: Takahashi et al., GEOSECS Pacific Expedition 3 (1982), chapter 3, page 80, as quoted in public code.
    Valid:  salinity 20 to 40, 0 to 35 degC. Glass electrodes differ among each other by some hundredths of pH, so
            no way from or to the NBS scale is better. Useless in fresh water, where the scales are one.
    """
    _refuse.no_water(sal_psu, temp_c)
    T = np.add(temp_c, _KELVIN)
    share: Ratio = 1.2948 - 0.002036 * T + (0.0004607 - 0.000001475 * T) * sal_psu**2
    return share


def on_scale(
    reading: PH, read_on: PHScale, wanted: PHScale, sal_psu: PracticalSalinity, temp_c: Celsius
) -> PH:
    """A pH told on another scale.

        total = free - log10(1 + ST/KS)      seawater = free - log10(1 + ST/KS + FT/KF)
        NBS   = seawater - log10(fH)

    Source: Dickson, Sabine and Christian (2007), chapter 2; NBS by Takahashi et al. (1982).
    Valid:  as `bisulphate_constant`, `hydrogen_fluoride_constant`, `hydrogen_activity`; at the pressure of the air.
    """
    _refuse.no_water(sal_psu, temp_c)
    _refuse.endless(pH=reading)
    if read_on is wanted:
        return reading
    return reading + _above_free(wanted, sal_psu, temp_c) - _above_free(read_on, sal_psu, temp_c)


def _above_free(scale: PHScale, sal_psu: PracticalSalinity, temp_c: Celsius) -> float:
    """What one scale tells more than the free one, for the same water."""
    if scale is PHScale.FREE:
        return 0.0
    bound = 1.0 + sulphate(sal_psu) / bisulphate_constant(sal_psu, temp_c)
    if scale is not PHScale.TOTAL:
        bound += fluoride(sal_psu) / hydrogen_fluoride_constant(sal_psu, temp_c)
    if scale is PHScale.NBS:
        bound *= hydrogen_activity(sal_psu, temp_c)
    shift: float = -np.log10(bound)
    return shift
