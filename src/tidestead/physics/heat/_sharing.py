"""Shares among the surfaces of a room: of the heat rays they exchange, and of the sun that falls in."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from tidestead.physics.heat._tables import LOOKS_UP
from tidestead.physics.heat.system import Body, Sheet, System

_ROUNDS = 30
_WATER_EMITS = 0.95
"""Emissivity of a water surface. From memory; 0.95 to 0.96 in handbooks."""


def star_shares(
    rows: Sequence[Mapping[str, float]], bodies: Sequence[Body]
) -> tuple[list[float], list[float]]:
    """Per m2, the share in the exchange of each surface with the mean of all: of the chains, and of the bodies.

        1/share = 1/F + (1 - e)/e        F = 1/(1 - A*F/sum(A*F))

    By the method of the mean radiant temperature (Carroll 1980); `rows` carry the emissivity in `star`.
    """
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

    It falls on the floor first, what the floor throws back on all else by area, what is thrown back then on all by
    area and darkness. A wall that says its own share keeps it. `rows` carry the absorptance in `sunny`.
    """
    said = [-1.0 - row["sunny"] if row["sunny"] < -0.5 else None for row in rows]
    if any(share is not None for share in said):
        return [share or 0.0 for share in said]
    areas = [row["area"] for row in rows]
    takes = [_takes(row, sheets) for row in rows]
    floors = [row["turned"] == LOOKS_UP and row["kind"] == 0.0 for row in rows]
    water = sum(body.surface for body in system.bodies)
    first = _thrown([area if floor else 0.0 for area, floor in zip(areas, floors, strict=True)])
    shares = [part * take for part, take in zip(first, takes, strict=True)]
    left = 1.0 - sum(shares)
    rest = _thrown([0.0 if floor else area for area, floor in zip(areas, floors, strict=True)], water)
    second = [left * part * take for part, take in zip(rest, takes, strict=True)]
    left -= sum(second) + left * (1.0 - sum(rest)) if water else sum(second)
    dark = _thrown([area * take for area, take in zip(areas, takes, strict=True)])
    whole = [one + two + max(left, 0.0) * part for one, two, part in zip(shares, second, dark, strict=True)]
    return [0.0 if row["kind"] == 1.0 else share for row, share in zip(rows, whole, strict=True)]


def _thrown(weights: Sequence[float], beside: float = 0.0) -> list[float]:
    whole = math.fsum(weights) + beside
    return [weight / whole if whole > 0.0 else 0.0 for weight in weights]


def _takes(row: Mapping[str, float], sheets: Sequence[Sheet]) -> float:
    """What a surface keeps of light that falls on it from inside; a window lets most of it out."""
    if row["kind"] == 1.0:
        return float(sheets[int(row["sheet"])].diffuse.sum())
    return row["sunny"]
