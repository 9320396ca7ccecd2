"""Tables of the faults: hours and people, what to do first, what buys time, floods, refuges, levels, film, foul air."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.catalog import table
from tidestead.core.answer import Check, Column, Table
from tidestead.core.months import MONTHS
from tidestead.core.units import System, show
from tidestead.studies.faults.checks import DAY, HOUR
from tidestead.studies.faults.facts import Bought, FaultFacts, FaultsFacts, Hours, Threshold
from tidestead.studies.faults.wording import (
    A_MINUTE,
    HARMS,
    help_words,
    hours_words,
    more_words,
    silent_words,
)

Row = tuple[float | str | None, ...]


def tables_of(facts: FaultsFacts, in_time: Mapping[str, Check], system: System) -> tuple[Table, ...]:
    """Those that have rows."""
    found = (
        _hours(facts, in_time), _chains(facts), _acts(facts), _bought(facts, system), _floods(facts, system),
        _refuge(facts), _levels(facts, system), _film(facts), _foul_air(),
    )  # fmt: skip
    return tuple(one for one in found if one.rows)


def _hours(facts: FaultsFacts, in_time: Mapping[str, Check]) -> Table:
    rows = []
    for one in facts.faults:
        chain = one.chain
        worst = None if chain is None or math.isinf(chain.worst) else HOUR * chain.worst
        harm = one.harm
        rows.append((
            one.title, *_three(one), _cause(one.likely),
            None if harm is None or not one.reaches else HOUR * harm.low, _cause(one.soonest) if one.reaches else "",
            "" if one.driver is None else one.driver.words,
            worst if one.reaches else None, None if chain is None or chain.chance is None else chain.chance,
            in_time[one.key].verdict.value,
        ))  # fmt: skip
    columns = (
        Column("fault"), Column("warn after", "s"), Column("act after", "s"), Column("harm after", "s"),
        Column("by"), Column("harm, earliest", "s"), Column("earliest by"), Column("what moves it most"),
        Column("acted by, at worst", "s"),
        Column("chance of harm, nobody looking", "1", "share"), Column("verdict"),
    )  # fmt: skip
    note = "Empty: not within the time followed, or not known. The chance is for the longest time that nobody may look."
    return Table(
        "faults.hours", "Every fault: hours to harm, and who has acted by then", columns, tuple(rows), note
    )


def _cause(hours: Hours | None) -> str:
    """What a run comes to, in words."""
    return "" if hours is None or hours.by is None else HARMS[hours.by]


def _three(one: FaultFacts) -> tuple[float | None, ...]:
    if one.likely is None:
        return None, None, None
    return tuple(None if math.isinf(hours) else HOUR * hours for hours in one.likely.all_three)


def _chains(facts: FaultsFacts) -> Table:
    rows: list[Row] = []
    for one in facts.faults:
        chain = one.chain
        if chain is None or not one.reaches:
            continue
        links = ", ".join(f"{words} {hours_words(hours)}" for words, hours in chain.parts)
        rows.append((
            one.title, chain.noticed, _seconds(chain.best), _seconds(chain.mean), _seconds(chain.worst),
            _seconds(chain.unheard), links, chain.why_not,
        ))  # fmt: skip
    columns = (
        Column("fault"), Column("noticed, at worst, by"), Column("best hour to begin", "s"), Column("mean", "s"),
        Column("worst hour", "s"), Column("worst without any call", "s"), Column("links of the worst"),
        Column("why no alarm"),
    )  # fmt: skip
    note = silent_words(facts)
    return Table("faults.chains", "From the event until somebody has acted", columns, tuple(rows), note)


def _seconds(hours: float) -> float | None:
    return None if math.isinf(hours) else HOUR * hours


def _acts(facts: FaultsFacts) -> Table:
    seen: dict[tuple[str, ...], list[str]] = {}
    never: dict[tuple[str, ...], str] = {}
    for one in facts.faults:
        seen.setdefault(one.acts, []).append(one.title)
        never[one.acts] = one.never
    rows = tuple(("; ".join(titles), *acts, never[acts]) for acts, titles in seen.items() if len(acts) == 3)
    columns = (Column("fault"), Column("first"), Column("second"), Column("third"), Column("never"))
    return Table("faults.acts", "What to do first", columns, rows)


def _bought(facts: FaultsFacts, system: System) -> Table:
    rows: list[Row] = []
    for one in facts.faults:
        for help_ in one.bought:
            before = help_.before
            if math.isinf(before) and math.isinf(help_.harm):
                continue
            what, takes = help_words(help_, system)
            gained = None if math.isinf(help_.harm) or math.isinf(before) else _gained(before, help_.harm)
            rows.append((
                one.title, what, _seconds(before), _seconds(help_.harm), gained,
                _outcome(help_), takes,
            ))  # fmt: skip
    columns = (
        Column("fault"), Column("with"), Column("harm without", "s"), Column("harm with it", "s"),
        Column("gained", "s"), Column("or"), Column("what it takes"),
    )  # fmt: skip
    note = (
        "Each tried by itself in the same run, likely unless told. What must be fed is fed for a day, or until "
        "somebody has acted where that is later, and not beyond; money at your plan's prices."
    )
    return Table("faults.bought", "What would buy time", columns, tuple(rows), note)


def _gained(before: float, harm: float) -> float:
    """Seconds; less than a minute is the run's own noise."""
    return HOUR * (harm - before) if abs(harm - before) > A_MINUTE else 0.0


def _outcome(tried: Bought) -> str:
    """What a number alone does not say of something that was tried."""
    words = ""
    if math.isinf(tried.harm):
        words = "no harm in the time followed"
    elif tried.harm - tried.before <= A_MINUTE:
        words = "gains nothing against this"
    return f"{words}{', ' if words else ''}at the adverse end" if tried.at_worst else words


def _floods(facts: FaultsFacts, system: System) -> Table:
    rows: list[Row] = []
    area = None if facts.floor is None else facts.floor.area
    for one in facts.faults:
        spills = one.spills
        if spills is None and not (one.reaches and one.likely is not None and one.likely.by == "floor"):
            continue
        after = None if one.likely is None else _seconds(one.likely.warn)
        left = (
            f"{100.0 * one.drains:.0f} % of the display is left"
            if one.drains < _WHOLE
            else "the display stays full"
        )
        most = (None, None) if spills is None else (spills.likely, spills.high)
        deep = None if spills is None or area is None else spills.likely / area
        end = "without end" if spills is None else ""
        rows.append((one.title, after, *most, end, deep, left, more_words(one, system)))
    columns = (
        Column("single failure"), Column("first on the floor after", "s"), Column("on the floor", "m3"),
        Column("at most", "m3"), Column("or"), Column("deep, on the free floor", "m", "bow"), Column("what is left"),
        Column("more"),
    )  # fmt: skip
    return Table(
        "faults.floods", "Single failures that put water on the floor", columns, tuple(rows), _goes(facts)
    )


def _goes(facts: FaultsFacts) -> str:
    """Where water on the floor goes."""
    falls = "" if facts.floor is None else facts.floor.falls_to
    first = (
        f"The slab falls to the {falls}: it stands there first"
        if falls
        else "It stands first where the slab is lowest"
    )
    return f"{first}, then runs out by the door or a floor drain. Nothing electric stands there."


_WHOLE = 0.98


def _refuge(facts: FaultsFacts) -> Table:
    rows = tuple(
        (one.name, one.volume, one.mass, HOUR * one.still.low, HOUR * one.still.likely, HOUR * one.with_air)
        for one in facts.refuge
    )
    columns = (
        Column("where the fish may go"), Column("water", "m3"), Column("fish", "kg"),
        Column("keeps, earliest end", "s"), Column("keeps, nothing stirred", "s"),
        Column("with a small air stone", "s"),
    )  # fmt: skip
    note = (
        "Corals go into the same water or any clean tub of it, dark, as warm, with an air stone: a day or two by "
        "practice, without a source."
    )
    return Table("faults.refuge", "Where the fish may go, and how long they keep there", columns, rows, note)


def _levels(facts: FaultsFacts, system: System) -> Table:
    rows = []
    for one in (facts.thresholds or {}).values():
        values = [_level(one, value, system) for value in one.levels]
        rows.append((HARMS[one.quantity], *values, _whose(one)))
    columns = (Column("what"), Column("warn"), Column("act"), Column("harm"), Column("source"))
    return Table("faults.levels", "Levels that the hours are counted to", columns, tuple(rows))


def _whose(level: Threshold) -> str:
    """Which of the three levels are the plan's, and where the others come from."""
    if not level.own or level.printed is None or len(level.own) == len(level.levels):
        return str(level.source)
    return f"your plan ({', '.join(level.own)}); else {level.printed}"


def _level(level: Threshold, value: float, system: System) -> str:
    """A level as its quantity is told."""
    if level.quantity == "low":
        return f"{100.0 * value:.0f} % left"
    return show(value, "mg/L" if level.unit == "g/m3" else level.unit, system)


def _film(facts: FaultsFacts) -> Table:
    film = facts.film
    rows = () if film is None else tuple(
        (MONTHS[month], film.growth[month], DAY * one.low, DAY * one.likely, DAY * one.high)
        for month, one in enumerate(film.last)
    )  # fmt: skip
    columns = (
        Column("month"), Column("growth against the mean", "1"), Column("last safe day, early", "s"),
        Column("likely", "s"), Column("late", "s"),
    )  # fmt: skip
    note = "" if film is None else f"{film.fitted[:1].upper()}{film.fitted[1:]}."
    return Table("faults.film", "Windows: last safe day since the wipe", columns, rows, note)


def _foul_air() -> Table:
    rows = tuple(
        _gas(name) for name in ("hydrogen-sulphide", "carbon-monoxide", "carbon-dioxide", "chlorine", "ozone")
    )
    columns = (Column("gas"), Column("where it comes from"), Column("limits"), Column("do"))
    return Table("faults.foul_air", "Air that harms people", columns, rows)


def _gas(name: str) -> Row:
    row = table("foul_air")[name]
    parts = [f"{_LIMITS[key]} {row.figures[key].printed:g} ppm" for key in _LIMITS if key in row.figures]
    return row.title, str(row.tag("comes", "")), "; ".join(parts), str(row.tag("do", ""))


_LIMITS = {
    "work": "8 hours",
    "short": "10 to 15 minutes",
    "ceiling": "never over",
    "danger": "at once dangerous to life",
}
