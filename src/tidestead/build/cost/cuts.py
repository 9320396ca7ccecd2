"""Lengths and sheets of a price book put to the saw: which are bought, which are there."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead.build.cost.offers import Buy, Money, Offer
from tidestead.build.cutting.lengths import LengthPlan, Need, Saw, Stock, cut_lengths
from tidestead.build.cutting.lengths_refused import too_long
from tidestead.build.cutting.panels import PanelTerms, place_panels
from tidestead.build.cutting.sheets import Rect, SheetPlan, SheetSaw, SheetStock, cut_sheets
from tidestead.build.lists import Piece, SheetPart
from tidestead.core.errors import TidesteadError
from tidestead.core.kept import kept

Tick: TypeAlias = Callable[[int, int], None]

FEW = 25
"""Clear sheets up to which every way to lay them is searched. Own choice: beyond it the last sheet is seldom proved."""
_SECONDS = 5.0
"""That such a search may take. Own choice: what is not proved by then is told with its bound."""

HERE = " (here)"
"""Behind the name of a row whose pieces are there already."""


@dataclass(frozen=True)
class Sawing:
    """Saws, and the share of bought timber that knots and mistakes spoil."""

    bars: Saw
    boards: SheetSaw
    spoils: float


@dataclass(frozen=True)
class Work:
    """What every cut and purchase needs: the plan's money, its saws, and who is told that it goes on."""

    money: Money
    sawing: Sawing
    tick: Tick | None = None


@dataclass(frozen=True)
class Sawn:
    """What a saw plan buys, and why it, or some of it, cannot be had where it cannot."""

    buys: tuple[Buy, ...] = ()
    cut: LengthPlan | SheetPlan | None = None
    missing: str = ""


def cut_bars(pieces: Sequence[Piece], offers: Sequence[Offer], work: Work) -> Sawn:
    """Pieces of timber or pipe out of the lengths on offer. Those too long for all are told; the others are cut."""
    needs = tuple(Need(piece.mark, piece.length, piece.count) for piece in pieces)
    stocks = tuple(
        Stock(name, offer.size[0], price, count) for name, offer, price, count in _shelf(offers, work.money)
    )
    try:
        return _sawn(_bars(needs, stocks, work.sawing.bars, work.tick), offers)
    except TidesteadError as fault:
        long = {need.mark for need in too_long(needs, stocks, work.sawing.bars)}
        fit = [piece for piece in pieces if piece.mark not in long]
        if not long or not fit:
            return Sawn(missing=str(fault))
        rest = cut_bars(fit, offers, work)
        return replace(rest, missing=" ".join(filter(None, [str(fault), rest.missing])))


def _sawn(plan: LengthPlan, offers: Sequence[Offer]) -> Sawn:
    used = Counter[str]()
    for bar in plan.bars:
        used[bar.stock.name] += bar.times
    return Sawn(_buys(used, offers), plan)


def cut_boards(parts: Sequence[SheetPart], offers: Sequence[Offer], work: Work) -> Sawn:
    """Parts out of the sheets on offer; few dear clear ones by a search that tries every way, not cut by cut."""
    rects = tuple(Rect(part.mark, part.along, part.across, part.count, part.turns) for part in parts)
    stocks = tuple(
        SheetStock(name, offer.size[0], offer.size[1], price, count)
        for name, offer, price, count in _shelf(offers, work.money)
    )
    try:
        few = parts[0].item.sort == "clear" and sum(part.count for part in parts) <= FEW
        plan = (_panels if few else _boards)(rects, stocks, work.sawing.boards, work.tick)
    except TidesteadError as fault:
        return Sawn(missing=str(fault))
    used = Counter[str]()
    for sheet in plan.sheets:
        used[sheet.stock] += sheet.times
    return Sawn(_buys(used, offers), plan)


@kept(at_most=64, by=lambda needs, stocks, saw, _: (needs, stocks, saw))
def _bars(needs: tuple[Need, ...], stocks: tuple[Stock, ...], saw: Saw, tick: Tick | None) -> LengthPlan:
    return cut_lengths(needs, stocks, saw, tick)


@kept(at_most=64, by=lambda rects, stocks, saw, _: (rects, stocks, saw))
def _boards(
    rects: tuple[Rect, ...], stocks: tuple[SheetStock, ...], saw: SheetSaw, tick: Tick | None
) -> SheetPlan:
    return cut_sheets(rects, stocks, saw, tick)


@kept(at_most=64, by=lambda rects, stocks, saw, _: (rects, stocks, saw))
def _panels(
    rects: tuple[Rect, ...], stocks: tuple[SheetStock, ...], saw: SheetSaw, tick: Tick | None
) -> SheetPlan:
    return place_panels(rects, stocks, saw, terms=PanelTerms(seconds=_SECONDS), tick=tick)


def _shelf(offers: Sequence[Offer], money: Money) -> list[tuple[str, Offer, float, int | None]]:
    """What lies in the yard and what can be bought: name, offer, money for one, how many there are."""
    found: list[tuple[str, Offer, float, int | None]] = []
    for offer in offers:
        if offer.owned > 0.0:
            found.append((offer.row + HERE, offer, 0.0, math.floor(offer.owned)))
        if offer.price is not None:
            price = offer.price.likely * money.worth(offer.currency)
            found.append((offer.row, offer, price, offer.at_most))
    return found


def _buys(used: Counter[str], offers: Sequence[Offer]) -> tuple[Buy, ...]:
    found = (Buy(one, float(used[one.row]), float(used[one.row + HERE])) for one in offers)
    return tuple(buy for buy in found if buy.count or buy.here)
