"""Choices held against each other: each is a dot with its name, what lacks a sum is none, one value alone is seen."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from tidestead.core.charts import Curve, LineChart
from tidestead.plan import load
from tidestead.report.svg_chart import draw_chart
from tidestead.report.sweeps import table_of
from tidestead.trials.grid import Grid, read_grid
from tidestead.trials.known import Row
from tidestead.trials.pareto import pareto
from tidestead.trials.shows import Cell, Shown
from tidestead.trials.sweep_charts import chart_of
from tidestead.trials.vary import Goal, Sweep

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
CASH = Shown("cost.cash", "check", "cash still to spend", "USD")
BOW = Shown("structure.reef.bow", "check", "bow", "m")
MONEY = ((900.0, 950.0), (1000.0, 1050.0), (1100.0, 1150.0), None)
"""Likely and nine times in ten at each thickness; the last has no price."""
MARGINS = (-0.1, 0.3, 0.2, 0.5)


@cache
def grid() -> Grid:
    return read_grid(load(PACKHOUSE), ["vessels.reef.walls.south.windows.long.thickness=2,3,3.5,4 in"])


def money(at: tuple[float, float] | None) -> Cell:
    if at is None:
        return Cell(verdict="unproven", note="1 thing has no price")
    return Cell(at[0], at[0] - 50.0, at[1], 0.2, "sound", limits=(2000.0,))


def sweep(goals: tuple[Goal, ...] = (Goal(0, False), Goal(1, True))) -> Sweep:
    rows = tuple(
        Row(number, (money(cash), Cell(0.01, 0.01, 0.01, margin, "sound", limits=(0.02,))))
        for number, (cash, margin) in enumerate(zip(MONEY, MARGINS, strict=True))
    )
    found = Sweep(grid(), (CASH, BOW), rows, 0, goals)
    best = pareto([found.goal_values(row) for row in rows], [goal.more for goal in goals])
    return Sweep(grid(), (CASH, BOW), rows, 0, goals, best)


def test_each_choice_is_named_and_those_that_are_beaten_are_told_apart() -> None:
    chart = chart_of(sweep())
    assert isinstance(chart, LineChart)
    none_beats, beaten = chart.curves
    assert (none_beats.names, none_beats.at, none_beats.values) == (
        ("2 in", "3 in"),
        (900.0, 1000.0),
        (-0.1, 0.3),
    )
    assert (beaten.names, beaten.at, beaten.values) == (("3.5 in",), (1100.0,), (0.2,))
    assert not none_beats.joined
    assert chart.along == "cash still to spend, likely"
    assert chart.told.endswith("Points that lack a value in one of the two and are not drawn: 1.")


def test_choices_are_drawn_as_dots_with_their_names_and_no_line_between_them() -> None:
    chart = chart_of(sweep())
    assert chart is not None
    drawn = draw_chart(chart, "us")
    assert drawn.count("<circle") == 3 + 2  # and two in the key
    assert {"2 in", "3 in", "3.5 in"} <= set(re.findall(r">([\d.]+ in)<", drawn))
    fills = {re.findall(r'class="([^"]+)"', one)[0] for one in re.findall(r"<circle[^>]+>", drawn)}
    assert len(fills) == 2  # full and open


def test_table_shows_the_money_that_choices_are_held_by() -> None:
    held, plain = table_of(sweep(), sweep().rows), table_of(sweep(()), sweep(()).rows)
    assert [(one.head, row) for one, row in zip(held.columns, held.rows[0], strict=True)][1] == (
        "cash likely",
        900.0,
    )
    assert [(one.head, row) for one, row in zip(plain.columns, plain.rows[0], strict=True)][1] == (
        "cash at worst",
        950.0,
    )


def test_one_value_that_stands_alone_is_seen_on_a_line() -> None:
    nothing = float("nan")
    curve = Curve("cash", (1.0, 2.0, 3.0, 4.0, 5.0), (nothing, 7.0, nothing, 8.0, 9.0))
    drawn = draw_chart(LineChart("one", "One", "One.", "cash", "USD", (curve,), along="thickness"), "metric")
    assert drawn.count("<circle") == 1
