"""Judging levels: against the depth the plan says, and against the brim."""

from __future__ import annotations

from tidestead.core.answer import Check, Estimate
from tidestead.core.source import PRACTICE, YOURS, Known, Source
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import brim_of, floor_of, port_of
from tidestead.studies.flow.overflows import span_over
from tidestead.studies.judged import Judged, step

CLOSE = 0.03
"""How far the level may be from the depth of the plan, metres: loads and volumes are reckoned with that depth.
Common practice, no source."""

SPARE = 0.02
"""Freeboard in service, metres: ripples, and what a pump pushes up. Common practice, no source."""

_NETWORK = Source("balance of the network", known=Known.COMPUTED)


def level_of(facts: FlowFacts, key: str) -> Estimate:
    """The level of a vessel above the datum, with the range of the heads over its crests.

    Valves are taken to be set as the plan has them: one that proves stiffer is opened until the level is right.
    """
    level = facts.levels[key]
    if facts.running is None:
        return Estimate.exact(level)
    down, up = span_over(facts.lines, facts.running, facts.overflows, key)
    return Estimate(level - down, level, level + up, "range of the head over its crest")


def level_unset(facts: FlowFacts, key: str) -> Estimate:
    """The same before anything is set: at the ends of what valves, fittings and pumps may differ by."""
    set_to, found = level_of(facts, key), facts.over(lambda running: running.levels[key])
    low, high = found.low - (set_to.likely - set_to.low), found.high + (set_to.high - set_to.likely)
    return Estimate(low, set_to.likely, high, ", ".join(filter(None, (set_to.basis, found.basis))))


def level_check(at: At, plan: Plan, facts: FlowFacts, key: str) -> Judged:
    """The level found against the depth the plan says."""
    vessel, words = plan.vessels[key], "level against the plan's depth"
    if vessel.water is None:
        why = f"say how deep the water is meant to be: vessels.{key}.water"
        return Judged(unproven(at, "level", words, "m", why, YOURS))
    level, planned = level_of(facts, key), floor_of(vessel) + vessel.water
    off = Estimate(level.low - planned, level.likely - planned, level.high - planned, level.basis)
    limit = Limit((-CLOSE, CLOSE), PRACTICE)
    steps = (
        step(
            "z",
            "level at which what comes in goes out, above the vessel's floor",
            "Q_in = Q_out",
            (
                given("Q_in", facts.inflow.get(key, 0.0), "m3/s"),
                given("Q_out", facts.outflow.get(key, 0.0), "m3/s"),
                given("z_plan", vessel.water, "m", "fine"),
            ),
            (level.likely - floor_of(vessel), "m"),
            _NETWORK,
        ),
    )
    advice = f"{_other_level(plan, facts, key, off.likely > 0.0)}, or write the depth as it comes out: "
    advice += f"vessels.{key}.water"
    check = Check(
        at.ident("level"),
        words,
        at.words,
        "m",
        off,
        limit.value,
        limit.source,
        must_be="within",
        part=at.key,
        advice=advice,
        style="level",
    )
    return Judged(check, steps)


def freeboard_check(at: At, plan: Plan, facts: FlowFacts, key: str) -> Judged:
    """What is left to the brim in service."""
    level, brim = level_unset(facts, key), brim_of(plan.vessels[key])
    left = Estimate(brim - level.high, brim - level.likely, brim - level.low, level.basis)
    numbers = (given("z_brim", brim, "m", "fine"), given("z", level.likely, "m", "fine"))
    steps = (step("f", "brim less level", "f = z_brim - z", numbers, (left.likely, "m"), _NETWORK),)
    limit = Limit(SPARE, PRACTICE)
    behind, tight = _backed_up_by(plan, facts, key), _too_tight(facts, key)
    advice = "a lower overflow, or a longer one"
    if tight:
        advice = _wider(tight)
    elif behind:
        advice = f"wider drains of {behind}, which backs up into it"
    return Judged(
        above(at, "freeboard", "freeboard in service", left, "m", limit, style="level", advice=advice), steps
    )


def _other_level(plan: Plan, facts: FlowFacts, key: str, over: bool) -> str:
    """What brings a level to where it is meant: the pipe behind a drowned crest, a riser, the comb or the crest."""
    tight = _too_tight(facts, key)
    if over and tight:
        return _wider(tight)
    turn = "lower" if over else "higher"
    for line in facts.lines:
        start = port_of(plan, line.circuit.start)
        if start is None or start[0] != key or facts.flows[line.key] <= 0.0:
            continue
        if any(run.item.kind == "riser" for run in line.runs):
            return f"a {turn} riser in circuits.{line.key}"
        if over and start[2].kind == "weir" and start[2].teeth is not None:
            return "a longer comb or a lower crest"
    return f"a {turn} crest"


def _wider(lines: list[str]) -> str:
    return f"a wider pipe for {' and '.join(lines)}, in which the water backs up to the crest"


def _too_tight(facts: FlowFacts, key: str) -> list[str]:
    """Lines of a vessel whose own pipe holds the water up to the crest it comes over, not the water beyond."""
    if facts.running is None:
        return []
    drowned, heads = set(facts.running.state.drowned), facts.running.state.heads
    return [
        line.key
        for line in facts.lines
        if line.circuit.start.partition(".")[0] == key
        and len(line.links) > 1
        and line.links[0].name in drowned
        # the water the line runs out to stands lower: what is between them is the pipe
        and heads.get(line.links[-1].end, line.links[0].crest) < line.links[0].crest
    ]


def _backed_up_by(plan: Plan, facts: FlowFacts, key: str) -> str:
    """The vessel whose water stands over the crest by which this one runs out: the last of a row of them."""
    drowned = set(facts.running.state.drowned) if facts.running is not None else set()
    here, seen = key, {key}
    while True:
        ends = [
            end[0]
            for line in facts.lines
            if any(link.name in drowned for link in line.links)
            and (start := port_of(plan, line.circuit.start)) is not None
            and start[0] == here
            and (end := port_of(plan, line.circuit.end)) is not None
            and end[0] not in seen
        ]
        if not ends:
            return here if here != key else ""
        here = ends[0]
        seen.add(here)
