"""Numbers rounded for people: the shown figure lies within half its last step of the true one."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from tidestead.core.units.dimensions import System

NO_BREAK_SPACE = "\u00a0"
LARGEST_PLAIN, SMALLEST_PLAIN = 10**7, Fraction(1, 10**4)
"""Outside these a number is shown with a power of ten."""
ALIKE = Fraction(1, 10**12)
"""Relative difference below which a figure counts as exact: floats carry no more."""


class Shown(NamedTuple):
    """A figure as text, and whether rounding left it as it was."""

    text: str
    exact: bool


def figure(value: Fraction, system: System, digits: int = 3) -> Shown:
    """The value to so many significant digits, but never coarser than whole numbers."""
    size = abs(value)
    if size == 0:
        return Shown("0", True)
    power = _power_of_ten(size)
    if size >= LARGEST_PLAIN or size < SMALLEST_PLAIN:
        scale = Fraction(10) ** power
        mantissa = fixed(value / scale, digits - 1, system)
        if mantissa.text.lstrip("-").startswith("10"):  # rounded up to the next power
            power, mantissa = power + 1, Shown(mantissa.text.replace("10", "1", 1), mantissa.exact)
        return Shown(f"{mantissa.text}e{power}", mantissa.exact)
    return fixed(value, max(0, digits - 1 - power), system)


def fixed(value: Fraction, decimals: int, system: System, keep_zeros: bool = False) -> Shown:
    """The value to so many decimals, thousands parted as the system's readers expect."""
    if abs(value) >= LARGEST_PLAIN:
        return figure(value, system)
    steps = round(value * 10**decimals)
    digits = str(abs(steps)).zfill(decimals + 1)
    whole, part = (digits[:-decimals], digits[-decimals:]) if decimals else (digits, "")
    part = part if keep_zeros else part.rstrip("0")
    sign = "-" if steps < 0 else ""
    text = sign + _grouped(whole, system) + (f".{part}" if part else "")
    return Shown(text, same(Fraction(steps, 10**decimals), value))


def same(one: Fraction, other: Fraction) -> bool:
    """Whether two figures differ by no more than a float's last bits."""
    return abs(one - other) <= ALIKE * max(abs(one), abs(other))


def _power_of_ten(size: Fraction) -> int:
    """The largest whole power of ten that is not above the size."""
    power = math.floor(math.log10(size.numerator) - math.log10(size.denominator))
    while Fraction(10) ** power > size:
        power -= 1
    while Fraction(10) ** (power + 1) <= size:
        power += 1
    return power


def _grouped(whole: str, system: System) -> str:
    """Thousands parted: a comma from 1,000 in US figures, an unbroken space from 10 000 in metric ones."""
    if system == "us":
        return f"{int(whole):,}"
    return f"{int(whole):,}".replace(",", NO_BREAK_SPACE) if len(whole) > 4 else whole
