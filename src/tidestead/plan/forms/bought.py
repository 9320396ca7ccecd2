"""What the forms tell of the price book: things that this plan may need, what was understood of them, moneys."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tidestead.catalog.rows import YOURS_MARK, table
from tidestead.core.errors import QuantityError
from tidestead.core.kept import kept
from tidestead.core.units import System, echo, parse_section
from tidestead.plan.flow_fields import read_item
from tidestead.plan.forms.draft import Draft
from tidestead.plan.items import ALONE, CATALOGUE, FITTED, PARTS, Item
from tidestead.plan.price_fields import RangeOf
from tidestead.plan.selling import Sold, Stock
from tidestead.plan.statements import Path

_USUAL_MONEYS = ("EUR", "USD", "GBP", "CAD", "AUD", "CHF", "SEK", "NOK", "DKK", "PLN")
_NAMED = {
    "sheet": "sheet",
    "fastener": "fastener",
    "bed": "seal",
    "fitting": "bulkhead",
    "glazing": "glazing",
    "reagent": "reagent",
    "size": "pipe",
}
"""Keys of a plan that name a thing which is bought, and its sort; a bulkhead is a `fitting` in its own table."""


@kept(at_most=4, by=lambda draft, system: (draft.text, system))
def items_known(draft: Draft, system: System) -> tuple[str, ...]:
    """Things that this plan names, as rows of its price book name them, each once."""
    values = draft.values if isinstance(draft.values, dict) else dict(draft.values)
    found = [*_materials(values, (), system), *_parts(values), *ALONE]
    return tuple(dict.fromkeys(found))


def _parts(values: dict[str, Any]) -> Iterator[str]:
    """Parts of the plan that may be bought."""
    for sort, name in PARTS.items():
        parts = values.get(name)
        for part, held in parts.items() if isinstance(parts, dict) else ():
            if sort != "cone" or (isinstance(held, dict) and "cone" in held):
                yield f"{sort} {part}"


def _materials(value: Any, path: Path, system: System) -> Iterator[str]:
    """Rows of the catalogue that the plan names: timber, sheets, linings, fasteners, pipes and what fits them."""
    if path == ("book",) or not isinstance(value, dict):
        return
    yield from _timber(value, system)
    if isinstance(value.get("product"), str):
        sort = "liner" if value.get("kind") == "sheet" else "coating"
        yield f"{sort} {value['product']}"
    if path[-2:-1] == ("windows",):
        yield from _clear(value)
    if path[:1] == ("circuits",):
        yield from _passed(value.get("route"))
    for key, inner in value.items():
        if isinstance(inner, str) and key in _NAMED:
            yield f"{_NAMED[key]} {inner}"
        yield from _materials(inner, (*path, key), system)


def _timber(value: dict[str, Any], system: System) -> Iterator[str]:
    section, grade = value.get("section"), value.get("grade")
    if not isinstance(section, str) or not isinstance(grade, str):
        return
    try:
        yield Item.lumber(parse_section(section), grade).written(system)
    except QuantityError:
        return


def _clear(value: dict[str, Any]) -> Iterator[str]:
    material, thickness = value.get("material"), value.get("thickness")
    if isinstance(material, str) and isinstance(thickness, str):
        yield f"clear {material} {thickness}"


def _passed(route: Any) -> Iterator[str]:
    """Pipes of a route, and the fittings on them."""
    pipe = ""
    for text in route if isinstance(route, list) else ():
        try:
            item = read_item(text, None) if isinstance(text, str) else None
        except QuantityError:
            continue
        if item is not None and item.kind == "pipe":
            pipe = item.name
            yield f"pipe {pipe}"
        elif item is not None and item.kind == "fitting" and pipe:
            yield f"fitting {item.name} {pipe}"


def moneys_of(draft: Draft) -> tuple[str, ...]:
    """Other money that a rate may be for: that of the plan's prices first, then what is usual."""
    own = draft.at(("currency",))
    rows = draft.at(("book",))
    typed = (
        [row.get("price") for row in rows.values() if isinstance(row, dict)] if isinstance(rows, dict) else []
    )
    return tuple(one for one in dict.fromkeys((*_moneys(typed), *_USUAL_MONEYS)) if one != own)


def _moneys(typed: list[Any]) -> Iterator[str]:
    reader = RangeOf("piece", anything=True)
    for text in typed:
        try:
            if isinstance(text, str):
                yield reader.read(text, "us").currency
        except QuantityError:
            continue


def told_item(item: Item, _dimension: str) -> str:
    """What a row is of, in words."""
    words = item.name.split()
    if item.sort in CATALOGUE:
        title = _title(CATALOGUE[item.sort], words[0])
        return (
            ", ".join([title, " by ".join(echo(size, "m", "lumber") for size in item.sizes)])
            if item.sizes
            else title
        )
    if item.sort in FITTED:
        return f"{_title(FITTED[item.sort], words[0])}, for {_title('pipes', words[1])}"
    if item.sort in PARTS:
        return f"{item.sort} {item.name} of this plan"
    sizes = "".join(f", {echo(size, 'm')}" for size in item.sizes)
    return f"{item.sort} {item.name}".strip() + sizes


def _title(name: str, row: str) -> str:
    """The title of a row of ours; the name of one of the user's own."""
    rows = table(name)
    return rows[row].title if row in rows else row.removeprefix(YOURS_MARK)


def told_sold(sold: Sold, _dimension: str) -> str:
    """What one of it is."""
    if sold.shape == "count":
        return f"{sold.amount:g} pieces"
    if sold.shape in ("sheet", "block"):
        return " by ".join(echo(size, "m") for size in sold.sizes)
    return echo(sold.amount, sold.unit)


def told_stock(stock: Stock, _dimension: str) -> str:
    """How much there is."""
    if stock.amount is None:
        return "all that is needed"
    return f"{stock.amount:g} of what is sold" if stock.unit == "1" else echo(stock.amount, stock.unit)
