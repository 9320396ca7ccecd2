"""A plate on two opposite simple sides by Levy's series, exact through the water line. Written for the tests only.

    w = sum over odd m of Y_m(y) * sin(m*pi*x/a)
    Y'''' - 2 k**2 Y'' + k**4 Y = p_m(y)/D,   k = m*pi/a,   p_m = 4/(m*pi) * p(y)

The pressure is a straight line in each zone, so p_m/(D k**4) is a particular solution there.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tidestead.core.dims import Array
from tidestead.physics.structure.plates import Panel, WaterLoad

HIGHEST = 199


@dataclass(frozen=True, eq=False)
class Zone:
    """A part of the height under one straight line of pressure."""

    start: float
    stop: float
    pressure: float
    slope: float

    def parts(self, k: float, y: float) -> Array:
        """Four solutions of the equation without load at a height, each with three derivatives."""
        low, high = np.exp(-k * (y - self.start)), np.exp(-k * (self.stop - y))
        up, down = k * (y - self.start), k * (self.stop - y)
        order = np.arange(4)
        falling, rising = (-k) ** order, k**order
        return np.array(
            [
                falling * low,
                falling * low * (up - order),
                rising * high,
                rising * high * (down - order),
            ]
        )

    def loaded(self, y: float) -> Array:
        """Pressure at a height and its derivatives."""
        return np.array([self.pressure + self.slope * (y - self.start), self.slope, 0.0, 0.0])


def zones(panel: Panel, load: WaterLoad) -> list[Zone]:
    """Wet and dry parts of the height."""
    wet = min(load.head, panel.height)
    found = []
    if wet > 0.0:
        found.append(Zone(0.0, wet, load.pressure + load.weight * load.head, -load.weight))
    if wet < panel.height:
        found.append(Zone(wet, panel.height, load.pressure, 0.0))
    return found


def _conditions(support: str, k: float, nu: float) -> Array:
    """Rows that give what an edge holds at nothing from Y, Y', Y'', Y'''."""
    bend, shear = [-nu * k**2, 0.0, 1.0, 0.0], [0.0, -(2.0 - nu) * k**2, 0.0, 1.0]
    held, turned = [1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0]
    rows = {"simple": (held, bend), "clamped": (held, turned), "free": (bend, shear)}[support]
    return np.array([np.array(row) / max(abs(value) for value in row) for row in rows])


def _amounts(panel: Panel, parts: list[Zone], m: int) -> tuple[float, float, Array]:
    """Wave number, share of the load in this term, and amounts of the four solutions in each zone."""
    k = m * np.pi / panel.width
    share = 4.0 / (m * np.pi) / (panel.rigidity * k**4)
    size = 4 * len(parts)
    matrix, right = np.zeros((size, size)), np.zeros(size)
    scale = k ** -np.arange(4.0)
    for row, (support, zone, y) in enumerate(
        ((panel.edges.bottom, parts[0], parts[0].start), (panel.edges.top, parts[-1], parts[-1].stop))
    ):
        place = slice(0, 4) if row == 0 else slice(size - 4, size)
        wanted = _conditions(support, k, panel.poisson)
        wanted = wanted / np.abs(wanted * k ** np.arange(4.0)).max(axis=1, keepdims=True)
        matrix[2 * row : 2 * row + 2, place] = wanted @ zone.parts(k, y).T
        right[2 * row : 2 * row + 2] = -wanted @ (share * zone.loaded(y))
    for number, (below, above) in enumerate(pairwise(parts)):
        rows = slice(4 + 4 * number, 8 + 4 * number)
        matrix[rows, 4 * number : 4 * number + 4] = scale[:, None] * below.parts(k, below.stop).T
        matrix[rows, 4 * number + 4 : 4 * number + 8] = -scale[:, None] * above.parts(k, below.stop).T
        right[rows] = scale * share * (above.loaded(below.stop) - below.loaded(below.stop))
    found = np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    return k, share, found.reshape(len(parts), 4)


def shapes(panel: Panel, load: WaterLoad, y: float) -> tuple[Array, Array]:
    """Wave numbers, and Y with three derivatives at a height for each of them."""
    parts = zones(panel, load)
    number = min(int(np.searchsorted([zone.stop for zone in parts], y)), len(parts) - 1)
    waves, found = [], []
    for m in range(1, HIGHEST + 1, 2):
        k, share, amounts = _amounts(panel, parts, m)
        waves.append(k)
        found.append(amounts[number] @ parts[number].parts(k, y) + share * parts[number].loaded(y))
    return np.array(waves), np.array(found)


def levy_fields(panel: Panel, load: WaterLoad, x: float, y: float) -> tuple[float, float, float, float]:
    """Bow, mx, my, mxy at a point."""
    k, term = shapes(panel, load, y)
    sine, cosine = np.sin(k * x), np.cos(k * x)
    xx, yy = float(-(k**2 * term[:, 0]) @ sine), float(term[:, 2] @ sine)
    xy = float((k * term[:, 1]) @ cosine)
    stiff, nu = panel.rigidity, panel.poisson
    bow = float(term[:, 0] @ sine)
    return bow, -stiff * (xx + nu * yy), -stiff * (yy + nu * xx), -stiff * (1.0 - nu) * xy


def levy_sill(panel: Panel, load: WaterLoad, x: float) -> float:
    """Push on a metre of the bottom edge at a place along it."""
    k, term = shapes(panel, load, 0.0)
    terms = -panel.rigidity * (term[:, 3] - (2.0 - panel.poisson) * k**2 * term[:, 1]) * np.sin(k * x)
    sums = np.cumsum(terms)
    return float(0.25 * (sums[-1] + 2.0 * sums[-2] + sums[-3]))


def levy_sill_total(panel: Panel, load: WaterLoad) -> float:
    """Push on the whole bottom edge, without its corners."""
    k, term = shapes(panel, load, 0.0)
    terms = -panel.rigidity * (term[:, 3] - (2.0 - panel.poisson) * k**2 * term[:, 1])
    return float(terms @ (2.0 / k))
