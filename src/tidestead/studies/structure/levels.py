"""The highest water level at which every check is sound, and at which nothing fails."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from tidestead.core.answer import Verdict
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.studies.judged import Judged
from tidestead.studies.structure.case_checks import every_check
from tidestead.studies.structure.case_facts import Subject, find_case
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
    holds = _highest(_Reach(judged, sound=False), brim, ())
    sound = _highest(_Reach(judged, sound=True), holds, tuple(kept)) if holds is not None else None
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


@dataclass(frozen=True)
class _Reach:
    """Largest use over what is allowed at a level: all of the limit, or what leaves every check its margin."""

    judged: Callable[[float], list[Judged]]
    sound: bool
    looked: dict[float, dict[str, float]] = field(default_factory=dict)

    def __call__(self, level: float) -> float:
        if not self.judged(level):
            return _MOST
        return max(self.each(level).values(), default=0.0)

    def each(self, level: float) -> dict[str, float]:
        """The same of every check by its id."""
        if level not in self.looked:
            self.looked[level] = self._each(level)
        return self.looked[level]

    def _each(self, level: float) -> dict[str, float]:
        reach: dict[str, float] = {}
        for one in self.judged(level):
            if one.by_level:
                use = min(one.use / (1.0 - one.check.near if self.sound else 1.0), _MOST)
                reach[one.check.id] = max(use, reach.get(one.check.id, 0.0))
        return reach


def _judged(subject: Subject, level: float, water: WaterFacts) -> list[Judged]:
    """The checks at a level; none where it cannot be solved, which counts as the worst."""
    try:
        facts = find_case(subject, tried(level, water))
        return every_check(subject, facts, "metric")
    except (SolverError, ImpossibleInput):
        return []


def _highest(reach: _Reach, top: float, looked: Iterable[float]) -> float | None:
    """The highest level whose reach is one or less; None where even the least level has more.

    Uses go about as a power of the depth, each check's as one of its own, so the next look is where the first of
    them crosses one, by the power law through the two looks nearest to it. Near an end of the bracket the look is
    the closeness away from that end. After two looks that gain little the bracket is halved. `looked` are levels
    whose reach is known already.
    """
    if reach(top) <= 1.0:
        return top
    if reach(LEAST) > 1.0:
        return None
    known = sorted({LEAST, top, *(level for level in looked if level > LEAST)})
    low = max(level for level in known if reach(level) <= 1.0 and level < top)
    high = min(level for level in known if reach(level) > 1.0 and level > low)
    poor = 0
    while high - low > CLOSE:
        middle = _next_look(low, high, _crossing(known, reach)) if poor < _MOST_POOR else (low + high) / 2.0
        before = high - low
        if reach(middle) <= 1.0:
            low = middle
        else:
            high = middle
        known.append(middle)
        poor = poor + 1 if poor < _MOST_POOR and high - low > before / 2.0 else 0
    return low


def _next_look(low: float, high: float, place: float) -> float:
    """Where to look when the crossing is thought to be at `place`."""
    middle = place
    if place < low + CLOSE:
        middle = low + _WITHIN * CLOSE
    elif place > high - CLOSE:
        middle = high - _WITHIN * CLOSE
    return min(max(middle, low + CLOSE / 4.0), high - CLOSE / 4.0)


def _crossing(known: list[float], reach: _Reach) -> float:
    """Where the first check crosses one by the power law through the two looks whose reach is nearest to one."""
    low, high = sorted(sorted(known, key=lambda level: abs(math.log(max(reach(level), _LEAST_USE))))[:2])
    under, over = reach.each(low), reach.each(high)
    places = []
    for name, most in over.items():
        least = max(under.get(name, 0.0), _LEAST_USE)
        if most > least:
            power = math.log(most / least) / math.log(high / low)
            places.append(math.log(high) - math.log(most) / power)
    return math.exp(min(max(min(places, default=0.0), math.log(LEAST)), math.log(max(known))))


_WITHIN = 0.98
"""A look this share of the closeness from an end settles the search where it falls on the other side."""

_MOST_POOR = 2
"""Looks that leave more than half of the bracket before it is halved."""

_LEAST_USE = 1e-6
"""Stands for no use at all where a logarithm is taken."""

_MOST = 20.0
"""Uses beyond this steer the search no better."""
