"""Forms of the user's own catalogue rows: their keys are those of the table they join."""

from __future__ import annotations

from typing import Annotated, Any

from tidestead.catalog.rows import Datum, table
from tidestead.core.errors import CatalogError
from tidestead.plan.fields import Typed
from tidestead.plan.outline import Spot, spot
from tidestead.plan.own_rows import KEY
from tidestead.plan.statements import Path

_WORDS = {
    "title": "What it is called.",
    "like": "A row of the catalogue that says all that this one leaves out.",
    "source": "Where its figures stand, such as its maker's data sheet.",
}


def is_row(path: Path) -> bool:
    """Whether a path leads to one row of the user's own."""
    return len(path) == 3 and path[0] == KEY


def row_places(name: str) -> dict[str, tuple[Spot, str]]:
    """The keys that a row of a table may have, each with its place and what it means; empty for no table of ours."""
    try:
        rows = list(table(name))
    except CatalogError:
        return {}
    figures = {key: datum for row in rows for key, datum in row.figures.items()}
    tags = {key: tag for row in rows for key, tag in row.tags.items()}
    places = {key: (spot(str), told) for key, told in _WORDS.items()}
    places |= {key: (spot(_kind_of_tag(tag)), "") for key, tag in tags.items()}
    return places | {key: (_place_of_figure(datum), "") for key, datum in figures.items()}


def _kind_of_tag(tag: Any) -> Any:
    return tuple[str, ...] if isinstance(tag, tuple) else type(tag)


def _place_of_figure(datum: Datum) -> Spot:
    one: Any = Annotated[float, Typed(datum.dimension)]
    return spot(tuple[one, ...] if isinstance(datum.value, tuple) else one)
