"""How much water leaves an open surface: three correlations that differ by half as much again, and the salt in it.

None was made for a tank with pumps in it; study and report show all three, and a fan or an overflow comes on top.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Celsius,
    KgPerM2Second,
    MetrePerSecond,
    Pascal,
    PracticalSalinity,
    Ratio,
    WattPerM2,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse, air, oxygen
from tidestead.physics._each import each
from tidestead.physics.heat import _laws

QUIET: Ratio = 0.74
"""Share of the pool in use that a pool at rest gave. Source: Smith, Lof and Jones (1998), abstract."""


@dataclass(frozen=True)
class OpenWater:
    """Water with air over it. `vapour_w` is the vapour pressure over the water's own surface, with what salt takes
    off already in it (`vapour_over`); `vapour_a` that in the air; `pressure` that of all the air."""

    temp_w: Celsius
    temp_a: Celsius
    vapour_w: Pascal
    vapour_a: Pascal
    pressure: Pascal = 101325.0

    def __post_init__(self) -> None:
        """Refuse vapour that is not there, and water that boils."""
        _refuse.negative(vapour_over_water=self.vapour_w, vapour_in_air=self.vapour_a)
        _refuse.endless(water_temperature=self.temp_w, air_temperature=self.temp_a)
        if not np.all(np.less(np.maximum(self.vapour_w, self.vapour_a), self.pressure)):
            raise ImpossibleInput(f"water of {self.temp_w} degC boils in air of {self.pressure} Pa")


@dataclass(frozen=True)
class Spread:
    """What the correlations give: the least of them, the one that counts as likely, the most."""

    low: KgPerM2Second
    likely: KgPerM2Second
    high: KgPerM2Second


def water_activity(sal_psu: PracticalSalinity, temp_c: Celsius) -> Ratio:
    """Vapour pressure over seawater for each of that over fresh water.

        a = p(S, t)/p(0, t)

    Source: Weiss and Price (1980), equation 10, through `oxygen.vapour_pressure`.
    Valid:  0 to 40 degC, salinity 0 to 40; within 0.0004 of TEOS-10.
    """
    return oxygen.vapour_pressure(sal_psu, temp_c) / oxygen.vapour_pressure(0.0, temp_c)


def vapour_over(sal_psu: PracticalSalinity, temp_c: Celsius) -> Pascal:
    """Vapour pressure at the surface of seawater.

        p_w = a*p_s(t)

    Source: `water_activity` and `air.saturation_pressure`.
    Valid:  as those. A skin cooled by a fan is colder than the water below it, which is left out.
    """
    return water_activity(sal_psu, temp_c) * air.saturation_pressure(temp_c)


def shah_rate(water: OpenWater, speed: MetrePerSecond) -> KgPerM2Second:
    """Water that leaves an undisturbed surface; below nothing where vapour condenses on it.

        E1 = 35*rho_w*(rho_a - rho_w)**(1/3)*(W_w - W_a)       kg/(m2 h), where air rises off the water
        E2 = 5e-5*(p_w - p_a)                                  all ways
        E7 = 5e-5*(u/0.15)**0.7*(p_w - p_a)                    u > 0.15 m/s
        the largest of them; rho: dry air in a cubic metre of moist air, W: humidity ratio, w: at the water

    Source: Shah, ASHRAE Transactions 120-2 (2014), SE-14-001, equations 1, 2 and 7, as quoted.
    Valid:  7 to 94 degC, air at rest or to some 2 m/s along the water; 14.5 % mean deviation from 113 tests.
            Condensing on the water is by E2, common practice.
    """
    _refuse.negative(air_speed=speed)
    return each(
        _laws.evaporation_shah,
        water.temp_w,
        water.temp_a,
        water.vapour_w,
        water.vapour_a,
        water.pressure,
        speed,
    )


def handbook_rate(water: OpenWater, activity: Ratio) -> KgPerM2Second:
    """Water that leaves a pool by how busy it is; below nothing where vapour condenses on it.

        w = 0.1*Fa*(p_w - p_a)       lb/(h ft2), inHg

    Source: ASHRAE Handbook, HVAC Applications (2011), pages 5.6 to 5.9, as quoted.
    Valid:  Fa 0.5 for a still pool to 1.5 with waves; unused indoor pools measured 0.50 to 0.57 over 477 h.
    """
    _refuse.negative(activity=activity)
    return each(_laws.evaporation_ashrae, water.vapour_w, water.vapour_a, activity)


def busy_rate(water: OpenWater, speed: MetrePerSecond) -> KgPerM2Second:
    """Water that leaves a pool in use in moving air; below nothing where vapour condenses on it.

        w = (95 + 0.425*v)*(p_w - p_a)/Y       lb/(h ft2), v ft/min, inHg, Y latent heat in Btu/lb

    Source: Smith, Lof and Jones, ASHRAE Transactions 104-1A (1998), 4146, abstract.
    Valid:  pools in use; a quiet pool evaporated 74 % of it (`QUIET`).
    """
    _refuse.negative(air_speed=speed)
    latent = air.latent_heat(water.temp_w)
    return each(_laws.evaporation_smith, water.vapour_w, water.vapour_a, speed, latent)


def evaporation_spread(water: OpenWater, speed: MetrePerSecond) -> Spread:
    """What three correlations say of still water: Shah's is taken as likely.

        Shah; handbook at Fa = 0.5; 74 % of Smith, Lof and Jones

    Source: `shah_rate`, `handbook_rate`, `busy_rate`; that their spread is the doubt is our own choice.
    Valid:  as those. One water at a time, or arrays.
    """
    likely = shah_rate(water, speed)
    others = handbook_rate(water, 0.5), QUIET * busy_rate(water, speed)
    low = np.minimum(np.minimum(*others), likely)
    high = np.maximum(np.maximum(*others), likely)
    return Spread(low=low, likely=likely, high=high)


def latent_loss(rate: KgPerM2Second, temp_w: Celsius) -> WattPerM2:
    """Heat that evaporation takes out of water.

        q = E*L(t_w)

    Source: balance of heat; `air.latent_heat`.
    Valid:  as `air.latent_heat`. A fan's cooling is this at the fan's speed less this without it.
    """
    return rate * air.latent_heat(temp_w)
