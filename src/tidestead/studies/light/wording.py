"""Light, months and money in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.core.units import Price, System, show

DAY, FLOW = "mol/(m2 day)", "umol/(m2 s)"

_JOULE_KWH = 3.6e6


def months_words(months: Iterable[int]) -> str:
    """ "Oct to Mar", "May", "Jan to Mar and Nov to Dec"; December and January touch."""
    wanted = set(months)
    if len(wanted) == 12:
        return "all year"
    spans = [_span(begin, wanted) for begin in sorted(wanted) if (begin - 1) % 12 not in wanted]
    words = [MONTHS[begin] if begin == end else f"{MONTHS[begin]} to {MONTHS[end]}" for begin, end in spans]
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def in_months(months: Iterable[int]) -> str:
    """ "in Oct to Mar", "all year"."""
    words = months_words(months)
    return words if words == "all year" else f"in {words}"


def _span(begin: int, wanted: set[int]) -> tuple[int, int]:
    end = begin
    while (end + 1) % 12 in wanted:
        end = (end + 1) % 12
    return begin, end


def date_words(day: int) -> str:
    """ "22 Jun" for the day of that number, from 0, of a year of 365."""
    month, left = 0, day
    while left >= MONTH_DAYS[month]:
        left -= MONTH_DAYS[month]
        month += 1
    return f"{left + 1} {MONTHS[month]}"


def day_light(value: float, system: System, beside: Sequence[float] = ()) -> str:
    """Light of a day."""
    return show(value, DAY, system, "", beside)


def share_words(share: float) -> str:
    """A share in whole percent, never told smaller than it is by rounding: what must be kept out is rounded up."""
    return f"{-int(-100.0 * share // 1):d} %"


def money(joules: float, tariff: Price) -> Decimal:
    """What so much energy costs."""
    return (tariff.amount * Decimal(str(joules / _JOULE_KWH))).quantize(Decimal("0.01"))


def money_words(joules: float, tariff: Price | None) -> str:
    """ ", 67 EUR" after an energy; nothing where the plan has no tariff."""
    return "" if tariff is None else f" ({money(joules, tariff):.0f} {tariff.currency})"
