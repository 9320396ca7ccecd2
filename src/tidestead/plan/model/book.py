"""What things cost: the price book, rates of other money, what may go wrong, how stock is cut."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.book_fields import (
    AtMost,
    Bought,
    Dated,
    HowMany,
    Kerf,
    Lead,
    Life,
    OffCut,
    Owned,
    SoldAs,
    Trim,
    VisitNumber,
)
from tidestead.plan.fields import PartName, Share, Words
from tidestead.plan.model.part import Part
from tidestead.plan.price_fields import BookPrice, SumRange, Worth

PriceBasis = Literal["quote", "list", "guess"]
TradeName = Literal[
    "timber", "sheet goods", "windows", "lining", "fixings", "pipework", "machines", "building", "electrics", "water",
    "other",
]  # fmt: skip


class BookRow(Part):
    """One offer: a thing, what one of it is as it is sold, and its price. One thing may have several, such as a
    row for each length of a timber."""

    of: Bought
    """What it is, such as "lumber 2x6 dfl-no2", "fitting elbow-90 pvc40-2in", "pump return" or "extra crane hire"."""
    sold: SoldAs | None = None
    """What one of it is: "3.6 m", "2440 x 1220 mm" (along the grain first), "18 L", "25 kg", 100 pieces to a box. Left
    out where the price is for a measure, or for one piece of what is a piece."""
    price: BookPrice | None = None
    """For one of it, or by measure (/m2, /m, /kg, /L); where it is not sure, low, likely and high with two dots between
    them. May be left out of what is there already: then nobody can say what all is worth."""
    basis: PriceBasis = "guess"
    """How the price is known: an offer made to you, a price list, or a guess."""
    dated: Dated | None = None
    """The day of the price, such as "2026-05-04"."""
    supplier: Words | None = None
    """Whose offer, and which, in words."""
    owned: Owned | None = None
    """How many of it are there already: 4, or "12 kg" by measure; "all" where there is all that is needed."""
    at_most: AtMost | None = None
    """How many of it can be had, with those that are there."""
    replacement: BookPrice | None = None
    """What one would cost today that is owned, where that is other than the price."""
    lead: Lead | None = None
    """From the order until it is there."""
    visit: VisitNumber | None = None
    """In which visit it is needed, from 1; that of its stage of the work when left out."""
    life: Life | None = None
    """After which it is replaced."""
    count: HowMany | None = None
    """Of an extra only: how many are needed; 1 when left out."""


class Rate(Part):
    """Other money in which something has its price."""

    worth: Worth
    """Of one unit of it in the plan's own money: "1.17 EUR", or low, likely and high: "1.12 .. 1.17 .. 1.22 EUR"."""
    dated: Dated | None = None
    """The day of the rate, such as "2026-05-04"."""


class Risk(Part):
    """Something that may go wrong and would cost money."""

    what: Words
    """In words, such as "a window cracks while it is set"."""
    chance: Share
    """That it comes to pass, such as "10 %"."""
    cost: SumRange
    """If it does: "400 EUR", or low, likely and high: "300 .. 400 .. 900 EUR"."""
    trade: TradeName | None = None
    """Whose work it belongs to."""
    vessel: PartName | None = None
    """The vessel that it would strike."""


class Cutting(Part):
    """How lengths and sheets are cut; what is left out is taken as usual, and said."""

    kerf: Kerf | None = None
    """Of the saw that cuts lengths."""
    trim: Trim | None = None
    """Cut off a bought length before the first piece, where its end is split or not square."""
    useful: OffCut | None = None
    """The shortest off-cut that is kept."""
    sheet_kerf: Kerf | None = None
    """Of the saw that cuts sheets."""
    sheet_trim: Trim | None = None
    """Cut off each edge of a bought sheet."""
    spoils: Share | None = None
    """Share of bought lengths that knots and mistakes cost."""
