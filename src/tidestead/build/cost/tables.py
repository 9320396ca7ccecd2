"""Tables of the answer on cost: three sums, who gets what, what to buy, line by line, what a year takes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import zip_longest

from tidestead.build.cost.buying import Bought
from tidestead.build.cost.ensemble import Throws
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.offers import Buy, Offer
from tidestead.build.cost.totals import Charged, charged, paid, replaced, summed
from tidestead.build.cost.wholeness import wholeness
from tidestead.build.cost.wording import (
    KNOWN,
    SOLID,
    amount_words,
    buy_words,
    item_words,
    months_old,
)
from tidestead.build.lists import Line
from tidestead.build.materials import Rows, rows_of
from tidestead.catalog import table
from tidestead.core.answer import Column, Table
from tidestead.core.units import System, to_si
from tidestead.studies.inputs import Inputs

_NO_VESSEL = "all of it"
_PHASES = {
    "frame": "frame and sheathing",
    "lining": "lining",
    "windows": "windows",
    "pipework": "pipes and fittings",
    "house": "the house",
    "machines": "machines and electrics",
    "water": "water and salt",
}
"""Stages of the work, in their order."""


def tables_of(inputs: Inputs, facts: CostFacts) -> tuple[Table, ...]:
    """Every table that has rows."""
    found = (
        _sums(facts),
        *_split(facts),
        _shopping(inputs, facts),
        _unpriced(inputs, facts),
        _lines(inputs, facts),
        _yearly(inputs, facts),
        _worn(inputs, facts),
        _mishaps(facts),
        _missing(facts),
    )
    return tuple(one for one in found if one.rows)


def cash_lines(facts: CostFacts) -> tuple[Charged, ...]:
    """What each line of the lists still costs."""
    money = facts.purchase.money
    return charged(facts.purchase.once, lambda buy: paid(buy, money))


def worth_lines(facts: CostFacts) -> tuple[Charged, ...]:
    """What each line of the lists would cost today."""
    purchase = facts.purchase
    return charged((*purchase.once, *purchase.standing), lambda buy: replaced(buy, purchase.money))


def _sums(facts: CostFacts) -> Table:
    money, whole = facts.currency, wholeness(facts)
    columns = (
        Column("sum"),
        Column("of likely prices", money),
        Column("mean", money),
        Column("one time in ten below", money),
        Column("as often above as below", money),
        Column("four times in five below", money),
        Column("nine times in ten below", money),
    )
    rows = (
        _throw_row(f"cash still to spend{whole.cash}", facts.cash),
        _throw_row(f"all of it at today's prices{whole.worth}", facts.replacement),
        _throw_row(f"a year of running{whole.year}", facts.year),
    )
    note = "Likely prices lie below the middle of their ranges, so that the mean lies above their sum."
    return Table("cost.sums", "Three sums that are never one", columns, rows, note)


def _throw_row(name: str, throws: Throws) -> tuple[float | str | None, ...]:
    return (name, throws.base, throws.mean, *(throws.share(part) for part in (0.1, 0.5, 0.8, 0.9)))


def _split(facts: CostFacts) -> Iterator[Table]:
    """Cash and today's value by trade, by vessel, by when it is needed."""
    yield _by(_Split("trades", "By trade", "trade", lambda row: row.line.trade), facts)
    yield _by(_Split("vessels", "By vessel", "vessel", lambda row: row.line.vessel or _NO_VESSEL), facts)
    yield _by(_Split("when", "By when it is needed", "for", _when, in_order=True), facts)


def _when(row: Charged) -> str:
    visits = {buy.offer.visit for buy in row.item.buys if buy.offer.visit is not None}
    if visits:
        return f"visit {min(visits)}"
    return _PHASES[row.line.phase]


@dataclass(frozen=True)
class _Split:
    """One way to tell lines apart, dearest first unless they have an order of their own."""

    name: str
    title: str
    head: str
    word: Callable[[Charged], str]
    in_order: bool = False


def _by(split: _Split, facts: CostFacts) -> Table:
    cash = summed(cash_lines(facts), split.word)
    worth = summed(worth_lines(facts), split.word)
    names = sorted({**cash, **worth}, key=lambda name: -worth.get(name, 0.0))
    if split.in_order:
        order = list(_PHASES.values())
        names.sort(key=lambda name: order.index(name) if name in order else -1)
    whole = sum(worth.values())
    columns = (
        Column(split.head),
        Column("cash still to spend", facts.currency),
        Column("at today's prices", facts.currency),
        Column("share of that", "%"),
    )
    rows = tuple(
        (
            name,
            cash.get(name, 0.0),
            worth.get(name, 0.0),
            100.0 * worth.get(name, 0.0) / whole if whole else 0.0,
        )
        for name in names
    )
    left_out = wholeness(facts)
    note = "Of likely prices." + (
        " What cannot be priced is not in it." if left_out.cash or left_out.worth else ""
    )
    return Table(f"cost.{split.name}", split.title, columns, rows, note)


def _shopping(inputs: Inputs, facts: CostFacts) -> Table:
    """What is bought, offer by offer."""
    money, rows = facts.currency, rows_of(inputs.plan)
    columns = (
        Column("what"),
        Column("buy"),
        Column("price of one"),
        Column("together", money),
        Column("known by, asked, row"),
    )
    found = [
        _shopped(one, buy, inputs, facts, rows)
        for one in facts.purchase.once
        for buy in one.buys
        if buy.count or buy.here
    ]
    return Table("cost.shopping", "What to buy", columns, tuple(found), _old_note(inputs))


def _shopped(
    one: Bought, buy: Buy, inputs: Inputs, facts: CostFacts, rows: Rows
) -> tuple[float | str | None, ...]:
    offer, system = buy.offer, inputs.system
    return (
        item_words(one.item, system, rows),
        buy_words(buy, system),
        _price_words(offer, system),
        paid(buy, facts.purchase.money),
        f"{KNOWN[offer.known]}, {_asked(offer, inputs)}, {offer.row}",
    )


def _price_words(offer: Offer, system: System) -> str:
    """The likely price of one as it is sold, in the money it is asked in."""
    if offer.price is None:
        return ""
    price, unit = offer.price.likely, ""
    if not offer.size and offer.unit in _MEASURES:
        solid = offer.unit == "m3" and offer.item.sort in SOLID and system == "us"
        unit, factor = ("ft3", to_si(1.0, "ft3")) if solid else _MEASURES[offer.unit][system]
        price, unit = price * factor, f"/{unit}"
    amount = f"{price:,.2f}" if price >= 1.0 else f"{price:.3g}"
    return f"{amount} {offer.currency}{unit}"


_MEASURES = {
    "m": {"metric": ("m", 1.0), "us": ("ft", to_si(1.0, "ft"))},
    "m2": {"metric": ("m2", 1.0), "us": ("ft2", to_si(1.0, "ft2"))},
    "m3": {"metric": ("m3", 1.0), "us": ("US gal", to_si(1.0, "US gal"))},
    "kg": {"metric": ("kg", 1.0), "us": ("lb", to_si(1.0, "lb", "mass"))},
    "J": {"metric": ("kWh", to_si(1.0, "kWh")), "us": ("kWh", to_si(1.0, "kWh"))},
}


def old_after() -> int:
    """Months after which a price counts as old."""
    return round(table("cost_limits")["old-price"].si("after") / (30.4375 * 86400.0))


def is_old(offer: Offer, inputs: Inputs) -> bool:
    """Whether a price is older than prices should be."""
    if offer.dated is None or inputs.as_of is None:
        return False
    return months_old(offer.dated, inputs.as_of) >= old_after()


def is_ahead(offer: Offer, inputs: Inputs) -> bool:
    """Whether a price has a day that is not yet: a slip of the pen."""
    return offer.dated is not None and inputs.as_of is not None and offer.dated > inputs.as_of


def _asked(offer: Offer, inputs: Inputs) -> str:
    if offer.dated is None:
        return "no day said"
    return f"{offer.dated.isoformat()}{', old' if is_old(offer, inputs) else ''}"


def _old_note(inputs: Inputs) -> str:
    if inputs.as_of is None:
        return ""
    return f"Old: asked more than {old_after()} months before {inputs.as_of.isoformat()}."


def _unpriced(inputs: Inputs, facts: CostFacts) -> Table:
    system, rows = inputs.system, rows_of(inputs.plan)
    columns = (Column("what"), Column("needed"), Column("why"), Column("write in [book]"))
    bare = (*facts.purchase.unpriced, *facts.purchase.unvalued, *(one for one in facts.yearly if one.missing))
    found = tuple(
        (
            item_words(one.item, system, rows),
            amount_words(one.needed, one.unit, system, one.item.sort),
            one.missing or "is there already, and what one costs today is not said",
            f'of = "{one.item.written(system)}"',
        )
        for one in bare
    )
    return Table("cost.unpriced", "Without a price: the sums leave these out", columns, found)


def _lines(inputs: Inputs, facts: CostFacts) -> Table:
    """Every line of the lists, with the part of the plan it comes from and its share of the money."""
    money, system, rows = facts.currency, inputs.system, rows_of(inputs.plan)
    columns = (
        Column("what"),
        Column("net"),
        Column("cash", money),
        Column("today", money),
        Column("trade"),
        Column("vessel"),
        Column("in the plan"),
        Column("price row"),
    )
    paid_now = [row.money for row in cash_lines(facts)]
    found = [
        (
            f"{row.line.what}: {item_words(row.line.item, system, rows)}{_follows(row.line)}",
            _net(row.line, system),
            _known(row, cash),
            _known(row, row.money),
            row.line.trade,
            row.line.vessel or _NO_VESSEL,
            row.line.key,
            ", ".join(dict.fromkeys(buy.offer.row for buy in row.item.buys)),
        )
        for row, cash in zip_longest(worth_lines(facts), paid_now, fillvalue=0.0)
        if isinstance(row, Charged)
    ]
    note = "A line's money is its share, by net amount, of what is bought of the thing for the whole plan."
    return Table("cost.lines", "Line by line", columns, tuple(found), note)


def _known(row: Charged, money: float) -> float | None:
    """The money of a line; none, and not nought, where what it is of has no price."""
    return None if row.item.missing and not money else money


def _follows(line: Line) -> str:
    return f" ({line.basis})" if line.basis else ""


def _net(line: Line, system: System) -> str:
    """The likely amount of a line."""
    if line.amount is None:
        return ""
    return amount_words(line.amount.likely, line.unit, system, line.item.sort)


def _yearly(inputs: Inputs, facts: CostFacts) -> Table:
    money, system, rows = facts.currency, inputs.system, rows_of(inputs.plan)
    columns = (
        Column("for"),
        Column("what"),
        Column("in a year"),
        Column("money", money),
        Column("in the plan"),
    )
    lines = charged(facts.yearly, lambda buy: paid(buy, facts.purchase.money))
    found = tuple(
        (
            row.line.what,
            item_words(row.line.item, system, rows),
            _net(row.line, system),
            _known(row, row.money),
            row.line.key,
        )
        for row in lines
    )
    return Table("cost.year", "What a year uses up", columns, found)


def _worn(inputs: Inputs, facts: CostFacts) -> Table:
    money, system, rows = facts.currency, inputs.system, rows_of(inputs.plan)
    columns = (
        Column("what"),
        Column("costs today", money),
        Column("lasts", "s"),
        Column("known by"),
        Column("set aside in a year", money),
    )
    found = tuple(
        (
            item_words(one.bought.item, system, rows),
            one.worth,
            one.life,
            "your price book" if one.said else "common practice",
            one.worth * one.yearly,
        )
        for one in facts.worn
    )
    return Table("cost.worn", "Set aside for what wears out", columns, found)


def _mishaps(facts: CostFacts) -> Table:
    money = facts.purchase.money
    columns = (
        Column("what may go wrong"),
        Column("chance", "%"),
        Column("costs then", facts.currency),
        Column("chance times cost", facts.currency),
    )
    found = tuple(
        (one.name, 100.0 * one.chance, cost, one.chance * cost)
        for one in facts.purchase.mishaps
        for cost in (one.cost.mean * (money.rates[one.rate].likely if one.rate else 1.0),)
    )
    note = "These are thrown with the prices: they stand in the ranges, not in the sum of likely prices."
    return Table("cost.risks", "What may go wrong", columns, found, note)


def _missing(facts: CostFacts) -> Table:
    columns = (Column("in the plan"), Column("what cannot be listed yet"))
    return Table("cost.missing", "What the lists leave out", columns, facts.purchase.taken.missing)
