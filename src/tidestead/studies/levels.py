"""A level of the catalogue, or the plan's own in its place, with the source that goes with it."""

from __future__ import annotations

from tidestead.catalog import Row
from tidestead.core.source import YOURS, Source


def own_or(row: Row, name: str, own: float | None) -> tuple[float, Source]:
    """The plan's own figure where it has one, else the row's, both in SI."""
    return (row.si(name), row.figure(name).source) if own is None else (own, YOURS)
