"""What stands under a drawing: the bands of each field with the limit on them, and a key of the stuffs."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.scene import Area, Contours, Scene, Sign, Stroke, Stuff
from tidestead.core.units import System, show
from tidestead.report import svg_contours
from tidestead.report.svg_paint import FIELD_STEP, PAINTS, fill, paint
from tidestead.report.svg_shapes import swatch
from tidestead.report.svg_words import Box, Text, number, width

_BAR, _SMALL, _ROW = 12.0, 12.5, 21.0
_SWATCH = 24.0
_SMALL_BOW = 0.0015
_ROOM_FOR_LIMIT = 1.8
"""The bar is drawn on to a limit up to so many times the range of the field."""


def style_of(unit: str, largest: float) -> str:
    """How values of a field are shown: bows to a tenth of a millimetre, or finer where all of them are small."""
    if unit != "m":
        return ""
    return "bow" if largest >= _SMALL_BOW else "fine"


def bands(field: Contours, uid: str, system: System, room: Box) -> tuple[str, float]:
    """The legend of a field in the width of the room, from its top; and its height."""
    ends = svg_contours.ends(field)
    if ends is None:
        return Text((f"{field.what}: no value anywhere",), room.left, room.top + 8.0, "start").svg(), _ROW
    levels = svg_contours.levels(*ends, field.unit, system)
    limit = field.limit
    low = ends[0]
    within = limit is not None and limit <= low + _ROOM_FOR_LIMIT * (ends[1] - low)
    span = (max(ends[1], limit if limit is not None and within else ends[1]) - low) or 1.0

    def place(value: float) -> float:
        return room.left + 4.0 + (room.right - room.left - 8.0) * (value - low) / span

    top = room.top + 20.0
    parts = [Text((field.what,), room.left, room.top + 6.0, "start", role="soft").svg()]
    parts += _bar([place(value) for value in (ends[0], *levels, ends[1])], top)
    if limit is not None and limit < ends[1]:
        parts.append(_band(place(max(limit, low)), place(ends[1]), top, f'fill="url(#{uid}-over)"'))
    style = style_of(field.unit, ends[1])
    beside = [*levels, ends[1], *([] if limit is None else [limit])]
    labels = [(place(value), show(value, field.unit, system, style, beside)) for value in levels]
    parts += _labels(labels, top + _BAR + 10.0, room)
    height = 54.0
    if limit is not None:
        words = f"allowed {show(limit, field.unit, system, style, beside)}"
        parts.append(_limit_mark(place(limit), top, words, room) if within else _limit_far(top, words, room))
        height += 18.0
    return "".join(parts), height


def _bar(places: Sequence[float], top: float) -> list[str]:
    """The bands as they lie over one another on the drawing."""
    first, last = places[0], places[-1]
    parts = [_band(first, last, top, fill("paper"))]
    parts += [
        _band(place, last, top, f'{fill("water")} fill-opacity="{FIELD_STEP}"') for place in places[1:-1]
    ]
    parts.append(_band(first, last, top, f'{paint("none", "ink")} stroke-width="1"'))
    return parts


def _band(left: float, right: float, top: float, look: str) -> str:
    place = f'x="{number(left)}" y="{number(top)}" width="{number(max(0.0, right - left))}" height="{_BAR}"'
    return f"<rect {place} {look}/>"


def _labels(labels: Sequence[tuple[float, str]], y: float, room: Box) -> list[str]:
    """Values under the bar, as many as find room."""
    parts, edge = [], float("-inf")
    for place, words in labels:
        half = width(words, _SMALL) / 2.0
        middle = min(max(place, room.left + half), room.right - half)
        if middle - half > edge:
            parts.append(Text((words,), middle, y, size=_SMALL).svg())
            edge = middle + half + 8.0
    return parts


def _limit_mark(place: float, top: float, words: str, room: Box) -> str:
    """A thick line across the bar where the limit lies, with its words below the values."""
    half = width(words, _SMALL) / 2.0
    middle = min(max(place, room.left + half), room.right - half)
    mark = (
        f"M{number(place)} {number(top - 4)}v{number(_BAR + 8)}M{number(place)} {number(top + _BAR + 18)}v5"
    )
    return (
        f'<path d="{mark}" {paint("none", "rust")} stroke-width="2.6"/>'
        + Text((words,), middle, top + _BAR + 30.0, size=_SMALL).svg()
    )


def _limit_far(top: float, words: str, room: Box) -> str:
    """The limit told, with an arrow, where it lies so far off that a bar up to it would be bare."""
    y = top + _BAR + 30.0
    arrow = f"M{number(room.right - 22)} {number(y)}h18m-5 -4l5 4l-5 4"
    return (
        f'<path d="{arrow}" {paint("none", "rust")} stroke-width="1.8"/>'
        + Text((f"{words}, far beyond the most here",), room.right - 28.0, y, "end", size=_SMALL).svg()
    )


def said_in_key(shape: Area | Stroke) -> str:
    """The label of a line that the key tells instead of the drawing: it lies close to others, or is a curve."""
    return shape.label if shape.stuff in ("ghost", "solid", "dashed", "dotted") else ""


def key(scene: Scene, uid: str, room: Box) -> tuple[str, float]:
    """A sample and a word for each stuff and sign in the drawing, in rows; and the height of them all."""
    stuffs: dict[tuple[Stuff, str], None] = {}
    for shape in scene.shapes:
        if isinstance(shape, Stroke) and shape.stuff == "ground":
            continue  # the line that a wall stands on is no ground that is drawn
        if isinstance(shape, Area | Stroke) and (said_in_key(shape) or PAINTS[shape.stuff].word):
            stuffs[shape.stuff, said_in_key(shape) or PAINTS[shape.stuff].word] = None
    samples: list[tuple[Stuff | Sign, str]] = [*stuffs, *((sign, sign.words) for sign in scene.signs)]
    parts, left, top = [], room.left, room.top
    for sample, words in samples:
        wide = _SWATCH + width(words, _SMALL) + 16.0
        if left + wide > room.right and left > room.left:
            left, top = room.left, top + _ROW
        parts.append(_sign(sample, left, top) if isinstance(sample, Sign) else swatch(uid, sample, left, top))
        parts.append(Text((words,), left + _SWATCH, top + 6.0, "start", size=_SMALL, role="soft").svg())
        left += wide
    return "".join(parts), (top - room.top + _ROW if samples else 0.0)


def _sign(sign: Sign, left: float, top: float) -> str:
    """A sign as the drawing has it, in the room of a sample."""
    paths = "".join(
        "M" + " ".join(f"{number(left + 9.0 + 14.0 * x)} {number(top + 6.0 - 14.0 * y)}" for x, y in line)
        for line in sign.lines
    )
    return f'<path d="{paths}" {paint("none", "ink")} stroke-width="1"/>'
