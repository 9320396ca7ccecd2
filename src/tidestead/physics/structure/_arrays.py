"""Two small array sums: a choice that stays a number, and the peak of a curve. Private to this subject."""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import Array


def choose(condition: object, yes: object, no: object) -> float:
    """`yes` where the condition holds, else `no`; a plain number for plain numbers, an array for arrays."""
    return cast(float, np.where(condition, yes, no)[()])  # type: ignore[call-overload]  # numbers or arrays


def peaks(values: Array) -> tuple[Array, Array]:
    """Largest value along the last axis and its place, counted in stations.

    The vertex of the parabola through the highest station and its neighbours; at an end, the end itself.
    """
    last = values.shape[-1] - 1
    rows = values.reshape(-1, last + 1)
    number = np.arange(len(rows))
    at = np.argmax(rows, axis=1)
    inner = np.clip(at, 1, last - 1)
    left, middle, right = rows[number, inner - 1], rows[number, inner], rows[number, inner + 1]
    bend = left - 2.0 * middle + right
    curved = (at == inner) & (bend < 0.0)
    shift = np.where(curved, 0.5 * (left - right) / np.where(curved, bend, 1.0), 0.0)
    top = rows[number, at] - 0.25 * (left - right) * shift * curved
    shape = values.shape[:-1]
    return top.reshape(shape), np.asarray(at + shift, dtype=np.float64).reshape(shape)
