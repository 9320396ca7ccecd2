"""Words of the answer on cost."""

from __future__ import annotations

from datetime import date

from tidestead.build.cost.offers import Buy, Offer
from tidestead.build.materials import Rows, title_of
from tidestead.build.timber_sizes import section_words
from tidestead.core.answer import Estimate
from tidestead.core.units import System, show, to_si
from tidestead.plan.items import CATALOGUE, FITTED, PARTS, Item

SOLID = ("layer", "lumber", "sheet")
"""Sorts whose volume nobody counts in gallons."""
_CUBIC_FOOT, _FOOT = to_si(1.0, "ft3"), to_si(1.0, "ft")
_LITRE = 1e-3

KNOWN = {"quote": "an offer", "list": "a price list", "guess": "a guess"}


def item_words(item: Item, system: System, rows: Rows) -> str:
    """What a thing is called on a shopping list."""
    if item.sort == "lumber":
        return f"{section_words(item, system)} {item.name}"
    if item.sort == "clear":
        return f"{title_of(item, rows)}, {show(item.sizes[0], 'm', system, 'sheet')}"
    if item.sort == "anchor":
        return f"resin anchor {show(item.sizes[0], 'm', system, 'sheet')}"
    if item.sort in CATALOGUE:
        return title_of(item, rows)
    if item.sort in FITTED:
        kind, _, pipe = item.name.partition(" ")
        words = kind if item.sort == "fitting" else f"{kind} valve"
        return f"{words}, {pipe}"
    if item.sort in PARTS:
        return f"{item.sort} {item.name}"
    return item.name if item.sort == "extra" else f"{item.sort} {item.name}".strip()


def size_words(offer: Offer, system: System) -> str:
    """What one of an offer is, as it is sold."""
    if not offer.size:
        return {"1": "one", "J": "a kWh"}.get(offer.unit, f"by {_measure(offer, system)}")
    if offer.unit == "1":
        return f"{offer.size[0]:g} pieces"
    if len(offer.size) > 1:
        return " x ".join(show(side, "m", system, "sheet") for side in offer.size)
    style = "lumber" if offer.unit == "m" else ""
    size = offer.size[0]
    if offer.unit == "m3" and size < _LITRE:
        return f"{1e6 * size:.3g} mL"
    if offer.unit == "m3" and offer.item.sort in SOLID:
        return amount_words(size, "m3", system, offer.item.sort)
    return show(size, offer.unit, system, style)


def _measure(offer: Offer, system: System) -> str:
    us = {"m": "ft", "m2": "ft2", "m3": "US gal", "kg": "lb"}
    return us[offer.unit] if system == "us" else offer.unit


def amount_words(value: float, unit: str, system: System, sort: str = "") -> str:
    """An amount of something on a list, in round figures; of solids in cubic measure."""
    if unit == "1":
        return f"{value:g}"
    if unit == "m3" and sort in SOLID:
        return f"{value / _CUBIC_FOOT:.3g} ft³" if system == "us" else f"{value:.3g} m³"
    if unit == "m":
        return f"{value / _FOOT:.3g} ft" if system == "us" else f"{value:.3g} m"
    return show(value, unit, system)


def buy_words(buy: Buy, system: System) -> str:
    """ "6 of 12 ft (1 of them spare), 2 there already"."""
    offer = buy.offer
    words = []
    for count, more in ((buy.count, ""), (buy.here, " there already")):
        if count:
            by_piece = offer.size or offer.unit == "1"
            amount = f"{count:g}" if by_piece else amount_words(count, offer.unit, system, offer.item.sort)
            of = f" of {size_words(offer, system)}" if offer.size else ""
            spare = f" ({buy.spare:g} of them spare)" if buy.spare and not more else ""
            words.append(f"{amount}{of}{spare}{more}")
    return ", ".join(words)


def money_words(value: float, currency: str) -> str:
    """Money in round figures, as a sum that is not sure is told."""
    size = 1.0 if abs(value) < 100.0 else 10.0 if abs(value) < 10_000.0 else 100.0
    return f"{round(value / size) * size:,.0f} {currency}".strip()


def range_words(estimate: Estimate, currency: str) -> str:
    """ "8,400 EUR (7,900 to 9,600)"."""
    low, high = (money_words(end, "") for end in (estimate.low, estimate.high))
    likely = money_words(estimate.likely, currency)
    return likely if low == high else f"{likely} ({low} to {high})"


def months_old(dated: date, as_of: date) -> int:
    """Whole months from one day to another."""
    months = 12 * (as_of.year - dated.year) + as_of.month - dated.month
    return months - (1 if as_of.day < dated.day else 0)
