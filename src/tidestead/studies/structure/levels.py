"""The highest water level at which every check is sound, and at which nothing fails."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from tidestead.core.answer import Verdict
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.studies.judged import Judged
from tidestead.studies.structure.case_facts import Subject, find_case, judge_case
from tidestead.studies.structure.water import WaterFacts, tried

CLOSE = 0.002
"""A level is found to two millimetres."""

LEAST = 0.05
"""Lower water than this is not looked at, metres."""


@dataclass(frozen=True)
class SafeLevel:
    """Highest depths found. `sound`: every check sound. `holds`: nothing fails. None: not even the least depth.

    `governs` is the check that stops the water at `holds`. `blocked` are checks that fail or are unproven at any
    level: a lower water does not mend them.
    """

    sound: float | None
    holds: float | None
    governs: str
    governs_where: str
    blocked: tuple[str, ...]


def safe_level(subject: Subject, water: WaterFacts) -> SafeLevel:
    """Search both depths between the least depth and the brim. Use grows with depth.

    No depth is given where a part that carries the water is unproven, or fails whatever the depth.
    """
    brim = subject.vessel.brim if subject.vessel.brim is not None else subject.vessel.height
    kept: dict[float, list[Judged]] = {}

    def judged(level: float) -> list[Judged]:
        if level not in kept:
            kept[level] = _judged(subject, level, water)
        return kept[level]

    stuck = [
        one
        for one in judged(brim)
        if one.check.verdict is Verdict.UNPROVEN or (not one.by_level and one.check.verdict is Verdict.FAILS)
    ]
    blocked = tuple(f"{one.check.where}: {one.check.what}" for one in stuck)
    bearing = [one for one in stuck if _bears(one)]
    if bearing:
        return SafeLevel(None, None, bearing[0].check.what, bearing[0].check.where, blocked)
    holds = _highest(lambda level: _reach(judged(level), sound=False), brim, ())
    sound = (
        _highest(lambda level: _reach(judged(level), sound=True), holds, tuple(kept))
        if holds is not None
        else None
    )
    stop = max((one for one in judged(brim) if one.by_level), key=lambda one: one.use, default=None)
    if holds is not None and holds < brim:
        nearest = min(kept, key=lambda level: abs(level - holds))
        stop = max((one for one in kept[nearest] if one.by_level), key=lambda one: one.use, default=stop)
    words = (stop.check.what, stop.check.where) if stop is not None and holds != brim else ("", "")
    return SafeLevel(sound, holds, *words, blocked)


_NOT_BEARING = (".lining.", ".gap", ".temperature", ".seal")
"""Parts of ids of checks without which the vessel still stands."""


def _bears(judged: Judged) -> bool:
    """Whether a check is of something that carries the water."""
    return not any(mark in judged.check.id for mark in _NOT_BEARING)


def _reach(judged: list[Judged], *, sound: bool) -> float:
    """Largest use over what is allowed: all of the limit, or what leaves every check its margin."""
    if not judged:
        return _MOST
    reach = (one.use / (1.0 - one.check.near if sound else 1.0) for one in judged if one.by_level)
    return min(max(reach, default=0.0), _MOST)


def _judged(subject: Subject, level: float, water: WaterFacts) -> list[Judged]:
    """The checks at a level; none where it cannot be solved, which counts as the worst."""
    try:
        facts = find_case(subject, tried(level, water))
        return judge_case(subject, facts, "metric")
    except (SolverError, ImpossibleInput):
        return []


def _highest(reach: Callable[[float], float], top: float, looked: Iterable[float]) -> float | None:
    """The highest level whose reach is one or less; None where even the least level has more.

    Uses go about as a power of the depth, so the next look is where the power law through both ends of the
    bracket crosses one, a little beyond it as seen from the nearer end; a look that gains little halves instead.
    `looked` are levels whose reach is known already.
    """
    if reach(top) <= 1.0:
        return top
    if reach(LEAST) > 1.0:
        return None
    known = [level for level in looked if LEAST < level < top]
    low = max((level for level in known if reach(level) <= 1.0), default=LEAST)
    high = min((level for level in known if reach(level) > 1.0 and level > low), default=top)
    gained = True
    while high - low > CLOSE:
        middle = _crossing(low, high, reach) if gained else (low + high) / 2.0
        before = high - low
        if reach(middle) <= 1.0:
            low = middle
        else:
            high = middle
        gained = high - low < before / 2.0 or not gained
    return low


def _crossing(low: float, high: float, reach: Callable[[float], float]) -> float:
    """Where the power law through both ends crosses one, half the closeness beyond it, and inside the bracket."""
    under, over = math.log(max(reach(low), _LEAST_USE)), math.log(reach(high))
    share = under / (under - over)
    place = low * math.exp(share * math.log(high / low))
    beyond = CLOSE / 2.0 if place - low < high - place else -CLOSE / 2.0
    return min(max(place + beyond, low + CLOSE / 4.0), high - CLOSE / 4.0)


_LEAST_USE = 1e-6
"""Stands for no use at all where a logarithm is taken."""

_MOST = 20.0
"""Uses beyond this steer the search no better."""
