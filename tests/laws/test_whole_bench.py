"""Laws of changes put together: nothing that stands is made to fail, and what makes no plan is not begun with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, cast

from tidestead.core.answer import Verdict
from tidestead.plan.edits import Edit
from tidestead.trials.patience import ENDLESS, Patience
from tidestead.trials.remedy import Move, Remedy, State
from tidestead.trials.scratch import Scratch
from tidestead.trials.together import Bench

FAILS, NEAR, SOUND = Verdict.FAILS, Verdict.NEAR, Verdict.SOUND


def state(name: str, verdict: Verdict) -> State:
    return State(name, "", "", 1.0, "m", "", 0.5, verdict)


@dataclass
class Shelf:
    """Stands in for a scratch copy: the breaker trips unless the heater is halved or the breaker is larger; the water
    is near too cold and with half a heater fails; both breakers together make no plan.
    """

    asked: int = 0

    def with_edits(self, edits: Sequence[Edit]) -> object | None:
        return None if {"large", "huge"} <= {edit.key for edit in edits} else object()

    def states(self, subject: str, edits: Sequence[Edit] = ()) -> dict[str, State] | None:
        self.asked += 1
        keys = {edit.key for edit in edits}
        if self.with_edits(edits) is None:
            return None
        if subject == "power":
            return {"power.load": state("power.load", SOUND if keys & {"half", "large", "huge"} else FAILS)}
        return {"heat.cold": state("heat.cold", FAILS if "half" in keys else NEAR)}


HALF, LARGE, HUGE = (
    Move(key, (Edit(key, "1"),), effort) for key, effort in (("half", 1.0), ("large", 2.0), ("huge", 3.0))
)
WANTED = ("power.load", "heat.cold")


def remedy(move: Move) -> Remedy:
    return Remedy("power.load", move, state("power.load", FAILS), state("power.load", SOUND), ("power",))


def bench(shelf: Shelf, patience: Patience = ENDLESS) -> Bench:
    return Bench(cast(Scratch, cast(Any, shelf)), WANTED, lambda _: None, patience, None)


def test_what_makes_another_check_fail_gives_way_to_what_does_not() -> None:
    table = bench(Shelf())
    assert table.badness([HALF]) > table.badness([])  # two wrongs: the load is mended, the cold water is new
    assert table.thinned([HALF]) == []
    assert table.mended_together([], [remedy(HALF), remedy(LARGE)]) == [LARGE]


def test_a_set_that_makes_no_plan_is_begun_with_as_far_as_it_makes_one() -> None:
    assert bench(Shelf()).makeable([LARGE, HUGE]) == [LARGE]
    assert bench(Shelf()).makeable([HALF, LARGE]) == [HALF, LARGE]


def test_when_time_has_run_out_what_there_is_stands() -> None:
    late = bench(Shelf(), Patience(0.0, 0.0))
    assert late.mended_together([HALF], [remedy(LARGE)]) == [HALF]
    assert late.thinned([HALF, LARGE]) == [HALF, LARGE]
