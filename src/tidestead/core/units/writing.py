"""SI number out as text for the plan file: the shortest that reads back as exactly the same number."""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Dimension, System, Unit
from tidestead.core.units.registry import DIMENSIONS

MOST_DIGITS = 17
"""Decimal digits that tell any two floats apart (IEEE 754 double)."""
FINEST = 64
"""Finest fraction of an inch written."""
LONGEST_OWN = 14
"""Characters up to which a text in the system's own units is taken even if another unit would be shorter."""
LONGEST_PLAIN = 12
"""Characters of a number from which on a power of ten is clearer."""


def write(value: float, dimension_name: str, system: System) -> str:
    """Text that `parse` reads back to the last bit, in the unit of the system where it is shortest."""
    if not math.isfinite(value):
        raise QuantityError(f'"{value}"', "cannot be written in a plan.", "Give a finite number.")
    dimension = DIMENSIONS[dimension_name]
    number = float(value)
    if dimension.bare:
        return _letters(Decimal(repr(number)))
    if number == 0.0 and math.copysign(1.0, number) < 0.0:
        return f"-0 {_decimal_unit(dimension).symbol}"
    choices = [text for unit in dimension.common(system) for text in _texts(number, unit)]
    own = min(choices, key=len, default="")
    if own and len(own) <= LONGEST_OWN:
        return own
    plain = (
        text
        for unit in (_decimal_unit(dimension), *dimension.common("metric"))
        for text in _texts(number, unit)
    )
    return min((own, *plain) if own else plain, key=len)


def _texts(value: float, unit: Unit) -> Iterator[str]:
    """The ways to write a value exactly in one unit."""
    if _is_decimal(unit):
        moved = Decimal(repr(value)).scaleb(-_power_of_ten(unit.factor))
        yield f"{_letters(moved)} {unit.symbol}"
        return
    exact = unit.from_si(Fraction(value))
    short = _shortest(value, exact, unit)
    if short:
        yield f"{short} {unit.symbol}"
    if unit.symbol == "in":
        part = _inch_fraction(value, exact, unit)
        if part:
            yield f"{part} in"


def _shortest(value: float, exact: Fraction, unit: Unit) -> str:
    """The fewest decimal digits that read back as the value; empty where none do."""
    near = _nearest(exact)
    if math.isinf(near):
        return ""
    for digits in range(1, MOST_DIGITS + 1):
        tried = Decimal(f"{near:.{digits}g}")
        if _nearest(unit.to_si(Fraction(tried))) == value:
            return _letters(tried)
    return ""


def _nearest(exact: Fraction) -> float:
    """The nearest float, or infinity beyond the largest."""
    try:
        return float(exact)
    except OverflowError:
        return math.inf if exact > 0 else -math.inf


def _inch_fraction(value: float, exact: Fraction, unit: Unit) -> str:
    """The value as whole inches and a fraction to 1/64; empty where it is not one."""
    rounded = Fraction(round(exact * FINEST), FINEST)
    if rounded.denominator == 1 or _nearest(unit.to_si(rounded)) != value:
        return ""
    whole, left = divmod(abs(rounded.numerator), rounded.denominator)
    part = f"{left}/{rounded.denominator}"
    return ("-" if value < 0 else "") + (f"{whole} {part}" if whole else part)


def _letters(number: Decimal) -> str:
    """A decimal as people write it, or with a power of ten where that would be long."""
    sign, digits, power = number.as_tuple()
    figures = "".join(map(str, digits)).lstrip("0") or "0"
    lead = "-" if sign else ""
    if figures == "0":
        return f"{lead}0"
    shift = int(power) + len(figures) - len(figures.rstrip("0"))
    figures = figures.rstrip("0")
    plain = f"{number.copy_abs():f}"
    if "." in plain:
        plain = plain.rstrip("0").rstrip(".")
    tens = shift + len(figures) - 1
    mantissa = figures[0] + (f".{figures[1:]}" if len(figures) > 1 else "")
    short = f"{mantissa}e{tens}"
    return lead + (short if len(plain) > LONGEST_PLAIN and len(short) < len(plain) else plain)


def _decimal_unit(dimension: Dimension) -> Unit:
    """A unit a power of ten away from SI: any float's own digits are exact in it."""
    return next(unit for unit in dimension.units.values() if _is_decimal(unit))


def _is_decimal(unit: Unit) -> bool:
    return unit.zero == 0 and Fraction(10) ** _power_of_ten(unit.factor) == unit.factor


def _power_of_ten(factor: Fraction) -> int:
    """The power of ten that a factor is, if it is one."""
    return len(str(factor.numerator)) - len(str(factor.denominator))
