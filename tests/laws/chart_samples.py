"""Invented charts for the tests of renderers, one or more of each sort. No figure here is engineering."""

from __future__ import annotations

import math

from tests.laws.chart_samples_rows import film, stops
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
    YearMap,
)

_MONTHS = [math.sin(math.pi * (month + 0.5) / 12.0) for month in range(12)]
_YEAR = [1.0 - math.cos(2.0 * math.pi * (day - 15) / 365.0) for day in range(365)]


def month_bars() -> BarChart:
    """Two groups with ranges, a band and a limit near the top of it."""
    shallow = tuple(1.0 + 13.0 * part for part in _MONTHS)
    deep = tuple(0.7 * value for value in shallow)
    return BarChart(
        "light.reef.months",
        "Light of a day at the corals by month",
        "Light is least in December and most in July; the band begins at 8.",
        "light of a day",
        "mol/(m2 day)",
        (
            Bars("shallowest", shallow, tuple(0.8 * v for v in shallow), tuple(1.15 * v for v in shallow)),
            Bars("deepest", deep, tuple(0.8 * v for v in deep), tuple(1.15 * v for v in deep)),
        ),
        ribbon="P10 to P90 of 20 years",
        limits=(Mark(16.0, "too much over"),),
        wanted=Wanted(8.0, 16.0, "wanted by stony corals with small polyps"),
    )


def water_year() -> LineChart:
    """A year by day with ribbons, two limits and long names."""
    at = tuple(float(day) for day in range(365))
    values = tuple(23.5 + 1.6 * part for part in _YEAR)
    return LineChart(
        "heat.basin.year",
        "Temperature of the water over the year, the basin and the sump together, with what the animals stand",
        "The water stays between 24 and 27.",
        "water",
        "degC",
        (
            Curve("basin", at, values, tuple(v - 0.6 for v in values), tuple(v + 0.9 for v in values)),
            Curve("air of the building", at, tuple(8.0 + 9.0 * part for part in _YEAR)),
        ),
        over="days",
        ribbon="P10 to P90",
        limits=(Mark(27.0, "warmest"), Mark(24.0, "coolest")),
    )


def day_curves() -> LineChart:
    """Four days over their hours."""
    at = tuple(hour + 0.5 for hour in range(24))
    days = (("21 Dec", 90.0, 3.4), ("21 Mar", 420.0, 6.0), ("21 Jun", 610.0, 8.6), ("22 Sep", 395.0, 6.0))
    return LineChart(
        "light.reef.days",
        "Light at the shallowest corals over the day",
        "Highest at noon in June.",
        "light",
        "umol/(m2 s)",
        tuple(
            Curve(
                name,
                at,
                tuple(
                    max(0.0, top * math.cos(math.pi / 2.0 * (hour - 12.3) / half))
                    if abs(hour - 12.3) < half
                    else 0.0
                    for hour in at
                ),
            )
            for name, top, half in days
        ),
        over="hours",
        along="local standard time",
        limits=(Mark(700.0, "more only after slow adapting"),),
    )


def cooling() -> LineChart:
    """A curve over time with a unit of its own, and a gap."""
    at = tuple(3600.0 * hour for hour in range(0, 73, 3))
    kept = tuple(24.0 - 16.0 * (1.0 - math.exp(-hour / 141.0)) for hour in range(0, 73, 3))
    covered = tuple(
        math.nan if 20 < hour < 28 else 24.0 - 16.0 * (1.0 - math.exp(-hour / 402.0))
        for hour in range(0, 73, 3)
    )
    return LineChart(
        "heat.cut", "Power cut on the worst night", "Twenty degrees are passed after 40 hours.", "water", "degC",
        (Curve("open", at, kept), Curve("covered", at, covered)),
        along="time without power", along_unit="s", limits=(Mark(20.0, "corals suffer below"),),
    )  # fmt: skip


def balance() -> StackChart:
    """Gains over, losses under nothing, one part on both sides."""
    kwh = 3.6e6
    return StackChart(
        "heat.balance",
        "Where heat comes from and where it goes, by month",
        "Most comes from the heaters in winter and from the sun in summer.",
        "heat in a month",
        "J",
        (
            Part("heaters", tuple(kwh * 900.0 * (1.0 - part) for part in _MONTHS)),
            Part("sun", tuple(kwh * 700.0 * part for part in _MONTHS)),
            Part("pumps and lamps", (kwh * 120.0,) * 12),
            Part("evaporation", tuple(-kwh * (280.0 + 220.0 * part) for part in _MONTHS)),
            Part("walls and floor of the vessels", (-kwh * 160.0,) * 12),
            Part("air", tuple(kwh * 300.0 * (part - 0.6) for part in _MONTHS)),
            Part("longwave to the roof", (-kwh * 210.0,) * 12),
            Part("change of water", (-kwh * 60.0,) * 12),
        ),
    )


def sun_map() -> YearMap:
    """Seventy-three columns of five days, a limit passed in summer."""
    values = []
    for column in range(73):
        season = 1.0 - math.cos(2.0 * math.pi * (column * 5.0 + 12.0) / 365.0)
        half = 3.6 + 2.4 * season
        values.append(
            tuple(
                max(0.0, (120.0 + 360.0 * season) * math.cos(math.pi / 2.0 * (hour + 0.5 - 12.3) / half))
                if abs(hour + 0.5 - 12.3) < half
                else 0.0
                for hour in range(24)
            )
        )
    return YearMap(
        "light.reef.map", "Light at the shallowest corals, day by hour", "Most at noon in June.", "light",
        "umol/(m2 s)", tuple(values), 700.0, "over",
    )  # fmt: skip


def ranking() -> RankChart:
    """Causes, one of which moves the result one way only."""
    kwh = 3.6e6
    return RankChart(
        "heat.ranks",
        "What decides the energy of the heaters",
        "The cover decides most.",
        "energy of a year",
        "J",
        4100.0 * kwh,
        (
            Ranked("evaporation and cover", 2900.0 * kwh, 5300.0 * kwh),
            Ranked(
                "heat that goes out through glazing and its bars, all faces together",
                3050.0 * kwh,
                5200.0 * kwh,
            ),
            Ranked("setpoint over the winter's mean outdoors", 3200.0 * kwh, 5050.0 * kwh),
            Ranked("sun", 4700.0 * kwh, 3600.0 * kwh),
            Ranked("air that leaks", 3750.0 * kwh, 4450.0 * kwh),
            Ranked("volume of water", 4110.0 * kwh, 4150.0 * kwh),
        ),
        "30 % less",
        "30 % more",
    )


def long_words() -> BarChart:
    """Bars under long words, with a limit; and of temperatures, whose nothing is no zero."""
    labels = (
        "as planned",
        "without the shade that the plan has",
        "with a fan of 1 m/s over the water",
        "vents wide open",
    )
    values = (27.2, 28.9, 26.1, 27.0)
    return BarChart(
        "heat.wave",
        "The heat wave, with and without",
        "The shade takes 1.7 K off.",
        "warmest water",
        "degC",
        (Bars("warmest", values, tuple(v - 0.4 for v in values), tuple(v + 0.6 for v in values)),),
        labels,
        "P10 to P90",
        (Mark(28.0, "corals suffer over"),),
        Wanted(24.0, 27.0, "kept"),
    )


def long_costs() -> BarChart:
    """Two sorts of bars under long words."""
    labels = ("cover on the water at night", "tighter glazing", "insulated wall at the back of the building")
    joules = tuple(3.6e6 * value for value in (900.0, 640.0, 210.0))
    return BarChart(
        "heat.saved", "Energy that each would save", "The cover saves most.", "energy of a year", "J",
        (Bars("in a mild year", joules), Bars("in a cold year", tuple(1.3 * one for one in joules))), labels,
    )  # fmt: skip


def charts() -> list[Chart]:
    """All of them."""
    first: list[Chart] = [
        month_bars(),
        water_year(),
        day_curves(),
        cooling(),
        balance(),
        sun_map(),
        ranking(),
    ]
    return [*first, long_words(), long_costs(), stops(), film()]
