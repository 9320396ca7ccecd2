"""Plots of the heat study: the year, the balance, what decides, the power cut, water that leaves, damp."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.charts import (
    BarChart,
    Bars,
    Chart,
    Curve,
    LineChart,
    Mark,
    Part,
    RankChart,
    Ranked,
    StackChart,
    Wanted,
)
from tidestead.core.months import MONTHS
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.heat.facts import HeatFacts, Spread, YearFacts
from tidestead.studies.heat.steps import SIGNS
from tidestead.studies.heat.wording import between, days_words, hours_words, temp

_MOST_LINES = 6
"""That a line chart can tell apart."""

_RIBBON = "P10 to P90 of the years, eight in ten"


def charts_of(plan: Plan, facts: HeatFacts, system: System) -> tuple[Chart, ...]:
    """Every plot that has something to show."""
    if facts.years is None:
        return ()
    found: list[Chart] = [
        _year(plan, facts.years, system), _balance(facts.years), _evaporation(facts.years, system),
    ]  # fmt: skip
    if facts.indoors:
        found.append(_damp(facts.years))
    if len(facts.ranks) > 1:
        found.append(_ranks(facts, facts.years))
    if facts.cut is not None:
        found.append(_cut(facts, system))
    if facts.tried:
        found.append(_wave(facts, system))
    return tuple(found)


def _year(plan: Plan, years: YearFacts, system: System) -> LineChart:
    days = tuple(day + 0.5 for day in range(len(years.days.likely)))
    keep = plan.water.keep
    told = (
        f"Daily mean of the water over a year, {years.words}. The checks judge single hours, which go further: coldest "
        f"of a year {between(years.coldest, 'degC', system)}, "
        f"warmest {between(years.hottest, 'degC', system)}."
    )
    curve = Curve("water, mean of the day", days, years.days.likely, years.days.low, years.days.high)
    ends = (("warmest", years.hottest.high), ("coldest", years.coldest.low))
    beside = [end for _, end in ends] + list(keep or ())
    judged = tuple(
        Curve(f"{words} hour at worst, {show(end, 'degC', system, '', beside)}", (0.0, 365.0), (end, end))
        for words, end in ends
    )
    wanted = None if keep is None else Wanted(keep[0], keep[1], "kept")
    return LineChart(
        "heat.year", "Temperature of the water over the year: means of the day, and the hours that are judged", told,
        "water", "degC", (curve, *judged), "days", ribbon=_RIBBON, wanted=wanted,
    )  # fmt: skip


def _balance(years: YearFacts) -> StackChart:
    parts = tuple(
        Part(words, years.balance[name])
        for name, (_, words) in SIGNS.items()
        if max(map(abs, years.balance[name])) > 0.5
    )
    gains = sum(max(value, 0.0) for part in parts for value in part.values) / 12.0
    most = max(parts, key=lambda part: sum(part.values))
    least = min(parts, key=lambda part: sum(part.values))
    told = (
        f"Heat into and out of the water by month, {gains:.0f} W each way in the mean of the year. Most comes from: "
        f"{most.name}; most goes by: {least.name}."
    )
    return StackChart(
        "heat.balance", "Where the water's heat comes from and goes to", told, "heat", "W", parts
    )


def _evaporation(years: YearFacts, system: System) -> BarChart:
    low, likely, high = (tuple(value / 1000.0 for value in part) for part in years.evaporation.parts)
    rates = Spread(low, likely, high)
    most = max(range(12), key=rates.likely.__getitem__)
    peak = show(rates.likely[most], "m3/s", system, "day")
    told = f"Fresh water that evaporates, most in {MONTHS[most]} with {peak}."
    bars = Bars("evaporation", rates.likely, rates.low, rates.high)
    return BarChart(
        "heat.evaporation", "Water that evaporates, by month", told, "evaporation", "m3/s", (bars,),
        ribbon=years.evaporation.basis, style="day",
    )  # fmt: skip


def _damp(years: YearFacts) -> BarChart:
    groups = (
        Bars("glazing wet", tuple(hours * 3600.0 for hours in years.wet.likely)),
        Bars("timber damp", tuple(hours * 3600.0 for hours in years.damp.likely)),
    )
    told = (
        f"Time with wet glazing {days_words(sum(years.wet.likely))}, and with timber over 80 % humidity at its inner "
        f"face {days_words(sum(years.damp.likely))}, in a median year."
    )
    return BarChart("heat.damp", "Time with wet glazing and damp timber, by month", told, "time", "s", groups)


def _ranks(facts: HeatFacts, years: YearFacts) -> RankChart:
    middle = facts.improvements[0].heater if facts.improvements else years.heater.likely
    rows = tuple(Ranked(f"{one.name}, {one.step}", one.less, one.more) for one in facts.ranks)
    told = (
        f"What moves the heaters' energy of a year most: {facts.ranks[0].name}, then {facts.ranks[1].name}."
    )
    return RankChart(
        "heat.ranks", "What decides the heaters' energy", told, "heaters, a year", "J", middle, rows
    )


def _cut(facts: HeatFacts, system: System) -> LineChart:
    cut = facts.cut
    assert cut is not None, "asked only where there is one"
    hours = tuple(3600.0 * hour for hour in range(len(cut.water)))
    curves = (
        Curve("as planned", hours, cut.water),
        Curve("nine tenths covered at once", hours, cut.covered),
        Curve("by hand's formula", hours, cut.formula),
    )
    limits = (Mark(cut_level("act"), "act"), Mark(cut_level("harm"), "harm"))
    told = (
        f"The power fails in the cold spell, outdoors {temp(cut.outdoors_c, system)}: water falls to "
        f"{temp(cut_level('harm'), system)} in {hours_words(cut.to_harm)}, covered in "
        f"{hours_words(cut.covered_to_harm)}."
    )
    return LineChart(
        "heat.cut", "The water cools when the power fails", told, "water", "degC", curves, "number",
        along="time without power", along_unit="s", limits=limits,
    )  # fmt: skip


def cut_level(name: str) -> float:
    """Temperatures at which cold water is acted on and does harm."""
    return table("heat_limits")["cold"].si(name)


def _wave(facts: HeatFacts, system: System) -> LineChart:
    told = "Warmest water in the heat wave: " + "; ".join(
        f"{one.name} {temp(one.highest, system)}" for one in facts.tried
    )
    curves = tuple(
        Curve(one.name, tuple(3600.0 * (hour + 1) for hour in range(len(one.water))), one.water)
        for one in facts.tried[:_MOST_LINES]
    )
    limits = (Mark(table("heat_limits")["hot"].si("act"), "act"),)
    return LineChart(
        "heat.wave", "The heat wave, with and without", f"{told}.", "water", "degC", curves, "number",
        along="time round the heat wave", along_unit="s", limits=limits,
    )  # fmt: skip
