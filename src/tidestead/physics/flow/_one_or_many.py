"""Sums that take one number or an array, and are quick for one number: laws are asked for one many thousand times.

Private to this subject: no formulas here.
"""

from __future__ import annotations

import math

import numpy as np


def root(value: float) -> float:
    """Square root."""
    found: float = math.sqrt(value) if isinstance(value, float) else np.sqrt(value)
    return found


def natural_log(value: float) -> float:
    """Natural logarithm of what is above nothing."""
    found: float = math.log(value) if isinstance(value, float) else np.log(value)
    return found


def greater(value: float, least: float) -> float:
    """The value, or what it must at least be."""
    found: float = max(value, least) if isinstance(value, float) else np.maximum(value, least)
    return found


def lesser(value: float, most: float) -> float:
    """The value, or what it may at most be."""
    found: float = min(value, most) if isinstance(value, float) else np.minimum(value, most)
    return found


def signed(size: float, like: float) -> float:
    """A size with the sign of another number."""
    found: float = math.copysign(size, like) if isinstance(like, float) else np.sign(like) * size
    return found
