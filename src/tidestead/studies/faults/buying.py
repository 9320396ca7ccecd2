"""What a help takes for the hours that it was run: pieces, kilowatt-hours of battery, money at the plan's prices."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from tidestead.core.units import Price
from tidestead.plan.model.prices import HelpPrices
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.facts import Bought, FaultFacts, Generator, Need
from tidestead.studies.faults.waters import Basis
from tidestead.studies.power.backing import battery_wanted, generator_wanted, most_fuel
from tidestead.studies.rounding import two_digits_up

_HOUR = 3600.0
_KWH = 3.6e6

PIECES = {"air": "air_pump", "cover": "cover", "switch": "leak_switch", "drain": "drain"}
"""Helps that are bought as a piece, and the key of its price."""


def sized(found: FaultFacts, basis: Basis) -> FaultFacts:
    """A fault whose helps say what they take; power lasts for the hours that the help was run for."""
    told = tuple(
        replace(_sized(one, basis.plan.prices), instead=_generator(one, basis)) for one in found.bought
    )
    return replace(found, bought=told)


def _generator(bought: Bought, basis: Basis) -> Generator | None:
    """What could stand in for the battery of a pump: a set that starts by itself, for all that the battery carries."""
    if bought.name != "pump" or basis.plan.supply is None:
        return None
    items = {OnCircuit("pump", bought.part), *basis.power.must_run}
    hung = [load for circuit in basis.power.circuits for load in circuit.loads if load.item in items]
    if not any(load.item.kind == "pump" for load in hung):
        return None
    power = generator_wanted(hung, basis.plan.supply.volts)
    price = basis.plan.prices.generator
    fuel = most_fuel(bought.draws, power.high, bought.hours * _HOUR)
    return Generator(
        power.high,
        fuel,
        None if price is None else float(price.amount),
        "" if price is None else price.currency,
    )


def _sized(bought: Bought, prices: HelpPrices) -> Bought:
    """What is bought as pieces and as battery, and its money."""
    needs = tuple(_needs(bought))
    named = [price for price in (_price(prices, one) for one in needs) if price is not None]
    money = {price.currency for price in named}
    unpriced = tuple(dict.fromkeys(f"prices.{one.key}" for one in needs if _price(prices, one) is None))
    known = not unpriced and len(money) == 1
    return replace(
        bought,
        needs=needs,
        cost=sum(_paid(one, prices) for one in needs) if known else None if needs else 0.0,
        currency=money.pop() if len(money) == 1 else "",
        unpriced=unpriced,
    )


def _needs(bought: Bought) -> Iterable[Need]:
    if bought.name in PIECES:
        yield Need(PIECES[bought.name])
    if bought.draws > 0.0:
        energy = battery_wanted(bought.draws, bought.hours * _HOUR)
        yield Need("battery", _KWH * two_digits_up(energy / _KWH), "J")


def _price(prices: HelpPrices, need: Need) -> Price | None:
    found: Price | None = getattr(prices, need.key)
    return found


def _paid(need: Need, prices: HelpPrices) -> float:
    """Money for one need that has a price."""
    price = _price(prices, need)
    amount = need.amount / _KWH if need.unit == "J" else need.amount
    return 0.0 if price is None else amount * float(price.amount)
