"""Totals: flow, energy, money, volumes."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Figure
from tidestead.core.source import COMPUTED, YOURS
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts


def figures_of(plan: Plan, facts: FlowFacts) -> tuple[Figure, ...]:
    """Figures of every pump, and of the system."""
    found: list[Figure] = []
    for pump in facts.pumps:
        key, words = f"flow.pumps.{pump.name}", f"pump {pump.name}"
        found.append(Figure(f"{key}.flow", f"{words}: flow", pump.spread, "m3/s", COMPUTED))
        head = Estimate.exact(pump.head)
        found.append(Figure(f"{key}.head", f"{words}: head", head, "m", COMPUTED, "head"))
        if pump.energy_month is not None:
            energy = Estimate.exact(pump.energy_month)
            found.append(Figure(f"{key}.energy", f"{words}: energy a month", energy, "J", YOURS))
        if pump.efficiency is not None:
            share = Estimate.exact(pump.efficiency)
            found.append(
                Figure(f"{key}.efficiency", f"{words}: share of its power in the water", share, "1", COMPUTED)
            )
        if pump.cost_month is not None and plan.supplies.tariff is not None:
            money = Estimate.exact(float(pump.cost_month))
            unit = plan.supplies.tariff.currency
            found.append(Figure(f"{key}.cost", f"{words}: cost a month", money, unit, YOURS))
    for stop in facts.stops:
        for key, course in zip(("working", "worst", "other"), stop.courses, strict=False):
            words = f"power stop, {course.name}: until {stop.sump} is highest"
            time = Estimate.exact(course.time_highest(stop.sump))
            ident = stop.ident("flow.stop", facts.stops)
            found.append(Figure(f"{ident}.{key}.time", words, time, "s", COMPUTED))
    if facts.solved:
        volume = Estimate.exact(facts.system_volume)
        found.append(Figure("flow.volume", "water of the system", volume, "m3", COMPUTED))
    return tuple(found)
