"""Whether the curves of pumps fall."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tidestead.core.errors import QuantityError
from tidestead.plan.fields import MOST_ITEMS
from tidestead.plan.flow_fields import CurvePoint, read_point
from tidestead.plan.seen import Misfit, Seen


def curve_misfits(whole: Seen) -> Iterator[Misfit]:
    """Every point of a curve that does not follow from the one before it."""
    for _, pump in whole.parts("pumps"):
        points = _points(pump)
        for (_, one), (place, other) in pairwise(points):
            path = (*pump.path, "curve", place)
            before = pump.values["curve"][place - 1]
            if other.flow <= one.flow:
                advice = "List the points by growing flow, each flow once."
                yield Misfit(path, f'has no more flow than "{before}" before it.', advice)
            elif other.head >= one.head:
                advice = "A pump gives less head the more it moves: read its curve again, or swap the heads."
                yield Misfit(path, f'rises: it has no less head than "{before}" before it.', advice)
        for place, point in points:
            if point.flow < 0.0 or point.head < 0.0:
                yield Misfit(
                    (*pump.path, "curve", place), "is below nothing.", "Flow and head are 0 or more."
                )


def _points(pump: Seen) -> list[tuple[int, CurvePoint]]:
    """The good points with their places, as long as nothing between them is unread."""
    found: list[tuple[int, CurvePoint]] = []
    items = pump.values.get("curve")
    for place, text in enumerate(items[:MOST_ITEMS] if isinstance(items, list) else []):
        try:
            point = read_point(text, pump.gallon) if isinstance(text, str) else None
        except QuantityError:
            point = None
        if point is None:
            return found
        found.append((place, point))
    return found
