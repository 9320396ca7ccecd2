"""The plan of cut sheets as drawings: a sheet with its parts, the cuts in the order of work, what is left over."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tidestead.build.cutting.numbering import numbers, short_marks
from tidestead.core.scene import Area, Measure, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import show

if TYPE_CHECKING:
    from tidestead.build.cutting.sheet_types import Cut, CutSheet, SheetPlan
    from tidestead.core.scene import Stuff
    from tidestead.core.units import System


@dataclass(frozen=True)
class Sheets:
    """What the pictures of sheets say beside the plan. `sizes` are the whole sheets by name, along and across."""

    id: str
    title: str
    sizes: Mapping[str, tuple[float, float]]
    kerf: float
    system: System
    grain: bool = True
    first: int = 1


SAW = "saw cut, numbered in the order of work"
GRAIN = "way of the grain"
LEFT = "left over"


def sheet_scenes(plan: SheetPlan, sheets: Sheets) -> tuple[Scene, ...]:
    """A scene for each sort of sheet that is cut alike."""
    named = numbers((sheet.times for sheet in plan.sheets), sheets.first)
    return tuple(_sheet(sheet, name, sheets) for sheet, name in zip(plan.sheets, named, strict=True))


def _sheet(sheet: CutSheet, name: str, said: Sheets) -> Scene:
    along, across = said.sizes[sheet.stock]
    stuff: Stuff = "sheet" if said.grain else "clear"
    shapes: list[Shape] = [Area(_box(0.0, 0.0, along, across), "outline")]
    for left in sheet.offcuts:
        shapes.append(Area(_box(left.x, left.y, left.along, left.across), "ghost", label=LEFT))
    short = short_marks(part.mark for part in sheet.placed)
    for part in sheet.placed:
        shapes.append(Area(_box(part.x, part.y, part.along, part.across), stuff, part.mark))
        shapes.append(
            Note((part.x + part.along / 2.0, part.y + part.across / 2.0), short[part.mark], part.mark)
        )
    for cut in sheet.cuts:
        shapes += _cut(cut, said.kerf)
    if said.grain:
        shapes += _arrow(along, across)
    shapes.append(Measure((0.0, 0.0), (along, 0.0), -0.05 * across, "sheet"))
    shapes.append(Measure((along, 0.0), (along, across), -0.05 * across, "sheet"))
    count = f"sheet {name}" if sheet.times == 1 else f"sheets {name}, cut alike"
    title = f"{said.title}, {count}, kerf {_length(said.kerf, said)}"
    return Scene(
        f"{said.id}.sheet-{name.partition(' ')[0]}", title, _sheet_told(sheet, title, said), tuple(shapes)
    )


def _box(x: float, y: float, along: float, across: float) -> tuple[Point, ...]:
    return (x, y), (x + along, y), (x + along, y + across), (x, y + across)


def _cut(cut: Cut, kerf: float) -> list[Shape]:
    """The middle of the kerf as a line, with its number near where it begins."""
    upright = abs(cut.x1 - cut.x0) < abs(cut.y1 - cut.y0)
    aside = (kerf / 2.0, 0.0) if upright else (0.0, kerf / 2.0)
    begin = (cut.x0 + aside[0], cut.y0 + aside[1])
    end = (cut.x1 + aside[0], cut.y1 + aside[1])
    length = math.dist(begin, end) or 1.0
    share = min(0.5, 0.06 / length)
    at = (begin[0] + share * (end[0] - begin[0]), begin[1] + share * (end[1] - begin[1]))
    return [Stroke((begin, end), "dotted", label=SAW), Note(at, str(cut.number))]


def _arrow(along: float, across: float) -> list[Shape]:
    """Two heads on a line above the sheet: which way its grain runs."""
    y, barb = across + 0.06 * across, 0.025 * along
    left, right = 0.38 * along, 0.62 * along
    heads = [
        ((left + barb, y + barb / 2.0), (left, y), (left + barb, y - barb / 2.0)),
        ((right - barb, y + barb / 2.0), (right, y), (right - barb, y - barb / 2.0)),
    ]
    return [Stroke(line, "solid", label=GRAIN) for line in (((left, y), (right, y)), *heads)]


def _sheet_told(sheet: CutSheet, title: str, said: Sheets) -> str:
    """The same in words: what lies where, the cuts in order, what is left."""
    size = _by(said.sizes[sheet.stock], said.system)
    parts = "; ".join(
        f"{part.mark}{' turned' if part.turned else ''}, {_by((part.along, part.across), said.system)}, "
        f"its corner {_length(part.x, said)} along and {_length(part.y, said)} across"
        for part in sheet.placed
    )
    cuts = "; ".join(f"{cut.number} {_cut_told(cut, said)}" for cut in sheet.cuts)
    order = (
        f"Cuts in order: {cuts}." if cuts else "No saw can part these from edge to edge: a router cuts them."
    )
    left = "; ".join(_by((one.along, one.across), said.system) for one in sheet.offcuts)
    rest = f" Left over: {left}." if left else ""
    return f"{title}, {size} along and across the grain. Parts: {parts}. {order}{rest}"


def _cut_told(cut: Cut, said: Sheets) -> str:
    if abs(cut.x1 - cut.x0) < abs(cut.y1 - cut.y0):
        low, high = sorted((cut.y0, cut.y1))
        return f"across at {_length(cut.x0, said)}, from {_length(low, said)} to {_length(high, said)}"
    low, high = sorted((cut.x0, cut.x1))
    return f"along at {_length(cut.y0, said)}, from {_length(low, said)} to {_length(high, said)}"


def _length(value: float, said: Sheets) -> str:
    return show(value, "m", said.system, "sheet")


def _by(sizes: Sequence[float], system: System) -> str:
    return " x ".join(show(size, "m", system, "sheet") for size in sizes)
