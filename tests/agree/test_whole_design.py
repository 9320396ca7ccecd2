"""The whole design against every set of the changes that it chooses from, each worked out and priced."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest

from tidestead.core.answer import Verdict
from tidestead.plan import load
from tidestead.trials.mending import Search, all_climbed, checks_to_mend
from tidestead.trials.pricing import difference, price_of
from tidestead.trials.remedy import Move
from tidestead.trials.scratch import Scratch
from tidestead.trials.together import together
from tidestead.trials.whole import whole_design

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
WANTED = ("structure.reef.east.sheathing.rolling", "structure.reef.east.sheathing.bending")
SEARCH = Search(fully=False, workers=1, sorts=3)


def _outcome(scratch: Scratch, moves: tuple[Move, ...]) -> tuple[int, int, float] | None:
    """How many fail, how many are near, what it adds; None where it cannot be made or has no total."""
    edits = together(moves).edits
    plan, after = scratch.with_edits(edits), scratch.states("structure", edits)
    if plan is None or after is None:
        return None
    price = difference(price_of(scratch.loaded), price_of(plan))
    if price is None or not price.whole:
        return None
    verdicts = [state.verdict for state in after.values()]
    return verdicts.count(Verdict.FAILS), verdicts.count(Verdict.NEAR), price.cash.likely


@pytest.mark.timeout(300)
def test_no_set_of_the_changes_is_better() -> None:
    scratch = Scratch(load(PACKHOUSE))
    checks = checks_to_mend(scratch, ["structure"], WANTED)
    found = all_climbed(scratch, checks, SEARCH)
    choices = [[None, *(rung.move for rung in one.sound)] for one in found]
    assert all(len(ones) > 2 for ones in choices)
    outcomes = []
    for chosen in product(*choices):
        moves = tuple(dict.fromkeys(move for move in chosen if move is not None))
        keys = [edit.key for move in moves for edit in move.edits]
        outcome = _outcome(scratch, moves) if len(keys) == len(set(keys)) and moves else None
        outcomes += [outcome] if outcome is not None else []
    assert len(outcomes) >= 4
    whole = whole_design(scratch, checks, SEARCH)
    mine = _outcome(scratch, whole.moves)
    assert mine is not None
    assert mine[:2] == min(outcomes)[:2]
    assert mine[2] <= min(outcomes)[2] + 0.01
    assert whole.bound is not None
    assert whole.bound <= mine[2] + 0.01
