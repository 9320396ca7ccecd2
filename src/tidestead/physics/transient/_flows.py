"""The flows of a step, held even in it, so that floats, crests and intakes are met at its end and nothing chatters.

Every move out of a body runs at its least below a level, at its most above, and at the level anywhere between. What
the bodies then hold at the end of the step is one answer only: V/dt + sum of what goes out - what comes in is a
straight line in pieces, steeper for a body's own volume than for all others together. Each body is on one piece of
it, its branch: free (an even number), with its volume unknown, or held at a level (odd), with a flow unknown. The
equations of the branches are solved together; a body whose answer lies beyond its branch goes one further. Compiled.
"""

from __future__ import annotations

from tidestead.core.compiled import kernel
from tidestead.core.dims import Array
from tidestead.physics.transient._tables import (
    BRANCH,
    FIRST,
    FLOW,
    HIGH,
    LAST,
    LEVEL,
    LOW,
    TO,
    VOLUME,
)

_TOGETHER = 60
"""Rounds in which all bodies are solved together."""
_ALONE = 20000
"""Rounds in which they are solved one after another, which always closes in, if slowly."""
_YIELDS = 1e-12
"""Of a step's volume by which a held level gives way, lest two held levels in a ring have no answer."""
_HARDLY = 1e-13
"""m3 beyond a level that does not count."""


@kernel
def settle_flows(bodies: Array, moves: Array, solve: Array, step: float) -> None:
    """Find the flow of every move; the last column but one of `solve` holds what each body is given, m3/s."""
    for _ in range(_TOGETHER):
        write_equations(bodies, moves, solve, step)
        eliminate(solve)
        if not next_branches(bodies, moves, solve, step):
            read_flows(bodies, moves, solve)
            return
    for at in range(moves.shape[0]):
        moves[at, FLOW] = 0.0
    for _ in range(_ALONE):
        moved = 0.0
        for body in range(bodies.shape[0]):
            moved = max(moved, settle_one(body, bodies, moves, solve, step))
        if moved * step < _HARDLY:
            return


@kernel
def write_equations(bodies: Array, moves: Array, solve: Array, step: float) -> None:
    """V/dt + out - in = V0/dt + given, with V/dt or the held move's flow unknown."""
    count = bodies.shape[0]
    right, given = count, count + 1
    for body in range(count):
        for column in range(count):
            solve[body, column] = 0.0
        solve[body, right] = bodies[body, VOLUME] / step + solve[body, given]
    for body in range(count):
        first, branch = int(bodies[body, FIRST]), int(bodies[body, BRANCH])
        held = first + branch // 2 if branch % 2 == 1 else -1
        if held < 0:
            solve[body, body] += 1.0
        for at in range(first, int(bodies[body, LAST])):
            to = int(moves[at, TO])
            if at == held:
                solve[body, body] += 1.0 + _YIELDS
                solve[body, right] -= moves[at, LEVEL] / step
                if to >= 0:
                    solve[to, body] -= 1.0
            else:
                flow = moves[at, HIGH] if at < first + branch // 2 else moves[at, LOW]
                moves[at, FLOW] = flow
                solve[body, right] -= flow
                if to >= 0:
                    solve[to, right] += flow


@kernel
def eliminate(solve: Array) -> None:
    """Elimination without exchange of rows: every diagonal outweighs its column.

    The answer is left in the right side.
    """
    count = solve.shape[0]
    for row in range(count):
        for below in range(row + 1, count):
            if solve[below, row] != 0.0:
                share = solve[below, row] / solve[row, row]
                for column in range(row + 1, count + 1):
                    solve[below, column] -= share * solve[row, column]
    for row in range(count - 1, -1, -1):
        value = solve[row, count]
        for column in range(row + 1, count):
            value -= solve[row, column] * solve[column, count]
        solve[row, count] = value / solve[row, row]


@kernel
def next_branches(bodies: Array, moves: Array, solve: Array, step: float) -> bool:
    """Put bodies whose answer lies beyond their branch one branch on; whether there were any."""
    count = bodies.shape[0]
    changed = False
    for body in range(count):
        first, last, branch = int(bodies[body, FIRST]), int(bodies[body, LAST]), int(bodies[body, BRANCH])
        at, found = first + branch // 2, solve[body, count] * step
        if branch % 2 == 1:
            below = found < moves[at, LOW] * step - _HARDLY
            above = found > moves[at, HIGH] * step + _HARDLY
        else:
            below = at > first and found < moves[at - 1, LEVEL] - _HARDLY
            above = at < last and found > moves[at, LEVEL] + _HARDLY
        if below or above:
            bodies[body, BRANCH] = branch + (1 if above else -1)
            changed = True
    return changed


@kernel
def read_flows(bodies: Array, moves: Array, solve: Array) -> None:
    """Flows of the moves that hold a level."""
    for body in range(bodies.shape[0]):
        branch = int(bodies[body, BRANCH])
        if branch % 2 == 1:
            at = int(bodies[body, FIRST]) + branch // 2
            flow = solve[body, bodies.shape[0]]
            moves[at, FLOW] = min(max(flow, moves[at, LOW]), moves[at, HIGH])


@kernel
def settle_one(body: int, bodies: Array, moves: Array, solve: Array, step: float) -> float:
    """Flows out of one body, those of the others held; by how much they changed, m3/s."""
    first, last = int(bodies[body, FIRST]), int(bodies[body, LAST])
    left = bodies[body, VOLUME] / step + solve[body, bodies.shape[0] + 1]
    for at in range(moves.shape[0]):
        if int(moves[at, TO]) == body:
            left += moves[at, FLOW]
    for at in range(first, last):
        left -= moves[at, LOW]
    changed, branch = 0.0, 0
    for at in range(first, last):
        more = min(max(left - moves[at, LEVEL] / step, 0.0), moves[at, HIGH] - moves[at, LOW])
        left -= more
        if more > 0.0:
            full = more >= moves[at, HIGH] - moves[at, LOW]
            branch = 2 * (at - first) + (2 if full else 1)
        changed = max(changed, abs(moves[at, LOW] + more - moves[at, FLOW]))
        moves[at, FLOW] = moves[at, LOW] + more
    bodies[body, BRANCH] = branch
    return changed
