"""Ranges in words."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.core.units import System, show


def between(value: Estimate, unit: str, system: System, style: str = "") -> str:
    """ "465 kg", or "3.7 to 7.64 US gal/day" where it is not known better; the unit once."""
    low, high = (show(end, unit, system, style, (value.low, value.high)) for end in (value.low, value.high))
    if low == high:
        return low
    number, _, rest = low.partition(" ")
    return f"{number} to {high}" if high.endswith(f" {rest}") else f"{low} to {high}"
