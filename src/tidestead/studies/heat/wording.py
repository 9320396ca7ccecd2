"""Energy, money, hours and temperatures of the heat study in words."""

from __future__ import annotations

import re
from decimal import Decimal

from tidestead.core.answer import Estimate
from tidestead.core.units import System, show
from tidestead.plan.model import Plan

JOULE_KWH = 3.6e6


def price_of_heat(plan: Plan) -> tuple[Decimal, str] | None:
    """Money for a kWh of heat in the water, by what the heaters burn and yield; None where no price is known."""
    money, watts, currency = Decimal(0), Decimal(0), ""
    for heater in plan.heaters.values():
        price = heater.price if heater.price is not None else plan.supplies.tariff
        if heater.price is None and heater.energy == "fuel":
            return None
        if price is None:
            return None
        power = Decimal(str(heater.power * heater.count))
        money += power * price.amount / Decimal(str(heater.yields))
        watts += power
        currency = price.currency
    return None if not watts else (money / watts, currency)


def cost(joules: float, price: tuple[Decimal, str]) -> Decimal:
    """What so much heat costs."""
    return (Decimal(str(joules / JOULE_KWH)) * price[0]).quantize(Decimal("1"))


def year_words(label: str) -> str:
    """ "made year 18" of a year that was made, else the year's own name."""
    number = label.removeprefix("made ")
    return label if number == label else f"made year {number}"


def temp(value: float, system: System) -> str:
    return show(value, "degC", system)


def between(found: Estimate, unit: str, system: System) -> str:
    """ "4900 to 5860 kWh", the unit once; of energy no more digits than are known."""
    beside = (found.low, found.high)
    if unit == "J":
        beside = (JOULE_KWH * _known(beside[0] / JOULE_KWH), JOULE_KWH * _known(beside[1] / JOULE_KWH))
    low, high = (show(end, unit, system, "", beside) for end in beside)
    if low == high:
        return low
    number, _, ending = low.rpartition(" ")
    return f"{number} to {high}" if high.endswith(f" {ending}") else f"{low} to {high}"


def money_between(found: Estimate, price: tuple[Decimal, str], system: System) -> str:
    """ "1800 to 2280 EUR": what heat costs."""
    ends = [_known(float(cost(end, price))) for end in (found.low, found.high)]
    low, high = (show(end, price[1], system, "", ends) for end in ends)
    return low if low == high else f"{low.rpartition(' ')[0]} to {high}"


def count_between(found: Estimate) -> str:
    """ "218 to 261"."""
    low, high = f"{found.low:.0f}", f"{found.high:.0f}"
    return low if low == high else f"{low} to {high}"


def _known(value: float) -> float:
    """Three digits of a number: more are never known of a year."""
    return float(f"{value:.3g}")


def days_words(hours: float) -> str:
    """ "59 days", or hours where there are few."""
    return f"{hours:.0f} h" if hours < 48.0 else f"{hours / 24.0:.0f} days"


_SIZES = re.compile(r"(\d+(?:\.\d+)?) (mm|m/s|K)\b")
_IN_SI = {"mm": (1e-3, "m", "level"), "m/s": (1.0, "m/s", ""), "K": (1.0, "K", "")}


def in_units(words: str, system: System) -> str:
    """The name of a case that was tried, its sizes in the reader's units."""

    def told(found: re.Match[str]) -> str:
        size, unit, style = _IN_SI[found[2]]
        return show(float(found[1]) * size, unit, system, style)

    return _SIZES.sub(told, words) if system == "us" else words


def hours_words(hours: float | None) -> str:
    """ "31 h", "2 days 4 h", or that it does not come to that."""
    if hours is None:
        return "not within 5 days"
    if hours < 48.0:
        return f"{hours:.0f} h"
    days, rest = divmod(round(hours), 24)
    return f"{days} days" + (f" {rest} h" if rest else "")
