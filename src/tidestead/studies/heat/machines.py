"""What warms and cools the water on purpose or in passing: heaters, chillers, fans, pumps, lamps in tubes, lamps."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS
from tidestead.physics.heat.system import Heating
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.dials import Dials
from tidestead.studies.light.facts import LightFacts

BAND = 0.5
"""Kelvin from switching on to switching off where the plan is silent. Common practice, no source."""

_APART = 0.02
"""Setpoints of equal heaters lie so far apart, K: thermostats never agree, and one comes on before the other."""


@dataclass(frozen=True)
class Given:
    """Heat of one machine that is no heater, W: into the water and into the air."""

    name: str
    water: float
    air: float
    why: str


def given_by(plan: Plan, flow: FlowFacts) -> tuple[Given, ...]:
    """Pumps and lamps in tubes, whenever there is electricity."""
    silent = table("heat_limits")["silent"]
    found = []
    watts = {pump.name: pump.power for pump in flow.pumps}
    for name, pump in plan.pumps.items():
        power = watts.get(name) or pump.power
        if power is None:
            continue
        share = silent.si("pump_share") if pump.heats_water is None else pump.heats_water
        found.append(Given(f"pump {name}", power * share, power * (1.0 - share), "pumps"))
    for name, one in plan.apparatus.items():
        if one.kind == "uv" and one.uvc is not None:
            power = one.uvc / silent.si("lamp_yield")
            share = silent.si("lamp_share")
            found.append(Given(f"lamp in the line {name}", power * share, power * (1.0 - share), "apparatus"))
    return tuple(found)


def heatings_of(plan: Plan, body_of: dict[str, int], dials: Dials) -> Iterator[Heating]:
    """Every heater and chiller by itself; one that is stuck never switches off.

    Where a heater's power is tried and the plan has none, one stands in the display. Heaters set higher take chillers
    with them, so that the two never fight.
    """
    number = 0
    for heater in plan.heaters.values():
        if heater.vessel not in body_of:
            continue
        for one in range(heater.count):
            power = heater.power * dials.heaters
            setpoint = heater.setpoint + dials.setpoint - one * _APART
            if dials.stuck == number:
                setpoint = 95.0
            if dials.heater_most is not None:
                power = dials.heater_most if number == 0 else 0.0
            yield Heating(
                body_of[heater.vessel], power, setpoint, BAND if heater.band is None else heater.band
            )
            number += 1
    if dials.heater_most is not None and number == 0 and body_of:
        yield Heating(0, dials.heater_most, kept_c(plan), BAND)
    for chiller in plan.chillers.values():
        if chiller.vessel in body_of and dials.chiller:
            indoors = chiller.cooling + chiller.draws if chiller.rejects == "indoors" else 0.0
            band = BAND if chiller.band is None else chiller.band
            setpoint = chiller.setpoint + max(dials.setpoint, 0.0)
            yield Heating(body_of[chiller.vessel], chiller.cooling, setpoint, band, True, indoors)
    if dials.chills > 0.0 and body_of:
        yield Heating(0, dials.chills, _chilled_to(plan), BAND, True)


def kept_c(plan: Plan) -> float:
    """The middle of what is kept."""
    return sum(plan.water.keep) / 2.0 if plan.water.keep is not None else 25.0


def _chilled_to(plan: Plan) -> float:
    """Where a chiller that is tried is set: a kelvin under the warmest kept."""
    return (plan.water.keep[1] if plan.water.keep is not None else 27.0) - 1.0


def fights(plan: Plan, keys: Collection[str]) -> Iterator[str]:
    """Heaters and chillers of the same water whose thermostats overlap: each makes work for the other."""
    for hot, heater in plan.heaters.items():
        for cold, chiller in plan.chillers.items():
            if not (heater.vessel in keys and chiller.vessel in keys):
                continue
            up, down = ((BAND if one.band is None else one.band) / 2.0 for one in (heater, chiller))
            apart = chiller.setpoint - heater.setpoint
            if min(apart + up - down, apart + down - up) <= 0.0:
                yield (
                    f"heaters.{hot} and chillers.{cold} fight: one begins before the other ends. Set the chiller "
                    "higher than the heaters, by more than their bands."
                )


def lamp_hours(light: LightFacts, keys: tuple[str, ...]) -> tuple[Array, Array]:
    """Heat of the lamps over some vessels, W by hour of the year: into the water, into the air."""
    water, air = np.zeros(HOURS), np.zeros(HOURS)
    for key in keys:
        if key in light.water_heat:
            water = water + light.water_heat[key]
        if key in light.air_heat:
            air = air + light.air_heat[key]
    return water, air
