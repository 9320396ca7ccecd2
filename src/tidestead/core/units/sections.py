"""Sections of timber: "2x6", "3-2x8", "47 x 145 mm", "2 of 47 x 145 mm"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tidestead.core.errors import QuantityError
from tidestead.core.units.bands import with_units
from tidestead.core.units.reading import parse_part
from tidestead.core.units.sizes import size
from tidestead.core.units.typed import as_text, excerpt, plain

DRESSED_THICKNESS = {"1": "3/4", "5/4": "1", "2": "3/2", "3": "5/2", "4": "7/2", "6": "11/2"}
DRESSED_WIDTH = {
    "2": "3/2", "3": "5/2", "4": "7/2", "5": "9/2", "6": "11/2", "8": "29/4", "10": "37/4", "12": "45/4",
    "14": "53/4",
}  # fmt: skip
"""Nominal inches: dressed inches, dry. Source: American Softwood Lumber Standard PS 20, from memory.

Timbers six inches thick may be dressed green, a quarter inch wider from eight up: the smaller is taken.
"""

PIECES = r"(?P<pieces>[1-9]) [oO][fF] (?P<one>.+)|\((?P<listed>[1-9])\) ?(?P<each>.+)"
NOMINAL = r"(?:(?P<pieces>[1-9])-)?(?P<breadth>[0-9/]+) ?[xX] ?(?P<depth>[0-9]+)"
THINNEST = 0.005
"""Metres: nothing thinner is a timber section, so "2x6 mm" was not meant."""
LARGEST = 1.0
"""Metres: no beam is larger, so "45 x 1000 m" was not meant."""
ADVICE = 'Write "2x6", "47 x 145 mm" or "2 of 47 x 145 mm".'


@dataclass(frozen=True)
class Section:
    """Pieces laid side by side, each of one breadth and depth in metres; `nominal` as printed, or empty.

    `sawn` is the breadth and depth it was graded at, where rot or a saw has since taken some.
    """

    pieces: int
    breadth: float
    depth: float
    nominal: str
    sawn: tuple[float, float] | None = None

    @property
    def graded(self) -> tuple[float, float]:
        """Breadth and depth in metres when it was graded: what the size factors of its strength go by."""
        return self.sawn or (self.breadth, self.depth)


def parse_section(text: str) -> Section:
    """The section that "2x6", "3-2x8", "47 x 145 mm" or "2 of 47 x 145 mm" names. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed)
    counted = re.fullmatch(PIECES, words)
    pieces = int(counted["pieces"] or counted["listed"]) if counted else 1
    one = (counted["one"] or counted["each"]) if counted else words
    nominal = re.fullmatch(NOMINAL, one)
    if not nominal:
        return _actual(pieces, one, typed)
    if counted and nominal["pieces"]:
        raise QuantityError(excerpt(typed), "counts the pieces twice.", 'Write "2 of 2x6" or "2-2x6".')
    return _nominal(int(nominal["pieces"] or pieces), nominal["breadth"], nominal["depth"], typed)


def _nominal(pieces: int, breadth: str, depth: str, typed: str) -> Section:
    """A nominal size of US softwood lumber at its dressed, dry size."""
    if breadth not in DRESSED_THICKNESS or depth not in DRESSED_WIDTH:
        fault = "is no nominal lumber size known here." if breadth in DRESSED_THICKNESS else "has no unit."
        raise QuantityError(
            excerpt(typed),
            fault,
            f'Write the true size: "{breadth} x {depth} mm" or in inches.',
        )
    thick, wide = Fraction(DRESSED_THICKNESS[breadth]), Fraction(DRESSED_WIDTH[depth])
    if thick > wide:
        advice = f'Write the smaller first: "{depth}x{breadth}".'
        raise QuantityError(excerpt(typed), "names the larger size first.", advice)
    return Section(pieces, float(thick * size("in")), float(wide * size("in")), f"{breadth}x{depth}")


def _actual(pieces: int, one: str, typed: str) -> Section:
    """A size in millimetres or inches as it is."""
    if re.match("[1-9]-[0-9]{2}", one):
        raise QuantityError(
            excerpt(typed), "counts true sizes with a dash.", f'Write "{one[0]} of {one[2:]}".'
        )
    parts = [part.strip() for part in re.split("[xX]", one)]
    if len(parts) != 2 or not all(parts):
        raise QuantityError(excerpt(typed), "is not a section, two sizes with x between them.", ADVICE)
    full = with_units(parts)
    breadth, depth = (parse_part(part, typed, "length") for part in full)
    if breadth < THINNEST or depth < THINNEST:
        raise QuantityError(excerpt(typed), "has a side under 5 mm.", ADVICE)
    if breadth > LARGEST or depth > LARGEST:
        raise QuantityError(excerpt(typed), f"has a side over {LARGEST:g} m.", ADVICE)
    if breadth > depth:
        advice = f'Write the smaller first: "{full[1]} x {full[0]}".'
        raise QuantityError(excerpt(typed), "names the larger size first.", advice)
    return Section(pieces, breadth, depth, "")
