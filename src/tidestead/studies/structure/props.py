"""Where fasteners of a row stand."""

from __future__ import annotations

import math


def props_along(length: float, spacing: float) -> list[float]:
    """Places of fasteners: one at each end, and no further apart than the spacing."""
    bays = max(1, math.ceil(length / spacing - 1e-9))
    return [length * number / bays for number in range(bays + 1)]
