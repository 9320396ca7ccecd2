"""Words and numbers for people, the same in every renderer: shares, limits, ranges, order of checks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from tidestead.core.answer import NEAR, Answer, Check, Column, Estimate, Verdict
from tidestead.core.source import Source
from tidestead.core.units import System, show
from tidestead.report.plain import clean

NOTHING = "-"
"""Stands where there is no value; the reason stands beside it."""

SHARE = "share"
"""Style of a column of ratios: they are told as percent, as the use of a check is."""

_ORDER = (Verdict.FAILS, Verdict.UNPROVEN, Verdict.NEAR, Verdict.SOUND)
_LARGEST_PERCENT = 999.0


def shown(value: float, unit: str, system: System, style: str = "", beside: Iterable[float] = ()) -> str:
    """A value as the user reads it, in a unit shared with those beside it; one that is no number is named as such."""
    if style == SHARE:
        return percent(value)
    if math.isnan(value):
        return "no number"
    if math.isinf(value):
        return "endless" if value > 0 else "endlessly below zero"
    return show(value, unit, system, style, beside)


def _told(check: Check, value: float, system: System) -> str:
    """A value of a check, in the unit that its value, range and limit share."""
    limit = check.limit if isinstance(check.limit, tuple) else (check.limit,)
    family = [end for end in limit if end is not None]
    if check.estimate is not None:
        family += [check.estimate.low, check.estimate.likely, check.estimate.high]
    return shown(value, check.unit, system, check.style, family)


def _end(check: Check, value: float, system: System) -> str:
    """An end of what a check found; "over" where it was followed no further."""
    return _over(check.estimate, value, _told(check, value, system))


def _over(estimate: Estimate | None, value: float, words: str) -> str:
    return f"over {words}" if estimate is not None and value >= estimate.followed else words


def likely(estimate: Estimate, unit: str, system: System, style: str = "") -> str:
    """The likely value of an estimate, in the unit that it shares with its range."""
    ends = (estimate.low, estimate.likely, estimate.high)
    return _over(estimate, estimate.likely, shown(estimate.likely, unit, system, style, ends))


def percent(share: float, bounds: Iterable[float] = (0.8, 1.0)) -> str:
    """A share as percent, with as many decimals as keep it on its own side of the bounds that judge it."""
    if not math.isfinite(share) or abs(share) * 100.0 > _LARGEST_PERCENT:
        return ">999 %" if share > 0 else "<-999 %"
    hundredth = float(share) * 100.0
    for places in range(4):
        rounded = round(hundredth, places)
        if all(_side(rounded - 100.0 * bound) == _side(hundredth - 100.0 * bound) for bound in bounds):
            break
    else:
        places, rounded = 0, round(hundredth)
    return f"{rounded + 0.0:.{places}f} %"  # no "-0 %"


def _side(gap: float) -> int:
    return (gap > 1e-7) - (gap < -1e-7)


def used(check: Check) -> str:
    """The share of the limit that is used."""
    return NOTHING if check.use is None else percent(check.use, (1.0 - check.near, 1.0))


def margin(check: Check) -> str:
    """What is left of the limit."""
    if check.margin is None:
        return NOTHING
    return (
        percent(check.margin, (check.near, 0.0)) if 100.0 * check.margin > -_LARGEST_PERCENT else "none left"
    )


def now(check: Check, system: System) -> str:
    """The likely value."""
    return NOTHING if check.estimate is None else _end(check, check.estimate.likely, system)


def adverse(check: Check, system: System) -> str:
    """The end of the range that decides, in words; empty where the range is too small to show."""
    if check.estimate is None or not check.estimate.finite:
        return ""
    if check.must_be == "within":
        low, high = (_end(check, end, system) for end in (check.estimate.low, check.estimate.high))
        return "" if low == high else f"{low} to {high}"
    below = check.must_be == "below"
    end = check.estimate.high if below else check.estimate.low
    text = _end(check, end, system)
    return "" if text == now(check, system) else f"{'up' if below else 'down'} to {text}"


def with_worst(value: float, worst: float | None, unit: str, system: System, style: str = "") -> str:
    """A value and the end of its range that is judged, where that is another."""
    words = shown(value, unit, system, style)
    if worst is None or (end := shown(worst, unit, system, style)) == words:
        return words
    return f"{words} ({'up' if worst > value else 'down'} to {end})"


def spread(estimate: Estimate, unit: str, system: System, style: str = "") -> str:
    """The range of an estimate; empty where it is too small to show."""
    ends = (estimate.low, estimate.likely, estimate.high)
    low, high = (
        _over(estimate, end, shown(end, unit, system, style, ends)) for end in (estimate.low, estimate.high)
    )
    return "" if low == high else f"{low} to {high}"


def allowed(check: Check, system: System) -> str:
    """The limit, with the words that say which side of it is right."""
    if check.limit is None:
        return NOTHING
    if isinstance(check.limit, tuple):
        low, high = (_told(check, end, system) for end in check.limit)
        return f"{low} to {high}"
    limit = _told(check, check.limit, system)
    return limit if check.must_be == "below" else f"at least {limit}"


def reason(check: Check) -> str:
    """Why a check is unproven; empty for one that is judged."""
    if check.verdict is not Verdict.UNPROVEN:
        return ""
    if check.missing:
        return clean(check.missing)
    if check.estimate is None:
        return "no value could be found"
    if check.limit is None:
        return "no limit is known"
    return "the computation gave no usable number"


def ordered(checks: Sequence[Check]) -> list[Check]:
    """Worst first: by verdict, then by the share used, then as the study gave them."""
    return sorted(checks, key=lambda check: (_ORDER.index(check.verdict), -(check.use or 0.0)))


def governing(answer: Answer) -> Check | None:
    """The check that the answer's verdict rests on: the one that its sentence tells first."""
    told = (check for check in answer.checks if check.id == answer.governs)
    return next(iter((*told, *ordered(answer.checks))), None)


def tally(checks: Sequence[Check]) -> str:
    """How many checks there are of each verdict, worst first."""
    if not checks:
        return "no checks"
    counts = [(verdict, sum(check.verdict is verdict for check in checks)) for verdict in _ORDER]
    parts = [f"{count} {_counted(verdict, count)}" for verdict, count in counts if count]
    return f"{many(len(checks), 'check')}: {', '.join(parts)}"


def _counted(verdict: Verdict, count: int) -> str:
    """The word of a verdict after a number."""
    return "fail" if verdict is Verdict.FAILS and count != 1 else verdict.value


def many(count: int, noun: str) -> str:
    """A count with its noun."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def titled(check: Check) -> str:
    """What is checked; where that is a bare noun such as "bending", with the part of which it is said before it."""
    if len(check.what.split()) > _PLAIN_WORDS or not check.where:
        return check.what
    parts = check.where.split(", ")
    place = ", ".join(parts[-2:])
    return f"{place if len(place) <= _LONGEST_PLACE else parts[-1]}: {check.what}"


_PLAIN_WORDS, _LONGEST_PLACE = 2, 30
"""A check named in so few words says too little without its place; letters of a place that may stand before it."""


def range_basis(check: Check) -> str:
    """What the range of a check rests on, where the check is not sound."""
    if check.estimate is None or check.verdict is Verdict.SOUND or not check.estimate.basis:
        return ""
    return f"range: {clean(check.estimate.basis)}" if check.estimate.low != check.estimate.high else ""


def own_band(check: Check) -> str:
    """Where a check counts as near earlier or later than is usual: from how little left on.

    A sound check that has more left than is usual needs no such word.
    """
    if check.margin is None or check.near == NEAR:
        return ""
    if check.verdict is Verdict.SOUND and check.margin >= NEAR:
        return ""
    if not check.near:
        return "not called near: it holds or it fails"
    return f"near {'only' if check.near < NEAR else 'already'} below {percent(check.near, ())} left"


def place(check: Check) -> str:
    """Where a check is made, with its load case."""
    return clean(", ".join(part for part in (check.where, check.case) if part))


class Citations:
    """Numbers for sources in the order they are met, so that a line of text can point at the list."""

    def __init__(self) -> None:
        self._numbers: dict[Source, int] = {}

    def mark(self, source: Source) -> str:
        """The mark to print beside what rests on the source."""
        return f"[{self._numbers.setdefault(source, len(self._numbers) + 1)}]"

    def __iter__(self) -> Iterator[tuple[str, Source]]:
        for source, number in self._numbers.items():
            yield f"[{number}]", source


def column_cells(values: Sequence[float | str | None], column: Column, system: System) -> list[str]:
    """The cells of one column, its numbers in one unit."""
    numbers = [value for value in values if value is not None and not isinstance(value, str)]
    return [
        value
        if isinstance(value, str)
        else NOTHING
        if value is None
        else shown(value, column.unit, system, column.style, numbers)
        for value in values
    ]


def mending(check: Check) -> str:
    """Why a check is unproven and what to do about it, without a stop at the end; empty where neither is known."""
    return ". ".join(part.rstrip(".") for part in (reason(check), check.advice) if part)
