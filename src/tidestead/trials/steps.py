"""Values from one end to another as they would be typed: "60..90 mm" in seven steps is 60, 65 ... 90 mm."""

from __future__ import annotations

from decimal import Context, Decimal
from fractions import Fraction
from typing import NamedTuple

from tidestead.core.errors import QuantityError
from tidestead.core.units import DIMENSIONS, Gallon, parse
from tidestead.core.units.bands import with_units
from tidestead.core.units.numerals import numeral
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import excerpt, plain
from tidestead.plan.fields import Typed

USUAL = 11
"""Values between two ends where no number of them is said: ten steps."""
MOST_WHOLE = 101
"""Whole numbers from end to end that are all taken where no number of them is said."""
_DIGITS = 9
"""Of a number between the ends that no short decimal tells."""


class _End(NamedTuple):
    """A number and the letters behind it."""

    number: Fraction
    unit: str


def stepped(ends: tuple[str, str], count: int | None, kind: Typed | None, gallon: Gallon) -> list[str]:
    """`count` values from the first end to the last, evenly, each as it would be typed. Raises QuantityError.

    The ends stand as they were typed. A unit that stands only behind the last end holds for both.
    """
    first, last = with_units([end.strip() for end in ends])
    if kind is not None and kind.read is None:
        for end in (first, last):
            parse(end, kind.dimension, gallon)
    low, high = _ends(first, last, kind, gallon)
    if low.number == high.number:
        raise QuantityError(excerpt(f"{first}..{last}"), "begins where it ends.", "Write two different ends.")
    many = count or USUAL
    tail = f" {high.unit}" if high.unit else ""
    between = (low.number + (high.number - low.number) * step / (many - 1) for step in range(1, many - 1))
    return [first, *(f"{_decimal(number)}{tail}" for number in between), last]


def whole_steps(ends: tuple[str, str], count: int | None) -> list[int]:
    """Whole numbers from end to end: each of them, or so many that part the way evenly. Raises QuantityError."""
    first, last = (_whole(end.strip()) for end in ends)
    typed = excerpt(f"{ends[0]}..{ends[1]}")
    way = abs(last - first)
    if not way:
        raise QuantityError(typed, "begins where it ends.", "Write two different ends.")
    if count is None and way >= MOST_WHOLE:
        raise QuantityError(
            typed, f"is {way + 1:,} whole numbers.", f"Say how many of them, such as :{USUAL}."
        )
    many = count or way + 1
    if way % (many - 1):
        fits = [number for number in range(2, way + 2) if way % (number - 1) == 0]
        near = sorted(fits, key=lambda number: abs(number - many))[:2]
        advice = f"Write {' or '.join(f':{number}' for number in sorted(near))}."
        raise QuantityError(typed, f"cannot be parted evenly into {many} whole numbers.", advice)
    step = (last - first) // (many - 1)
    return [first + step * number for number in range(many)]


def _whole(text: str) -> int:
    if not text.removeprefix("-").isdecimal() or len(text) > _DIGITS:
        raise QuantityError(excerpt(text), "is not a whole number.", "Write it like 4..10.")
    return int(text)


def _ends(first: str, last: str, kind: Typed | None, gallon: Gallon) -> tuple[_End, _End]:
    """Both ends in one unit."""
    low, high = _end(first), _end(last)
    if low is not None and high is not None and low.unit == high.unit:
        return low, high
    if kind is None or kind.read is not None:
        raise QuantityError(
            excerpt(f"{first}..{last}"),
            "has ends that differ in more than their number.",
            "Write both alike, or list the values with commas.",
        )
    values = [Fraction(parse(end, kind.dimension, gallon)) for end in (first, last)]
    words = high.unit if high is not None else plain(last).rpartition(" ")[2]
    unit = DIMENSIONS[kind.dimension].units[canonical(words, gallon)]
    start, end = (unit.from_si(value) for value in values)
    return _End(start, words), _End(end, words)


def _end(text: str) -> _End | None:
    """One number and what follows it; None where more numbers follow, as in feet and inches."""
    words = plain(text, 2 * len(text) + 1)
    sign = -1 if words.startswith("-") else 1
    found = numeral(words.removeprefix("-").lstrip(), text)
    unit = found.rest.strip()
    return (
        None if any(letter.isdigit() for letter in unit.split(" at ")[0]) else _End(sign * found.value, unit)
    )


def _decimal(number: Fraction) -> str:
    """The number as a decimal: exactly where that is short, else to nine digits."""
    found = Context(prec=_DIGITS).divide(Decimal(number.numerator), Decimal(number.denominator))
    return f"{found.normalize():f}"
