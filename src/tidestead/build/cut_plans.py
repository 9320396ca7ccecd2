"""Every cut plan of a build together: what each thing is cut from, numbered through."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tidestead.build.cutting.bar_pictures import Bars, bar_scenes
from tidestead.build.cutting.numbering import ranges
from tidestead.build.cutting.sheet_pictures import Sheets, sheet_scenes
from tidestead.build.materials import Rows, shipped, title_of
from tidestead.build.timber_sizes import section_words
from tidestead.core.units import show

if TYPE_CHECKING:
    from tidestead.build.cutting.lengths import LengthPlan, Stock
    from tidestead.build.cutting.sheet_types import SheetPlan, SheetSaw, SheetStock
    from tidestead.core.scene import Scene, Stuff
    from tidestead.core.units import System
    from tidestead.plan.items import Item


@dataclass(frozen=True)
class LengthsCut:
    """One sort of timber or pipe: its plan, and what is bought over the plan."""

    item: Item
    plan: LengthPlan
    spare: Mapping[str, int] = field(default_factory=dict)

    def used(self) -> Iterator[tuple[Stock, int, int]]:
        """Each stock that is used, longest first: how many, and how many more for knots and mistakes."""
        counts: Counter[Stock] = Counter()
        for bar in self.plan.bars:
            counts[bar.stock] += bar.times
        for stock, count in sorted(counts.items(), key=lambda pair: (-pair[0].length, pair[0].name)):
            yield stock, count, self.spare.get(stock.name, 0)


@dataclass(frozen=True)
class SheetsCut:
    """One sort of sheet: what there was to cut it from, the saw, and as above."""

    item: Item
    stocks: tuple[SheetStock, ...]
    saw: SheetSaw
    plan: SheetPlan
    spare: Mapping[str, int] = field(default_factory=dict)

    def used(self) -> Iterator[tuple[SheetStock, int, int]]:
        """Each size that is used, largest first, as above."""
        for stock in sorted(self.stocks, key=lambda stock: -stock.along * stock.across):
            count = sum(sheet.times for sheet in self.plan.sheets if sheet.stock == stock.name)
            if count:
                yield stock, count, self.spare.get(stock.name, 0)


@dataclass(frozen=True)
class CutPlans:
    """All of them. Lengths are numbered from 1 through every sort, and sheets from 1 of their own."""

    lengths: tuple[LengthsCut, ...] = ()
    sheets: tuple[SheetsCut, ...] = ()

    def numbered_lengths(self) -> Iterator[tuple[LengthsCut, int]]:
        """Each sort with the number of its first length."""
        first = 1
        for cut in self.lengths:
            yield cut, first
            first += sum(bar.times for bar in cut.plan.bars)

    def numbered_sheets(self) -> Iterator[tuple[SheetsCut, int]]:
        """Each sort with the number of its first sheet."""
        first = 1
        for cut in self.sheets:
            yield cut, first
            first += cut.plan.count


def stock_numbers(plans: CutPlans) -> dict[str, str]:
    """For every mark the numbers of the lengths or sheets that it is cut from."""
    bars: dict[str, set[int]] = {}
    for cut, first in plans.numbered_lengths():
        number = first
        for bar in cut.plan.bars:
            for mark in bar.marks:
                bars.setdefault(mark, set()).update(range(number, number + bar.times))
            number += bar.times
    boards: dict[str, set[int]] = {}
    for sheets, first in plans.numbered_sheets():
        number = first
        for sheet in sheets.plan.sheets:
            for part in sheet.placed:
                boards.setdefault(part.mark, set()).update(range(number, number + sheet.times))
            number += sheet.times
    told = {mark: ranges(found) for mark, found in bars.items()}
    return told | {mark: f"sheet {ranges(found)}" for mark, found in boards.items()}


def is_there(stock: Stock | SheetStock) -> bool:
    """Whether a stock is not bought: it is on hand and costs nothing."""
    return stock.on_hand is not None and stock.price == 0.0


def scenes_of(plans: CutPlans, system: System, rows: Rows = shipped) -> tuple[Scene, ...]:
    """Drawings of every bar and sheet."""
    made: list[Scene] = []
    for number, (cut, first) in enumerate(plans.numbered_lengths(), start=1):
        title = timber_title(cut.item, system, rows)
        stuff: Stuff = "timber" if cut.item.sort == "lumber" else "outline"
        made += bar_scenes(cut.plan, Bars(f"cost.cut.lengths-{number}", title, system, first, stuff))
    for number, (sheets, first) in enumerate(plans.numbered_sheets(), start=1):
        sizes = {stock.name: (stock.along, stock.across) for stock in sheets.stocks}
        grain, title = sheets.item.sort != "clear", title_of(sheets.item, rows)
        if not grain and sheets.item.sizes:
            title = f"{title} {show(sheets.item.sizes[0], 'm', system, 'sheet')}"
        said = Sheets(f"cost.cut.sheets-{number}", title, sizes, sheets.saw.kerf, system, grain, first)
        made += sheet_scenes(sheets.plan, said)
    return tuple(made)


def timber_title(item: Item, system: System, rows: Rows = shipped) -> str:
    """A sort of timber by section and grade, or whatever else is sold by the length, as the catalogue calls it."""
    if item.sort == "lumber":
        return f"{section_words(item, system)} {title_of(item, rows)}"
    return title_of(item, rows)
