"""Sections of timber: "2x6", "3-2x8", "2 of 47 x 145 mm"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tidestead.core.errors import QuantityError
from tidestead.core.units.factors import INCH
from tidestead.core.units.bands import with_units
from tidestead.core.units.reading import as_text, parse
from tidestead.core.units.typed import excerpt, plain

DRESSED_THICKNESS = {
    "1": Fraction(3, 4),
    "5/4": Fraction(1),
    "2": Fraction(3, 2),
    "3": Fraction(5, 2),
    "4": Fraction(7, 2),
    "6": Fraction(11, 2),
}
DRESSED_WIDTH = {
    "2": Fraction(3, 2),
    "3": Fraction(5, 2),
    "4": Fraction(7, 2),
    "6": Fraction(11, 2),
    "8": Fraction(29, 4),
    "10": Fraction(37, 4),
    "12": Fraction(45, 4),
}
"""Nominal inches: dressed inches, dry. Source: American Softwood Lumber Standard PS 20, from memory."""

_PIECES = re.compile(r"(?P<pieces>[1-9]) of (?P<one>.+)", re.IGNORECASE)
_NOMINAL = re.compile(r"(?:(?P<pieces>[1-9])-)?(?P<breadth>[0-9/]+) ?[xX] ?(?P<depth>[0-9]+)")


@dataclass(frozen=True)
class Section:
    """Pieces laid side by side, each of one breadth and depth in metres; `nominal` as printed, or empty."""

    pieces: int
    breadth: float
    depth: float
    nominal: str


def parse_section(text: str) -> Section:
    """The section that "2x6", "3-2x8", "47 x 145 mm" or "2 of 47 x 145 mm" names. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed)
    counted = _PIECES.fullmatch(words)
    pieces, one = (int(counted["pieces"]), counted["one"]) if counted else (1, words)
    nominal = _NOMINAL.fullmatch(one)
    if nominal:
        if counted and nominal["pieces"]:
            raise QuantityError(
                excerpt(typed), "counts the pieces twice.", f'Write "{pieces} of 2x6" or "{pieces}-2x6".'
            )
        return _nominal(int(nominal["pieces"] or pieces), nominal["breadth"], nominal["depth"], typed)
    return _actual(pieces, one, typed)


def _nominal(pieces: int, breadth: str, depth: str, typed: str) -> Section:
    """A nominal size of US softwood lumber at its dressed, dry size."""
    if breadth in DRESSED_THICKNESS and depth in DRESSED_WIDTH:
        thick, wide = DRESSED_THICKNESS[breadth], DRESSED_WIDTH[depth]
        if thick <= wide:
            return Section(pieces, float(thick * INCH), float(wide * INCH), f"{breadth}x{depth}")
        raise QuantityError(
            excerpt(typed), "names the larger size first.", f'Write the smaller first: "{depth}x{breadth}".'
        )
    raise QuantityError(
        excerpt(typed), "is no nominal lumber size, and it has no unit.",
        f'Write "{breadth} x {depth} mm" or a nominal size such as "2x6".',
    )  # fmt: skip


def _actual(pieces: int, one: str, typed: str) -> Section:
    """A size in millimetres or inches as it is."""
    parts = [part.strip() for part in re.split("[xX]", one)]
    if len(parts) != 2 or not all(parts):
        raise QuantityError(
            excerpt(typed), "is not a section.", 'Write "2x6", "47 x 145 mm" or "2 of 47 x 145 mm".'
        )
    breadth, depth = (parse(part, "length") for part in with_units(parts, "length"))
    if breadth <= 0.0 or depth <= 0.0:
        raise QuantityError(excerpt(typed), "has a side of nothing.", "Both sides are larger than zero.")
    if breadth > depth:
        raise QuantityError(
            excerpt(typed),
            "names the larger size first.",
            f'Write the smaller first: "{parts[1]} x {parts[0]}".',
        )
    return Section(pieces, breadth, depth, "")
