"""Changes put together: worked out as one plan, added to, thinned out and exchanged as long as it gets better."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from tidestead.core.answer import Verdict
from tidestead.trials.answered import States
from tidestead.trials.crew import Tick
from tidestead.trials.keys import apart
from tidestead.trials.patience import Patience
from tidestead.trials.pricing import Price, difference
from tidestead.trials.remedy import Move, Priced, Remedy
from tidestead.trials.scratch import Scratch
from tidestead.trials.searched import MOST_TRIES, SWEEPS
from tidestead.trials.searching import subject_of

ROUNDS = 40
"""Changes that are added one after the other at most, where those taken together leave a check that is not sound."""
CENT = 0.01
_SLOW = ("heat", "light", "water", "power", "faults", "cost")

Badness: TypeAlias = tuple[float, ...]
"""How many checks fail that did not before, how many fail, are unproven, are near: each weighs more than any number of
the next."""


@dataclass(frozen=True)
class Bench:
    """Changes worked out together."""

    scratch: Scratch
    wanted: tuple[str, ...]
    price: Price
    patience: Patience
    tick: Tick | None

    @property
    def subjects(self) -> tuple[str, ...]:
        """Those that the checks are of: they are asked anew at every try."""
        return tuple(dict.fromkeys(map(subject_of, self.wanted)))

    def badness(self, moves: Sequence[Move]) -> Badness:
        """How many checks fail, newly and in all, are unproven and are near with these changes; endless without a
        plan.
        """
        joined = together(moves)
        counts = [self._of_subject(subject, joined) for subject in self.subjects]
        return _summed(counts)

    def is_no_worse(self, moves: Sequence[Move], now: Badness) -> bool:
        """Whether their badness is no more than this; left at the first subject by which it is more."""
        joined = together(moves)
        counts: list[Badness] = []
        for subject in sorted(self.subjects, key=_SLOW.__contains__):
            counts.append(self._of_subject(subject, joined))
            if _summed(counts) > now:
                return False
        return True

    def is_better(self, moves: Sequence[Move], now: Badness) -> bool:
        """Whether their badness is less than this."""
        return self.is_no_worse(moves, now) and self.badness(moves) < now

    def _of_subject(self, subject: str, joined: Move) -> Badness:
        after = self.scratch.states(subject, joined.edits)
        if after is None:
            return (math.inf, math.inf, math.inf, math.inf)
        verdicts = [state.verdict for state in after.values()]
        counts = (float(verdicts.count(one)) for one in (Verdict.FAILS, Verdict.UNPROVEN, Verdict.NEAR))
        return (float(len(_failing(after) - _failing(self.scratch.states(subject) or {}))), *counts)

    def unsound(self, moves: Sequence[Move]) -> frozenset[str]:
        """The wanted checks that are not sound with these changes."""
        joined = together(moves)
        found = (self.scratch.states(subject, joined.edits) or {} for subject in self.subjects)
        return frozenset(
            name
            for states in found
            for name, one in states.items()
            if name in self.wanted and one.verdict is not Verdict.SOUND
        )

    def makeable(self, moves: Sequence[Move]) -> list[Move]:
        """Those of the moves with which together there still is a plan and an answer on it, taken one by one."""
        if math.isfinite(self.badness(moves)[0]):
            return list(moves)
        found: list[Move] = []
        for move in moves:
            if not self.patience.over and math.isfinite(self.badness([*found, move])[0]):
                found.append(move)
        return found

    def mended_together(self, moves: list[Move], remedies: Sequence[Remedy]) -> list[Move]:
        """The moves, with others added or put in the place of one where together they leave something unsound."""
        now = self.badness(moves)
        for _ in range(ROUNDS):
            before = now
            others = sorted((one for one in remedies if one.move not in moves), key=lambda one: one.rank)
            for done, other in enumerate(others):
                self.told(done, len(others))
                if self.patience.over:
                    return moves
                if other.check not in self.unsound(moves):
                    continue
                tried = [*(move for move in moves if _apart(move, other.move)), other.move]
                if self.is_better(tried, now):
                    moves, now = tried, self.badness(tried)
            if now == before:
                break
        return moves

    def told(self, done: int, of: int) -> None:
        """Tell how far a going-through of changes is."""
        if self.tick is not None:
            self.tick(done, of)

    def priced(self, moves: Sequence[Move]) -> Priced | None:
        """What a plan with these changes costs, the quick way."""
        plan = self.scratch.with_edits(together(moves).edits)
        return None if plan is None else self.price(plan)

    def exchanged(self, moves: list[Move], remedies: Sequence[Remedy]) -> list[Move]:
        """The moves with one in another's place, or left out, as long as that is cheaper and no less sound.

        What has no price is no hindrance where as much of it is needed with the other.
        """
        now = self.badness(moves)
        for _ in range(SWEEPS):
            likely = self._cheaper(moves, remedies)[:MOST_TRIES]
            better = next(
                (one for one in likely if not self.patience.over and self.is_no_worse(one, now)), None
            )
            if better is None:
                break
            moves = better
            now = self.badness(moves)
        return moves

    def _cheaper(self, moves: list[Move], remedies: Sequence[Remedy]) -> list[list[Move]]:
        """The sets with one change in another's place, or left out, that are cheaper, the cheapest first."""
        price = self.priced(moves)
        if price is None:
            return []
        tries = list(_exchanges(moves, remedies))
        found = []
        for done, other in enumerate(tries):
            self.told(done, len(tries))
            added = None if self.patience.over else difference(price, self.priced(other))
            if added is not None and added.whole and added.cash.likely < -CENT:
                found.append((added.cash.likely, other))
        return [other for _, other in sorted(found, key=lambda one: one[0])]

    def thinned(self, moves: list[Move]) -> list[Move]:
        """The moves without those that the rest do not need, the largest tried first."""
        now = self.badness(moves)
        largest = sorted(moves, key=lambda one: -one.effort)
        for done, move in enumerate(largest):
            self.told(done, len(largest))
            fewer = [one for one in moves if one is not move]
            if not self.patience.over and self.is_no_worse(fewer, now):
                moves = fewer
        return moves


def _failing(states: States) -> frozenset[str]:
    return frozenset(name for name, one in states.items() if one.verdict is Verdict.FAILS)


def _summed(counts: Sequence[Badness]) -> Badness:
    return tuple(map(sum, zip(*counts, strict=True)))


def _exchanges(moves: Sequence[Move], remedies: Sequence[Remedy]) -> Iterator[list[Move]]:
    """Each move left out, and each of the others put in the place of one and of what sets the same keys."""
    others = [one.move for one in remedies if one.move not in moves]
    for at in range(len(moves)):
        rest = [*moves[:at], *moves[at + 1 :]]
        yield rest
        mended = {one.check for one in remedies if one.move == moves[at]}
        for other in others:
            if mended & {one.check for one in remedies if one.move == other}:
                yield [*(move for move in rest if _apart(move, other)), other]


def _apart(one: Move, other: Move) -> bool:
    return apart({edit.key for edit in one.edits}, {edit.key for edit in other.edits})


def together(moves: Sequence[Move]) -> Move:
    """Several moves as one."""
    edits = tuple(edit for move in moves for edit in move.edits)
    return Move("; ".join(move.words for move in moves), edits, sum(move.effort for move in moves))
