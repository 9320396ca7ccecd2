"""Totals of the heat study that have no limit: energy, money, nights, water that leaves, damp, losses."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from tidestead.core.answer import Estimate, Figure
from tidestead.core.source import COMPUTED
from tidestead.plan.model import Plan
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.heat.wording import JOULE_KWH, cost, price_of_heat


def figures_of(plan: Plan, facts: HeatFacts) -> Iterator[Figure]:
    """All of them."""
    if facts.years is None:
        return
    yield from _energies(plan, facts, facts.years)
    yield from _water(facts, facts.years)
    yield from _days(plan, facts.years)
    yield from _losses(facts)


def _energies(plan: Plan, facts: HeatFacts, years: YearFacts) -> Iterator[Figure]:
    """What heaters, chillers and fans take, and what it costs."""
    if plan.heaters:
        yield Figure("heat.heaters.energy", "heat that heaters give in a year", years.heater, "J", COMPUTED)
        price = price_of_heat(plan)
        if price is not None:
            low, likely, high = (
                float(cost(end, price)) for end in (years.heater.low, years.heater.likely, years.heater.high)
            )
            money = Estimate(low, likely, high, years.heater.basis)
            yield Figure("heat.heaters.cost", "cost of that", money, price[1], COMPUTED)
        yield Figure("heat.heaters.nights", "nights on which a heater runs", years.nights, "count", COMPUTED)
    elif facts.spell is not None:
        words = f"heaters that would hold the cold spell, its load times {facts.spell.margin:g}"
        yield Figure("heat.heaters.needed", words, facts.spell.needed, "W", COMPUTED)
    if plan.building.air_heater is not None:
        words = "heat that the air heater gives in a year"
        yield Figure("heat.air_heater.energy", words, years.air_heater, "J", COMPUTED)
        tariff = plan.supplies.tariff
        if tariff is not None:
            money = years.air_heater.times(float(tariff.amount) / JOULE_KWH)
            yield Figure("heat.air_heater.cost", "cost of that, electric", money, tariff.currency, COMPUTED)
    if plan.chillers:
        words = "heat that chillers take in a year"
        yield Figure("heat.chillers.energy", words, years.chiller, "J", COMPUTED)
        draws, cools = (
            sum(getattr(one, key) for one in plan.chillers.values()) for key in ("draws", "cooling")
        )
        words = "electricity that they draw for it"
        electric = years.chiller.times(draws / cools)
        yield Figure("heat.chillers.draws", words, electric, "J", COMPUTED)
        if plan.supplies.tariff is not None:
            money = electric.times(float(plan.supplies.tariff.amount) / JOULE_KWH)
            yield Figure("heat.chillers.cost", "cost of that", money, plan.supplies.tariff.currency, COMPUTED)
    if years.fan.high > 0.0:
        yield Figure("heat.vents.energy", "electricity of the vents' fan in a year", years.fan, "J", COMPUTED)


def _water(facts: HeatFacts, years: YearFacts) -> Iterator[Figure]:
    """What evaporates and what settles on glazing and timber."""
    wide = replace(years.evaporation.whole(1.0 / 12000.0), basis=years.evaporation.basis)
    words = "fresh water that evaporates, mean of the year"
    yield Figure("heat.evaporation", words, wide, "m3/s", COMPUTED, "day")
    if not facts.indoors:
        return
    words = "water that condenses on the glazing in a year"
    yield Figure("heat.condensate", words, years.condensed.times(1e-3), "m3", COMPUTED)
    wet, damp = years.wet.whole(3600.0), years.damp.whole(3600.0)
    yield Figure("heat.glazing.wet", "time with wet glazing in a year", wet, "s", COMPUTED)
    yield Figure("heat.timber.damp", "time with damp timber in a year", damp, "s", COMPUTED)


def _days(plan: Plan, years: YearFacts) -> Iterator[Figure]:
    if plan.water.keep is not None:
        words = "days of a year that dip below what is kept"
        yield Figure("heat.days.cold", words, years.cold_days, "count", COMPUTED)
        yield Figure(
            "heat.days.warm", "days of a year that rise above it", years.warm_days, "count", COMPUTED
        )


def _losses(facts: HeatFacts) -> Iterator[Figure]:
    """The back of the envelope, and the power cut."""
    winter, cut = facts.winter, facts.cut
    if winter is not None:
        words = f"loss, water to outdoors, in {winter.month}"
        yield Figure("heat.loss", words, Estimate.exact(winter.loss), "W/K", COMPUTED)
        if math.isfinite(winter.idle):
            words = f"loss up to which heaters would be idle on average in {winter.month}"
            yield Figure("heat.loss.idle", words, Estimate.exact(winter.idle), "W/K", COMPUTED)
    if cut is not None and cut.to_harm and cut.harm.finite:
        words = "time from a power cut in the cold spell to harm by cold"
        yield Figure("heat.cut.harm", words, cut.harm.times(3600.0), "s", COMPUTED)
