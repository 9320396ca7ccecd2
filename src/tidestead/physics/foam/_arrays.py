"""A choice that stays a number, and where a rising curve crosses nothing. Private to this subject."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

import numpy as np

_HALVINGS = 44
"""Enough that the last step is a ten-million-millionth of the first interval."""


def choose(condition: object, yes: object, no: object) -> float:
    """`yes` where the condition holds, else `no`; a plain number for plain numbers, an array for arrays."""
    found = np.where(condition, yes, no)  # type: ignore[call-overload]  # numbers or arrays
    return cast(float, found if found.ndim else found.item())


def crossing(climbing: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that climbs through nothing once between `low` and `high` does so, by halving.

    Where it stays above nothing the answer is `low`, where it stays below, `high`.
    """
    below, above = low, high
    for _ in range(_HALVINGS):
        middle = 0.5 * (below + above)
        short = np.less(climbing(middle), 0.0)
        below, above = choose(short, middle, below), choose(short, above, middle)
    return 0.5 * (below + above)
