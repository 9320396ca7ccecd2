"""What presses under a stiff foot of any convex outline whose load stands off its middle."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Metre, Metre4, Newton, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure.towers import FootingPressure

_ROUNDS = 80
"""Halvings in the search for the line at which the foot lifts off: more than a double can tell apart."""


def foot_pressure(load: Newton, eccentricity: Metre, outline: Array) -> FootingPressure:
    """Pressure under a stiff foot whose load stands off its middle, towards +x.

        all touching:  p = N/A * (1 + e*x*A/I)      I: second moment of the outline about y
        else:          p = k*(x - x0), nothing where x < x0; k and x0 so that its sum is N and its centre lies at e
        e >= largest x: it tips, endless pressure on no width

    `outline` are the corners of a convex foot in turn, (n, 2), in metres. Single numbers only. Many corners stand
    for a round foot.
    Source: elementary strength of materials; the part that lifts is left out, since ground cannot pull.
    Valid:  stiff foot on ground that yields in proportion. A foot with other axes than x and y of symmetry tilts
            sideways too: turn it so that one is along x.
    """
    _refuse.negative(load=load, eccentricity=eccentricity)
    corners = _centred(np.asarray(outline, dtype=float))
    far, near = float(corners[:, 0].max()), float(corners[:, 0].min())
    area, _, second = _sums(corners)
    slope = eccentricity * area / second
    if 1.0 + slope * near >= -1e-12:
        mean = load / area
        least = max(mean * (1.0 + slope * near), 0.0)
        return FootingPressure(mean * (1.0 + slope * far), least, far - near)
    if eccentricity >= far:
        return FootingPressure(float("inf"), 0.0, 0.0)
    low, high = near, far
    for _ in range(_ROUNDS):
        middle = (low + high) / 2.0
        low, high = (low, middle) if _centre(corners, middle) > eccentricity else (middle, high)
    lift = (low + high) / 2.0
    touching, first, _ = _sums(_beyond(corners, lift))
    return FootingPressure(load * (far - lift) / (first - lift * touching), 0.0, far - lift)


def _centre(corners: Array, lift: Metre) -> Metre:
    """Where the push of a foot acts that lifts off at `lift`."""
    area, first, second = _sums(_beyond(corners, lift))
    return (second - lift * first) / (first - lift * area)


def _sums(corners: Array) -> tuple[SquareMetre, float, Metre4]:
    """Area of a polygon, and its first and second moment about the y axis, by the sums of its corners."""
    x, y = corners.T
    after_x, after_y = np.roll(x, -1), np.roll(y, -1)
    cross = x * after_y - after_x * y
    return (
        float(cross.sum() / 2.0),
        float(((x + after_x) * cross).sum() / 6.0),
        float(((x**2 + x * after_x + after_x**2) * cross).sum() / 12.0),
    )


def _centred(outline: Array) -> Array:
    """The outline anticlockwise about its middle."""
    if outline.ndim != 2 or outline.shape[0] < 3 or outline.shape[1] != 2:
        raise ImpossibleInput("a foot has three corners at least, each with x and y")
    x, y = outline.T
    area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2.0)
    if area == 0.0:
        raise ImpossibleInput("a foot without area presses on nothing")
    turned = outline if area > 0.0 else outline[::-1]
    middle_x = _sums(turned)[1] / abs(area)
    middle_y = _sums(turned[:, ::-1][::-1])[1] / abs(area)
    centred: Array = turned - np.array([middle_x, middle_y])
    return centred


def _beyond(corners: Array, lift: Metre) -> Array:
    """The part of a convex polygon at x > lift."""
    kept: list[tuple[float, float]] = []
    for (x, y), (after_x, after_y) in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        if x >= lift:
            kept.append((x, y))
        if (x - lift) * (after_x - lift) < 0.0:
            share = (lift - x) / (after_x - x)
            kept.append((lift, y + share * (after_y - y)))
    return np.asarray(kept)
