"""Networks made by lot, such as a builder might pipe, and what must hold in any answer to one."""

from __future__ import annotations

import math
import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import DrowningLaw, Law, Link, OutfallLaw, SeriesLaw, ShutLaw
from tidestead.physics.flow.network import NetworkState
from tidestead.physics.flow.pipes import PipeLaw
from tidestead.physics.flow.pumps import PumpLaw, PumpPoint, parabola_pump
from tidestead.physics.flow.standpipes import StandpipeLaw
from tidestead.physics.flow.valves import CheckLaw
from tidestead.physics.flow.weirs import Weir, WeirLaw

BORES = (0.0158, 0.0209, 0.0266, 0.0409, 0.0525, 0.0779)
CURVE = PumpLaw((PumpPoint(0.0, 6.0), PumpPoint(2e-3, 5.0), PumpPoint(4e-3, 3.0), PumpPoint(5e-3, 0.5)))


@dataclass(frozen=True)
class Lot:
    """A network made by lot."""

    links: tuple[Link, ...]
    fixed: Mapping[str, float]
    injections: Mapping[str, float]


def pipe(length: float, bore: float, k: float = 0.0) -> PipeLaw:
    return PipeLaw(length, bore, 1.5e-6, 0.94e-6, k)


def weir(length: float) -> WeirLaw:
    return WeirLaw(Weir(length, 0.5, length))


PUMP = Link("pump", "sump", "p", CURVE, one_way=True)
RISER = Link("riser", "p", "tank", pipe(4.0, 0.0409, 5.0))
SPILL = Link("weir", "tank", "sump", over=weir(0.6), crest=1.2, one_way=True)
CIRCUIT = (PUMP, RISER, SPILL)
SUMP = {"sump": 0.3}
"""A sump, its pump, the riser, a tank that spills back."""


def lot(seed: int, nodes: int, links: int) -> Lot:
    """A tree of elements over the nodes, and more across it; water spills only into the lowest fixed level."""
    chance = random.Random(seed)
    names = [f"n{at}" for at in range(nodes)]
    pairs = [chance.sample((names[at], names[chance.randrange(at)]), 2) for at in range(1, nodes)]
    pairs += [chance.sample(names, 2) for _ in range(links - len(pairs))]
    fixed = {node: chance.uniform(0.0, 3.0) for node in chance.sample(names, chance.randint(1, 3))}
    lowest = min(fixed, key=lambda node: fixed[node])
    made = [_link(chance, f"l{at}", pair, lowest, fixed[lowest]) for at, pair in enumerate(pairs)]
    touched = {node for link in made for node in (link.start, link.end)}
    fixed = {node: level for node, level in fixed.items() if node in touched}
    free = sorted(touched - fixed.keys())
    return Lot(
        tuple(made),
        fixed,
        {
            node: chance.choice((0.0, 1e-6, 1e-4, 1e-3))
            for node in free
            if chance.random() < min(0.3, 3.0 / len(free))
        },
    )


def _link(chance: random.Random, name: str, pair: Sequence[str], lowest: str, level: float) -> Link:
    start, end = pair
    bore, length = chance.choice(BORES), 10.0 ** chance.uniform(-1.0, 1.3)
    from_pool = start if start != lowest else end
    crest = level + chance.uniform(0.05, 3.0)
    sort = chance.random()
    if sort < 0.45:
        return Link(name, start, end, pipe(length, bore, chance.uniform(0.0, 5.0)))
    if sort < 0.60:
        return Link(name, start, end, FittingLaw(chance.uniform(0.05, 20.0), bore))
    if sort < 0.68:
        check = CheckLaw(2.0, bore, chance.choice((0.0, 0.02)))
        return Link(name, start, end, SeriesLaw((check, pipe(length, bore))), one_way=True)
    if sort < 0.76:
        return Link(name, start, end, SeriesLaw((CURVE, pipe(length, bore, 1.0))), one_way=True)
    if sort < 0.84:
        return Link(name, from_pool, lowest, over=weir(chance.uniform(0.05, 2.0)), crest=crest, one_way=True)
    if sort < 0.92:
        return Link(name, from_pool, lowest, pipe(length, bore, 2.0), StandpipeLaw(bore), crest, True)
    if sort < 0.95:
        return Link(name, start, end, ShutLaw())
    return Link(
        name,
        start,
        end,
        parabola_pump(chance.uniform(1.0, 8.0), 10.0 ** chance.uniform(-4.0, -2.0)),
        one_way=True,
    )


def is_stuck(made: Lot) -> bool:
    """Whether water is let in that has no way to a fixed level, or a part has none at all: no answer exists."""
    ways: dict[str, set[str]] = {}
    joined: dict[str, set[str]] = {}
    for link in made.links:
        back = link.over is None and not link.one_way
        if not isinstance(link.through, ShutLaw):
            ways.setdefault(link.end, set()).add(link.start)
            if back:
                ways.setdefault(link.start, set()).add(link.end)
        joined.setdefault(link.end, set()).add(link.start)
        if link.through is not None:
            joined.setdefault(link.start, set()).add(link.end)
    nodes = {node for link in made.links for node in (link.start, link.end)}
    fed = {node for node, inflow in made.injections.items() if inflow}
    return not (fed <= _reached(ways, made.fixed) and nodes <= _reached(joined, made.fixed))


def _reached(ways: Mapping[str, set[str]], fixed: Mapping[str, float]) -> set[str]:
    found, waiting = set(fixed), list(fixed)
    while waiting:
        new = ways.get(waiting.pop(), set()) - found
        found |= new
        waiting += new
    return found


def faults(
    links: Sequence[Link], fixed: Mapping[str, float], injections: Mapping[str, float], state: NetworkState
) -> list[str]:
    """What is wrong with an answer: laws that do not hold, nodes out of balance, links open or shut wrongly."""
    found = [fault for link in links for fault in _link_faults(link, state)]
    largest = max(1e-6, *(abs(flow) for flow in state.flows.values()))
    for node in state.heads.keys() - fixed.keys():
        into = sum(state.flows[link.name] for link in links if link.end == node)
        out = sum(state.flows[link.name] for link in links if link.start == node)
        if abs(into - out + injections.get(node, 0.0)) > 1e-9 * largest:
            found.append(f"{node} is out of balance by {into - out + injections.get(node, 0.0):.3g}")
    found += [f"{node} moved" for node, level in fixed.items() if state.heads[node] != level]
    return found


def _link_faults(link: Link, state: NetworkState) -> list[str]:
    flow, branch = state.flows[link.name], state.branch[link.name]
    start, end = state.heads[link.start], state.heads[link.end]
    if math.isnan(start) or math.isnan(end):
        return (
            []
            if flow == 0.0 or abs(flow) < 1e-12 or branch != "shut"
            else [f"{link.name} flows though cut off"]
        )
    through = end + _head(link.through, flow) if link.through is not None else -math.inf
    over = link.crest + _over(link, flow, end - link.crest) if link.over is not None else -math.inf
    close = 1e-7 * (1.0 + abs(start))
    if branch == "shut":
        closed = math.isinf(max(_slope(link.through), _slope(link.over)))
        wrong = flow != 0.0 or not (closed or start <= max(through, over) + close)
        return [f"{link.name} is shut wrongly"] if wrong else []
    if flow < 0.0 and (link.one_way or link.over is not None):
        return [f"{link.name} runs back"]
    gap = start - max(through, over)
    return [f"{link.name} misses its law by {gap:.3g} m"] if abs(gap) > close else []


def drowning_lot(seed: int) -> Lot:
    """A pump that lifts into vessels which spill one into the next over crests, many of them drowned."""
    chance = random.Random(seed)
    count = chance.randint(1, 4)
    places = ["p", *(f"v{at}" for at in range(count)), "sump"]
    made = [Link("pump", "sump", "p", CURVE, one_way=True)]
    made.append(Link("up", "p", "v0", pipe(2.0, chance.choice(BORES[2:]), 3.0)))
    for at in range(count):
        start, end = places[at + 1], places[at + 2]
        crest = chance.uniform(0.5, 1.5)
        bore = chance.choice(BORES[2:])
        if end == "sump":
            made.append(Link(f"l{at}", start, end, pipe(chance.uniform(0.3, 4.0), bore, 3.0)))
        elif chance.random() < 0.7:
            made.append(Link(f"l{at}", start, end, over=weir(chance.uniform(0.05, 2.0)), crest=crest))
        else:
            made.append(Link(f"l{at}", start, end, over=OutfallLaw(pipe(1.0, bore, 1.0)), crest=crest))
    return Lot(tuple(made), {"sump": 0.3}, {})


def _over(link: Link, flow: float, tail: float) -> float:
    """Head over a crest; where the element is nothing but a crest, with what stands behind it."""
    if link.through is None and isinstance(link.over, DrowningLaw):
        return link.over.before(flow, tail).head
    return _head(link.over, flow)


def _head(law: Law | None, flow: float) -> float:
    return law.at(flow).head if law is not None else 0.0


def _slope(law: Law | None) -> float:
    return law.at(1e-9).slope if law is not None else 0.0
