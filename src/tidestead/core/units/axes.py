"""Scales of plots: round marks in the unit that the reader sees."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tidestead.core.units.dimensions import System, Unit
from tidestead.core.units.figures import LARGEST_PLAIN, figure, fixed
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.showing import label, shared_unit

_STEPS = (Fraction(1), Fraction(2), Fraction(5, 2), Fraction(5), Fraction(10))
_STEPS_OF_TIME = tuple(map(Fraction, (1, 2, 3, 6, 12, 24, 48, 96, 168)))
_SHARE = Unit("%", Fraction(1, 100))
_LEAST = {"mm": 1, "m": 1, "in": 1, "ft": 1, "s": 2, "min": 2, "h": 2, "days": 4, "years": 2}
"""A scale of length or time is in the largest unit of which it holds so many: two days are told in hours."""

_MOST_DECIMALS = 12


@dataclass(frozen=True)
class Scale:
    """A scale from `low` to `high` in SI, with marks: SI values and what stands beside them. `word` is the unit."""

    low: float
    high: float
    word: str
    marks: tuple[tuple[float, str], ...]


def scale(
    values: Sequence[float], unit_si: str, system: System, style: str = "", most: int = 6, snug: bool = False
) -> Scale:
    """A scale that holds the finite ones of the values, with `most` marks or fewer at round numbers of one unit.

    `snug` ends it at the least and the greatest value, else it ends at marks. `style` is as in `show`, or "share" for
    a ratio that is read as percent.
    """
    known = [value for value in values if math.isfinite(value)] or [0.0]
    low, high = min(known), max(known)
    unit = _unit(max(abs(low), abs(high)), known, unit_si, system, style)
    first, last = unit.from_si(Fraction(float(low))), unit.from_si(Fraction(float(high)))
    if last - first < Fraction(1, 10**9) * max(abs(last), Fraction(1)):
        first, last = first - abs(first) / 2, last + (abs(last) / 2 or 1)
        snug = False
    step = _step(last - first, most, unit.symbol)
    begin, end = (math.ceil, math.floor) if snug else (math.floor, math.ceil)
    numbers = [step * count for count in range(begin(first / step), end(last / step) + 1)]
    if not snug:
        first, last = numbers[0], numbers[-1]
    marks = tuple((float(unit.to_si(number)), _figure(number, step, system)) for number in numbers)
    return Scale(float(unit.to_si(first)), float(unit.to_si(last)), label(unit.symbol), marks)


def side_by_side(
    values: Sequence[float], unit_si: str, system: System, style: str = "", digits: int = 3
) -> tuple[str, tuple[str, ...]]:
    """The word of one unit, and every value's bare figure in it; nothing for what is no finite number.

    All have as many decimals as the largest of them needs for so many digits; for no `digits` each has three.
    """
    known = [value for value in values if math.isfinite(value)] or [0.0]
    unit = _unit(max(map(abs, known)), known, unit_si, system, style)
    largest = float(unit.from_si(Fraction(float(max(map(abs, known))))))
    decimals = max(0, digits - 1 - math.floor(math.log10(largest))) if largest else 0
    texts = (
        "" if not math.isfinite(value)
        else fixed(unit.from_si(Fraction(float(value))), min(decimals, _MOST_DECIMALS), system).text if digits
        else figure(unit.from_si(Fraction(float(value))), system).text
        for value in values
    )  # fmt: skip
    return label(unit.symbol), tuple(texts)


def _figure(number: Fraction, step: Fraction, system: System) -> str:
    """A mark's figure with as many digits as tell it from the next one."""
    if abs(number) >= LARGEST_PLAIN:
        return figure(number, system, max(3, math.ceil(math.log10(abs(number) / step)) + 2)).text
    decimals = next(
        (places for places in range(_MOST_DECIMALS) if (step * 10**places).denominator == 1), _MOST_DECIMALS
    )
    return fixed(number, decimals, system).text


def _unit(largest: float, values: Sequence[float], unit_si: str, system: System, style: str) -> Unit:
    if style == "share":
        return _SHARE
    if unit_si == "m":
        return _filled(largest, "length", ("mm", "m") if system == "metric" else ("in", "ft"))
    if unit_si == "s":
        return _filled(largest, "time", ("s", "min", "h", "days", "years"))
    return shared_unit([max(values, key=abs)], unit_si, system, style)


def _filled(largest: float, dimension: str, symbols: Sequence[str]) -> Unit:
    """The largest of the units of which the value holds enough."""
    units = [DIMENSIONS[dimension].units[symbol] for symbol in symbols]
    chosen = units[0]
    for unit in units:
        if largest >= _LEAST[unit.symbol] * unit.factor:
            chosen = unit
    return chosen


def _step(span: Fraction, most: int, symbol: str) -> Fraction:
    """The least round step that leaves no more than so many marks."""
    rough = span / max(1, most - 1)
    if symbol == "h" and rough >= Fraction(1, 2):
        return next((step for step in _STEPS_OF_TIME if step >= rough), rough)
    power = Fraction(10) ** math.floor(math.log10(rough))
    whole = symbol == "days" and rough > Fraction(1, 2)
    steps = (power * part for part in _STEPS)
    return next(step for step in steps if step >= rough and not (whole and step.denominator > 1))
