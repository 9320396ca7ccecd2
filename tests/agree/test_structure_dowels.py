"""Yield modes of dowels against rigid-plastic limit analysis of the dowel itself.

The dowel is cut into short pieces that may shift and turn. The wood resists each shift with its embedment
strength, the dowel each turn with its yield moment. The least work for a unit slip is the capacity, whatever
the mode: nothing of the modes' own formulas goes in. The work is an upper bound that falls on the answer as
the pieces shrink.
"""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.sparse import bmat, csr_matrix, eye

from tidestead.physics.structure import eurocode_fasteners, nds_fasteners

PIECES = 160
CLOSE = 0.01
"""Pieces in each member, and how near the two methods must come: hinges fall between pieces by that much."""


def least_work(lengths: list[float], lines: list[float], slips: list[float], hinge: float) -> float:
    """Capacity of a dowel through members with the given lengths, line strengths (N/m) and slips."""
    steps = np.concatenate([np.full(PIECES, length / PIECES) for length in lengths])
    line = np.concatenate([np.full(PIECES, strength) for strength in lines])
    slip = np.concatenate([np.full(PIECES, value) for value in slips])
    n = steps.size
    # Unknown: shifts at the n + 1 ends, then work of the wood at each piece and of the dowel at each joint.
    ends = n + 1
    pairs = np.column_stack((np.arange(n), np.arange(1, ends))).ravel()
    middle = csr_matrix((np.full(2 * n, 0.5), (np.repeat(np.arange(n), 2), pairs)), shape=(n, ends))
    turn = np.zeros((n - 1, ends))
    for joint in range(n - 1):
        turn[joint, joint] = 1.0 / steps[joint]
        turn[joint, joint + 1] = -1.0 / steps[joint] - 1.0 / steps[joint + 1]
        turn[joint, joint + 2] = 1.0 / steps[joint + 1]
    turns = csr_matrix(turn)
    rows = bmat(
        [
            [middle, -eye(n), None],
            [-middle, -eye(n), None],
            [turns, None, -eye(n - 1)],
            [-turns, None, -eye(n - 1)],
        ],
        format="csr",
    )
    right = np.concatenate((slip, -slip, np.zeros(2 * (n - 1))))
    cost = np.concatenate((np.zeros(ends), line * steps, np.full(n - 1, hinge)))
    bounds = [(None, None)] * ends + [(0.0, None)] * (2 * n - 1)
    found = linprog(cost, A_ub=rows, b_ub=right, bounds=bounds, method="highs")  # type: ignore[call-overload]  # its types know no sparse matrix
    assert found.success, found.message
    return float(found.fun)


JOINTS = {
    "stocky dowel in thick wood": (0.012, 0.02, 0.03, 25e6, 18e6, 77.0),
    "thin nail, two hinges": (0.004, 0.05, 0.06, 20e6, 20e6, 6.5),
    "thin head side": (0.006, 0.012, 0.07, 25e6, 25e6, 19.0),
    "thin point side": (0.006, 0.09, 0.018, 30e6, 20e6, 19.0),
    "plywood on wood": (0.003, 0.012, 0.038, 50e6, 19e6, 3.4),
    "hard on soft": (0.008, 0.03, 0.05, 40e6, 12e6, 40.0),
}


@pytest.mark.parametrize("name", JOINTS)
def test_johansen_modes_are_limit_analysis(name: str) -> None:
    joint = eurocode_fasteners.EcJoint(*JOINTS[name])
    modes = dataclasses.asdict(eurocode_fasteners.johansen_modes(joint))
    bare = {"a": 1.0, "b": 1.0, "c": 1.0, "d": 1.05, "e": 1.05, "f": 1.15}
    ours = min(modes[mode] / factor for mode, factor in bare.items())
    lines = [joint.head_embedment * joint.diameter, joint.point_embedment * joint.diameter]
    referee = least_work([joint.head_length, joint.point_length], lines, [0.0, 1.0], joint.yield_moment)
    assert ours == pytest.approx(referee, rel=CLOSE)
    assert eurocode_fasteners.shear_capacity(joint).value >= ours


@pytest.mark.parametrize("name", JOINTS)
def test_double_shear_is_limit_analysis(name: str) -> None:
    joint = eurocode_fasteners.EcJoint(*JOINTS[name])
    modes = eurocode_fasteners.double_modes(joint)
    ours = 2 * min(modes.g, modes.h, modes.j / 1.05, modes.k / 1.15)
    outer, inner = joint.head_embedment * joint.diameter, joint.point_embedment * joint.diameter
    lengths = [joint.head_length, joint.point_length, joint.head_length]
    referee = least_work(lengths, [outer, inner, outer], [0.0, 1.0, 0.0], joint.yield_moment)
    assert ours == pytest.approx(referee, rel=CLOSE)
    assert eurocode_fasteners.double_shear_capacity(joint).value >= ours / 2


@pytest.mark.parametrize("name", JOINTS)
def test_american_yield_modes_are_limit_analysis(name: str) -> None:
    d, side, main, side_bearing, main_bearing, hinge = JOINTS[name]
    joint = nds_fasteners.NdsJoint(d, main, side, main_bearing, side_bearing, 6.0 * hinge / d**3)
    modes = dataclasses.asdict(nds_fasteners.yield_modes(joint))
    referee = least_work([side, main], [side_bearing * d, main_bearing * d], [0.0, 1.0], hinge)
    assert min(modes.values()) == pytest.approx(referee, rel=CLOSE)


@pytest.mark.parametrize("length", [0.006, 0.05, 0.12])
def test_steel_plate_is_a_very_strong_side(length: float) -> None:
    """A thick plate clamps the dowel: the limit of a head side that hardly yields."""
    d, strength, hinge = 0.008, 22e6, 40.0
    joint = eurocode_fasteners.EcJoint(d, d, length, strength, strength, hinge)
    referee = least_work([d, length], [1e4 * strength * d, strength * d], [0.0, 1.0], hinge)
    plate = eurocode_fasteners.thick_plate_capacity(joint)
    assert plate.value / (1.15 if plate.mode == "d" else 1.0) == pytest.approx(referee, rel=0.02)
