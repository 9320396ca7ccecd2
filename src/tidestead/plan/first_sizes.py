"""Sizes and months that follow from what was typed, in the units of whoever typed it."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from tidestead.core.units import DIMENSIONS, Section, System, write
from tidestead.plan.first_said import Said

_STEP = {"metric": Fraction(1, 1000), "us": Fraction(254, 10000) / 8}
"""Metres: what is worked out is told to a millimetre, or to an eighth of an inch."""
_MOST_PIECES = 9
"""The most that a section of timber may count."""
_COUNTED = re.compile(r"([1-9] of |\([1-9]\) ?)", re.IGNORECASE)
_MONTH_UNITS = {
    "temperature": {"metric": ("degC", "degC", 1), "us": ("degF", "degF", 1)},
    "daily_irradiation": dict.fromkeys(("metric", "us"), ("kWh/(m2 day)", "kWh/m2/day", 2)),
}
"""For twelve months: the unit by its own name and as it is written, and decimal places."""


def rounded(said: Said, metres: float) -> str:
    """A length as it is written in the plan."""
    step = _STEP[said.system]
    return write(float(round(Fraction(metres) / step) * step), "length", said.system)


def side_by_side(said: Said, blank: str, count: int) -> str | None:
    """So many times the timber that was typed into a blank, laid side by side; None where none was."""
    section = said.value(blank)
    if not isinstance(section, Section):
        return None
    pieces = min(count * section.pieces, _MOST_PIECES)
    if section.nominal:
        return f"{pieces}-{section.nominal}"
    return f"{pieces} of {_COUNTED.sub('', said.text(blank))}"


def area_words(said: Said, square_metres: float) -> str:
    """An area as it is written in the plan, to a tenth of a square metre or a square foot."""
    unit, places = ("ft2", 0) if said.system == "us" else ("m2", 1)
    number = DIMENSIONS["area"].units[unit].from_si(Fraction(square_metres))
    return f"{max(float(number), 10.0**-places):.{places}f} {unit}"


def year_between(low: float, high: float, warmest: int, dimension: str, system: System) -> list[str]:
    """Twelve values, January first, that swing smoothly from `low`, half a year away, to `high` in a month (from 0).

    `low` and `high` are SI (degree Celsius for temperatures).
    """
    unit, label, places = _MONTH_UNITS[dimension][system]
    known = DIMENSIONS[dimension].units[unit]
    middle, swing = (low + high) / 2.0, (high - low) / 2.0
    months = (middle + swing * math.cos(math.pi * (month - warmest) / 6.0) for month in range(12))
    return [f"{float(known.from_si(Fraction(value))):.{places}f} {label}" for value in months]
