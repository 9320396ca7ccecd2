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
    from tidestead.build.cutting.lengths import Bar, LengthPlan, Saw
    from tidestead.core.units import System


@dataclass(frozen=True)
class Bars:
    """What the pictures of bars say beside the plan: lengths of pieces by mark, of stock by name."""

    id: str
    title: str
    pieces: Mapping[str, float]
    stocks: Mapping[str, float]
    saw: Saw
    system: System
    first: int = 1


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
    return tuple(_scene(group, bars, number, len(groups)) for number, group in enumerate(groups, start=1))


def _scene(rows: Sequence[tuple[Bar, str]], bars: Bars, number: int, of: int) -> Scene:
    longest = max(bars.stocks[bar.stock] for bar, _ in rows)
    short = short_marks(mark for bar, _ in rows for mark in bar.marks)
    shapes: list[Shape] = []
    for index, (bar, name) in enumerate(rows):
        shapes += _bar(bar, name, -PITCH * longest * index, longest, (bars, short))
    kerf = show(bars.saw.kerf, "m", bars.system, "sheet")
    title = f"{bars.title}: how each length is sawn, kerf {kerf}{f', {number} of {of}' if of > 1 else ''}"
    told = " ".join(_told(bar, name, bars) for bar, name in rows)
    return Scene(f"{bars.id}.bars-{number}", title, f"{title}. {told}", tuple(shapes))


def _bar(bar: Bar, name: str, y: float, longest: float, told: tuple[Bars, Mapping[str, str]]) -> list[Shape]:
    """One bar with its pieces from the left, a line in every kerf, and the rest of it."""
    bars, short = told
    length, depth, kerf = bars.stocks[bar.stock], DEPTH * longest, bars.saw.kerf
    shapes: list[Shape] = []
    place = bars.saw.trim
    if place:
        shapes.append(Area(_box(0.0, y, place, depth), "ghost", label=LEFT))
    for mark, run in _runs(bar):
        size = bars.pieces[mark]
        ends = [place + size + index * (size + kerf) for index in range(run)]
        if size < NARROW * longest:
            shapes.append(Area(_box(place, y, ends[-1] - place, depth), "timber", mark))
        else:
            shapes += [Area(_box(end - size, y, size, depth), "timber", mark) for end in ends]
            shapes += [Note((end - size / 2.0, y + depth / 2.0), short[mark], mark) for end in ends]
        shapes += [_line(end + kerf / 2.0, y, depth) for end in ends if end < length - TOUCH]
        place = ends[-1] + kerf
    if length - place > TOUCH:
        shapes.append(Area(_box(place, y, length - place, depth), "ghost", label=LEFT))
    shapes.append(
        Stroke(((0.0, y + depth), (length, y + depth)), "outline", label=_head(bar, name, longest, told))
    )
    return shapes


def _line(x: float, y: float, depth: float) -> Stroke:
    return Stroke(((x, y - 0.12 * depth), (x, y + 1.12 * depth)), "dotted", label=SAW)


def _box(x: float, y: float, along: float, up: float) -> tuple[Point, ...]:
    return (x, y), (x + along, y), (x + along, y + up), (x, y + up)


def _runs(bar: Bar) -> list[tuple[str, int]]:
    """Pieces alike that are sawn one after the other, and how many."""
    return [(mark, len(list(same))) for mark, same in groupby(bar.marks)]


def _head(bar: Bar, name: str, longest: float, told: tuple[Bars, Mapping[str, str]]) -> str:
    """What stands over a bar: its numbers and length, pieces too narrow for a word of their own, what is left."""
    bars, short = told
    words = [_length(bars.stocks[bar.stock], bars)]
    words += [f"{run} x {short[mark]}" for mark, run in _runs(bar) if bars.pieces[mark] < NARROW * longest]
    return f"no. {name}: {', '.join([*words, _left(bar, bars)])}"


def _told(bar: Bar, name: str, bars: Bars) -> str:
    pieces = [f"{run} x {mark} of {_length(bars.pieces[mark], bars)}" for mark, run in _runs(bar)]
    return f"No. {name}, {_length(bars.stocks[bar.stock], bars)}: {', '.join(pieces)}; {_left(bar, bars)}."


def _left(bar: Bar, bars: Bars) -> str:
    return f"left over {_length(bar.offcut, bars)}" if bar.offcut > TOUCH else "nothing left over"


def _length(value: float, bars: Bars) -> str:
    return show(value, "m", bars.system, "lumber")
