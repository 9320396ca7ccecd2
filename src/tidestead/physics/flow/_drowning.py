"""Head before a crest that has water above it on its far side. Private to this subject."""

from __future__ import annotations

import math

from tidestead.core.dims import CubicMetrePerSecond, Metre, Ratio
from tidestead.core.errors import SolverError
from tidestead.physics.flow._inverse import Rising
from tidestead.physics.flow.laws import HeadBefore

POWER: Ratio = 1.5
LEFT: Ratio = 0.385
"""Exponents of the share of its flow that a drowned crest keeps. Source: Villemonte (1947), as `drowned_share`."""

_STEPS = 60
_CLOSE = 1e-13
_LEAP = 20.0
"""Largest step of the logarithm of a fall."""

_TRICKLE: CubicMetrePerSecond = 1e-18


def head_before(free: Rising, flow: CubicMetrePerSecond, tail: Metre) -> HeadBefore:
    """Head before a crest for a flow, with the water behind it `tail` above the crest (below: negative).

    Sought is the fall x from before to behind, by Newton's steps on the logarithms of x and of the flow: it may be
    a hair of the tail, which a difference of two heads would lose.
    """
    if tail <= 0.0:
        here = free.at(flow)
        return HeadBefore(here.head, here.slope, 0.0)
    flow = max(flow, _TRICKLE)
    alone = free.head(flow)
    fall = alone * min(1.0, alone / tail) ** (1.0 / LEFT - 1.0)
    low, high = 0.0, math.inf
    for _ in range(_STEPS):
        head = tail + fall
        over, gain = free.flow(head)
        kept = -math.expm1(-POWER * math.log1p(fall / tail))
        by_head = gain / over + LEFT * POWER * (1.0 - kept) / (head * kept)
        step = (math.log(flow / over) - LEFT * math.log(kept)) / (fall * by_head)
        if abs(step) <= _CLOSE:
            by_tail = LEFT * POWER * (1.0 - kept) / (tail * kept)
            return HeadBefore(head, 1.0 / (flow * by_head), by_tail / by_head)
        low, high = (fall, high) if step > 0.0 else (low, fall)
        wanted = fall * math.exp(max(min(step, _LEAP), -_LEAP))
        # a bend as sharp as that at the tops of a comb's teeth sends Newton's steps from side to side
        fall = wanted if low < wanted < high else math.sqrt(low * high)
    raise SolverError(
        f"no head was found for a flow of {flow} m3/s over a crest {tail} m under the water behind it"
    )
