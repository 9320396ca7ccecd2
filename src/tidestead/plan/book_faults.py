"""Whether the price book fits the rest: what its rows name is there, and is sold as such things are.

These work on what could be read, as `shape` does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tidestead.catalog.rows import YOURS_MARK, nearest, row_names
from tidestead.core.errors import Fault, QuantityError
from tidestead.core.units import Gallon
from tidestead.core.units.typed import excerpt
from tidestead.plan.items import CATALOGUE, FITTED, OWN, PARTS, Item, parse_item
from tidestead.plan.lines import Lines
from tidestead.plan.own_rows import own_names
from tidestead.plan.price_fields import PriceRange, RangeOf
from tidestead.plan.seen import Misfit, Seen
from tidestead.plan.selling import MEASURES, PLAIN, Sold, Stock, Terms, read_sold, read_stock, terms_of
from tidestead.plan.statements import Path, dotted

_ANY_PRICE = RangeOf("piece", anything=True)
_MONEYS = ("price", "replacement")
_PRICED_ALONE = (("supplies", "tariff"), ("salt", "price"), ("targets", "budget"), ("targets", "running"))
_MOST_NAMED = 8


def book_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> list[Fault]:
    """Everything in the price book, the rates and the risks that does not fit the rest of the plan."""
    whole = Seen((), values, gallon)
    names = _Names(values)
    found = [misfit for _, row in whole.parts("book") for misfit in _row(row, names)]
    found += [*_moneys(whole), *_rates(whole), *_risks(whole, names)]
    return [
        Fault(dotted(one.path), lines.line(one.path), lines.typed(one.path), one.allowed, one.advice)
        for one in found
    ]


class _Names:
    """The names that rows may use: those of the catalogue with the user's own, and those of the plan's parts."""

    def __init__(self, values: Mapping[str, Any]) -> None:
        self._values = values
        self._yours = own_names(values)

    def rows(self, table: str) -> tuple[str, ...]:
        """Rows of one table of the catalogue."""
        return (*(f"{YOURS_MARK}{name}" for name in self._yours.get(table, ())), *row_names(table))

    def parts(self, table: str) -> tuple[str, ...]:
        """Parts in one table of the plan."""
        parts = self._values.get(table)
        return tuple(parts) if isinstance(parts, dict) else ()


def _row(row: Seen, names: _Names) -> Iterator[Misfit]:
    """What is wrong with one row of the book."""
    try:
        item = parse_item(row.word("of"))
    except QuantityError:
        return  # the model tells of it
    path = (*row.path, "of")
    strange = _strange(item, names)
    if strange:
        yield Misfit(path, *strange)
    if row.has("count") and item.sort != OWN:
        allowed = "is for extras only: how many are needed of this follows from the plan."
        yield Misfit((*row.path, "count"), allowed, "Take it out; what is there already is `owned`.")
    terms, sold = terms_of(item), _sold(row)
    if sold is not None and sold.shape not in terms.shapes:
        yield Misfit((*row.path, "sold"), *_unsuited(item, terms))
        sold = None
    if not row.has("price") and not row.has("owned"):
        yield Misfit((*row.path, "price"), "is missing.", 'Add price = "9.40 EUR/piece".')
    yield from _priced(row, item, terms, sold)
    yield from _stocked(row, sold, terms)


def _strange(item: Item, names: _Names) -> tuple[str, str] | None:
    """What is wrong with the names of an item, and what to write; None where all are known."""
    words = item.name.split()
    if item.sort in CATALOGUE:
        return _unknown(words[0], names.rows(CATALOGUE[item.sort]), CATALOGUE[item.sort])
    if item.sort in FITTED:
        table = FITTED[item.sort]
        return _unknown(words[0], names.rows(table), table) or _unknown(
            words[1], names.rows("pipes"), "pipes"
        )
    return _no_part(item, names.parts(PARTS[item.sort])) if item.sort in PARTS else None


def _no_part(item: Item, known: tuple[str, ...]) -> tuple[str, str] | None:
    """A name that no part of the plan has. Of what the plan has none at all, a price may stand for later."""
    if not known or item.name in known:
        return None
    close = nearest(item.name, known, 1)
    some = ", ".join(f'"{item.sort} {name}"' for name in known[:_MOST_NAMED])
    advice = (
        f'Did you mean "{item.sort} {close[0]}"?' if close else f"There are: {some}. Or take this row out."
    )
    return f"names no {item.sort} of this plan.", advice


def _unknown(name: str, known: tuple[str, ...], table: str) -> tuple[str, str] | None:
    """A name that is in no table of the catalogue."""
    if name in known:
        return None
    if f"{YOURS_MARK}{name}" in known:
        return f"names {excerpt(name)}, a row of your own.", f'Write "{YOURS_MARK}{name}" in its place.'
    if name.startswith(YOURS_MARK):
        own = excerpt(name.removeprefix(YOURS_MARK)).strip('"')
        return (
            f"names {excerpt(name)}, which is none of your rows.",
            f"Write its figures under [yours.{table}.{own}].",
        )
    close = nearest(name, known)
    some = ", ".join(known[:_MOST_NAMED]) + (", ..." if len(known) > _MOST_NAMED else "")
    advice = f"Did you mean {_either(close)}?" if close else f"Known: {some}. Your own: [yours.{table}.NAME]."
    return f"names {excerpt(name)}, which is not in the catalogue of {table}.", advice


def _either(names: list[str]) -> str:
    return " or ".join(f'"{name}"' for name in names)


def _sold(row: Seen) -> Sold | None:
    """What one of it is, where that is said and can be read."""
    text = _text(row.values.get("sold"))
    try:
        return read_sold(text, row.gallon) if text else None
    except QuantityError:
        return None


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return ""
    return f"{value}" if isinstance(value, str | int) else ""


def _price(row: Seen, key: str) -> PriceRange | None:
    """A good price."""
    text = row.word(key)
    try:
        return _ANY_PRICE.read(text, row.gallon) if text else None
    except QuantityError:
        return None


_SHAPES = {
    "length": "a length",
    "sheet": "two sides",
    "block": "three sides",
    "volume": "a volume",
    "mass": "a weight",
    "count": "so many pieces",
}


def _unsuited(item: Item, terms: Terms) -> tuple[str, str]:
    """What is wrong with a thing that is not sold as its row says."""
    if not terms.shapes:
        return f"does not belong to {item.sort}: its price says what it is for one of.", "Take it out."
    ways = " or ".join(_SHAPES[shape] for shape in terms.shapes)
    like = f'Write it like "{terms.like[0]}"'
    return (
        f"is not how {item.sort} is sold: by {ways}.",
        f"{like}, or leave it out and give the price by measure."
        if terms.measures
        else f"{like}, or leave it out where it is one piece.",
    )


def _priced(row: Seen, item: Item, terms: Terms, sold: Sold | None) -> Iterator[Misfit]:
    """The price is for something that the thing is sold by, and says how much that is."""
    for key in _MONEYS:
        price, path = _price(row, key), (*row.path, key)
        if price is None or not price.per:
            continue
        if price.per not in (*terms.measures, *terms.packs):
            ways = ", ".join((*terms.packs, *terms.measures))
            yield Misfit(
                path, f"is for one {price.per}, and {item.sort} is not sold so.", f"Write it for one: {ways}."
            )
        elif price.per in terms.packs and not row.has("sold") and not _plain(terms, price.per):
            example = f'Add sold = "{terms.like[0]}"'
            measures = f", or give the price for one {terms.measures[0]}" if terms.measures else ""
            yield Misfit(
                path, f"is for one {price.per}, and how much that holds is not said.", f"{example}{measures}."
            )
        elif sold is not None and _crossed(price.per, sold, item):
            allowed = f"is for one {price.per}, and what is sold is {_SHAPES[sold.shape]}."
            yield Misfit(path, allowed, f"Write it for one {terms.packs[0]}.")


def _crossed(per: str, sold: Sold, item: Item) -> bool:
    """Whether a price is by another measure than what is sold; timber by length may be priced by volume."""
    by_volume = item.sort == "lumber" and sold.shape == "length"
    return per in MEASURES and MEASURES[per][0] != sold.unit and not by_volume


def _plain(terms: Terms, per: str) -> bool:
    """Whether one of a word is one piece without more being said."""
    return terms.alone and per in PLAIN


def _stocked(row: Seen, sold: Sold | None, terms: Terms) -> Iterator[Misfit]:
    """What is there is counted as the row counts, and is no more than can be had."""
    stocks = {key: _stock(row, key) for key in ("owned", "at_most")}
    for key, stock in stocks.items():
        if stock is None or stock.amount is None or not stock.amount:
            continue
        price = _price(row, "price")
        measured = price is not None and price.per in terms.measures
        if stock.unit == "1" and sold is None and measured and price is not None:
            advice = f'Write how much, such as "10 {price.per}", or "all" where there is all that is needed.'
            yield Misfit((*row.path, key), f"has no unit, and the price is for one {price.per}.", advice)
        elif stock.unit != "1" and stock.unit not in _units(sold, price):
            allowed = "is not counted as the price and what is sold are."
            yield Misfit((*row.path, key), allowed, "Write how many, such as 4.")
    owned, most = stocks["owned"], stocks["at_most"]
    if owned and most and owned.unit == most.unit and (owned.amount or 0.0) > (most.amount or 0.0):
        advice = "Write how many can be had with those that are there."
        yield Misfit((*row.path, "at_most"), "is less than what is there already.", advice)


def _units(sold: Sold | None, price: PriceRange | None) -> set[str]:
    """The units that an amount of a row may be told in."""
    units: set[str] = {sold.unit} if sold is not None else set()
    if price is not None and price.per in MEASURES:
        units.add(MEASURES[price.per][0])
    return units


def _stock(row: Seen, key: str) -> Stock | None:
    value = row.values.get(key)
    if value is True:
        return Stock(None)
    text = _text(value)
    try:
        return read_stock(text, row.gallon) if text else None
    except QuantityError:
        return None


def _moneys(whole: Seen) -> Iterator[Misfit]:
    """In a plan with a book that does not say which money it counts in, all prices are in one."""
    if whole.has("currency") or not whole.has("book"):
        return
    first = ""
    for table, key in _priced_parts(whole):
        price = _price(table, key)
        first = first or (price.currency if price else "")
        if price is not None and price.currency != first:
            allowed = f"is in {price.currency}, others in {first}; the plan does not say which it counts in."
            advice = f'Write currency = "{first}" at the top, and what one {price.currency} is worth under [rates].'
            yield Misfit((*table.path, key), allowed, advice)


def _priced_parts(whole: Seen) -> Iterator[tuple[Seen, str]]:
    """Every place of a price that the cost of the plan is made of, those of the book first."""
    yield from ((row, key) for _, row in whole.parts("book") for key in _MONEYS)
    yield from ((whole.under(table), key) for table, key in _PRICED_ALONE)
    for table, key in (("sources", "price"), ("heaters", "price"), ("risks", "cost"), ("rates", "worth")):
        yield from ((part, key) for _, part in whole.parts(table))


def _rates(whole: Seen) -> Iterator[Misfit]:
    """No rate for the plan's own money."""
    own = whole.word("currency")
    for name, rate in whole.parts("rates"):
        if own and name == own:
            yield Misfit(rate.path, "is the money that this plan counts in.", "Take it out.")


def _risks(whole: Seen, names: _Names) -> Iterator[Misfit]:
    """A risk strikes a vessel of the plan."""
    known = names.parts("vessels")
    for _, risk in whole.parts("risks"):
        name = risk.word("vessel")
        if name and name not in known:
            close = nearest(name, known, 1)
            advice = f'Did you mean "{close[0]}"?' if close else f"There are: {', '.join(known[:20])}."
            path: Path = (*risk.path, "vessel")
            allowed = f"names no vessel; there is no vessel called {excerpt(name)}."
            yield Misfit(path, allowed, advice if known else "Describe it under [vessels.NAME].")
