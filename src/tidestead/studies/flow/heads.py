"""Where the head of each pump goes: the lift and every loss on the way of most of its water, the most first."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Column, Table
from tidestead.core.dims import G
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.heights import port_of
from tidestead.studies.flow.lines import falls_free

LIFT = "lift"
"""The words of the height that the water is raised, among those of the losses."""

_FELT = 1e-4
"""Falls over lips on the way that are told, metres."""


@dataclass(frozen=True)
class Share:
    """One part's share of a pump's head, metres, and the flow that it has."""

    words: str
    line: str
    head: float
    flow: float


def heads_table(plan: Plan, facts: FlowFacts) -> Table:
    """Head by pump, ranked, with the power that goes with it."""
    columns = (
        Column("pump"),
        Column("part"),
        Column("line"),
        Column("head", "m", "bow"),
        Column("share of the pump's", "1", "share"),
        Column("power it takes", "W"),
    )
    weight = facts.water.density * G
    rows = tuple(
        (pump.name, one.words, one.line, one.head, one.head / pump.head, weight * one.flow * one.head)
        for pump in facts.pumps
        if pump.head > 0.0
        for one in head_shares(plan, facts, pump.name)
    )
    note = (
        "Along the way of most of the pump's water, from surface to surface: the heads add up to the pump's. Below "
        "nothing, a part gives head back. What is lost falls with the square of a wider bore's area; the lift stays."
    )
    return Table("flow.heads", "Where the head goes, the most first", columns, rows, note)


def head_shares(plan: Plan, facts: FlowFacts, name: str) -> tuple[Share, ...]:
    """Lift and losses of one pump's way; they add up to its head."""
    pump = next(one for one in facts.pumps if one.name == name)
    way = way_of(facts, facts.line(pump.line))
    found = [
        Share(one.run.words, line.key, one.head, one.flow)
        for line in way
        for one in facts.passed[line.key]
        if one.run.item.name != name or one.run.item.kind != "pump"
    ]
    own = facts.flows[pump.line]
    low, high = _surface(plan, facts, way[0], start=True), _surface(plan, facts, way[-1], start=False)
    found.append(Share(LIFT, " + ".join(line.key for line in way), high - low, own))
    rest = pump.head - sum(one.head for one in found)
    if rest > _FELT:
        found.append(Share("falls over lips", way[-1].key, rest, own))
    return tuple(sorted(found, key=lambda one: -one.head))


def way_of(facts: FlowFacts, line: Line) -> list[Line]:
    """From vessel to vessel through a pump's line, at each junction with most of the water."""
    way = [line]
    while "." not in way[0].circuit.start:
        before = [one for one in facts.lines if one.circuit.end == way[0].circuit.start and one not in way]
        if not before:
            break
        way.insert(0, max(before, key=lambda one: facts.flows[one.key]))
    while "." not in way[-1].circuit.end:
        after = [one for one in facts.lines if one.circuit.start == way[-1].circuit.end and one not in way]
        if not after:
            break
        way.append(max(after, key=lambda one: facts.flows[one.key]))
    return way


def _surface(plan: Plan, facts: FlowFacts, line: Line, start: bool) -> float:
    """The level a way begins or ends at: the vessel's surface, or the mouth from which it falls free."""
    found = port_of(plan, line.circuit.start if start else line.circuit.end)
    if found is None:
        head = facts.running.state.heads if facts.running is not None else {}
        return head.get(line.circuit.start if start else line.circuit.end, 0.0)
    if not start and falls_free(found[1], found[2]) and line.end_level is not None:
        return line.end_level
    return facts.levels[found[0]]
