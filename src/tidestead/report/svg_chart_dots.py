"""Points of line charts: choices that no line joins, values that stand alone, and the names beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.charts import Curve
from tidestead.report.svg_axes import SMALL, Plot
from tidestead.report.svg_chart_looks import LINES
from tidestead.report.svg_paint import paint
from tidestead.report.svg_words import Box, Text, number, width

_RADIUS = 4.0
_AWAY = 11.0
_CROWDED = 25.0
"""A name is left out where it would lie on so much of other words; the table has it."""


def dot(x: float, y: float, index: int) -> str:
    """A round dot, full for curves of even number, open for the others."""
    role = LINES[index % len(LINES)].role
    inside = role if index % 2 == 0 else "paper"
    return f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(_RADIUS)}" {paint(inside, role)} stroke-width="1.6"/>'


def places(plot: Plot, curve: Curve) -> Iterator[tuple[float, float, str]]:
    """Where dots stand, with their names: every point that no line joins, else what has no neighbour."""
    known = [math.isfinite(at) and math.isfinite(up) for at, up in zip(curve.at, curve.values, strict=True)]
    for number_of, there in enumerate(known):
        beside = known[max(0, number_of - 1) : number_of] + known[number_of + 1 : number_of + 2]
        if there and not (curve.joined and any(beside)):
            name = curve.names[number_of] if curve.names else ""
            yield plot.x(curve.at[number_of]), plot.y(curve.values[number_of]), name


def taken(plot: Plot, curve: Curve) -> Iterator[Box]:
    """The boxes that dots take."""
    for x, y, _ in places(plot, curve):
        yield Box(x - _RADIUS, y - _RADIUS, x + _RADIUS, y + _RADIUS)


def named(plot: Plot, curve: Curve) -> Iterator[str]:
    """The names beside the dots, where they find room."""
    for x, y, name in places(plot, curve):
        if not name:
            continue
        text = plot.room.take(list(_beside(plot, x, y, name)), _CROWDED)
        if text is not None:
            yield text.svg()


def _beside(plot: Plot, x: float, y: float, name: str) -> Iterator[Text]:
    """Places of a name over, under, right and left of a dot, those inside the frame before all others."""
    half, box = width(name, SMALL) / 2.0, plot.box
    spots = [(x, y - _AWAY), (x, y + _AWAY), (x + half + _AWAY, y), (x - half - _AWAY, y)]
    inside = [
        (across, up)
        for across, up in spots
        if box.left + half <= across <= box.right - half and box.top + 6.0 <= up <= box.bottom - 6.0
    ]
    for across, up in inside or [(min(max(x, box.left + half), box.right - half), y - _AWAY)]:
        yield Text((name,), across, up, size=SMALL)
