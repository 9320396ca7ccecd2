"""Loads that grow evenly over part of a bar, many at once: their integrals and their point equivalents.

Private to this subject; beams on props (one direction) and frames (three) share it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput

_PLACES = (1.0 + np.sqrt(0.6) * np.array([-1.0, 0.0, 1.0])) / 2.0
_SHARES = np.array([5.0, 8.0, 5.0]) / 18.0
"""Places and shares of the three-point rule, exact to the fifth power. Source: Gauss-Legendre quadrature."""

_FACTORIAL = (1.0, 1.0, 2.0, 6.0, 24.0, 120.0)


@dataclass(frozen=True)
class LineLoads:
    """Loads by number: the bar each lies on, from `start` to `end` of it, growing from `first` to `last`.

    `lengths` are of the bars. `first` and `last` have one row per load and one column per direction.
    """

    lengths: Array
    bar: NDArray[np.intp]
    start: Array
    end: Array
    first: Array
    last: Array

    def __post_init__(self) -> None:
        bar, lengths = self.bar, self.lengths
        if len(bar) and (bar.min() < 0 or bar.max() >= len(lengths)):
            raise ImpossibleInput(f"a load lies on span {bar.max()}, but there are only {len(lengths)}")
        within = (self.start >= 0.0) & (self.end <= lengths[bar] * (1.0 + 1e-9)) & (self.end > self.start)
        if not np.all(within) or not np.all(np.isfinite([self.first, self.last])):
            raise ImpossibleInput("a load must lie within its bar, start before it ends, and be finite")

    def per_bar(self, values: Array) -> Array:
        """Sum per bar of values given one per load."""
        if len(self.lengths) == 1:
            alone: Array = values.sum(axis=0, keepdims=True)
            return alone
        shape = len(self.lengths), *values.shape[1:]
        each = math.prod(values.shape[1:])
        place = self.bar[:, None] * each + np.arange(each)
        total = np.bincount(place.ravel(), values.ravel(), len(self.lengths) * each)
        return np.asarray(total, dtype=np.float64).reshape(shape)

    def points(self) -> tuple[Array, Array]:
        """Places (loads, 3) on the bar and forces (loads, 3, directions) that stand for each load."""
        run = self.end - self.start
        grown = (self.last - self.first)[:, None, :] * _PLACES[:, None]
        forces = (self.first[:, None, :] + grown) * (run[:, None] * _SHARES)[:, :, None]
        return self.start[:, None] + run[:, None] * _PLACES, forces

    def integrals(self, places: Array, orders: tuple[int, ...]) -> tuple[Array, ...]:
        """The loads integrated so many times from the start of each bar: (bars, stations, directions) for each order.

        By Macaulay's brackets: <x - a>**n/n! for a load that begins at a, and its slope one power higher.
        """
        slope = ((self.last - self.first) / (self.end - self.start)[:, None])[:, None, :]
        first, last = self.first[:, None, :], self.last[:, None, :]
        at = places[self.bar]
        after = np.maximum(at - self.start[:, None], 0.0)[:, :, None]
        beyond = np.maximum(at - self.end[:, None], 0.0)[:, :, None]
        powers = {
            power: (after**power, beyond**power) for power in {*orders, *(order + 1 for order in orders)}
        }
        found = []
        for order in orders:
            (after_low, beyond_low), (after_high, beyond_high) = powers[order], powers[order + 1]
            level = first * after_low - last * beyond_low
            steep = slope * (after_high - beyond_high)
            found.append(self.per_bar(level / _FACTORIAL[order] + steep / _FACTORIAL[order + 1]))
        return tuple(found)
