"""The plan's price book as offers in SI: what is sold in which size, at what price, how sure that is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tidestead.build.cost.ensemble import Mishap, Three
from tidestead.build.cost.offers import Money, Offer
from tidestead.build.lists import Unit
from tidestead.build.takeoff.running import ENERGY, energy_item
from tidestead.build.timber_sizes import board_feet_charged
from tidestead.catalog import table
from tidestead.core.units import Price
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import BookRow, Plan, Risk
from tidestead.plan.price_fields import PriceRange
from tidestead.plan.selling import BOARD_FOOT, MEASURES, Stock

_KWH = 3.6e6
_HIRE = ("h", "day", "week", "year")
_WATER = Item("water")
"""Of any source that has no price of its own."""


def offers_of(plan: Plan) -> tuple[Offer, ...]:
    """Every row of the book, then the prices that stand elsewhere in the plan for what the book has no row of.

    A row of water is for every source that has no price of its own.
    """
    rows = tuple(_offer(f"book.{name}", row) for name, row in plan.book.items())
    known = {row.item for row in rows}
    elsewhere = tuple(one for one in _elsewhere(plan) if one.item not in known)
    priced = {one.item for one in elsewhere}
    waters = [Item(_WATER.sort, name) for name in plan.sources]
    any_water = [one for one in rows if one.item == _WATER]
    drawn = (replace(one, item=item) for item in waters if item not in priced for one in any_water)
    return (*rows, *elsewhere, *drawn)


def money_of(plan: Plan) -> Money:
    """The plan's money; that of its first price where it names none."""
    rates = {name: _three(rate.worth) for name, rate in plan.rates.items()}
    first = next((one.currency for one in _prices(plan)), "")
    return Money(plan.currency or first, rates)


def _prices(plan: Plan) -> Iterator[PriceRange | Price]:
    """Prices by which a plan that names no money is told."""
    yield from (row.price for row in plan.book.values() if row.price is not None)
    yield from (one for one in (plan.supplies.tariff, plan.salt.price) if one is not None)
    yield from (source.price for source in plan.sources.values() if source.price is not None)


def mishaps_of(plan: Plan) -> tuple[Mishap, ...]:
    """What may go wrong. What is told in the same words twice is told apart by its key: each has luck of its own."""
    money = money_of(plan)
    words = [risk.what for risk in plan.risks.values()]
    return tuple(
        _mishap(risk, risk.what if words.count(risk.what) == 1 else f"{risk.what} ({key})", money)
        for key, risk in plan.risks.items()
    )


def _mishap(risk: Risk, name: str, money: Money) -> Mishap:
    return Mishap(name, risk.chance, _three(risk.cost), money.rate(risk.cost.currency))


def _offer(key: str, row: BookRow) -> Offer:
    unit, size = _sold(row)
    price = None if row.price is None else _for_one(row, row.price)
    today = None if row.replacement is None else _for_one(row, row.replacement)
    currency = next((one.currency for one in (row.price, row.replacement) if one is not None), "")
    owned = 0.0 if row.owned is None else _pieces(row.owned, size)
    most = None if row.at_most is None else math.floor(_pieces(row.at_most, size))
    return Offer(
        key, row.of, price, currency, unit, size, owned,
        None if most is None else max(most - int(min(owned, most)), 0),
        today, row.basis, row.dated, row.supplier or "", row.lead, row.visit, row.life,
        _in_part(row),
    )  # fmt: skip


@dataclass(frozen=True)
class Extra:
    """What the book names that no geometry leads to: its row, and how much of it, counted as lists would."""

    row: str
    item: Item
    amount: float
    unit: Unit


def extras_of(plan: Plan) -> tuple[Extra, ...]:
    """Each once, however many offers it has; the row that says how many tells it, counted as it is sold."""
    found: dict[Item, Extra] = {}
    for name, row in plan.book.items():
        if row.of.sort == OWN and (row.of not in found or row.count is not None):
            unit, size = _sold(row)
            found[row.of] = Extra(f"book.{name}", row.of, (row.count or 1.0) * math.prod(size), unit)
    return tuple(found.values())


def _in_part(row: BookRow) -> bool:
    """Whether half of one can be had: what is paid for by the hour or the day, or by measure."""
    price = row.price or row.replacement
    return row.sold is None and price is not None and price.per in (*MEASURES, BOARD_FOOT, *_HIRE)


def _sold(row: BookRow) -> tuple[Unit, tuple[float, ...]]:
    """What lists count it in, and the size of one. Fabric is listed by its length, whatever the width of its roll."""
    if row.sold is not None:
        if row.of.sort == "fabric" and row.sold.unit == "m2":
            return "m", row.sold.sizes[1:]
        return row.sold.unit, row.sold.sizes
    per = "" if row.price is None else row.price.per
    if per == BOARD_FOOT or (row.of.sort == "lumber" and per in MEASURES):
        return "m", ()
    return (MEASURES[per][0], ()) if per in MEASURES else ("1", ())


def _for_one(row: BookRow, price: PriceRange) -> Three:
    """The price of one piece as it is sold, or of one SI unit, with the spread of how it is known."""
    found = _three(price).times(_factor(row, price.per))
    if not price.single:
        return found
    spread = table("cost_limits")[f"price-{row.basis}"]
    return Three(
        found.likely * (1.0 - spread.si("below")), found.likely, found.likely * (1.0 + spread.si("above"))
    )


def _factor(row: BookRow, per: str) -> float:
    """How often the price counts for one piece, or for one SI unit where it is not sold in pieces."""
    if per == BOARD_FOOT:
        return board_feet_charged(row.of, 1.0 if row.sold is None else row.sold.amount)
    if per not in MEASURES:
        return 1.0
    unit, size = MEASURES[per]
    amount = 1.0 if row.sold is None else row.sold.amount
    if row.of.sort == "lumber" and unit == "m3":
        amount *= row.of.sizes[0] * row.of.sizes[1]
    return amount / size


def _pieces(stock: Stock, size: tuple[float, ...]) -> float:
    """Pieces as they are sold; a measure where it is not sold in pieces."""
    if stock.amount is None:
        return math.inf
    return stock.amount if stock.unit == "1" or not size else stock.amount / math.prod(size)


def _three(price: PriceRange) -> Three:
    return Three(float(price.low), float(price.likely), float(price.high))


def _elsewhere(plan: Plan) -> Iterator[Offer]:
    """Prices of the plan's own parts: power, salt, water of each source, fuel or current of a heater."""
    if plan.supplies.tariff is not None:
        yield _plain("supplies.tariff", ENERGY, plan.supplies.tariff, "J", 1.0 / _KWH)
    if plan.salt.price is not None:
        yield _plain("salt.price", Item("salt"), plan.salt.price, "kg", 1.0)
    for name, source in plan.sources.items():
        if source.price is not None:
            yield _plain(f"sources.{name}.price", Item(_WATER.sort, name), source.price, "m3", 1.0)
    for name, heater in plan.heaters.items():
        if heater.price is not None:
            yield _plain(f"heaters.{name}.price", energy_item(name, heater), heater.price, "J", 1.0 / _KWH)


def _plain(key: str, item: Item, price: Price, unit: Unit, factor: float) -> Offer:
    amount = float(price.amount) * factor
    return Offer(key, item, Three(amount, amount, amount), price.currency, unit, known="list")
