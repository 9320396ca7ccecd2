"""Every cut plan of a build together: what each thing is cut from, numbered through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tidestead.build.cutting.bar_pictures import Bars, bar_scenes
from tidestead.build.cutting.numbering import numbers
from tidestead.build.cutting.sheet_pictures import Sheets, sheet_scenes
from tidestead.build.materials import Rows, shipped, title_of
from tidestead.build.timber_sizes import section_words
from tidestead.core.units import show

if TYPE_CHECKING:
    from tidestead.build.cutting.lengths import LengthPlan, Saw, Stock
    from tidestead.build.cutting.sheet_types import SheetPlan, SheetSaw, SheetStock
    from tidestead.build.lists import TakenOff
    from tidestead.core.scene import Scene
    from tidestead.core.units import System
    from tidestead.plan.items import Item


@dataclass(frozen=True)
class LengthsCut:
    """One sort of timber or pipe: what there was to cut it from, the saw, the plan."""

    item: Item
    stocks: tuple[Stock, ...]
    saw: Saw
    plan: LengthPlan

    def stock(self, name: str) -> Stock:
        """The stock of a name."""
        return next(stock for stock in self.stocks if stock.name == name)


@dataclass(frozen=True)
class SheetsCut:
    """One sort of sheet, as above."""

    item: Item
    stocks: tuple[SheetStock, ...]
    saw: SheetSaw
    plan: SheetPlan

    def stock(self, name: str) -> SheetStock:
        """The stock of a name."""
        return next(stock for stock in self.stocks if stock.name == name)


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
    found: dict[str, dict[str, None]] = {}
    for cut, first in plans.numbered_lengths():
        named = numbers((bar.times for bar in cut.plan.bars), first)
        for bar, name in zip(cut.plan.bars, named, strict=True):
            for mark in bar.marks:
                found.setdefault(mark, {})[name] = None
    for sheets, first in plans.numbered_sheets():
        named = numbers((sheet.times for sheet in sheets.plan.sheets), first)
        for sheet, name in zip(sheets.plan.sheets, named, strict=True):
            for part in sheet.placed:
                found.setdefault(part.mark, {})[f"sheet {name}"] = None
    return {mark: ", ".join(names) for mark, names in found.items()}


def bought_as(plans: CutPlans, system: System) -> dict[Item, str]:
    """What is bought of each thing that is cut: "14 x 2.44 m, 3 x 3.66 m"; what is on hand is not bought."""
    told: dict[Item, str] = {}
    for cut in plans.lengths:
        counts = {
            stock: sum(bar.times for bar in cut.plan.bars if bar.stock == stock.name) for stock in cut.stocks
        }
        words = [
            f"{count} x {show(stock.length, 'm', system, 'lumber')}{'' if stock.on_hand is None else ' on hand'}"
            for stock, count in counts.items()
            if count
        ]
        told[cut.item] = ", ".join(words)
    for sheets in plans.sheets:
        words = []
        for sheet in sheets.stocks:
            count = sum(one.times for one in sheets.plan.sheets if one.stock == sheet.name)
            size = " x ".join(show(side, "m", system, "sheet") for side in (sheet.along, sheet.across))
            words += [f"{count} of {size}{'' if sheet.on_hand is None else ' on hand'}"] if count else []
        told[sheets.item] = ", ".join(words)
    return told


def scenes_of(plans: CutPlans, taken: TakenOff, system: System, rows: Rows = shipped) -> tuple[Scene, ...]:
    """Drawings of every bar and sheet."""
    made: list[Scene] = []
    pieces = {piece.mark: piece.length for piece in taken.pieces}
    for number, (cut, first) in enumerate(plans.numbered_lengths(), start=1):
        stocks = {stock.name: stock.length for stock in cut.stocks}
        title = timber_title(cut.item, system, rows)
        bars = Bars(f"cost.cut.lengths-{number}", title, pieces, stocks, cut.saw, system, first)
        made += bar_scenes(cut.plan, bars)
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
