"""Words for times and for what may go wrong."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.core.units import System, advised, show
from tidestead.studies.faults.facts import Bought, FaultFacts, FaultsFacts, Quantity

HARMS: Mapping[Quantity, str] = {
    "oxygen": "too little oxygen",
    "cold": "too cold",
    "hot": "too warm",
    "ammonia": "too much ammonia",
    "salt": "too salty",
    "fresh": "too fresh",
    "floor": "water on the floor",
    "low": "too little water in the display",
    "film": "film on the windows",
    "alkalinity": "too much alkalinity at once",
}
_TWO_DAYS = 48.0

_KWH = 3.6e6
A_MINUTE = 1.0 / 60.0
"""Hours below which no look and no neighbour come in time: such faults are told where water runs out."""


def hours_words(hours: float) -> str:
    """A time as one says it: 12 min, 3.4 h, 17 h, 4.2 days."""
    if math.isinf(hours):
        return "never in the time followed"
    if hours <= 0.0:
        return "no time at all"
    if hours < A_MINUTE:
        return "less than a minute"
    if hours < 1.0:
        return f"{60.0 * hours:.0f} min"
    if hours < _TWO_DAYS:
        return f"{hours:.2g} h" if hours < 10.0 else f"{hours:.0f} h"
    days = hours / 24.0
    return f"{days:.2g} days" if days < 10.0 else f"{days:.0f} days"


def after_words(hours: float) -> str:
    """When something comes: at once, after 3.4 h, not in the time followed."""
    if math.isinf(hours):
        return "not in the time followed"
    return "at once" if hours <= 0.0 else f"after {hours_words(hours)}"


_HELPS: Mapping[str, tuple[str, str]] = {
    "air": ("a battery air pump of {}, {} deep", "an air pump"),
    "pump": ("pump {part} and what must run kept running", "{} a day"),
    "cover": ("a cover over nine tenths of the display", "sheets that lie ready, no power"),
    "half": ("half the fish and half the food", "fewer fish"),
    "hungry": ("no food from the first hour on", "nothing but to stop feeding"),
    "stock": ("a reservoir of no more than {}", "a smaller reservoir, filled more often"),
    "split": ("two heaters of half its power in place of {part}", "one more heater with its thermostat"),
    "switch": ("a leak switch that stops pump and fresh water at {} on the floor", "a switch"),
    "drain": ("a second drain like {part} beside it, which then carries all as now", "one more drain"),
}


def help_words(bought: Bought, system: System) -> tuple[str, str]:
    """What was tried, and what it takes, in words."""
    what, takes = _HELPS[bought.name]
    shown = [_size(value, unit, system) for value, unit in bought.numbers]
    places = what.count("{}")
    words = what.replace("{part}", bought.part).format(*shown[:places])
    return words, _takes(bought, takes.format(*shown[places:]), system)


def _takes(bought: Bought, words: str, system: System) -> str:
    """What is bought, with the battery that carries it for the hours it was run for, and its price."""
    battery = next((need for need in bought.needs if need.key == "battery"), None)
    if battery is not None:
        held = show(battery.amount, "J", system)
        words += f", {held} of battery (lead-acid, old and cold) for {hours_words(bought.hours)}"
    return f"{words}{_price(bought)}{_instead(bought, system)}"


def _instead(bought: Bought, system: System) -> str:
    """The generator that could stand in for the battery."""
    one = bought.instead
    if one is None:
        return ""
    price = f", about {one.cost:,.0f} {one.currency}" if one.cost is not None else ""
    power, fuel = advised(one.power, "W", system, "up"), advised(one.fuel, "m3", system, "up")
    return f"; or a generator of {power} that starts by itself, with {fuel} of petrol{price}, outdoors only"


def _price(bought: Bought) -> str:
    """Its money, or which prices the plan lacks; empty where nothing is bought."""
    if bought.unpriced:
        return f", no price in your plan: write {' and '.join(bought.unpriced)}"
    if bought.cost and bought.currency:
        return f", about {float(f'{bought.cost:.2g}'):,.0f} {bought.currency}"
    return ""


def more_words(fault: FaultFacts, system: System) -> str:
    """What a fault says beside its numbers, as a sentence; empty where it says nothing."""
    if not fault.words:
        return ""
    words = fault.words.format(*(_shown(value, unit, system) for value, unit in fault.numbers)).rstrip(".")
    return f"{words[:1].upper()}{words[1:]}."


def _size(value: float, unit: str, system: System) -> str:
    """A size that is advice, as its reader would buy or set it."""
    unit, _, style = unit.partition(" ")
    return advised(value, unit, system, style=style)


def _shown(value: float, unit: str, system: System) -> str:
    unit, _, style = unit.partition(" ")
    return show(value, unit, system, style)


def silent_words(facts: FaultsFacts) -> str:
    """What an alarm or a network that is gone by itself leaves undone: faults that only the call makes bearable."""
    hang = [one.title for one in facts.faults if _only_called(one)]
    if not hang:
        return ""
    return (
        "An alarm or a network that is gone by itself harms nothing, and nobody notices; until it is back these would "
        f"do harm before anybody has acted: {'; '.join(hang)}."
    )


def _only_called(fault: FaultFacts) -> bool:
    chain, soonest = fault.chain, fault.soonest
    return chain is not None and soonest is not None and chain.worst <= soonest.harm < chain.unheard
