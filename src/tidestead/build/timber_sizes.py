"""What timber is called and how it is measured when it is bought: nominal and finished sizes, board feet."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from tidestead.build.lists import Piece
from tidestead.core.dims import Metre, Radian, SquareMetre
from tidestead.core.units import System, to_si
from tidestead.plan.items import Item

INCH: Metre = to_si(1.0, "in")
BOARD_FOOT = 144.0 * INCH**3
"""Cubic metres of a board one foot long, one foot wide and one inch thick."""

_NOMINAL = re.compile(r"([0-9/]+)x([0-9]+)")


def section_words(item: Item, system: System = "metric") -> str:
    """The section of lumber as a yard names it: "2x6" or "47 x 145 mm"."""
    return " ".join(item.written(system).split()[1:-1])


def nominal_sizes(item: Item) -> tuple[Metre, Metre] | None:
    """Thickness and width that lumber is named by where those are not its own; None for sizes that are true."""
    found = _NOMINAL.fullmatch(section_words(item))
    if found is None:
        return None
    thick, wide = (float(Fraction(size)) * INCH for size in found.groups())
    return thick, wide


def board_feet(thickness: Metre, width: Metre, length: Metre) -> float:
    """Board feet of one piece, by its nominal thickness and width and its true length.

        board feet = T * W * L / 12     T and W in inches, at least one inch thick, L in feet

    Source: American Softwood Lumber Standard PS 20, from memory; the rule and its examples are printed in training
            manuals of the US Army and Navy.
    Valid:  softwood lumber, sizes as it is named, not as it is dressed.
    """
    return max(thickness, INCH) * width * length / BOARD_FOOT


def board_feet_of(item: Item, length: Metre) -> float | None:
    """Board feet of one piece of lumber that is sold by a nominal size; None for other timber."""
    nominal = nominal_sizes(item)
    return None if nominal is None else board_feet(*nominal, length)


def board_feet_charged(item: Item, length: Metre) -> float:
    """Board feet that a price counts for a piece: by its nominal size, where it has one, else by its true size."""
    return board_feet(*(nominal_sizes(item) or (item.sizes[0], item.sizes[1])), length)


def end_loss(width: Metre, end: Radian) -> Metre:
    """How much shorter one edge is than the other through a cut that is so far off square."""
    return width * abs(math.tan(end))


def face_area(piece: Piece) -> SquareMetre:
    """The wide face of a piece without what its end cuts take off."""
    width = piece.item.sizes[1]
    return width * piece.length - width * sum(end_loss(width, end) for end in piece.ends) / 2.0
