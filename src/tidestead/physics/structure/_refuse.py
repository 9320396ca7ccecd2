"""Refusing what nature does not have, in words. Private to this subject: no formulas here."""

from __future__ import annotations

import numpy as np

from tidestead.core.errors import ImpossibleInput


def negative(**values: float) -> None:
    """Raise ImpossibleInput where any of the named values is below nothing. Numbers or arrays."""
    for name, value in values.items():
        if not (value >= 0.0 if isinstance(value, float) else np.all(np.greater_equal(value, 0.0))):
            raise ImpossibleInput(f"{name.replace('_', ' ')} cannot be negative, got {value}")


def not_positive(**values: float) -> None:
    """Raise ImpossibleInput where any of the named values is not more than nothing. Numbers or arrays."""
    for name, value in values.items():
        if not (value > 0.0 if isinstance(value, float) else np.all(np.greater(value, 0.0))):
            raise ImpossibleInput(f"{name.replace('_', ' ')} must be more than nothing, got {value}")
