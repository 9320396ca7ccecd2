"""Foam above the water: how wet it rises, and how much air a neck can pass before foam and water are one.

The theory is of stable foam of equal bubbles. Foam of a fractionator bursts and coarsens on its way: most of its
air leaves by bursting, coarser foam bears more air, and what runs over is far drier. So a neck judged with bubbles
as small as in the water is judged too harshly, and the liquid it carries is an upper bound. How much runs over is
not told by this; nothing here turns it into a flow.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import CubicMetrePerSecond, G, Metre, MetrePerSecond, Ratio, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.foam._arrays import choose, crossing
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import superficial_speed


@dataclass(frozen=True)
class DrainageLaw:
    """How fast liquid runs down through foam: m and n of the law of drainage. They differ between surfactants.

    The usual values are from memory; with them the worked example of Stevenson and Li (2014) comes out.
    """

    factor: Ratio = 0.016
    exponent: Ratio = 2.0

    def __post_init__(self) -> None:
        """Refuse a law by which no foam drains, or by which none floods."""
        _refuse.not_positive(factor=self.factor)
        if not np.all(np.greater(self.exponent, 1.0)):
            raise ImpossibleInput(f"the exponent of drainage is more than 1, got {self.exponent}")


USUAL = DrainageLaw()
"""m = 0.016, n = 2. Source: P. Stevenson and X. Li, Foam Fractionation (2014), known from memory."""


@dataclass(frozen=True)
class NeckState:
    """How hard a neck is worked, for one size of bubble. Past flooding there is no `liquid` share.

    `largest_speed` is the largest speed of air a stable foam bears, `use` the share of it, `least_area` the area
    at which this air would use it up. `dry_speed` is the speed at which the foam would be as dry as was asked.
    """

    bubble: Metre
    gas_speed: MetrePerSecond
    largest_speed: MetrePerSecond
    use: Ratio
    least_area: SquareMetre
    dry_speed: MetrePerSecond
    dry_use: Ratio
    liquid: Ratio | None


def drainage_scale(radius: Metre, properties: WaterProperties) -> MetrePerSecond:
    """The speed that sets the scale of drainage.

        K = rho*g*r**2 / mu          r: radius of the bubbles, not their diameter

    Source: P. Stevenson and X. Li, Foam Fractionation (2014), law of drainage, known from memory.
    Valid:  foam of equal bubbles; for a mixture the mean radius.
    """
    _refuse.not_positive(radius=radius)
    return properties.density * G * radius**2 / properties.viscosity


def drainage_speed(liquid: Ratio, scale: MetrePerSecond, law: DrainageLaw = USUAL) -> MetrePerSecond:
    """Speed at which liquid drains down through foam, seen from the bubbles.

        jd = K*m*e**n          e: share of the foam that is liquid

    Source: Stevenson and Li (2014), known from memory; their worked example, seen, bears out form, m and n.
    Valid:  stable foam, e up to about a third.
    """
    _refuse.not_a_share(liquid=liquid)
    _refuse.not_positive(scale=scale)
    speed: MetrePerSecond = scale * law.factor * liquid**law.exponent
    return speed


def rising_gas_speed(liquid: Ratio, scale: MetrePerSecond, law: DrainageLaw = USUAL) -> MetrePerSecond:
    """Speed of air that lifts a steady foam of this wetness.

        jg = K*m*n*e**(n - 1)*(1 - e)**2

    Source: Stevenson and Li (2014), known from memory, borne out by their worked example, seen.
    Valid:  stable foam, no wash water, e no more than at flooding.
    """
    _refuse.not_a_share(liquid=liquid)
    _refuse.not_positive(scale=scale)
    return _gas(liquid, scale, law)


def flooding_liquid(law: DrainageLaw = USUAL) -> Ratio:
    """Wettest foam there is: beyond it foam and bubbly water are one.

        e* = (n - 1) / (n + 1)          a third for n = 2

    Source: Wang, Evans and Stevenson, Flooding in a vertically rising gas-liquid foam, Ind. Eng. Chem. Res.;
            abstract seen.
    Valid:  stable foam.
    """
    return (law.exponent - 1.0) / (law.exponent + 1.0)


def largest_gas_speed(scale: MetrePerSecond, law: DrainageLaw = USUAL) -> MetrePerSecond:
    """Largest speed of air that a stable foam bears.

        jg* = K*m*n*e***(n - 1)*(1 - e*)**2,   e* = (n - 1)/(n + 1)

    Source: Stevenson and Li (2014), known from memory, with Wang, Evans and Stevenson, abstract seen.
    Valid:  stable foam. It grows with the square of the bubble, so foam that coarsens bears more; foam that
            bursts lets its air go before the neck.
    """
    return rising_gas_speed(flooding_liquid(law), scale, law)


def rising_liquid(gas_speed: MetrePerSecond, scale: MetrePerSecond, law: DrainageLaw = USUAL) -> Ratio:
    """Share of liquid in steady rising foam: the lower root. Not a number (NaN) where the foam floods.

        K*m*n*e**(n - 1)*(1 - e)**2 = jg,   0 <= e <= e*

    Source: Stevenson and Li (2014), known from memory, borne out by their worked example, seen.
    Valid:  stable foam; foam that bursts on the way is drier.
    """
    _refuse.negative(gas_speed=gas_speed)
    largest = largest_gas_speed(scale, law)
    e = crossing(lambda e: _gas(e, scale, law) - gas_speed, 0.0, flooding_liquid(law))
    return choose(np.less_equal(gas_speed, largest), e, np.nan)


def carried_speed(liquid: Ratio, scale: MetrePerSecond, law: DrainageLaw = USUAL) -> MetrePerSecond:
    """Superficial speed of the liquid that a stable foam lifts: an upper bound no skimming foam comes near.

        jf = K*m*e**n*(n*(1 - e) - 1)

    Source: Stevenson and Li (2014), known from memory; their worked example, seen, gives 0.533 mm/s.
    Valid:  stable foam only. It must not be turned into litres of what runs over: real foam bursts.
    """
    speed: MetrePerSecond = drainage_speed(liquid, scale, law) * (law.exponent * (1.0 - liquid) - 1.0)
    return speed


def neck_state(
    area: SquareMetre,
    air_flow: CubicMetrePerSecond,
    bubble: Metre,
    properties: WaterProperties,
    dry: Ratio,
) -> NeckState:
    """How hard a neck is worked by all the air that comes up. Numbers, no arrays.

        jg = Q_air/A,   use = jg/jg*,   A_least = Q_air/jg*          r = d/2

    `bubble` is the diameter in the foam. It is no smaller than in the water and mostly larger, by how much no
    source was found to say: show several. `dry` is the share of liquid that counts as a dry foam.

    Source: the formulas of this module.
    Valid:  as these, with the usual m and n; no air lost by bursting below the neck, which is on the safe side.
    """
    _refuse.not_positive(air_flow=air_flow)
    scale = drainage_scale(bubble / 2.0, properties)
    air, largest = superficial_speed(air_flow, area), largest_gas_speed(scale)
    wet = rising_liquid(air, scale)
    dry_speed = rising_gas_speed(dry, scale)
    return NeckState(
        bubble=bubble,
        gas_speed=air,
        largest_speed=largest,
        use=air / largest,
        least_area=air_flow / largest,
        dry_speed=dry_speed,
        dry_use=air / dry_speed,
        liquid=None if np.isnan(wet) else wet,
    )


def _gas(liquid: Ratio, scale: MetrePerSecond, law: DrainageLaw) -> MetrePerSecond:
    n = law.exponent
    speed: MetrePerSecond = scale * law.factor * n * liquid ** (n - 1.0) * (1.0 - liquid) ** 2
    return speed
