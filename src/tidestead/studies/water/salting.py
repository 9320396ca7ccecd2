"""Salt and new water: dry mix for all of it and for a load, fresh water, hours of the membrane, money."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Estimate, Figure, Table
from tidestead.core.source import COMPUTED, PRACTICE, YOURS
from tidestead.core.units import SalinityReading, System, show
from tidestead.studies.checks import At, Limit, above, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.water.batches import batch_of
from tidestead.studies.water.blends import blend_working, blends_table
from tidestead.studies.water.instruments import (
    LEAST_PSU,
    MOST_PSU,
    instruments_of,
    readings_table,
    worst_mistake,
)
from tidestead.studies.water.salt_facts import Batch, SaltingFacts
from tidestead.studies.water.salt_steps import making_working, mix_working
from tidestead.studies.water.salt_tables import batches_table
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Supply, change_supply, factor_of, supplies_of, vat_of
from tidestead.studies.water.wording import between

AT = At("salt", "new seawater", "water", "salt")
NO_SOURCE = "the plan names no source of water: write [sources.NAME] with kind, flow and temperature"
_STOCK = "salt mix at hand, against half of all the water"
_SAME = 0.2
"""Mistakes of salinity under this are not told. Own choice."""


def impossible(plan_factor: Estimate, setting: Setting) -> str:
    """Why nothing can be mixed; empty where it can."""
    if setting.volume <= 0.0:
        return "no vessel with seawater has its sizes: write vessels.NAME.length, width and water"
    if setting.sal_psu <= 0.0:
        return "water.salinity is nothing: seawater is meant here, so write what is kept"
    if plan_factor.low < 1.0:
        return (
            f"salt.factor {plan_factor.low:g} is below 1: no mix holds more salt than it weighs; weigh again"
        )
    return ""


def salting_of(inputs: Inputs, setting: Setting) -> SaltingFacts:
    """From the plan's salt, its source for changes and its vat."""
    plan = inputs.plan
    factor, source = factor_of(plan)
    supply, vat = change_supply(plan), vat_of(plan)
    scales = tuple(instruments_of(setting))
    missing = impossible(factor, setting) or ("" if supply is not None else NO_SOURCE)
    if missing or supply is None:
        return SaltingFacts(missing, factor, source, supply, vat, instruments=scales)
    load = None if vat.missing else batch_of(plan, setting, supply, factor, vat.volume)
    whole = batch_of(plan, setting, supply, factor, setting.volume)
    return SaltingFacts("", factor, source, supply, vat, whole, load, scales)


def salting_section(inputs: Inputs, setting: Setting, facts: SaltingFacts) -> Section:
    """Figures, the table of loads, how instruments read; one check where the plan tells its stock of salt."""
    system = inputs.system
    scales = facts.instruments
    tables: tuple[Table, ...] = (readings_table(setting, scales, system),) if scales else ()
    if facts.whole is None or facts.supply is None:
        return Section(
            (Judged(unproven(AT, "mix", "salt mix for all the water", "kg", facts.missing, YOURS)),),
            tables=tables,
            cautions=(_mistaken(setting, facts),),
        )
    return Section(
        tuple(_stock(inputs, facts.whole)),
        tuple(_figures(facts, facts.whole)),
        (batches_table(inputs.plan, facts), *blends_table(inputs.plan, setting, system), *tables),
        (),
        tuple(_assumptions(inputs, facts)),
        (mix_working(facts, facts.whole), *making_working(facts), *blend_working(inputs.plan, setting)),
        tuple(_cautions(setting, facts)),
        (_told(facts, facts.whole, system),),
    )


def _stock(inputs: Inputs, whole: Batch) -> Iterator[Judged]:
    """Only where the plan says what is at hand: enough for the big change that an accident asks for."""
    stock = inputs.plan.salt.stock
    if stock is None:
        return
    row = table("water_limits")["change"]
    needed = row.si("big") * whole.recipe.mix.high
    limit = Limit(needed, row.figure("big").source, "mix for a change of half the water, if the mix is damp")
    advice = "more salt at hand: an accident asks for a change of half the water at once"
    yield Judged(above(AT, "stock", _STOCK, Estimate.exact(float(stock)), "kg", limit, advice=advice))


def _figures(facts: SaltingFacts, whole: Batch) -> Iterator[Figure]:
    yield Figure("water.salt.mix", "salt mix for all the water", whole.recipe.mix, "kg", COMPUTED)
    yield Figure(
        "water.salt.fresh", "water of the source for all of it", _exact(whole.recipe.source), "m3", COMPUTED
    )
    if whole.cost.salt is not None and whole.cost.currency:
        words = "cost of salt for all the water"
        yield Figure("water.salt.cost", words, whole.cost.salt, whole.cost.currency, YOURS)
    load = facts.load
    if load is None:
        return
    yield Figure("water.salt.load", "salt mix for a load of the vat", load.recipe.mix, "kg", COMPUTED)
    if load.making is not None:
        words = "time the source takes for a load"
        yield Figure("water.salt.load_time", words, _exact(load.making), "s", COMPUTED)
    if load.reject > 0.0:
        words = "water the membrane sends to waste for a load"
        yield Figure("water.salt.reject", words, _exact(load.reject), "m3", COMPUTED)
    if load.cost.total is not None:
        words = "cost of a load, unheated"
        yield Figure("water.salt.load_cost", words, load.cost.total, load.cost.currency, YOURS)


def _exact(value: float) -> Estimate:
    return Estimate.exact(value)


def _assumptions(inputs: Inputs, facts: SaltingFacts) -> Iterator[Assumption]:
    """The mix, and what is taken of every source: the first fill compares them all."""
    plan = inputs.plan
    if plan.salt.factor is None:
        one = facts.factor
        words = f"{one.likely:g} ({one.low:g} to {one.high:g})"
        why = "weight of a bought mix over the salt in it: dissolve a weighed amount, measure, write what came out"
        yield Assumption("salt.factor", words, why, facts.factor_source)
    yield from _reading("water.salinity", plan.water.salinity)
    for supply in supplies_of(plan).values():
        yield from _of_source(supply, inputs.system)
        yield from _reading(f"sources.{supply.key}.salinity", plan.sources[supply.key].salinity)


def _of_source(supply: Supply, system: System) -> Iterator[Assumption]:
    row, key = table("water_limits")["mixing"], f"sources.{supply.key}"
    if supply.assumed_temperature:
        words = show(supply.temp_c, "degC", system)
        why = "the coldest that the source may be"
        yield Assumption(f"{key}.temperature", words, why, row.figure("cold").source)
    if supply.assumed_share:
        why = "share of the water fed to the membrane that comes out good"
        yield Assumption(
            f"{key}.recovery", f"{100.0 * supply.share:.0f} %", why, row.figure("recovery").source
        )
    if supply.assumed_salinity:
        yield Assumption(f"{key}.salinity", f"{supply.sal_psu:g} psu", "the sea's usual salinity", PRACTICE)


def _reading(key: str, reading: SalinityReading | None) -> Iterator[Assumption]:
    """What was taken of a reading that does not say all that turns it into salinity."""
    if reading is not None and reading.meant.taken:
        yield Assumption(key, f"{reading.meant.psu:.2f} psu", reading.meant.taken, COMPUTED)


def _cautions(setting: Setting, facts: SaltingFacts) -> Iterator[str]:
    yield _mistaken(setting, facts)
    if facts.vat.missing:
        yield f"What a load of new water takes cannot be told: {facts.vat.missing}."
    if facts.whole is not None and facts.whole.cost.unpriced:
        keys = ", ".join(facts.whole.cost.unpriced)
        yield f"Cost of new water leaves out what has no price in the plan: write {keys}."


def _mistaken(setting: Setting, facts: SaltingFacts) -> str:
    """The mistakes that cost most, by how often they are met with."""
    if not facts.instruments:
        return (
            f"Scales for salinity go from {LEAST_PSU:g} to {MOST_PSU:g} psu: this water is kept outside them."
        )
    wrong = [(one.words, one.thought_psu - setting.sal_psu) for one in facts.instruments]
    sixty = next((off for words, off in wrong if "60 °F" in words), 0.0)
    table_salt = next((off for words, off in wrong if "sodium chloride" in words), 0.0)
    worst = worst_mistake(setting, facts.instruments)
    off = worst.thought_psu - setting.sal_psu
    first = (
        f"Salinity: a hydrometer for 15.56 °C (60 °F), read in the tank and taken for one of 25 °C (77 °F), is "
        f"{abs(sixty):.1f} off, a refractometer with a scale for table salt {abs(table_salt):.1f}"
    )
    if abs(off) < _SAME:
        return f"{first}."
    return f"{first}; the worst mistake of the table is {abs(off):.1f}. Find out which scale yours has."


def _told(facts: SaltingFacts, whole: Batch, system: System) -> str:
    mix = whole.recipe.mix
    words = f"All the water takes {between(mix, 'kg', system)} of salt mix"
    if whole.cost.salt is not None and whole.cost.currency:
        words += f" ({between(whole.cost.salt, whole.cost.currency, system)})"
    load = facts.load
    if load is None:
        return f"{words}."
    words += f"; a load of {show(load.volume, 'm3', system)} takes {between(load.recipe.mix, 'kg', system)}"
    if load.making is not None and facts.supply is not None and facts.supply.kind == "osmosis":
        cold = show(facts.supply.temp_c, "degC", system)
        words += (
            f", {show(load.making, 's', system)} of the membrane with water of {cold} and "
            f"{show(load.reject, 'm3', system)} to waste"
        )
    return f"{words}."
