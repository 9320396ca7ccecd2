"""Heads at the junctions of full pipes at which all flows are in balance. Private to this subject."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import TYPE_CHECKING

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


def _square(pipe: Pipe, head: Metre) -> tuple[float, float]:
    """Flow for a head, and how much more for each metre."""
    wide = head + _EVEN
    scale = pipe.flow / sqrt(pipe.head * wide)
    return scale * head, scale * (0.5 * head + _EVEN) / wide


def passed(pipe: Pipe, start: Metre, end: Metre) -> Passed:
    """What goes through a pipe for the heads at its ends."""
    behind = max(end, pipe.end.mouth)
    if start > behind:
        share, fades = covered(start, pipe.start.bare)
        flow, gain = _square(pipe, start - behind)
        return share * flow, share * gain + fades * flow, -share * gain if end >= pipe.end.mouth else 0.0
    behind = max(start, pipe.start.mouth)
    if pipe.one_way or end <= behind:
        return 0.0, 0.0, 0.0
    share, fades = covered(end, pipe.end.bare)
    flow, gain = _square(pipe, end - behind)
    return -share * flow, share * gain if start >= pipe.start.mouth else 0.0, -share * gain - fades * flow


class Web:
    """Pipes, and the heads last found at their junctions."""

    def __init__(self, pipes: Sequence[Pipe], vessels: int) -> None:
        self.pipes = tuple(pipes)
        self._vessels = vessels
        last = max((max(pipe.start.place, pipe.end.place) for pipe in pipes), default=0)
        self.junctions = max(last + 1 - vessels, 0)
        self._heads: list[float] = []

    def settle(self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]) -> None:
        """Find the heads of the junctions; `poured` is what weirs send into each."""
        if not self.junctions:
            return
        if not self._heads:
            self._heads = [float(np.mean(levels))] * self.junctions
        off = self._off(levels, poured)
        for _ in range(_ROUNDS):
            if max(map(abs, off)) <= _BALANCED:
                return
            if not self._newton(levels, poured, off):
                self._one_by_one(levels, poured)
            off = self._off(levels, poured)
        if max(map(abs, off)) > 1e3 * _BALANCED:
            raise SolverError("the flows at a junction find no balance with the pumps off")

    def flows(self, levels: Sequence[Metre]) -> list[float]:
        """Flow in each pipe at the heads found."""
        heads = [*levels, *self._heads]
        return [passed(pipe, heads[pipe.start.place], heads[pipe.end.place])[0] for pipe in self.pipes]

    def rates(self, levels: Sequence[Metre]) -> tuple[Array, Array]:
        """What each place gains, and how much more for each metre at each place. Vessels first."""
        heads, size = [*levels, *self._heads], self._vessels + self.junctions
        rates, gains = [0.0] * size, np.zeros((size, size))
        for pipe in self.pipes:
            one, other = pipe.start.place, pipe.end.place
            flow, at_start, at_end = passed(pipe, heads[one], heads[other])
            rates[one] -= flow
            rates[other] += flow
            gains[one, one] -= at_start
            gains[one, other] -= at_end
            gains[other, one] += at_start
            gains[other, other] += at_end
        return np.array(rates), gains

    def eliminated(self, gains: Array) -> Array:
        """Gains of the vessels alone, the junctions following them at once."""
        count = self._vessels
        if not self.junctions:
            return gains
        inner = gains[count:, count:] - _STRAY * np.eye(self.junctions)
        lone: Array = gains[:count, :count] - gains[:count, count:] @ np.linalg.solve(
            inner, gains[count:, :count]
        )
        return lone

    def _off(self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond]) -> list[float]:
        heads, off = [*levels, *self._heads], [0.0] * self._vessels + list(poured)
        for pipe in self.pipes:
            flow = passed(pipe, heads[pipe.start.place], heads[pipe.end.place])[0]
            off[pipe.start.place] -= flow
            off[pipe.end.place] += flow
        return off[self._vessels :]

    def _newton(
        self, levels: Sequence[Metre], poured: Sequence[CubicMetrePerSecond], off: Sequence[float]
    ) -> bool:
        """One step of Newton's on all heads, halved until it gains; whether it did."""
        step = self._step(levels, off)
        before, size = list(self._heads), sum(one * one for one in off)
        for halving in range(_HALVINGS):
            self._heads = [old + one * 0.5**halving for old, one in zip(before, step, strict=True)]
            if sum(one * one for one in self._off(levels, poured)) < 0.9 * size:
                return True
        self._heads = before
        return False

    def _step(self, levels: Sequence[Metre], off: Sequence[float]) -> list[float]:
        """How far Newton would move each head."""
        count, heads = self._vessels, [*levels, *self._heads]
        if self.junctions > 1:
            slopes = self.rates(levels)[1][count:, count:] - _STRAY * np.eye(self.junctions)
            return list(np.linalg.solve(slopes, -np.array(off)).tolist())
        slope = -_STRAY
        for pipe in self.pipes:
            _, at_start, at_end = passed(pipe, heads[pipe.start.place], heads[pipe.end.place])
            slope += at_end if pipe.end.place == count else 0.0
            slope -= at_start if pipe.start.place == count else 0.0
        return [-off[0] / slope]

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
        return self._off(levels, poured)[at]
