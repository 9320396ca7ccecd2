"""Heads at the junctions of full pipes at which all flows are in balance. Private to this subject."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from tidestead.core.dims import Array, CubicMetrePerSecond, Metre
from tidestead.core.errors import SolverError

if TYPE_CHECKING:
    from tidestead.physics.flow.webs import Pipe

_EVEN: Metre = 1e-6
"""Head below which a flow falls with the head itself, so that its slope stays finite."""

_FADES: Metre = 1e-3
"""Last depth over a bare mouth in which its flow fades, so that steps do not chatter."""

_BALANCED: CubicMetrePerSecond = 1e-13
_ROUNDS, _HALVINGS, _BISECTIONS = 60, 12, 200
_STRAY = 1e-12
"""Slope that keeps the matrix whole where nothing flows."""

Passed = tuple[float, float, float]
"""A flow, and how much more of it for each metre at the start, and at the end."""


def covered(level: Metre, bare: Metre) -> tuple[float, float]:
    """Share of its flow that a mouth gives, and how fast it grows with the level."""
    share = (level - bare) / _FADES
    if share >= 1.0:
        return 1.0, 0.0
    return (share, 1.0 / _FADES) if share > 0.0 else (0.0, 0.0)


class _Flat(NamedTuple):
    """A pipe as plain numbers: places of its ends, mouths, bare levels, flow under a metre of head."""

    start: int
    end: int
    start_mouth: float
    start_bare: float
    end_mouth: float
    end_bare: float
    scale: float
    one_way: bool


def _flat(pipe: Pipe) -> _Flat:
    start, end = pipe.start, pipe.end
    scale = float(pipe.flow) / sqrt(pipe.head)  # sums with a scalar of numpy take several times as long
    return _Flat(start.place, end.place, start.mouth, start.bare, end.mouth, end.bare, scale, pipe.one_way)


def _square(scale: float, head: float, over: float) -> tuple[float, float, float]:
    """Flow for a head at the end it comes from, and how much more for each metre there, and at the other end."""
    wide = head + _EVEN
    rate = scale / sqrt(wide)
    flow, gain = rate * head, rate * (0.5 * head + _EVEN) / wide
    if over >= _FADES:
        return flow, gain, gain
    share, fades = covered(over, 0.0)
    return share * flow, share * gain + fades * flow, share * gain


def _passed(pipe: _Flat, start: float, end: float) -> Passed:
    """What goes through a pipe for the heads at its ends."""
    _, _, start_mouth, start_bare, end_mouth, end_bare, scale, one_way = pipe
    behind = end if end > end_mouth else end_mouth
    if start > behind:
        flow, near, far = _square(scale, start - behind, start - start_bare)
        return flow, near, -far if end >= end_mouth else 0.0
    behind = start if start > start_mouth else start_mouth
    if one_way or end <= behind:
        return 0.0, 0.0, 0.0
    flow, near, far = _square(scale, end - behind, end - end_bare)
    return -flow, far if start >= start_mouth else 0.0, -near


Matrix = list[list[float]]


class Web:
    """Pipes, and the heads last found at their junctions."""

    def __init__(self, pipes: Sequence[Pipe], vessels: int) -> None:
        self._pipes = tuple(map(_flat, pipes))
        self._vessels = vessels
        last = max((max(pipe.start, pipe.end) for pipe in self._pipes), default=0)
        self.junctions = max(last + 1 - vessels, 0)
        self._meeting = tuple(pipe for pipe in self._pipes if max(pipe.start, pipe.end) >= vessels)
        self._heads: list[float] = []

    def settle(self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]) -> None:
        """Find the heads of the junctions; `poured` is what weirs send into each."""
        if not self.junctions:
            return
        if not self._heads:
            self._heads = [float(np.mean(levels))] * self.junctions
        off, slopes = self._balance(levels, poured)
        if self.junctions == 1 and self._settled_alone(levels, poured, off[0], slopes[0][0]):
            return
        for _ in range(_ROUNDS):
            if max(map(abs, off)) <= _BALANCED:
                return
            found = self._newton(levels, poured, off, slopes)
            if found is None:
                self._one_by_one(levels, poured)
            off, slopes = found or self._balance(levels, poured)
        if max(map(abs, off)) > 1e3 * _BALANCED:
            raise SolverError("the flows at a junction find no balance with the pumps off")

    def _settled_alone(
        self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond], off: float, slope: float
    ) -> bool:
        """Full steps of Newton's for the head of a lone junction; whether each gained and they came to rest.

        Where one does not, the head is as it was before.
        """
        heads, junction = [*levels, *self._heads], self._vessels
        for _ in range(_ROUNDS):
            if abs(off) <= _BALANCED:
                self._heads = heads[junction:]
                return True
            heads[junction] -= off / (slope - _STRAY)
            size, off, slope = off * off, poured[0], 0.0
            for pipe in self._meeting:
                flow, at_start, at_end = _passed(pipe, heads[pipe.start], heads[pipe.end])
                if pipe.start == junction:
                    off -= flow
                    slope -= at_start
                else:
                    off += flow
                    slope += at_end
            if off * off >= 0.9 * size:
                return False
        return False

    def flows(self, levels: Sequence[Metre]) -> list[float]:
        """Flow in each pipe at the heads found."""
        heads = [*levels, *self._heads]
        return [_passed(pipe, heads[pipe.start], heads[pipe.end])[0] for pipe in self._pipes]

    def rates(self, levels: Sequence[Metre]) -> tuple[list[float], Matrix]:
        """What each place gains, and how much more for each metre at each place. Vessels first."""
        heads, size = [*levels, *self._heads], self._vessels + self.junctions
        rates, gains = [0.0] * size, [[0.0] * size for _ in range(size)]
        for pipe in self._pipes:
            one, other = pipe.start, pipe.end
            flow, at_start, at_end = _passed(pipe, heads[one], heads[other])
            rates[one] -= flow
            rates[other] += flow
            gains[one][one] -= at_start
            gains[one][other] -= at_end
            gains[other][one] += at_start
            gains[other][other] += at_end
        return rates, gains

    def eliminated(self, gains: Matrix) -> Array:
        """Gains of the vessels alone, the junctions following them at once."""
        count = self._vessels
        if self.junctions == 1:
            last = gains[count]
            shares = [row[count] / (last[count] - _STRAY) for row in gains[:count]]
            return np.array(
                [
                    [gain - share * below for gain, below in zip(row, last[:count], strict=False)]
                    for row, share in zip(gains, shares, strict=False)
                ]
            )
        whole = np.array(gains)
        if not self.junctions:
            return whole
        inner = whole[count:, count:] - _STRAY * np.eye(self.junctions)
        below = whole[count:, :count]
        lone: Array = whole[:count, :count] - whole[:count, count:] @ np.linalg.solve(inner, below)
        return lone

    def _balance(
        self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]
    ) -> tuple[list[float], Matrix]:
        """What each junction gains at the heads that are tried, and the slopes of that."""
        heads, first, off = [*levels, *self._heads], self._vessels, list(poured)
        slopes = [[0.0] * self.junctions for _ in off]
        for pipe in self._meeting:
            one, other = pipe.start - first, pipe.end - first
            flow, at_start, at_end = _passed(pipe, heads[pipe.start], heads[pipe.end])
            if one >= 0:
                off[one] -= flow
                slopes[one][one] -= at_start
            if other >= 0:
                off[other] += flow
                slopes[other][other] += at_end
            if one >= 0 and other >= 0:
                slopes[one][other] -= at_end
                slopes[other][one] += at_start
        return off, slopes

    def _newton(
        self,
        levels: Sequence[Metre],
        poured: Sequence[CubicMetrePerSecond],
        off: Sequence[float],
        slopes: Matrix,
    ) -> tuple[list[float], Matrix] | None:
        """One step of Newton's on all heads, halved until it gains; the balance then, None where it does not."""
        step = self._step(off, slopes)
        before, size = list(self._heads), sum(one * one for one in off)
        for halving in range(_HALVINGS):
            self._heads = [old + one * 0.5**halving for old, one in zip(before, step, strict=True)]
            found = self._balance(levels, poured)
            if sum(one * one for one in found[0]) < 0.9 * size:
                return found
        self._heads = before
        return None

    def _step(self, off: Sequence[float], slopes: Matrix) -> list[float]:
        """How far Newton would move each head."""
        if self.junctions > 1:
            steep = np.array(slopes) - _STRAY * np.eye(self.junctions)
            return list(np.linalg.solve(steep, -np.array(off)).tolist())
        return [-off[0] / (slopes[0][0] - _STRAY)]

    def _one_by_one(self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]) -> None:
        """Each head in turn brought into balance with the others, between bounds."""
        for at in range(self.junctions):
            low, high = self._heads[at] - 1.0, self._heads[at] + 1.0
            while self._gain_at(at, low, levels, poured) < 0.0 and high - low < 1e4:
                low -= 2.0 * (high - low)
            while self._gain_at(at, high, levels, poured) > 0.0 and high - low < 1e4:
                high += 2.0 * (high - low)
            for _ in range(_BISECTIONS):
                middle = 0.5 * (low + high)
                if not low < middle < high:
                    break
                found = self._gain_at(at, middle, levels, poured)
                if found == 0.0:
                    low = high = middle
                low, high = (middle, high) if found > 0.0 else (low, middle)
            self._heads[at] = 0.5 * (low + high)

    def _gain_at(
        self, at: int, head: Metre, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]
    ) -> float:
        self._heads[at] = head
        return self._balance(levels, poured)[0][at]
