"""A view in the round as one still picture: isometric, stand-alone SVG, for print and where nothing can turn it.

Coloured by stuff; or, where uses are given, by how much of its limit each part uses, with a scale, and the share
written at what is near or fails.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from itertools import groupby, pairwise

from tidestead.core.answer import Verdict
from tidestead.core.scene import Point
from tidestead.core.solids import Round, Span
from tidestead.core.units import System
from tidestead.report import isometric_under, wording
from tidestead.report.isometric_faces import Face, Look, look_from, seen_faces
from tidestead.report.isometric_measures import span_drawn
from tidestead.report.isometric_order import ordered, seen_pieces
from tidestead.report.isometric_paint import SCALE, STUFFS, Colours, Tint, band_of, hatch_tiles
from tidestead.report.round_uses import BEARS, PartUse, told_uses
from tidestead.report.svg import document, heading
from tidestead.report.svg_paint import LIGHT, paint
from tidestead.report.svg_words import Box, Room, Text, attribute, number, words

WIDTH, TALLEST = 480.0, 520.0
"""In drawing units; words are 14 high."""

_MARGIN, _EDGE, _SMALL = 14.0, 0.6, 12.5


@dataclass(frozen=True)
class _Sheet:
    """Metres of the picture to drawing units, y downward; and what is drawn with."""

    view: Round
    look: Look
    scale: float
    uid: str
    system: System
    uses: Mapping[str, PartUse] | None
    colours: Colours

    def at(self, place: Point) -> Point:
        return place[0] * self.scale, -place[1] * self.scale

    def path(self, places: Sequence[Point], *, closed: bool) -> str:
        steps = " ".join(f"{number(x)} {number(y)}" for x, y in map(self.at, places))
        return f"M{steps}{'Z' if closed else ''}"


def draw(
    view: Round,
    system: System,
    *,
    uses: Mapping[str, PartUse] | None = None,
    titled: bool = True,
    themed: bool = True,
) -> str:
    """The view as SVG. `titled` writes its title above; `themed` adds a style sheet for dark and print."""
    uid = "ts-" + re.sub(r"[^a-z0-9]+", "-", f"{view.id}{'' if uses is None else '-use'}".lower()).strip("-")
    look = look_from(view.seen_from)
    faces = ordered(seen_faces(view, look))
    sheet = _Sheet(view, look, _scale(view, look), uid, system, uses, Colours(uid))
    parts = [_faces(sheet, faces), _wires(sheet, faces)]
    room = Room()
    boxes = [_box(sheet)]
    named = _named(sheet, room)
    for span in view.spans:
        if not _in_sight(span, faces, look):
            continue
        lines, text = span_drawn(span, look, sheet.scale, system, room)
        room.texts.append(text.box)
        parts += [lines, text.svg()]
        boxes.append(text.box)
    named += _shares(sheet, faces, room)
    parts += [drawn for drawn, _ in named]
    boxes += [text.box for _, text in named]
    box = reduce(Box.joined, boxes)
    below, height = isometric_under.below(view, look, uid, uses, sheet.colours, box)
    parts.append(below)
    top = box.top
    if titled:
        title = heading(view.title, box)
        parts.append(title.svg())
        top = title.box.top
    whole = Box(box.left, top, box.right, box.bottom + height).grown(_MARGIN)
    style = sheet.colours.style() if themed else ""
    inner = f"<defs>{hatch_tiles(uid)}</defs>{style}{''.join(parts)}"
    told = view.told if uses is None else f"{view.told} {told_uses(uses)}"
    return document(replace(view, told=told), uid, whole, inner, themed, {})


def _places(view: Round, look: Look) -> list[Point]:
    """Every place that is drawn, on the picture."""
    spots = [point for solid in view.solids for point in solid.points]
    spots += [point for wire in view.wires for point in wire.points]
    for span in view.spans:
        spots += [_sum(span.start, span.aside), _sum(span.end, span.aside)]
    places = [look.flat(spot) for spot in spots]
    return [place for place in places if all(abs(part) < 1e5 for part in place)] or [(0.0, 0.0)]


def _sum(one: Sequence[float], other: Sequence[float]) -> tuple[float, float, float]:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _scale(view: Round, look: Look) -> float:
    places = _places(view, look)
    across, up = [place[0] for place in places], [place[1] for place in places]
    return min((WIDTH - 60.0) / max(max(across) - min(across), 1e-6), TALLEST / max(max(up) - min(up), 1e-6))


def _box(sheet: _Sheet) -> Box:
    across, down = zip(*map(sheet.at, _places(sheet.view, sheet.look)), strict=True)
    box = Box(min(across), min(down), max(across), max(down))
    more = max(0.0, 380.0 - (box.right - box.left)) / 2.0
    return Box(box.left - more, box.top - 12.0, box.right + more, box.bottom + 8.0)


def _faces(sheet: _Sheet, faces: Sequence[Face]) -> str:
    """The faces in order, those of one part that follow each other under one key."""
    groups = []
    for (part, label), run in groupby(faces, key=lambda face: (face.solid.part, face.solid.label)):
        inner = "".join(_face(sheet, face) for face in run)
        use = sheet.uses.get(part) if sheet.uses is not None else None
        told = ". ".join(filter(None, (label, use.words if use is not None else "")))
        key = f" data-part={attribute(part)}" if part else ""
        groups.append(f"<g{key}>{f'<title>{words(told)}</title>' if told else ''}{inner}</g>")
    return f'<g stroke-width="{_EDGE}" stroke-linejoin="round">{"".join(groups)}</g>'


def _tint(sheet: _Sheet, face: Face) -> Tint:
    stuff = face.solid.stuff
    if sheet.uses is None or stuff not in BEARS:
        return STUFFS[stuff]
    tint = SCALE[band_of(sheet.uses.get(face.solid.part))].tint
    return tint._replace(opacity=0.8 if stuff == "clear" else 1.0)


def _face(sheet: _Sheet, face: Face) -> str:
    tint = _tint(sheet, face)
    path = sheet.path(face.outline, closed=True)
    edge = f'stroke="{LIGHT[tint.line]}"{_dashes(tint)}'
    if all(face.drawn):
        fill = sheet.colours.fill(tint, face.turned, f"s-{tint.line}")
        found = f'<path d="{path}" {fill} {edge}/>'
    else:
        fill = sheet.colours.fill(tint, face.turned, seamless=tint.opacity == 1.0)
        edges = "".join(
            sheet.path((here, there), closed=False)
            for here, there, drawn in zip(
                face.outline, (*face.outline[1:], face.outline[0]), face.drawn, strict=True
            )
            if drawn
        )
        found = f'<path d="{path}" {fill}/>'
        found += f'<path d="{edges}" fill="none" class="s-{tint.line}" {edge}/>' if edges else ""
    if tint.hatch:
        found += f'<path d="{path}" fill="url(#{sheet.uid}-{tint.hatch})"/>'
    return found


def _dashes(tint: Tint) -> str:
    return f' stroke-dasharray="{tint.dashes}"' if tint.dashes else ""


def _wires(sheet: _Sheet, faces: Sequence[Face]) -> str:
    """Thin lines, as far as no face hides them."""
    found = []
    for wire in sheet.view.wires:
        pieces = [piece for line in pairwise(wire.points) for piece in seen_pieces(line, faces, sheet.look)]
        path = "".join(sheet.path(piece, closed=False) for piece in pieces)
        if path:
            key = f" data-part={attribute(wire.part)}" if wire.part else ""
            name = f"<title>{words(wire.label)}</title>" if wire.label else ""
            look = f'{paint("none", STUFFS[wire.stuff].line)} stroke-width="0.7" stroke-dasharray="5 3"'
            line = f'<path d="{path}" {look}/>'
            found.append(f"<g{key}>{name}{line}</g>")
    return "".join(found)


def _in_sight(span: Span, faces: Sequence[Face], look: Look) -> bool:
    """Whether half of a line of dimension at least is hidden by nothing; else it would measure what is not seen."""
    line = (_sum(span.start, span.aside), _sum(span.end, span.aside))
    whole = math.dist(look.flat(line[0]), look.flat(line[1]))
    return sum(math.dist(*piece) for piece in seen_pieces(line, faces, look)) >= 0.5 * whole


def _named(sheet: _Sheet, room: Room) -> list[tuple[str, Text]]:
    """The names of vessels."""
    found = []
    for tag in sheet.view.tags:
        text = room.take(_near(sheet.at(sheet.look.flat(tag.at)), tag.words, 14.0))
        if text is not None:
            found.append((f"<g data-part={attribute(tag.part)}>{text.svg()}</g>", text))
    return found


def _shares(sheet: _Sheet, faces: Sequence[Face], room: Room) -> list[tuple[str, Text]]:
    """Where uses are shown, the share at what is near or fails."""
    found = []
    for part, use in sorted((sheet.uses or {}).items(), key=lambda pair: -(pair[1].use or 0.0)):
        if use.verdict not in (Verdict.NEAR, Verdict.FAILS) or use.use is None:
            continue
        own = [face for face in faces if face.solid.part == part]
        if own:
            place = sheet.at(_middle(max(own, key=lambda face: face.area)))
            text = room.take(_near(place, wording.percent(use.use), _SMALL))
            if text is not None:
                drawn = f"<g data-part={attribute(part)}>{_leader(place, text)}{text.svg()}</g>"
                found.append((drawn, text))
    return found


def _near(place: Point, told: str, size: float) -> list[Text]:
    x, y = place
    offs = [(0.0, 0.0)]
    for far in (1.0, 2.0, 3.0, 4.0):
        up, side = 14.0 * far, 26.0 * far
        offs += [(0.0, -up), (0.0, up), (side, 0.0), (-side, 0.0)]
        offs += [(side, -up), (-side, -up), (side, up), (-side, up)]
    return [Text((told,), x + across, y + down, size=size) for across, down in offs]


def _leader(place: Point, text: Text) -> str:
    """A dot where the words belong, and a line to them where they had to stand aside."""
    if (text.x, text.y) == place:
        return ""
    line = f"M{number(place[0])} {number(place[1])}L{number(text.x)} {number(text.y)}"
    dot = f'<circle cx="{number(place[0])}" cy="{number(place[1])}" r="2" {paint("ink")}/>'
    return f'<path d="{line}" {paint("none", "ink")} stroke-width="0.8"/>{dot}'


def _middle(face: Face) -> Point:
    across, up = reduce(lambda one, other: (one[0] + other[0], one[1] + other[1]), face.outline)
    return across / len(face.outline), up / len(face.outline)
