"""The answer put together: warm enough, cool enough, what it takes, what decides it, how sure that is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tidestead.core.answer import Answer, Assumption, Check, Series, Working
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.studies.heat.checks import judged
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.heat.figures import figures_of
from tidestead.studies.heat.plots import charts_of
from tidestead.studies.heat.steps import SIGNS, shared_workings
from tidestead.studies.heat.tables import tables_of
from tidestead.studies.heat.wording import (
    between,
    count_between,
    in_units,
    money_between,
    price_of_heat,
    temp,
    year_words,
)
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import governing, told_of

QUESTION = "Will it stay warm, and not get too warm?"

ALWAYS = (
    "Heaters and pumps near seawater: residual-current device (ground-fault interrupter), drip loops, a licensed "
    "electrician; heaters never run dry; local codes govern. Fuel burners: a flue, and an alarm for carbon monoxide.",
    "Water and air are each taken as mixed. Walls conduct straight through: studs, corners and frames lose some more. "
    "Drops on the sheet, snow on the roof and trees or houses that shade it are left out.",
    "No measured tank was found to hold this to, but published test rooms, balances by hand and a general solver. "
    "Log water, air and heater hours from the first week on; they are worth more than any model.",
)


def tell(inputs: Inputs, facts: HeatFacts) -> Answer:
    """The whole answer."""
    plan, system = inputs.plan, inputs.system
    facts = _in_units(facts, system)
    found = judged(plan, facts, system)
    checks = tuple(one.check for one in found)
    return Answer(
        "heat",
        QUESTION,
        sentence(plan, facts, checks, system),
        checks,
        tuple(figures_of(plan, facts)),
        (*facts.assumptions, *_weather(facts)),
        tuple(_workings(facts, [one.working for one in found if one.steps])),
        tables_of(plan, facts),
        tuple(_series(facts)),
        cautions=(*facts.notes, *_damp(facts), *ALWAYS),
        charts=charts_of(plan, facts, system),
        governs=governing(checks, _CAUSES).id if checks else "",
    )


def _in_units(facts: HeatFacts, system: System) -> HeatFacts:
    """The facts with the names of all that was tried in the reader's units."""
    ranks = tuple(
        replace(
            one,
            step=in_units(one.step, system),
            less_words=in_units(one.less_words, system),
            more_words=in_units(one.more_words, system),
        )
        for one in facts.ranks
    )
    improvements = tuple(replace(one, name=in_units(one.name, system)) for one in facts.improvements)
    tried = tuple(replace(one, name=in_units(one.name, system)) for one in facts.tried)
    return replace(facts, ranks=ranks, improvements=improvements, tried=tried)


_DAMP_HOURS = 1000.0
"""Hours of a year over which damp timber is warned of. Own choice."""


def _damp(facts: HeatFacts) -> Iterator[str]:
    """What long dampness at the timber asks for."""
    if facts.indoors and facts.years is not None and sum(facts.years.damp.likely) > _DAMP_HOURS:
        hours = sum(facts.years.damp.likely)
        yield (
            f"Timber inside is damp (over 80 % at its face) for {hours:.0f} hours of a year: mould "
            "grows on it and rot may. Lead drips away from timber, close its warm side with a vapour barrier, keep "
            "air moving behind it, cover the water, and look at it every visit."
        )


def _workings(facts: HeatFacts, of_checks: Sequence[Working]) -> Iterator[Working]:
    if facts.years is not None:
        yield from shared_workings(facts)
    yield from of_checks


def sentence(plan: Plan, facts: HeatFacts, checks: Sequence[Check], system: System) -> str:
    """Warm enough and cool enough, by how much; nights and energy; what decides; what a power cut leaves."""
    years = facts.years
    if years is None:
        return " ".join(told_of(checks, system))
    opening = [
        f"Over {years.words} the water stays between {temp(years.coldest.low, system)} and "
        f"{temp(years.hottest.high, system)}."
    ]
    words = [
        *told_of(checks, system, opening, causes=_CAUSES),
        *_held_down(facts, system),
        *_energy(plan, facts, years, system),
    ]
    return " ".join([*words, *_cut(facts, system)])


_CAUSES = ("heaters.size", "water.coldest", "water.spell", "water.warmest", "water.wave", "heaters.stuck")
"""Ends of checks in the order in which they are told: water that is too warm anyway makes every stuck heater fail."""

_ADDED = ("with a ", "with both")


def _held_down(facts: HeatFacts, system: System) -> Iterator[str]:
    """What the cold spell comes to; what limits the warmest water: what of the plan, taken away, lets it rise most."""
    spell, years = facts.spell, facts.years
    if spell is not None and years is not None and spell.lowest.low < years.coldest.low - 0.2:
        yield f"The cold spell takes it to {temp(spell.lowest.low, system)}."
    without = [one for one in facts.tried[1:] if not one.name.startswith(_ADDED)]
    if not without:
        return
    most = max(without, key=lambda one: one.highest)
    planned = facts.tried[0].highest
    if most.highest > planned + 0.2:
        yield f"The heat wave takes it to {temp(planned, system)}, {most.name} to {temp(most.highest, system)}."


def _energy(plan: Plan, facts: HeatFacts, years: YearFacts, system: System) -> Iterator[str]:
    """Nights, energy, money, and the two things that move them most."""
    if facts.heater_power <= 0.0:
        return
    price = price_of_heat(plan)
    money = "" if price is None else f", {money_between(years.heater, price, system)}"
    nights = count_between(years.nights)
    yield f"Heaters run in {nights} nights of a year and give {between(years.heater, 'J', system)}{money}."
    if len(facts.ranks) > 1:
        yield f"That hangs most on {facts.ranks[0].name}, then on {facts.ranks[1].name}."
    alone = [one for one in facts.improvements[1:] if "setpoint" not in one.name]
    best = sorted(alone, key=lambda one: one.heater)
    if best and best[0].heater < facts.improvements[0].heater:
        share = 100.0 * (1.0 - best[0].heater / facts.improvements[0].heater)
        yield f"Apart from a lower setpoint, {best[0].name} saves most of what was tried alone, {share:.0f} %."


def _cut(facts: HeatFacts, system: System) -> Iterator[str]:
    cut = facts.cut
    if cut is None:
        return
    fell = f"falls to {temp(cut.water[24], system)} in a day"
    if cut.to_harm == 0.0:
        yield f"The cold spell takes the water to {temp(cut.start_c, system)}, which does harm, without any power cut."
    elif cut.to_harm is None:
        yield f"If the power fails in the cold spell the water {fell} and does not come to harm by cold in five days."
    else:
        low, high = (f"{end:.0f}" for end in (cut.harm.low, cut.harm.high))
        covered = "not within 5 days" if cut.covered_to_harm is None else f"{cut.covered_to_harm:.0f} h"
        yield (
            f"If the power fails in the cold spell the water {fell} and comes to harm by cold after "
            f"{low if low == high else f'{low} to {high}'} h; covered at once, {covered}."
        )


def _series(facts: HeatFacts) -> Iterator[Series]:
    """By day: the band of the years, and the balance of the median year, which closes from these numbers alone."""
    years = facts.years
    if years is None:
        return
    days = tuple(float(day + 1) for day in range(len(years.days.likely)))
    yield Series("heat.water", "water, mean of the day", "day of the year", "count", "degC", days,
                 years.days.likely, years.days.low, years.days.high)  # fmt: skip
    typical = years.typical
    note = year_words(typical.label)
    for name, (_, words) in SIGNS.items():
        yield Series(f"heat.balance.{name[2:]}", f"{words}, {note}", "day of the year", "count", "W", days,
                     typical.balance[name])  # fmt: skip
    yield Series("heat.balance.stored", f"stored in the water, {note}", "day of the year", "count", "W", days,
                 typical.balance["w_stored"])  # fmt: skip
    yield Series("heat.balance.end", f"all the water at the end of the day, {note}; before the first "
                 f"{typical.start_c:.6f}", "day of the year", "count", "degC", days, typical.end_c)  # fmt: skip
    yield Series("heat.air", f"air inside, mean of the day, {note}", "day of the year", "count", "degC", days,
                 typical.air)  # fmt: skip


def _weather(facts: HeatFacts) -> Iterator[Assumption]:
    """Where the weather comes from stands with what the answer rests on."""
    if facts.weather_source is not None:
        words = f"{facts.weather_words}; {facts.years.words}" if facts.years else facts.weather_words
        yield Assumption("weather", words, "", facts.weather_source)
