"""Ranges as typed: "24 to 27 degC" is a band, "14 .. 20 .. 34 h" is low, likely and high."""

from __future__ import annotations

import re

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import SYSTEMS, Dimension, Gallon
from tidestead.core.units.numerals import numeral
from tidestead.core.units.reading import parse_part
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.typed import LONGEST, as_text, excerpt, plain

TO, DOTS = r" [tT][oO] ", ".."
"""Two marks on purpose: what is wanted between two values, and what is known of one."""


def parse_band(text: str, dimension_name: str, gallon: Gallon = None) -> tuple[float, float]:
    """The SI ends of "24 to 27 degC"; the unit may stand once, at the end. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed, 2 * LONGEST)
    dimension = DIMENSIONS[dimension_name]
    advice = f'Write it like "20 to 25{_unit_of(dimension)}".'
    if DOTS in words:
        raise QuantityError(
            excerpt(typed), 'has "..", which parts low, likely and high; a band is wanted.', advice
        )
    parts = re.split(TO, words)
    if len(parts) != 2:
        raise QuantityError(excerpt(typed), 'is not a band, two values with "to" between them.', advice)
    if _after_number(parts[-1]) == "" and not dimension.bare:
        units = dict.fromkeys(dimension.common(system)[0].symbol for system in SYSTEMS)
        meant = " or ".join(f'"{words} {unit}"' for unit in units)
        raise QuantityError(excerpt(typed), "has no unit.", f"Write {meant}.", parts[-1].strip())
    low, high = (parse_part(part, typed, dimension_name, gallon) for part in with_units(parts))
    if not low < high:
        raise QuantityError(excerpt(typed), "does not rise: the lower value comes first.", advice)
    return low, high


def parse_three(text: str, dimension_name: str, gallon: Gallon = None) -> tuple[float, float, float]:
    """The SI values of "14 .. 20 .. 34 h": low, likely, high. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed, 3 * LONGEST)
    dimension = DIMENSIONS[dimension_name]
    advice = f'Write it like "10 .. 12 .. 15{_unit_of(dimension)}".'
    if re.search(TO, words):
        raise QuantityError(
            excerpt(typed), 'has "to", which marks a band; low, likely and high are wanted.', advice
        )
    parts = three_parts(words)
    if not parts:
        raise QuantityError(excerpt(typed), 'is not three values with ".." between them.', advice)
    values = [parse_part(part, typed, dimension_name, gallon) for part in with_units(parts)]
    low, likely, high = values
    if not low <= likely <= high:
        raise QuantityError(excerpt(typed), "does not rise: low, likely, high.", advice)
    return low, likely, high


def three_parts(words: str) -> list[str]:
    """The three texts between two pairs of dots; none where there are not three."""
    parts = [part.strip() for part in words.split(DOTS)]
    return parts if len(parts) == 3 and all(parts) and "..." not in words else []


def with_units(parts: list[str]) -> list[str]:
    """A single unit that stands only after the last value holds for the bare ones before it."""
    unit = _after_number(parts[-1])
    if not unit or re.search(" [0-9]", unit):
        return parts
    return [f"{part} {unit}" if _after_number(part) == "" else part for part in parts]


def _after_number(text: str) -> str | None:
    """What follows the number in one value: empty for a bare number, None where no number begins it."""
    try:
        return numeral(text.strip().removeprefix("-").lstrip(), text).rest.strip()
    except QuantityError:
        return None


def _unit_of(dimension: Dimension) -> str:
    return "" if dimension.bare else f" {dimension.common('metric')[0].symbol}"
