"""Ranges as typed: "24 to 27 degC" is a band, "410 .. 460 .. 560 m" is low, likely and high."""

from __future__ import annotations

import re

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Gallon
from tidestead.core.units.numerals import numeral
from tidestead.core.units.reading import as_text, parse
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.typed import LONGEST, excerpt, plain

_TO = re.compile(r" to ", re.IGNORECASE)


def parse_band(text: str, dimension_name: str, gallon: Gallon = None) -> tuple[float, float]:
    """The SI ends of "24 to 27 degC"; the unit may stand once, at the end. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed, 2 * LONGEST)
    example = _band_example(dimension_name)
    if ".." in words:
        raise QuantityError(
            excerpt(typed), '".." parts low, likely and high; a band is wanted here.', example
        )
    parts = _TO.split(words)
    if len(parts) != 2:
        raise QuantityError(excerpt(typed), 'is not a band, two values with "to" between them.', example)
    low, high = (parse(part, dimension_name, gallon) for part in with_units(parts, dimension_name))
    if not low < high:
        raise QuantityError(excerpt(typed), "does not rise: the first value is the lower one.", example)
    return low, high


def parse_three(text: str, dimension_name: str, gallon: Gallon = None) -> tuple[float, float, float]:
    """The SI values of "14 .. 20 .. 34 h": low, likely, high. Raises `QuantityError`."""
    typed = as_text(text)
    low, likely, high = (parse(part, dimension_name, gallon) for part in three_parts(typed, dimension_name))
    if not low <= likely <= high:
        raise QuantityError(excerpt(typed), "does not rise: low, likely, high.", "Put the values in order.")
    return low, likely, high


def three_parts(typed: str, dimension_name: str) -> list[str]:
    """The three values as text, each with a unit."""
    words = plain(typed, 3 * LONGEST)
    unit = DIMENSIONS[dimension_name].units
    advice = f'Write them like "10 .. 12 .. 15 {next(iter(unit))}".'
    if _TO.search(words):
        raise QuantityError(
            excerpt(typed), '"to" marks a band; low, likely and high are wanted here.', advice
        )
    parts = [part.strip() for part in words.split("..")]
    if len(parts) != 3 or "..." in words or not all(parts):
        raise QuantityError(excerpt(typed), 'is not three values with ".." between them.', advice)
    return with_units(parts, dimension_name)


def with_units(parts: list[str], dimension_name: str) -> list[str]:
    """A unit that stands only after the last value holds for the bare ones before it."""
    if DIMENSIONS[dimension_name].bare and all(_is_number(part) for part in parts):
        return parts
    last = parts[-1].removeprefix("-").lstrip()
    unit = numeral(last, last).rest.strip() if last else ""
    return [f"{part} {unit}" if unit and _is_number(part) else part for part in parts]


def _is_number(text: str) -> bool:
    """Whether a value came without a unit."""
    number = text.removeprefix("-").lstrip()
    if not number[:1].isdigit() and number[:1] != ".":
        return False
    try:
        return not numeral(number, number).rest.strip()
    except QuantityError:
        return False


def _band_example(dimension_name: str) -> str:
    dimension = DIMENSIONS[dimension_name]
    symbol = "" if dimension.bare else f" {next(iter(dimension.units))}"
    return f'Write it like "20 to 25{symbol}".'
