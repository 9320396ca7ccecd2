"""The highest water level at which every check is sound, and at which nothing fails."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tidestead.core.answer import Verdict
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.studies.structure.case_facts import Subject, find_case, judge_case
from tidestead.studies.structure.judged import Judged
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
    """Search both depths by halving, between the least depth and the brim. Use grows with depth."""
    brim = subject.vessel.brim if subject.vessel.brim is not None else subject.vessel.height
    at_brim = _judged(subject, brim, water)
    if at_brim is None:
        return SafeLevel(None, None, "", "", ("the structure could not be solved",))
    blocked = tuple(
        f"{one.check.where}: {one.check.what}"
        for one in at_brim
        if not one.by_level and one.check.verdict in (Verdict.FAILS, Verdict.UNPROVEN)
    )
    kept = {brim: at_brim}

    def worst(level: float, wanted: Callable[[Judged], bool]) -> Judged | None:
        if level not in kept:
            kept[level] = _judged(subject, level, water) or at_brim
        failing = [one for one in kept[level] if one.by_level and not wanted(one)]
        return max(failing, key=lambda one: one.use, default=None)

    holds = _highest(lambda level: worst(level, _holds), brim)
    sound = _highest(lambda level: worst(level, _sound), holds if holds is not None else brim) if holds else None
    stop = worst(min(brim, (holds or LEAST) + 2.0 * CLOSE), _holds)
    return SafeLevel(
        sound, holds, stop.check.what if stop else "", stop.check.where if stop else "", blocked
    )


def _holds(one: Judged) -> bool:
    return one.check.verdict in (Verdict.SOUND, Verdict.NEAR)


def _sound(one: Judged) -> bool:
    return one.check.verdict is Verdict.SOUND


def _judged(subject: Subject, level: float, water: WaterFacts) -> list[Judged] | None:
    try:
        facts = find_case(subject, tried(level, water))
        return judge_case(subject, facts, "metric")
    except (SolverError, ImpossibleInput):
        return None


def _highest(worst: Callable[[float], Judged | None], top: float) -> float | None:
    """The highest level with nothing to complain of; None where even the least level has."""
    if worst(top) is None:
        return top
    if worst(LEAST) is not None:
        return None
    low, high = LEAST, top
    while high - low > CLOSE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if worst(middle) is None else (low, middle)
    return low
