"""The network with the most water coming to one vessel, so far as what is uncertain in its lines allows.

Valves by which a vessel's level is set stand as their owner sets them then: so that the level in service is right.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from tidestead.physics.flow.fittings import FittingLaw
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import Stock, k_of
from tidestead.studies.flow.facts import Line, Run, Running
from tidestead.studies.flow.heights import place_of, port_of
from tidestead.studies.flow.lines import with_laws
from tidestead.studies.flow.ranges import is_part_open, pushed
from tidestead.studies.flow.solving import tried

LEAST_FALL = 1e-4
"""Metres of fall that a valve must at least be left to take: below it stands open."""


def most_water(
    plan: Plan, stock: Stock, lines: Sequence[Line], fixed: Mapping[str, float], running: Running, key: str
) -> tuple[Line, ...] | None:
    """The lines with the most water coming to a vessel; None where that has no solution.

    All on its way there are looser, all others stiffer. A part-open valve that sets the level of a vessel, in a line
    without a lip that leaves it by its own weight, is set so that its line takes the greater flow at the level found in
    `running`.
    """
    coming = _upstream(plan, lines, fixed, key)
    sets = {line.key for line in lines if sets_level(plan, line, fixed, running)}
    found = tuple(
        pushed(plan, stock, line, -1.0 if line.key in coming else 1.0, but_valves=line.key in sets)
        for line in lines
    )
    if not sets:
        return found
    more = tried(plan, found, fixed, running.state)
    if more is None:
        return None
    return tuple(
        _set(plan, stock, (line, was), (running, more)) if line.key in sets else line
        for was, line in zip(lines, found, strict=True)
    )


def _upstream(plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float], key: str) -> set[str]:
    """Lines whose water may come to a vessel, back to the levels that are fixed."""
    found: set[str] = set()
    queue, seen = [key], {key, *fixed}
    while queue:
        place = queue.pop()
        coming = [line for line in lines if place_of(plan, line.circuit.end) == place]
        found |= {line.key for line in coming}
        for start in {place_of(plan, line.circuit.start) for line in coming} - seen:
            seen.add(start)
            queue.append(start)
    return found


def sets_level(plan: Plan, line: Line, fixed: Mapping[str, float], running: Running) -> bool:
    """Whether a part-open valve in a line sets a vessel's level: no lip does, and water runs through it by itself."""
    found = port_of(plan, line.circuit.start)
    if found is None or found[0] in fixed or line.pump is not None or running.flows[line.key] <= 0.0:
        return False
    lipped = line.lips or found[2].kind in ("weir", "standpipe")
    return not lipped and any(is_part_open(plan, run) for run in line.runs)


def _set(plan: Plan, stock: Stock, lines: tuple[Line, Line], solved: tuple[Running, Running]) -> Line:
    """A line with its valve set for the greater flow: what its pipes take more, the valve takes less."""
    (line, was), (running, more) = lines, solved
    flow = running.flows[was.key]
    vessel = place_of(plan, was.circuit.start)
    wanted = flow + more.inflow.get(vessel, 0.0) - running.inflow.get(vessel, 0.0)
    valve = next(run for run in line.runs if is_part_open(plan, run))
    if wanted <= flow or flow <= 0.0 or not isinstance(valve.law, FittingLaw):
        return line
    spent = sum(run.law.at(flow).head for run in was.runs)
    rest = sum(run.law.at(wanted).head for run in line.runs if run is not valve)
    left = max(spent - rest, LEAST_FALL)
    k = max(valve.law.k * left / valve.law.at(wanted).head, _open_k(plan, stock, valve))
    return with_laws(line, {id(valve.law): replace(valve.law, k=min(k, valve.law.k))})


def _open_k(plan: Plan, stock: Stock, run: Run) -> float:
    """What the valve costs when it stands open."""
    return k_of(stock.tables["valves"][plan.valves[run.item.name].kind], run.bore)
