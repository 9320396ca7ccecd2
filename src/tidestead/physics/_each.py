"""Laws for one number, used on arrays. Private to physics."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

import numpy as np


def each(law: Callable[..., float], *given: float) -> float:
    """The law for plain numbers; for arrays, which broadcast, the law of each of their numbers."""
    if all(isinstance(value, (int, float)) for value in given):
        return law(*given)
    shapes = np.broadcast_arrays(*(np.asarray(value, dtype=float) for value in given))
    found = [law(*row) for row in zip(*(shape.ravel().tolist() for shape in shapes), strict=True)]
    return cast(float, np.array(found, dtype=float).reshape(shapes[0].shape))
