"""Weirs and standpipes as they run: the head over each with its range, the trough or pipe behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.physics.flow.pipes import pipe_velocity, velocity_head
from tidestead.physics.flow.standpipes import Standpipe, StandpipeLaw, standpipe_head
from tidestead.physics.flow.weirs import WeirLaw, weir_head
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Overflow, Running
from tidestead.studies.flow.heights import port_of

RISER = 0.25
"""Share by which the head over an open riser may differ from that over a lip: water comes up out of it, not down into
it. Lawrence and Braunworth's formula (1906) for upright pipes agrees within this; from memory."""


def overflow_facts(plan: Plan, lines: tuple[Line, ...], running: Running) -> tuple[Overflow, ...]:
    """Every port that is a weir or a standpipe."""
    found = []
    for line in lines:
        start = port_of(plan, line.circuit.start)
        if start is None or start[2].kind not in ("weir", "standpipe"):
            continue
        flow = max(running.flows[line.key], 0.0)
        name = line.circuit.start.partition(".")[2]
        first = line.links[0]
        if isinstance(first.over, WeirLaw):
            found.append(_weir(line, (start[0], name), flow, first.over, running))
        elif isinstance(first.over, StandpipeLaw):
            found.append(_standpipe(line, (start[0], name), flow, running))
    return tuple(found)


def _weir(line: Line, at: tuple[str, str], flow: float, law: WeirLaw, running: Running) -> Overflow:
    first = line.links[0]
    behind = running.state.heads[first.end]
    tail = max(behind - first.crest, 0.0) if math.isfinite(behind) else 0.0
    head = weir_head(law.weir, flow, tail)
    regime = "dry" if not flow else "drowned" if tail > 0.0 else "weir"
    trough = behind if len(line.links) > 1 and math.isfinite(behind) else None
    return Overflow(
        line.key,
        *at,
        first.crest,
        flow,
        head.low,
        head.likely,
        head.high,
        head.within,
        regime,
        trough=trough,
        tail=tail,
    )


def _standpipe(line: Line, at: tuple[str, str], flow: float, running: Running) -> Overflow:
    """The pipe below the lip by its loss at this flow, as a resistance in velocity heads."""
    first = line.links[0]
    law = first.over
    assert isinstance(law, StandpipeLaw)
    bore, crest = law.bore, first.crest
    end = running.state.heads.get(first.end, crest - 1.0)
    drop = max(crest - end, 1e-3) if math.isfinite(end) else max(crest - (line.end_level or 0.0), 1e-3)
    resistance = 1.0
    if flow > 0.0 and first.through is not None:
        dynamic = velocity_head(pipe_velocity(flow, bore))
        resistance = max(float(first.through.at(flow).head) / dynamic, 1.0)
    run = standpipe_head(Standpipe(bore, drop, resistance), flow)
    tail = end - crest if math.isfinite(end) and flow > 0.0 else 0.0
    if tail <= 0.0:
        return Overflow(
            line.key, *at, crest, flow, run.low, run.head, run.high, "stretched", run.regime, bore
        )
    head = running.state.heads[first.start] - crest
    regime = "full" if running.state.branch[first.name] == "through" else run.regime
    return Overflow(line.key, *at, crest, flow, head, head, head, "range", regime, bore, tail=tail)


def span_over(
    lines: Sequence[Line], running: Running, overflows: Sequence[Overflow], key: str
) -> tuple[float, float]:
    """How far the level of a vessel may lie below and above what is likely, by the head over its lowest crest.

    Behind a drowned crest the water moves it too, at the most as far as it may itself be off.
    """
    heads = [one for one in overflows if one.vessel == key and one.flow > 0.0]
    if heads:
        first = min(heads, key=lambda one: one.crest)
        down, up = first.likely - first.low, first.high - first.likely
        if first.tail <= 0.0:
            return down, up
        behind = next(line.circuit.end for line in lines if line.key == first.line).partition(".")[0]
        others = [one for one in overflows if one is not first]
        more = span_over(lines, running, others, behind)
        return down + more[0], up + more[1]
    risers = [_riser(line, running) for line in lines if line.circuit.start.partition(".")[0] == key]
    off = RISER * max(risers, default=0.0)
    return off, off


def _riser(line: Line, running: Running) -> float:
    """Head over the first riser on the way of a line; none where nothing flows, or where it runs full beyond it."""
    flow = running.flows[line.key]
    first = next((link for link in line.links if link.over is not None), None)
    if flow <= 0.0 or first is None or not isinstance(first.over, StandpipeLaw):
        return 0.0
    return first.over.at(flow).head if running.state.branch[first.name] == "over" else 0.0
