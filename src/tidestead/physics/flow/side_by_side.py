"""Several networks that have nothing to do with each other, solved as one.

A round for ten small networks costs little more than one for a single one: trials of a plan (a pump at other speeds,
a drain blocked) are found in a fifth of the time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from tidestead.core.dims import Metre
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow.laws import Link
from tidestead.physics.flow.network import NetworkState, solve_network

_NODES = 100
"""Free nodes that are solved as one at most: a full matrix of so many costs as much as the laws of its links
(measured)."""


@dataclass(frozen=True)
class NetworkCase:
    """One network: its elements, its fixed levels, and an answer to begin from, if any."""

    links: tuple[Link, ...]
    fixed: Mapping[str, Metre]
    start: NetworkState | None = None


def solve_networks(cases: Sequence[NetworkCase]) -> tuple[NetworkState | None, ...]:
    """What `solve_network` finds for each case; None where it finds nothing.

    Solved side by side first, where each may find all others in the way of ending at once. What that does not solve
    is solved one by one, from its start and then from nothing. `rounds`, `residual` and `imbalance` are then those of
    all that were solved together.

    Source: as `solve_network`.
    Valid:  as there.
    """
    found: list[NetworkState | None] = [None] * len(cases)
    whole = [at for at, case in enumerate(cases) if case.links and case.fixed]
    for some in _heaps(whole, cases):
        heap = [cases[at] for at in some]
        states = _together(heap) if len(heap) > 1 else [_alone(one) for one in heap]
        for at, state in zip(some, states, strict=True):
            found[at] = state
    return tuple(found)


def _heaps(places: Sequence[int], cases: Sequence[NetworkCase]) -> Iterator[list[int]]:
    """Places of cases that are solved at once, in their order."""
    heap: list[int] = []
    size = 0
    for at in places:
        case = cases[at]
        free = len({node for link in case.links for node in (link.start, link.end)} - case.fixed.keys())
        if heap and size + free > _NODES:
            yield heap
            heap, size = [], 0
        heap.append(at)
        size += free
    if heap:
        yield heap


def _alone(case: NetworkCase) -> NetworkState | None:
    for start in (case.start, None) if case.start is not None else (None,):
        try:
            return solve_network(case.links, case.fixed, start=start)
        except ImpossibleInput:
            return None
        except SolverError:
            continue
    return None


def _together(cases: Sequence[NetworkCase]) -> list[NetworkState | None]:
    marks = [f"{at:03d} " for at in range(len(cases))]
    links = [
        Link(mark + one.name, mark + one.start, mark + one.end, one.through, one.over, one.crest, one.one_way)
        for mark, case in zip(marks, cases, strict=True)
        for one in case.links
    ]
    fixed = {
        mark + node: level
        for mark, case in zip(marks, cases, strict=True)
        for node, level in case.fixed.items()
    }
    try:
        state = solve_network(links, fixed, start=_joined(marks, cases))
    except (SolverError, ImpossibleInput):
        return [_alone(case) for case in cases]
    return [_parted(state, mark, case) for mark, case in zip(marks, cases, strict=True)]


def _joined(marks: Sequence[str], cases: Sequence[NetworkCase]) -> NetworkState | None:
    """Where all of them begin."""
    starts = [(mark, case.start) for mark, case in zip(marks, cases, strict=True) if case.start is not None]
    if not starts:
        return None
    return NetworkState(
        flows={mark + name: flow for mark, start in starts for name, flow in start.flows.items()},
        heads={mark + node: head for mark, start in starts for node, head in start.heads.items()},
        branch={mark + name: way for mark, start in starts for name, way in start.branch.items()},
        cut_off=(),
        drowned=(),
        rounds=0,
        residual=0.0,
        imbalance=0.0,
    )


def _parted(state: NetworkState, mark: str, case: NetworkCase) -> NetworkState:
    """What a solution of all says of one."""
    names = sorted(link.name for link in case.links)
    nodes = {node for link in case.links for node in (link.start, link.end)}
    ordered = [*sorted(nodes - case.fixed.keys()), *sorted(case.fixed)]

    def own(told: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(name.removeprefix(mark) for name in told if name.startswith(mark))

    return NetworkState(
        flows={name: state.flows[mark + name] for name in names},
        heads={node: state.heads[mark + node] for node in ordered},
        branch={name: state.branch[mark + name] for name in names},
        cut_off=own(state.cut_off),
        drowned=own(state.drowned),
        rounds=state.rounds,
        residual=state.residual,
        imbalance=state.imbalance,
        doubtful=own(state.doubtful),
    )
