"""Salt water made, blended, topped up, and how its salinity drifts.

Salinity is practical salinity. By weight it is the reference salinity, 1.00472 g/kg to each of it, and it is that
which mixes in proportion to weight. Volumes follow through density, so a blend is not quite the sum of its parts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Celsius,
    CubicMetre,
    CubicMetrePerDay,
    Day,
    GramPerKg,
    KgPerM3,
    Kilogram,
    PracticalSalinity,
    PracticalSalinityPerDay,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse, seawater

_GRAMS = 1000.0


@dataclass(frozen=True)
class Body:
    """Well-mixed water: how much, how salty, how warm."""

    volume: CubicMetre
    sal_psu: PracticalSalinity
    temp_c: Celsius

    def __post_init__(self) -> None:
        _refuse.negative(volume=self.volume, salinity=self.sal_psu)
        _refuse.endless(volume=self.volume, salinity=self.sal_psu, temperature=self.temp_c)


def grams_of_salt(sal_psu: PracticalSalinity) -> GramPerKg:
    """Salt in a kilogram of seawater.

        SR = 35.16504/35 * S

    Source: TEOS-10, IOC Manuals and Guides 56 (2010), equation 2.4.1; Millero et al., Deep-Sea Research I 55 (2008)
            50-72.
    Valid:  salt of the sea's composition, without the water bound in a mix; salinity 2 to 42.
    """
    _refuse.negative(salinity=sal_psu)
    return sal_psu / seawater.practical_from_absolute(1.0)


def salt_per_volume(sal_psu: PracticalSalinity, temp_c: Celsius) -> KgPerM3:
    """Salt in a cubic metre of finished seawater, dried of all bound water.

        SR*rho/1000

    Source: `grams_of_salt`, and `seawater.density` by TEOS-10.
    Valid:  as those. A scale in grams to the litre means this and stands 2.3 % above g/kg.
    """
    return grams_of_salt(sal_psu) * seawater.density(sal_psu, temp_c) / _GRAMS


def water_mass(body: Body) -> Kilogram:
    """Weight of a body of water.

        m = V*rho

    Source: `seawater.density` (TEOS-10).
    Valid:  as density.
    """
    return body.volume * seawater.density(body.sal_psu, body.temp_c)


def salt_mass(body: Body) -> Kilogram:
    """Weight of the salt in a body of water, dried of all bound water.

        m = V*rho*SR/1000

    Source: `salt_per_volume`.
    Valid:  as that.
    """
    return body.volume * salt_per_volume(body.sal_psu, body.temp_c)


def mix_needed(body: Body, factor: Ratio) -> Kilogram:
    """Bought salt mix for a body of water made from fresh water.

        m = f*V*rho*SR/1000      f: weight of mix over weight of salt in it

    Source: balance of salt; f by `mix_factor`, commonly 1.05 to 1.15 (common practice, no source).
    Valid:  fresh water without salts. A mix draws damp: weigh and measure each delivery.
    """
    _not_salt(factor)
    return factor * salt_mass(body)


def fresh_needed(body: Body, factor: Ratio) -> Kilogram:
    """Fresh water for a body of water made from a bought mix; a kilogram is a litre within 0.3 %.

        w = V*rho - f*V*rho*SR/1000

    Source: balance of weight: what the mix brings as bound water is not filled in again.
    Valid:  as mix_needed; nothing evaporates while it is mixed.
    """
    return water_mass(body) - mix_needed(body, factor)


def mix_factor(mix: Kilogram, fresh: Kilogram, measured_psu: PracticalSalinity) -> Ratio:
    """How much heavier a mix is than the salt in it, from a trial: mix weighed into weighed water, salinity measured.

        f = 1000*mix/((mix + fresh)*SR)

    Source: balance of salt, read backwards.
    Valid:  all dissolved, salinity from a checked instrument: 0.5 off at 35 makes 1.5 % of salt.
    """
    _refuse.not_positive(mix=mix, fresh_water=fresh, measured_salinity=measured_psu)
    found = _GRAMS * mix / ((mix + fresh) * grams_of_salt(measured_psu))
    if np.any(np.less(found, 1.0)):
        raise ImpossibleInput(
            f"{mix} kg in {fresh} kg of fresh water cannot be as salty as {measured_psu} psu: "
            "weigh again, or check the instrument"
        )
    return found


def blend(one: Body, other: Body) -> Body:
    """Two waters poured together.

        S = (m1*S1 + m2*S2)/(m1 + m2)      T = (m1*c1*T1 + m2*c2*T2)/(m1*c1 + m2*c2)
        V = (m1 + m2)/rho(S, T)

    Source: balance of salt, weight and heat; densities and specific heats by TEOS-10.
    Valid:  nothing lost to air or walls; the heat of mixing, 0.003 K at most, is left out. No arrays.
    """
    m1, m2 = water_mass(one), water_mass(other)
    if m1 + m2 <= 0.0:
        raise ImpossibleInput("two empty bodies of water make none")
    c1 = m1 * seawater.specific_heat(one.sal_psu, one.temp_c)
    c2 = m2 * seawater.specific_heat(other.sal_psu, other.temp_c)
    salinity = (m1 * one.sal_psu + m2 * other.sal_psu) / (m1 + m2)
    warmth = (c1 * one.temp_c + c2 * other.temp_c) / (c1 + c2)
    volume = (m1 + m2) / seawater.density(salinity, warmth)
    return Body(float(volume), float(salinity), float(warmth))


def added_volume(body: Body, other: Body, goal_psu: PracticalSalinity) -> CubicMetre:
    """How much of another water, of whatever volume, added to a body brings it to a salinity.

        V2 = m1*(S - S1)/((S2 - S)*rho2)

    Raises ImpossibleInput where no amount does.
    Source: balance of salt.
    Valid:  nothing drained before or meanwhile: there must be room. `other.volume` is not looked at. No arrays.
    """
    _refuse.negative(wanted_salinity=goal_psu)
    if goal_psu == body.sal_psu:
        return 0.0
    if not min(body.sal_psu, other.sal_psu) < goal_psu < max(body.sal_psu, other.sal_psu):
        raise ImpossibleInput(
            f"no amount of water of {other.sal_psu} psu brings {body.sal_psu} psu to {goal_psu} psu"
        )
    weight = water_mass(body) * (goal_psu - body.sal_psu) / (other.sal_psu - goal_psu)
    return weight / seawater.density(other.sal_psu, other.temp_c)


def mix_to_raise(body: Body, goal_psu: PracticalSalinity, factor: Ratio) -> Kilogram:
    """Bought salt mix that raises a body of water to a salinity.

        m = M*(SR2 - SR1)/(1000/f - SR2)      M: weight of the water

    Source: balance of salt: the mix adds its weight to the water.
    Valid:  dissolved in some of the tank's own water first. Raises ImpossibleInput where the goal lies lower.
            No arrays.
    """
    _not_salt(factor)
    if goal_psu < body.sal_psu:
        raise ImpossibleInput(f"salt does not bring {body.sal_psu} psu down to {goal_psu} psu")
    goal = grams_of_salt(goal_psu)
    if goal >= _GRAMS / factor:
        raise ImpossibleInput(f"{goal_psu} psu is saltier than the mix itself")
    return water_mass(body) * (goal - grams_of_salt(body.sal_psu)) / (_GRAMS / factor - goal)


def evaporated_salinity(
    sal_psu: PracticalSalinity, volume: CubicMetre, evaporation: CubicMetrePerDay, time: Day
) -> PracticalSalinity:
    """Salinity of water that evaporates and is not topped up.

        S(t) = S0*V0/(V0 - E*t)

    Source: balance of salt, by volume.
    Valid:  up to a tenth evaporated. By weight the rise is 2.5 % smaller, fresh water being lighter.
    """
    _refuse.negative(salinity=sal_psu, evaporation=evaporation, time=time)
    _refuse.not_positive(volume=volume)
    left = volume - evaporation * time
    _refuse.not_positive(water_left=left)
    return sal_psu * volume / left


def lost_salt_drift(
    sal_psu: PracticalSalinity, volume: CubicMetre, lost: CubicMetrePerDay
) -> PracticalSalinityPerDay:
    """How salinity falls where salt water goes (skimmate, leak, creep) and fresh water takes its place.

        dS/dt = -S*q/V

    Source: balance of salt.
    Valid:  level held; well mixed. Evaporation made up with fresh water moves nothing.
    """
    _refuse.negative(salinity=sal_psu, salt_water_lost=lost)
    _refuse.not_positive(volume=volume)
    return -sal_psu * lost / volume


def lost_salt_salinity(
    sal_psu: PracticalSalinity, volume: CubicMetre, lost: CubicMetrePerDay, time: Day
) -> PracticalSalinity:
    """Salinity after a time of losing salt water to fresh.

        S(t) = S0*exp(-q*t/V)

    Source: `lost_salt_drift`, solved.
    Valid:  as that.
    """
    _refuse.negative(salinity=sal_psu, salt_water_lost=lost, time=time)
    _refuse.not_positive(volume=volume)
    left: PracticalSalinity = sal_psu * np.exp(-lost * time / volume)
    return left


def _not_salt(factor: float) -> None:
    if not np.all(np.greater_equal(factor, 1.0)):
        raise ImpossibleInput(f"a mix cannot hold more salt than it weighs: factor {factor} is below 1")
