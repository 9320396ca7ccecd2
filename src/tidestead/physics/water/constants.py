"""Constants of seawater's acids and salts, at the pressure of the air.

All count in a kilogram of seawater; those of acids stand on the total scale of pH. Arrays broadcast.
Coefficients are as public code and test values quote them; the papers and the guide named were not opened.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Celsius, Mole2PerKg2, MolePerKg, MolePerKgAtmosphere, PracticalSalinity, Ratio
from tidestead.physics import _refuse
from tidestead.physics.ph import SALT_SHARE, ionic_strength

_KELVIN = 273.15
_GAS = 83.14462618
"""Molar gas constant, cm3 bar/(mol K). Source: 2019 SI, exact to the digits given."""

_BAR_PER_ATMOSPHERE = 1.01325


def co2_solubility(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKgAtmosphere:
    """Carbon dioxide dissolved for each atmosphere of its fugacity.

        ln K0 = 93.4517*(100/T) - 60.2409 + 23.3585*ln(T/100)
                + S*(0.023517 - 0.023656*(T/100) + 0.0047036*(T/100)**2)

    Source: Weiss, Marine Chemistry 2 (1974) 203-215, as in Dickson, Sabine and Christian (2007), chapter 5.
    Valid:  -1 to 40 degC, salinity 0 to 45.
    """
    c = _kelvin(sal_psu, temp_c) / 100.0
    logarithm = 93.4517 / c - 60.2409 + 23.3585 * np.log(c)
    held: MolePerKgAtmosphere = np.exp(logarithm + sal_psu * (0.023517 - 0.023656 * c + 0.0047036 * c**2))
    return held


def co2_fugacity(temp_c: Celsius) -> Ratio:
    """Fugacity of carbon dioxide over its partial pressure, in air of one atmosphere.

        ln f = (B + 2*delta)*P/(R*T)      delta = 57.7 - 0.118*T
        B = -1636.75 + 12.0408*T - 0.0327957*T**2 + 3.16528e-5*T**3      cm3/mol

    Source: Weiss, Marine Chemistry 2 (1974) 203-215, as in Dickson, Sabine and Christian (2007), chapter 5.
    Valid:  -1 to 40 degC, little carbon dioxide in the air.
    """
    T = _kelvin(0.0, temp_c)
    B = -1636.75 + 12.0408 * T - 0.0327957 * T**2 + 3.16528e-5 * T**3
    delta = 57.7 - 0.118 * T
    share: Ratio = np.exp((B + 2.0 * delta) * _BAR_PER_ATMOSPHERE / (_GAS * T))
    return share


def carbonic_first(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """First step of carbonic acid: carbon dioxide to bicarbonate.

        -log10 K1 = 3633.86/T - 61.2172 + 9.6777*ln T - 0.011555*S + 0.0001152*S**2

    Source: Lueker, Dickson and Keeling, Marine Chemistry 70 (2000) 105-119, as in Dickson, Sabine and Christian (2007).
    Valid:  2 to 35 degC, salinity 19 to 43.
    """
    T = _kelvin(sal_psu, temp_c)
    power = 3633.86 / T - 61.2172 + 9.6777 * np.log(T) - 0.011555 * sal_psu + 0.0001152 * sal_psu**2
    constant: MolePerKg = 10.0**-power
    return constant


def carbonic_second(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """Second step of carbonic acid: bicarbonate to carbonate.

        -log10 K2 = 471.78/T + 25.929 - 3.16967*ln T - 0.01781*S + 0.0001122*S**2

    Source: Lueker, Dickson and Keeling, Marine Chemistry 70 (2000) 105-119, as in Dickson, Sabine and Christian (2007).
    Valid:  2 to 35 degC, salinity 19 to 43.
    """
    T = _kelvin(sal_psu, temp_c)
    power = 471.78 / T + 25.929 - 3.16967 * np.log(T) - 0.01781 * sal_psu + 0.0001122 * sal_psu**2
    constant: MolePerKg = 10.0**-power
    return constant


def boric(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """How far boric acid takes up hydroxide.

        ln KB = (-8966.9 - 2890.53*S**0.5 - 77.942*S + 1.728*S**1.5 - 0.0996*S**2)/T
                + 148.0248 + 137.1942*S**0.5 + 1.62142*S
                - (24.4344 + 25.085*S**0.5 + 0.2474*S)*ln T + 0.053105*S**0.5*T

    Source: Dickson, Deep-Sea Research 37 (1990) 755-766, as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 5 to 45.
    """
    T, s = _kelvin(sal_psu, temp_c), np.sqrt(sal_psu)
    over = -8966.9 - 2890.53 * s - 77.942 * s**2 + 1.728 * s**3 - 0.0996 * s**4
    constant: MolePerKg = np.exp(
        over / T + 148.0248 + 137.1942 * s + 1.62142 * s**2
        - (24.4344 + 25.085 * s + 0.2474 * s**2) * np.log(T) + 0.053105 * s * T
    )  # fmt: skip
    return constant


def water_ions(sal_psu: PracticalSalinity, temp_c: Celsius) -> Mole2PerKg2:
    """Hydrogen times hydroxide.

        ln KW = 148.9652 - 13847.26/T - 23.6521*ln T + (118.67/T - 5.977 + 1.0495*ln T)*S**0.5 - 0.01615*S

    Source: Millero, Geochimica et Cosmochimica Acta 59 (1995) 661-677, less 0.015 for the total scale as in Dickson,
            Sabine and Christian (2007). Worked out from sulphate and fluoride the step is 0.023 at 35 and 25 degC.
    Valid:  0 to 45 degC, salinity 0 to 45.
    """
    T = _kelvin(sal_psu, temp_c)
    salt = (118.67 / T - 5.977 + 1.0495 * np.log(T)) * np.sqrt(sal_psu) - 0.01615 * sal_psu
    product: Mole2PerKg2 = np.exp(148.9652 - 13847.26 / T - 23.6521 * np.log(T) + salt)
    return product


def phosphoric_first(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """First step of phosphoric acid.

        ln KP1 = -4576.752/T + 115.525 - 18.453*ln T + (-106.736/T + 0.69171)*S**0.5 + (-0.65643/T - 0.01844)*S

    Source: Millero (1995) as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 0 to 45.
    """
    T = _kelvin(sal_psu, temp_c)
    salt = (-106.736 / T + 0.69171) * np.sqrt(sal_psu) + (-0.65643 / T - 0.01844) * sal_psu
    constant: MolePerKg = np.exp(-4576.752 / T + 115.525 - 18.453 * np.log(T) + salt)
    return constant


def phosphoric_second(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """Second step of phosphoric acid.

        ln KP2 = -8814.715/T + 172.0883 - 27.927*ln T + (-160.340/T + 1.3566)*S**0.5 + (0.37335/T - 0.05778)*S

    Source: Millero (1995) as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 0 to 45.
    """
    T = _kelvin(sal_psu, temp_c)
    salt = (-160.340 / T + 1.3566) * np.sqrt(sal_psu) + (0.37335 / T - 0.05778) * sal_psu
    constant: MolePerKg = np.exp(-8814.715 / T + 172.0883 - 27.927 * np.log(T) + salt)
    return constant


def phosphoric_third(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """Third step of phosphoric acid.

        ln KP3 = -3070.75/T - 18.141 + (17.27039/T + 2.81197)*S**0.5 + (-44.99486/T - 0.09984)*S

    Source: Millero (1995) as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 0 to 45.
    """
    T = _kelvin(sal_psu, temp_c)
    salt = (17.27039 / T + 2.81197) * np.sqrt(sal_psu) + (-44.99486 / T - 0.09984) * sal_psu
    constant: MolePerKg = np.exp(-3070.75 / T - 18.141 + salt)
    return constant


def silicic(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerKg:
    """First step of silicic acid.

        ln KSi = -8904.2/T + 117.385 - 19.334*ln T + (-458.79/T + 3.5913)*I**0.5 + (188.74/T - 1.5998)*I
                 + (-12.1652/T + 0.07871)*I**2 + ln(1 - 0.001005*S)      I by `ionic_strength`

    Source: Millero (1995) as in Dickson, Sabine and Christian (2007).
    Valid:  0 to 45 degC, salinity 0 to 45.
    """
    T = _kelvin(sal_psu, temp_c)
    I = ionic_strength(sal_psu)  # noqa: E741 - the source's letter
    salt = (-458.79 / T + 3.5913) * np.sqrt(I) + (188.74 / T - 1.5998) * I + (-12.1652 / T + 0.07871) * I**2
    bare = np.exp(-8904.2 / T + 117.385 - 19.334 * np.log(T) + salt)
    constant: MolePerKg = bare * (1.0 - SALT_SHARE * sal_psu)
    return constant


def calcite_product(sal_psu: PracticalSalinity, temp_c: Celsius) -> Mole2PerKg2:
    """Calcium times carbonate of water that neither dissolves calcite nor lets it fall.

        log10 K = -171.9065 - 0.077993*T + 2839.319/T + 71.595*log10 T
                  + (-0.77712 + 0.0028426*T + 178.34/T)*S**0.5 - 0.07711*S + 0.0041249*S**1.5

    Source: Mucci, American Journal of Science 283 (1983) 780-799, as quoted in public code.
    Valid:  5 to 40 degC, salinity 5 to 44.
    """
    T, s = _kelvin(sal_psu, temp_c), np.sqrt(sal_psu)
    power = -171.9065 - 0.077993 * T + 2839.319 / T + 71.595 * np.log10(T)
    salt = (-0.77712 + 0.0028426 * T + 178.34 / T) * s - 0.07711 * s**2 + 0.0041249 * s**3
    product: Mole2PerKg2 = 10.0 ** (power + salt)
    return product


def aragonite_product(sal_psu: PracticalSalinity, temp_c: Celsius) -> Mole2PerKg2:
    """Calcium times carbonate of water that neither dissolves aragonite, coral's mineral, nor lets it fall.

        log10 K = -171.945 - 0.077993*T + 2903.293/T + 71.595*log10 T
                  + (-0.068393 + 0.0017276*T + 88.135/T)*S**0.5 - 0.10018*S + 0.0059415*S**1.5

    Source: Mucci, American Journal of Science 283 (1983) 780-799, as quoted in public code.
    Valid:  5 to 40 degC, salinity 5 to 44.
    """
    T, s = _kelvin(sal_psu, temp_c), np.sqrt(sal_psu)
    power = -171.945 - 0.077993 * T + 2903.293 / T + 71.595 * np.log10(T)
    salt = (-0.068393 + 0.0017276 * T + 88.135 / T) * s - 0.10018 * s**2 + 0.0059415 * s**3
    product: Mole2PerKg2 = 10.0 ** (power + salt)
    return product


def _kelvin(sal_psu: PracticalSalinity, temp_c: Celsius) -> float:
    """The temperature in kelvin, of water that can be."""
    _refuse.no_water(sal_psu, temp_c)
    kelvin: float = np.add(temp_c, _KELVIN)
    return kelvin
