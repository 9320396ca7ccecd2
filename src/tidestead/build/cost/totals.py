"""Money of what is bought, line by line, and what the sums may come to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tidestead.build.cost.buying import Bought
from tidestead.build.cost.ensemble import Mishap, Term, Three, Throws, Togetherness, thrown
from tidestead.build.cost.offers import Buy, Money, Offer
from tidestead.build.lists import Line


@dataclass(frozen=True)
class Charged:
    """What one line of the lists costs, likely, in the plan's money: its share of what is bought of its item."""

    line: Line
    money: float
    item: Bought


def paid(buy: Buy, money: Money) -> float:
    """Likely money for what is bought of one offer."""
    return (
        buy.count * buy.offer.price.likely * money.worth(buy.offer.currency)
        if buy.offer.price is not None
        else 0.0
    )


def replaced(buy: Buy, money: Money) -> float:
    """Likely money for the whole of one offer that is needed, at what it costs today, there already or not."""
    today = buy.offer.today
    return (
        (buy.count + buy.here) * today.likely * money.worth(buy.offer.currency) if today is not None else 0.0
    )


def charged(bought: Iterable[Bought], worth: Callable[[Buy], float]) -> tuple[Charged, ...]:
    """Each line's share of its item's money, by its share of the net amount."""
    found = []
    for one in bought:
        total = sum(worth(buy) for buy in one.buys)
        for number, line in enumerate(one.lines):
            by_amount = (
                line.amount.likely / one.needed if line.amount is not None and one.needed > 0.0 else 0.0
            )
            share = one.shares[number] if one.shares else by_amount
            found.append(Charged(line, total * share, one))
    return tuple(found)


def summed(rows: Iterable[Charged], by: Callable[[Charged], str]) -> dict[str, float]:
    """Money by a word of each line, in the order in which the words come up."""
    found: dict[str, float] = {}
    for row in rows:
        found[by(row)] = found.get(by(row), 0.0) + row.money
    return found


def throw_cash(
    bought: Sequence[Bought], money: Money, mishaps: tuple[Mishap, ...], together: Togetherness
) -> Throws:
    """What is still to be paid."""
    return thrown(tuple(_terms(bought, money, _price, lambda buy: buy.count)), money.rates, mishaps, together)


def throw_replacement(bought: Sequence[Bought], money: Money, together: Togetherness) -> Throws:
    """What everything would cost if it were bought today."""
    terms = tuple(_terms(bought, money, lambda offer: offer.today, lambda buy: buy.count + buy.here))
    return thrown(terms, money.rates, (), together)


def throw_yearly(
    bought: Sequence[Bought], sinking: Sequence[Term], money: Money, together: Togetherness
) -> Throws:
    """What a year costs: what is used up, and what is set aside for what wears out."""
    used = tuple(_terms(bought, money, _price, lambda buy: buy.count))
    return thrown((*used, *sinking), money.rates, (), together)


def _price(offer: Offer) -> Three | None:
    return offer.price


def _terms(
    bought: Sequence[Bought],
    money: Money,
    priced: Callable[[Offer], Three | None],
    count: Callable[[Buy], float],
) -> Iterable[Term]:
    """A term for each offer of which something counts; an amount that is not sure spreads it."""
    for one in bought:
        for buy in one.buys:
            price, pieces = priced(buy.offer), count(buy)
            if price is None or pieces <= 0.0:
                continue
            spread = Three(*(pieces * price_end for price_end in (price.low, price.likely, price.high)))
            rate = money.rate(buy.offer.currency)
            yield Term(
                one.item.written(), one.lines[0].trade, spread, _sureness(one), rate, key=buy.offer.row
            )


def _sureness(one: Bought) -> Three:
    """How sure the amount is, as a factor: of pieces that are cut it is as drawn."""
    ends = [line.amount for line in one.lines if line.amount is not None]
    likely = sum(end.likely for end in ends)
    if likely <= 0.0 or one.cut is not None:
        return Three(1.0, 1.0, 1.0)
    return Three(sum(end.low for end in ends) / likely, 1.0, sum(end.high for end in ends) / likely)
