"""Tables of the heat study."""

from __future__ import annotations

from decimal import Decimal

from tidestead.core.answer import Column, Table
from tidestead.core.months import MONTHS
from tidestead.plan.model import Plan
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.heat.steps import SIGNS
from tidestead.studies.heat.wording import JOULE_KWH, price_of_heat

_MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def tables_of(plan: Plan, facts: HeatFacts) -> tuple[Table, ...]:
    """Every table that has rows."""
    if facts.years is None:
        return ()
    found = [
        _months(facts.years), _balance(facts.years), _improvements(plan, facts), _ranks(facts), _wave(facts),
        _stuck(facts), _rates(facts), _cut(facts),
    ]  # fmt: skip
    return tuple(table for table in found if table.rows)


def _months(years: YearFacts) -> Table:
    columns = (
        Column("month"),
        Column("coolest day", "degC"),
        Column("warmest day", "degC"),
        Column("evaporation", "m3/s", "day"),
        Column("P10", "m3/s", "day"),
        Column("P90", "m3/s", "day"),
        Column("heaters", "J"),
        Column("humidity", "1", "share"),
        Column("wet glazing", "s"),
        Column("damp timber", "s"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    first = 0
    for month, name in enumerate(MONTHS):
        days = slice(first, first + _MONTH_DAYS[month])
        first += _MONTH_DAYS[month]
        rows.append(
            (
                name,
                min(years.days.low[days]),
                max(years.days.high[days]),
                years.evaporation.likely[month] / 1000.0,
                years.evaporation.low[month] / 1000.0,
                years.evaporation.high[month] / 1000.0,
                max(years.balance["w_heaters"][month], 0.0) * 86400.0 * _MONTH_DAYS[month],
                years.humidity.likely[month],
                years.wet.likely[month] * 3600.0,
                years.damp.likely[month] * 3600.0,
            )
        )  # fmt: skip
    note = (
        f"{years.words.capitalize()}. Days are daily means, P10 of the coolest and P90 of the warmest day over the "
        "years; the rest is the median, heaters the mean. Damp: over 80 % humidity at the inner face of the weakest "
        "timber wall. Wet: any of the glazing below the dew point of the air. Condensate is counted as running off."
    )
    return Table("heat.months", "Month by month", columns, tuple(rows), note)


def _balance(years: YearFacts) -> Table:
    shown = {name: words for name, (_, words) in SIGNS.items() if any(years.balance[name])}
    columns = (Column("month"), *(Column(words, "W") for words in shown.values()))
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (month, *(years.balance[name][at] for name in shown)) for at, month in enumerate(MONTHS)
    )
    note = (
        "Heat into all the water, mean of the month and of the years; below nothing it leaves. What is left over is "
        "stored as the water warms or cools. One latent heat, that at 25 degC, is used at all temperatures."
    )
    return Table("heat.balance", "Where the water's heat comes from and goes to", columns, rows, note)


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
        "In the year of median energy. Energy at the plan's tariff; what an improvement costs, and so when it has paid "
        "for itself, comes with prices of things. A cover or better glazing may make summers warmer."
    )
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
        "vapour off, and costs top-off water; the further chiller takes 2 kW out of the water and gives its heat to "
        "the outdoors."
    )
    return Table("heat.wave", "The heat wave, with and without", columns, rows, note)


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
        "rule used up long before the warmth is gone: the study of faults counts that."
    )
    return Table("heat.cut", "The power fails in the cold spell", columns, rows, note)
