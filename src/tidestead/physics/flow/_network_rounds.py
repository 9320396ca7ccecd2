"""Rounds of the global gradient method: linearise every law, solve for heads, update flows and what is open.

A link is shut, runs through, or runs over its crest. Shut links leak a hair while the answer is sought, so that
every head is defined; `_network_settled` takes the leak out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import SolverError
from tidestead.physics.flow._network_layout import OPENING_HEAD, TRICKLE, Indices, Layout, summed

SHUT, THROUGH, OVER = 0, 1, 2

LEAK = 1e-10
"""m2/s let through a shut link by each metre of head, while the answer is sought."""

_SEEP = 1e-10
"""m2/s let out at every node by each metre it has risen, while the answer is sought: where water arrives over a
crest and has no way on, the level then rises until the crest drowns."""

_FLATTEST = 1e-5
"""s/m2. Slopes nearer to nothing are taken as this, keeping their sign."""

_DENSE_TO = 100
"""Free nodes up to which a full matrix is quicker than a sparse one (measured)."""

_HURRIED, _TOGETHER, _MOST = 10, 50, 200
"""Rounds after which links open or shut only when flows are nearly still, then only one at a time; and after
which the search is given up."""

_NEAR = 1e-4
"""Change of flow, as a share of the largest, at which flows count as nearly still."""

_LEAKY = 1e-7
"""Change of flow, as a share of the largest, at which the search with leaks ends: they alone are a tenth of that. The
rounds without leaks that follow go on to `_STILL`."""

_STILL = 1e-12
"""Change of flow, as a share of the largest, at which flows count as standing still."""

_SMALL = 1e-6
"""m3/s. Where no flow is larger, flows are judged by this one."""

_SHRUNK = 0.1
"""Share of its flow at which a crest is tried again when its straight line ran backwards."""

_ROUNDING = 2e-15
"""Rounding of a head, as a share of the largest."""

NOTHING = 1e-10
"""Share of the largest flow below which a flow counts as none."""

_CLOSE_HEAD = 1e-10
"""Share of the largest head by which a shut link must be pushed before it opens."""

_RUNAWAY = 1e4
"""A level so many times the highest fixed one has run away."""


@dataclass
class Running:
    """Where the search stands: flows and states by link, heads by node."""

    flows: Array
    heads: Array
    state: Indices
    rounds: int = 0


@dataclass(frozen=True)
class Lines:
    """Every law as a straight line about the present heads: flow = base + give*(rise at start - reach*rise at end).

    Counted from the present heads, so that rounding of flows shrinks with what is still to be mended.
    """

    base: Array
    give: Array
    reach: Array

    def flows(self, layout: Layout, rises: Array) -> Array:
        """Flows of all links when heads rise by so much."""
        return self.base + self.give * (rises[layout.start] - self.reach * rises[layout.end])


def law_heads(layout: Layout, running: Running) -> tuple[Array, Array, Array]:
    """Heads and slopes of the laws that hold, and how far the head before a drowned crest follows that behind it.

    Shut links have their opening head and no slope. Heads over a crest count from the datum.
    """
    through, through_slope = layout.through.at(np.where(running.state == THROUGH, running.flows, 0.0))
    over, over_slope = layout.over.at(np.maximum(running.flows, TRICKLE))
    spills = running.state == OVER
    follows = np.where(spills, 0.0, 1.0)
    tails = running.heads[layout.end] - layout.crest
    for at, law in layout.drowning:
        if spills[at] and tails[at] > 0.0:
            flow, tail = max(float(running.flows[at]), TRICKLE), float(tails[at])
            try:
                here = law.before(flow, tail)
            except SolverError as error:
                raise SolverError(f"{layout.links[at].name}: {error}") from error
            over[at], over_slope[at], follows[at] = here.head, here.slope, here.follows
    slope = np.where(spills, over_slope, through_slope)
    slope = np.where(np.abs(slope) < _FLATTEST, np.copysign(_FLATTEST, slope), slope)
    return np.where(spills, layout.crest + over, through), slope, follows


def ends(layout: Layout, running: Running) -> tuple[Array, Array]:
    """Heads at the start and at the end of every link."""
    return running.heads[layout.start], running.heads[layout.end]


def lines(layout: Layout, running: Running, leak: float) -> Lines:
    """Straight lines for every law at the present flows and heads."""
    head, slope, follows = law_heads(layout, running)
    start, end = ends(layout, running)
    shut = running.state == SHUT
    dry = shut & ~layout.has_through & layout.has_over
    under = layout.drowns & (end > layout.crest)
    give = np.where(shut, leak, 1.0 / slope)
    reach = np.where(dry, np.where(under, 1.0, 0.0), follows)
    beyond = np.where(dry, np.where(under, end, layout.crest), head)
    excess = start - np.where(dry | (running.state == OVER), 0.0, end) - beyond
    return Lines(np.where(shut, 0.0, running.flows) + give * excess, give, reach)


def solve_rises(layout: Layout, made: Lines, pinned: Indices, seep: float) -> Array:
    """By how much heads must rise for every free node to be in balance; `pinned` nodes stay.

    `seep` is what each free node lets out, by metre of rise.
    """
    free, give, reach = layout.free, made.give, made.reach
    values = np.concatenate([give, -give * reach, give * reach, -give])[layout.inner]
    rows, columns = layout.rows, layout.columns
    right = imbalance(layout, made.base)
    if pinned.size:
        kept = ~np.isin(rows, pinned)
        rows, columns = np.concatenate([rows[kept], pinned]), np.concatenate([columns[kept], pinned])
        values = np.concatenate([values[kept], np.ones(len(pinned))])
        right[pinned] = 0.0
    found = _solved(free, (rows, columns, values), right, seep)
    return np.concatenate([found, np.zeros(len(layout.nodes) - free)])


def imbalance(layout: Layout, flows: Array) -> Array:
    """What enters each free node less what leaves it."""
    count = len(layout.nodes)
    net = summed(layout.end, flows, count) - summed(layout.start, flows, count)
    return net[: layout.free] + layout.supply


def _solved(free: int, entries: tuple[Indices, Indices, Array], right: Array, seep: float) -> Array:
    rows, columns, values = entries
    if free <= _DENSE_TO:
        matrix = summed(rows * free + columns, values, free * free).reshape(free, free)
        matrix.flat[:: free + 1] += seep
        try:
            return np.asarray(np.linalg.solve(matrix, right), dtype=float)
        except np.linalg.LinAlgError as error:
            raise SolverError("the network's balances have no single answer") from error
    from scipy.sparse import csc_array, eye_array  # noqa: PLC0415 - only for large networks
    from scipy.sparse.linalg import splu  # noqa: PLC0415 - as above

    sparse = csc_array((values, (rows, columns)), shape=(free, free)) + seep * eye_array(free)
    return np.asarray(splu(csc_array(sparse)).solve(right))


def scale_of(flows: Array) -> float:
    """The largest flow, by which flows are judged; where next to nothing flows, a trickle."""
    return max(float(np.max(np.abs(flows))), _SMALL)


def still(running: Running, made: Lines, flows: Array, share: float = _STILL) -> bool:
    """Whether flows of open links changed by no more than a share, or than rounding of heads can do."""
    rounding = _ROUNDING * (1.0 + float(np.max(np.abs(running.heads)))) * np.abs(made.give)
    step = np.abs(flows - running.flows)
    dry = (flows <= 0.0) & (np.abs(running.flows) <= NOTHING * scale_of(flows))
    return bool(np.all((step <= share * scale_of(flows) + rounding) | (running.state == SHUT) | dry))


def seek(layout: Layout, running: Running) -> Running:
    """Rounds until flows, heads and states stand still; SolverError names the worst link where they do not."""
    none = np.zeros(0, dtype=np.intp)
    while running.rounds < _MOST:
        running.rounds += 1
        made = lines(layout, running, LEAK)
        rises = solve_rises(layout, made, none, _SEEP)
        running.heads = running.heads + rises
        flows = made.flows(layout, rises)
        level = _SEEP * float(np.max(np.abs(rises))) <= NOTHING * scale_of(flows)
        calm = level and still(running, made, flows, _LEAKY)
        if running.rounds <= _HURRIED or (level and still(running, made, flows, _NEAR)):
            most = len(flows) if running.rounds <= _TOGETHER else 1
        else:
            most = 0
        changed = turn(layout, running, flows, most)
        if calm and not changed:
            return running
    raise SolverError(_restless(layout, running))


def _restless(layout: Layout, running: Running) -> str:
    """What cannot be balanced: a node whose level runs away, else the link whose law fits its heads worst."""
    highest = int(np.argmax(np.abs(running.heads)))
    if abs(running.heads[highest]) > _RUNAWAY * (1.0 + float(np.max(np.abs(layout.heads)))):
        way = "put in cannot get out" if running.heads[highest] > 0.0 else "taken out cannot get in"
        return f"{layout.nodes[highest]}: no level balances it; water {way}"
    name = layout.links[int(np.argmax(np.abs(misfit(layout, running))))].name
    return f"{name}: no balance found in {running.rounds} rounds"


def misfit(layout: Layout, running: Running) -> Array:
    """By how much the heads at the ends of each open link differ from its law."""
    head, _, _ = law_heads(layout, running)
    start, end = ends(layout, running)
    gap: Array = np.where(
        running.state == SHUT, 0.0, start - np.where(running.state == THROUGH, end, 0.0) - head
    )
    return gap


def turn(layout: Layout, running: Running, flows: Array, most: int) -> bool:
    """Take over new flows, and open or shut what the heads ask for, `most` links; whether anything turned.

    At first all turn at once. That may go round in circles; turning only the first by name, once flows are
    nearly still, always comes to an end where laws rise with flow.
    """
    wanted = wanted_states(layout, running, flows)
    turning = np.flatnonzero(wanted != running.state)[:most]
    opening = turning[running.state[turning] == SHUT]
    running.state[turning] = wanted[turning]
    overshot = (flows <= 0.0) & layout.has_over & (running.state != SHUT)
    flows = np.where(overshot, _SHRUNK * np.maximum(running.flows, TRICKLE), flows)
    if opening.size:
        excess = (ends(layout, running)[0] - barrier(layout, running))[opening]
        push = np.clip(np.sqrt(np.maximum(excess, 0.0) / OPENING_HEAD), 1e-3, 3.0)
        flows[opening] = layout.likely[opening] * push
    running.flows = np.where(running.state == SHUT, 0.0, flows)
    return bool(turning.size)


def barrier(layout: Layout, running: Running) -> Array:
    """Head at its start from which on each link lets water forward."""
    end = ends(layout, running)[1]
    beyond = np.where(layout.has_through, end + layout.opens_at, np.where(layout.drowns, end, -np.inf))
    return np.maximum(beyond, np.where(layout.has_over, layout.crest, -np.inf))


def wanted_states(layout: Layout, running: Running, flows: Array) -> Indices:
    """What each link ought to do by the present heads and flows."""
    start, end = ends(layout, running)
    needed = barrier(layout, running)
    close = _CLOSE_HEAD * (1.0 + float(np.max(np.abs(running.heads))))
    nothing = NOTHING * scale_of(flows)
    dry = (flows <= 0.0) & ((start <= needed) | (running.flows <= nothing))
    shuts = np.where(layout.has_over, dry, layout.one_way & (flows < -nothing))
    shut = np.where(running.state == SHUT, start <= needed + close, shuts) | layout.closed
    opens = (running.state == SHUT) & ~shut
    at = np.where(opens, layout.likely, flows) if opens.any() else flows
    return np.where(shut, SHUT, _narrower(layout, at, end))


def _narrower(layout: Layout, flows: Array, end: Array) -> Indices:
    """Through or over: of the two ways of an element the one that asks for more head holds."""
    at = np.maximum(flows, TRICKLE)
    over = layout.crest + layout.both_over.at(at)[0]
    through = end + layout.both_through.at(at)[0]
    return np.where(layout.has_through & ~(layout.both & (over > through)), THROUGH, OVER)
