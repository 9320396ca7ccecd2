"""Numbers on their way into JSON, which has no word for what is not finite."""

from __future__ import annotations

import math
from collections.abc import Sequence


class Numbers:
    """Takes numbers into JSON and keeps the reasons of those that cannot go."""

    def __init__(self) -> None:
        self.why: dict[str, str] = {}

    def take(self, name: str, value: float | None, reason: str = "") -> float | None:
        """The number, or None with a reason kept."""
        if value is None:
            self.why[name] = reason or "there is no value"
            return None
        value = float(value)
        if math.isfinite(value):
            return value
        self.why[name] = "not a number" if math.isnan(value) else f"{'' if value > 0 else 'minus '}infinite"
        return None

    def run(self, name: str, values: Sequence[float]) -> list[float | None]:
        """A list of numbers."""
        return [self.take(f"{name}/{index}", value) for index, value in enumerate(values)]
