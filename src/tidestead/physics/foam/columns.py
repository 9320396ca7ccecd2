"""Air rising through water that sinks: how much air the column holds, for how long, and where it floods.

Speeds are superficial ones, flow over the area of the empty column, both counted positive: air up, water down.
Air is counted at the pressure at the top of the column, where it is widest and floods first; each metre of water
presses it together by a tenth. One size of bubble is assumed throughout: show several sizes side by side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerSecond,
    Metre,
    MetrePerSecond,
    PerMetre,
    Ratio,
    Second,
    SquareMetre,
)
from tidestead.physics import _refuse
from tidestead.physics.foam._arrays import choose, crossing
from tidestead.physics.foam.bubbles import WaterProperties, rise_speed
from tidestead.physics.foam.swarms import (
    Swarm,
    bubble_swarm,
    flooding_gas_speed,
    flooding_water_speed,
    gas_holdup,
)

_SMALLEST_CUT: Metre = 1e-7
_LARGEST_CUT: Metre = 0.003
"""Between these a larger bubble rises faster; beyond 3 mm it wobbles and rises no faster, up to 17 mm."""


@dataclass(frozen=True)
class Column:
    """The part of a tower where air meets water: its inside area, and the water's height over the diffuser."""

    area: SquareMetre
    height: Metre


@dataclass(frozen=True)
class ColumnState:
    """What a column does with its water and air, for one size of bubble. Past flooding much is None.

    `flooding_speed` is the largest speed of air at this flow of water, `flooding_use` the share of it in use
    (endless where the water carries every bubble down). `most_water` is the largest speed of water at this
    flow of air. `carry_under` is the bubble that just hangs in the sinking water.
    """

    bubble: Metre
    gas_speed: MetrePerSecond
    water_speed: MetrePerSecond
    air_to_water: Ratio
    swarm: Swarm
    flooding_speed: MetrePerSecond
    flooding_use: Ratio
    most_water: MetrePerSecond
    holdup: Ratio | None
    specific_area: PerMetre | None
    surface: SquareMetre | None
    bubble_dwell: Second | None
    water_dwell: Second | None
    carry_under: Metre | None


def superficial_speed(flow: CubicMetrePerSecond, area: SquareMetre) -> MetrePerSecond:
    """Speed a flow would have if it had the whole column to itself.

        j = Q / A

    Source: definition.
    Valid:  air at the pressure of the place; even flow over the area.
    """
    _refuse.negative(flow=flow)
    _refuse.not_positive(area=area)
    return flow / area


def specific_area(holdup: Ratio, diameter: Metre) -> PerMetre:
    """Surface of the bubbles in a cubic metre of column.

        a = 6*e / d

    Source: geometry of balls.
    Valid:  balls of one size; for a mixture put in its Sauter mean diameter.
    """
    _refuse.not_a_share(holdup=holdup)
    _refuse.not_positive(diameter=diameter)
    return 6.0 * holdup / diameter


def bubble_dwell(height: Metre, holdup: Ratio, gas_speed: MetrePerSecond) -> Second:
    """How long a bubble is on its way up.

        t = L*e / jg

    Source: definition (air in the column over its flow).
    Valid:  steady, air not pressed together: in a tower of 3 m it stays about a twentieth longer.
    """
    _refuse.negative(height=height)
    _refuse.not_a_share(holdup=holdup)
    _refuse.not_positive(gas_speed=gas_speed)
    return height * holdup / gas_speed


def water_dwell(volume: CubicMetre, holdup: Ratio, water_flow: CubicMetrePerSecond) -> Second:
    """How long the water is among the bubbles, on average; endless for a column without flow.

        t = V*(1 - e) / Q

    Source: definition (water in the column over its flow).
    Valid:  steady. Parts of the water pass far quicker where it short-circuits or is stirred.
    """
    _refuse.negative(volume=volume, water_flow=water_flow)
    _refuse.not_a_share(holdup=holdup)
    still = np.equal(water_flow, 0.0)
    return choose(still, np.inf, volume * (1.0 - holdup) / choose(still, 1.0, water_flow))


def carry_under_cut(water_speed: MetrePerSecond, holdup: Ratio, properties: WaterProperties) -> Metre:
    """Bubbles smaller than this leave with the water at the foot of the column.

        U(d) = jl / (1 - e)          U: `rise_speed`

    Endless where the water sinks faster than bubbles of any size rise.

    Source: a bubble hangs where it rises as fast as the water between the bubbles sinks; elementary.
    Valid:  even flow and lone small bubbles; crowding and uneven flow carry larger ones down too.
    """
    _refuse.negative(water_speed=water_speed)
    _refuse.not_a_share(holdup=holdup)
    _refuse.not_positive(share_of_water=1.0 - holdup)
    sinking = water_speed / (1.0 - holdup)
    cut = crossing(lambda size: rise_speed(size, properties) - sinking, _SMALLEST_CUT, _LARGEST_CUT)
    return choose(np.less(sinking, rise_speed(_LARGEST_CUT, properties)), cut, np.inf)


def column_state(
    column: Column,
    water_flow: CubicMetrePerSecond,
    air_flow: CubicMetrePerSecond,
    bubble: Metre,
    properties: WaterProperties,
) -> ColumnState:
    """All of the above for one column, one flow of water, one of air and one size of bubble. Numbers, no arrays.

        jg = Q_air/A,   jl = Q/A,   use = jg/jg*          jg*: `flooding_gas_speed`

    Source: the formulas of this module.
    Valid:  as these; some air must come. Air to water and dwell of the water are endless without water.
    """
    _refuse.not_positive(height=column.height, air_flow=air_flow)
    air, water = superficial_speed(air_flow, column.area), superficial_speed(water_flow, column.area)
    swarm = bubble_swarm(bubble, properties)
    largest = flooding_gas_speed(water, swarm)
    found = gas_holdup(air, water, swarm)
    holdup = None if np.isnan(found) else found
    volume = column.area * column.height
    area = None if holdup is None else specific_area(holdup, bubble)
    return ColumnState(
        bubble=bubble,
        gas_speed=air,
        water_speed=water,
        air_to_water=air / water if water > 0.0 else np.inf,
        swarm=swarm,
        flooding_speed=largest,
        flooding_use=air / largest if largest > 0.0 else np.inf,
        most_water=flooding_water_speed(air, swarm),
        holdup=holdup,
        specific_area=area,
        surface=None if area is None else area * volume,
        bubble_dwell=None if holdup is None else bubble_dwell(column.height, holdup, air),
        water_dwell=None if holdup is None else water_dwell(volume, holdup, water_flow),
        carry_under=None if holdup is None else carry_under_cut(water, holdup, properties),
    )
