"""How wet wood becomes in damp air, and how far timber and sheet swell or shrink with it.

Relative humidity is a share from 0 to 1, moisture content a percentage of dry weight as the trade uses it.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from tidestead.core.dims import Celsius, Metre, Percent, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

FIBRE_SATURATION: Final[Percent] = 30.0
"""Moisture content above which wood no longer swells. Source: USDA Wood Handbook (2010), chapter 4."""

_ROWS: Final = (
    (349.0, 1.29, 0.0135),
    (0.805, 0.000736, -0.00000273),
    (6.27, -0.00938, -0.000303),
    (1.91, 0.0407, -0.000293),
)
"""W, K, K1, K2 as polynomials of Celsius degrees.
Source: USDA Wood Handbook FPL-GTR-190 (2010), equation 4-5; Simpson, FPL-RN-0268 (1998)."""

_PLYWOOD_PER_HUMIDITY: Final = 0.0002 / 0.10
"""In-plane movement of plywood over relative humidity. Source: APA and makers' sheets: 0.0002 inch an inch
for each ten per cent of humidity, quoted by others."""


def equilibrium_moisture(temp_c: Celsius, humidity: Ratio) -> Percent:
    """Moisture content that wood comes to in steady air.

        M = 1800/W * (K*h/(1 - K*h) + (K1*K*h + 2*K1*K2*K**2*h**2)/(1 + K1*K*h + K1*K2*K**2*h**2))

    Arrays broadcast.
    Source: Hailwood and Horrobin (1946), as in USDA Wood Handbook FPL-GTR-190 (2010), equation 4-5.
    Valid:  0 to 55 degC, any softwood or hardwood within a per cent or so; drying wood stays a little wetter.
            Wood that is wetted goes beyond it.
    """
    _refuse.negative(humidity=humidity)
    if np.any(np.greater(humidity, 1.0)):
        raise ImpossibleInput(f"relative humidity is a share from 0 to 1, got {humidity}")
    W, K, K1, K2 = (a + b * temp_c + c * temp_c**2 for a, b, c in _ROWS)
    x = K * humidity
    second = (K1 * x + 2.0 * K1 * K2 * x**2) / (1.0 + K1 * x + K1 * K2 * x**2)
    return 1800.0 / W * (x / (1.0 - x) + second)


def dimension_change(size: Metre, coefficient: Ratio, moisture_from: Percent, moisture_to: Percent) -> Metre:
    """Growth of a piece of wood across the grain; negative where it shrinks.

        dD = D * C * (M_F - M_I)         C per per cent of moisture, C_T along the growth rings, C_R across

    Arrays broadcast. Moisture above fibre saturation (30 %) counts as 30 %.
    Source: USDA Wood Handbook FPL-GTR-190 (2010), equation 13-2.
    Valid:  6 to 14 % moisture; beyond, to 30 %, within some tenths of the movement. Sawn timber lies between
            C_R and C_T: C_T is the safe side.
    """
    _refuse.not_positive(size=size)
    _refuse.negative(coefficient=coefficient, moisture_from=moisture_from, moisture_to=moisture_to)
    first, last = np.minimum(moisture_from, FIBRE_SATURATION), np.minimum(moisture_to, FIBRE_SATURATION)
    growth: Metre = size * coefficient * (last - first)
    return growth


def shrinkage_change(
    size: Metre, total_shrinkage: Percent, moisture_from: Percent, moisture_to: Percent
) -> Metre:
    """Growth across the grain from a species' total shrinkage, for wide changes of moisture.

        dD = D*(M_F - M_I) / (30*100/S - 30 + M_I)        S: shrinkage from green to oven dry in per cent

    Arrays broadcast. Moisture above fibre saturation (30 %) counts as 30 %.
    Source: USDA Wood Handbook FPL-GTR-190 (2010), equation 13-3.
    Valid:  straight line of shrinkage from 30 % to nothing; the source calls the error small to moderate.
    """
    _refuse.not_positive(size=size, total_shrinkage=total_shrinkage)
    _refuse.negative(moisture_from=moisture_from, moisture_to=moisture_to)
    first, last = np.minimum(moisture_from, FIBRE_SATURATION), np.minimum(moisture_to, FIBRE_SATURATION)
    growth: Metre = size * (last - first) / (FIBRE_SATURATION * 100.0 / total_shrinkage - 30.0 + first)
    return growth


def plywood_change(size: Metre, humidity_from: Ratio, humidity_to: Ratio) -> Metre:
    """Growth of a plywood sheet in its plane with the humidity of the air.

        dL = L * 0.002 * (h_2 - h_1)

    Arrays broadcast.
    Source: APA and sheet makers: 0.0002 inch an inch for each ten per cent of relative humidity, quoted.
    Valid:  sheets free to move, 40 to 80 % humidity; wetter or soaked sheets move more.
    """
    _refuse.not_positive(size=size)
    _refuse.negative(humidity_from=humidity_from, humidity_to=humidity_to)
    return size * _PLYWOOD_PER_HUMIDITY * (humidity_to - humidity_from)
