"""What stands under a picture in the round: which way north is, and the key of stuffs or the scale of use."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.core.solids import Round
from tidestead.report.isometric_faces import Look
from tidestead.report.isometric_paint import SCALE, STUFFS, WORDS, Colours, Tint, band_of
from tidestead.report.round_uses import BEARS, PartUse
from tidestead.report.svg_paint import paint
from tidestead.report.svg_words import Box, Text, number, width

_SMALL, _ROW, _SWATCH = 12.5, 21.0, 24.0
_NEEDLE = 22.0


def below(
    view: Round, look: Look, uid: str, uses: Mapping[str, PartUse] | None, colours: Colours, room: Box
) -> tuple[str, float]:
    """The needle and the key in the width of the room, from its lower edge; and their height."""
    samples = _stuffs(view) if uses is None else _scale(view, uses)
    parts, left, top = [_needle(look, room)], room.left + 82.0, room.bottom + 16.0
    start = left
    for words, tint in samples:
        wide = _SWATCH + width(words, _SMALL) + 16.0
        if left + wide > room.right and left > start:
            left, top = start, top + _ROW
        parts.append(_swatch(uid, tint, colours, left, top))
        parts.append(Text((words,), left + _SWATCH, top + 6.0, "start", size=_SMALL, role="soft").svg())
        left += wide
    return "".join(parts), max(top - room.bottom + _ROW, 2.0 * _NEEDLE)


def _stuffs(view: Round) -> list[tuple[str, Tint]]:
    """A sample for each stuff that is drawn and has a word."""
    there = dict.fromkeys(solid.stuff for solid in view.solids)
    return [(words, STUFFS[stuff]) for stuff, words in WORDS.items() if stuff in there]


def _scale(view: Round, uses: Mapping[str, PartUse]) -> list[tuple[str, Tint]]:
    """Every step of the scale on which a part stands, in order, least used first."""
    there = {band_of(uses.get(solid.part)) for solid in view.solids if solid.stuff in BEARS}
    return [(band.words, band.tint) for name, band in SCALE.items() if name in there]


def _swatch(uid: str, tint: Tint, colours: Colours, left: float, top: float) -> str:
    place = f'x="{number(left)}" y="{number(top)}" width="18" height="12"'
    found = f"<rect {place} {colours.fill(tint, 0)}/>"
    if tint.hatch:
        found += f'<rect {place} fill="url(#{uid}-{tint.hatch})"/>'
    dashes = f' stroke-dasharray="{tint.dashes}"' if tint.dashes else ""
    return f'{found}<rect {place} {paint("none", tint.line)} stroke-width="0.8"{dashes}/>'


def _needle(look: Look, room: Box) -> str:
    """An arrow to the north, lying level as the floor does."""
    across, up = look.flat((0.0, 1.0, 0.0))
    middle = (room.left + 1.4 * _NEEDLE, room.bottom + _NEEDLE)
    tip = (middle[0] + across * _NEEDLE, middle[1] - up * _NEEDLE)
    tail = (2.0 * middle[0] - tip[0], 2.0 * middle[1] - tip[1])
    side = look.flat((0.25, 0.55, 0.0)), look.flat((-0.25, 0.55, 0.0))
    barbs = [(middle[0] + x * _NEEDLE, middle[1] - y * _NEEDLE) for x, y in side]
    line = f"M{number(tail[0])} {number(tail[1])}L{number(tip[0])} {number(tip[1])}"
    head = "".join(f"M{number(x)} {number(y)}L{number(tip[0])} {number(tip[1])}" for x, y in barbs)
    word = Text(
        ("north",), middle[0] + 0.2 * _NEEDLE, middle[1] - 1.1 * _NEEDLE, size=_SMALL, role="soft"
    ).svg()
    return f'<path d="{line}{head}" {paint("none", "soft")} stroke-width="1.2"/>{word}'
