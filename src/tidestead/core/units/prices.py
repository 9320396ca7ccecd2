"""Prices as typed: "18 EUR/sheet", "0.32 EUR/kWh", "320 EUR"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from tidestead.core.errors import QuantityError
from tidestead.core.units.bands import three_parts, with_units
from tidestead.core.units.dimensions import Gallon
from tidestead.core.units.numerals import numeral
from tidestead.core.units.registry import takers
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import LONGEST, as_text, excerpt, plain

PER_MEASURE = (
    "m", "m2", "m3", "ft", "ft2", "ft3", "yd", "L", "US gal", "imp gal", "kg", "g", "lb", "kWh", "h", "day",
    "week", "year",
)  # fmt: skip
PER_THING = {
    "sheet": "sheet sheets",
    "piece": "piece pieces pc pcs each ea",
    "board foot": "bf bdft",
    "length": "length lengths",
    "box": "box boxes",
    "bag": "bag bags",
    "bucket": "bucket buckets pail pails",
    "can": "can cans tin tins",
    "cartridge": "cartridge cartridges tube tubes",
    "roll": "roll rolls",
    "set": "set sets",
    "load": "load loads",
    "visit": "visit visits",
    "trip": "trip trips",
}
_THINGS = {spelling: name for name, spellings in PER_THING.items() for spelling in (name, *spellings.split())}
MONEY = r"(?P<currency>[A-Za-z]{3})(?:(?: ?/ ?| per | (?=each))(?P<per>.+))?"

_CENTS = re.compile(r"[0-9 ](?:ct|cts|cents?|c|p|pence|penny|¢)(?=$|[ /])", re.IGNORECASE)
"""A hundredth of any money: of which, it does not say."""


@dataclass(frozen=True)
class Price:
    """An amount of money for one of something; `per` is empty for the thing itself."""

    amount: Decimal
    currency: str
    per: str


def price_in_cents(text: str) -> bool:
    """Whether a price is told in hundredths, as "15 ct/kWh" is."""
    return _CENTS.search(text) is not None


def parse_price(text: str, gallon: Gallon = None) -> Price:
    """The price that "18 EUR/sheet" or "320 EUR" names. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed)
    if words.startswith("-"):
        raise QuantityError(excerpt(typed), "is below zero.", 'Write it like "18 EUR/sheet".')
    number = numeral(words, typed)
    if price_in_cents(words):
        advice = 'Write it in whole money with its currency, like "0.15 EUR/kWh" for 15 cents.'
        raise QuantityError(excerpt(typed), "is in cents, and does not say of which money.", advice)
    if "/" in number.letters:
        raise QuantityError(
            excerpt(typed), "is a fraction; money is a decimal.", 'Write it like "18.50 EUR/sheet".'
        )
    found = re.fullmatch(MONEY, number.rest.strip())
    if not found or takers(canonical(found["currency"], "us")):
        raise QuantityError(
            excerpt(typed),
            "has no currency after the number.",
            f'Write it like "{number.letters} EUR/sheet".',
        )
    amount = Decimal(number.letters.replace(",", "").replace(" ", ""))
    return Price(amount, found["currency"].upper(), _per(found["per"], typed, gallon) if found["per"] else "")


def _per(words: str, typed: str, gallon: Gallon) -> str:
    """What the price is for one of, in its one spelling."""
    thing = _THINGS.get(words.lower().strip())
    if thing:
        return thing
    symbol = canonical(words, gallon)
    if symbol in PER_MEASURE:
        return symbol
    if symbol == "gal":
        raise QuantityError(
            excerpt(typed), "could be US or imperial gallons.", 'Write "/US gal" or "/imp gal".'
        )
    raise QuantityError(
        excerpt(typed), f'is for one "{words[:20]}", which is nothing sold here.',
        f"Write one of: {', '.join((*PER_THING, *PER_MEASURE))}.",
    )  # fmt: skip


def parse_three_prices(text: str, gallon: Gallon = None) -> tuple[Price, Price, Price]:
    """The low, likely and high price that "410 .. 460 .. 560 EUR/m2" names. Raises `QuantityError`."""
    typed = as_text(text)
    parts = three_parts(plain(typed, 3 * LONGEST))
    if not parts:
        raise QuantityError(
            excerpt(typed),
            'is not three prices with ".." between them.',
            'Write it like "410 .. 460 .. 560 EUR/m2".',
        )
    low, likely, high = (parse_price(part, gallon) for part in with_units(parts))
    if (low.currency, low.per) != (high.currency, high.per) or (likely.currency, likely.per) != (
        high.currency,
        high.per,
    ):
        raise QuantityError(excerpt(typed), "mixes currencies or measures.", "Write all three alike.")
    if not low.amount <= likely.amount <= high.amount:
        raise QuantityError(excerpt(typed), "does not rise: low, likely, high.", "Put the prices in order.")
    return low, likely, high
