"""What has to be bought for the circuits: pipe, fittings, valves, fittings through walls, by size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping

from tidestead.catalog import Table as Catalogue
from tidestead.core.answer import Column, Table
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import stock_of
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.parts import Part, junctions, outside, parts_of_circuit, parts_of_junction


def list_tables(plan: Plan, facts: FlowFacts) -> list[Table]:
    """Pipe in metres; fittings, valves and fittings through walls by number."""
    tables = stock_of(plan, facts.water.kinematic_viscosity).tables
    return [_pipe_table(facts, tables["pipes"]), _part_table(plan, facts, tables)]


def _pipe_table(facts: FlowFacts, pipes: Catalogue) -> Table:
    lengths: dict[str, float] = {}
    for line in (*facts.lines, *facts.outs):
        for run in line.runs:
            if run.item.kind == "pipe":
                lengths[run.item.name] = lengths.get(run.item.name, 0.0) + run.item.length
    rows = tuple((pipes[name].title, lengths[name]) for name in sorted(lengths, key=_by_size(pipes)))
    note = "As drawn, without waste: buy a tenth more, and whole lengths. Common practice, no source."
    return Table("flow.pipe", "Pipe", (Column("size"), Column("length", "m")), rows, note)


def _part_table(plan: Plan, facts: FlowFacts, tables: Mapping[str, Catalogue]) -> Table:
    circuits = [line.circuit for line in (*facts.lines, *facts.outs)]
    parts: Counter[Part] = Counter()
    for circuit in circuits:
        parts += parts_of_circuit(plan, circuit, tables)
    for legs in junctions(circuits).values():
        parts += parts_of_junction(legs, tables)
    counts: Counter[tuple[str, str]] = Counter(_holes(facts))
    for part, count in parts.items():
        counts[_words(part, tables)] += count
    rows = tuple((words, size or None, float(count)) for (words, size), count in sorted(counts.items()))
    note = (
        "Pipes that meet at a place are joined by one tee less than there are pipes over two, of the widest of them, "
        "with a reducer to each narrower one. A riser takes a tee with its upper end open. Where a pump, a lamp or a "
        "bulkhead is of another size than its pipe an adaptor comes on top; so does a union on each side of what is "
        "to be taken out."
    )
    columns = (Column("part"), Column("size of its pipe"), Column("how many", "count"))
    return Table("flow.fittings", "Fittings, valves and fittings through walls", columns, rows, note)


def _holes(facts: FlowFacts) -> Iterator[tuple[str, str]]:
    """Fittings through walls."""
    return ((hole.row.title, "") for hole in facts.holes)


def _words(part: Part, tables: Mapping[str, Catalogue]) -> tuple[str, str]:
    """A part in words, and the pipe it sits on."""
    pipes = tables["pipes"]
    size = pipes[part.pipe].title if part.pipe else ""
    if part.sort == "valve":
        return tables["valves"][part.name].title, size
    if part.sort == "fitting":
        return tables["fittings"][part.name].title, size
    if part.sort == "reducer":
        return "Reducer", f"{size} to {pipes[part.other].title}"
    if part.sort == "tail":
        return "Hose tail", f"{size} on {pipes[part.other].title}"
    return ("Tee" if part.sort == "tee" else "Tee open upward, for a riser"), size


def _by_size(pipes: Catalogue) -> Callable[[str], tuple[str, float]]:
    def order(name: str) -> tuple[str, float]:
        return str(pipes[name].tag("kind")), outside(pipes[name])

    return order
