"""Raking struts: how long they are and how their ends are cut, from reach and height."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.build.takeoff.gathered import Gathered
from tidestead.core.units import show


@dataclass(frozen=True)
class Strut:
    """A strut cut level at both ends: over all along its own length, and how far its ends are off square."""

    length: float
    angle: float

    def told(self, gathered: Gathered, reach: float, height: float) -> str:
        """How it follows."""
        angle = show(self.angle, "rad", gathered.system)
        return (
            f"head {gathered.told(height)} up, foot {gathered.told(reach)} out to its outside, both ends level, "
            f"{angle} off square"
        )


def strut_of(reach: float, height: float, depth: float) -> Strut | None:
    """The strut whose head touches the wall at `height` and whose foot ends `reach` out; None where it has no lean.

    Both ends are level. `a` is how far the axis moves outward; each level end is d/cos(angle) wide, so that

        a = reach - d*sqrt(a**2 + height**2)/height
        angle = atan(a/height)                        length = (reach*a + height**2)/sqrt(a**2 + height**2)
    """
    if height <= 0.0 or reach <= depth:
        return None
    if math.isclose(height, depth):
        lean = (reach**2 - depth**2) / (2.0 * reach)
    else:
        root = reach**2 * height**4 - (height**2 - depth**2) * height**2 * (reach**2 - depth**2)
        lean = (reach * height**2 - math.sqrt(max(root, 0.0))) / (height**2 - depth**2)
    axis = math.hypot(lean, height)
    return Strut((reach * lean + height**2) / axis, math.atan2(lean, height))
