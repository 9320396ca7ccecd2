"""Carbonate in seawater: pH, dissolved carbon, alkalinity and carbon dioxide, any two from two others.

Contents are umol in a kilogram of seawater, carbon dioxide in the air is uatm of partial pressure, pH in an answer
stands on the total scale. One water at a time, at the pressure of the air. Written after the equations of Dickson,
Sabine and Christian, Guide to Best Practices for Ocean CO2 Measurements (2007), as public code and test values
quote them; the guide itself was not opened.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import log10, sqrt

from tidestead.core.dims import PH, Celsius, Microatmosphere, MicromolePerKg, PracticalSalinity, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.ph import PHScale, on_scale
from tidestead.physics.water import _balance as acids
from tidestead.physics.water import constants, contents
from tidestead.physics.water.contents import BorateLaw

_MICRO = 1e-6


@dataclass(frozen=True)
class Seawater:
    """A water to be solved: what the meters say of it, and whose count of boron is taken.

    `calcium` is taken from the salinity where it is None. Phosphate, silicate and total ammonia take part in the
    alkalinity; in a reef they hardly count.
    """

    sal_psu: PracticalSalinity
    temp_c: Celsius
    calcium: MicromolePerKg | None = None
    phosphate: MicromolePerKg = 0.0
    silicate: MicromolePerKg = 0.0
    ammonia: MicromolePerKg = 0.0
    borate_law: BorateLaw = BorateLaw.LEE

    def __post_init__(self) -> None:
        _refuse.no_water(self.sal_psu, self.temp_c)
        _refuse.negative(phosphate=self.phosphate, silicate=self.silicate, ammonia=self.ammonia)
        if self.calcium is not None:
            _refuse.negative(calcium=self.calcium)

    @cached_property
    def _acids(self) -> acids.Balance:
        totals = acids.Totals(
            borate=contents.borate(self.sal_psu, self.borate_law) * _MICRO,
            phosphate=self.phosphate * _MICRO,
            silicate=self.silicate * _MICRO,
            ammonia=self.ammonia * _MICRO,
        )
        return acids.balance(self.sal_psu, self.temp_c, totals)


@dataclass(frozen=True)
class Carbonate:
    """A solved water. `ph` is of the total scale; aragonite and calcite: 1 where neither dissolves nor falls."""

    ph: PH
    dic: MicromolePerKg
    alkalinity: MicromolePerKg
    pco2: Microatmosphere
    co2: MicromolePerKg
    bicarbonate: MicromolePerKg
    carbonate: MicromolePerKg
    aragonite: Ratio
    calcite: Ratio


def from_alkalinity_and_air(water: Seawater, alkalinity: MicromolePerKg, pco2: Microatmosphere) -> Carbonate:
    """A water of known alkalinity that has come to rest with air of known carbon dioxide.

        TA = [HCO3] + 2*[CO3] + [B(OH)4] + [OH] + [HPO4] + 2*[PO4] + [SiO(OH)3] + [NH3]
             - [H] - [HSO4] - [HF] - [H3PO4]      [CO2] = K0*f*pCO2, solved for [H]

    Source: Dickson, Sabine and Christian (2007), chapter 2, quoted in public code.
    Valid:  as the constants: 5 to 33 degC, salinity 19 to 40.
    """
    _refuse.not_positive(pco2=pco2)
    _refuse.endless(alkalinity=alkalinity)
    co2 = water._acids.K0 * pco2 * _MICRO
    h = acids.hydrogen_where(
        lambda trial: acids.alkalinity_of_gas(water._acids, trial, co2), alkalinity * _MICRO
    )
    return _solved(water, h, co2)


def from_alkalinity_and_carbon(water: Seawater, alkalinity: MicromolePerKg, dic: MicromolePerKg) -> Carbonate:
    """A water of known alkalinity and dissolved carbon.

        TA as in `from_alkalinity_and_air`      DIC = [CO2] + [HCO3] + [CO3], solved for [H]

    Source: Dickson, Sabine and Christian (2007), chapter 2, quoted in public code.
    Valid:  as the constants: 5 to 33 degC, salinity 19 to 40.
    """
    _refuse.not_positive(dissolved_carbon=dic)
    _refuse.endless(alkalinity=alkalinity)
    at = water._acids
    h = acids.hydrogen_where(
        lambda trial: acids.alkalinity_of_dissolved(at, trial, dic * _MICRO), alkalinity * _MICRO
    )
    return _solved(water, h, _gas_of_dissolved(at, h, dic * _MICRO))


def from_alkalinity_and_ph(water: Seawater, alkalinity: MicromolePerKg, ph: PH, scale: PHScale) -> Carbonate:
    """A water of known alkalinity and pH.

        DIC = (TA - alkalinity of all but carbon)*([H]**2 + K1*[H] + K1*K2)/(K1*([H] + 2*K2))

    A pH that other acids alone would hold, and more, leaves no room for carbon and is refused.
    Source: Dickson, Sabine and Christian (2007), chapter 2, quoted in public code.
    Valid:  as the constants: 5 to 33 degC, salinity 19 to 40. An error of 0.1 in pH is one of 25 % in pCO2.
    """
    _refuse.endless(alkalinity=alkalinity, pH=ph)
    at = water._acids
    h = 10.0 ** -float(on_scale(ph, scale, PHScale.TOTAL, water.sal_psu, water.temp_c))
    of_carbon = alkalinity * _MICRO - acids.alkalinity_beside_carbon(at, h)
    if of_carbon <= 0.0:
        raise ImpossibleInput(
            f"water of pH {ph:g} ({scale.value} scale) and an alkalinity of {alkalinity:g} umol/kg cannot be: "
            "what it holds beside carbon has more alkalinity alone"
        )
    dic = of_carbon * (h**2 + at.K1 * h + at.K1 * at.K2) / (at.K1 * (h + 2.0 * at.K2))
    return _solved(water, h, _gas_of_dissolved(at, h, dic))


def from_carbon_and_air(water: Seawater, dic: MicromolePerKg, pco2: Microatmosphere) -> Carbonate:
    """A water of known dissolved carbon that has come to rest with air of known carbon dioxide.

        [H] = (K1 + (K1**2 + 4*K1*K2*(DIC/[CO2] - 1))**0.5)/(2*(DIC/[CO2] - 1))

    Source: Dickson, Sabine and Christian (2007), chapter 2, quoted in public code; the root of a quadratic.
    Valid:  as the constants: 5 to 33 degC, salinity 19 to 40.
    """
    _refuse.not_positive(dissolved_carbon=dic, pco2=pco2)
    at = water._acids
    co2 = at.K0 * pco2 * _MICRO
    rest = dic * _MICRO / co2 - 1.0
    if rest <= 0.0:
        raise ImpossibleInput(
            f"air of {pco2:g} uatm alone brings {co2 / _MICRO:.4g} umol/kg, more than the {dic:g} dissolved in all"
        )
    h = (at.K1 + sqrt(at.K1**2 + 4.0 * at.K1 * at.K2 * rest)) / (2.0 * rest)
    return _solved(water, h, co2)


def with_alkalinity_added(water: Seawater, before: Carbonate, added: MicromolePerKg) -> Carbonate:
    """A water just after hydroxide was dosed, before carbon dioxide comes back from the air.

        TA rises, DIC stays; solved as `from_alkalinity_and_carbon`

    Source: as `from_alkalinity_and_carbon`.
    Valid:  limewater and other hydroxide. Carbonate brings half a mole of carbon for each equivalent, bicarbonate a
            whole one: `with_carbon_dosed`. Nothing is taken to fall out; from about ten times saturation with
            aragonite it is likely to (common practice, no source).
    """
    return from_alkalinity_and_carbon(water, before.alkalinity + added, before.dic)


def with_carbon_dosed(
    water: Seawater, before: Carbonate, added: MicromolePerKg, carbon_per_equivalent: Ratio
) -> Carbonate:
    """A water just after an alkaline reagent was dosed that brings carbon with it.

        TA = TA0 + added      DIC = DIC0 + c*added      c: 1 for bicarbonate, 0.5 for carbonate, 0 for hydroxide

    Source: stoichiometry; solved as `from_alkalinity_and_carbon`.
    Valid:  before the air takes or gives carbon dioxide, and while nothing falls out.
    """
    _refuse.negative(carbon_per_equivalent=carbon_per_equivalent)
    carried = replace(before, dic=before.dic + carbon_per_equivalent * added)
    return with_alkalinity_added(water, carried, added)


def _gas_of_dissolved(at: acids.Balance, h: float, dic: float) -> float:
    return dic * h**2 / (h**2 + at.K1 * h + at.K1 * at.K2)


def _solved(water: Seawater, h: float, co2: float) -> Carbonate:
    """Everything about a water whose hydrogen and dissolved gas are known."""
    at = water._acids
    bicarbonate = co2 * at.K1 / h
    carbonate = bicarbonate * at.K2 / h
    alkalinity = bicarbonate + 2.0 * carbonate + acids.alkalinity_beside_carbon(at, h)
    calcium = water.calcium if water.calcium is not None else contents.calcium(water.sal_psu)
    ions = calcium * _MICRO * carbonate
    return Carbonate(
        ph=-log10(h),
        dic=(co2 + bicarbonate + carbonate) / _MICRO,
        alkalinity=alkalinity / _MICRO,
        pco2=co2 / at.K0 / _MICRO,
        co2=co2 / _MICRO,
        bicarbonate=bicarbonate / _MICRO,
        carbonate=carbonate / _MICRO,
        aragonite=ions / float(constants.aragonite_product(water.sal_psu, water.temp_c)),
        calcite=ions / float(constants.calcite_product(water.sal_psu, water.temp_c)),
    )
