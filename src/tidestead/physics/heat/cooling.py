"""Warming and cooling of water by hand's rules: a power cut, the size of a heater, the cold face behind a cover.

The year's engine gives the same answers hour by hour; these are the lines one checks it with.
"""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import (
    Array,
    Celsius,
    CubicMetre,
    JoulePerKelvin,
    Kelvin,
    PracticalSalinity,
    Ratio,
    Second,
    Watt,
    WattPerKelvin,
)
from tidestead.physics import _refuse, seawater


def water_capacity(volume: CubicMetre, sal_psu: PracticalSalinity, temp_c: Celsius) -> JoulePerKelvin:
    """Heat that warms a body of water by one kelvin.

        C = V*rho*cp

    Source: `seawater.density`, `seawater.specific_heat` (TEOS-10).
    Valid:  as those. Rock, sand and walls hold some more.
    """
    _refuse.negative(volume=volume)
    return volume * seawater.density(sal_psu, temp_c) * seawater.specific_heat(sal_psu, temp_c)


def fading_time(capacity: JoulePerKelvin, loss: WattPerKelvin) -> Second:
    """Time in which the distance to the temperature of rest falls to 37 %; endless where nothing is lost.

        tau = C/UA

    Source: Newton's law of cooling.
    Valid:  `loss` from the water to where it cools to, evaporation in it as at that temperature.
    """
    _refuse.not_positive(capacity=capacity)
    _refuse.negative(loss=loss)
    return _ratio(capacity, loss)


def temperature_after(start_c: Celsius, rest_c: Celsius, fading: Second, time: Second) -> Celsius:
    """Temperature of water left to itself.

        T(t) = T_rest + (T0 - T_rest)*exp(-t/tau)

    Source: Newton's law of cooling.
    Valid:  steady weather. Real losses fall faster as water cools, so it is a little pessimistic.
    """
    _refuse.not_positive(fading_time=fading)
    _refuse.negative(time=time)
    left: Celsius = rest_c + (start_c - rest_c) * np.exp(-np.divide(time, fading))
    return left


def time_to_temperature(start_c: Celsius, rest_c: Celsius, fading: Second, goal_c: Celsius) -> Second:
    """Time until water left to itself has come to a temperature; endless where it never does, nothing where it is past.

        t = tau*ln((T0 - T_rest)/(T_goal - T_rest))

    Source: Newton's law of cooling, read backwards.
    Valid:  as `temperature_after`.
    """
    _refuse.not_positive(fading_time=fading)
    start, goal = np.subtract(start_c, rest_c), np.subtract(goal_c, rest_c)
    past = np.where(start >= 0.0, goal >= start, goal <= start) & (goal * start >= 0.0)
    never = (goal * start <= 0.0) & ~past
    share = np.where(past | never, 1.0, np.divide(start, np.where(goal == 0.0, 1.0, goal)))
    return cast(float, np.where(never, np.inf, np.where(past, 0.0, fading * np.log(share)))[()])


def heater_power(load: Watt, margin: Ratio) -> Watt:
    """Heater for a load: the mean of the coldest day that must be stood.

        P = m*q

    Source: common practice, no source: m = 1.25.
    Valid:  split over two heaters, so that one stuck on cannot cook the tank and one alone keeps life going.
    """
    _refuse.negative(load=load)
    _refuse.not_positive(margin=margin)
    return margin * load


def recovery_time(capacity: JoulePerKelvin, rise: Kelvin, power: Watt, loss: Watt) -> Second:
    """Time a heater takes to bring water up again; endless where the losses take it all.

        t = C*dT/(P - q)

    Source: balance of heat.
    Valid:  loss held even; it grows as the water warms.
    """
    _refuse.negative(capacity=capacity, rise=rise, power=power, loss=loss)
    spare = np.subtract(power, loss)
    return cast(float, np.where(spare > 0.0, capacity * rise / np.where(spare > 0.0, spare, 1.0), np.inf)[()])


def idle_loss(gain: Watt, wanted_c: Celsius, outdoors_c: Celsius) -> WattPerKelvin:
    """Loss for each kelvin, water to outdoors, up to which a heater is idle on average; endless where it is warm out.

        UA = (pumps + sun into the water)/(T_set - T_out), means of the coldest month

    Source: balance of heat.
    Valid:  a month's mean; cold nights still ask for heat.
    """
    _refuse.negative(gain=gain)
    return _ratio(gain, np.maximum(np.subtract(wanted_c, outdoors_c), 0.0))


def face_temperature(outdoors_c: Celsius, indoors_c: Celsius, factor: Ratio) -> Celsius:
    """Temperature of the inner face of a wall, or of its coldest corner.

        T = T_out + f*(T_in - T_out)

    Source: ISO 13788, temperature factor f_Rsi, as quoted.
    Valid:  steady cold; f 0.75 keeps mould from a dry house, a tank house needs more.
    """
    _refuse.not_a_share(temperature_factor=factor)
    return outdoors_c + factor * (indoors_c - outdoors_c)


def _ratio(above: float | Array, below: float | Array) -> float:
    """A ratio that is endless where there is nothing below."""
    none = np.equal(below, 0.0)
    return cast(float, np.where(none, np.inf, np.divide(above, np.where(none, 1.0, below)))[()])
