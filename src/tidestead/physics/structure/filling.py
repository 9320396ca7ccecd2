"""The first fill in steps: what should be measured at each, how long to wait, when to stop and drain.

Bow follows load in proportion, so that it can be computed for every depth before the water comes. Timber and
acrylic then creep: the bow at the end of a hold is the bow at once and a small part of what creep adds in years.
More than that, or more than is allowed for good, means that something else gives: stop and drain to the step before.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from tidestead.core.dims import Hour, Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

SHARES: tuple[Ratio, ...] = (0.25, 0.5, 0.75, 1.0)
"""Steps of the first fill. Source: hydrostatic test procedures for storage tanks (four stages, each with a
time to settle)."""

HOLD_BETWEEN: Hour = 24.0
HOLD_FULL: Hour = 72.0
"""How long to wait at a step, and at the top. Source: common practice, no source (24 to 72 hours)."""

READING_ERROR: Metre = 0.5e-3
"""How well a builder reads a rule against a string. Source: common practice, no source."""

CREEP_IN_HOLD: Ratio = 0.25
"""Share of what creep adds in years that may show by the end of a hold. Source: common practice, no source: creep
that goes on with the fourth or fifth root of time has done 0.1 to 0.25 of ten years' work in three days."""

Reading = Literal["go on", "wait", "stop and drain"]


@dataclass(frozen=True)
class FillStep:
    """One step of the first fill. Outward is above nothing, inward below.

    Readings further outward than `stop_above` or further inward than `stop_below` mean stop and drain.
    """

    share: Ratio
    depth: Metre
    at_once: Metre
    lasting: Metre
    stop_above: Metre
    stop_below: Metre
    hold: Hour


def fill_steps(
    bow_at: Callable[[Metre], Metre], depth: Metre, creep_rise: Ratio, allowed: Metre = math.inf
) -> tuple[FillStep, ...]:
    """Bow to expect at one point at each step of the first fill.

        at once = bow(depth)      lasting = bow(depth) * creep rise
        more = a quarter of |lasting - at once| + reading error
        stop above = the lesser of allowed and at once + more
        stop below = the greater of -allowed and the lesser of at once and 0, less more

    `bow_at` gives the short-term bow at that point for a depth of water, less than nothing where it moves inward.
    `creep_rise` is the lasting bow over the bow at once: 2 for wood in a humid house, one over the creep ratio for
    acrylic, 1 for glass. `allowed` is the bow that is allowed for good.
    Source: linear elasticity for the bow; common practice, no source, for steps, holds and the rule to stop.
    Valid:  small bow; a structure that carries in the same way at every depth. A seat that only pushes does
            not quite.
    """
    _refuse.not_positive(depth=depth)
    if creep_rise < 1.0:
        raise ImpossibleInput(f"nothing bows less with time under the same water, got a rise of {creep_rise}")
    steps = []
    for share in SHARES:
        at_once = bow_at(share * depth)
        lasting = at_once * creep_rise
        hold = HOLD_FULL if share == SHARES[-1] else HOLD_BETWEEN
        more = CREEP_IN_HOLD * abs(lasting - at_once) + READING_ERROR
        outward, inward = min(at_once + more, allowed), max(min(at_once, 0.0) - more, -allowed)
        steps.append(FillStep(share, share * depth, at_once, lasting, outward, inward, hold))
    return tuple(steps)


def judge_reading(step: FillStep, bow: Metre, bow_before: Metre | None) -> Reading:
    """What to do after a reading at the end of a hold, given the reading some hours before it.

        further out or further in than where to stop: stop and drain
        no reading before it, or still moving by more than the reading error: wait
        else: go on

    Source: common practice, no source.
    Valid:  readings at the point the steps were computed for, from the same mark, before and after.
    """
    if not step.stop_below <= bow <= step.stop_above:
        return "stop and drain"
    if bow_before is None or abs(bow - bow_before) > READING_ERROR:
        return "wait"
    return "go on"
