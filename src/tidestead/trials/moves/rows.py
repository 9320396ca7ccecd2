"""How a table of moves is written: a pattern of check ids, the key that is changed, how its ladders are made."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from tidestead.plan.edits import Edit
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.said import Asked, changed

Build: TypeAlias = Callable[[Asked, str], Iterable[Ladder]]
"""Ladders at a key, where the plan is such that there are any."""


@dataclass(frozen=True)
class Row:
    """Checks whose id fits `pattern` may be mended at `key`, in which the names of the pattern are put.

    `effort` is how much work such a change is, for ranking where no price is known: 1 for a few more screws or
    another figure on a dial, 2 for another size of one part, 4 for a part built anew, 8 for another idea. Own choice.
    """

    pattern: str
    key: str
    build: Build
    effort: float = 2.0

    def ladders(self, asked: Asked, check_id: str) -> tuple[Ladder, ...]:
        """The ladders for a check; none where its id does not fit."""
        found = re.fullmatch(self.pattern, check_id)
        if found is None:
            return ()
        named = replace(asked, names=found.groupdict(default=""))
        made = self.build(named, named.key(self.key))
        return tuple(_weighed(ladder, self.effort) for ladder in made if ladder.rungs)


def _weighed(ladder: Ladder, effort: float) -> Ladder:
    rungs = tuple(replace(rung, effort=effort * (1.0 + 0.05 * at)) for at, rung in enumerate(ladder.rungs))
    return Ladder(ladder.name, rungs)


def one_key(asked: Asked, key: str, values: Sequence[Any], name: str = "") -> list[Ladder]:
    """A ladder of values for one key, the least change first."""
    was = asked.said.raw(key)
    rungs = tuple(Move(changed(key, value, was), (Edit(key, value),)) for value in values)
    return [Ladder(name or key, rungs)] if rungs else []


def one_move(name: str, words: str, edits: Sequence[Edit]) -> list[Ladder]:
    """A change that has no degrees."""
    return [Ladder(name, (Move(words, tuple(edits)),))] if edits else []
