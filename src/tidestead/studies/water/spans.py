"""Ranges put together: sums, factors, and figures of the catalogue that are told low, likely and high."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from tidestead.catalog import Row
from tidestead.core.answer import Estimate

SQUARES = "ranges of the parts added as squares: they vary apart from each other"
NOTHING = Estimate(0.0, 0.0, 0.0, "nothing")
DAY = 86400.0
HOUR = 3600.0
GRAMS = 1000.0
MILLI = 1e6
"""Millilitres in a cubic metre."""


def three(row: Row, name: str, factor: float = 1.0) -> Estimate:
    """A figure of a row with its low and its high one, in SI times a factor."""
    low, likely, high = (factor * row.si(key) for key in (f"{name}_low", name, f"{name}_high"))
    return Estimate(low, likely, high, row.title)


def summed(parts: Sequence[Estimate], basis: str = SQUARES) -> Estimate:
    """A sum whose parts vary apart from each other: their ranges add as squares."""
    likely = sum(one.likely for one in parts)
    down = math.sqrt(sum((one.likely - one.low) ** 2 for one in parts))
    up = math.sqrt(sum((one.high - one.likely) ** 2 for one in parts))
    return Estimate(max(likely - down, min(0.0, likely)), likely, likely + up, basis)


def moved(
    find: Callable[..., float], parts: Sequence[Estimate], basis: str, least: float | None = None
) -> Estimate:
    """A figure of several ranges: each is moved to its ends by itself, and what that does adds as squares.

    `least`, where given, is as low as it can be.
    """
    middle = [one.likely for one in parts]
    likely = find(*middle)
    down = up = 0.0
    for at, one in enumerate(parts):
        ends = [find(*middle[:at], end, *middle[at + 1 :]) for end in (one.low, one.high)]
        down += max(likely - min(ends), 0.0) ** 2
        up += max(max(ends) - likely, 0.0) ** 2
    low, high = likely - math.sqrt(down), likely + math.sqrt(up)
    if least is not None:
        low, likely, high = max(low, least), max(likely, least), max(high, least)
    return Estimate(low, likely, high, basis)


def ends(find: Callable[[float], float], value: Estimate, basis: str = "") -> Estimate:
    """A figure that rises or falls with one range."""
    low, likely, high = find(value.low), find(value.likely), find(value.high)
    return Estimate(min(low, likely, high), likely, max(low, likely, high), basis or value.basis)
