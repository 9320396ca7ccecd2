"""The frame of a plot: its two scales, their marks and words, and the room inside."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from tidestead.core.charts import Mark, Wanted
from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.core.units import Scale, System, scale, show
from tidestead.report.svg_paint import fill, paint
from tidestead.report.svg_words import Box, Room, Text, number, width

WIDTH, HEIGHT = 470.0, 230.0
"""Of a plot with its marks, and of the room inside it."""

SMALL = 12.5
_GAP = 8.0
_FAR = 3.0
"""What is wanted is drawn up to so many times the greatest value; more of it would leave the plot bare."""


@dataclass(frozen=True)
class Sample:
    """One entry of the key: what is drawn in a box of 20 by 12, and its words."""

    drawn: str
    words: str


@dataclass(frozen=True)
class Body:
    """A plot as drawn, the room it takes, and its key."""

    parts: tuple[str, ...]
    box: Box
    key: tuple[Sample, ...] = ()


@dataclass(frozen=True)
class Plot:
    """Room inside the frame: the upright scale `up`, and a level scale from `first` to `last`."""

    box: Box
    up: Scale
    first: float
    last: float
    room: Room = field(default_factory=Room)

    def x(self, value: float) -> float:
        """Place of a value of the level scale."""
        share = (value - self.first) / (self.last - self.first)
        return self.box.left + share * (self.box.right - self.box.left)

    def y(self, value: float) -> float:
        """Place of a value of the upright scale, held inside the frame."""
        share = (value - self.up.low) / (self.up.high - self.up.low)
        return self.box.bottom - min(max(share, 0.0), 1.0) * (self.box.bottom - self.box.top)

    def path(self, across: Sequence[float], values: Sequence[float]) -> str:
        """Data of a line through the finite values; a gap where one is missing."""
        steps, pen = [], "M"
        for at, value in zip(across, values, strict=True):
            if math.isfinite(value) and math.isfinite(at):
                steps.append(f"{pen}{number(self.x(at))} {number(self.y(value))}")
                pen = "L"
            else:
                pen = "M"
        return "".join(steps)


def upright_scale(
    values: Iterable[float],
    unit: str,
    system: System,
    style: str,
    wanted: Wanted | None,
    limits: Sequence[Mark],
) -> Scale:
    """A scale that holds the values, with the limits and what is wanted where they lie not too far off."""
    known = [value for value in values if math.isfinite(value)] or [0.0]
    reach = max(map(abs, known))
    beside = [mark.value for mark in limits] + ([wanted.low, wanted.high] if wanted else [])
    span = max(known) - min(known)
    near = [one for one in beside if abs(one) <= _FAR * reach or abs(one - known[0]) <= _FAR * span]
    return scale([*known, *near], unit, system, style)


def plot_of(up: Scale, first: float, last: float, end: str = "") -> Plot:
    """A plot of the usual size with room for the marks of its upright scale, and for half of a word at its end."""
    wide = max((width(text, SMALL) for _, text in up.marks), default=0.0)
    return Plot(Box(wide + _GAP, 0.0, WIDTH - width(end, SMALL) / 2.0, HEIGHT), up, first, last)


def upright(plot: Plot, what: str) -> list[str]:
    """Level lines with their figures, and what they measure over the top."""
    box = plot.box
    parts = []
    for value, text in plot.up.marks:
        y = plot.y(value)
        role = "ink" if abs(value) < 1e-12 * max(1.0, abs(plot.up.high)) else "line"
        parts.append(
            f'<path d="M{number(box.left)} {number(y)}H{number(box.right)}" {paint("none", role)} stroke-width="1"/>'
        )
        parts.append(Text((text,), box.left - _GAP + 2.0, y, "end", size=SMALL, role="soft").svg(halo=False))
    words = f"{what}, {plot.up.word}" if plot.up.word else what
    parts.append(Text((words,), 0.0, box.top - 17.0, "start", size=SMALL, role="soft").svg(halo=False))
    return parts


def along(plot: Plot, marks: Sequence[tuple[float, str]], words: str = "") -> tuple[list[str], float]:
    """Marks under the plot, as many as find room, what they measure under them, and the bottom of it all."""
    box, edge, parts = plot.box, -math.inf, [_edge(plot)]
    for at, text in marks:
        x, half = plot.x(at), width(text, SMALL) / 2.0
        parts.append(_tick(x, box.bottom))
        if x - half > edge:
            parts.append(Text((text,), x, box.bottom + 14.0, size=SMALL, role="soft").svg(halo=False))
            edge = x + half + 4.0
    bottom = box.bottom + 24.0
    if words:
        middle = (box.left + box.right) / 2.0
        parts.append(Text((words,), middle, bottom + 6.0, size=SMALL, role="soft").svg(halo=False))
        bottom += 16.0
    return parts, bottom


def under_bars(plot: Plot, labels: Sequence[str]) -> tuple[list[str], float]:
    """A word under the middle of every bar, every second one where they are too many."""
    box, parts = plot.box, [_edge(plot)]
    wide = max((width(label, SMALL) for label in labels), default=0.0) + 4.0
    room = (box.right - box.left) / max(1, len(labels))
    every = max(1, math.ceil(wide / room))
    for at, label in enumerate(labels):
        if at % every == 0:
            text = Text((label,), plot.x(at + 0.5), box.bottom + 14.0, size=SMALL, role="soft")
            parts.append(text.svg(halo=False))
    return parts, box.bottom + 24.0


def of_the_year(plot: Plot) -> tuple[list[str], float]:
    """Months under a scale of days: a tick at the begin of each, its name in its middle."""
    box, parts, begin = plot.box, [_edge(plot)], 0
    for name, days in zip(MONTHS, MONTH_DAYS, strict=True):
        parts.append(_tick(plot.x(begin), box.bottom))
        text = Text((name,), plot.x(begin + days / 2.0), box.bottom + 14.0, size=SMALL, role="soft")
        parts.append(text.svg(halo=False))
        begin += days
    parts.append(_tick(plot.x(begin), box.bottom))
    return parts, box.bottom + 24.0


def band(plot: Plot, wanted: Wanted | None) -> tuple[list[str], list[Sample]]:
    """What is wanted, as a pale band behind everything, and its entry in the key."""
    if wanted is None or plot.y(wanted.high) >= plot.y(wanted.low) - 0.05:
        return [], []
    top, bottom = plot.y(wanted.high), plot.y(wanted.low)
    box = plot.box
    place = f'x="{number(box.left)}" width="{number(box.right - box.left)}"'
    drawn = f'<rect {place} y="{number(top)}" height="{number(bottom - top)}" {fill("waterpale")}/>'
    sample = f'<rect width="20" height="12" {paint("waterpale", "line")}/>'
    return [drawn], [Sample(sample, wanted.words)]


def limit_lines(plot: Plot, limits: Sequence[Mark], unit: str, system: System, style: str) -> list[str]:
    """Each limit as a rust line with its words where they find room; one beyond the scale is told at the top."""
    parts, box = [], plot.box
    for mark in limits:
        beyond = mark.value > plot.up.high or mark.value < plot.up.low
        y = plot.y(mark.value)
        figure = show(mark.value, unit, system) if style == "share" else show(mark.value, unit, system, style)
        words = f"{mark.words} {figure}"
        if beyond:
            words = f"{words}, beyond this scale"
        else:
            line = f"M{number(box.left)} {number(y)}H{number(box.right)}"
            parts.append(
                f'<path d="{line}" {paint("none", "rust")} stroke-width="1.8" stroke-dasharray="10 3"/>'
            )
        text = plot.room.take(_beside_line(words, box, y))
        if text is not None:
            parts.append(text.svg())
    return parts


def _beside_line(words: str, box: Box, y: float) -> list[Text]:
    """Places of words over and under a level line, those inside the frame."""
    wide = width(words, SMALL)
    middles = [box.right - 4.0 - wide / 2.0, box.left + 4.0 + wide / 2.0, (box.left + box.right) / 2.0]
    ups = [up for up in (y - 10.0, y + 10.0) if box.top + 6.0 <= up <= box.bottom - 6.0] or [box.top + 10.0]
    return [Text((words,), middle, up, size=SMALL) for middle in middles for up in ups]


def rect(box: Box, look: str) -> str:
    """A rectangle with the attributes of its look."""
    return (
        f'<rect x="{number(box.left)}" y="{number(box.top)}" width="{number(box.right - box.left)}" '
        f'height="{number(box.bottom - box.top)}" {look}/>'
    )


def _edge(plot: Plot) -> str:
    line = f"M{number(plot.box.left)} {number(plot.box.bottom)}H{number(plot.box.right)}"
    return f'<path d="{line}" {paint("none", "ink")} stroke-width="1"/>'


def _tick(x: float, y: float) -> str:
    return f'<path d="M{number(x)} {number(y)}v4" {paint("none", "ink")} stroke-width="1"/>'
