"""Of many choices those that no other beats in everything."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import groupby


def pareto(choices: Sequence[Sequence[float | None]], more: Sequence[bool]) -> tuple[int, ...]:
    """The places of the choices that no other is at least as good as in all, and better than in one.

    `more` says of each thing whether more of it is better, else less is. Choices that are equal stand together, and
    one that lacks a value is never among them.
    """
    turned = [
        (
            tuple(
                -value if up else value for value, up in zip(choice, more, strict=True) if value is not None
            ),
            place,
        )
        for place, choice in enumerate(choices)
        if not any(value is None or math.isnan(value) for value in choice)
    ]
    turned.sort()
    front: list[tuple[float, ...]] = []
    found: list[int] = []
    for values, group in groupby(turned, key=lambda one: one[0]):
        # whoever could beat it comes before it in this order, or is beaten by one that does
        if not any(all(a <= b for a, b in zip(other, values, strict=True)) for other in front):
            front = _without_beaten(front, values)
            found += [place for _, place in group]
    return tuple(sorted(found))


def _without_beaten(front: list[tuple[float, ...]], values: tuple[float, ...]) -> list[tuple[float, ...]]:
    """The choices that later ones have to be held against. Of two things the latest alone is enough."""
    return [values] if len(values) <= 2 else [*front, values]
