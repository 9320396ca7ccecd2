"""Copper cables: how they resist, what voltage they lose, how warm that makes them. Bounds, never a choice of cable."""

from __future__ import annotations

from math import pi, sqrt
from typing import Final

import numpy as np

from tidestead.core.dims import (
    Ampere,
    Celsius,
    Count,
    Metre,
    OhmMetre,
    OhmPerMetre,
    PerKelvin,
    Ratio,
    SquareMetre,
    Volt,
    Watt,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.core.units.gauges import gauge_diameter
from tidestead.physics import _refuse

_ANNEALED: OhmMetre = 1.7241e-8
"""Resistivity of annealed copper at 20 degC, 1/58 ohm mm2/m. Source: IEC 60028, recalled."""

_WARMER: PerKelvin = 0.00393
"""Rise of copper's resistance from 20 degC. Source: IEC 60028, recalled."""

_REFERENCE_C: Celsius = 20.0
_COLDEST_C, _HOTTEST_C = -50.0, 160.0

_CLASS_2 = (
    (0.5e-6, 36.0e-3), (0.75e-6, 24.5e-3), (1e-6, 18.1e-3), (1.5e-6, 12.1e-3), (2.5e-6, 7.41e-3), (4e-6, 4.61e-3),
    (6e-6, 3.08e-3), (10e-6, 1.83e-3), (16e-6, 1.15e-3), (25e-6, 0.727e-3), (35e-6, 0.524e-3), (50e-6, 0.387e-3),
    (70e-6, 0.268e-3), (95e-6, 0.193e-3), (120e-6, 0.153e-3),
)  # fmt: skip
"""m2, and ohm/m at most at 20 degC. Source: IEC 60228, class 2, plain copper, as makers of cable print it."""

_LOG_SIZES: Final = np.log([size for size, _ in _CLASS_2])
_PRODUCTS: Final = tuple(size * most for size, most in _CLASS_2)

_REACTANCE: OhmPerMetre = 0.08e-3
"""Of one conductor in a cable of 25 mm2, smaller ones like it. Source: BS 7671, table 4E4B, quoted: 0.160 for two."""

_WIRES = (2, 3)
_FINEST_GAUGE, _THICKEST_GAUGE = 40, -3


def awg_diameter(gauge: Count) -> Metre:
    """Diameter of the bare round wire of an American number; 0 stands for 1/0, -1 for 2/0, -3 for 4/0.

        d = 0.005 in * 92**((36 - n)/39)

    Source: ASTM B258, the definition of the gauge.
    Valid:  4/0 to 40. One number at a time.
    """
    if not _THICKEST_GAUGE <= gauge <= _FINEST_GAUGE:
        raise ImpossibleInput(f"gauges run from 4/0 (-3) to 40, got {gauge}")
    return gauge_diameter(gauge)


def awg_area(gauge: Count) -> SquareMetre:
    """Cross section of copper of an American number.

        S = pi*d**2/4

    Source: ASTM B258.
    Valid:  as `awg_diameter`; stranded wire of a number has the same copper and is thicker.
    """
    return pi / 4.0 * awg_diameter(gauge) ** 2


def copper_resistance(area: SquareMetre, temp_c: Celsius) -> OhmPerMetre:
    """Resistance of a metre of solid annealed copper wire: the least that a conductor of the size can have.

        R = rho/S * (1 + alpha*(t - 20))      rho = 0.017241 ohm mm2/m, alpha = 0.00393 1/K

    Source: IEC 60028, recalled.
    Valid:  -50 to 160 degC, direct current or 50 and 60 Hz up to 100 mm2. Not aluminium, not copper-clad wire.
    """
    _refuse.not_positive(area=area)
    return _ANNEALED / area * _warmed(temp_c)


def conductor_resistance(area: SquareMetre, temp_c: Celsius) -> OhmPerMetre:
    """Resistance of a metre of conductor at most, as the class 2 of the standard allows it.

        R = R20*(1 + alpha*(t - 20))      R20: table, between its sizes by R20*S over log S

    Source: IEC 60228, class 2, plain copper, quoted; between the sizes: own step.
    Valid:  0.5 to 120 mm2, -50 to 160 degC; beyond the sizes R20*S of the end holds. Strands and tolerances make it 4
            to 13 % more than `copper_resistance`, 4 to 8 % up to 35 mm2. Flexible leads have up to 10 % more. Not
            aluminium.
    """
    _refuse.not_positive(area=area)
    product = np.interp(np.log(area), _LOG_SIZES, _PRODUCTS)
    resistance: OhmPerMetre = product / area * _warmed(temp_c)
    return resistance


def single_phase_drop(current: Ampere, resistance: OhmPerMetre, length: Metre, power_factor: Ratio) -> Volt:
    """Voltage lost on the way out and back.

        u = 2*I*R*L*cos(phi)

    Source: Ohm's law; IEC 60364-5-52, annex G, recalled, without its term of reactance.
    Valid:  conductors too small for reactance to matter: `reactance_left_out` says by how much. Length one way.
            Also direct current, with a power factor of 1.
    """
    _check_run(current, resistance, length, power_factor)
    return 2.0 * current * resistance * length * power_factor


def three_phase_drop(current: Ampere, resistance: OhmPerMetre, length: Metre, power_factor: Ratio) -> Volt:
    """Voltage lost between two line conductors of an even three-phase load.

        u = sqrt(3)*I*R*L*cos(phi)

    Source: Ohm's law; IEC 60364-5-52, annex G, recalled, without its term of reactance.
    Valid:  as `single_phase_drop`; the three phases loaded alike. One phase loaded alone is single phase.
    """
    _check_run(current, resistance, length, power_factor)
    return sqrt(3.0) * current * resistance * length * power_factor


def reactance_left_out(resistance: OhmPerMetre, power_factor: Ratio) -> Ratio:
    """How much larger the drop is with reactance, as a share of the drop without.

        x*sin(phi)/(R*cos(phi))      x = 0.08 mohm/m

    Source: IEC 60364-5-52, annex G, recalled; x also by BS 7671, table 4E4B, quoted.
    Valid:  wires side by side in one cable; single wires apart have two to four times the reactance.
    """
    _refuse.not_positive(resistance=resistance, power_factor=power_factor)
    _refuse.not_a_share(power_factor=power_factor)
    share: Ratio = _REACTANCE * np.sqrt(1.0 - np.square(power_factor)) / (resistance * power_factor)
    return share


def drop_share(drop: Volt, supply: Volt) -> Ratio:
    """Voltage lost as a share of the voltage at the board.

        u/U

    Source: definition.
    Valid:  both between the same two conductors.
    """
    _refuse.negative(drop=drop)
    _refuse.not_positive(supply=supply)
    return drop / supply


def far_voltage(supply: Volt, drop: Volt) -> Volt:
    """Voltage left at the far end; below nothing where the cable cannot carry the current at all.

        U - u

    Source: Kirchhoff's voltage law, the load's angle kept.
    Valid:  drops of a few per cent; a motor that starts draws less on a weak end than at the board.
    """
    _refuse.negative(drop=drop)
    _refuse.not_positive(supply=supply)
    return supply - drop


def longest_run(current: Ampere, resistance: OhmPerMetre, power_factor: Ratio, drop: Volt) -> Metre:
    """Length of a single-phase cable, one way, at which it loses a given voltage.

        L = u/(2*I*R*cos(phi))

    Source: `single_phase_drop` read backwards.
    Valid:  as that.
    """
    _refuse.negative(drop=drop)
    _refuse.not_positive(current=current, resistance=resistance, power_factor=power_factor)
    _refuse.not_a_share(power_factor=power_factor)
    return drop / (2.0 * current * resistance * power_factor)


def cable_loss(current: Ampere, resistance: OhmPerMetre, length: Metre, wires: Count = 2) -> Watt:
    """Power that becomes heat in a cable.

        P = n*I**2*R*L      n = 2 single phase, 3 three phases loaded alike

    Source: Joule's law.
    Valid:  current in root mean square; no current in the neutral of three phases.
    """
    if wires not in _WIRES:
        raise ImpossibleInput(f"2 or 3 wires carry the current, got {wires}")
    _check_run(current, resistance, length, 1.0)
    return wires * current**2 * resistance * length


def _warmed(temp_c: Celsius) -> Ratio:
    """Resistance against that at 20 degC."""
    if not np.all(np.greater_equal(temp_c, _COLDEST_C) & np.less_equal(temp_c, _HOTTEST_C)):
        raise ImpossibleInput(f"a conductor between -50 and 160 degC is meant, got {temp_c} degC")
    return 1.0 + _WARMER * (temp_c - _REFERENCE_C)


def _check_run(current: Ampere, resistance: OhmPerMetre, length: Metre, power_factor: Ratio) -> None:
    _refuse.negative(current=current, length=length)
    _refuse.not_positive(resistance=resistance)
    _refuse.not_a_share(power_factor=power_factor)
