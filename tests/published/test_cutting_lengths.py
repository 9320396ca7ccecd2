"""Cutting lengths against published lists: the least number of lengths, proven, by an answer of others.

- Chvatal, Linear Programming (1983), p. 195 on: rolls of 100 in, finals of 45, 36, 31 and 14 in. The data were read on
  public pages that work the example (one of them prints 35 for the 36); the answer of 453 is recalled. 452.25 for the
  linear program was computed for this project.
- Falkenauer's u120 lists, bins of 150 and 120 items of 20 to 100, as the OR-Library keeps them (binpack1): read. Its
  header has 51 and 49 + 1 for two of them, the best known when it was written; the bounds table of BPPLib, read for
  u120_00, _01, _02, _08 and _19, gives 50 and 49. The others are the header's.
"""

from __future__ import annotations

import os
import time
from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tidestead.build.cutting.columns import Watch, first_patterns, generate
from tidestead.build.cutting.knapsack import Problem
from tidestead.build.cutting.lengths import LengthPlan, Need, Saw, Stock, cut_lengths
from tidestead.build.cutting.master import Master

VALIDATION = Path(
    os.environ.get("TIDESTEAD_VALIDATION") or Path(__file__).parents[3] / "shared" / "validation"
)
LISTS = VALIDATION / "cutting" / "falkenauer_u120.txt"
LEAST = (48, 49, 46, 49, 50, 48, 48, 49, 50, 46, 52, 49, 48, 49, 50, 48, 52, 52, 49, 49)
READ_BOUNDS = (0, 8, 19)
"""Lists whose bound was read, and on which filling up widest first does not end."""

INCH = 0.0254
ROLLS = ((45, 97), (36, 610), (31, 395), (14, 211))
NO_SAW = Saw(0.0, 0.0, 0.1)


def test_rolls_of_chvatal() -> None:
    needs = [Need(f"{width} in", width * INCH, many) for width, many in ROLLS]
    plan = cut_lengths(needs, [Stock("roll", 100 * INCH, 1.0)], NO_SAW)
    assert (plan.cost, plan.bound, plan.proven) == (453.0, 453.0, True)


def test_linear_program_of_chvatals_rolls() -> None:
    widths, wanted = (np.array(part, dtype=np.int64) for part in zip(*ROLLS, strict=True))
    problem = Problem(widths, wanted, np.array([100]), np.array([1.0]), np.array([-1]))
    master = Master(problem)
    master.add(first_patterns(problem))
    relaxed, proof = generate(master, 0.0, Watch(time.monotonic() + 60.0, lambda: None))
    assert relaxed.cost == pytest.approx(452.25, abs=1e-9)
    assert 452.24 < proof.bound <= 452.25 + 1e-9


@cache
def falkenauer() -> list[tuple[int, tuple[int, ...]]]:
    """Bin and items of each list."""
    if not LISTS.exists():
        pytest.skip(f"{LISTS} is not there")
    words = iter(LISTS.read_text(encoding="utf-8").split())
    found = []
    for _ in range(int(next(words))):
        next(words)
        room, many, _ = (int(float(next(words))) for _ in range(3))
        found.append((room, tuple(int(next(words)) for _ in range(many))))
    return found


def planned(number: int) -> LengthPlan:
    room, items = falkenauer()[number]
    needs = [Need(f"{size} cm", size / 100, many) for size, many in Counter(items).items()]
    return cut_lengths(needs, [Stock("bin", room / 100, 1.0)], NO_SAW)


@pytest.mark.parametrize("number", READ_BOUNDS)
def test_falkenauer_lists_whose_bounds_were_read(number: int) -> None:
    plan = planned(number)
    assert (plan.cost, plan.bound, plan.proven) == (LEAST[number], LEAST[number], True)


@pytest.mark.long
@pytest.mark.parametrize("number", range(len(LEAST)))
def test_every_falkenauer_list(number: int) -> None:
    plan = planned(number)
    assert (plan.cost, plan.bound, plan.proven) == (LEAST[number], LEAST[number], True)
