"""Remedies for the failing and near checks of a plan: searched, told with their side effects, priced and ranked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tidestead import desk
from tidestead.core.answer import Check, Verdict
from tidestead.plan.edits import Edit
from tidestead.trials.crew import Task, Tick, ask_ahead, climb_all, is_told
from tidestead.trials.curing import cured
from tidestead.trials.moves import ladders_for
from tidestead.trials.patience import ENDLESS, Patience
from tidestead.trials.pricing import Price, difference, lacking_alone, price_of, told_whole, with_lacking
from tidestead.trials.remedy import BADNESS, Effect, Ladder, Mended, Move, Priced, Remedy, State
from tidestead.trials.said import Said
from tidestead.trials.scratch import Scratch, effects, standing_for, touched
from tidestead.trials.searching import Climbed, Rung, pairs, subject_of

FULLY = 3
"""Remedies of a check whose effects on every other subject are worked out and told; the rest are counted."""


@dataclass(frozen=True)
class Search:
    """How a search is made. `fully` False looks for side effects in the check's own subject alone.

    `sorts` is how many sorts of change are tried for a check at most, in the order of their rows; all when None.
    When its patience is over, what is found so far is told.
    """

    price: Price = price_of
    most: int = FULLY
    fully: bool = True
    workers: int | None = None
    sorts: int | None = None
    patience: Patience = ENDLESS


@dataclass(frozen=True)
class Looked:
    """What was found for a check: the best rung of each ladder and of pairs, how many changes were tried.

    `cut` are the sorts of change for which no time was left.
    """

    rungs: tuple[Rung, ...]
    tried: int
    cut: int = 0

    @property
    def sound(self) -> tuple[Rung, ...]:
        """Those that mend it."""
        return tuple(rung for rung in self.rungs if rung.sound)


def checks_to_mend(scratch: Scratch, subjects: Sequence[str], wanted: Sequence[str] = ()) -> list[Check]:
    """Failing and near checks of these subjects in the order of the questions, the worst first.

    `wanted` are ids or the beginnings of ids, to their dots; all where there are none.
    """
    found: list[Check] = []
    for subject in subjects:
        checks = (scratch.checks(subject) or {}).values()
        open_ones = [one for one in checks if one.verdict in (Verdict.FAILS, Verdict.NEAR)]
        found += sorted(
            (one for one in open_ones if not wanted or any(is_under(one.id, word) for word in wanted)),
            key=lambda one: (-BADNESS[one.verdict], -(one.use or 0.0), one.id),
        )
    return found


def is_under(check_id: str, word: str) -> bool:
    """Whether an id is this word, or begins with it up to a dot."""
    return check_id == word or check_id.startswith(word + ".")


def built_subjects() -> tuple[str, ...]:
    """The subjects that can be answered, in the order of the questions."""
    return tuple(entry.name for entry in desk.SUBJECTS if entry.built)


def mended(
    scratch: Scratch, checks: Sequence[Check], search: Search | None = None, tick: Tick | None = None
) -> tuple[Mended, ...]:
    """The remedies of every check, numbered through in the order in which they are told."""
    search = search or Search()
    looked = all_climbed(scratch, checks, search, tick)
    base = search.price(scratch.loaded)
    best = [
        ranked(scratch, check, one.sound, search, base) for check, one in zip(checks, looked, strict=True)
    ]
    if search.fully:
        edits = [one.edits for ones in best for one in ones]
        ask_ahead(scratch, edits, tick, search.workers, search.patience)
        best = [sorted((_told(scratch, one, search) for one in ones), key=_rank) for ones in best]
    told, number = [], 0
    for check, remedies, one in zip(checks, best, looked, strict=True):
        numbered = tuple(replace(one, number=number + at) for at, one in enumerate(remedies, start=1))
        number += len(numbered)
        told.append(Mended(check, numbered, one.tried, None if remedies else _nearest(one.rungs), one.cut))
    return tuple(told)


def _rank(remedy: Remedy) -> tuple[bool, bool, bool, float, float, str]:
    return remedy.rank


def _told(scratch: Scratch, remedy: Remedy, search: Search) -> Remedy:
    """The remedy with all it moves; with what was not asked where that is not known and the time has run out."""
    if not search.patience.over or is_told(scratch, remedy.edits):
        return fully_told(scratch, remedy)
    return replace(remedy, unasked=tuple(one for one in touched(remedy.edits) if one not in remedy.subjects))


def _nearest(rungs: Sequence[Rung]) -> tuple[str, State] | None:
    best = min(rungs, key=lambda rung: rung.order, default=None)
    return None if best is None or best.state is None else (best.move.words, best.state)


def all_climbed(
    scratch: Scratch, checks: Sequence[Check], search: Search, tick: Tick | None = None
) -> list[Looked]:
    """For every check the best rung of each ladder and of pairs of them."""
    said = Said.of(scratch.loaded)
    ladders = [ladders_for(said, check)[: search.sorts] for check in checks]
    tasks = [Task(check, ladder) for check, ones in zip(checks, ladders, strict=True) for ladder in ones]
    climbs = iter(climb_all(scratch, tasks, tick, search.workers, search.patience))
    single = [[next(climbs) for _ in ones] for ones in ladders]
    paired = _paired_tasks(checks, ladders, single)
    second = climb_all(scratch, paired, tick, search.workers, search.patience)
    found = []
    for check, ones in zip(checks, single, strict=True):
        every = [*ones, *(got for task, got in zip(paired, second, strict=True) if task.check is check)]
        rungs = [one.best for one in every if one.best is not None]
        good = cured(scratch, said, check, rungs, search.patience)
        cut = sum(one.cut for one in every) + good.cut
        found.append(Looked((*rungs, *good.rungs), sum(one.tried for one in every) + good.tried, cut))
    return found


def _paired_tasks(
    checks: Sequence[Check], ladders: Sequence[tuple[Ladder, ...]], climbs: Sequence[Sequence[Climbed]]
) -> list[Task]:
    """Pairs of changes for the checks that no single one mends."""
    found = []
    for check, ones, got in zip(checks, ladders, climbs, strict=True):
        if not any(climb.best is not None and climb.best.sound for climb in got):
            found += [Task(check, ladder, lead) for lead, ladder in pairs(State.of(check), ones, got)]
    return found


def ranked(
    scratch: Scratch, check: Check, rungs: Sequence[Rung], search: Search, base: Priced | None
) -> list[Remedy]:
    """The best remedies that rungs make, as many as are told, by their own subject and the price that is quick."""
    own = (subject_of(check.id),)
    first = [remedy_of(scratch, check, rung.move, own) for rung in rungs]
    priced = [priced_remedy(scratch, one, search, base) for one in first if one is not None]
    return sorted(priced, key=lambda one: one.rank)[: search.most]


def priced_remedy(scratch: Scratch, remedy: Remedy, search: Search, base: Priced | None) -> Remedy:
    """A remedy with what it adds to the cost, where that is known."""
    changed = None if base is None else scratch.with_edits(remedy.edits)
    price = None if changed is None else told_whole(difference(base, search.price(changed)), remedy.edits)
    if price is None:
        return remedy
    return replace(remedy, price=with_lacking(price, not_listed(scratch, remedy.edits, search, base)))


def not_listed(scratch: Scratch, edits: Sequence[Edit], search: Search, base: Priced | None) -> list[str]:
    """What several edits buy and no list of the cost counts, each of them looked at alone."""

    def alone(edit: Edit) -> Priced | None:
        plan = scratch.with_edits((edit,))
        return None if plan is None else difference(base, search.price(plan))

    return lacking_alone(edits, alone) if len(edits) > 1 else []


def remedy_of(scratch: Scratch, check: Check, move: Move, subjects: Sequence[str]) -> Remedy | None:
    """A change as a remedy of a check, with its effects on these subjects; None where it does not mend it."""
    before, after = scratch.states(subject_of(check.id)), scratch.states(subject_of(check.id), move.edits)
    if before is None or after is None:
        return None
    stands = standing_for(check.id, check.part, after, before)
    if stands is None or stands.verdict is not Verdict.SOUND:
        return None
    moved = effects_on(scratch, move, subjects, check.id)
    return Remedy(check.id, move, State.of(check), stands, tuple(subjects), moved)


def effects_on(
    scratch: Scratch, move: Move, subjects: Sequence[str], leave_out: str = ""
) -> tuple[Effect, ...]:
    """What a change moves in these subjects, but for one check."""
    found: list[Effect] = []
    for subject in subjects:
        before, after = scratch.states(subject), scratch.states(subject, move.edits)
        found += effects(before or {}, after or {}, leave_out)
    return tuple(found)


def fully_told(scratch: Scratch, remedy: Remedy) -> Remedy:
    """A remedy with its effects on every subject that reads what it changes, and its price as the cost then has it."""
    subjects = touched(remedy.edits)
    moved = effects_on(scratch, remedy.move, subjects, remedy.check)
    price = None if remedy.price is None else scratch.price(remedy.edits)
    if price is not None and remedy.price is not None:  # what lacked a price before lacks it still
        price = with_lacking(price, remedy.price.unpriced)
    return replace(remedy, subjects=subjects, effects=moved, price=price or remedy.price)
