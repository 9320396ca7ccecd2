"""What it takes to press air through a diffuser under water: pressure, and the least power."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import CubicMetrePerSecond, G, KgPerM3, Metre, Pascal, Ratio, Watt
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

ATMOSPHERE: Pascal = 101325.0
"""Standard pressure of the air. Source: 10th CGPM (1954)."""

HEATS = 1.4
"""Ratio of the specific heats of air. Source: kinetic theory of a gas of two atoms, 7/5."""


def diffuser_pressure(depth: Metre, density: KgPerM3, loss: Pascal) -> Pascal:
    """Pressure over that of the air that an air pump must give.

        p = rho*g*h + loss          h: water over the diffuser

    Source: elementary hydrostatics.
    Valid:  `loss` is that of diffuser, pipe and check valve at this flow; diffusers clog, so leave some spare.
            Air in the column makes it lighter, which is left out.
    """
    _refuse.negative(depth=depth, loss=loss)
    _refuse.not_positive(density=density)
    return density * G * depth + loss


def air_power(
    air_flow: CubicMetrePerSecond, pressure: Pascal, efficiency: Ratio, atmosphere: Pascal = ATMOSPHERE
) -> Watt:
    """Power to press air from the open to so much over it.

        P = k/(k - 1)*p0*Q*((1 + p/p0)**((k - 1)/k) - 1) / efficiency      k = 1.4, Q at the open end

    Source: thermodynamics of a perfect gas pressed without loss of heat.
    Valid:  dry air, up to a few atmospheres. `efficiency` is of pump and motor together; small diaphragm pumps
            reach 0.1 to 0.3 (common practice, no source): what the maker prints counts before this.
    """
    _refuse.negative(air_flow=air_flow, pressure=pressure)
    _refuse.not_positive(efficiency=efficiency, atmosphere=atmosphere)
    if np.any(np.greater(efficiency, 1.0)):
        raise ImpossibleInput(f"an efficiency is at most 1, got {efficiency}")
    power = (HEATS - 1.0) / HEATS
    work = (np.add(1.0, np.divide(pressure, atmosphere)) ** power - 1.0) / power
    watts: Watt = atmosphere * air_flow * work / efficiency
    return watts
