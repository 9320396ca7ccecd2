"""Pieces of a ring with as many straight sides as its tower: how long they are and how their ends are cut."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class RingPiece:
    """One side of a ring: over all from point to point, and how far both ends are cut off square."""

    length: float
    angle: float


def mitred(inner: float, depth: float, sides: int) -> RingPiece:
    """Ends that meet on the line from the middle through the corner; the longest side is the outer one.

        L = 2*(r + d)*tan(pi/n)        angle = pi/n

    r: from the middle to the ring's inner side, d: its depth outward, n: sides.
    """
    turn = math.pi / sides
    return RingPiece(2.0 * (inner + depth) * math.tan(turn), turn)


def halved(inner: float, depth: float, sides: int) -> RingPiece:
    """Ends that lie over each other at half their thickness, each cut along the outer side of the other.

        L = 2*((r + d)*tan(pi/n) + d/tan(2*pi/n))        angle = pi/2 - 2*pi/n, whichever way it leans

    The longest side is the inner one; in a triangle it is the outer one.
    """
    turn = 2.0 * math.pi / sides
    outer = (inner + depth) * math.tan(turn / 2.0)
    return RingPiece(2.0 * max(outer, outer + depth / math.tan(turn)), abs(math.pi / 2.0 - turn))


def bent(inner: float, depth: float) -> RingPiece:
    """A hoop round a tower without corners: its outer girth."""
    return RingPiece(2.0 * math.pi * (inner + depth), 0.0)
