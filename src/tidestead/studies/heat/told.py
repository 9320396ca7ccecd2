"""The answer put together: warm enough, cool enough, what it takes, what decides it, how sure that is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.core.answer import Answer, Assumption, Check, Estimate, Figure, Series, Working
from tidestead.core.source import COMPUTED
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.studies.heat.checks import judged
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.heat.plots import charts_of
from tidestead.studies.heat.rates import spread_of
from tidestead.studies.heat.steps import SIGNS, shared_workings
from tidestead.studies.heat.tables import tables_of
from tidestead.studies.heat.wording import between, cost, hours_words, price_of_heat, temp
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import told_of

QUESTION = "Will it stay warm, and not get too warm?"

ALWAYS = (
    "Heaters and pumps near seawater: residual-current device (ground-fault interrupter), drip loops, a licensed "
    "electrician; heaters never run dry; local codes govern. Fuel burners: a flue, and an alarm for carbon monoxide.",
    "Water and air are each taken as mixed. Walls conduct straight through: studs, corners and frames lose some more. "
    "Drops on the sheet, snow on the roof and trees or houses that shade it are left out.",
    "No measured tank was found to hold this to, but two published test rooms, balances by hand and a general solver. "
    "Log water, air and heater hours from the first week on; they are worth more than any model.",
)


def tell(inputs: Inputs, facts: HeatFacts) -> Answer:
    """The whole answer."""
    plan, system = inputs.plan, inputs.system
    found = judged(plan, facts, system)
    checks = tuple(one.check for one in found)
    return Answer(
        "heat",
        QUESTION,
        sentence(plan, facts, checks, system),
        checks,
        tuple(_figures(plan, facts)),
        (*facts.assumptions, *_weather(facts)),
        tuple(_workings(facts, [one.working for one in found if one.steps])),
        tables_of(plan, facts),
        tuple(_series(facts)),
        cautions=(*ALWAYS, *_damp(facts), *facts.notes),
        charts=charts_of(plan, facts, system),
    )


_DAMP_HOURS = 1000.0


def _damp(facts: HeatFacts) -> Iterator[str]:
    """What long dampness at the timber asks for."""
    if facts.years is not None and sum(facts.years.damp.likely) > _DAMP_HOURS:
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
        *told_of(checks, system, opening),
        *_held_down(facts, system),
        *_energy(plan, facts, years, system),
    ]
    return " ".join([*words, *_cut(facts, system)])


_ADDED = ("with a ", "with both")


def _held_down(facts: HeatFacts, system: System) -> Iterator[str]:
    """What limits the warmest water: what of the plan, taken away, lets it rise most in the heat wave."""
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
    money = ""
    if price is not None:
        low, high = cost(years.heater.low, price), cost(years.heater.high, price)
        money = f", {low} to {high} {price[1]}"
    nights = f"{years.nights.low:.0f} to {years.nights.high:.0f}"
    yield (f"Heaters run in {nights} nights of a year and give {between(years.heater, 'J', system)}{money}.")
    if len(facts.ranks) > 1:
        yield f"That hangs most on {facts.ranks[0].name}, then on {facts.ranks[1].name}."
    best = sorted(facts.improvements[1:-2], key=lambda one: one.heater)
    if best and facts.improvements[0].heater > 0.0:
        share = 100.0 * (1.0 - best[0].heater / facts.improvements[0].heater)
        yield f"Of what was tried alone {best[0].name} saves most, {share:.0f} % of it."


def _cut(facts: HeatFacts, system: System) -> Iterator[str]:
    cut = facts.cut
    if cut is None:
        return
    fell = f"falls to {temp(cut.water[24], system)} in a day"
    if cut.to_harm is None:
        yield f"If the power fails in the cold spell the water {fell} and does not come to harm by cold in five days."
    else:
        covered = hours_words(cut.covered_to_harm)
        yield (
            f"If the power fails in the cold spell the water {fell} and comes to harm by cold after "
            f"{hours_words(cut.to_harm)}; covered at once, {covered if cut.covered_to_harm else 'not within 5 days'}."
        )


def _figures(plan: Plan, facts: HeatFacts) -> Iterator[Figure]:
    """Totals without a limit."""
    years = facts.years
    if years is None:
        return
    yield Figure("heat.heaters.energy", "heat that heaters give in a year", years.heater, "J", COMPUTED)
    price = price_of_heat(plan)
    if price is not None:
        ends = [float(cost(end, price)) for end in (years.heater.low, years.heater.likely, years.heater.high)]
        money = Estimate(ends[0], ends[1], ends[2], years.heater.basis)
        yield Figure("heat.heaters.cost", "cost of that", money, price[1], COMPUTED)
    yield Figure("heat.heaters.nights", "nights on which a heater runs", years.nights, "count", COMPUTED)
    if plan.chillers:
        yield Figure(
            "heat.chillers.energy", "heat that chillers take in a year", years.chiller, "J", COMPUTED
        )
    if years.fan.high > 0.0:
        yield Figure("heat.vents.energy", "electricity of the vents' fan in a year", years.fan, "J", COMPUTED)
    mean = years.evaporation.whole(1.0 / 12000.0)
    low, high = spread_of(facts.rates)
    wide = Estimate(mean.low * low, mean.likely, mean.high * high, "years, and three correlations")
    yield Figure(
        "heat.evaporation", "fresh water that evaporates, mean of the year", wide, "m3/s", COMPUTED, "day"
    )
    yield Figure(
        "heat.condensate", "water that condenses on the glazing in a year", years.condensed, "kg", COMPUTED
    )
    wet = years.wet.whole(3600.0)
    yield Figure("heat.glazing.wet", "hours with wet glazing in a year", wet, "s", COMPUTED)
    damp = years.damp.whole(3600.0)
    yield Figure("heat.timber.damp", "hours with damp timber in a year", damp, "s", COMPUTED)
    if plan.water.keep is not None:
        yield Figure(
            "heat.days.cold", "days of a year that dip below what is kept", years.cold_days, "count", COMPUTED
        )
        yield Figure(
            "heat.days.warm", "days of a year that rise above it", years.warm_days, "count", COMPUTED
        )
    if facts.winter is not None:
        words = f"loss, water to outdoors, in {facts.winter.month}"
        yield Figure("heat.loss", words, Estimate.exact(facts.winter.loss), "W/K", COMPUTED)
        words = f"loss up to which heaters would be idle on average in {facts.winter.month}"
        yield Figure("heat.loss.idle", words, Estimate.exact(facts.winter.idle), "W/K", COMPUTED)
    if facts.cut is not None and facts.cut.to_harm is not None:
        words = "time from a power cut in the cold spell to harm by cold"
        yield Figure("heat.cut.harm", words, Estimate.exact(3600.0 * facts.cut.to_harm), "s", COMPUTED)
    yield Figure(
        "heat.closure", "worst gap in the balance of any step", Estimate.exact(years.closure), "1", COMPUTED
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
    note = f"year {typical.label}"
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
