"""Pictures of the faults: the matrix of hours, courses of oxygen, warmth and ammonia, the film calendar."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from tidestead.core.answer import Check, Verdict
from tidestead.core.charts import (
    Chart,
    Curve,
    GridChart,
    GridRow,
    HoursChart,
    HoursRow,
    LineChart,
    Mark,
    Moment,
    Step,
)
from tidestead.core.months import MONTHS
from tidestead.studies.faults.checks import HOUR
from tidestead.studies.faults.facts import Curves, FaultFacts, FaultsFacts, Quantity, Threshold
from tidestead.studies.faults.wording import hours_words

_KEYS: Mapping[str, tuple[Quantity, ...]] = {
    "oxygen": ("oxygen",), "temp_c": ("cold", "hot"), "ammonia": ("ammonia",), "sal_psu": ("salt", "fresh"),
    "flood": ("floor",), "level": (),
}  # fmt: skip
"""Quantities that are judged on each course."""

_CURVES = 5
"""Curves in one picture: the soonest harmed."""

_SHOWN = 48.0
_DAYS = 120.0
"""Hours of the courses that are drawn at least; hours up to which a fault is no slow one. Own choices."""


def charts_of(facts: FaultsFacts, in_time: Mapping[str, Check]) -> Iterator[Chart]:
    """The matrix first. `in_time` are the checks of the faults by their keys."""
    if facts.faults:
        yield _matrix(facts, in_time)
    levels = facts.thresholds or {}
    ran = [one for one in facts.faults if one.curves is not None and one.likely is not None]
    for name, title, what, unit, style in (
        ("oxygen", "Oxygen in the display once something stops", "oxygen", "mg/L", ""),
        ("temp_c", "Warmth of the display once something stops", "temperature", "degC", ""),
        ("ammonia", "Un-ionised ammonia in the display once something stops", "ammonia", "mg/L", ""),
        ("sal_psu", "Salinity once something stops", "salinity", "psu", ""),
        ("level", "Level of the sump once something stops", "level, from where it stood", "m", "bow"),
        ("flood", "Water on the floor once something stops", "water on the floor", "m3", ""),
    ):
        chosen = _moving(ran) if name == "level" else _chosen(ran, name)
        if chosen:
            yield _courses(chosen, (name, title, what, unit, style), levels)
    chained = [
        one for one in facts.faults if one.chain is not None and one.reaches and one.curves is not None
    ]
    if any(one.chain is not None and math.isfinite(one.chain.worst) for one in chained):
        yield _by_hour(chained)
    if facts.film is not None:
        yield _calendar(facts)


def _matrix(facts: FaultsFacts, in_time: Mapping[str, Check]) -> HoursChart:
    rows = tuple(_row(one, in_time[one.key]) for one in facts.faults)
    late = [one.title for one in facts.faults if in_time[one.key].verdict is Verdict.FAILS]
    told = (
        f"Nobody has acted before harm in: {'; '.join(late)}."
        if late
        else "Somebody has acted before harm in all of them."
    )
    if facts.no_response:
        told = f"Who acts when is not known: {facts.no_response}."
    return HoursChart(
        "faults.matrix", "Every fault: hours to warn, act and harm, against hours until somebody has acted", told,
        "time from the event", rows, max((one.until for one in facts.faults), default=240.0) * HOUR,
    )  # fmt: skip


def _row(one: FaultFacts, check: Check) -> HoursRow:
    word = check.verdict.value
    if one.unproven or one.likely is None or one.soonest is None or one.latest is None:
        return HoursRow(one.title, verdict=word, words=one.unproven or "not known")
    moments = tuple(
        Moment(HOUR * low, HOUR * min(max(mid, low), high), HOUR * high)
        for low, mid, high in zip(
            one.soonest.all_three, one.likely.all_three, one.latest.all_three, strict=True
        )
    )
    chain = one.chain
    response = None
    if chain is not None and math.isfinite(chain.worst) and one.reaches:
        response = Moment(HOUR * chain.best, HOUR * chain.mean, HOUR * chain.worst)
    words = "" if one.reaches else f"no harm within {hours_words(one.until)}"
    return HoursRow(one.title, moments, response, word, check.use, words, followed=HOUR * one.until)


def _moving(ran: Sequence[FaultFacts]) -> list[FaultFacts]:
    """Faults of water that move the level of the sump, the most first; what only evaporates meanwhile is left out."""
    moved = {one.key: max(map(abs, one.curves.level), default=0.0) for one in ran if one.curves is not None}
    wet = [one for one in ran if one.likely is not None and _WET & one.likely.reached.keys()]
    found = [one for one in wet if moved[one.key] > _SEEN]
    found = [one for one in found if one.until <= _DAYS] or found
    return sorted(found, key=lambda one: -moved[one.key])[:_CURVES]


_WET: frozenset[Quantity] = frozenset(("floor", "low", "fresh", "salt"))
"""What is watched where water runs in or out."""

_SEEN = 0.01
"""Metres by which a level must move to be drawn. Own choice."""


def _chosen(ran: Sequence[FaultFacts], name: str) -> list[FaultFacts]:
    """Faults whose course of a quantity moves most against its harm, the soonest first; what takes weeks is left out
    where others take hours, which could not be read beside it.
    """
    by = _KEYS[name]
    found = [one for one in ran if one.soonest is not None and one.soonest.by in by]
    found = [one for one in found if one.until <= _DAYS] or found
    found.sort(key=lambda one: one.soonest.harm if one.soonest is not None else math.inf)
    return found[:_CURVES]


def _courses(
    chosen: Sequence[FaultFacts], drawn: tuple[str, str, str, str, str], levels: Mapping[Quantity, Threshold]
) -> LineChart:
    name, title, what, unit, style = drawn
    end = max(max((_end(one) for one in chosen), default=_SHOWN), _SHOWN)
    curves = tuple(Curve(one.title, *_cut(one.curves, name, end)) for one in chosen if one.curves is not None)
    marks = tuple(_marks(name, levels))
    first = chosen[0]
    told = f"{first.title} is the first: {_said(first)}."
    return LineChart(
        f"faults.{name}", title, told, what, unit, curves, along="time from the event", along_unit="s", limits=marks,
        style=style,
    )  # fmt: skip


def _said(one: FaultFacts) -> str:
    harm = one.harm
    return (
        "harm is not reached" if harm is None or not one.reaches else f"harm after {hours_words(harm.likely)}"
    )


def _end(one: FaultFacts) -> float:
    """Hours worth drawing: a third more than the likely time to harm, where it comes."""
    if one.likely is None or math.isinf(one.likely.harm):
        return min(one.until, _DAYS)
    return min(one.until, 1.3 * one.likely.harm)


def _cut(curves: Curves, name: str, end: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    pairs = [(HOUR * hour, value) for hour, value in zip(curves.hours, getattr(curves, name), strict=True)
             if hour <= end]  # fmt: skip
    stride = max(len(pairs) // 200, 1)
    kept = pairs[::stride]
    return tuple(at for at, _ in kept), tuple(value for _, value in kept)


def _marks(name: str, levels: Mapping[Quantity, Threshold]) -> Iterator[Mark]:
    keys = _KEYS[name]
    for key in keys:
        level = levels.get(key)
        if level is not None:
            yield Mark(level.warn, f"warn ({key})" if len(keys) > 1 else "warn")
            yield Mark(level.act, f"act ({key})" if len(keys) > 1 else "act")
            yield Mark(level.harm, f"harm ({key})" if len(keys) > 1 else "harm")


def _by_hour(chained: Sequence[FaultFacts]) -> LineChart:
    """How long it takes until somebody has acted, by the hour of the day at which the fault begins."""
    distinct: dict[tuple[float, ...], FaultFacts] = {}
    for one in chained:
        if one.chain is not None and all(map(math.isfinite, one.chain.by_hour)):
            distinct.setdefault(one.chain.by_hour, one)
    quick = [one for one in distinct.values() if one.chain is not None and one.chain.worst <= _SHOWN]
    shown = (quick or list(distinct.values()))[:_CURVES]
    at = tuple(float(hour) for hour in range(24))
    curves = tuple(
        Curve(one.title, at, tuple(HOUR * hours for hours in one.chain.by_hour)) for one in shown if one.chain
    )
    worst = shown[0].chain if shown else None
    told = (
        "" if worst is None else f"{shown[0].title}: {hours_words(worst.best)} to {hours_words(worst.worst)}."
    )
    return LineChart(
        "faults.by_hour", "Until somebody has acted, by the hour at which it begins", told, "time", "s", curves,
        over="hours",
    )  # fmt: skip


def _calendar(facts: FaultsFacts) -> GridChart:
    film = facts.film
    assert film is not None, "asked before"
    rows = tuple(
        GridRow(MONTHS[month], tuple(shares[1:]), min(int(film.last[month].low), len(shares) - 1) - 1)
        for month, shares in enumerate(film.shares)
    )
    worst = min(range(12), key=lambda month: film.last[month].low)
    told = (
        f"Wipe every {max(int(film.last[worst].low), 1)} days at least in {MONTHS[worst]}, when film grows fastest; "
        f"{film.fitted}."
    )
    return GridChart(
        "faults.film", "Windows: share under patches that a magnet no longer lifts", told, "share under set patches",
        "1",
        tuple(str(day) for day in range(1, len(film.shares[0]))), rows,
        _steps(film.allowed),
        along="days since the wipe", down="month", mark="last safe day, early end", style="share",
    )  # fmt: skip


def _steps(allowed: float) -> tuple[Step, ...]:
    """Shares with their words, rising whatever share is borne."""
    steps = (Step(0.0, "clean"), Step(allowed / 3.0, "some patches"), Step(allowed, "over what is borne"))
    return (*steps, Step(max(0.5, 2.0 * allowed), "mostly set")) if allowed < _HALF else steps


_HALF = 0.5
