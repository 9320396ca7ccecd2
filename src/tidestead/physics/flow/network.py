"""Steady flow in a network of pipes, pumps, valves, weirs and standpipes, of any elements that have a law."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Count, CubicMetrePerSecond, Metre
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow import _network_rounds as rounds
from tidestead.physics.flow import _network_settled as settled
from tidestead.physics.flow._network_layout import Flags, Layout, lay_out
from tidestead.physics.flow._network_settled import Branch
from tidestead.physics.flow.laws import Link

_TURNS = 20
"""How often a link may be found open or shut wrongly once the leaks are out. Two has not been seen."""


@dataclass(frozen=True)
class NetworkState:
    """Flow by link (from start to end), head by node, and by link whether it runs through, over or is shut.

    Nodes in `cut_off` are parted from every fixed level by shut links: their head is not a number. The
    elements in `drowned` have water above their crest at their far end. Those of them in `doubtful` would let water
    back, or have no law for it: what they pass is not to be trusted, nor the level before them.
    `residual` is the largest misfit of a law, `imbalance` that of a node.
    """

    flows: Mapping[str, CubicMetrePerSecond]
    heads: Mapping[str, Metre]
    branch: Mapping[str, Branch]
    cut_off: tuple[str, ...]
    drowned: tuple[str, ...]
    rounds: Count
    residual: Metre
    imbalance: CubicMetrePerSecond
    doubtful: tuple[str, ...] = ()


def solve_network(
    links: Sequence[Link],
    fixed: Mapping[str, Metre],
    injections: Mapping[str, CubicMetrePerSecond] | None = None,
    start: NetworkState | None = None,
) -> NetworkState:
    """Flows and heads at which every law holds and every node is in balance.

        start head - end head = h(Q)   or   start head - crest = h(Q)        every link that is not shut
        start head - crest = h(Q, end head - crest)                           where that is above the crest
        flow in - flow out + injection = 0                                    every node without a fixed head

    Global gradient method: each law is taken as a straight line at the present flow, the balances give
    the heads, the heads new flows. What turns back shuts, what is pushed open opens. `fixed` are levels by
    node, `injections` what is put in (taken out: negative), `start` an answer to begin from.

    Raises ImpossibleInput where the elements make no network; SolverError where a part has no fixed level
    to run to, where water has no way out, or naming the element that finds no balance.

    Source: E. Todini and S. Pilati, A gradient algorithm for the analysis of pipe networks (1988); equations as
            in L. Rossman et al., EPANET 2.2 User Manual (2020), analysis algorithms. Crests and the order
            in which links open are ours.
    Valid:  steady flow, heads that count all energy, laws that rise with flow. An element with a crest lets
            nothing back. A law that falls somewhere (a tee with negative K) is borne while the pipes about it
            outweigh it. What `doubtful` names is outside.
    """
    if not links or not fixed:
        raise ImpossibleInput("a network needs elements, and a level that is fixed")
    layout = lay_out(links, fixed, injections or {})
    settled.refuse_adrift(layout)
    running = _begin(layout, start)
    for _ in range(_TURNS):
        rounds.seek(layout, running)
        cut_off = settled.settle(layout, running)
        if not settled.turned(layout, running, cut_off):
            return _state(layout, running, cut_off)
    raise SolverError(f"{layout.links[0].name}: links open and shut without end")


def _begin(layout: Layout, start: NetworkState | None) -> rounds.Running:
    """Where the search begins: where another answer stands, what that does not know at a first guess."""
    states = np.where(layout.has_through, rounds.THROUGH, rounds.OVER)
    states[layout.closed] = rounds.SHUT
    heads = np.concatenate([np.full(layout.free, np.mean(layout.heads)), layout.heads])
    if start is None:
        return rounds.Running(np.where(layout.closed, 0.0, layout.likely), heads, states)
    told = np.array([settled.STATES.get(start.branch.get(link.name), -1) for link in layout.links])
    can = (told == rounds.SHUT) | np.where(told == rounds.THROUGH, layout.has_through, layout.has_over)
    known = (told >= 0) & can & ~layout.closed
    states = np.where(known, told, states)
    flows = np.array([start.flows.get(link.name, 0.0) for link in layout.links])
    flows = np.where(known & (states != rounds.SHUT), flows, 0.0)
    guessed = (flows == 0.0) & (states != rounds.SHUT)
    before = np.array([start.heads.get(node, np.nan) for node in layout.nodes[: layout.free]])
    heads[: layout.free] = np.where(np.isfinite(before), before, heads[: layout.free])
    return rounds.Running(np.where(guessed, layout.likely, flows) if guessed.any() else flows, heads, states)


def _state(layout: Layout, running: rounds.Running, cut_off: Flags) -> NetworkState:
    residual, imbalance = settled.verify(layout, running)
    nothing = np.abs(running.flows) <= rounds.NOTHING * rounds.scale_of(running.flows)
    flows = np.where(nothing & layout.one_way, np.maximum(running.flows, 0.0), running.flows)
    heads = np.where(cut_off, np.nan, running.heads)
    links = [link.name for link in layout.links]
    drowned = layout.has_over & (heads[layout.end] > layout.crest)
    back = (running.state == rounds.SHUT) & (heads[layout.end] > heads[layout.start])
    told = layout.drowns | (running.state == rounds.THROUGH)
    return NetworkState(
        flows=dict(zip(links, flows.tolist(), strict=True)),
        heads=dict(zip(layout.nodes, heads.tolist(), strict=True)),
        branch=dict(zip(links, settled.names_of(running.state), strict=True)),
        cut_off=tuple(node for node, lost in zip(layout.nodes, cut_off, strict=True) if lost),
        drowned=tuple(links[at] for at in np.flatnonzero(drowned)),
        doubtful=tuple(links[at] for at in np.flatnonzero(drowned & (back | ~told))),
        rounds=running.rounds,
        residual=residual,
        imbalance=imbalance,
    )
