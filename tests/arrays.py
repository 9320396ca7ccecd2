"""How tests hand an array to a calculator whose signature says a number."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64] | NDArray[np.int64] | Sequence[float]


def broadcast(numbers: Numbers) -> float:
    """The array itself, under the type of a number: calculators say float and let arrays through (core.dims)."""
    return cast(float, np.asarray(numbers))
