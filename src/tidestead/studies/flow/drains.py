"""Whether what leaves a vessel by its own weight can carry all of it, each way alone and each way blocked."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from tidestead.plan.model import Plan
from tidestead.studies.flow.adverse import most_water
from tidestead.studies.flow.doubts import doubts_of
from tidestead.studies.flow.elements import Stock
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import gravity_lines, leads_to, onward_of, top_of
from tidestead.studies.flow.heights import brim_of
from tidestead.studies.flow.held_back import Held, held_back
from tidestead.studies.flow.overflows import overflow_facts, span_over
from tidestead.studies.flow.solving import highest_levels, tried

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
    found = []
    fixed, groups = standing
    highest = highest_levels(plan, fixed)
    held: dict[str, Held] = {}
    for group in groups:
        held |= held_back(plan, lines, running, {key: highest[key] for key in fixed if key in group}, group)
    doubts = doubts_of(plan, lines, running)
    for key, flow in running.inflow.items():
        ways = gravity_lines(plan, lines, key)
        if key in fixed or not ways or flow <= 0.0:
            continue
        level = running.levels.get(key, math.nan)
        common = onward_of(lines, ways)
        sole = next((one.key for one in common if not _left(plan, lines, ways, one)), "")
        tried_ways = ways if len(ways) > 1 else ()
        adverse = most_water(plan, stock, lines, fixed, running, key) if tried_ways else lines
        asked = _Asked(plan, lines, adverse, fixed, highest, running, key)
        trials = _trials(asked, tried_ways)
        parts = [one for one in common if tried_ways and one.key != sole]
        trials |= {("blocked", one.key): _trial(asked, frozenset({one.key})) for one in parts}
        found.append(
            DrainFacts(
                key,
                flow,
                brim_of(plan.vessels[key]),
                level,
                tuple(way.key for way in ways),
                {way.key: trials["alone", way.key].level for way in tried_ways},
                {way.key: trials["blocked", way.key].level for way in (*tried_ways, *parts)},
                held[key],
                {way.key: top_of(way) for way in ways},
                {at: trial.tightest for at, trial in trials.items() if trial.tightest is not None},
                {at: trial.doubt for at, trial in trials.items() if trial.doubt},
                doubts.get(key, ""),
                sole or (ways[0].key if len(ways) == 1 else ""),
                {one.key: _left(plan, lines, ways, one) for one in (*tried_ways, *parts)},
            )
        )
    return tuple(found)


@dataclass(frozen=True)
class _Asked:
    """What a trial is made of: the plan as it runs, and the vessel that is asked about.

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


@dataclass(frozen=True)
class _Trial:
    """The level of a vessel with some lines shut, or why there is none."""

    level: float | None
    tightest: Tightest | None = None
    doubt: str = ""


def _left(plan: Plan, lines: tuple[Line, ...], ways: Iterable[Line], gone: Line) -> tuple[str, ...]:
    """Ways that still lead somewhere with a line blocked."""
    return tuple(way.key for way in ways if way.key != gone.key and leads_to(plan, lines, way, gone.key))


def _trials(asked: _Asked, ways: tuple[Line, ...]) -> dict[tuple[str, str], _Trial]:
    """Every way alone, every way blocked. Of two ways one alone is the other blocked: each is tried once."""
    found: dict[frozenset[str], _Trial] = {}
    trials = {}
    for way in ways:
        for how in ("alone", "blocked"):
            gone = frozenset(line.key for line in _without(how, ways, way))
            if gone not in found:
                found[gone] = _trial(asked, gone)
            trials[how, way.key] = found[gone]
    return trials


def _without(how: str, ways: tuple[Line, ...], way: Line) -> tuple[Line, ...]:
    return (way,) if how == "blocked" else tuple(other for other in ways if other is not way)


def _trial(asked: _Asked, gone: frozenset[str]) -> _Trial:
    left = tuple(line for line in asked.lines if line.key not in gone)
    running = tried(asked.plan, left, asked.fixed, asked.running.state)
    if running is None or asked.key not in running.levels:
        return _Trial(None)
    looked_at = dict.fromkeys([asked.key, *_risen(asked, running)])
    doubts = doubts_of(asked.plan, left, running)
    doubt = next((doubts[key] for key in looked_at if key in doubts), "")
    if doubt:
        return _Trial(None, doubt=doubt)
    found = _stand(asked, left, running, looked_at)
    more = _with_most(asked, gone, running)
    for key in looked_at:
        if key in more:
            highest = max(found[key].highest, more[key].highest)
            more[key] = replace(more[key], level=found[key].level, highest=highest, passed=found[key].passed)
    return _Trial(
        running.levels[asked.key], min({**found, **more}.values(), key=lambda one: one.brim - one.highest)
    )


def _risen(asked: _Asked, running: Running) -> list[str]:
    """Vessels that stand higher in a trial than as it runs."""
    return [
        key
        for key, level in running.levels.items()
        if key not in asked.fixed and level > asked.running.levels.get(key, level) + RISES
    ]


def _with_most(asked: _Asked, gone: frozenset[str], likely: Running) -> dict[str, Tightest]:
    """The vessel and those it backs up with the most water coming; at no height that is known if not found."""
    left = tuple(line for line in asked.adverse or () if line.key not in gone)
    running = tried(asked.plan, left, asked.highest, likely.state)
    if not left or running is None or asked.key not in running.levels:
        brim = brim_of(asked.plan.vessels[asked.key])
        return {
            asked.key: Tightest(asked.key, brim, likely.levels[asked.key], math.inf, (0.0, 0.0), math.inf)
        }
    return _stand(asked, left, running, dict.fromkeys([asked.key, *_risen(asked, running)]))


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
