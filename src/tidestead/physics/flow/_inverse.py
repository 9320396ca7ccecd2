"""Head for a flow where a formula gives flow for a head, and the reverse. Private to this subject."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, isinf

from tidestead.core.dims import CubicMetrePerSecond, Metre
from tidestead.core.errors import SolverError
from tidestead.physics.flow.laws import HeadAt, Law

_STEPS = 90
_CLOSE = 1e-13
_NUDGE = 1e-6
_EVEN = 1e-7
"""Last step that ends the search; Newton's next would be its square."""

_PATIENCE = 30
"""Steps of Newton's before the search goes over to halving."""

_ONWARD = 1.5
"""Times the head by which the search goes on where nothing bounds it from above."""

_TRICKLE: CubicMetrePerSecond = 1e-9


class Rising:
    """The reverse of a rising flow-for-head formula, for one flow at a time.

    Below the head `from_head` the formula gives way to a parabola through nothing that meets it in value and
    slope, so that the slope stays finite; a flow of the wrong sign runs on along the parabola's first slope.
    `gain_at` is the formula's slope; where it is not known it is found by a nudge either way.
    """

    def __init__(
        self,
        flow_at: Callable[[Metre], CubicMetrePerSecond],
        from_head: Metre,
        gain_at: Callable[[Metre], float] | None = None,
    ) -> None:
        self._flow_at, self._gain_at = flow_at, gain_at
        self._head = from_head
        self._flow, gain = self._with_gain(from_head)
        # head = first*q + bend*q**2; both ends of the parabola rise where 0 < slope*flow < 2*head
        over = min(max(self._flow / gain / from_head, 0.05), 1.95)
        self._first = (2.0 - over) * from_head / self._flow
        self._bend = (over - 1.0) * from_head / self._flow**2

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope at a flow of either sign."""
        if flow <= 0.0:
            return HeadAt(self._first * flow, self._first)
        if flow <= self._flow:
            return HeadAt((self._first + self._bend * flow) * flow, self._first + 2.0 * self._bend * flow)
        head = self.head(flow)
        return HeadAt(head, 1.0 / self._with_gain(head)[1])

    def head(self, flow: CubicMetrePerSecond) -> Metre:
        """Head at a flow that is not negative, by Newton's steps on the logarithms, kept between bounds.

        Without bounds they leap from side to side of a bend as sharp as that at the tops of a comb's teeth. When
        they have not found it in a while, what lies between the bounds is halved, so that a bend in the very head that
        is sought ends the search too.
        """
        if flow <= self._flow:
            return (self._first + self._bend * flow) * flow
        low, high = self._head, inf
        head: Metre = self._head * (flow / self._flow) ** (2.0 / 3.0)
        for number in range(_STEPS):
            got, gain = self._with_gain(head)
            low, high = (head, high) if got < flow else (low, head)
            wanted: Metre = head * (flow / got) ** (got / (gain * head))
            if abs(wanted - head) <= _CLOSE * wanted:
                return wanted
            if isinf(high):
                head = wanted if wanted > head else _ONWARD * head
            elif high - low <= _CLOSE * high:
                return head
            else:
                head = wanted if low < wanted < high and number < _PATIENCE else (low * high) ** 0.5
        raise SolverError(f"no head was found for a flow of {flow} m3/s")

    def passed(self, head: Metre) -> CubicMetrePerSecond:
        """Flow at a head above nothing."""
        return float(self._flow_at(head)) if head >= self._head else self.flow(head)[0]

    def flow(self, head: Metre) -> tuple[CubicMetrePerSecond, float]:
        """Flow at a head above nothing, and how much more for each metre of head."""
        if head >= self._head:
            return self._with_gain(head)
        root = (self._first**2 + 4.0 * self._bend * head) ** 0.5
        return 2.0 * head / (self._first + root), 1.0 / root

    def _with_gain(self, head: Metre) -> tuple[float, float]:
        """Flow at a head, and how much more for each metre of head."""
        flow = float(self._flow_at(head))
        if self._gain_at is not None:
            return flow, self._gain_at(head)
        step = head * _NUDGE
        return flow, (float(self._flow_at(head + step)) - float(self._flow_at(head - step))) / (2.0 * step)


def flow_of(law: Law, head: Metre, guess: CubicMetrePerSecond) -> tuple[CubicMetrePerSecond, float]:
    """The flow at which a law takes a head above nothing, and how much more for each metre of head.

    Newton's steps on the logarithms, on which laws are nearly straight, kept between bounds.
    """
    low, high, flow = 0.0, inf, max(guess, _TRICKLE)
    for _ in range(_STEPS):
        here = law.at(flow)
        if isinf(here.slope) or (here.head >= head and flow <= _TRICKLE):
            return 0.0, 0.0
        low, high = (flow, high) if here.head < head else (low, flow)
        bend = here.head / (flow * here.slope) if here.head > 0.0 else 0.0
        wanted = flow * (head / here.head) ** bend if bend > 0.0 else 0.0
        if not low < wanted < high and wanted != flow:
            wanted = 0.5 * (low + high) if high < inf else 4.0 * flow
        if abs(wanted - flow) <= _EVEN * wanted:
            return wanted, 1.0 / here.slope
        flow = max(wanted, _TRICKLE)
    raise SolverError(f"no flow was found for a head of {head} m")
