"""Invented charts of hours and of grids for the tests of renderers. No figure here is engineering."""

from __future__ import annotations

import math

from tidestead.core.charts import GridChart, GridRow, HoursChart, HoursRow, Moment, Step

HOUR, DAY = 3600.0, 86400.0
NEVER = Moment.exact(math.inf)
FOLLOWED = 10.0 * DAY
"""Seconds."""


def about(hours: float, down: float = 0.6, up: float = 1.7) -> Moment:
    """A moment with a range."""
    return Moment(down * hours * HOUR, hours * HOUR, up * hours * HOUR)


ROWS = (
    HoursRow("return pump stops", (about(0.4), about(6.0), about(19.0)), about(3.0), "sound", 0.44),
    HoursRow("all power is gone, and nobody is there who could start the generator of the house",
             (about(0.2), about(2.0), about(5.0)), about(4.5), "near", 0.97),
    HoursRow("heater stays on", (about(4.0), about(9.0), about(15.0)), about(20.0), "fails", 1.33),
    HoursRow("heater stays off", (about(20.0), about(70.0), Moment(5.0 * DAY, math.inf, math.inf)), about(3.0),
             "sound", 0.1),
    HoursRow("skimmer stops", (NEVER, NEVER, NEVER), about(24.0), "sound", 0.02),
    HoursRow("valve of the wash sticks", verdict="unproven", words="no valve is described"),
    HoursRow("fan stops", (None, None, about(60.0)), None, "unproven", None, "nobody answers"),
    HoursRow("top-up stays on", (Moment.exact(30.0), about(1.5), about(40.0)), NEVER, "fails"),
    HoursRow("a joint of the main drain opens", (about(0.05), Moment(math.nan, math.nan, math.nan), about(0.4)),
             about(0.2), "near", 0.9),
)  # fmt: skip


def stops() -> HoursChart:
    """Nine rows: ranges, a moment that never comes, one that is no number, one before the scale, none at all."""
    return HoursChart(
        "faults.hours",
        "What comes when something stops, and when somebody has acted",
        "All power gone is nearest: harm comes 5 h after it, somebody has acted after 4.5 h.",
        "time after it began",
        ROWS,
        FOLLOWED,
    )


def many_stops() -> HoursChart:
    """Twenty-five rows."""
    rows = tuple(
        HoursRow(
            f"fault {number} of {'a pump' if number % 3 else 'a pump with quite a long name that goes on'}",
            (about(0.02 * 1.4**number), about(0.05 * 1.45**number), about(0.2 * 1.4**number)),
            about(0.1 * 1.38**number),
            ("sound", "near", "fails", "unproven")[number % 4],
            0.1 * (number % 10),
        )
        for number in range(25)
    )
    return HoursChart("faults.many", "Many", "Many rows.", "time after it began", rows, FOLLOWED)


def film() -> GridChart:
    """Months down, days across, with a month that is clean throughout, one never, and a gap."""
    season = [0.5 - 0.5 * math.cos(2.0 * math.pi * (month + 0.5) / 12.0) for month in range(12)]
    days = (1, 2, 3, 4, 5, 7, 10, 14, 21, 28)
    names = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    rows = []
    for month, (name, part) in enumerate(zip(names, season, strict=True)):
        values = tuple(0.004 * day * (0.2 + 2.6 * part) for day in days)
        safe = sum(value < 0.05 for value in values) - 1
        if month == 3:
            values = (*values[:5], math.nan, *values[6:])
        rows.append(GridRow(name, values, {0: len(days) - 1, 6: -1, 11: None}.get(month, safe)))
    return GridChart(
        "windows.film",
        "Film on the windows by month and by days since they were cleaned",
        "In July a window is clean for two days, in January for weeks.",
        "share of the light that is lost",
        "1",
        tuple(map(str, days)),
        tuple(rows),
        (Step(0.0, "clean"), Step(0.02, "a haze"), Step(0.05, "some patches"), Step(0.1, "many patches"),
         Step(0.2, "covered")),
        along="days since the window was cleaned",
        down="month",
        mark="last day on which it is clean enough",
        style="share",
    )  # fmt: skip


def wide_grid() -> GridChart:
    """So many columns that no figure finds room."""
    rows = tuple(
        GridRow(
            f"week {row} of a year with a long name", tuple(float(row * column) for column in range(40)), 3
        )
        for row in range(25)
    )
    steps = (Step(0.0, "low"), Step(100.0, "middle"), Step(400.0, "high"))
    return GridChart("grid.wide", "Wide", "Wide.", "mass", "kg", tuple(map(str, range(40))), rows, steps)
