"""The plan of cut lengths as drawings: a bar for each length, its pieces in the order they are sawn, what is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from tidestead.build.cutting.numbering import numbers, short_marks
from tidestead.core.scene import Area, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import show

if TYPE_CHECKING:
    from tidestead.build.cutting.lengths import Bar, LengthPlan
    from tidestead.core.scene import Stuff
    from tidestead.core.units import System


@dataclass(frozen=True)
class Bars:
    """What the pictures of bars say beside the plan. `first` numbers the first bar, `stuff` is what bars are of."""

    id: str
    title: str
    system: System
    first: int = 1
    stuff: Stuff = "timber"


MOST = 9
"""Bars on one drawing; more stand on the next."""

DEPTH, PITCH = 0.055, 0.118
"""Of the longest bar: how deep bars are drawn and how far apart. Only lengths are true to scale."""

NARROW = 0.07
"""Of the longest bar: pieces alike that are shorter than this are drawn as one and told over the bar."""

TOUCH = 1e-9
"""Metres below which there is no gap."""

SAW, LEFT = "saw cut", "left over"


def bar_scenes(plan: LengthPlan, bars: Bars) -> tuple[Scene, ...]:
    """Scenes of so many bars each; bars cut alike stand as one."""
    named = numbers((bar.times for bar in plan.bars), bars.first)
    rows = list(zip(plan.bars, named, strict=True))
    groups = [rows[begin : begin + MOST] for begin in range(0, len(rows), MOST)]
    return tuple(
        _scene(group, plan, bars, f"{number} of {len(groups)}") for number, group in enumerate(groups, 1)
    )


@dataclass(frozen=True)
class _Sheet:
    """What one drawing shares: the plan, its longest bar, short marks, what is said of it."""

    plan: LengthPlan
    longest: float
    short: Mapping[str, str]
    bars: Bars

    @property
    def depth(self) -> float:
        return DEPTH * self.longest

    def narrow(self, mark: str) -> bool:
        """Whether pieces of a mark have no room for it."""
        return self.plan.length_of[mark] < NARROW * self.longest

    def told(self, length: float) -> str:
        return show(length, "m", self.bars.system, "lumber")


def _scene(rows: Sequence[tuple[Bar, str]], plan: LengthPlan, bars: Bars, number: str) -> Scene:
    longest = max(bar.stock.length for bar, _ in rows)
    short = short_marks(mark for bar, _ in rows for mark in bar.marks)
    sheet = _Sheet(plan, longest, short, bars)
    shapes: list[Shape] = []
    for index, (bar, name) in enumerate(rows):
        shapes += _bar(bar, name, -PITCH * longest * index, sheet)
    kerf = show(plan.saw.kerf, "m", bars.system, "sheet")
    which = "" if number == "1 of 1" else f", {number}"
    title = f"{bars.title}: how each length is sawn, kerf {kerf}{which}"
    told = " ".join(_told(bar, name, sheet) for bar, name in rows)
    return Scene(f"{bars.id}.bars-{number.partition(' ')[0]}", title, f"{title}. {told}", tuple(shapes))


def _bar(bar: Bar, name: str, y: float, sheet: _Sheet) -> list[Shape]:
    """One bar with its pieces from the left, a line in every kerf, and the rest of it."""
    length, depth, saw = bar.stock.length, sheet.depth, sheet.plan.saw
    shapes: list[Shape] = []
    place, stuff = saw.trim, sheet.bars.stuff
    if place:
        shapes.append(Area(_box(0.0, y, place, depth), "ghost", label=LEFT))
    for mark, run in _runs(bar):
        size = sheet.plan.length_of[mark]
        ends = [place + size + index * (size + saw.kerf) for index in range(run)]
        if sheet.narrow(mark):
            shapes.append(Area(_box(place, y, ends[-1] - place, depth), stuff, mark))
        else:
            shapes += [Area(_box(end - size, y, size, depth), stuff, mark) for end in ends]
            shapes += [Note((end - size / 2.0, y + depth / 2.0), sheet.short[mark], mark) for end in ends]
        shapes += [_line(end + saw.kerf / 2.0, y, depth) for end in ends if end < length - TOUCH]
        place = ends[-1] + saw.kerf
    if length - place > TOUCH:
        shapes.append(Area(_box(place, y, length - place, depth), "ghost", label=LEFT))
    top = ((0.0, y + depth), (length, y + depth))
    return [*shapes, Stroke(top, "outline", label=_head(bar, name, sheet))]


def _line(x: float, y: float, depth: float) -> Stroke:
    return Stroke(((x, y - 0.12 * depth), (x, y + 1.12 * depth)), "dotted", label=SAW)


def _box(x: float, y: float, along: float, up: float) -> tuple[Point, ...]:
    return (x, y), (x + along, y), (x + along, y + up), (x, y + up)


def _runs(bar: Bar) -> list[tuple[str, int]]:
    """Pieces alike that are sawn one after the other, and how many."""
    return [(mark, len(list(same))) for mark, same in groupby(bar.marks)]


def _head(bar: Bar, name: str, sheet: _Sheet) -> str:
    """What stands over a bar: its numbers and length, pieces too narrow for a word of their own, what is left."""
    narrow = [f"{run} x {sheet.short[mark]}" for mark, run in _runs(bar) if sheet.narrow(mark)]
    if narrow and not all(map(sheet.narrow, bar.marks)):
        narrow[0] = f"at the end {narrow[0]}"
    return f"no. {name}: {', '.join([sheet.told(bar.stock.length), *narrow, _left(bar, sheet)])}"


def _told(bar: Bar, name: str, sheet: _Sheet) -> str:
    pieces = [f"{run} x {mark} of {sheet.told(sheet.plan.length_of[mark])}" for mark, run in _runs(bar)]
    return f"No. {name}, {sheet.told(bar.stock.length)}: {', '.join(pieces)}; {_left(bar, sheet)}."


def _left(bar: Bar, sheet: _Sheet) -> str:
    return f"left over {sheet.told(bar.offcut)}" if bar.offcut > TOUCH else "nothing left over"
