"""Whether what leaves a vessel by its own weight can carry all of it, each way alone and each way blocked."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from tidestead.plan.model import Plan
from tidestead.studies.flow.adverse import most_water
from tidestead.studies.flow.doubts import doubts_of
from tidestead.studies.flow.elements import Stock
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import gravity_lines, leads_to, onward_of, top_of
from tidestead.studies.flow.heights import brim_of
from tidestead.studies.flow.held_back import Held, held_back
from tidestead.studies.flow.overflows import overflow_facts, span_over
from tidestead.studies.flow.solving import Trial, all_tried, highest_levels

RISES = 1e-3
"""Metres by which a vessel must stand higher in a trial than it does now to count as backed up by it."""


@dataclass(frozen=True)
class Tightest:
    """The vessel with the least room to its brim in a trial, its brim, its level, and the highest that may be.

    `passed` comes in, and goes out, at that level. The highest is by the range of the heads over its crest, with `most`
    the flow that it is found for.
    """

    vessel: str
    brim: float
    level: float
    highest: float
    passed: tuple[float, float]
    most: float


@dataclass(frozen=True)
class DrainFacts:
    """One vessel. Levels above the datum; None where the trial has no solution, or one that is not to be trusted.

    `alone` and `blocked` are levels by line, with every other way shut and with this one shut. By the same two words
    and the line, `tightest` is the vessel nearest to its brim then, this one or one that it backs up, and `doubts`
    why a trial is not to be trusted. `held` is what comes where every way is shut. `doubt` says why none of it holds.
    `sole` is a line that carries all of it, so that nothing is left where it is blocked; `left` are the ways that are,
    by the line blocked. `tops` are the levels over which each line must be reached: its lips, else its mouth.
    """

    vessel: str
    flow: float
    brim: float
    level: float
    lines: tuple[str, ...]
    alone: Mapping[str, float | None]
    blocked: Mapping[str, float | None]
    held: Held
    tops: Mapping[str, float]
    tightest: Mapping[tuple[str, str], Tightest]
    doubts: Mapping[tuple[str, str], str]
    doubt: str = ""
    sole: str = ""
    left: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def drain_facts(
    plan: Plan,
    stock: Stock,
    lines: tuple[Line, ...],
    standing: tuple[Mapping[str, float], tuple[frozenset[str], ...]],
    running: Running,
) -> tuple[DrainFacts, ...]:
    """Every vessel that water is sent into, but the sumps. `standing` are fixed levels, and groups of places."""
    fixed, groups = standing
    highest = highest_levels(plan, fixed)
    held: dict[str, Held] = {}
    for group in groups:
        held |= held_back(plan, lines, running, {key: highest[key] for key in fixed if key in group}, group)
    doubts = doubts_of(plan, lines, running)
    found = {key: gravity_lines(plan, lines, key) for key in running.inflow if key not in fixed}
    ways = {key: some for key, some in found.items() if some and running.inflow[key] > 0.0}
    asked = []
    for key, some in ways.items():
        adverse = most_water(plan, stock, lines, fixed, running, key) if len(some) > 1 else lines
        asked.append(_Asked(plan, lines, adverse, fixed, highest, running, key, some))
    trials = _trials(asked)
    return tuple(_facts(one, trials[one.key], held[one.key], doubts.get(one.key, "")) for one in asked)


@dataclass(frozen=True)
class _Asked:
    """What trials are made of: the plan as it runs, the vessel that is asked about, and the ways that leave it.

    `adverse` are the lines with the most water coming to it that what is uncertain in them allows, None where that has
    no solution, with fixed levels at their `highest`.
    """

    plan: Plan
    lines: tuple[Line, ...]
    adverse: tuple[Line, ...] | None
    fixed: Mapping[str, float]
    highest: Mapping[str, float]
    running: Running
    key: str
    ways: tuple[Line, ...]

    @cached_property
    def sole(self) -> str:
        """A line through which all ways go on and without which none leads anywhere."""
        return next((one.key for one in onward_of(self.lines, self.ways) if not self.left(one)), "")

    @property
    def tried_ways(self) -> tuple[Line, ...]:
        """The ways that are tried: none where there is but one."""
        return self.ways if len(self.ways) > 1 else ()

    @cached_property
    def parts(self) -> tuple[Line, ...]:
        """Lines further on that all of them share and without which some still lead somewhere."""
        common = onward_of(self.lines, self.ways) if self.tried_ways else ()
        return tuple(one for one in common if one.key != self.sole)

    def left(self, gone: Line) -> tuple[str, ...]:
        """Ways that still lead somewhere with a line blocked."""
        return tuple(
            way.key
            for way in self.ways
            if way.key != gone.key and leads_to(self.plan, self.lines, way, gone.key)
        )

    def gone(self) -> dict[tuple[str, str], frozenset[str]]:
        """By trial the lines that are shut. Of two ways one alone is the other blocked."""
        found: dict[tuple[str, str], frozenset[str]] = {}
        for way in self.tried_ways:
            others = frozenset(other.key for other in self.ways if other is not way)
            found |= {("alone", way.key): others, ("blocked", way.key): frozenset({way.key})}
        return found | {("blocked", one.key): frozenset({one.key}) for one in self.parts}

    def without(self, lines: Iterable[Line] | None, gone: frozenset[str]) -> tuple[Line, ...]:
        """Lines but for those that are shut."""
        return tuple(line for line in lines or () if line.key not in gone)


@dataclass(frozen=True)
class _Trial:
    """The level of a vessel with some lines shut, or why there is none."""

    level: float | None
    tightest: Tightest | None = None
    doubt: str = ""


def _facts(asked: _Asked, trials: Mapping[tuple[str, str], _Trial], held: Held, doubt: str) -> DrainFacts:
    key, ways, parts = asked.key, asked.ways, (*asked.tried_ways, *asked.parts)
    return DrainFacts(
        key,
        asked.running.inflow[key],
        brim_of(asked.plan.vessels[key]),
        asked.running.levels.get(key, math.nan),
        tuple(way.key for way in ways),
        {way.key: trials["alone", way.key].level for way in asked.tried_ways},
        {way.key: trials["blocked", way.key].level for way in parts},
        held,
        {way.key: top_of(way) for way in ways},
        {at: trial.tightest for at, trial in trials.items() if trial.tightest is not None},
        {at: trial.doubt for at, trial in trials.items() if trial.doubt},
        doubt,
        asked.sole or (ways[0].key if len(ways) == 1 else ""),
        {one.key: asked.left(one) for one in parts},
    )


def _trials(asked: Sequence[_Asked]) -> dict[str, dict[tuple[str, str], _Trial]]:
    """By vessel every way alone, every way blocked. Each set of lines is tried once for each vessel."""
    wanted = {one.key: one.gone() for one in asked}
    each = [(one, gone) for one in asked for gone in dict.fromkeys(wanted[one.key].values())]
    first = [Trial(one.without(one.lines, gone), one.fixed, one.running.state) for one, gone in each]
    likely = list(zip(each, all_tried(asked[0].plan, first) if asked else [], strict=True))
    found: dict[tuple[str, frozenset[str]], _Trial] = {}
    sure: list[tuple[_Asked, frozenset[str], Running]] = []
    for (one, gone), running in likely:
        if running is None or one.key not in running.levels:
            found[one.key, gone] = _Trial(None)
        elif doubt := _doubt(one, gone, running):
            found[one.key, gone] = _Trial(None, doubt=doubt)
        else:
            sure.append((one, gone, running))
    most = [Trial(one.without(one.adverse, gone), one.highest, running.state) for one, gone, running in sure]
    for (one, gone, running), more in zip(sure, all_tried(asked[0].plan, most) if asked else [], strict=True):
        found[one.key, gone] = _trial(one, gone, running, more)
    return {key: {at: found[key, gone] for at, gone in trials.items()} for key, trials in wanted.items()}


def _looked_at(asked: _Asked, running: Running) -> list[str]:
    """The vessel, and those that stand higher in a trial than as it runs."""
    risen = [
        key
        for key, level in running.levels.items()
        if key not in asked.fixed and level > asked.running.levels.get(key, level) + RISES
    ]
    return list(dict.fromkeys([asked.key, *risen]))


def _doubt(asked: _Asked, gone: frozenset[str], running: Running) -> str:
    """Why a trial is not to be trusted."""
    doubts = doubts_of(asked.plan, asked.without(asked.lines, gone), running)
    return next((doubts[key] for key in _looked_at(asked, running) if key in doubts), "")


def _trial(asked: _Asked, gone: frozenset[str], running: Running, more: Running | None) -> _Trial:
    """What a trial says of the vessel and those it backs up: as is likely, and with the most water coming."""
    looked_at = _looked_at(asked, running)
    found = _stand(asked, asked.without(asked.lines, gone), running, looked_at)
    most = _with_most(asked, gone, running, more)
    for key in looked_at:
        if key in most:
            highest = max(found[key].highest, most[key].highest)
            most[key] = replace(most[key], level=found[key].level, highest=highest, passed=found[key].passed)
    tightest = min({**found, **most}.values(), key=lambda one: one.brim - one.highest)
    return _Trial(running.levels[asked.key], tightest)


def _with_most(
    asked: _Asked, gone: frozenset[str], likely: Running, running: Running | None
) -> dict[str, Tightest]:
    """The vessel and those it backs up with the most water coming; at no height that is known if not found."""
    left = asked.without(asked.adverse, gone)
    if not left or running is None or asked.key not in running.levels:
        brim = brim_of(asked.plan.vessels[asked.key])
        return {
            asked.key: Tightest(asked.key, brim, likely.levels[asked.key], math.inf, (0.0, 0.0), math.inf)
        }
    return _stand(asked, left, running, _looked_at(asked, running))


def _stand(
    asked: _Asked, lines: tuple[Line, ...], running: Running, keys: Iterable[str]
) -> dict[str, Tightest]:
    """How some vessels stand against their brims in a solution."""
    over = overflow_facts(asked.plan, lines, running)
    return {
        key: Tightest(
            key,
            brim_of(asked.plan.vessels[key]),
            running.levels[key],
            running.levels[key] + span_over(lines, running, over, key)[1],
            (running.inflow.get(key, 0.0), running.outflow.get(key, 0.0)),
            running.inflow.get(key, 0.0),
        )
        for key in keys
    }
