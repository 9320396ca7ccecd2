"""Plots as JSON: one object for each, told apart by `kind`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeAlias

from tidestead.core.charts import (
    BarChart,
    Bars,
    Chart,
    Curve,
    GridChart,
    HoursChart,
    LineChart,
    Mark,
    Moment,
    RankChart,
    StackChart,
    Wanted,
    YearMap,
)
from tidestead.report.json_numbers import Numbers
from tidestead.report.times import followed

Object: TypeAlias = dict[str, Any]


def chart_object(chart: Chart) -> Object:
    """The plot as plain data."""
    numbers = Numbers()
    kind, own = _own(chart, numbers)
    return {
        "kind": kind,
        "id": chart.id,
        "title": chart.title,
        "told": chart.told,
        "what": chart.what,
        "unit": chart.unit,
        **own,
        "why_null": numbers.why,
    }


def _own(chart: Chart, numbers: Numbers) -> tuple[str, Object]:
    """The kind of a plot, and what only this kind has."""
    match chart:
        case LineChart():
            return "lines", {
                "over": chart.over,
                "along": chart.along,
                "along_unit": chart.along_unit,
                "curves": [_curve(curve, f"curves/{at}", numbers) for at, curve in enumerate(chart.curves)],
                **_beside(chart, numbers),
            }
        case BarChart():
            return "bars", {
                "labels": list(chart.labels),
                "groups": [_bars(group, f"groups/{at}", numbers) for at, group in enumerate(chart.groups)],
                **_beside(chart, numbers),
            }
        case StackChart():
            parts = [
                {"name": part.name, "values": numbers.run(f"parts/{at}/values", part.values)}
                for at, part in enumerate(chart.parts)
            ]
            return "stacks", {"labels": list(chart.labels), "parts": parts}
        case YearMap():
            return "year", {
                "values": [numbers.run(f"values/{at}", column) for at, column in enumerate(chart.values)],
                "limit": numbers.take("limit", chart.limit, "no limit is drawn"),
                "limit_words": chart.limit_words,
            }
        case RankChart():
            return "ranks", _ranks(chart, numbers)
        case HoursChart():
            return "hours", _hours(chart, numbers)
        case GridChart():
            return "grid", _grid(chart, numbers)


def _beside(chart: LineChart | BarChart, numbers: Numbers) -> Object:
    """What is drawn beside lines or bars."""
    return {
        "ribbon": chart.ribbon,
        "limits": _limits(chart.limits, numbers),
        "wanted": _wanted(chart.wanted, numbers),
    }


def _limits(limits: Sequence[Mark], numbers: Numbers) -> list[Object]:
    return [
        {"value": numbers.take(f"limits/{at}/value", mark.value), "words": mark.words}
        for at, mark in enumerate(limits)
    ]


def _wanted(wanted: Wanted | None, numbers: Numbers) -> list[Object]:
    """A list of one band, or of none."""
    if wanted is None:
        return []
    low, high = numbers.take("wanted/0/low", wanted.low), numbers.take("wanted/0/high", wanted.high)
    return [{"low": low, "high": high, "words": wanted.words}]


def _curve(curve: Curve, place: str, numbers: Numbers) -> Object:
    runs = {
        name: numbers.run(f"{place}/{name}", getattr(curve, name)) for name in ("at", "values", "low", "high")
    }
    return {"name": curve.name, **runs}


def _bars(bars: Bars, place: str, numbers: Numbers) -> Object:
    runs = {name: numbers.run(f"{place}/{name}", getattr(bars, name)) for name in ("values", "low", "high")}
    return {"name": bars.name, **runs}


def _ranks(chart: RankChart, numbers: Numbers) -> Object:
    rows = [
        {
            "name": row.name,
            "less": numbers.take(f"rows/{at}/less", row.less),
            "more": numbers.take(f"rows/{at}/more", row.more),
        }
        for at, row in enumerate(chart.rows)
    ]
    return {
        "middle": numbers.take("middle", chart.middle),
        "rows": rows,
        "less": chart.less,
        "more": chart.more,
        "middle_is": chart.middle_is,
    }


def _hours(chart: HoursChart, numbers: Numbers) -> Object:
    rows = [
        {
            "name": row.name,
            "moments": [
                _moment(moment, f"rows/{at}/moments/{which}", numbers)
                for which, moment in enumerate(row.moments)
            ],
            "response": _moment(row.response, f"rows/{at}/response", numbers),
            "verdict": str(row.verdict),
            "use": numbers.take(f"rows/{at}/use", row.use, "no share of a limit is known"),
            "words": row.words,
            "followed": numbers.take(f"rows/{at}/followed", followed(chart, row)),
        }
        for at, row in enumerate(chart.rows)
    ]
    return {
        "moments": list(chart.moments),
        "response": chart.response,
        "ribbon": chart.ribbon,
        "followed": numbers.take("followed", chart.followed),
        "rows": rows,
    }


def _moment(moment: Moment | None, place: str, numbers: Numbers) -> list[Object]:
    """A list of one moment, or of none."""
    if moment is None:
        return []
    return [
        {name: numbers.take(f"{place}/0/{name}", getattr(moment, name)) for name in ("low", "likely", "high")}
    ]


def _grid(chart: GridChart, numbers: Numbers) -> Object:
    rows = [
        {
            "name": row.name,
            "values": numbers.run(f"rows/{at}/values", row.values),
            "mark": [] if row.mark is None else [row.mark],
        }
        for at, row in enumerate(chart.rows)
    ]
    steps = [
        {"least": numbers.take(f"steps/{at}/least", step.least), "words": step.words}
        for at, step in enumerate(chart.steps)
    ]
    return {
        "columns": list(chart.columns),
        "rows": rows,
        "steps": steps,
        "along": chart.along,
        "down": chart.down,
        "mark": chart.mark,
    }
