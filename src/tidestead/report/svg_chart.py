"""A chart as one stand-alone, accessible SVG text, in the manner of the drawings: for light, dark and print."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from tidestead.core.charts import (
    BarChart,
    Chart,
    GridChart,
    HoursChart,
    LineChart,
    RankChart,
    StackChart,
    YearMap,
)
from tidestead.core.units import System
from tidestead.report.svg import document, heading
from tidestead.report.svg_axes import SMALL, Body, Sample
from tidestead.report.svg_chart_bars import bars, stacks
from tidestead.report.svg_chart_grid import STEPS, grid
from tidestead.report.svg_chart_hours import hours
from tidestead.report.svg_chart_level import ranks
from tidestead.report.svg_chart_lines import lines
from tidestead.report.svg_chart_looks import HATCHES
from tidestead.report.svg_chart_map import year
from tidestead.report.svg_words import Box, Text, broken, number, width

_MARGIN, _SWATCH, _ROW, _GAP = 14.0, 27.0, 20.0, 18.0

_BODIES: dict[type[Any], Callable[[Any, str, System], Body]] = {
    LineChart: lines,
    BarChart: bars,
    StackChart: stacks,
    YearMap: year,
    RankChart: ranks,
    HoursChart: hours,
    GridChart: grid,
}

_TALL = 1.3
"""Times its width: a chart that is taller is marked, so that a page can give it the height its words need."""


def draw_chart(chart: Chart, system: System, *, titled: bool = True, themed: bool = True) -> str:
    """The chart as SVG. `titled` writes its title above; `themed` adds a style sheet for dark and print."""
    uid = "ts-" + re.sub(r"[^a-z0-9]+", "-", chart.id.lower()).strip("-")
    body = _BODIES[type(chart)](chart, uid, system)
    parts, room = list(body.parts), body.box
    entries, height = _key(body.key, room)
    parts += entries
    top = room.top
    if titled:
        title = heading(chart.title, room)
        parts.append(title.svg(halo=False))
        top = title.box.top
    whole = Box(room.left, top, room.right, room.bottom + height).grown(_MARGIN)
    hatches = STEPS if isinstance(chart, GridChart) else HATCHES
    drawn = document(chart, uid, whole, "".join(parts), themed, hatches)
    tall = whole.bottom - whole.top > _TALL * (whole.right - whole.left)
    return drawn.replace(f'class="{uid}"', f'class="{uid} tall"', 1) if tall else drawn


def _key(samples: Sequence[Sample], room: Box) -> tuple[list[str], float]:
    """Samples with their words in rows, and the height of them all."""
    parts, left, top = [], room.left, room.bottom + 12.0
    for sample in samples:
        lines = broken(sample.words, int((room.right - room.left - _SWATCH) / (0.54 * SMALL)))
        wide = _SWATCH + max(width(line, SMALL) for line in lines)
        if left > room.left and left + wide > room.right:
            left, top = room.left, top + _ROW
        parts.append(f'<g transform="translate({number(left)} {number(top)})">{sample.drawn}</g>')
        tall = SMALL * 1.22 * (len(lines) - 1)
        text = Text(tuple(lines), left + _SWATCH, top + 6.0 + tall / 2.0, "start", size=SMALL, role="soft")
        parts.append(text.svg(halo=False))
        left += wide + _GAP
        if len(lines) > 1:
            left, top = room.left, top + _ROW + tall
    if not samples:
        return [], 0.0
    return parts, top - room.bottom + (_ROW if left > room.left else 0.0)
