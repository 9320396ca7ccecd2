"""What parts of a plan are found to take, one by one, and how that becomes a list."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple, TypeAlias

from tidestead.build.lists import Line, Piece, TakenOff
from tidestead.catalog import Row, Table, table
from tidestead.plan.model import Plan

YEAR = 365.0 * 86400.0
"""Seconds of a year that amounts are counted for: as those of weather, light and heat, 8760 hours."""


class Gap(NamedTuple):
    """What cannot be told: the key to write, and a sentence."""

    key: str
    words: str


Finding: TypeAlias = Line | Piece | Gap


def taken(found: Iterable[Finding]) -> TakenOff:
    """All of it as one list; what is lacking twice is told once."""
    every = list(found)
    return TakenOff(
        tuple(one for one in every if isinstance(one, Line)),
        tuple(one for one in every if isinstance(one, Piece)),
        missing=tuple(dict.fromkeys((one.key, one.words) for one in every if isinstance(one, Gap))),
    )


def rows_of(plan: Plan, name: str) -> Table:
    """One table of the catalogue with the plan's own rows."""
    ours = table(name)
    return ours.with_yours(plan.yours[name], plan.gallons) if name in plan.yours else ours


def positive(row: Row, key: str) -> float | None:
    """A figure of a row, None where it has none or none that is more than nothing."""
    value = row.si(key) if key in row.figures else 0.0
    return value if value > 0.0 else None
