"""How much oxygen water holds, how fast fish use it up, and what the surface and bubbles bring back.

Concentrations are g/m3, which is mg/L. Uptake is g/h, as the trade counts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np

from tidestead.core.dims import (
    Celsius,
    CubicMetre,
    CubicMetrePerSecond,
    GramPerHour,
    GramPerM3,
    Hour,
    Kilogram,
    Metre,
    MetrePerSecond,
    MolePerM3,
    Pascal,
    PracticalSalinity,
    Ratio,
    SquareMetre,
    SquareMetrePerSecond,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_KELVIN = 273.15
_GAS = 8.314462618
"""Molar gas constant, J/(mol K). Source: 2019 SI, exact."""

_MOLAR = 31.9988
"""Grams in a mole of oxygen. Source: IUPAC standard atomic weight."""

_IN_AIR: Ratio = 0.20946
"""Share of oxygen in dry air. Source: US Standard Atmosphere (1976)."""

_ATMOSPHERE: Pascal = 101325.0

_A = (2.00907, 3.22014, 4.05010, 4.94457, -0.256847, 3.88767)
_B = (-6.24523e-3, -7.37614e-3, -1.03410e-2, -8.17083e-3)
_C = -4.88682e-7
"""Source: Garcia and Gordon (1992), equation 8, Benson and Krause's data, cm3/dm3. The term A3*Ts**2 printed
there once more is a misprint and left out."""

_MOLAR_VOLUME = 22391.6
"""cm3 of oxygen in a mole at 0 degC and one atmosphere, as a real gas. Source: Garcia and Gordon (1992)."""

_SCHMIDT = (1638.0, -81.83, 1.483, -0.008004)
"""Source: Keeling et al. (1998), seawater of 35, 0 to 30 degC."""

_HOUR = 3600.0
_CM_PER_HOUR = 0.01 / _HOUR

_FISH = 0.050
_FISH_POWER: Ratio = 0.80
"""Weight (kg) of the fish that Clarke and Johnston's line is for, and power of weight. Source: Clarke and Johnston
(1999); they give 0.79 to 0.80."""


@dataclass(frozen=True)
class ClosedWater:
    """Water shut off from its circuit.

    `saturation` and `start` are oxygen now held at most and at first, `exchange` the speed of transfer at the
    surface (nothing under a cover), `uptake` that of everything alive in it.
    """

    volume: CubicMetre
    surface: SquareMetre
    exchange: MetrePerSecond
    uptake: GramPerHour
    saturation: GramPerM3
    start: GramPerM3

    def __post_init__(self) -> None:
        _refuse.not_positive(volume=self.volume, saturation=self.saturation)
        _refuse.negative(surface=self.surface, exchange=self.exchange, uptake=self.uptake, start=self.start)


@dataclass(frozen=True)
class Bubble:
    """One bubble size: its diameter and the speed it rises at."""

    diameter: Metre
    rise: MetrePerSecond


@dataclass(frozen=True)
class GasWater:
    """What water does to oxygen in a bubble: its kinematic viscosity, spread of oxygen in it, Ostwald coefficient."""

    viscosity: SquareMetrePerSecond
    diffusivity: SquareMetrePerSecond
    ostwald: Ratio


def saturation(sal_psu: PracticalSalinity, temp_c: Celsius) -> MolePerM3:
    """Oxygen in water that has come to rest with moist air of one atmosphere.

        ln C = A0 + A1*Ts + ... + A5*Ts**5 + S*(B0 + B1*Ts + B2*Ts**2 + B3*Ts**3) + C0*S**2
        Ts = ln((298.15 - t)/(273.15 + t))      C in cm3/dm3, 22391.6 cm3 to the mole

    Source: Garcia and Gordon, Limnology and Oceanography 37 (1992) 1307-1312, equation 8, Benson and Krause's data.
    Valid:  freezing to 40 degC, salinity 0 to 42.
    """
    _refuse.negative(salinity=sal_psu)
    if np.any(np.less(temp_c, -5.0)) or not np.all(np.less(temp_c, 60.0)):
        raise ImpossibleInput(f"water between -5 and 60 degC is meant, got {temp_c} degC")
    Ts = np.log((298.15 - temp_c) / (_KELVIN + temp_c))
    logarithm = _powers(_A, Ts) + sal_psu * _powers(_B, Ts) + _C * sal_psu**2
    held: MolePerM3 = np.exp(logarithm) * 1000.0 / _MOLAR_VOLUME
    return held


def saturation_mass(sal_psu: PracticalSalinity, temp_c: Celsius) -> GramPerM3:
    """Oxygen in water that has come to rest with moist air of one atmosphere, by weight.

        C = 31.9988 g/mol * saturation

    Source: `saturation`.
    Valid:  as saturation.
    """
    return _MOLAR * saturation(sal_psu, temp_c)


def vapour_pressure(sal_psu: PracticalSalinity, temp_c: Celsius) -> Pascal:
    """Pressure of water vapour over seawater.

        ln(p/atm) = 24.4543 - 67.4509*(100/T) - 4.8489*ln(T/100) - 0.000544*S

    Source: Weiss and Price, Marine Chemistry 8 (1980) 347-359, equation 10.
    Valid:  0 to 40 degC, salinity 0 to 40; 0.12 % below the steam tables at 20 degC.
    """
    _refuse.negative(salinity=sal_psu)
    T = np.add(temp_c, _KELVIN)
    pressure: Pascal = _ATMOSPHERE * np.exp(
        24.4543 - 67.4509 * (100.0 / T) - 4.8489 * np.log(T / 100.0) - 0.000544 * sal_psu
    )
    return pressure


def air_share(sal_psu: PracticalSalinity, temp_c: Celsius, air_pressure: Pascal) -> Ratio:
    """Share of the saturation at one atmosphere that air of another pressure gives, as on a height.

        (P - pv)/(101325 - pv)

    Source: Henry's law.
    Valid:  0.5 to 1.1 atmospheres; within 0.1 %.
    """
    vapour = vapour_pressure(sal_psu, temp_c)
    if np.any(np.less_equal(air_pressure, vapour)):
        raise ImpossibleInput(f"water of {temp_c} degC boils in air of {air_pressure} Pa")
    return (air_pressure - vapour) / (_ATMOSPHERE - vapour)


def held_mass(sal_psu: PracticalSalinity, temp_c: Celsius, air_pressure: Pascal) -> GramPerM3:
    """Oxygen in water that has come to rest with moist air of any pressure, by weight.

        C = C0*(P - pv)/(101325 - pv)      C0: `saturation_mass`

    Source: Henry's law.
    Valid:  as `saturation` and `air_share`.
    """
    return saturation_mass(sal_psu, temp_c) * air_share(sal_psu, temp_c, air_pressure)


def ostwald_coefficient(sal_psu: PracticalSalinity, temp_c: Celsius) -> Ratio:
    """Oxygen in water over oxygen in the air it has come to rest with, both by volume.

        L = C*R*T/(0.20946*(101325 - pv))

    Source: definition, with `saturation` and `vapour_pressure`.
    Valid:  as those.
    """
    dry = _IN_AIR * (_ATMOSPHERE - vapour_pressure(sal_psu, temp_c))
    return saturation(sal_psu, temp_c) * _GAS * (temp_c + _KELVIN) / dry


def schmidt_number(temp_c: Celsius) -> Ratio:
    """Kinematic viscosity of seawater over the spread of oxygen in it.

        Sc = 1638 - 81.83*t + 1.483*t**2 - 0.008004*t**3

    Source: Keeling et al., Global Biogeochemical Cycles 12 (1998) 141-163.
    Valid:  seawater of 35, 0 to 30 degC.
    """
    return _powers(_SCHMIDT, temp_c)


def diffusivity(viscosity: SquareMetrePerSecond, temp_c: Celsius) -> SquareMetrePerSecond:
    """How fast oxygen spreads in still seawater.

        D = nu/Sc

    Source: definition of the Schmidt number.
    Valid:  as schmidt_number.
    """
    _refuse.not_positive(viscosity=viscosity)
    return viscosity / schmidt_number(temp_c)


def fish_uptake(fish: Kilogram, stock: Kilogram, temp_c: Celsius) -> GramPerHour:
    """Oxygen that resting fish use: `stock` kg of fish of `fish` kg each.

        ln R = 15.7 - 5.02*(1000/T)      mmol/h of a fish of 50 g;  R ~ weight**0.80

    Source: Clarke and Johnston, Journal of Animal Ecology 68 (1999) 893-905.
    Valid:  resting bony fish, 0 to 30 degC; one species may use half or twice of it. Fed and awake: two to three times
            (common practice). Corals, bacteria and sand come on top.
    """
    _refuse.not_positive(fish_weight=fish)
    _refuse.negative(stock=stock)
    one = np.exp(15.7 - 5020.0 / np.add(temp_c, _KELVIN)) * 1e-3 * _MOLAR
    uptake: GramPerHour = one * (fish / _FISH) ** _FISH_POWER * (stock / fish)
    return uptake


def surface_exchange(wind: MetrePerSecond, temp_c: Celsius) -> MetrePerSecond:
    """Speed at which oxygen passes an open, clean water surface without bubbles.

        k = (2.07 + 0.215*U**1.7)*(Sc/600)**-0.5      cm/h; U: wind 10 m up

    Source: Cole and Caraco, Limnology and Oceanography 43 (1998) 647-656, quoted; Sc by Keeling et al. (1998).
    Valid:  open air, clean surface. Under a cover or an oily film a tenth of it; Cole et al. (2010) measured 0.7 to
            1.5 times the value without wind in three small lakes.
    """
    _refuse.negative(wind=wind)
    fresh = (2.07 + 0.215 * wind**1.7) * _CM_PER_HOUR
    speed: MetrePerSecond = fresh * (schmidt_number(temp_c) / 600.0) ** -0.5
    return speed


def closed_level(water: ClosedWater, after: Hour) -> GramPerM3:
    """Oxygen in a closed water after a time, well mixed.

        C = Cinf + (C0 - Cinf)*exp(-k*A*t/V)      Cinf = Cs - R/(k*A);  without a surface C = C0 - R*t/V

    It does not stop at nothing: a figure below nothing says that it is all gone.
    Source: balance of oxygen; flux law as in SRAC fact sheets on pond aeration.
    Valid:  uptake held even, which is the bad case: animals use less as it runs out.
    """
    _refuse.negative(time=after)
    rate = water.exchange * _HOUR * water.surface / water.volume
    if rate == 0.0:
        return water.start - water.uptake * after / water.volume
    rest = water.saturation - water.uptake / (rate * water.volume)
    level: GramPerM3 = rest + (water.start - rest) * np.exp(-rate * after)
    return level


def hours_to_level(water: ClosedWater, level: GramPerM3) -> Hour:
    """Hours until a closed water has sunk to a level of oxygen; inf where the surface holds it above.

        `closed_level` read backwards

    Source: balance of oxygen.
    Valid:  as closed_level. One water at a time.
    """
    _refuse.negative(level=level)
    if water.start <= level:
        return 0.0
    rate = water.exchange * _HOUR * water.surface / water.volume
    if rate == 0.0:
        return (water.start - level) * water.volume / water.uptake if water.uptake > 0.0 else inf
    rest = water.saturation - water.uptake / (rate * water.volume)
    return float(np.log((water.start - rest) / (level - rest)) / rate) if rest < level else inf


def bubble_transfer(bubble: Bubble, water: GasWater) -> MetrePerSecond:
    """Speed at which oxygen passes the skin of a rising bubble.

        k = Sh*D/d      Sh = 2 + 0.6*Re**(1/2)*Sc**(1/3)      Re = U*d/nu, Sc = nu/D

    Source: Froessling (1938), Ranz and Marshall (1952): made for drops, 0.6 from memory.
    Valid:  stiff skins, as in seawater; agrees with 3 to 6 % a metre of fine diffusers (Mueller et al. 2002, quoted).
    """
    _refuse.not_positive(diameter=bubble.diameter, rise=bubble.rise)
    _refuse.not_positive(viscosity=water.viscosity, diffusivity=water.diffusivity)
    Re = bubble.rise * bubble.diameter / water.viscosity
    Sc = water.viscosity / water.diffusivity
    Sh = 2.0 + 0.6 * Re**0.5 * Sc ** (1.0 / 3.0)
    speed: MetrePerSecond = Sh * water.diffusivity / bubble.diameter
    return speed


def bubble_share(bubble: Bubble, water: GasWater, rise: Metre) -> Ratio:
    """Share of a bubble's oxygen that water without oxygen takes over a height of rise.

        1 - exp(-6*k*L*z/(d*U))      L: Ostwald coefficient

    Source: balance of one bubble.
    Valid:  size held; scale by (1 - C/Cs) for water that holds some. Coarse air loses less, clusters rise faster.
    """
    _refuse.negative(rise=rise, ostwald_coefficient=water.ostwald)
    k = bubble_transfer(bubble, water)
    taken: Ratio = -np.expm1(-6.0 * k * water.ostwald * rise / (bubble.diameter * bubble.rise))
    return taken


def air_gain(
    air: CubicMetrePerSecond, temp_c: Celsius, share: Ratio, filled: Ratio, air_pressure: Pascal = _ATMOSPHERE
) -> GramPerHour:
    """Oxygen that bubbled air gives to water.

        G = air*0.20946*M*P/(R*T) * share*(1 - C/Cs)      filled: C/Cs; air as it is drawn in, P its pressure

    Source: ideal gas, dry air.
    Valid:  share from `bubble_share`; water already above its saturation loses oxygen instead.
    """
    _refuse.negative(air=air, filled=filled)
    _refuse.not_a_share(share_taken=share)
    _refuse.not_positive(air_pressure=air_pressure)
    held = _IN_AIR * _MOLAR * air_pressure / (_GAS * np.add(temp_c, _KELVIN))
    gain: GramPerHour = air * _HOUR * held * share * (1.0 - filled)
    return gain


def _powers(factors: tuple[float, ...], of: float) -> float:
    """The sum of factors times rising powers of a number."""
    total = 0.0
    for factor in reversed(factors):
        total = total * of + factor
    return total
