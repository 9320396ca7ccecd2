"""What has to be bought for the circuits: pipe, fittings and valves by size."""

from __future__ import annotations

from collections import Counter

from tidestead.core.answer import Column, Table
from tidestead.studies.flow.facts import FlowFacts, Line, Run


def list_tables(facts: FlowFacts) -> list[Table]:
    """Pipe in metres, fittings and valves by number."""
    lengths: dict[str, float] = {}
    counts: Counter[tuple[str, str]] = Counter()
    for line in facts.lines:
        for run, pipe in with_pipes(line):
            if run.item.kind == "pipe":
                lengths[run.words] = lengths.get(run.words, 0.0) + run.item.length
            elif run.item.kind in ("fitting", "valve") and run.item.count:
                words = run.words.removeprefix(f"valve {run.item.name}, ")
                counts[(words, pipe)] += run.item.count
    pipe_rows = tuple((words, length) for words, length in sorted(lengths.items()))
    fitting_rows = tuple((words, pipe, float(count)) for (words, pipe), count in sorted(counts.items()))
    note = "As drawn, without waste. Where two sizes meet a reducer comes on top."
    return [
        Table("flow.pipe", "Pipe", (Column("size"), Column("length", "m")), pipe_rows, note),
        Table(
            "flow.fittings",
            "Fittings and valves",
            (Column("part"), Column("size of its pipe"), Column("how many", "count")),
            fitting_rows,
            note,
        ),
    ]


def with_pipes(line: Line) -> list[tuple[Run, str]]:
    """Every run with the pipe it sits in, named: the nearest before it, else after it."""
    names = [run.words if run.item.kind == "pipe" else "" for run in line.runs]
    first = next((name for name in names if name), "")
    found, last = [], first
    for run, name in zip(line.runs, names, strict=True):
        last = name or last
        found.append((run, last))
    return found
