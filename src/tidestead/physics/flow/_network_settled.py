"""The answer without leaks: shut links are taken out, what they cut off is found, every balance is checked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import numpy as np

from tidestead.core.errors import SolverError
from tidestead.physics.flow._network_layout import Flags, Indices, Layout
from tidestead.physics.flow._network_rounds import (
    NOTHING,
    OVER,
    SHUT,
    THROUGH,
    Running,
    ends,
    imbalance,
    lines,
    misfit,
    scale_of,
    solve_rises,
    still,
    wanted_states,
)

Branch = Literal["through", "over", "shut"]

_ROUNDS = 30
_HELD = 1e-6
"""Share of the largest head within which a pump without flow holds the level beyond it."""

_FIT = 1e-8
"""Share of the largest head by which a law may miss its heads."""

_BALANCE = 1e-9
"""Share of the largest flow by which a node may be out of balance."""


def reachable(layout: Layout, usable: Flags, spilling: Flags) -> Flags:
    """Nodes whose water can get to a fixed level through usable links; over a crest only forward."""
    forward = [(layout.end[at], layout.start[at]) for at in np.flatnonzero(usable)]
    backward = [(layout.start[at], layout.end[at]) for at in np.flatnonzero(usable & ~spilling)]
    into: dict[int, list[int]] = {}
    for head, tail in (*forward, *backward):
        into.setdefault(int(head), []).append(int(tail))
    found = np.arange(len(layout.nodes)) >= layout.free
    waiting = list(range(layout.free, len(layout.nodes)))
    while waiting:
        for node in into.get(waiting.pop(), ()):
            if not found[node]:
                found[node] = True
                waiting.append(node)
    return found


def refuse_adrift(layout: Layout) -> None:
    """SolverError where some part of the network has no fixed level that its water can get to."""
    found = reachable(layout, np.ones(len(layout.links), dtype=bool), layout.has_over & ~layout.has_through)
    if not np.all(found):
        lost = [layout.nodes[at] for at in np.flatnonzero(~found)]
        more = f" and {len(lost) - 3} more" if len(lost) > 3 else ""
        raise SolverError(f"no fixed level can be reached from {', '.join(lost[:3])}{more}")


def settle(layout: Layout, running: Running) -> Flags:
    """Take out the leaks of shut links. Gives the nodes that are cut off, whose level nothing tells.

    A crest that only leaks ran over falls dry; then what is cut off is looked for again. A pump that just
    holds the level beyond it counts as open.
    """
    held = (running.state == SHUT) & ~layout.closed & layout.one_way & (layout.opens_at < 0.0)
    start, end = ends(layout, running)
    close = _HELD * (1.0 + float(np.max(np.abs(running.heads))))
    held &= (start - end - layout.opens_at >= -close) & ~layout.has_over
    running.state = np.where(held, THROUGH, running.state)
    while True:
        dry = (running.state == OVER) & (running.flows <= NOTHING * scale_of(running.flows))
        running.state = np.where(dry, SHUT, running.state)
        running.flows = np.where(running.state == SHUT, 0.0, running.flows)
        cut_off = ~reachable(layout, running.state != SHUT, running.state == OVER)
        if not _runs_dry(layout, running, _pins(layout, running, cut_off)):
            return cut_off


def _runs_dry(layout: Layout, running: Running, pins: Indices) -> bool:
    """Rounds without leaks until flows stand still, or until some crest falls dry: whether one did."""
    for _ in range(_ROUNDS):
        running.rounds += 1
        made = lines(layout, running, 0.0)
        rises = solve_rises(layout, made, pins, 0.0)
        running.heads = running.heads + rises
        flows = made.flows(layout, rises)
        done = still(running, made, flows)
        running.flows = flows
        if np.any((running.state == OVER) & (flows <= NOTHING * scale_of(flows))):
            return True
        if done:
            break
    return False


def _pins(layout: Layout, running: Running, cut_off: Flags) -> Indices:
    """One node of every part that is cut off: its level is kept, as one must be."""
    group = np.arange(len(layout.nodes))
    for at in np.flatnonzero(running.state != SHUT):
        one, other = group[layout.start[at]], group[layout.end[at]]
        if cut_off[layout.start[at]] and cut_off[layout.end[at]]:
            if running.state[at] == OVER:
                raise SolverError(f"{layout.links[at].name}: water runs over it to where it has no way out")
            group[group == max(one, other)] = min(one, other)
    return np.unique(group[cut_off])


def turned(layout: Layout, running: Running, cut_off: Flags) -> bool:
    """Whether some link that is not cut off ought to open or shut after all; the first by name is turned."""
    wanted = wanted_states(layout, running, running.flows)
    known = ~(cut_off[layout.start] | cut_off[layout.end])
    wrong = np.flatnonzero((wanted != running.state) & known & ~layout.closed)
    if wrong.size:
        first = wrong[0]
        running.state[first] = wanted[first]
        running.flows[first] = layout.likely[first] if wanted[first] != SHUT else 0.0
    return bool(wrong.size)


def verify(layout: Layout, running: Running) -> tuple[float, float]:
    """Largest misfit of a law and of a node's balance; SolverError, naming the place, where they are not small."""
    gap, missing = np.abs(misfit(layout, running)), np.abs(imbalance(layout, running.flows))
    worst, empty = int(np.argmax(gap)), float(np.max(missing, initial=0.0))
    if gap[worst] > _FIT * (1.0 + float(np.max(np.abs(running.heads)))):
        raise SolverError(
            f"{layout.links[worst].name}: its law misses the heads at its ends by {gap[worst]:.3g} m"
        )
    if empty > _BALANCE * scale_of(running.flows):
        node = layout.nodes[int(np.argmax(missing))]
        raise SolverError(f"{node}: {empty:.3g} m3/s more or less comes in than goes out; it has no way out")
    return float(gap[worst]), empty


STATES: Mapping[str | None, int] = {"shut": SHUT, "through": THROUGH, "over": OVER}
"""States by their words."""


def names_of(state: Indices) -> list[Branch]:
    """The words for states."""
    words: dict[int, Branch] = {SHUT: "shut", THROUGH: "through", OVER: "over"}
    return [words[int(one)] for one in state]
