"""What has to be bought for the circuits: pipe, fittings, valves, fittings through walls, by size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from tidestead.catalog import Row
from tidestead.catalog import Table as Catalogue
from tidestead.core.answer import Column, Table
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import stock_of
from tidestead.studies.flow.facts import FlowFacts, Line, Run
from tidestead.studies.flow.tees import TEE

_ALIKE = 5e-4
"""Outer diameters that differ by less, metres, take the same fitting."""

_HOSE = "hose"


def list_tables(plan: Plan, facts: FlowFacts) -> list[Table]:
    """Pipe in metres; fittings, valves and fittings through walls by number."""
    pipes = stock_of(plan, facts.water.kinematic_viscosity).tables["pipes"]
    return [_pipe_table(facts, pipes), _part_table(plan, facts, pipes)]


def _pipe_table(facts: FlowFacts, pipes: Catalogue) -> Table:
    lengths: dict[str, float] = {}
    for line in (*facts.lines, *facts.outs):
        for run in line.runs:
            if run.item.kind == "pipe":
                lengths[run.item.name] = lengths.get(run.item.name, 0.0) + run.item.length
    rows = tuple((pipes[name].title, lengths[name]) for name in sorted(lengths, key=_by_size(pipes)))
    note = "As drawn, without waste: buy a tenth more, and whole lengths. Common practice, no source."
    return Table("flow.pipe", "Pipe", (Column("size"), Column("length", "m")), rows, note)


def _part_table(plan: Plan, facts: FlowFacts, pipes: Catalogue) -> Table:
    counts: Counter[tuple[str, str]] = Counter()
    for line in (*facts.lines, *facts.outs):
        counts += _of_line(plan, line, pipes)
    for legs in _junctions((*facts.lines, *facts.outs)).values():
        counts += _of_junction(legs, pipes)
    counts += Counter((hole.row.title, "") for hole in facts.holes)
    rows = tuple((words, size or None, float(count)) for (words, size), count in sorted(counts.items()))
    note = (
        "Pipes that meet at a place are joined by one tee less than there are pipes over two, of the widest of them, "
        "with a reducer to each narrower one. A riser takes a tee with its upper end open. Where a pump, a lamp or a "
        "bulkhead is of another size than its pipe an adaptor comes on top; so does a union on each side of what is "
        "to be taken out."
    )
    columns = (Column("part"), Column("size of its pipe"), Column("how many", "count"))
    return Table("flow.fittings", "Fittings, valves and fittings through walls", columns, rows, note)


def _of_line(plan: Plan, line: Line, pipes: Catalogue) -> Counter[tuple[str, str]]:
    """What one line holds, but for the tees it meets others with."""
    found: Counter[tuple[str, str]] = Counter()
    met = {id(run) for end in (True, False) for run in _tees_at(line, end)}
    for run, pipe in with_pipes(line):
        size = pipes[pipe].title if pipe else ""
        if run.item.kind == "valve":
            own = plan.valves[run.item.name].size
            words = run.words.removeprefix(f"valve {run.item.name}, ")
            found[(words[0].upper() + words[1:], pipes[own].title if own else size)] += 1
        elif run.item.kind == "fitting" and run.item.count and id(run) not in met:
            found[(run.words, size)] += run.item.count
    for one, other in pairwise(run.item.name for run in line.runs if run.item.kind == "pipe"):
        found += _joint(pipes[one], pipes[other])
    for at, item in enumerate(line.circuit.route):
        if item.kind == "riser":
            before = [one.name for one in line.circuit.route[:at] if one.kind == "pipe"]
            found[("Tee open upward, for a riser", pipes[before[-1]].title if before else "")] += 1
    return found


def _junctions(lines: Sequence[Line]) -> dict[str, list[tuple[Line, bool]]]:
    """Lines that meet at each junction, and whether with their start."""
    found: dict[str, list[tuple[Line, bool]]] = {}
    for line in lines:
        for name, at_start in ((line.circuit.start, True), (line.circuit.end, False)):
            if "." not in name:
                found.setdefault(name, []).append((line, at_start))
    return found


def _of_junction(legs: list[tuple[Line, bool]], pipes: Catalogue) -> Counter[tuple[str, str]]:
    """The tees of a place where lines meet, and what joins them to narrower pipes."""
    found: Counter[tuple[str, str]] = Counter()
    near = [pipes[pipe] for line, at_start in legs if (pipe := _pipe_at(line, at_start))]
    if not near:
        return found
    widest = max(near, key=_outside)
    drawn = sum(len(_tees_at(line, at_start)) for line, at_start in legs)
    tees = len(legs) - 2 if len(legs) > 2 else min(drawn, 1)
    if tees > 0:
        found[("Tee", widest.title)] += tees
    for row in near:
        found += _joint(widest, row)
    return found


def _tees_at(line: Line, at_start: bool) -> list[Run]:
    """Tee fittings that stand next to a junction, at one end of a line."""
    if "." in (line.circuit.start if at_start else line.circuit.end):
        return []
    runs = [run for run in line.runs if run.item.count or run.item.kind != "fitting"]
    found = []
    for run in runs if at_start else reversed(runs):
        if run.kind != TEE:
            break
        found.append(run)
    return found


def _pipe_at(line: Line, at_start: bool) -> str:
    """The pipe nearest to an end of a line."""
    names = [run.item.name for run in line.runs if run.item.kind == "pipe"]
    return (names[0] if at_start else names[-1]) if names else ""


def _joint(one: Row, other: Row) -> Counter[tuple[str, str]]:
    """What joins two pipes of different size or sort; nothing where they take the same fitting."""
    hoses = [row for row in (one, other) if row.tag("kind") == _HOSE]
    if len(hoses) == 1:
        pipe = other if hoses[0] is one else one
        return Counter({("Hose tail", f"{hoses[0].title} on {pipe.title}"): 1})
    if abs(_outside(one) - _outside(other)) < _ALIKE:
        return Counter()
    wide, narrow = sorted((one, other), key=_outside, reverse=True)
    return Counter({("Reducer", f"{wide.title} to {narrow.title}"): 1})


def _outside(row: Row) -> float:
    return row.si("outer") if row.has("outer") else row.si("bore")


def _by_size(pipes: Catalogue) -> Callable[[str], tuple[str, float]]:
    def order(name: str) -> tuple[str, float]:
        return str(pipes[name].tag("kind")), _outside(pipes[name])

    return order


def with_pipes(line: Line) -> Iterator[tuple[Run, str]]:
    """Every run with the name of the pipe it sits in: the nearest before it, else after it."""
    last = _pipe_at(line, at_start=True)
    for run in line.runs:
        last = run.item.name if run.item.kind == "pipe" else last
        yield run, last
