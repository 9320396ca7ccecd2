"""Dimensions of a picture in the round: ticked lines along the axes, with their words level on them."""

from __future__ import annotations

import math

from tidestead.core.scene import Point
from tidestead.core.solids import Span, Spot
from tidestead.core.units import System, show
from tidestead.report.isometric_faces import Look
from tidestead.report.svg_paint import paint
from tidestead.report.svg_words import Box, Room, Text, number

_TICK, _GAP, _OVER = 4.0, 3.0, 4.0
_SHARES = (0.5, 0.38, 0.62, 0.28, 0.72)


def span_drawn(span: Span, look: Look, scale: float, system: System, room: Room) -> tuple[str, Text]:
    """The dimension as elements, and its words where they found room."""

    def at(spot: Spot, share: float = 1.0) -> Point:
        moved = look.flat(tuple_sum(spot, span.aside, share))
        return moved[0] * scale, -moved[1] * scale

    begin, end = at(span.start), at(span.end)
    length = math.dist(begin, end) or 1.0
    way = ((end[0] - begin[0]) / length, (end[1] - begin[1]) / length)
    lines = [_line(begin, end)]
    for spot, place in ((span.start, begin), (span.end, end)):
        foot = at(spot, 0.0)
        reach = math.dist(foot, place)
        if reach > 2.0 * _GAP:
            out = ((place[0] - foot[0]) / reach, (place[1] - foot[1]) / reach)
            lines.append(
                _line(
                    (foot[0] + out[0] * _GAP, foot[1] + out[1] * _GAP),
                    (place[0] + out[0] * _OVER, place[1] + out[1] * _OVER),
                )
            )
    ticks = "".join(_tick(place, way) for place in (begin, end))
    size = math.dist(span.start, span.end)
    told = f"{span.words} {show(size, 'm', system, span.style)}".strip()
    choices = [
        Text((told,), x + across, y + down)
        for across, down in _clear_of((at(span.start, 0.0), begin), Text((told,), 0.0, 0.0).box)
        for x, y in (
            (begin[0] + share * (end[0] - begin[0]), begin[1] + share * (end[1] - begin[1]))
            for share in _SHARES
        )
    ]
    drawn = f'<path d="{"".join(lines)}" {paint("none", "soft")} stroke-width="0.8"/>'
    drawn += f'<path d="{ticks}" {paint("none", "ink")} stroke-width="1.5"/>'
    return drawn, room.take(choices) or choices[0]


def _clear_of(outward: tuple[Point, Point], box: Box) -> list[Point]:
    """How far words stand off their line, away from what is measured, and as far again."""
    (ax, ay), (bx, by) = outward
    far = math.dist(*outward)
    if far < 1e-6:
        return [(0.0, 0.0)]
    out = ((bx - ax) / far, (by - ay) / far)
    off = abs(out[0]) * box.right + abs(out[1]) * box.bottom + _GAP
    return [(share * off * out[0], share * off * out[1]) for share in (1.0, 1.4, 0.0)]


def tuple_sum(spot: Spot, more: Spot, share: float) -> Spot:
    """A place moved by a share of a way."""
    return spot[0] + share * more[0], spot[1] + share * more[1], spot[2] + share * more[2]


def _line(begin: Point, end: Point) -> str:
    return f"M{number(begin[0])} {number(begin[1])}L{number(end[0])} {number(end[1])}"


def _tick(place: Point, way: Point) -> str:
    """The slanting stroke across the end of a dimension line."""
    across = ((way[0] - way[1]) * _TICK / math.sqrt(2.0), (way[1] + way[0]) * _TICK / math.sqrt(2.0))
    return _line((place[0] - across[0], place[1] - across[1]), (place[0] + across[0], place[1] + across[1]))
