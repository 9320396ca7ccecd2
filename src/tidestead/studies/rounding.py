"""Numbers that are advice, rounded so that they are enough."""

from __future__ import annotations

import math

_SLIP = 1e-9
"""Share of the last step that is a float's own error and no step more."""


def two_digits_up(amount: float) -> float:
    """The next number of two figures that is no smaller: what is bought must be enough. Nothing below nothing."""
    if amount <= 0.0:
        return 0.0
    unit = 10.0 ** (math.floor(math.log10(amount)) - 1)
    return math.ceil(amount / unit - _SLIP) * unit
