"""Judging lines: how fast water runs in them, for noise, for pumps, for drains that stay open to the air."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import Known, Source
from tidestead.physics.flow import standpipes
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, given
from tidestead.studies.flow.facts import FlowFacts, Line, RunFlow
from tidestead.studies.flow.gravity import drawn_through
from tidestead.studies.flow.heights import port_of
from tidestead.studies.judged import Judged, step

_CONTINUITY = Source("continuity", known=Known.COMPUTED)


_FILM = Source("Wyly and Eaton, NBS Monograph 31 (1961)", "measured terminal speed", Known.QUOTED)

SAND = "below 2 ft/s (0.6 m/s) sand can settle; from 1 ft/s on what is organic stays up"


@dataclass(frozen=True)
class _Part:
    """A stretch of a line that is judged by one limit."""

    name: str
    what: str
    row: Row
    passed: tuple[RunFlow, ...]
    advice: str


_PRINTED = (
    given("gpm", standpipes.GALLON_A_MINUTE, "m3/s"),
    given("inch", standpipes.INCH, "m", "fine"),
)
"""Units in which the laws of upright drains are printed."""


def line_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """Every line: what runs full by its speed, what stays open to the air by how full it is, both by what settles."""
    found: list[Judged] = []
    for line in facts.lines:
        at = At(f"circuits.{line.key}", f"line {line.key}", "flow", f"circuits.{line.key}")
        if not any(passed.run.item.kind == "pipe" for passed in facts.passed[line.key]):
            continue
        flow = facts.carried(line.key)
        if flow.high <= 0.0:
            continue
        found += [_velocity(at, part, flow) for part in _parts(plan, facts, line) if part.passed]
        if is_open(plan, line):
            found.append(_stack(at, _stack_bore(facts, line), flow, plan.targets.quiet))
        if (settles := _settles(at, facts, line, flow.likely)) is not None:
            found.append(settles)
    return found


def is_open(plan: Plan, line: Line) -> bool:
    """Whether the line runs partly full of air: below a weir, a standpipe's lip or an open riser."""
    start = port_of(plan, line.circuit.start)
    kinds = ("weir", "standpipe")
    if line.pump is not None or line.bore <= 0.0:
        return False
    return (start is not None and start[2].kind in kinds) or any(lip != line.end_level for lip in line.lips)


def stretches(facts: FlowFacts, line: Line) -> tuple[tuple[RunFlow, ...], tuple[RunFlow, ...]]:
    """Pipes of a line that run full, and those that stay open to the air: what lies behind its last lip."""
    passed = facts.passed[line.key]
    route = line.circuit.route
    risers = [place for place, item in enumerate(route) if item.kind == "riser"]
    start = next((link for link in line.links if link.over is not None), None)
    if risers:
        before = risers[-1] - (len(risers) - 1) + _added(line)
    elif line.pump is None and start is line.links[0] and line.lips and line.lips[0] != line.end_level:
        before = 0
    else:
        before = len(passed)
    pipes = [(place < before, one) for place, one in enumerate(passed) if one.run.item.kind == "pipe"]
    return tuple(one for full, one in pipes if full), tuple(one for full, one in pipes if not full)


def _added(line: Line) -> int:
    """Whether an entry stands before the route's own items."""
    return int(bool(line.runs) and line.runs[0].item.kind == "fitting" and line.runs[0].item.count == 0)


def _parts(plan: Plan, facts: FlowFacts, line: Line) -> list[_Part]:
    """What runs full. Limits of speed are for full pipes: a drain open to the air is judged by how full it is."""
    limits, passed = table("flow_limits"), facts.passed[line.key]
    pipes, _ = stretches(facts, line)
    pressed = limits["pressure-pipe-quiet" if plan.targets.quiet else "pressure-pipe"]
    quiet = "velocity, for quiet" if plan.targets.quiet else "velocity"
    if line.pump is not None:
        at = next(n for n, one in enumerate(passed) if one.run.item.kind == "pump")
        before = tuple(one for one in passed[:at] if one.run.item.kind == "pipe")
        after = tuple(one for one in passed[at:] if one.run.item.kind == "pipe")
        return [
            _Part(
                "suction", "velocity in the suction", limits["suction-pipe"], before, "a wider suction pipe"
            ),
            _Part("velocity", quiet, pressed, after, "a wider pipe, or less flow"),
        ]
    pumped = [other for other in facts.lines if other.pump is not None]
    if any(line in drawn_through(plan, facts.lines, other) for other in pumped):
        return [
            _Part("suction", "velocity in the suction", limits["suction-pipe"], pipes, "a wider suction pipe")
        ]
    return [_Part("velocity", quiet, pressed, pipes, "a wider pipe, or less flow")]


def _velocity(at: At, part: _Part, flow: Estimate) -> Judged:
    worst = max(part.passed, key=lambda one: one.velocity)
    speed = _speed(worst, flow)
    limit = Limit(part.row.si("most"), part.row.figure("most").source, near=0.1)
    check = below(at, part.name, part.what, speed, "m/s", limit, advice=part.advice)
    return Judged(check, _worked(worst, speed))


def _speed(one: RunFlow, flow: Estimate) -> Estimate:
    area = math.pi * one.run.bore**2 / 4.0
    return Estimate(flow.low / area, flow.likely / area, flow.high / area, flow.basis)


def _worked(one: RunFlow, speed: Estimate) -> tuple[Step, ...]:
    numbers = (given("Q", abs(one.flow), "m3/s"), given("D", one.run.bore, "m", "fine"))
    words = f"mean velocity in {one.run.words}"
    return (step("v", words, "v = 4*Q/(pi*D**2)", numbers, (speed.likely, "m/s"), _CONTINUITY),)


def _stack_bore(facts: FlowFacts, line: Line) -> float:
    """The narrowest pipe of what stays open to the air."""
    return min((one.run.bore for one in stretches(facts, line)[1]), default=line.bore)


def _stack(at: At, bore: float, flow: Estimate, quiet: bool) -> Judged:
    """An upright drain that must stay open to the air carries a film, not a plug; a quiet one a thinner film.

    A quarter full is about what 0.6 m/s gives, which the trade allows a quiet drain of 50 to 90 mm reckoned as full: so
    this is asked once, not twice.
    """
    row = table("flow_limits")["vertical-drain"]
    source = Source("Wyly and Eaton, National Bureau of Standards", known=Known.QUOTED)
    words = "flow in an upright drain open to the air" + (", for quiet" if quiet else "")
    share = row.si("least" if quiet else "most")
    room = float(standpipes.stack_capacity(bore, share))
    numbers = (given("r", share, "1"), given("D", bore, "m", "fine"), *_PRINTED)
    steps = (
        step(
            "Q",
            "what runs down the wall as a film, the core left to the air; gpm and inch: units it is printed in",
            "Q = 27.8*gpm*r**(5/3)*(D/inch)**(8/3)",
            numbers,
            (room, "m3/s"),
            source,
        ),
    )
    limit = Limit(room, source, f"a {'quarter' if quiet else 'third'} of the bore filled", near=0.1)
    advice = "a wider drain, two of them, or a full siphon beside it"
    return Judged(below(at, "stack", words, flow, "m3/s", limit, advice=advice), steps)


def _settles(at: At, facts: FlowFacts, line: Line, flow: float) -> Judged | None:
    """Whether what the water carries settles, as the line likely runs; a line at rest holds no news.

    A drain open to the air is as fast as its film, however wide it is.
    """
    row, clean = table("flow_limits")["settling"], table("flow_limits")["scour"].si("least")
    full, free = stretches(facts, line)
    if flow <= 0.0 or not (full or free):
        return None
    least, source = row.si("least"), row.figure("least").source
    if full:
        slowest = max(full, key=lambda one: one.run.bore)
        speed = flow / (math.pi * slowest.run.bore**2 / 4.0)
        steps = _worked(slowest, Estimate.exact(speed))
    else:
        widest = max(free, key=lambda one: one.run.bore).run
        speed = float(standpipes.stack_speed(flow, widest.bore))
        numbers = (
            given("Q", flow, "m3/s"),
            given("D", widest.bore, "m", "fine"),
            given("fps", 0.3048, "m/s"),
            *_PRINTED,
        )
        words = f"speed of the film that runs down {widest.words}; fps, gpm and inch: units it is printed in"
        formula = "v = 4.4*fps*((Q/gpm)/(D/inch))**0.4"
        steps = (step("v", words, formula, numbers, (speed, "m/s"), _FILM),)
    limit = Limit(least, source)
    advice = "a narrower pipe, or a flush at each visit"
    words = "velocity, so that nothing settles"
    check = above(at, "clean", words, speed, "m/s", limit, advice=advice, cautions=_sand(speed, clean))
    return Judged(check, steps)


def _sand(speed: float, clean: float) -> tuple[str, ...]:
    """What is said of a speed that holds up what is organic, but not sand."""
    return (SAND,) if speed < clean else ()
