"""How lines and bars of plots are told from one another: by dashes and hatches first, by colour second."""

from __future__ import annotations

from typing import NamedTuple

from tidestead.report import svg_paint
from tidestead.report.svg_axes import Sample
from tidestead.report.svg_paint import Hatch, paint
from tidestead.report.svg_words import number

HATCHES = {
    "part-1": Hatch((8, 8), "timberpale", "timber", "M-2 10L10 -2M-2 2L2 -2M6 10L10 6", 1.0),
    "part-2": Hatch((6, 6), "paper", "ink", "M0 3h6", 0.9),
    "part-4": Hatch((6, 6), "waterpale", "water", "M3 0v6", 1.0),
    "part-5": Hatch((8, 8), "rustpale", "rust", "M-2 -2L10 10M-2 6L2 10M6 -2L10 2", 1.0),
    "part-6": Hatch((6, 6), "paper", "soft", "M0 0l6 6M6 0l-6 6", 1.0),
    "part-8": Hatch((10, 10), "stonepale", "stone", "M0 2.5h5M5 7.5h5", 1.0),
    "part-9": Hatch((8, 8), "sheetpale", "timber", "M4 1.5v3", 0.9),
    "over": svg_paint.HATCHES["over"],
}
"""Tiles of bars and of what lies over a limit; parts 0, 3 and 7 are full colour."""

_FULL = {0: "water", 3: "stone", 7: "ink"}


class Line(NamedTuple):
    """How a line is drawn."""

    role: str
    dashes: str
    width: float


LINES = (
    Line("water", "", 2.4),
    Line("timber", "9 4", 2.2),
    Line("rust", "2 3.5", 2.6),
    Line("ink", "10 3 2 3", 1.8),
    Line("stone", "16 4", 2.4),
    Line("soft", "4 3", 1.6),
)


def stroke(index: int) -> str:
    """Attributes of the line of a number."""
    line = LINES[index % len(LINES)]
    dashes = f' stroke-dasharray="{line.dashes}"' if line.dashes else ""
    return f'{paint("none", line.role)} stroke-width="{line.width}" stroke-linejoin="round"{dashes}'


def filled(uid: str, index: int) -> str:
    """Attributes of the bar of a number."""
    index %= 10
    if index in _FULL:
        return f'{paint(_FULL[index], "ink")} stroke-width="0.8"'
    return f'{paint("none", "ink", f"{uid}-part-{index}")} stroke-width="0.8"'


def bar_sample(uid: str, index: int, words: str) -> Sample:
    """The entry of a bar in the key."""
    return Sample(f'<rect width="20" height="12" {filled(uid, index)}/>', words)


def whisker(x: float, top: float, bottom: float) -> str:
    """An upright range: a line with two ends, on a rim of paper so that it shows on a bar."""
    return _rimmed(f"M{number(x - 3)} {number(top)}h6m-3 0V{number(bottom)}m-3 0h6")


def level_whisker(left: float, right: float, y: float) -> str:
    """A level range."""
    return _rimmed(f"M{number(left)} {number(y - 3)}v6m0 -3H{number(right)}m0 -3v6")


def _rimmed(path: str) -> str:
    rim = f'<path d="{path}" {paint("none", "paper")} stroke-width="3.4"/>'
    return f'{rim}<path d="{path}" {paint("none", "ink")} stroke-width="1.3"/>'
