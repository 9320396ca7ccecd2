"""Refusing lengths, counts and prices that cannot be, and pieces that no stock holds, in words."""

from __future__ import annotations

import math

from tidestead.build.cutting.lengths import NANOMETRES, Need, Saw, Stock
from tidestead.core.errors import ImpossibleInput
from tidestead.core.units import echo


def both(length: float) -> str:
    """A length in both systems, as it is sawn."""
    return echo(length, "m", "lumber")


def refuse(needs: tuple[Need, ...], stocks: tuple[Stock, ...], saw: Saw) -> None:
    """Raise ImpossibleInput with everything that is wrong, a sentence for each."""
    faults = [*_saw_faults(saw), *_need_faults(needs), *_stock_faults(stocks)]
    if not faults:
        faults = _too_long_told(too_long(needs, stocks, saw), stocks, saw)
    if faults:
        raise ImpossibleInput(" ".join(faults))


def too_long(needs: tuple[Need, ...], stocks: tuple[Stock, ...], saw: Saw) -> list[Need]:
    """Pieces that are longer than what any stock gives once it is trimmed."""
    longest = max((stock.length for stock in _there(stocks)), default=0.0) - saw.trim
    return [need for need in needs if round(need.length * NANOMETRES) > round(longest * NANOMETRES)]


def _there(stocks: tuple[Stock, ...]) -> list[Stock]:
    return [stock for stock in stocks if stock.on_hand != 0]


def _too_long_told(needs: list[Need], stocks: tuple[Stock, ...], saw: Saw) -> list[str]:
    if not needs:
        return []
    if not _there(stocks):
        named = ", ".join(f"{need.mark} from ({both(need.length)})" for need in needs)
        return [f"There is no stock to cut {named}. Add a length that can be had."]
    longest = max(_there(stocks), key=lambda stock: stock.length)
    told = ", ".join(f"{need.mark} is {both(need.length)} long" for need in needs)
    trimmed = f", {both(longest.length - saw.trim)} once trimmed" if saw.trim else ""
    what = "piece" if len(needs) == 1 else "pieces"
    less = ", or trim less" if any(need.length <= longest.length for need in needs) else ""
    return [
        f"{told}; the longest stock, {longest.name}, is {both(longest.length)}{trimmed}. "
        f"Splice the {what} from shorter ones, or add a longer stock{less}."
    ]


def _saw_faults(saw: Saw) -> list[str]:
    named = {"kerf": saw.kerf, "trim": saw.trim, "least useful off-cut": saw.useful}
    return [
        f"The saw's {name} must be a length of nothing or more, got {value:g} m."
        for name, value in named.items()
        if not (math.isfinite(value) and value >= 0.0)
    ]


def _need_faults(needs: tuple[Need, ...]) -> list[str]:
    faults, seen = [], set()
    for need in needs:
        if not (math.isfinite(need.length) and need.length >= 1.0 / NANOMETRES):
            faults.append(f"{need.mark} must have a length of more than nothing, got {need.length:g} m.")
        if need.count != int(need.count) or need.count < 1:
            faults.append(f"{need.mark} must be wanted once or more, in whole pieces, got {need.count:g}.")
        if need.mark in seen:
            faults.append(f"The mark {need.mark} is given twice. Give each length a mark of its own.")
        seen.add(need.mark)
    return faults


def _stock_faults(stocks: tuple[Stock, ...]) -> list[str]:
    faults, seen = [], set()
    for stock in stocks:
        if not (math.isfinite(stock.length) and stock.length >= 1.0 / NANOMETRES):
            faults.append(
                f"Stock {stock.name} must have a length of more than nothing, got {stock.length:g} m."
            )
        if not (math.isfinite(stock.price) and stock.price >= 0.0):
            faults.append(f"Stock {stock.name} must have a price of nothing or more, got {stock.price:g}.")
        elif stock.price == 0.0 and stock.on_hand is None:
            faults.append(
                f"Stock {stock.name} costs nothing and has no end. Write its price, or how many are on hand."
            )
        if stock.on_hand is not None and (stock.on_hand != int(stock.on_hand) or stock.on_hand < 0):
            faults.append(
                f"Stock {stock.name} must be on hand in whole lengths, none or more, got {stock.on_hand:g}."
            )
        if stock in seen:
            faults.append(
                f"Stock {stock.name} is given twice alike. Give it once, with how many are on hand in all."
            )
        seen.add(stock)
    return faults
