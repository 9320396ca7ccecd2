"""A second opinion of a plan of sheets, from parts, sheets and saw alone: nothing is shared with what made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations
from math import isclose
from typing import NamedTuple

from tidestead.build.cutting.sheet_types import Cut, CutSheet, Placed, Rect, SheetPlan, SheetSaw, SheetStock

HAIR = 2e-8
"""Metres within which two places are one: sizes are rounded to a nanometre."""
CENT = 1e-6
"""Share of a cost within which two are one."""


class _Region(NamedTuple):
    """A rectangle from corner to corner."""

    x0: float
    y0: float
    x1: float
    y1: float


def sheet_faults(
    plan: SheetPlan,
    rects: Sequence[Rect],
    stocks: Sequence[SheetStock],
    saw: SheetSaw,
    *,
    guillotine: bool = True,
) -> tuple[str, ...]:
    """Everything wrong with a plan, in words; empty for a plan that can be sawn as it says.

    `guillotine`: parts must come apart by cuts from edge to edge, and the numbered cuts must do it.
    """
    known = {stock.name: stock for stock in stocks}
    faults: list[str] = []
    for number, sheet in enumerate(plan.sheets, 1):
        if sheet.stock not in known:
            faults.append(f'sheet {number}: there is no stock "{sheet.stock}"')
            continue
        if sheet.times < 1:
            faults.append(f"sheet {number}: is cut {sheet.times} times")
        faults += [f"sheet {number}: {fault}" for fault in _sheet(sheet, known[sheet.stock], rects, saw)]
        faults += [
            f"sheet {number}: {fault}" for fault in _cutting(sheet, known[sheet.stock], saw, guillotine)
        ]
    return (*faults, *_counts(plan, rects), *_money(plan, stocks))


def _counts(plan: SheetPlan, rects: Sequence[Rect]) -> Iterator[str]:
    """Every part as often as it is wanted, none that nobody wants."""
    cut: Counter[str] = Counter()
    for sheet in plan.sheets:
        for part in sheet.placed:
            cut[part.mark] += sheet.times
    for rect in rects:
        if cut[rect.mark] != rect.count:
            yield f'part "{rect.mark}" is cut {cut[rect.mark]} times, wanted {rect.count} times'
    for mark in cut.keys() - {rect.mark for rect in rects}:
        yield f'part "{mark}" is not wanted'


def _money(plan: SheetPlan, stocks: Sequence[SheetStock]) -> Iterator[str]:
    """Sheets on hand suffice, the cost adds up, the bound lies below it."""
    used: Counter[str] = Counter()
    for sheet in plan.sheets:
        used[sheet.stock] += sheet.times
    for stock in stocks:
        if stock.on_hand is not None and used[stock.name] > stock.on_hand:
            yield f'stock "{stock.name}": {used[stock.name]} used, {stock.on_hand} on hand'
    cost = sum(used[stock.name] * stock.price for stock in stocks)
    if not isclose(cost, plan.cost, rel_tol=CENT, abs_tol=CENT):
        yield f"the sheets cost {cost:g}, the plan says {plan.cost:g}"
    if plan.reached is None:
        if not plan.bound <= plan.cost * (1.0 + CENT) + CENT:
            yield f"the bound {plan.bound:g} lies above the cost {plan.cost:g}, or is no number"
        if plan.proven and not isclose(plan.bound, plan.cost, rel_tol=CENT, abs_tol=CENT):
            yield f"is called proven, though the bound is {plan.bound:g} and the cost {plan.cost:g}"


def _sheet(sheet: CutSheet, stock: SheetStock, rects: Sequence[Rect], saw: SheetSaw) -> Iterator[str]:
    """Every part of its size, with its grain, inside the trimmed sheet, a kerf from every other."""
    wanted = {rect.mark: rect for rect in rects}
    room = _trimmed(stock, saw)
    for part in sheet.placed:
        if part.mark in wanted:
            yield from _size(part, wanted[part.mark])
        if not _inside(_region(part), room):
            yield f'part "{part.mark}" at {part.x:g}, {part.y:g} m lies outside the trimmed sheet'
    for one, other in combinations(sheet.placed, 2):
        if _gap(_region(one), _region(other)) < saw.kerf - HAIR:
            yield f'parts "{one.mark}" and "{other.mark}" lie less than a kerf apart'
    share = sum(part.along * part.across for part in sheet.placed) / (stock.along * stock.across)
    if not isclose(share, sheet.share, rel_tol=CENT):
        yield f"{share:.4f} of it becomes parts, the plan says {sheet.share:.4f}"


def _size(part: Placed, rect: Rect) -> Iterator[str]:
    """The size is right for the way the part lies, and it may lie so."""
    size = (rect.across, rect.along) if part.turned else (rect.along, rect.across)
    if abs(part.along - size[0]) > HAIR or abs(part.across - size[1]) > HAIR:
        yield f'part "{part.mark}" is {part.along:g} x {part.across:g} m, wanted {size[0]:g} x {size[1]:g} m'
    if part.turned and not rect.turns:
        yield f'part "{part.mark}" lies across the grain'


def _cutting(sheet: CutSheet, stock: SheetStock, saw: SheetSaw, guillotine: bool) -> Iterator[str]:
    """The parts come apart, and the cuts part them in their order."""
    parts = [_region(part) for part in sheet.placed]
    room = _trimmed(stock, saw)
    if guillotine and not separable(parts, saw.kerf):
        yield "no cuts from edge to edge part its parts"
        return
    if not guillotine and not sheet.cuts:
        return
    pieces = [room]
    for at, cut in enumerate(sheet.cuts, 1):
        if cut.number != at:
            yield f"cut {at} has the number {cut.number}"
        of = next((piece for piece in pieces if _crosses(cut, piece)), None)
        if of is None:
            yield f"cut {cut.number} runs from edge to edge of no piece that is left"
            return
        pieces.remove(of)
        pieces += _two(cut, of, saw.kerf)
    yield from _left(pieces, parts, sheet)


def _left(pieces: list[_Region], parts: list[_Region], sheet: CutSheet) -> Iterator[str]:
    """After the last cut every part is a piece by itself; the other pieces are the off-cuts."""
    for region, part in zip(parts, sheet.placed, strict=True):
        found = next((piece for piece in pieces if _same(piece, region)), None)
        if found is None:
            yield f'the cuts do not free part "{part.mark}" at {part.x:g}, {part.y:g} m'
        else:
            pieces.remove(found)
    told = [_Region(one.x, one.y, one.x + one.along, one.y + one.across) for one in sheet.offcuts]
    for piece in pieces:
        if min(piece.x1 - piece.x0, piece.y1 - piece.y0) > HAIR:
            found = next((one for one in told if _same(one, piece)), None)
            if found is None:
                yield f"an off-cut at {piece.x0:g}, {piece.y0:g} m is not told"
            else:
                told.remove(found)
    if told:
        yield f"{len(told)} off-cuts are told that the cuts do not leave"


def separable(parts: Sequence[tuple[float, float, float, float]], kerf: float) -> bool:
    """Whether cuts from edge to edge, each a kerf wide, can part all of these rectangles (x0, y0, x1, y1)."""
    if len(parts) < 2:
        return True
    for low, high in ((0, 2), (1, 3)):
        ranked = sorted(parts, key=lambda part: part[low])
        reach = ranked[0][high]
        for at, part in enumerate(ranked[1:], 1):
            if part[low] - reach >= kerf - HAIR:
                return separable(ranked[:at], kerf) and separable(ranked[at:], kerf)
            reach = max(reach, part[high])
    return False


def _trimmed(stock: SheetStock, saw: SheetSaw) -> _Region:
    return _Region(saw.trim, saw.trim, stock.along - saw.trim, stock.across - saw.trim)


def _region(part: Placed) -> _Region:
    return _Region(part.x, part.y, part.x + part.along, part.y + part.across)


def _inside(inner: _Region, outer: _Region) -> bool:
    low = inner.x0 >= outer.x0 - HAIR and inner.y0 >= outer.y0 - HAIR
    return low and inner.x1 <= outer.x1 + HAIR and inner.y1 <= outer.y1 + HAIR


def _gap(one: _Region, other: _Region) -> float:
    """How far two rectangles are apart along the direction that parts them best; negative where they overlap."""
    level = max(one.x0 - other.x1, other.x0 - one.x1)
    return max(level, one.y0 - other.y1, other.y0 - one.y1)


def _same(one: _Region, other: _Region) -> bool:
    return all(abs(first - second) <= HAIR for first, second in zip(one, other, strict=True))


def _crosses(cut: Cut, piece: _Region) -> bool:
    """Whether a cut runs through a piece from one edge to the other, inside it."""
    if cut.x0 == cut.x1:
        ends = abs(cut.y0 - piece.y0) <= HAIR and abs(cut.y1 - piece.y1) <= HAIR
        return ends and piece.x0 - HAIR <= cut.x0 <= piece.x1 - HAIR / 2
    ends = cut.y0 == cut.y1 and abs(cut.x0 - piece.x0) <= HAIR and abs(cut.x1 - piece.x1) <= HAIR
    return ends and piece.y0 - HAIR <= cut.y0 <= piece.y1 - HAIR / 2


def _two(cut: Cut, piece: _Region, kerf: float) -> list[_Region]:
    """The two pieces after a cut; one that the kerf takes whole is gone."""
    if cut.x0 == cut.x1:
        halves = [piece._replace(x1=cut.x0), piece._replace(x0=cut.x0 + kerf)]
    else:
        halves = [piece._replace(y1=cut.y0), piece._replace(y0=cut.y0 + kerf)]
    return [one for one in halves if one.x1 - one.x0 > -HAIR and one.y1 - one.y0 > -HAIR]
