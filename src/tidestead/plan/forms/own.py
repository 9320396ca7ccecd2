"""Forms of the user's own catalogue rows: their keys are those of the table they join."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import BaseModel

from tidestead.catalog.rows import Datum, table
from tidestead.core.errors import CatalogError
from tidestead.core.units import DIMENSIONS
from tidestead.plan.fields import Named, Typed
from tidestead.plan.model import Plan
from tidestead.plan.outline import Spot, spot
from tidestead.plan.own_rows import KEY
from tidestead.plan.statements import Path

LIKE = "like"
_WORDS = {
    "title": "What it is called.",
    LIKE: "A row of the catalogue that says all that this one leaves out.",
    "source": "Where its figures stand, such as its maker's data sheet.",
}
_CALLED = {
    "clear": "clear sheet of windows",
    "glazings": "clear sheet of the building",
    "lumber": "timber grades",
    "uv_targets": "targets of UV",
}
"""What tables hold, where their name does not say it."""


def is_row(path: Path) -> bool:
    """Whether a path leads to one row of the user's own."""
    return len(path) == 3 and path[0] == KEY


def called(name: str) -> str:
    """What a table of the catalogue holds, in words."""
    return _CALLED.get(name, name.replace("_", " "))


@cache
def tables_named() -> tuple[str, ...]:
    """The tables whose rows a plan can name: a row of the user's own means something in no other."""
    return tuple(sorted(set(_named_in(Plan, set()))))


def _named_in(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[str]:
    if model in seen:
        return
    seen.add(model)
    for info in model.model_fields.values():
        here: Spot | None = spot(info.annotation, tuple(info.metadata))
        while here is not None and here.model is None and not isinstance(here.typed, Named):
            here = here.under(0)
        if here is not None and isinstance(here.typed, Named):
            yield here.typed.table
        elif here is not None and here.model is not None:
            yield from _named_in(here.model, seen)


def row_places(name: str) -> dict[str, tuple[Spot, str]]:
    """The keys that a row of a table may have, each with its place and what it means; empty for no table of ours."""
    try:
        rows = list(table(name))
    except CatalogError:
        return {}
    figures = {key: datum for row in rows for key, datum in row.figures.items()}
    tags = {key: tag for row in rows for key, tag in row.tags.items()}
    places = {key: (spot(str), told) for key, told in _WORDS.items()}
    places[LIKE] = (spot(Literal[tuple(row.name for row in rows)]), _WORDS[LIKE])
    places |= {key: (spot(_kind_of_tag(tag)), "") for key, tag in tags.items()}
    return places | {key: (_place_of_figure(datum), "") for key, datum in figures.items()}


def _plain(number: float) -> str:
    """A number as a person types it, without a power of ten."""
    return f"{Decimal(repr(number)):f}".removesuffix(".0")


def _kind_of_tag(tag: Any) -> Any:
    return tuple[str, ...] if isinstance(tag, tuple) else type(tag)


def _place_of_figure(datum: Datum) -> Spot:
    """Where a figure is typed; what ours has is the example."""
    many = isinstance(datum.printed, tuple)
    printed = datum.printed[0] if isinstance(datum.printed, tuple) else datum.printed
    unit = "" if DIMENSIONS[datum.dimension].bare and datum.printed_unit != "%" else f" {datum.printed_unit}"
    one: Any = Annotated[float, Typed(datum.dimension, examples=(f"{_plain(printed)}{unit}",))]
    return spot(tuple[one, ...] if many else one)
