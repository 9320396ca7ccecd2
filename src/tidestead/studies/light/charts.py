"""Plots of light: months at depth with the band, days at the turns of the year, the year by day and hour."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.charts import BarChart, Bars, Chart, Curve, LineChart, Mark, Wanted, YearMap
from tidestead.core.months import MONTHS
from tidestead.core.source import YOURS
from tidestead.core.units import System, show
from tidestead.studies.light.facts import Band, CoralLight, LightFacts
from tidestead.studies.light.falling import COLUMN, SOLSTICES
from tidestead.studies.light.wording import DAY, FLOW, date_words, day_light, months_words

_HALF_HOURS = tuple(hour + 0.5 for hour in range(24))


def charts_of(facts: LightFacts, system: System, first: str = "") -> Iterator[Chart]:
    """Three plots for every group, that of the key `first` before the others."""
    for group in sorted(facts.groups, key=lambda one: one.key != first):
        yield _months(group, facts, system)
        yield _days(group, system)
        yield _year(group, system)


def _months(group: CoralLight, facts: LightFacts, system: System) -> BarChart:
    band, natural = group.band, group.natural
    groups = [Bars("deepest, sun alone", natural.likely, natural.low, natural.high)]
    if group.lighting.planned:
        groups.append(Bars("deepest, with lamps", group.deep.likely, group.deep.low, group.deep.high))
    top = group.top
    groups.append(
        Bars(
            "shallowest, with lamps" if group.lighting.planned else "shallowest",
            top.likely,
            top.low,
            top.high,
        )
    )
    return BarChart(
        f"light.{group.key}.months",
        f"Light of a day at corals {group.key} by month",
        _told(group, system),
        "light of a day",
        DAY,
        tuple(groups),
        ribbon=f"P10 to P90 (eight in ten) of {facts.years}",
        wanted=Wanted(band.least, band.most, _band_words(band)),
    )


def _band_words(band: Band) -> str:
    return "band of your plan" if band.source is YOURS else f"band of {band.title[0].lower()}{band.title[1:]}"


def _told(group: CoralLight, system: System) -> str:
    """The bars in words."""
    likely = group.natural.likely
    dark, bright = min(range(12), key=likely.__getitem__), max(range(12), key=likely.__getitem__)
    short = [month for month in range(12) if likely[month] < group.band.least]
    least = day_light(group.band.least, system)
    low, high = (f"{day_light(likely[month], system)} in {MONTHS[month]}" for month in (dark, bright))
    lacks = (
        f"less than the band's {least} in {months_words(short)}"
        if short
        else f"never less than the band's {least}"
    )
    return f"At the deepest the sun alone gives {low} to {high}, {lacks}."


def _days(group: CoralLight, system: System) -> LineChart:
    curves = tuple(
        Curve(name, _HALF_HOURS, hours) for (_, name), hours in zip(SOLSTICES, group.days, strict=True)
    )
    tops = "; ".join(f"{curve.name} up to {show(max(curve.values), FLOW, system)}" for curve in curves)
    day, hours = group.brightest
    peak, worst, borne = _peak_words(group, system)
    brightest = Curve(f"day of the highest hour, about {date_words(day)}", _HALF_HOURS, hours)
    judged = Curve(f"highest hour at worst, {worst}", (0.0, 24.0), (group.peak.high, group.peak.high))
    return LineChart(
        f"light.{group.key}.days",
        f"Light over the day at the shallowest of corals {group.key}: mean days, and the day of the highest hour",
        f"Mean days of a fortnight, lamps counted: {tops}. A mean day has clouds in it; the check judges the highest "
        f"hour of a year: {peak}, at worst {worst}, where {borne} is borne.",
        "light",
        FLOW,
        (*curves, brightest, judged),
        over="hours",
        along="local standard time",
        limits=(Mark(group.band.peak, "borne at noon:"),),
    )


def _peak_words(group: CoralLight, system: System) -> tuple[str, str, str]:
    """The highest hour as the check has it, likely and at worst, and what is borne."""
    numbers = (group.peak.likely, group.peak.high, group.band.peak)
    peak, worst, borne = (show(number, FLOW, system, "", numbers) for number in numbers)
    return peak, worst, borne


def _year(group: CoralLight, system: System) -> YearMap:
    peak, worst, _ = _peak_words(group, system)
    tops = [max(column) for column in group.year]
    column = max(range(len(tops)), key=tops.__getitem__)
    hour = max(range(24), key=group.year[column].__getitem__)
    return YearMap(
        f"light.{group.key}.map",
        f"Light at the shallowest of corals {group.key}, day by hour, means of five days",
        f"Five-day means, lamps counted: at most {show(tops[column], FLOW, system)}, about "
        f"{date_words(COLUMN * column + 2)} between {hour}:00 and {hour + 1}:00. Single hours go higher, up to "
        f"{peak}, at worst {worst}: the check judges those.",
        "light, mean of five days",
        FLOW,
        group.year,
        group.band.peak,
        "over",
    )
