"""What a help takes until somebody has acted: pieces, kilowatt-hours of battery, money at the plan's prices."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from tidestead.core.units import Price
from tidestead.plan.model.prices import HelpPrices
from tidestead.studies.faults.facts import Bought, FaultFacts, Need
from tidestead.studies.power.backing import battery_wanted

_HOUR = 3600.0
_KWH = 3.6e6

PIECES = {"air": "air_pump", "cover": "cover", "switch": "leak_switch", "drain": "drain"}
"""Helps that are bought as a piece, and the key of its price."""


def sized(found: FaultFacts, prices: HelpPrices) -> FaultFacts:
    """A fault whose helps say what they take; power is held until somebody has acted at the latest."""
    chain = found.chain
    acted = math.inf if chain is None else chain.worst
    hours = acted if math.isfinite(acted) else found.until
    return replace(found, bought=tuple(_sized(one, hours, prices) for one in found.bought))


def _sized(bought: Bought, hours: float, prices: HelpPrices) -> Bought:
    needs = tuple(_needs(bought, hours))
    named = [price for price in (_price(prices, one) for one in needs) if price is not None]
    money = {price.currency for price in named}
    unpriced = tuple(dict.fromkeys(f"prices.{one.key}" for one in needs if _price(prices, one) is None))
    known = not unpriced and len(money) == 1
    return replace(
        bought,
        needs=needs,
        hours=hours,
        cost=sum(_paid(one, prices) for one in needs) if known else None if needs else 0.0,
        currency=money.pop() if len(money) == 1 else "",
        unpriced=unpriced,
    )


def _needs(bought: Bought, hours: float) -> Iterable[Need]:
    if bought.name in PIECES:
        yield Need(PIECES[bought.name])
    if bought.draws > 0.0:
        yield Need("battery", battery_wanted(bought.draws, hours * _HOUR), "J")


def _price(prices: HelpPrices, need: Need) -> Price | None:
    found: Price | None = getattr(prices, need.key)
    return found


def _paid(need: Need, prices: HelpPrices) -> float:
    """Money for one need that has a price."""
    price = _price(prices, need)
    amount = need.amount / _KWH if need.unit == "J" else need.amount
    return 0.0 if price is None else amount * float(price.amount)
