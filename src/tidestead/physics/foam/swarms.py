"""A crowd of equal bubbles in water that sinks through it: how much air is in it, and where it floods.

Speeds are superficial ones, flow over the area of the empty column, both counted positive: air up, water down.
The law of drift: each bubble rises against the water between the bubbles at its own speed alone, slowed by the
crowd. One size of bubble is assumed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Metre, MetrePerSecond, Ratio
from tidestead.physics import _refuse
from tidestead.physics.foam._arrays import choose, crossing
from tidestead.physics.foam.bubbles import WaterProperties, reynolds, rise_speed


@dataclass(frozen=True)
class Swarm:
    """A crowd of equal bubbles: what one of them rises at alone, and how fast crowding slows them."""

    rise: MetrePerSecond
    exponent: Ratio


def swarm_exponent(reynolds_number: Ratio) -> Ratio:
    """How fast crowding slows equal bubbles: U*(1 - e)**(n - 1) against the water between them.

        n = 4.65 (Re < 0.2), 4.35*Re**-0.03 (to 1), 4.45*Re**-0.1 (to 500), 2.39 above

    Source: J. Richardson and W. Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35, as four public codes quote it; one of
            them goes to 2.39 from Re 200 on.
    Valid:  made for solid balls that sink, used for stiff bubbles by analogy; column wide against the bubble.
            The parts do not quite meet at Re 0.2 and 1 (2 %).
    """
    _refuse.negative(reynolds_number=reynolds_number)
    above = np.maximum(reynolds_number, 1e-9)
    slow = choose(np.less(reynolds_number, 0.2), 4.65, 4.35 * above**-0.03)
    quick = choose(np.less_equal(reynolds_number, 500.0), 4.45 * above**-0.1, 2.39)
    return choose(np.less(reynolds_number, 1.0), slow, quick)


def bubble_swarm(diameter: Metre, properties: WaterProperties) -> Swarm:
    """A crowd of bubbles of one size.

        U: `rise_speed`,   n: `swarm_exponent` at Re = rho*U*d/mu

    Source: Clift, Grace and Weber (1978) and Richardson and Zaki (1954), both quoted.
    Valid:  as these two.
    """
    rise = rise_speed(diameter, properties)
    return Swarm(rise=rise, exponent=swarm_exponent(reynolds(rise, diameter, properties)))


def gas_speed(holdup: Ratio, water_speed: MetrePerSecond, swarm: Swarm) -> MetrePerSecond:
    """Speed of air at which a column holds so much of it, while water sinks.

        jg/e + jl/(1 - e) = U*(1 - e)**(n - 1)          e: share of the column that is air

    Negative where the water would carry so thin a crowd down.

    Source: G. Wallis, One-dimensional Two-phase Flow (1969), with the swarm of Richardson and Zaki; known from
            memory.
    Valid:  bubbly flow, up to the holdup at flooding; beyond it this gives the branch of wet foam.
    """
    _refuse.not_a_share(holdup=holdup)
    _refuse.not_positive(share_of_water=1.0 - holdup)
    _refuse.negative(water_speed=water_speed)
    return _net_gas(holdup, water_speed, swarm)


def flooding_holdup(water_speed: MetrePerSecond, swarm: Swarm) -> Ratio:
    """Share of air in a column on the point of flooding; nothing where the water carries every bubble down.

        U*(1 - e)**n * (1 - n*e) = jl          e = 1/n in still water

    Source: where `gas_speed` is largest (its slope is nothing): Wallis (1969), known from memory.
    Valid:  as `gas_speed`.
    """
    _refuse.negative(water_speed=water_speed)
    n = swarm.exponent
    return crossing(lambda e: water_speed - swarm.rise * (1.0 - e) ** n * (1.0 - n * e), 0.0, 1.0 / n)


def flooding_gas_speed(water_speed: MetrePerSecond, swarm: Swarm) -> MetrePerSecond:
    """Largest speed of air that a column takes while water sinks; nothing where all bubbles are carried down.

        jg* = n*U*e**2*(1 - e)**(n - 1)          e: `flooding_holdup`

    Past it bubbles run together, the surface is lost and foam and water are one.

    Source: Wallis (1969), known from memory. A handbook page on flotation columns, seen, gives 25 to 30 mm/s for
            bubbles whose size it does not tell; that fits 1.3 to 1.5 mm here.
    Valid:  as `gas_speed`; no measurement in seawater was found.
    """
    e = flooding_holdup(water_speed, swarm)
    speed: MetrePerSecond = swarm.exponent * swarm.rise * e**2 * (1.0 - e) ** (swarm.exponent - 1.0)
    return choose(np.less(water_speed, swarm.rise), speed, 0.0)


def flooding_water_speed(gas_speed: MetrePerSecond, swarm: Swarm) -> MetrePerSecond:
    """Largest speed of sinking water that a column takes at this speed of air; nothing where air alone floods it.

        n*U*e**2*(1 - e)**(n - 1) = jg,   jl* = U*(1 - e)**n*(1 - n*e)       none from e = 1/n on

    Source: `flooding_gas_speed` turned round.
    Valid:  as `gas_speed`.
    """
    _refuse.negative(gas_speed=gas_speed)
    n = swarm.exponent
    e = crossing(lambda e: n * swarm.rise * e**2 * (1.0 - e) ** (n - 1.0) - gas_speed, 0.0, 1.0 / n)
    speed: MetrePerSecond = swarm.rise * (1.0 - e) ** n * (1.0 - n * e)
    in_still_water = swarm.rise / n * (1.0 - 1.0 / n) ** (n - 1.0)
    return choose(np.less(gas_speed, in_still_water), speed, 0.0)


def gas_holdup(gas_speed: MetrePerSecond, water_speed: MetrePerSecond, swarm: Swarm) -> Ratio:
    """Share of the column that is air: the lower root, the bubbly one. Not a number (NaN) where it floods.

        jg/e + jl/(1 - e) = U*(1 - e)**(n - 1),   0 <= e <= e at flooding

    Source: Wallis (1969), with Richardson and Zaki (1954); known from memory.
    Valid:  as `gas_speed` (the formula).
    """
    _refuse.negative(gas_speed=gas_speed)
    top = flooding_holdup(water_speed, swarm)
    largest = choose(np.less(water_speed, swarm.rise), _net_gas(top, water_speed, swarm), 0.0)
    e = crossing(lambda e: _net_gas(e, water_speed, swarm) - gas_speed, 0.0, top)
    return choose(np.less_equal(gas_speed, largest), e, np.nan)


def _net_gas(holdup: Ratio, water_speed: MetrePerSecond, swarm: Swarm) -> MetrePerSecond:
    """`gas_speed` without its refusals, for the search."""
    water = 1.0 - holdup
    speed: MetrePerSecond = holdup * (swarm.rise * water ** (swarm.exponent - 1.0) - water_speed / water)
    return speed
