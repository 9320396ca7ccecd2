"""What everything takes from the mains in a year, by the studies of heat, light and flow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tidestead.core.answer import Estimate
from tidestead.plan.model import Plan
from tidestead.plan.water_fields import ON_TABLES, OnCircuit
from tidestead.studies.heat.facts import HeatYears, YearFacts
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.power.facts import EnergyFacts
from tidestead.studies.power.things import Thing

YEAR = 365.0 * 86400.0
"""Seconds of a year as the weather has it, 8760 hours."""

_ALWAYS = "runs all year"


def energy_of(
    plan: Plan, things: Mapping[OnCircuit, Thing], light: LightFacts, heat: HeatYears
) -> tuple[EnergyFacts, ...]:
    """Everything that can be told, the greatest first."""
    found = [*always(things), *of_lamps(light)]
    if heat.years is not None:
        found += by_heat(plan, heat.years)
    return tuple(sorted(found, key=lambda one: -one.year.likely))


def uncounted_of(plan: Plan, things: Mapping[OnCircuit, Thing], heat: HeatYears) -> Iterator[str]:
    """What draws energy and is in no total."""
    if heat.years is None:
        yield from (thing.words for thing in things.values() if thing.item.kind in ("heater", "chiller"))
    yield from (thing.words for thing in things.values() if thing.item.kind == "fan")
    if plan.changes is not None and plan.changes.heater is not None:
        yield "the heater of new water"
    yield from (thing.words for thing in things.values() if thing.power is None)


def always(things: Mapping[OnCircuit, Thing]) -> Iterator[EnergyFacts]:
    """What runs day and night."""
    for item, thing in things.items():
        if item.kind in ("pump", "air", "device") and thing.power is not None:
            year = Estimate.exact(thing.power * YEAR, _ALWAYS)
            yield EnergyFacts(thing.words, year, f"{ON_TABLES[item.kind]}.{item.name}")


def of_lamps(light: LightFacts) -> Iterator[EnergyFacts]:
    """Lamps of the plan."""
    for lamp in light.lamps:
        year = Estimate.exact(lamp.energy, "by its hours and months")
        yield EnergyFacts(f"lamp {lamp.key}", year, f"lamps.{lamp.key}")


def by_heat(plan: Plan, years: YearFacts) -> Iterator[EnergyFacts]:
    """Electric heaters by what they yield, chillers by what they draw, the air heater, the fan of the vents."""
    total = sum(one.power * one.count for one in plan.heaters.values())
    for name, one in plan.heaters.items():
        if one.energy == "electric" and total > 0.0:
            share = one.power * one.count / total / one.yields
            yield EnergyFacts(f"heater {name}", years.heater.times(share), f"heaters.{name}")
    cooling = sum(one.cooling for one in plan.chillers.values())
    for name, machine in plan.chillers.items():
        share = machine.cooling / cooling * machine.draws / machine.cooling
        yield EnergyFacts(f"chiller {name}", years.chiller.times(share), f"chillers.{name}")
    if plan.building.air_heater is not None:
        yield EnergyFacts("air heater", years.air_heater, "building.air_heater")
    if years.fan.high > 0.0:
        yield EnergyFacts("fan of the vents", years.fan, "building.vents")
