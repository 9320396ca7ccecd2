"""Remedies for one check: every ladder climbed until the check is sound, pairs where no single change does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

from tidestead.core.answer import Check, Verdict
from tidestead.trials.answered import States
from tidestead.trials.keys import apart
from tidestead.trials.remedy import BADNESS, Ladder, Move, State
from tidestead.trials.scratch import Scratch, standing_for

PAIRED = 4
"""Ladders that are tried in pairs where none mends a check alone: those that came nearest."""
TOO_SLOW = ("heat", "faults")
"""Subjects that take many seconds to ask: they are asked last, and what is spoilt there is told, not made good."""


@dataclass(frozen=True)
class Rung:
    """One change tried: what the check, or what took its place, came to; None where the change cannot be made."""

    move: Move
    state: State | None

    @property
    def sound(self) -> bool:
        """Whether it mends the check."""
        return self.state is not None and self.state.verdict is Verdict.SOUND

    @property
    def order(self) -> tuple[int, float]:
        """What is nearer to sound comes first."""
        if self.state is None:
            return (9, float("inf"))
        use = float("inf") if self.state.use is None else self.state.use
        return (BADNESS[self.state.verdict], use)


@dataclass(frozen=True)
class Climbed:
    """What climbing one ladder came to: its least sound rung, else its best, and how many were tried.

    `cut` is true where it was not climbed, because the time for it had run out.
    """

    best: Rung | None
    tried: int
    cut: bool = False


def tried(scratch: Scratch, check: Check, before: States, move: Move) -> Rung:
    """What a check comes to after a change."""
    after = scratch.states(subject_of(check.id), move.edits)
    return Rung(move, None if after is None else standing_for(check.id, check.part, after, before))


def subject_of(check_id: str) -> str:
    """The subject that a check is of."""
    return check_id.split(".", 1)[0]


def climbed(scratch: Scratch, check: Check, ladder: Ladder, lead: Move | None = None) -> Climbed:
    """The least rung that makes a check sound, by halving; the best of those tried where the last does not.

    With a `lead` each rung is made together with that change. Where a value must lie within two limits every rung is
    tried in turn. A ladder that rises and falls may hold a lesser sound rung that halving passes by; what is given is
    sound all the same, for it was tried.
    """
    before = scratch.states(subject_of(check.id))
    if before is None or not ladder.rungs:
        return Climbed(None, 0)
    moves = [rung if lead is None else joined(lead, rung) for rung in ladder.rungs]
    while moves and scratch.with_edits(moves[-1].edits) is None:
        moves.pop()  # further than the plan allows
    if not moves:
        return Climbed(None, 0)
    found: dict[int, Rung] = {}

    def look(at: int) -> Rung:
        if at not in found:
            found[at] = tried(scratch, check, before, moves[at])
        return found[at]

    looks = _looks(len(moves)) if check.must_be != "within" else range(len(moves))
    top = next((at for at in looks if look(at).sound), None)
    if top is not None:
        low = -1 if check.must_be != "within" else top - 1
        while top - low > 1:
            middle = (low + top) // 2
            if look(middle).sound:
                top = middle
            else:
                low = middle
    best = found[top] if top is not None else min(found.values(), key=lambda rung: rung.order)
    return Climbed(best if best.state is not None else None, len(found))


def _looks(count: int) -> Iterable[int]:
    """Where a ladder is tried first: its end, its middle, its beginning."""
    return dict.fromkeys((count - 1, count // 2, 0))


def joined(one: Move, other: Move) -> Move:
    """Two changes as one."""
    return Move(f"{one.words}; and {other.words}", (*one.edits, *other.edits), one.effort + other.effort)


def pairs(before: State, ladders: Sequence[Ladder], climbs: Sequence[Climbed]) -> list[tuple[Move, Ladder]]:
    """Which changes are tried together: each of those that helped most, as far as it goes, with each other one."""
    helped = [
        (climb.best, ladder)
        for climb, ladder in zip(climbs, ladders, strict=True)
        if climb.best is not None and climb.best.order < Rung(climb.best.move, before).order
    ]
    helped.sort(key=lambda one: (one[0].order, one[0].move.words))
    found = []
    for (one, _), (other, ladder) in combinations(helped[:PAIRED], 2):
        if apart({edit.key for edit in one.move.edits}, {edit.key for edit in other.move.edits}):
            found.append((one.move, ladder))
    return found
