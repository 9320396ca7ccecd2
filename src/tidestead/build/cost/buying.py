"""What is bought for what is needed: cut lengths and sheets, packages, measures, with what is there already."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead.build.cost.boards import laid_of
from tidestead.build.cost.covering import Package, packages_for
from tidestead.build.cost.cuts import Tick, Work, cut_bars, cut_boards
from tidestead.build.cost.offers import Buy, Money, Offer, by_item
from tidestead.build.cost.strips import strips_of
from tidestead.build.cost.waste import with_waste
from tidestead.build.cutting.lengths import LengthPlan
from tidestead.build.cutting.sheets import SheetPlan
from tidestead.build.lists import Line, Piece, SheetPart, TakenOff, Unit
from tidestead.plan.items import Item

Cut: TypeAlias = LengthPlan | SheetPlan
_COUNTED = {"1": "the piece", "m": "length", "m2": "area", "m3": "volume", "kg": "weight", "J": "energy"}


@dataclass(frozen=True)
class Bought:
    """One item with all that it is needed for. `needed` is net.

    `missing` says why there is no price, or why it cannot be bought as it is sold; then there are no buys. `shares` are
    the lines' parts of its money where those do not go by their amounts.
    """

    item: Item
    needed: float
    unit: Unit
    lines: tuple[Line, ...]
    buys: tuple[Buy, ...] = ()
    cut: Cut | None = None
    missing: str = ""
    shares: tuple[float, ...] = ()


@dataclass(frozen=True)
class Need:
    """One item on the lists, with its pieces or parts where it is cut."""

    item: Item
    lines: tuple[Line, ...]
    pieces: tuple[Piece, ...]
    parts: tuple[SheetPart, ...]

    @property
    def unit(self) -> Unit:
        return self.lines[0].unit

    @property
    def amount(self) -> float:
        """Likely amount of all lines that tell one."""
        return float(sum(line.amount.likely for line in self.lines if line.amount is not None))


def needs_of(
    taken: TakenOff, *, yearly: bool = False, standing: frozenset[str] = frozenset()
) -> tuple[Need, ...]:
    """Every item that is needed, once or in a year, in the order of the lists. Vessels that stand need nothing."""
    pieces: dict[Item, list[Piece]] = {}
    parts: dict[Item, list[SheetPart]] = {}
    for piece in taken.pieces:
        if piece.vessel not in standing:
            pieces.setdefault(piece.item, []).append(piece)
    for part in taken.parts:
        if part.vessel not in standing:
            parts.setdefault(part.item, []).append(part)
    lines: dict[Item, list[Line]] = {}
    for line in taken.lines:
        if (
            line.yearly is yearly
            and line.amount is not None
            and not (line.vessel and line.vessel in standing)
        ):
            lines.setdefault(line.item, []).append(line)
    return tuple(
        Need(
            item,
            tuple(found),
            *((), ()) if yearly else (tuple(pieces.get(item, ())), tuple(parts.get(item, ()))),
        )
        for item, found in lines.items()
    )


def bought_of(needs: Sequence[Need], offers: Sequence[Offer], work: Work) -> tuple[Bought, ...]:
    """How each need is met from the offers."""
    sold = by_item(offers)
    found = []
    for number, need in enumerate(needs):
        if work.tick is not None:
            work.tick(number, len(needs))
        found += _met_by(need, sold.get(need.item, ()), replace(work, tick=_still(work, number, len(needs))))
    return tuple(found)


def _still(work: Work, number: int, of: int) -> Tick | None:
    """Within one thing: tells that the same one is still at work, so that whoever waits may stop it."""
    tick = work.tick
    return None if tick is None else lambda _done, _of: tick(number, of)


def _met_by(need: Need, offers: Sequence[Offer], work: Work) -> list[Bought]:
    """What meets one need: once, by strips, or for each thickness that is laid of other boards."""
    if any(one.has_all for one in offers):
        return [_bought(need, offers, work)]
    sheets, boards = ([one for one in offers if len(one.size) == sides] for sides in (2, 3))
    if need.item.sort == "glazing" and len(sheets) == len(offers) > 0:
        sawn = strips_of(need.lines, sheets, work)
        return [Bought(need.item, need.amount, need.unit, need.lines, sawn.buys, None, sawn.missing)]
    if need.item.sort != "layer" or not boards:
        return [_bought(need, offers, work)]
    loose = [one for one in offers if len(one.size) != 3]
    laid = laid_of(need.lines, boards, work.money)
    found = [Bought(need.item, one.amount, need.unit, one.lines, one.buys, None, one.missing, one.shares)
             for one in laid if not (one.missing and loose)]  # fmt: skip
    rest = tuple(line for one in laid if one.missing and loose for line in one.lines)
    if rest:
        found.append(_bought(Need(need.item, rest, (), ()), loose, work))
    return found


def _bought(need: Need, offers: Sequence[Offer], work: Work) -> Bought:
    bare = Bought(need.item, need.amount, need.unit, need.lines)
    strange = [one for one in offers if one.unit != need.unit and not one.has_all]
    offers = [one for one in offers if one not in strange]
    if strange and not offers:
        return _with(bare, missing=_apart(need, strange[0]))
    whole = [one for one in offers if one.has_all]
    if whole:
        return _with(bare, (Buy(whole[0], 0.0, _pieces(need.amount, whole[0])),))
    priced = [one for one in offers if one.price is not None or one.owned > 0.0]
    if not any(one.price is not None for one in priced):
        return _with(bare, missing="has no price") if not priced else _from_stock(need, bare, priced, work)
    return _met(need, bare, priced, work)


def _apart(need: Need, offer: Offer) -> str:
    """That a price is for something that the lists do not count by."""
    priced, listed = (_COUNTED[unit] for unit in (offer.unit, need.unit))
    advice = "say by sold what one of it is" if need.unit != "1" else "give the price for one piece"
    return f"is priced by {priced} in {offer.row} and listed by {listed}: {advice}"


def _from_stock(need: Need, bare: Bought, offers: Sequence[Offer], work: Work) -> Bought:
    """From what is there alone: nothing has a price."""
    met = _met(need, bare, offers, work)
    return met if not met.missing else _with(bare, missing="has no price, and what is there does not do")


def _met(need: Need, bare: Bought, offers: Sequence[Offer], work: Work) -> Bought:
    sides = {len(one.size) for one in offers if one.size}
    if need.pieces and need.unit == "m" and 1 in sides:
        found = cut_bars(need.pieces, [one for one in offers if len(one.size) == 1], work)
        return _with(bare, _spared(need.item, found.buys, work.sawing.spoils), found.cut, found.missing)
    if need.parts and 2 in sides:
        found = cut_boards(need.parts, [one for one in offers if len(one.size) == 2], work)
        return _with(bare, found.buys, found.cut, found.missing)
    return _packed(need, bare, offers, work.money)


def _spared(item: Item, buys: tuple[Buy, ...], spoils: float) -> tuple[Buy, ...]:
    """Whole lengths more for knots and mistakes, of the length that is bought most."""
    total = sum(buy.count for buy in buys)
    if item.sort != "lumber" or not total or not spoils:
        return buys
    spare = float(math.ceil(total * spoils - 1e-9))
    enough = [buy for buy in buys if buy.offer.at_most is None or buy.count + spare <= buy.offer.at_most]
    most = max(enough or buys, key=lambda buy: (buy.count, -buy.offer.size[0]))
    return tuple(Buy(buy.offer, buy.count + spare, buy.here, spare) if buy is most else buy for buy in buys)


def _packed(need: Need, bare: Bought, offers: Sequence[Offer], money: Money) -> Bought:
    """By measure or by package with what is lost of it, what is there first."""
    left, here = with_waste(need.item, need.amount), []
    for offer in offers:
        holds = _holds(offer)
        taken = min(offer.owned, _pieces(left, offer))
        if taken > 0.0:
            here.append(Buy(offer, 0.0, taken))
            left = max(left - taken * holds, 0.0)
    if left <= 1e-9 * max(need.amount, 1.0):
        return _with(bare, tuple(here))
    usable = [one for one in offers if one.price is not None]
    if not usable:
        return _with(bare, missing="has no price for what is not there")
    by_measure = [one for one in usable if _parts(one)]
    packed = [one for one in usable if not _parts(one)]
    choices: list[tuple[float, tuple[Buy, ...]]] = [
        (_likely(one, money) * left, (Buy(one, left),)) for one in by_measure
    ]
    packages = [Package(_holds(one), _likely(one, money), one.at_most) for one in packed]
    counts = packages_for(left, packages) if packages else None
    if counts is not None:
        buys = tuple(Buy(one, float(count)) for one, count in zip(packed, counts, strict=True) if count)
        choices.append((sum(_likely(buy.offer, money) * buy.count for buy in buys), buys))
    if not choices:
        return _with(bare, missing="cannot all be had: what the price book offers is too little")
    _, buys = min(choices, key=lambda choice: choice[0])
    return _with(bare, (*here, *buys))


def _holds(offer: Offer) -> float:
    """What one piece of an offer holds, in the unit of its lists; one of a measure where it has no size."""
    return math.prod(offer.size) if offer.size else 1.0


def _pieces(amount: float, offer: Offer) -> float:
    """Pieces of an offer that hold an amount: whole ones where it has a size or is a piece."""
    count = amount / _holds(offer)
    return count if _parts(offer) else float(math.ceil(count - 1e-9))


def _parts(offer: Offer) -> bool:
    """Whether just as much of it can be had as is needed."""
    return not offer.size and (offer.unit != "1" or offer.in_part)


def _likely(offer: Offer, money: Money) -> float:
    return math.inf if offer.price is None else offer.price.likely * money.worth(offer.currency)


def _with(bare: Bought, buys: tuple[Buy, ...] = (), cut: Cut | None = None, missing: str = "") -> Bought:
    return Bought(bare.item, bare.needed, bare.unit, bare.lines, () if missing else buys, cut, missing)


def lasting(offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """The offers as every year has them: what lies in store is used up once, what there is without end is not."""
    return tuple(one if one.has_all else replace(one, owned=0.0) for one in offers)


def endless(offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """The offers by which what stands is valued: what lies in store is not in it, and there is no most."""
    return tuple(one if one.has_all else replace(one, owned=0.0, at_most=None) for one in offers)


def standing_of(stages: Mapping[str, str]) -> frozenset[str]:
    """Vessels that are built and filled: what they took is there."""
    return frozenset(name for name, stage in stages.items() if stage in ("filled", "stocked"))
