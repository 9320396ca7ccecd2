"""Lamps over the water: what light they add at a depth, and what power makes up a shortfall."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import DailyLight, Hour, LightFlow, MicromolePerJoule, Ratio, SquareMetre, Watt
from tidestead.physics import _refuse

LED_PHOTONS: MicromolePerJoule = 4.57
"""Photons for each joule of light of a white lamp, taken as those of daylight. Common practice, no source."""

_HOUR = 3600.0
_MILLION = 1e6


@dataclass(frozen=True)
class LampLight:
    """Lamps of an `efficacy` in photons for each joule of electricity, of whose light a share `reaches` the water, over
    an `area` of it; `left` is the share of that which is left at the depth meant."""

    efficacy: MicromolePerJoule
    reaches: Ratio
    area: SquareMetre
    left: Ratio = 1.0

    def __post_init__(self) -> None:
        """Refuse what no lamp is."""
        _refuse.not_positive(efficacy=self.efficacy, area=self.area, light_left=self.left)
        _refuse.not_a_share(share_that_reaches=self.reaches, light_left=self.left)


def lamp_flow(power: Watt, lamp: LampLight) -> LightFlow:
    """Light that lamps add at a depth while they burn.

        PPFD = P*e*u*x/A

    P: electric power, e: efficacy, u: share that enters the water, x: share left at the depth, A: area lit.

    Source: balance of photons.
    Valid:  light spread evenly over the area.
    """
    _refuse.negative(power=power)
    return power * lamp.efficacy * lamp.reaches * lamp.left / lamp.area


def lamp_power(missing: DailyLight, lamp: LampLight, hours: Hour) -> Watt:
    """Electric power, while they burn, of lamps that make up a shortfall of a day's light.

        P = D*A*1e6/(e*u*x*t)

    D: photons missing at the depth, t: seconds a day that they burn; letters as `lamp_flow`.

    Source: balance of photons.
    Valid:  as `lamp_flow`.
    """
    _refuse.negative(missing_light=missing)
    _refuse.not_positive(hours=hours, share_that_reaches=lamp.reaches)
    return missing * lamp.area * _MILLION / (lamp.efficacy * lamp.reaches * lamp.left * hours * _HOUR)


def lamp_heat_in_water(power: Watt, efficacy: MicromolePerJoule, reaches: Ratio) -> Watt:
    """Part of a lamp's power that goes into the water as light and ends there as heat; the rest warms the air.

        P_w = P*u*e/4.57

    e/4.57 is the share of its power that a lamp gives as light between 400 and 700 nm.

    Source: balance of energy; 4.57 umol/J as of daylight.
    Valid:  lamps that hang in the air; white or blue light. Red light has up to a fifth more photons a joule.
    """
    _refuse.negative(power=power)
    _refuse.not_positive(efficacy=efficacy)
    _refuse.not_a_share(share_that_reaches=reaches)
    return power * reaches * min(efficacy / LED_PHOTONS, 1.0)
