"""Shares among the surfaces of a room: of the heat rays they exchange, and of the sun that falls in."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from tidestead.physics.heat._tables import CLEAR, LOOKS_UP, SOLID
from tidestead.physics.heat.system import Body, Sheet, System

_ROUNDS = 30
_WATER_EMITS = 0.95
"""Emissivity of a water surface. From memory; 0.95 to 0.96 in handbooks."""


def star_shares(
    rows: Sequence[Mapping[str, float]], bodies: Sequence[Body], enclosed: bool = True
) -> tuple[list[float], list[float]]:
    """Per m2, the share in the exchange of each surface with the mean of all: of the chains, and of the bodies.

        1/share = 1/F + (1 - e)/e        F = 1/(1 - A*F/sum(A*F))

    By the method of the mean radiant temperature (Carroll 1980); `rows` carry the emissivity in `star`. In the open,
    where nothing is `enclosed`, each faces the sky by its emissivity.
    """
    if not enclosed:
        return [row["star"] for row in rows], [_WATER_EMITS] * len(bodies)
    areas = [row["area"] for row in rows] + [body.surface for body in bodies]
    emits = [row["star"] for row in rows] + [_WATER_EMITS] * len(bodies)
    views = [1.0] * len(areas)
    for _ in range(_ROUNDS):
        whole = sum(area * view for area, view in zip(areas, views, strict=True))
        views = [
            1.0 / max(1.0 - area * view / whole, 0.5) if whole > 0.0 else 1.0
            for area, view in zip(areas, views, strict=True)
        ]
    shares = [
        1.0 / (1.0 / view + (1.0 - emit) / emit) if len(areas) > 1 else emit
        for view, emit in zip(views, emits, strict=True)
    ]
    return shares[: len(rows)], shares[len(rows) :]


def sun_shares(system: System, rows: Sequence[Mapping[str, float]], sheets: Sequence[Sheet]) -> list[float]:
    """Of the sun that falls into the room and not into water, the share each surface takes; the rest leaves again.

    In a clear room it falls on the floor first, and what the floor throws back on all else by area. Where vessels stand
    in the room it falls on all that is not window by area: rays followed through such a house fell so. What is thrown
    back then goes to all by area and darkness, and out through the windows. A wall that says its own share keeps it.
    `rows` carry the absorptance in `sunny`.
    """
    said = [-1.0 - row["sunny"] if row["sunny"] < -0.5 else None for row in rows]
    if any(share is not None for share in said):
        return [share or 0.0 for share in said]
    areas = [row["area"] for row in rows]
    takes = [_takes(row, sheets) for row in rows]
    clear = [row["kind"] == CLEAR for row in rows]
    if system.bodies:
        shares, left = _fallen(areas, takes, [not window for window in clear], 1.0)
    else:
        floors = [row["turned"] == LOOKS_UP and row["kind"] == SOLID for row in rows]
        first, left = _fallen(areas, takes, floors, 1.0)
        second, left = _fallen(areas, takes, [not floor for floor in floors], left)
        shares = [one + two for one, two in zip(first, second, strict=True)]
    dark = _thrown([area * take for area, take in zip(areas, takes, strict=True)])
    whole = [one + max(left, 0.0) * part for one, part in zip(shares, dark, strict=True)]
    return [0.0 if window else share for window, share in zip(clear, whole, strict=True)]


def _fallen(
    areas: Sequence[float], takes: Sequence[float], on: Sequence[bool], light: float
) -> tuple[list[float], float]:
    """What each surface keeps of light that falls on some of them by area, and what is then left."""
    parts = _thrown([area if hit else 0.0 for area, hit in zip(areas, on, strict=True)])
    kept = [light * part * take for part, take in zip(parts, takes, strict=True)]
    return kept, light - math.fsum(kept)


def _thrown(weights: Sequence[float]) -> list[float]:
    whole = math.fsum(weights)
    return [weight / whole if whole > 0.0 else 0.0 for weight in weights]


def _takes(row: Mapping[str, float], sheets: Sequence[Sheet]) -> float:
    """What a surface keeps of light that falls on it from inside; a window lets most of it out."""
    if row["kind"] == CLEAR:
        return float(sheets[int(row["sheet"])].diffuse.sum())
    return row["sunny"]
