"""A timber tank of 66 bars: our frame beside PyNite's, on the same model.

Run with `pytest benchmarks/test_frames.py`. PyNite is timed without its building of the model, ours with and
without; building and solving together must stay under the limit.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.agree.pynite_frame import refereed
from tests.published.test_structure_frames import timber_tank
from tidestead.physics.structure.frames import FrameState, solve_frame
from tidestead.physics.structure.tank_frame import box_frame

LIMIT = 0.020
"""Seconds for a frame of about 70 members."""

SPEC = timber_tank(72.0 / 7.0)
MODEL = box_frame(SPEC)


def asked(state: FrameState) -> float:
    """What a study wants of a solved frame: the peaks of all bars, and a tie."""
    return state.moment("south.rim") + state.axial("tie.0")


def typical(benchmark: Any) -> float:
    """Median time of a benchmark in seconds."""
    return float(benchmark.stats.stats.median)


@pytest.mark.benchmark(group="frame of 66 bars")
def test_solve_and_ask(benchmark: Any) -> None:
    assert len(MODEL.bars) == 66
    benchmark(lambda: asked(solve_frame(MODEL)))
    assert typical(benchmark) < LIMIT


@pytest.mark.benchmark(group="frame of 66 bars")
def test_build_solve_and_ask(benchmark: Any) -> None:
    benchmark(lambda: asked(solve_frame(box_frame(SPEC))))
    assert typical(benchmark) < LIMIT


@pytest.mark.benchmark(group="frame of 66 bars")
def test_pynite_solves(benchmark: Any) -> None:
    other = refereed(MODEL)
    benchmark.pedantic(lambda: other.analyze_linear(check_stability=False), rounds=7, warmup_rounds=1)
    assert typical(benchmark) > 0.0
