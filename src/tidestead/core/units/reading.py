"""Typed quantity in, SI number out; or an error that says what to write instead."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Dimension, Gallon, Unit
from tidestead.core.units.numerals import NO_NUMBER, Numeral, numeral
from tidestead.core.units.refusals import bare, not_a_unit
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import as_text, excerpt, plain

Term = tuple[Numeral, Unit]

INCH_MEASURES = frozenset(("in", "ft", "yd", "'", '"', "lb", "oz"))
"""Units that are never added to metric ones."""


def parse(text: str | float, dimension_name: str, gallon: Gallon = None) -> float:
    """The SI value (temperature: degree Celsius) of a quantity as typed, such as "4 ft 6 in".

    `gallon` says which gallon the plan means; without it a bare gallon is refused. Raises `QuantityError`.
    """
    found = _found(as_text(text), dimension_name, gallon)
    if isinstance(found, tuple):
        raise QuantityError(*found)
    return found


@lru_cache(maxsize=4096)
def _found(typed: str, dimension_name: str, gallon: Gallon) -> float | tuple[str, str, str, str]:
    """What a text is, or the parts of its refusal: to look for what was meant takes longest, and is kept too."""
    try:
        return _parsed(typed, dimension_name, gallon)
    except QuantityError as fault:
        return fault.given, fault.allowed, fault.advice, fault.bare


def _parsed(typed: str, dimension_name: str, gallon: Gallon) -> float:
    dimension = DIMENSIONS[dimension_name]
    words = plain(typed)
    if not words:
        raise QuantityError('""', f"is empty; {dimension.a} is wanted.", f"Write {dimension.example}.")
    negative = words.startswith("-")
    value = _read(words[1:].lstrip() if negative else words, typed, dimension, gallon, negative)
    return to_float(value, typed, negative)


def parse_part(part: str, typed: str, dimension_name: str, gallon: Gallon = None) -> float:
    """As `parse`, for a part of a longer text: a fault names the whole as typed."""
    try:
        return parse(part, dimension_name, gallon)
    except QuantityError as fault:
        raise QuantityError(excerpt(typed), fault.allowed, fault.advice) from None


def to_float(value: Fraction, typed: str, negative: bool = False) -> float:
    """The nearest float; a number no float can hold is refused."""
    try:
        result = float(value)
    except OverflowError:
        raise QuantityError(
            excerpt(typed), "is larger than any number here can be.", "Check the digits."
        ) from None
    if result == 0.0 and value != 0:
        raise QuantityError(excerpt(typed), "is smaller than any number here can be.", "Check the digits.")
    return -0.0 if negative and result == 0.0 else result


def _first(words: str, typed: str, dimension: Dimension) -> Numeral:
    """The number at the beginning; what to write where there is none is of the dimension that is wanted."""
    try:
        return numeral(words, typed)
    except QuantityError as fault:
        if fault.allowed != NO_NUMBER or dimension.si == "m":
            raise
        raise QuantityError(fault.given, NO_NUMBER, f"Write the number first: {dimension.example}.") from None


def _read(words: str, typed: str, dimension: Dimension, gallon: Gallon, negative: bool) -> Fraction:
    first = _first(words, typed, dimension)
    sign = -1 if negative else 1
    if not first.rest.strip():
        if not dimension.bare:
            letters = f"-{first.letters}" if negative else first.letters
            raise QuantityError(excerpt(typed), "has no unit.", bare(first, dimension, negative), letters)
        value = sign * first.value
    else:
        terms = _terms(first, typed, dimension, gallon)
        _refuse_odd_sum(terms, typed, dimension)
        value = sum((unit.to_si(sign * number.value) for number, unit in terms), Fraction(0))
    if dimension.whole and value.denominator != 1:
        raise QuantityError(excerpt(typed), "is not a whole number.", f"Write {dimension.example}.")
    return value


def _terms(first: Numeral, typed: str, dimension: Dimension, gallon: Gallon) -> list[Term]:
    """Number and unit, number and unit, to the end of the text."""
    terms: list[Term] = []
    number = first
    while True:
        taken = _unit_before_number(number.rest, dimension, gallon)
        if taken is None:
            raise QuantityError(excerpt(typed), *not_a_unit(first, number, dimension, gallon))
        unit, rest = taken
        terms.append((number, unit))
        if not rest:
            return terms
        number = numeral(rest, typed)


def _unit_before_number(text: str, dimension: Dimension, gallon: Gallon) -> tuple[Unit, str] | None:
    """The longest unit at the start of a text that is followed by nothing or by another number."""
    compact = " " not in text.strip()
    for end in range(len(text), 0, -1):
        rest = text[end:].lstrip()
        if rest and not _can_begin(rest, text[:end], compact or text[end] == " "):
            continue
        unit = dimension.units.get(canonical(text[:end], gallon))
        if unit is not None:
            return unit, rest.removeprefix("-")
    return None


def _can_begin(rest: str, before: str, parted: bool) -> bool:
    """Whether a further number may begin here: after a space, after a foot mark, or anywhere in `4ft6in`."""
    after_mark = before.rstrip().endswith(("'", '"'))
    if rest[0] == "-":
        return after_mark and rest[1:2].isdigit()
    return (rest[0].isdigit() or rest[0] == ".") and (parted or after_mark)


def _refuse_odd_sum(terms: list[Term], typed: str, dimension: Dimension) -> None:
    """Parts may be added where each is a whole number, and smaller than one of the unit before it."""
    if len(terms) > 1 and not dimension.sums:
        fault = f"adds parts; {dimension.a} is one number with one unit."
        raise QuantityError(excerpt(typed), fault, f"Write {dimension.example}.")
    for (number, unit), (smaller, part) in pairwise(terms):
        if (unit.symbol in INCH_MEASURES) != (part.symbol in INCH_MEASURES):
            raise QuantityError(excerpt(typed), "mixes metric and US units.", "Write it in one or the other.")
        if smaller.value * part.factor >= unit.factor:
            fault = "adds parts that do not get smaller."
            raise QuantityError(excerpt(typed), fault, 'Write the larger unit first: "4 ft 6 in".')
        if not number.is_whole:
            fault = "has a broken number before its last part."
            raise QuantityError(excerpt(typed), fault, 'Only the last part may have one: "4 ft 6 1/2 in".')
