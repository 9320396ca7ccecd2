"""Judging lines: how fast water runs in them, for noise, for pumps, for drains that stay open to the air."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.source import Known, Source
from tidestead.physics.flow import standpipes
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts, Line, RunFlow
from tidestead.studies.flow.heights import port_of
from tidestead.studies.judged import Judged, step

_CONTINUITY = Source("continuity", known=Known.COMPUTED)


@dataclass(frozen=True)
class _Part:
    """A stretch of a line that is judged by one limit."""

    name: str
    what: str
    row: Row
    passed: tuple[RunFlow, ...]
    advice: str


def line_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """Every line's velocity, and its share of a vertical drain where it must stay open to the air."""
    found: list[Judged] = []
    for line in facts.lines:
        at = At(f"circuits.{line.key}", f"line {line.key}", "flow", f"circuits.{line.key}")
        if not any(passed.run.item.kind == "pipe" for passed in facts.passed[line.key]):
            continue
        parts = _parts(plan, facts, line)
        flow = facts.carried(line.key)
        found += [_velocity(at, part, flow) for part in parts if part.passed]
        if is_open(plan, line):
            found.append(_stack(at, line, flow))
    return found


def is_open(plan: Plan, line: Line) -> bool:
    """Whether the line runs partly full of air: below a weir, a standpipe's lip or an open riser."""
    start = port_of(plan, line.circuit.start)
    kinds = ("weir", "standpipe")
    if line.pump is not None or line.bore <= 0.0:
        return False
    return (start is not None and start[2].kind in kinds) or any(lip != line.end_level for lip in line.lips)


def _parts(plan: Plan, facts: FlowFacts, line: Line) -> list[_Part]:
    limits, passed = table("flow_limits"), facts.passed[line.key]
    pipes = tuple(one for one in passed if one.run.item.kind == "pipe")
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
    if is_open(plan, line) and plan.targets.quiet:
        row = limits["gravity-drain-quiet"]
        return [
            _Part("velocity", "velocity, for a quiet drain", row, pipes, "a wider drain, or a full siphon")
        ]
    return [_Part("velocity", quiet, pressed, pipes, "a wider pipe, or less flow")]


def _velocity(at: At, part: _Part, flow: Estimate) -> Judged:
    worst = max(part.passed, key=lambda one: one.velocity)
    area = math.pi * worst.run.bore**2 / 4.0
    speed = Estimate(flow.low / area, flow.likely / area, flow.high / area, flow.basis)
    figure = part.row.figure("most")
    numbers = (given("Q", worst.flow, "m3/s"), given("D", worst.run.bore, "m", "fine"))
    steps = (
        step(
            "v",
            f"mean velocity in {worst.run.words}",
            "v = 4*Q/(pi*D**2)",
            numbers,
            (speed.likely, "m/s"),
            _CONTINUITY,
        ),
    )
    limit = Limit(part.row.si("most"), figure.source, near=0.1)
    check = below(at, part.name, part.what, speed, "m/s", limit, advice=part.advice)
    return Judged(check, steps)


def _stack(at: At, line: Line, flow: Estimate) -> Judged:
    """An upright drain that must stay open to the air carries a film, not a plug."""
    row = table("flow_limits")["vertical-drain"]
    source = Source("Wyly and Eaton, National Bureau of Standards", known=Known.QUOTED)
    words = "flow in an upright drain open to the air"
    if line.bore <= 0.0:
        why = f"put its pipe into circuits.{line.key}.route"
        return Judged(unproven(at, "stack", words, "m3/s", why, source))
    room = float(standpipes.stack_capacity(line.bore, row.si("most")))
    numbers = (given("r", row.si("most"), "1"), given("D", line.bore, "m", "fine"))
    steps = (
        step(
            "Q",
            "what runs down the wall as a film, the core left to the air",
            "Q = 27.8*r**(5/3)*D**(8/3) in gal/min and inches",
            numbers,
            (room, "m3/s"),
            source,
        ),
    )
    limit = Limit(room, source, "a third of the bore filled", near=0.1)
    check = below(
        at,
        "stack",
        words,
        flow,
        "m3/s",
        limit,
        advice="a wider drain, or two of them",
    )
    return Judged(check, steps)
