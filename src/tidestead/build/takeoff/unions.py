"""What joins pipes to machines, walls and standpipes: unions, and adaptors where sizes differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from tidestead.build.lists import Line
from tidestead.catalog import Row
from tidestead.catalog import Table as Catalogue
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, Source
from tidestead.core.units import parse, to_si
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Circuit, Plan
from tidestead.studies.flow.parts import ALIKE, joint, outside, pipe_at, with_pipes

SERVICED = ("pump", "apparatus")
"""What of a route is taken out now and then. Common practice, no source."""

UNION = "union"


def unions_of(circuit: Circuit) -> Counter[str]:
    """Unions by the pipe that they sit on: one on each side of what is taken out, one between two such, none where the
    route has one already.
    """
    items = [(item, pipe) for item, pipe in with_pipes(circuit) if item.kind != "pipe"]
    serviced = {at for at, (item, _) in enumerate(items) if item.kind in SERVICED}
    drawn = {at for at, (item, _) in enumerate(items) if item.kind == "fitting" and item.name == UNION}
    found: Counter[str] = Counter()
    for gap in sorted({gap for at in serviced for gap in (at, at + 1)}):
        if not {gap - 1, gap} & drawn:
            found[items[min(gap, len(items) - 1)][1]] += 1
    return found


def unions_taken(key: str, circuit: Circuit, tables: Mapping[str, Catalogue]) -> Iterator[Line]:
    """Unions that the route does not name."""
    title = tables["fittings"][UNION].title
    for pipe, count in unions_of(circuit).items():
        if pipe:
            basis = f"{count} in circuit {key}: on each side of what is taken out; assumed, since the route names none"
            yield _line(Item("fitting", f"{UNION} {pipe}"), count, f"{title}, {tables['pipes'][pipe].title}",
                        f"circuits.{key}.route", basis, PRACTICE)  # fmt: skip


def adaptors_taken(plan: Plan, tables: Mapping[str, Catalogue]) -> Iterator[Line]:
    """Between fittings through walls, or standpipes, and the pipes that begin or end there."""
    pipes = tables["pipes"]
    for circuit in plan.circuits.values():
        for at, at_start in ((circuit.start, True), (circuit.end, False)):
            pipe = pipe_at(circuit, at_start)
            vessel, _, name = at.partition(".")
            port = plan.vessels[vessel].ports.get(name) if vessel in plan.vessels else None
            if port is None or not pipe:
                continue
            path = f"vessels.{vessel}.ports.{name}"
            if port.bulkhead is not None:
                yield from _at_wall(tables["bulkheads"][port.bulkhead.fitting], (pipes[pipe], pipes), path)
            elif port.size:
                for part, count in joint(pipes[port.size], pipes[pipe]).items():
                    item = Item(OWN, f"reducer {part.pipe} to {part.other}")
                    yield _line(item, count, f"adaptor under {name} of {vessel}", f"{path}.size",
                                f"{pipes[port.size].title} over {pipes[pipe].title}")  # fmt: skip


def _at_wall(fitting: Row, come: tuple[Row, Catalogue], path: str) -> Iterator[Line]:
    """An adaptor where a fitting takes another pipe than comes to it."""
    pipe, pipes = come
    takes = pipe_taken(fitting, pipes)
    if takes is None or abs(takes - outside(pipe)) < ALIKE:
        return
    basis = f"the fitting takes a pipe of {fitting.tag('pipe')}, and {pipe.title} comes to it"
    yield _line(Item(OWN, f"adaptor {fitting.name} to {pipe.name}"), 1, f"adaptor, {fitting.title} to {pipe.title}",
                f"{path}.bulkhead", basis)  # fmt: skip


def pipe_taken(fitting: Row, pipes: Catalogue) -> float | None:
    """Outer diameter of the pipe that a fitting through a wall takes; None where its row does not tell.

    A size in inches is a nominal one, as Schedule 40 pipe has it.
    """
    size = str(fitting.tag("pipe", ""))
    if not size:
        return None
    if size.endswith("mm"):
        return parse(size, "length")
    name = f"pvc40-{parse(size, 'length') / to_si(1.0, 'in'):g}in"
    return outside(pipes[name]) if name in pipes else None


def _line(item: Item, count: int, what: str, key: str, basis: str, source: Source = COMPUTED) -> Line:
    amount = Estimate.exact(float(count))
    return Line(item, amount, "1", what, key, "pipework", "pipework", "", basis, source)
