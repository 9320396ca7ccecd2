"""Fittings, valves and tees that circuits take, counted by the catalogue's names and the pipe they sit on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from tidestead.catalog import Row
from tidestead.catalog import Table as Catalogue
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.model import Circuit, Plan
from tidestead.studies.flow.tees import TEE

ALIKE = 5e-4
"""Outer diameters that differ by less, metres, take the same fitting."""

HOSE = "hose"

Leg = tuple[Circuit, bool]
"""A circuit that ends at a junction, and whether with its start."""


@dataclass(frozen=True, order=True)
class Part:
    """One sort of part. `name` is the row of fittings or valves, `pipe` the pipe it sits on, where one is known.

    tee: joins circuits. riser: a tee with its upper end open. reducer: from `pipe` to `other`, the narrower. tail: of
    hose `pipe` on `other`.
    """

    sort: Literal["fitting", "valve", "tee", "riser", "reducer", "tail"]
    name: str = ""
    pipe: str = ""
    other: str = ""


def parts_of_circuit(plan: Plan, circuit: Circuit, tables: Mapping[str, Catalogue]) -> Counter[Part]:
    """What one circuit holds, but for the tees it meets others with."""
    found: Counter[Part] = Counter()
    fittings, pipes = tables["fittings"], tables["pipes"]
    met = {at for end in (True, False) for at in tees_at(circuit, end, fittings)}
    for at, (item, pipe) in enumerate(with_pipes(circuit)):
        if item.kind == "valve":
            valve = plan.valves[item.name]
            found[Part("valve", valve.kind, valve.size or pipe)] += 1
        elif item.kind == "fitting" and item.count and at not in met:
            found[Part("fitting", item.name, pipe)] += item.count
        elif item.kind == "riser":
            before = [one.name for one in circuit.route[:at] if one.kind == "pipe"]
            found[Part("riser", "", before[-1] if before else "")] += 1
    for one, other in pairwise(item.name for item in circuit.route if item.kind == "pipe"):
        found += joint(pipes[one], pipes[other])
    return found


def junctions(circuits: Sequence[Circuit]) -> dict[str, list[Leg]]:
    """Circuits that meet at each junction."""
    found: dict[str, list[Leg]] = {}
    for circuit in circuits:
        for name, at_start in ((circuit.start, True), (circuit.end, False)):
            if "." not in name:
                found.setdefault(name, []).append((circuit, at_start))
    return found


def parts_of_junction(legs: Sequence[Leg], tables: Mapping[str, Catalogue]) -> Counter[Part]:
    """The tees of a place where circuits meet, and what joins them to narrower pipes."""
    found: Counter[Part] = Counter()
    pipes = tables["pipes"]
    near = [pipes[pipe] for circuit, at_start in legs if (pipe := pipe_at(circuit, at_start))]
    if not near:
        return found
    widest = max(near, key=outside)
    drawn = sum(len(tees_at(circuit, at_start, tables["fittings"])) for circuit, at_start in legs)
    tees = len(legs) - 2 if len(legs) > 2 else min(drawn, 1)
    if tees > 0:
        found[Part("tee", "", widest.name)] += tees
    for row in near:
        found += joint(widest, row)
    return found


def tees_at(circuit: Circuit, at_start: bool, fittings: Catalogue) -> list[int]:
    """Places in the route of tee fittings that stand next to a junction, at one end of a circuit."""
    if "." in (circuit.start if at_start else circuit.end):
        return []
    items = [(at, item) for at, item in enumerate(circuit.route) if item.count or item.kind != "fitting"]
    found = []
    for at, item in items if at_start else reversed(items):
        if item.kind != "fitting" or fittings[item.name].tag("kind", "") != TEE:
            break
        found.append(at)
    return found


def pipe_at(circuit: Circuit, at_start: bool) -> str:
    """The pipe nearest to an end of a circuit; empty where it has none."""
    names = [item.name for item in circuit.route if item.kind == "pipe"]
    return (names[0] if at_start else names[-1]) if names else ""


def with_pipes(circuit: Circuit) -> Iterator[tuple[RouteItem, str]]:
    """Everything of a route with the name of the pipe it sits in: the nearest before it, else after it."""
    last = pipe_at(circuit, at_start=True)
    for item in circuit.route:
        last = item.name if item.kind == "pipe" else last
        yield item, last


def outside(row: Row) -> float:
    """Outer diameter of a pipe; of a hose, which is sold by its bore, that."""
    return row.si("outer") if row.has("outer") else row.si("bore")


def joint(one: Row, other: Row) -> Counter[Part]:
    """What joins two pipes of different size or sort; nothing where they take the same fitting."""
    hoses = [row for row in (one, other) if row.tag("kind") == HOSE]
    if len(hoses) == 1:
        pipe = other if hoses[0] is one else one
        return Counter({Part("tail", "", hoses[0].name, pipe.name): 1})
    if abs(outside(one) - outside(other)) < ALIKE:
        return Counter()
    wide, narrow = sorted((one, other), key=outside, reverse=True)
    return Counter({Part("reducer", "", wide.name, narrow.name): 1})
