"""The user's own catalogue rows in the plan, judged by the tables they join."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tidestead.catalog.rows import TABLES, nearest, table
from tidestead.core.errors import Fault
from tidestead.core.units import Gallon
from tidestead.plan.lines import Lines
from tidestead.plan.statements import Path, dotted

KEY = "yours"


def own_names(values: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """The names the user gave to own rows, by table, whether or not the rows are sound."""
    yours = values.get(KEY)
    tables = yours.items() if isinstance(yours, dict) else ()
    return {name: tuple(rows) for name, rows in tables if isinstance(rows, dict)}


def own_row_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> Iterator[Fault]:
    """Every fault in the user's own rows."""
    yours = values.get(KEY)
    if not isinstance(yours, dict):
        return
    from tidestead.catalog.yours import own_rows  # noqa: PLC0415 - most plans have none

    for name, rows in yours.items():
        if name not in TABLES:
            close = nearest(name, TABLES, 1)
            advice = f"Did you mean {close[0]}? " if close else ""
            told = f"{advice}Known: {', '.join(TABLES)}."
            path: Path = (KEY, name)
            allowed = "is not a table of the catalogue."
            yield Fault(dotted(path), lines.line(path), lines.key_typed(path), allowed, told)
        elif isinstance(rows, dict):
            sound = {row: entry for row, entry in rows.items() if isinstance(entry, dict)}
            for fault in own_rows(table(name), sound, gallon)[1]:
                path = (KEY, name, fault.row, *((fault.key,) if fault.key else ()))
                unknown = fault.given == fault.key
                given = lines.key_typed(path) if unknown else lines.typed(path) or fault.given
                yield Fault(dotted(path), lines.line(path), given, fault.allowed, fault.advice)
