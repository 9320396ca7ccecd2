"""Water changes: what is left, how many it takes, where it settles, and what one change does to warmth and salt.

Concentrations are g/m3, which is mg/L; any substance that neither comes nor goes otherwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import cast

import numpy as np

from tidestead.core.dims import (
    Celsius,
    Count,
    CubicMetre,
    Day,
    GramPerM3,
    GramPerM3Day,
    Hour,
    Joule,
    Kelvin,
    PerDay,
    PracticalSalinity,
    Ratio,
    Watt,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse, seawater
from tidestead.physics.water.salts import Body, blend

_HOUR = 3600.0
_WHOLE = 1e-9


@dataclass(frozen=True)
class StepLimits:
    """Largest step of temperature and salinity that one change may make."""

    warmth: Kelvin
    salinity: PracticalSalinity

    def __post_init__(self) -> None:
        _refuse.negative(step_of_temperature=self.warmth, step_of_salinity=self.salinity)


# What is left


def level_after_changes(start: GramPerM3, incoming: GramPerM3, share: Ratio, changes: Count) -> GramPerM3:
    """What is left after so many equal changes, each drained first and then filled.

        C_n = Cin + (C0 - Cin)*(1 - f)**n

    Source: balance of matter, own derivation.
    Valid:  mixed water, nothing made or used meanwhile.
    """
    _refuse.negative(start=start, incoming=incoming, changes=changes)
    _refuse.not_a_share(share_changed=share)
    return cast(float, incoming + (start - incoming) * np.power(1.0 - share, changes))


def changes_to_reach(start: GramPerM3, incoming: GramPerM3, goal: GramPerM3, share: Ratio) -> Ratio:
    """Whole number of equal changes until a level is reached; inf where new water itself does not get below it.

        n = ln((C - Cin)/(C0 - Cin))/ln(1 - f), rounded up

    Source: `level_after_changes` read backwards.
    Valid:  as that. Nothing where the level is already there. No arrays.
    """
    _refuse.negative(start=start, incoming=incoming, goal=goal)
    _refuse.not_a_share(share_changed=share)
    if start <= goal:
        return 0.0
    if share == 1.0:
        return 1.0 if incoming <= goal else math.inf
    if goal <= incoming or share == 0.0:
        return math.inf
    exact = math.log((goal - incoming) / (start - incoming)) / math.log1p(-share)
    return float(math.ceil(exact - _WHOLE))


def level_after_flow(start: GramPerM3, incoming: GramPerM3, turned: Ratio) -> GramPerM3:
    """What is left after new water has run through: `turned` is the water that ran, counted in volumes of the tank.

        C = Cin + (C0 - Cin)*exp(-Q*t/V)

    Source: balance of matter, own derivation.
    Valid:  mixed water, level held, nothing made or used meanwhile.
    """
    _refuse.negative(start=start, incoming=incoming, water_turned=turned)
    return cast(float, incoming + (start - incoming) * np.exp(-np.asarray(turned))[()])


def flow_to_reach(start: GramPerM3, incoming: GramPerM3, goal: GramPerM3) -> Ratio:
    """Water to run through, counted in volumes of the tank, until a level is reached; inf where it never is.

        Q*t/V = ln((C0 - Cin)/(C - Cin))

    Source: `level_after_flow` read backwards.
    Valid:  as that. No arrays.
    """
    _refuse.negative(start=start, incoming=incoming, goal=goal)
    if start <= goal:
        return 0.0
    return math.inf if goal <= incoming else math.log((start - incoming) / (goal - incoming))


def share_together(exchanged: Ratio) -> Ratio:
    """Share of the old water that goes where draining and filling run at the same time.

        1 - exp(-v/V)      v/V: new water over the tank's; drained first, the share is v/V itself

    Source: balance of matter, own derivation.
    Valid:  mixed water, level held.
    """
    _refuse.negative(water_exchanged=exchanged)
    return cast(float, -np.expm1(-np.asarray(exchanged))[()])


def share_filled_first(exchanged: Ratio) -> Ratio:
    """Share of the old water that goes where new water is filled in first, mixed, and as much then drained.

        (v/V)/(1 + v/V)

    Source: balance of matter, own derivation.
    Valid:  mixed water, room for it.
    """
    _refuse.negative(water_exchanged=exchanged)
    return exchanged / (1.0 + exchanged)


# Where it settles


def settled_before(incoming: GramPerM3, made: GramPerM3Day, interval: Day, share: Ratio) -> GramPerM3:
    """Level that a steady source and equal changes come to, just before a change: the highest.

        C = Cin + p*D/f

    Source: balance of matter, own derivation.
    Valid:  changed by draining first; source even. For other ways of changing put in the share they take.
    """
    _refuse.negative(incoming=incoming, interval=interval)
    _refuse.not_positive(share_changed=share)
    _refuse.not_a_share(share_changed=share)
    return incoming + made * interval / share


def settled_after(incoming: GramPerM3, made: GramPerM3Day, interval: Day, share: Ratio) -> GramPerM3:
    """Level that a steady source and equal changes come to, just after a change: the lowest.

        C = Cin + p*D*(1 - f)/f

    Source: balance of matter, own derivation.
    Valid:  as `settled_before`.
    """
    before = settled_before(incoming, made, interval, share)
    return incoming + (before - incoming) * (1.0 - share)


def settled_flow(incoming: GramPerM3, made: GramPerM3Day, pace: PerDay) -> GramPerM3:
    """Level that a steady source and a steady run of new water come to.

        C = Cin + p/(Q/V)      pace: Q/V

    Source: balance of matter, own derivation.
    Valid:  mixed water, level held.
    """
    _refuse.negative(incoming=incoming)
    _refuse.not_positive(pace=pace)
    return incoming + made / pace


def days_to_settle_changes(interval: Day, share: Ratio, left: Ratio) -> Day:
    """Days of equal changes until only a share of the way to the settled level is left.

        t = D*ln(left)/ln(1 - f), in whole changes

    Source: `level_after_changes`, the distance to the settled level falling by 1 - f each time.
    Valid:  as that; left over 0 and up to 1. No arrays.
    """
    _refuse.negative(interval=interval)
    _share_left(left)
    return interval * changes_to_reach(1.0, 0.0, left, share)


def days_to_settle_flow(pace: PerDay, left: Ratio) -> Day:
    """Days of a steady run of new water until only a share of the way to the settled level is left.

        t = -ln(left)/(Q/V)

    Source: `level_after_flow`.
    Valid:  as that; left over 0 and up to 1. No arrays.
    """
    _refuse.not_positive(pace=pace)
    _share_left(left)
    return -math.log(left) / pace


# Warmth and salt


def changed_water(tank: Body, new_psu: PracticalSalinity, new_c: Celsius, share: Ratio) -> Body:
    """The tank after one change: a share drained, as much new water by volume filled in.

        `blend` of V*(1 - f) of the old and V*f of the new

    Source: balance of salt, weight and heat.
    Valid:  quick change; the volume differs from the old one only as the blend shrinks or swells. No arrays.
    """
    _refuse.not_a_share(share_changed=share)
    kept = Body(tank.volume * (1.0 - share), tank.sal_psu, tank.temp_c)
    return blend(kept, Body(tank.volume * share, new_psu, new_c))


def largest_share(tank: Body, new_psu: PracticalSalinity, new_c: Celsius, limits: StepLimits) -> Ratio:
    """Largest share that can be changed at once with neither temperature nor salinity stepping beyond its limit.

        x = dS/|S2 - S1|;   x = y*c1/(c2*(1 - y) + y*c1), y = dT/|T2 - T1|      the smaller of both, at most 1
        f = x*rho1/(rho2*(1 - x) + x*rho1)      x: share by weight, f: by volume

    Source: `changed_water` read backwards.
    Valid:  as that. Steps of 1 K and 1 psu are common practice, no source. No arrays.
    """
    salty = _part(limits.salinity, new_psu - tank.sal_psu)
    warm = _part(limits.warmth, new_c - tank.temp_c)
    held = seawater.specific_heat(tank.sal_psu, tank.temp_c)
    brought = seawater.specific_heat(new_psu, new_c)
    warm = warm * held / (brought * (1.0 - warm) + warm * held)
    part = min(salty, warm)
    old, new = seawater.density(tank.sal_psu, tank.temp_c), seawater.density(new_psu, new_c)
    return float(part * old / (new * (1.0 - part) + part * old))


def heat_to_warm(supply: Body, goal_c: Celsius) -> Joule:
    """Heat that brings new water to a temperature; nothing where it is as warm already.

        Q = V*rho*cp*(T - T0)

    Source: `seawater.density`, `seawater.specific_heat` (TEOS-10), cp half way.
    Valid:  losses of the vat left out. No arrays.
    """
    rise = max(goal_c - supply.temp_c, 0.0)
    held = seawater.specific_heat(supply.sal_psu, 0.5 * (goal_c + supply.temp_c))
    return float(supply.volume * seawater.density(supply.sal_psu, supply.temp_c) * held * rise)


def hours_to_warm(supply: Body, goal_c: Celsius, heater: Watt, loss: Watt = 0.0) -> Hour:
    """Hours a heater takes to bring new water to a temperature; inf where the vat loses as much.

        t = Q/(P - q)

    Source: `heat_to_warm`.
    Valid:  loss held even: that of the warm vat is the safe side. No arrays.
    """
    _refuse.negative(heater=heater, loss=loss)
    heat = heat_to_warm(supply, goal_c)
    if heat == 0.0:
        return 0.0
    return heat / (heater - loss) / _HOUR if heater > loss else math.inf


def vat_loads(needed: CubicMetre, vat: CubicMetre) -> Count:
    """How often a mixing vat must be filled for an amount of water.

        n = V/v, rounded up

    Source: counting.
    Valid:  `vat` is what can be taken out of it, not what it holds. No arrays.
    """
    _refuse.negative(water_needed=needed)
    _refuse.not_positive(vat=vat)
    return math.ceil(needed / vat - _WHOLE)


def _part(limit: float, gap: float) -> float:
    """The share of a gap that a limit lets pass, at most all of it."""
    return 1.0 if abs(gap) <= limit else limit / abs(gap)


def _share_left(left: float) -> None:
    if not 0.0 < left <= 1.0:
        raise ImpossibleInput(
            f"what is left of the way lies over 0 and up to 1, got {left}: 0 is never reached"
        )
