"""Pipework: pipe and its cut pieces, fittings, valves and tees, what goes through walls, cement for the joints."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tidestead.build.lists import Line, Piece
from tidestead.build.takeoff.findings import Finding, Gap
from tidestead.build.takeoff.unions import adaptors_taken, unions_taken
from tidestead.catalog import Row
from tidestead.catalog import Table as Catalogue
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, Known, Source
from tidestead.core.units import show
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Circuit, Plan
from tidestead.studies.flow.elements import stock_of
from tidestead.studies.flow.parts import (
    HOSE,
    Part,
    junctions,
    outside,
    parts_of_circuit,
    parts_of_junction,
    with_pipes,
)

TEE_ROW = "tee-through"
"""A tee is bought as the row of its straight way: the catalogue's other row is the same thing, passed otherwise."""

LOSSES_ONLY = ("entry", "exit", "bulkhead")
"""Kinds of fitting that stand for a loss and are nothing to buy."""

SOCKET = Source("EN ISO 1452-3, sockets for solvent cement", "least depth 0.5 d + 6 mm", Known.RECALLED)

CEMENT = Estimate(1.5e-3, 2.0e-3, 2.6e-3, "cement on pipe and socket, what dries in the can included")
"""Cubic metres for each square metre of sockets. Common practice, no source."""

PRIMER_SHARE = 1.0 / 3.0
"""Primer or cleaner for each part of cement. Common practice, no source."""

_SPREAD = ("pump", "apparatus", "valve", "fitting", "riser")
"""What stands in a run of pipe and cuts it."""


@dataclass(frozen=True)
class Run:
    """A pipe of a route with what follows it up to the next pipe, which cuts it in `pieces`, all of one length."""

    circuit: str
    number: int
    pipe: str
    length: float
    pieces: int
    inset: float

    @property
    def each(self) -> float:
        """Length of one piece with what sits in the sockets at its ends."""
        return self.length / self.pieces + 2.0 * self.inset


def pipework_taken(plan: Plan) -> Iterator[Finding]:
    """All circuits, then the ports of vessels."""
    tables = stock_of(plan, 1.0e-6).tables
    runs = [run for key, circuit in plan.circuits.items() for run in runs_of(key, circuit, tables["pipes"])]
    yield from _pipes(plan, runs, tables["pipes"])
    for key, circuit in plan.circuits.items():
        found = parts_of_circuit(plan, circuit, tables)
        yield from _parts(found, f"circuits.{key}.route", f"circuit {key}", tables)
        yield from unions_taken(key, circuit, tables)
    for name, legs in junctions(tuple(plan.circuits.values())).items():
        yield from _parts(parts_of_junction(legs, tables), "circuits", f"where circuits meet: {name}", tables)
    yield from _cement(plan, runs, tables)
    yield from _ports(plan, tables["pipes"])
    yield from adaptors_taken(plan, tables)


def runs_of(key: str, circuit: Circuit, pipes: Catalogue) -> Iterator[Run]:
    """The pipes of a circuit. Lengths between fittings are not in the plan: they are shared out evenly."""
    stretches: list[tuple[RouteItem, int]] = []
    for item in circuit.route:
        if item.kind == "pipe":
            stretches.append((item, 1))
        elif stretches and item.kind in _SPREAD:
            pipe, pieces = stretches[-1]
            stretches[-1] = (pipe, pieces + max(item.count, 0))
    for number, (item, pieces) in enumerate(stretches, start=1):
        yield Run(key, number, item.name, item.length, pieces, inset(pipes[item.name]))


def inset(row: Row) -> float:
    """How deep a pipe sits in a socket; a hose is pushed on by its maker's length, which is not counted."""
    return 0.0 if row.tag("kind") == HOSE else 0.5 * outside(row) + 0.006


def _pipes(plan: Plan, runs: list[Run], pipes: Catalogue) -> Iterator[Finding]:
    """A line and a sort of piece for each run."""
    system = plan.show
    for run in runs:
        item, key = Item("pipe", run.pipe), f"circuits.{run.circuit}.route"
        what = f"{pipes[run.pipe].title}, circuit {run.circuit}"
        length, each, deep = (show(one, "m", system) for one in (run.length, run.each, run.inset))
        basis = f"{length} between fittings as the route has it"
        if run.inset > 0.0:
            basis += f", in {run.pieces} pieces of {each} that sit {deep} deep in their sockets"
        whole = Estimate.exact(run.pieces * run.each)
        yield Line(item, whole, "m", what, key, "pipework", "pipework", "", basis, SOCKET, nested=True)
        mark = f"{run.circuit}.{run.number}"
        yield Piece(
            mark, item, run.each, run.pieces, f"{what}; shared out evenly between its fittings", key, ""
        )


def _parts(
    found: Mapping[Part, int], key: str, words: str, tables: Mapping[str, Catalogue]
) -> Iterator[Finding]:
    """Fittings and valves of one place."""
    counted: Counter[tuple[Item, str]] = Counter()
    for part, count in found.items():
        named = _named(part, tables)
        if named is None:
            continue
        if not part.pipe:
            yield Gap(key, f"Put a pipe into the route of {words}: the size of its {named[1]} is not known.")
            continue
        counted[named] += count
    for (item, what), count in sorted(counted.items()):
        yield Line(item, Estimate.exact(float(count)), "1", what, key, "pipework", "pipework", "",
                   f"{count} in {words}", COMPUTED)  # fmt: skip


def _named(part: Part, tables: Mapping[str, Catalogue]) -> tuple[Item, str] | None:
    """What a part is bought as, and its words; None where it is nothing to buy."""
    pipes = tables["pipes"]
    size = pipes[part.pipe].title if part.pipe else ""
    if part.sort == "valve":
        row = tables["valves"][part.name]
        return Item("valve", f"{part.name} {part.pipe}"), f"{row.title}, {size}"
    if part.sort == "fitting":
        row = tables["fittings"][part.name]
        kind = row.tag("kind", "")
        if kind in LOSSES_ONLY:
            return None
        name = TEE_ROW if kind == "tee" else part.name
        return Item("fitting", f"{name} {part.pipe}"), f"{tables['fittings'][name].title}, {size}"
    if part.sort in ("reducer", "tail"):
        name = "reducer" if part.sort == "reducer" else "hose tail"
        other = pipes[part.other].title
        return Item(OWN, f"{name} {part.pipe} to {part.other}"), f"{name}, {size} to {other}"
    open_up = ", its upper end open for a riser" if part.sort == "riser" else ""
    return Item("fitting", f"{TEE_ROW} {part.pipe}"), f"tee, {size}{open_up}"


def _cement(plan: Plan, runs: list[Run], tables: Mapping[str, Catalogue]) -> Iterator[Line]:
    """Cement and primer by the face of every socket that a piece of pipe is pushed into."""
    face = sum(2.0 * run.pieces * math.pi * outside(tables["pipes"][run.pipe]) * run.inset for run in runs)
    if face <= 0.0:
        return
    joints = sum(2 * run.pieces for run in runs if run.inset > 0.0)
    rates = " to ".join(show(1.0 / one, "m2/m3", plan.show) for one in (CEMENT.high, CEMENT.low))
    basis = (
        f"{joints} joints, {show(face, 'm2', plan.show)} of sockets at {rates}; what is screwed takes none"
    )
    for name, share in (("solvent cement", 1.0), ("primer for solvent cement", PRIMER_SHARE)):
        amount = CEMENT.times(share * face)
        yield Line(
            Item(OWN, name), amount, "m3", name, "circuits", "pipework", "pipework", "", basis, PRACTICE
        )


def _ports(plan: Plan, pipes: Catalogue) -> Iterator[Finding]:
    """Fittings through walls; pipes that stand in a vessel."""
    starts = {circuit.start: circuit for circuit in plan.circuits.values()}
    for key, vessel in plan.vessels.items():
        for name, port in vessel.ports.items():
            path = f"vessels.{key}.ports.{name}"
            if port.bulkhead is not None:
                item = Item("bulkhead", port.bulkhead.fitting)
                yield Line(item, Estimate.exact(1.0), "1", f"fitting through the wall of {key}: {name}",
                           f"{path}.bulkhead", "pipework", "pipework", key, f"in its {port.bulkhead.wall}")  # fmt: skip
            elif port.kind in ("inlet", "standpipe", "siphon"):
                yield Gap(
                    f"{path}.bulkhead",
                    f"Say what goes through the wall of {key} at {name}: no fitting is listed.",
                )
            if port.kind in ("standpipe", "siphon"):
                top = (
                    port.level
                    if port.kind == "standpipe"
                    else max((port.crest or port.level) - port.level, 0.0)
                )
                size = port.size or _first_pipe(starts.get(f"{key}.{name}"))
                if not size:
                    yield Gap(f"{path}.size", f"Say the size of {name} in {key}: its pipe is not listed.")
                elif top > 0.0:
                    yield from _upright(plan, (key, name, path), (size, top), pipes)


def _upright(
    plan: Plan, where: tuple[str, str, str], of: tuple[str, float], pipes: Catalogue
) -> Iterator[Finding]:
    """A pipe that stands in a vessel, pushed into one socket."""
    (key, name, path), (size, top) = where, of
    item, deep = Item("pipe", size), inset(pipes[size])
    what = f"{pipes[size].title}, {name} in {key}"
    basis = f"{show(top, 'm', plan.show)} upright and {show(deep, 'm', plan.show)} in its socket"
    whole = Estimate.exact(top + deep)
    yield Line(item, whole, "m", what, path, "pipework", "pipework", key, basis, SOCKET, nested=True)
    yield Piece(f"{key}.{name}", item, top + deep, 1, what, path, key)


def _first_pipe(circuit: Circuit | None) -> str:
    """The pipe that a circuit begins with; empty where it has none."""
    return "" if circuit is None else next((pipe for _, pipe in with_pipes(circuit) if pipe), "")
