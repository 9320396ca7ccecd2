"""Words in a drawing: how wide they run, how they break, and where they find room."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias
from xml.sax.saxutils import escape, quoteattr

from tidestead.report.plain import clean
from tidestead.report.svg_paint import paint

SIZE = 14.0
LEADING = 1.22
NOTE_LETTERS = 26

Anchor: TypeAlias = Literal["start", "middle", "end"]

_BOUND, _TIED = re.compile(r"(?<=\d) (?=\S)|(?<=\bUS) (?=gal)"), "\x1f"
"""Where a line must not break, and the sign that holds the place of the space meanwhile."""

_NARROW, _WIDE = set("iljtf.,:;'|!()[]I "), set("mwMW@%—")


class Box(NamedTuple):
    """A rectangle in drawing units, y downward."""

    left: float
    top: float
    right: float
    bottom: float

    def overlap(self, other: Box) -> float:
        """The area shared with another box."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across * down if across > 0.0 and down > 0.0 else 0.0

    def joined(self, other: Box) -> Box:
        """The smallest box round both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def grown(self, by: float) -> Box:
        """The box with a margin round it."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


def width(text: str, size: float = SIZE) -> float:
    """About how wide a line of text runs in a plain sans face."""
    ems = sum(
        0.29 if letter in _NARROW else 0.86 if letter in _WIDE else 0.66 if letter.isupper() else 0.54
        for letter in text
    )
    return ems * size


def words(text: str) -> str:
    """Text as it may stand in an SVG file."""
    return escape(clean(text))


def attribute(text: str) -> str:
    """Text as a quoted attribute."""
    return quoteattr(clean(text))


def broken(text: str, letters: int = NOTE_LETTERS) -> list[str]:
    """The text on lines of about so many letters; a number stays on the line of its unit."""
    bound = _BOUND.sub(_TIED, clean(text))
    lines = textwrap.wrap(bound, letters, break_long_words=False)
    return [line.replace(_TIED, " ") for line in lines] or [""]


def fitted(text: str, room: float, size: float = SIZE, most: int = 2) -> tuple[str, ...]:
    """The text on no more than so many lines, none wider than the room; dots stand where it is cut."""
    lines = broken(text, max(1, int(room / (0.54 * size))))
    kept = lines[:most]
    if len(lines) > most:
        kept[-1] += " " + lines[most]
    return tuple(_cut(line, room, size) for line in kept)


def _cut(line: str, room: float, size: float) -> str:
    if width(line, size) <= room:
        return line
    while line and width(f"{line}…", size) > room:
        line = line[:-1]
    return f"{line.rstrip()}…"


@dataclass(frozen=True)
class Text:
    """Lines of text at a place: the middle of the block's height is at y. `turned` is in degrees."""

    lines: tuple[str, ...]
    x: float
    y: float
    anchor: Anchor = "middle"
    size: float = SIZE
    turned: float = 0.0
    role: str = "ink"
    serif: bool = False

    @property
    def box(self) -> Box:
        """The room the text takes."""
        wide = max(width(line, self.size) for line in self.lines)
        tall = self.size * LEADING * len(self.lines)
        left = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[self.anchor]
        if abs(self.turned) > 45.0:
            return Box(self.x - tall / 2.0, self.y - wide / 2.0, self.x + tall / 2.0, self.y + wide / 2.0)
        return Box(self.x + left, self.y - tall / 2.0, self.x + left + wide, self.y + tall / 2.0)

    def svg(self, halo: bool = True) -> str:
        """The text element, with a rim of paper so that lines behind it do not cross the letters."""
        step = self.size * LEADING
        first = self.y - step * (len(self.lines) - 1) / 2.0 + 0.35 * self.size
        turn = (
            f' transform="rotate({number(self.turned)} {number(self.x)} {number(self.y)})"'
            if self.turned
            else ""
        )
        rim = ' paint-order="stroke" stroke-width="3.5" stroke-linejoin="round"' if halo else ""
        spans = "".join(
            f'<tspan x="{number(self.x)}" y="{number(first + index * step)}">{words(line)}</tspan>'
            for index, line in enumerate(self.lines)
        )
        look = paint(self.role, "paper" if halo else "", extra="serif" if self.serif else "")
        size = f' font-size="{number(self.size)}"' if self.size != SIZE else ""
        return f'<text text-anchor="{self.anchor}" {look}{size}{rim}{turn}>{spans}</text>'


def number(value: float) -> str:
    """A coordinate to a tenth of a unit."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


@dataclass
class Room:
    """What is taken already: text must not lie on text, and should keep off lines."""

    texts: list[Box] = field(default_factory=list)
    lines: list[Box] = field(default_factory=list)

    def take(self, candidates: Sequence[Text], crowded: float = float("inf")) -> Text | None:
        """The candidate with the most room, earlier ones first; None where even that is too crowded."""
        best = min(enumerate(candidates), key=lambda pair: self._cost(pair[1].box) + 0.6 * pair[0])[1]
        if self._cost(best.box) > crowded:
            return None
        self.texts.append(best.box.grown(2.0))
        return best

    def _cost(self, box: Box) -> float:
        on_text = sum(box.overlap(other) for other in self.texts)
        on_lines = sum(box.overlap(other) for other in self.lines)
        return 3.0 * on_text + 0.5 * on_lines
