"""The largest value of a smooth curve known at even stations. Private to this subject."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array


def peaks(values: Array) -> tuple[Array, Array]:
    """Largest value along the last axis and its place, counted in stations.

    The vertex of the parabola through the highest station and its neighbours; at an end, the end itself.
    """
    last = values.shape[-1] - 1
    at = np.argmax(values, axis=-1)
    inner = np.clip(at, 1, last - 1)
    left, middle, right = (
        np.take_along_axis(values, (inner + step)[..., None], axis=-1)[..., 0] for step in (-1, 0, 1)
    )
    bend = left - 2.0 * middle + right
    curved = (at == inner) & (bend < 0.0)
    shift = np.where(curved, 0.5 * (left - right) / np.where(curved, bend, 1.0), 0.0)
    top = np.take_along_axis(values, at[..., None], axis=-1)[..., 0]
    return top - 0.25 * (left - right) * shift * curved, at + shift
