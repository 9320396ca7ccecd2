"""Ranges and shares in words."""

from __future__ import annotations

import math
from typing import Literal

from tidestead.core.answer import Estimate
from tidestead.core.units import System, show


def between(value: Estimate, unit: str, system: System, style: str = "") -> str:
    """ "465 kg", or "3.7 to 7.64 US gal/day" where it is not known better; the unit once."""
    low, high = (show(end, unit, system, style, (value.low, value.high)) for end in (value.low, value.high))
    if low == high:
        return low
    number, _, rest = low.partition(" ")
    return f"{number} to {high}" if high.endswith(f" {rest}") else f"{low} to {high}"


_SLIP = 1e-9


def percent(share: float, way: Literal["up", "down"]) -> str:
    """A share that is advice, in whole per cent from ten, else by two digits: never 0 %, nor on the wrong side."""
    amount = 100.0 * share
    if not math.isfinite(amount) or amount <= 0.0:
        return f"{amount:g} %"
    unit = 10.0 ** min(math.floor(math.log10(amount)) - 1, 0)
    steps = math.ceil(amount / unit - _SLIP) if way == "up" else math.floor(amount / unit + _SLIP)
    return f"{steps * unit:.10g} %"
