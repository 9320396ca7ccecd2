"""Rounds of the global gradient method: linearise every law, solve for heads, update flows and what is open.

A link is shut, runs through, or runs over its crest. Shut links leak a hair while the answer is sought, so that
every head is defined; `_network_settled` takes the leak out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import SolverError
from tidestead.physics.flow._network_layout import TRICKLE, Flags, Indices, Layout

SHUT, THROUGH, OVER = 0, 1, 2

LEAK = 1e-10
"""m2/s let through a shut link by each metre of head, while the answer is sought."""

_FLATTEST = 1e-6
"""s/m2. Slopes nearer to nothing are taken as this, keeping their sign."""

_DENSE_TO = 150
"""Free nodes up to which a full matrix is quicker than a sparse one (measured)."""

_HURRIED, _MOST = 40, 200
"""Rounds after which only one link at a time may open or shut, and after which it is given up."""

_STILL = 1e-11
"""Change of flow, as a share of the largest, at which a round counts as the last but one."""

NOTHING = 1e-10
"""Share of the largest flow below which a flow counts as none."""

_CLOSE_HEAD = 1e-10
"""Share of the largest head by which a shut link must be pushed before it opens."""

_OPENING_HEAD = 0.1
"""m. Head for which the flow of a link is first guessed."""


@dataclass
class Running:
    """Where the search stands: flows and states by link, heads by node; `guess` is a likely flow."""

    flows: Array
    guess: Array
    heads: Array
    state: Indices
    rounds: int = 0


@dataclass(frozen=True)
class Lines:
    """Every link's law as a straight line: flow = base + give*(start head - reach*end head)."""

    base: Array
    give: Array
    reach: Array


def begin(layout: Layout, start: Array | None) -> Running:
    """A first guess: given flows, or those that lose about a tenth of a metre."""
    flows = np.full(len(layout.links), 1e-3)
    for _ in range(2):
        head = np.abs(layout.through.at(flows)[0] + layout.over.at(flows)[0])
        flows = flows * np.clip(np.sqrt(_OPENING_HEAD / np.maximum(head, 1e-12)), 0.02, 10.0)
    guess = flows
    if start is not None:
        flows = np.where(np.isfinite(start) & (start != 0.0), start, flows)
    state = np.where(layout.has_through, THROUGH, OVER)
    state[layout.closed] = SHUT
    heads = np.concatenate([np.full(layout.free, np.mean(layout.heads)), layout.heads])
    flows = np.where(layout.closed, 0.0, flows)
    return Running(flows, np.abs(guess), heads, state)


def law_heads(layout: Layout, running: Running) -> tuple[Array, Array]:
    """Heads and slopes of the laws that hold. Shut links have their opening head and no slope."""
    through, through_slope = layout.through.at(np.where(running.state == THROUGH, running.flows, 0.0))
    over, over_slope = layout.over.at(np.maximum(running.flows, TRICKLE))
    spills = running.state == OVER
    slope = np.where(spills, over_slope, through_slope)
    slope = np.where(np.abs(slope) < _FLATTEST, np.copysign(_FLATTEST, slope), slope)
    return np.where(spills, layout.crest + over, through), slope


def lines(layout: Layout, running: Running, leak: float) -> Lines:
    """Straight lines for every law at the present flows."""
    head, slope = law_heads(layout, running)
    shut = running.state == SHUT
    spilling = (running.state == OVER) | (shut & ~layout.has_through & layout.has_over)
    give = np.where(shut, leak, 1.0 / slope)
    rest = np.where(shut & spilling, layout.crest, head)
    base = np.where(shut, 0.0, running.flows) - give * rest
    return Lines(base, give, np.where(spilling, 0.0, 1.0))


def solve_heads(layout: Layout, made: Lines, pinned: Indices, heads: Array) -> Array:
    """Heads of all nodes from the balance at each free one; `pinned` nodes keep theirs."""
    free, count = layout.free, len(layout.nodes)
    start, end, give, reach = layout.start, layout.end, made.give, made.reach
    rows = np.concatenate([start, start, end, end])
    columns = np.concatenate([start, end, end, start])
    values = np.concatenate([give, -give * reach, give * reach, -give])
    right = np.bincount(end, made.base, count) - np.bincount(start, made.base, count)
    right = right[:free] + layout.supply
    held = (rows < free) & (columns >= free)
    right -= np.bincount(rows[held], values[held] * heads[columns[held]], free)
    kept = (rows < free) & (columns < free) & ~np.isin(rows, pinned)
    right[pinned] = heads[pinned]
    entries = (
        np.concatenate([rows[kept], pinned]),
        np.concatenate([columns[kept], pinned]),
        np.concatenate([values[kept], np.ones(len(pinned))]),
    )
    return np.concatenate([_solved(free, entries, right), heads[free:]])


def _solved(free: int, entries: tuple[Indices, Indices, Array], right: Array) -> Array:
    rows, columns, values = entries
    if free <= _DENSE_TO:
        matrix = np.bincount(rows * free + columns, values, free * free).reshape(free, free)
        try:
            return np.asarray(np.linalg.solve(matrix, right), dtype=float)
        except np.linalg.LinAlgError as error:
            raise SolverError("the network's balances have no single answer") from error
    from scipy.sparse import csc_array  # noqa: PLC0415 - only for large networks
    from scipy.sparse.linalg import splu  # noqa: PLC0415 - as above

    return np.asarray(splu(csc_array((values, (rows, columns)), shape=(free, free))).solve(right))


def line_flows(layout: Layout, made: Lines, heads: Array) -> Array:
    """Flows of all links on their straight lines."""
    flows: Array = made.base + made.give * (heads[layout.start] - made.reach * heads[layout.end])
    return flows


def seek(layout: Layout, running: Running) -> Running:
    """Rounds until flows, heads and states stand still; SolverError names the worst link where they do not."""
    none = np.zeros(0, dtype=np.intp)
    while running.rounds < _MOST:
        running.rounds += 1
        made = lines(layout, running, LEAK)
        heads = solve_heads(layout, made, none, running.heads)
        flows = line_flows(layout, made, heads)
        scale = max(float(np.max(np.abs(flows))), TRICKLE)
        step = np.where(running.state == SHUT, 0.0, np.abs(flows - running.flows))
        calm = bool(np.max(step) <= _STILL * scale)
        running.heads = heads
        changed = turn(layout, running, flows, patient=running.rounds > _HURRIED, calm=calm)
        if calm and not changed:
            return running
    raise SolverError(f"{_restless(layout, running)}: no balance found in {_MOST} rounds")


def _restless(layout: Layout, running: Running) -> str:
    """The link whose law fits its heads worst."""
    return layout.links[int(np.argmax(np.abs(misfit(layout, running))))].name


def misfit(layout: Layout, running: Running) -> Array:
    """By how much the heads at the ends of each open link differ from its law."""
    head, _ = law_heads(layout, running)
    ends = running.heads[layout.start] - np.where(running.state == THROUGH, running.heads[layout.end], 0.0)
    gap: Array = np.where(running.state == SHUT, 0.0, ends - head)
    return gap


def turn(layout: Layout, running: Running, flows: Array, patient: bool, calm: bool) -> bool:
    """Take over new flows, and open or shut what the heads ask for; whether anything turned.

    In a hurry every link turns at once. That may go round in circles; patience waits for calm, then turns
    only the first by name, which always comes to an end where laws rise with flow.
    """
    wanted = wanted_states(layout, running, flows)
    turning = wanted != running.state
    if patient:
        first = np.flatnonzero(turning)[:1] if calm else np.zeros(0, dtype=np.intp)
        turning = np.zeros(len(turning), dtype=bool)
        turning[first] = True
    opening = turning & (running.state == SHUT)
    running.state = np.where(turning, wanted, running.state)
    overshot = (flows <= 0.0) & layout.has_over & (running.state != SHUT) & ~_may_return(layout, running)
    flows = np.where(overshot, 0.2 * np.maximum(running.flows, TRICKLE), flows)
    direction = np.where(_ends(layout, running)[1] > _ends(layout, running)[0], -1.0, 1.0)
    flows = np.where(opening, np.where(layout.has_over, direction, 1.0) * running.guess, flows)
    running.flows = np.where(running.state == SHUT, 0.0, flows)
    return bool(np.any(turning | overshot))


def _ends(layout: Layout, running: Running) -> tuple[Array, Array]:
    return running.heads[layout.start], running.heads[layout.end]


def _may_return(layout: Layout, running: Running) -> Flags:
    """Links with a crest through which water may run back: it stands above the crest at their end."""
    start, end = _ends(layout, running)
    allowed = layout.has_through & layout.has_over & ~layout.one_way
    back: Flags = allowed & (end > np.maximum(start, layout.crest))
    return back


def barrier(layout: Layout, running: Running) -> Array:
    """Head at its start from which on each link lets water forward."""
    beyond = np.where(layout.has_through, _ends(layout, running)[1] + layout.opens_at, -np.inf)
    return np.maximum(beyond, np.where(layout.has_over, layout.crest, -np.inf))


def wanted_states(layout: Layout, running: Running, flows: Array) -> Indices:
    """What each link ought to do by the present heads and flows."""
    start, end = _ends(layout, running)
    close = _CLOSE_HEAD * (1.0 + float(np.max(np.abs(running.heads))))
    back, forward = _may_return(layout, running), start > barrier(layout, running)
    opens = (start > barrier(layout, running) + close) | (back & (end > start + close))
    running_back = np.where(layout.has_over, (flows <= 0.0) & ~forward & ~back, flows < -_backflow(flows))
    shuts = running_back & (layout.has_over | layout.one_way)
    shut = np.where(running.state == SHUT, ~opens, shuts) | layout.closed
    return np.where(shut, SHUT, _narrower(layout, running, flows, end))


def _narrower(layout: Layout, running: Running, flows: Array, end: Array) -> Indices:
    """Through or over: of the two ways of an element the one that asks for more head holds."""
    both = layout.has_through & layout.has_over
    if not np.any(both):
        return np.where(layout.has_through, THROUGH, OVER)
    at = np.where(running.state == SHUT, running.guess, flows)
    over = layout.crest + layout.over.at(np.maximum(at, TRICKLE))[0]
    through = end + layout.through.at(at)[0]
    spills = both & (at > 0.0) & (over > through)
    return np.where(layout.has_through & ~spills, THROUGH, OVER)


def _backflow(flows: Array) -> float:
    """Flow too small to be told from none."""
    return NOTHING * max(float(np.max(np.abs(flows))), TRICKLE)
