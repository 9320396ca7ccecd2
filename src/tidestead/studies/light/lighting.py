"""Lamps of the plan: what light they give the corals of a vessel, and where their power ends as heat."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_DAYS, MONTH_OF_HOUR
from tidestead.physics.light import lamps
from tidestead.physics.light.lamps import LampLight
from tidestead.plan.model import Plan, Vessel
from tidestead.plan.model.warmth import Lamp
from tidestead.studies.light.facts import LampFacts, Lighting
from tidestead.studies.vessels import plan_area

EFFICACY = 2.2
"""Light of a lamp for each joule where the plan is silent. Between the fixtures of 2014 (1.7) and the limit of white
and red light (3.4); common practice, no source."""

REACHES = 0.70
"""Share of a lamp's light that enters the water where the plan is silent. Common practice, no source."""

BURNS = 12.0
"""Hours a day that lamps are reckoned with where the plan has none. Common practice, no source."""

_NOON = 12.0


def over(plan: Plan, vessel: str) -> dict[str, Lamp]:
    """The lamps of the plan over a vessel."""
    return {key: lamp for key, lamp in plan.lamps.items() if lamp.over == vessel}


def lighting_of(plan: Plan, key: str, vessel: Vessel, corals: float | None) -> Lighting:
    """The lamps over a vessel as its corals have them; nameless ones of the usual sort where there are none.

    Lamps that light a part of the water are laid side by side for the least light, over one another for the most.
    """
    found = over(plan, key)
    water = plan_area(vessel)
    if not found:
        area = corals if corals is not None else water
        dark = np.zeros((12, 24))
        return Lighting((), 0.0, EFFICACY, REACHES, BURNS, area, dark, dark, covers=True)
    parts = [lamp for lamp in found.values() if lamp.lights is not None]
    whole = [lamp for lamp in found.values() if lamp.lights is None]
    lit = min(sum(lamp.lights or 0.0 for lamp in parts), water) if parts else water
    low = np.zeros((12, 24))
    high = np.zeros((12, 24))
    for lamp in found.values():
        area = water if lamp.lights is None else lamp.lights
        burning = pattern(lamp)
        high += _flow(lamp, area) * burning
        low += _flow(lamp, water if lamp.lights is None else max(lit, lamp.lights)) * burning
    power = sum(lamp.power for lamp in found.values())
    covers = not parts or bool(whole) or corals is None or lit >= corals * (1.0 - 1e-9)
    return Lighting(
        tuple(found),
        power,
        sum(lamp.power * (lamp.efficacy or EFFICACY) for lamp in found.values()) / power,
        sum(lamp.power * _reaches(lamp) for lamp in found.values()) / power,
        max(lamp.hours for lamp in found.values()) / 3600.0,
        lit,
        low,
        high,
        covers,
    )


def pattern(lamp: Lamp) -> Array:
    """Share of each hour of a day that a lamp burns, by month: round noon of the clock; shape (12, 24)."""
    half = min(lamp.hours / 3600.0, 24.0) / 2.0
    begin, end = _NOON - half, _NOON + half
    hours = np.arange(24.0)
    burning = np.clip(np.minimum(hours + 1.0, end) - np.maximum(hours, begin), 0.0, 1.0)
    months = np.isin(np.arange(12), lamp.months).astype(float)
    found: Array = months[:, None] * burning[None, :]
    return found


def lamp_facts(plan: Plan) -> tuple[LampFacts, ...]:
    """Every lamp of the plan with what it draws in a year."""
    found = []
    for key, lamp in plan.lamps.items():
        burning = pattern(lamp).sum(axis=1)
        energy = lamp.power * 3600.0 * float(np.sum(burning * np.array(MONTH_DAYS)))
        warm = float(lamps.lamp_heat_in_water(1.0, lamp.efficacy or EFFICACY, _reaches(lamp)))
        found.append(LampFacts(key, lamp.over, lamp.power, energy, warm))
    return tuple(found)


def heat_of(plan: Plan, facts: Sequence[LampFacts]) -> tuple[dict[str, Array], dict[str, Array]]:
    """Watts that the lamps over each vessel give its water and the air, by hour of the year."""
    water: dict[str, Array] = {}
    air: dict[str, Array] = {}
    for one in facts:
        hours = by_hour(pattern(plan.lamps[one.key])) * one.power
        water[one.vessel] = water.get(one.vessel, np.zeros(HOURS)) + hours * one.water_share
        air[one.vessel] = air.get(one.vessel, np.zeros(HOURS)) + hours * (1.0 - one.water_share)
    return water, air


def by_hour(months: Array) -> Array:
    """From hours of a day by month (12, 24) to the hours of a year (8760,)."""
    of_day = np.tile(np.arange(24), HOURS // 24)
    found: Array = months[MONTH_OF_HOUR, of_day]
    return found


def _reaches(lamp: Lamp) -> float:
    return REACHES if lamp.reaches is None else lamp.reaches


def _flow(lamp: Lamp, area: float) -> float:
    """Flow just under the surface while it burns."""
    return float(lamps.lamp_flow(lamp.power, LampLight(lamp.efficacy or EFFICACY, _reaches(lamp), area)))
