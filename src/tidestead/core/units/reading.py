"""Typed quantity in, SI number out; or an error that says what to write instead."""

from __future__ import annotations

from fractions import Fraction

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Dimension, Gallon, Unit
from tidestead.core.units.numerals import Numeral, numeral
from tidestead.core.units.refusals import bare, not_a_unit
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import excerpt, plain

Term = tuple[Numeral, Unit]


def parse(text: str, dimension_name: str, gallon: Gallon = None) -> float:
    """The SI value (temperature: degree Celsius) of a quantity as typed, such as "4 ft 6 in".

    `gallon` says which gallon the plan means; without it a bare gallon is refused. Raises `QuantityError`.
    """
    dimension = DIMENSIONS[dimension_name]
    typed = as_text(text)
    words = plain(typed)
    if not words:
        raise QuantityError(
            '""', f"is empty; {article(dimension.words)} is wanted.", f"Write {dimension.example}."
        )
    negative = words.startswith("-")
    value = _read(words[1:].lstrip() if negative else words, typed, dimension, gallon)
    return to_float(-value if negative else value, typed, negative)


def as_text(text: object) -> str:
    """What was typed as text; a plain number in the file counts as its digits."""
    if isinstance(text, str):
        return text
    if isinstance(text, float) or (
        isinstance(text, int) and not isinstance(text, bool) and abs(text) < 10**30
    ):
        return repr(text)
    raise QuantityError(
        excerpt(text), "is not a quantity.", 'Write a number and its unit in quotes: "24 in".'
    )


def article(words: str) -> str:
    """The words with "a" or "an" before them."""
    return f"an {words}" if words[0] in "aeiou" else f"a {words}"


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


def _read(words: str, typed: str, dimension: Dimension, gallon: Gallon) -> Fraction:
    first = numeral(words, typed)
    if not first.rest.strip():
        return _plain_number(first, typed, dimension)
    terms = _terms(first, typed, dimension, gallon)
    if len(terms) > 1:
        return _sum(terms, typed, dimension)
    number, unit = terms[0]
    return _whole(unit.to_si(number.value), typed, dimension)


def _plain_number(number: Numeral, typed: str, dimension: Dimension) -> Fraction:
    if not dimension.bare:
        raise QuantityError(excerpt(typed), "has no unit.", bare(number, dimension))
    return _whole(number.value, typed, dimension)


def _whole(value: Fraction, typed: str, dimension: Dimension) -> Fraction:
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


def _sum(terms: list[Term], typed: str, dimension: Dimension) -> Fraction:
    """Feet and inches, metres and centimetres: each part smaller than one of the unit before it."""
    if not dimension.sums:
        raise QuantityError(
            excerpt(typed), f"adds parts; {article(dimension.words)} is one number with one unit.",
            f"Write {dimension.example}.",
        )  # fmt: skip
    for (number, unit), (smaller, part) in zip(terms, terms[1:], strict=False):
        if {unit.usage, part.usage} == {"metric", "us"}:
            raise QuantityError(excerpt(typed), "mixes metric and US units.", "Write it in one or the other.")
        if part.factor >= unit.factor or smaller.value * part.factor >= unit.factor:
            raise QuantityError(
                excerpt(typed), "adds parts that do not get smaller.", 'Larger unit first: "4 ft 6 in".'
            )
        if not number.is_whole:
            raise QuantityError(
                excerpt(typed),
                "has a broken number before its last part.",
                'Only the last may be one: "4 ft 6 1/2 in".',
            )
    return sum((unit.to_si(number.value) for number, unit in terms), Fraction(0))
