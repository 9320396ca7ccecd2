"""A change that mends one check and spoils others of its subject, with further changes that make those good again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tidestead.core.answer import Check, Verdict
from tidestead.trials.keys import apart
from tidestead.trials.moves import ladders_for
from tidestead.trials.patience import ENDLESS, Patience
from tidestead.trials.remedy import BADNESS, Move
from tidestead.trials.said import Said
from tidestead.trials.scratch import Scratch, standing_for
from tidestead.trials.searching import TOO_SLOW, Rung, climbed, subject_of

LEADS = 1
"""Changes of one check that are made good: those that spoil least. Own choice."""
ROUNDS = 4
"""Further changes that are added to one at most. Own choice."""


@dataclass(frozen=True)
class Cured:
    """What making good came to: changes that spoil nothing more in their subject, and how many ladders were climbed.

    `cut` is true where the time had run out before.
    """

    rungs: tuple[Rung, ...]
    tried: int
    cut: bool = False


def cured(
    scratch: Scratch, said: Said, check: Check, rungs: Sequence[Rung], patience: Patience = ENDLESS
) -> Cured:
    """The sound changes of a check with what makes good the other checks they spoil; none where one spoils nothing."""
    sound = [rung for rung in rungs if rung.sound]
    ways = [(_spoilt(scratch, check, rung.move), rung.move) for rung in sound]
    if subject_of(check.id) in TOO_SLOW or not ways or any(not spoilt for spoilt, _ in ways):
        return Cured((), 0)
    if patience.over:
        return Cured((), 0, cut=True)
    ways.sort(key=lambda one: (len(one[0]), one[1].effort, one[1].words))
    found, tried = [], 0
    for _, move in ways[:LEADS]:
        good, count = _made_good(scratch, said, check, move)
        tried += count
        found += [] if good is None else [good]
    return Cured(tuple(found), tried)


def _made_good(scratch: Scratch, said: Said, check: Check, move: Move) -> tuple[Rung | None, int]:
    tried = 0
    for _ in range(ROUNDS):
        spoilt = _spoilt(scratch, check, move)
        if not spoilt:
            return _rung(scratch, check, move), tried
        ways = []
        for count, way in _further(scratch, said, spoilt[0], move):
            tried += count
            left = _spoilt(scratch, check, way)
            stands = _rung(scratch, check, way)
            if stands is not None and stands.sound and len(left) < len(spoilt):
                ways.append((len(left), way.effort, way.words, way))
        if not ways:
            break
        move = min(ways, key=lambda one: one[:3])[3]
    return None, tried


def _further(scratch: Scratch, said: Said, spoilt: str, move: Move) -> Iterator[tuple[int, Move]]:
    """Changes that together with this one make a spoilt check sound, with how many were tried for each."""
    check = (scratch.checks(subject_of(spoilt)) or {}).get(spoilt)
    if check is None:
        return
    mine = {edit.key for edit in move.edits}
    for ladder in ladders_for(said, check):
        if not apart(mine, {edit.key for rung in ladder.rungs for edit in rung.edits}):
            continue
        got = climbed(scratch, check, ladder, move)
        if got.best is not None and got.best.sound:
            yield got.tried, got.best.move


def _rung(scratch: Scratch, check: Check, move: Move) -> Rung | None:
    subject = subject_of(check.id)
    before, after = scratch.states(subject), scratch.states(subject, move.edits)
    if before is None or after is None:
        return None
    return Rung(move, standing_for(check.id, check.part, after, before))


def _spoilt(scratch: Scratch, check: Check, move: Move) -> list[str]:
    """Other checks of the subject that get worse, the worst first."""
    subject = subject_of(check.id)
    before, after = scratch.states(subject) or {}, scratch.states(subject, move.edits) or {}
    found = []
    for name, state in after.items():
        was = before[name].verdict if name in before else Verdict.SOUND
        if name != check.id and BADNESS[state.verdict] > BADNESS[was]:
            found.append((-(state.use or 0.0), name))
    return [name for _, name in sorted(found)]
