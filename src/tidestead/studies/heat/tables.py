"""Tables of the heat study."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from tidestead.core.answer import Column, Table
from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.plan.model import Plan
from tidestead.studies.heat.bleaching import bleaching_table, warmest_month
from tidestead.studies.heat.facts import HeatFacts, Spread, YearFacts
from tidestead.studies.heat.steps import SIGNS
from tidestead.studies.heat.wording import JOULE_KWH, price_of_heat


def tables_of(plan: Plan, facts: HeatFacts) -> tuple[Table, ...]:
    """Every table that has rows."""
    if facts.years is None:
        return ()
    found = [
        _months(facts.years), *([_dampness(facts.years)] if facts.indoors else []),
        *_balance(facts.years), _improvements(plan, facts), _ranks(facts), _wave(facts), *_bleaching(plan, facts),
        _stuck(facts),
        _rates(facts), _cut(facts),
    ]  # fmt: skip
    return tuple(table for table in found if table.rows)


def _months(years: YearFacts) -> Table:
    columns = (
        Column("month"),
        Column("coolest day", "degC"),
        Column("warmest day", "degC"),
        Column("heaters", "J"),
        Column("evaporation", "m3/s", "day"),
        Column("P10", "m3/s", "day"),
        Column("P90", "m3/s", "day"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    first = 0
    for month, name in enumerate(MONTHS):
        days = slice(first, first + MONTH_DAYS[month])
        first += MONTH_DAYS[month]
        rows.append(
            (
                name,
                min(years.days.low[days]),
                max(years.days.high[days]),
                max(years.balance["w_heaters"][month], 0.0) * 86400.0 * MONTH_DAYS[month],
                *(part[month] / 1000.0 for part in _middle_first(years.evaporation)),
            )
        )
    note = (
        f"{years.words.capitalize()}. Days are daily means, P10 of the coolest and P90 of the warmest day over the "
        "years; heaters are the mean, evaporation the median. P10 and P90: one year in ten lies below the first, "
        "one in ten above the second."
    )
    return Table("heat.months", "Month by month", columns, tuple(rows), note)


def _middle_first(spread: Spread) -> tuple[tuple[float, ...], ...]:
    return spread.likely, spread.low, spread.high


def _dampness(years: YearFacts) -> Table:
    columns = (
        Column("month"), Column("humidity", "1", "share"), Column("wet glazing", "s"), Column("damp timber", "s"),
    )  # fmt: skip
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (
            name,
            years.humidity.likely[month],
            years.wet.likely[month] * 3600.0,
            years.damp.likely[month] * 3600.0,
        )
        for month, name in enumerate(MONTHS)
    )
    note = (
        "Medians of the years. Wet: any of the glazing below the dew point of the air; what condenses is counted as "
        "running off. Damp: over 80 % humidity at the inner face of the weakest timber wall. Air at 100 % means fog."
    )
    return Table("heat.dampness", "Damp, month by month", columns, rows, note)


_OUT = ("w_chillers", "w_evaporation", "w_air", "w_rays", "w_sides", "w_topped_up", "w_stored")
"""Parts of the balance that as a rule take heat out of the water, and what is left to warm it."""


def _balance(years: YearFacts) -> Iterator[Table]:
    """Two tables, for one would be too wide for a page."""
    words = {name: said for name, (_, said) in SIGNS.items()} | {"w_stored": "stored"}
    shown = [name for name in words if any(years.balance[name])]
    halves = (
        ("heat.gains", "Where the water's heat comes from", [name for name in shown if name not in _OUT], ""),
        ("heat.losses", "Where the water's heat goes to", [name for name in shown if name in _OUT], _BALANCE),
    )
    for ident, title, names, note in halves:
        columns = (Column("month"), *(Column(words[name], "W") for name in names))
        rows: tuple[tuple[float | str | None, ...], ...] = tuple(
            (month, *(years.balance[name][at] for name in names)) for at, month in enumerate(MONTHS)
        )
        yield Table(ident, title, columns, rows, note)


_BALANCE = (
    "Heat into all the water, mean of the month and of the years; below nothing it leaves. Stored: the sum of both "
    "tables, by which the water warms (or cools). One latent heat, that at 25 °C (77 °F), is used at all temperatures."
)


def _improvements(plan: Plan, facts: HeatFacts) -> Table:
    price = price_of_heat(plan)
    columns = (
        Column("what"), Column("heaters, a year", "J"), Column("saved", "J"),
        *((Column(f"saved, {price[1]} a year"),) if price else ()), Column("warmest water", "degC"),
    )  # fmt: skip
    rows: list[tuple[float | str | None, ...]] = []
    base = facts.improvements[0].heater if facts.improvements else 0.0
    for one in facts.improvements:
        saved = base - one.heater
        money = () if price is None else (f"{Decimal(str(saved / JOULE_KWH)) * price[0]:.0f}",)
        rows.append((one.name, one.heater, saved, *money, one.hottest))
    note = (
        "In the year of median energy, in coarser steps than elsewhere. Energy at the plan's tariff; what an "
        "improvement costs, and so when it has paid for itself, comes with prices of things. What changes nothing is "
        "left out. A cover or better glazing may make summers warmer."
    )
    if len(rows) < 2:
        rows = []
    return Table("heat.improvements", "What each improvement would save", columns, tuple(rows), note)


def _ranks(facts: HeatFacts) -> Table:
    columns = (
        Column("what"), Column("where it is"), Column("heaters, a year", "J"), Column("or"), Column("then", "J"),
    )  # fmt: skip
    rows = tuple((one.name, one.less_words, one.less, one.more_words, one.more) for one in facts.ranks)
    return Table("heat.ranks", "What decides the heaters' energy, the greatest first", columns, rows)


def _wave(facts: HeatFacts) -> Table:
    columns = (Column("heat wave"), Column("warmest water", "degC"))
    rows = tuple((one.name, one.highest) for one in facts.tried)
    note = (
        "Laid over the warmest days of the warmest of the years, under a clear sky. A fan needs vents that carry its "
        "vapour off, and costs top-off water; the chiller that is tried takes 2 kW out of the water and gives its heat "
        "to the outdoors."
    )
    return Table("heat.wave", "The heat wave, with and without", columns, rows, note)


def _bleaching(plan: Plan, facts: HeatFacts) -> Iterator[Table]:
    """Only where there are corals."""
    if plan.corals and facts.years is not None:
        yield bleaching_table(facts.tried, warmest_month(facts.years.days.likely))


def _stuck(facts: HeatFacts) -> Table:
    columns = (
        Column("heaters"),
        Column("power of each", "W"),
        Column("warmest water with one stuck on", "degC"),
    )
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (f"{count}", power, hot) for count, power, hot in (facts.spell.stuck if facts.spell else ())
    )
    note = "They share what the cold spell asks for; one never switches off in the warmest two months of the years."
    return Table(
        "heat.stuck", "How many heaters, so that one stuck on does not cook the tank", columns, rows, note
    )


def _rates(facts: HeatFacts) -> Table:
    columns = (
        Column("month"), Column("water", "degC"), Column("air", "degC"), Column("Shah, used", "m3/s", "day"),
        Column("handbook, still pool", "m3/s", "day"), Column("Smith, Lof and Jones, quiet", "m3/s", "day"),
    )  # fmt: skip
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (one.month, one.temp_w, one.temp_a, *(rate / 1000.0 for rate in (one.shah, one.handbook, one.busy)))
        for one in facts.rates
    )
    note = (
        "All surfaces open, in the mean air of the month: the three disagree, and what is used may be as far off. "
        "Covers, cooler nights and sunny noons are in the monthly figures above, not here."
    )
    return Table("heat.rates", "Evaporation by three correlations", columns, rows, note)


def _cut(facts: HeatFacts) -> Table:
    columns = (
        Column("after"), Column("as planned", "degC"), Column("nine tenths covered at once", "degC"),
        Column("by hand's formula", "degC"),
    )  # fmt: skip
    cut = facts.cut
    rows: tuple[tuple[float | str | None, ...], ...] = ()
    if cut is not None:
        rows = tuple(
            (f"{hour} h", cut.water[hour], cut.covered[hour], cut.formula[hour])
            for hour in (0, 6, 12, 24, 36, 48, 72, 96, 120)
        )
    note = (
        "The power fails as the coldest three days of the spell begin; pumps, heaters and lamps stand. Oxygen is as a "
        "rule used up long before the warmth is gone: that is not counted here."
    )
    return Table("heat.cut", "The power fails in the cold spell", columns, rows, note)
