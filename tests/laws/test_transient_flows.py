"""The flows of a step: whatever stands above a level runs in full, whatever stands below it runs at its least."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from tidestead.core.dims import Array
from tidestead.physics.transient import _flows
from tidestead.physics.transient import _tables as at

MILLILITRE = 1e-6
ROOM = 42


@dataclass
class Drawn:
    """Bodies, moves and what is given to each body."""

    bodies: Array
    moves: Array
    solve: Array

    def settled(self, step: float) -> Array:
        """Volumes at the end of a step."""
        count = len(self.bodies)
        self.moves[:, at.FLOW] = np.nan
        _flows.settle_flows(self.bodies, self.moves, self.solve, step)
        volume = self.bodies[:, at.VOLUME] + step * self.solve[:, count + 1]
        for move in self.moves:
            volume[int(move[at.FROM])] -= step * move[at.FLOW]
            if move[at.TO] >= 0:
                volume[int(move[at.TO])] += step * move[at.FLOW]
        return np.asarray(volume)


def drawn(draws: np.random.Generator) -> Drawn:
    """One to five bodies, each with some moves at levels that often agree, and a brim."""
    count = int(draws.integers(1, 6))
    rows = []
    for body in range(count):
        for _ in range(draws.integers(1, 6)):
            row = np.zeros(16)
            to = int(draws.integers(-1, count))
            row[at.FROM], row[at.TO] = body, at.ONTO_FLOOR if to == body else to
            row[at.LEVEL] = draws.choice([0.1, 0.5, 1.0, draws.uniform(0.0, 2.0)])
            row[at.HIGH] = draws.choice([0.0, 1e-6, 1e-3, 1e-2, draws.uniform(0.0, 0.02)])
            if draws.random() < 0.2:
                row[[at.LOW, at.HIGH, at.TO]] = -1e-3 * draws.random(), 0.0, at.FROM_STOCK
            rows.append(row)
        brim = np.zeros(16)
        brim[[at.FROM, at.TO, at.LEVEL, at.HIGH]] = body, at.ONTO_FLOOR, 2.0, np.inf
        rows.append(brim)
    moves = np.array(sorted(rows, key=lambda row: (row[at.FROM], row[at.LEVEL])))
    bodies = np.zeros((count, ROOM))
    for body in range(count):
        own = np.flatnonzero(moves[:, at.FROM] == body)
        bodies[body, [at.FIRST, at.LAST, at.VOLUME]] = own[0], own[-1] + 1, draws.uniform(0.0, 2.0)
    solve = np.zeros((count, count + 2))
    solve[:, count + 1] = 1e-3 * draws.random(count) * (draws.random(count) < 0.3)
    return Drawn(bodies, moves, solve)


def amiss(waters: Drawn, volume: Array, step: float) -> float:
    """m3 by which any move runs otherwise than its level says."""
    worst = 0.0
    for move in waters.moves:
        over, flow = volume[int(move[at.FROM])] - move[at.LEVEL], move[at.FLOW]
        assert np.isfinite(flow)
        if over > MILLILITRE:
            gap = abs(move[at.HIGH] - flow) * step
        elif over < -MILLILITRE:
            gap = abs(flow - move[at.LOW]) * step
        else:
            gap = max(move[at.LOW] - flow, flow - move[at.HIGH], 0.0) * step
        worst = max(worst, gap)
    return worst


@pytest.mark.parametrize("seed", range(8))
def test_every_move_runs_as_its_level_says(seed: int) -> None:
    draws = np.random.default_rng(seed)
    for _ in range(60):
        waters, step = drawn(draws), float(draws.choice([10.0, 120.0, 600.0]))
        for _ in range(4):
            volume = waters.settled(step)
            assert amiss(waters, volume, step) < MILLILITRE
            assert np.min(volume) > -MILLILITRE
            waters.bodies[:, at.VOLUME] = np.maximum(volume, 0.0)


@pytest.mark.parametrize("seed", range(4))
def test_one_after_another_gives_the_same_as_all_together(seed: int) -> None:
    """The answer is one only: body by body until nothing changes leads to it too."""
    draws = np.random.default_rng(100 + seed)
    for _ in range(20):
        waters = drawn(draws)
        together = waters.settled(120.0)
        waters.moves[:, at.FLOW] = 0.0
        for _ in range(3000):
            changes = [
                _flows.settle_one(body, waters.bodies, waters.moves, waters.solve, 120.0)
                for body in range(len(waters.bodies))
            ]
            if max(changes) * 120.0 < 1e-13:
                break
        volume = waters.bodies[:, at.VOLUME] + 120.0 * waters.solve[:, -1]
        for move in waters.moves:
            volume[int(move[at.FROM])] -= 120.0 * move[at.FLOW]
            if move[at.TO] >= 0:
                volume[int(move[at.TO])] += 120.0 * move[at.FLOW]
        if max(changes) * 120.0 < 1e-13:
            assert volume == pytest.approx(together, abs=MILLILITRE)
