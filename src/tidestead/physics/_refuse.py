"""Refusing what nature does not have, in words. Private to physics: no formulas here."""

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


def endless(**values: float) -> None:
    """Raise ImpossibleInput where any of the named values is not a finite number. Numbers or arrays."""
    for name, value in values.items():
        if not np.all(np.isfinite(value)):
            raise ImpossibleInput(f"{name.replace('_', ' ')} must be a finite number, got {value}")


def not_a_share(**values: float) -> None:
    """Raise ImpossibleInput where any of the named values is not between 0 and 1. Numbers or arrays."""
    for name, value in values.items():
        if not (np.all(np.greater_equal(value, 0.0)) and np.all(np.less_equal(value, 1.0))):
            raise ImpossibleInput(f"{name.replace('_', ' ')} must be from 0 to 1 (0 to 100 %), got {value}")


def no_water(sal_psu: float, temp_c: float) -> None:
    """Raise ImpossibleInput where salt is negative or water would be ice or scalding. Numbers or arrays."""
    negative(salinity=sal_psu)
    if not (np.all(np.greater_equal(temp_c, -5.0)) and np.all(np.less(temp_c, 60.0))):
        raise ImpossibleInput(f"water between -5 and 60 degC is meant, got {temp_c} degC")
