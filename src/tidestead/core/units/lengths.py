"""Lengths for people: millimetres or metres, fractions of an inch or feet and inches."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tidestead.core.units.dimensions import System
from tidestead.core.units.figures import Shown, figure, fixed, same
from tidestead.core.units.sizes import size

INCH, FOOT, MIL, MILLI, MICRO = (size(symbol) for symbol in ("in", "ft", "mil", "mm", "um"))
SIXTEENTHS, EIGHTHS = 16, 8
FEET_FROM, LONGEST_IN_INCHES = 3 * FOOT, 10_000 * FOOT
"""Lengths below three feet are said in inches, those past any building in feet alone."""
SMALLEST_IN_METRES = Fraction(1, 10)
"""Of lengths that stand side by side, a smaller one keeps all of them in millimetres."""


def length(value: Fraction, system: System, style: str, family: Sequence[Fraction] = ()) -> Shown:
    """A length in metres as people say it; `family` are those that share its unit."""
    if style == "bubble":
        return _with(figure(value / MILLI, system), "mm")
    if style == "hose":
        return (
            _with(fixed(value / FOOT, 0, system), "ft")
            if system == "us"
            else _with(fixed(value, 1, system), "m")
        )
    if style == "head":
        whole, name = (FOOT, "ft") if system == "us" else (Fraction(1), "m")
        return _with(fixed(value / whole, 2, system), name)
    sizes = [abs(one) for one in family if one] or [abs(value)]
    if system == "us":
        return _us(value, style, max(sizes))
    small = max(sizes) < Fraction(9995, 10000) or (len(sizes) > 1 and min(sizes) < SMALLEST_IN_METRES)
    return _metric(value, style, small)


def _metric(value: Fraction, style: str, small: bool) -> Shown:
    if style == "film":
        return _with(figure(value / MICRO, "metric"), "µm")
    if style == "bow":
        return _with(fixed(value / MILLI, 1, "metric", keep_zeros=True), "mm")
    if style == "level":
        return _with(fixed(value, 2, "metric", keep_zeros=True), "m")
    if style in ("lumber", "sheet"):
        return _with(fixed(value / MILLI, 1, "metric"), "mm")
    if style == "fine":
        return (
            _with(fixed(value / MILLI, 2, "metric"), "mm") if small else _with(fixed(value, 4, "metric"), "m")
        )
    return _with(figure(value / MILLI, "metric"), "mm") if small else _with(fixed(value, 3, "metric"), "m")


def _us(value: Fraction, style: str, largest: Fraction) -> Shown:
    if style == "film":
        return _with(fixed(value / MIL, 1, "us"), "mil")
    if style == "bow":
        return _with(fixed(value / INCH, 2, "us", keep_zeros=True), "in")
    if style == "level":
        return feet_and_inches(value, EIGHTHS)
    if style in ("lumber", "sheet"):
        return feet_and_inches(value, SIXTEENTHS)
    if style == "fine":
        return _with(fixed(value / INCH, 3, "us"), "in")
    parts = value / INCH * SIXTEENTHS
    if largest >= FEET_FROM or same(Fraction(round(parts)), parts):
        return feet_and_inches(value, SIXTEENTHS)
    shown = figure(value / INCH, "us")
    rounded = Fraction(shown.text)
    if (rounded * SIXTEENTHS).denominator == 1:
        return Shown(feet_and_inches(rounded * INCH, SIXTEENTHS).text, shown.exact)
    return _with(shown, "in")


def _with(shown: Shown, unit: str) -> Shown:
    return Shown(f"{shown.text} {unit}", shown.exact)


def feet_and_inches(value: Fraction, parts: int) -> Shown:
    """A length to so many parts of an inch; from three feet on in feet and inches."""
    if abs(value) >= LONGEST_IN_INCHES:
        return _with(figure(value / FOOT, "us"), "ft")
    steps = round(value / INCH * parts)
    feet, left = divmod(abs(steps), 12 * parts) if abs(steps) * INCH >= FEET_FROM * parts else (0, abs(steps))
    inches = _inches(left, parts)
    words = [f"{feet:,} ft"] if feet else []
    if left or not feet:
        words.append(f"{inches} in")
    sign = "-" if steps < 0 else ""
    return Shown(sign + " ".join(words), same(Fraction(steps, parts) * INCH, value))


def _inches(steps: int, parts: int) -> str:
    """Whole inches and the fraction in its lowest terms."""
    whole, left = divmod(steps, parts)
    rest = Fraction(left, parts)
    if not rest:
        return f"{whole:,}"
    part = f"{rest.numerator}/{rest.denominator}"
    return f"{whole:,} {part}" if whole else part
