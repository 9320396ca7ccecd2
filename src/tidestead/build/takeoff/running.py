"""Energy of a year by what takes it, with the ranges of the studies of heat, light and flow."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.findings import YEAR, Finding, Gap
from tidestead.build.takeoff.studied import Studies
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, Source
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Heater, Plan
from tidestead.studies.power.energy import always, by_heat, of_lamps
from tidestead.studies.power.facts import EnergyFacts
from tidestead.studies.power.things import things_of

ENERGY = Item("energy")


def energy_item(name: str, heater: Heater) -> Item:
    """What a heater takes: its fuel, current at a price of its own, or the energy that everything takes."""
    if heater.energy == "fuel":
        return Item(OWN, f"fuel of heater {name}")
    return ENERGY if heater.price is None else Item(ENERGY.sort, f"heater {name}")


def energy_taken(plan: Plan, studies: Studies) -> Iterator[Finding]:
    """A line for each consumer; of what no study tells, what is lacking."""
    things = things_of(plan, studies.flow)
    if studies.flow is None and plan.pumps:
        yield Gap(
            "circuits", "How the water goes round is not known: energy of pumps counts their full power."
        )
    for item, thing in things.items():
        if thing.power is None and item.kind in ("pump", "air"):
            table = "pumps" if item.kind == "pump" else "airpumps"
            yield Gap(
                f"{table}.{item.name}.power", f"Say what {thing.words} draws: its energy is not listed."
            )
    for one in always(things):
        yield _line(one, "its power in 8760 hours")
    yield from _light(plan, studies)
    yield from _heat(plan, studies)
    for name in plan.fans:
        yield Gap(f"fans.{name}", f"How long fan {name} runs is not counted: its energy is not listed.")


def _line(one: EnergyFacts, basis: str, item: Item = ENERGY, source: Source = COMPUTED) -> Line:
    words = f"{basis}; {one.year.basis}" if one.year.basis else basis
    return Line(item, one.year, "J", f"energy of {one.words}", one.key, "machines", "machines", "", words, source,
                yearly=True)  # fmt: skip


def _light(plan: Plan, studies: Studies) -> Iterator[Finding]:
    if studies.light is not None:
        for one in of_lamps(studies.light):
            yield _line(one, "by the study of light")
    elif plan.lamps:
        yield Gap("lamps", "The light of the year is not known: energy of lamps is not listed.")


def _heat(plan: Plan, studies: Studies) -> Iterator[Finding]:
    years = None if studies.heat is None else studies.heat.years
    if years is None:
        building = plan.building
        if plan.heaters or plan.chillers or building.air_heater is not None or building.vents is not None:
            why = "" if studies.heat is None else "; ".join(studies.heat.missing)
            words = "The year of heat is not known: energy of heaters, chillers and fans is not listed"
            yield Gap("heaters", f"{words}: {why}." if why else f"{words}.")
        return
    own = {f"heaters.{name}": energy_item(name, heater) for name, heater in plan.heaters.items()}
    for one in by_heat(plan, years):
        yield _line(one, "by the year of heat", own.get(one.key, ENERGY))
    total = sum(one.power * one.count for one in plan.heaters.values())
    for name, heater in plan.heaters.items():
        if heater.energy == "fuel" and total > 0.0:
            burnt = years.heater.times(heater.power * heater.count / total / heater.yields)
            what = f"fuel of heater {name}"
            key = f"heaters.{name}"
            yield Line(own[key], burnt, "J", what, key, "machines", "machines", heater.vessel,
                       "by the year of heat", COMPUTED, yearly=True)  # fmt: skip


def heat_of_changes(plan: Plan, studies: Studies) -> Iterator[Line]:
    """Energy that warms new water for changes through a year."""
    matters = None if studies.water is None else studies.water.matters
    usual = None if matters is None else matters.changing.usual
    if plan.changes is None or usual is None or usual.heat <= 0.0:
        return
    times = YEAR / plan.changes.every
    basis = f"{times:.1f} changes in a year; heat that the vat loses is not counted"
    year = Estimate.exact(times * usual.loads * usual.heat)
    yield Line(ENERGY, year, "J", "energy that warms new water", "changes.heater", "water", "water", "", basis,
               PRACTICE, yearly=True)  # fmt: skip
