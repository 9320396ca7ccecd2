"""Clear sheet of a house by strips: each as wide as a sheet, from the foot of its face to its head."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.build.cost.cuts import Sawn, Work, cut_bars
from tidestead.build.cost.offers import Buy, Money, Offer
from tidestead.build.lists import Line, Piece

LAP = 0.15
"""Sheets that follow each other up a face lap so far, metres. Common practice, no source."""

_HAIR = 1e-6


def strips_of(lines: Sequence[Line], sheets: Sequence[Offer], work: Work) -> Sawn:
    """The cheapest sheets of one width that cover all faces; strips are cut across the sheet, their offcuts used."""
    widths = sorted({one.size[1] for one in sheets})
    every = [_of_width(lines, [one for one in sheets if one.size[1] == width], work) for width in widths]
    best = min(every, key=lambda one: _money(one.buys, work.money) if one.buys else math.inf)
    return Sawn(best.buys, missing=best.missing)


def _of_width(lines: Sequence[Line], sheets: Sequence[Offer], work: Work) -> Sawn:
    longest = max(one.size[0] for one in sheets)
    return cut_bars(tuple(_strips(lines, sheets[0].size[1], longest)), sheets, work)


def _strips(lines: Sequence[Line], width: float, longest: float) -> Iterator[Piece]:
    """Strips of each face, in courses that lap where none is as long as the face is tall."""
    for number, line in enumerate(lines, start=1):
        wide, tall = line.face
        courses = 1 if tall <= longest + _HAIR else math.ceil((tall - LAP) / (longest - LAP) - _HAIR)
        each = (tall + (courses - 1) * LAP) / courses
        count = courses * math.ceil(wide / width - _HAIR)
        yield Piece(f"{line.item.name} {number}", line.item, each, count, line.what, line.key, line.vessel)


def _money(buys: Sequence[Buy], money: Money) -> float:
    return sum(
        buy.count * buy.offer.price.likely * money.worth(buy.offer.currency)
        for buy in buys
        if buy.offer.price is not None
    )
