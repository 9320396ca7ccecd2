"""A whole design in which everything is sound, at the least cost that was found: what was searched, what is proven."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead.core.answer import Check, Verdict
from tidestead.trials.covering import Cover, Offer, cheapest_cover, meets
from tidestead.trials.crew import Tick
from tidestead.trials.mending import (
    Search,
    all_climbed,
    effects_on,
    not_listed,
    priced_remedy,
    remedy_of,
)
from tidestead.trials.patience import Patience
from tidestead.trials.pricing import Price, difference, told_whole, with_lacking
from tidestead.trials.remedy import Move, Priced, Remedy, State, Whole
from tidestead.trials.scratch import Scratch, touched
from tidestead.trials.searched import (
    MOST_TRIES,
    SWEEPS,
    Searched,
    end_words,
    has_total,
    late_words,
    proof_words,
)
from tidestead.trials.searching import subject_of

ROUNDS = 40
"""Changes that are added one after the other at most, where those taken together leave a check that is not sound."""
CENT = 0.01
CLIMBED = 0.6
"""The share of a time that is given for finding changes one by one; the rest is for putting them together."""
_SLOW = ("heat", "light", "water", "power", "faults", "cost")

Badness: TypeAlias = tuple[float, ...]
"""How many checks fail, are unproven, are near: what fails weighs more than any number that are near."""


def whole_design(
    scratch: Scratch,
    checks: Sequence[Check],
    search: Search | None = None,
    tick: Tick | None = None,
) -> Whole:
    """The cheapest changes with which these checks are sound together.

    First every change that mends a check by itself is found; of those that spoil nothing the cheapest set that mends
    all they can is chosen exactly; then the set is worked out as one plan, others added as long as less fails or is
    near by them, each of them left out again that is not needed, and each put in another's place where the whole plan
    is cheaper with it and as sound. Where the time for it runs out, what is found by then stands and says so.
    """
    search = search or Search()
    found = all_climbed(scratch, checks, replace(search, patience=search.patience.first(CLIMBED)), tick)
    base = search.price(scratch.loaded)
    remedies = []
    for check, looked in zip(checks, found, strict=True):
        made = (remedy_of(scratch, check, rung.move, (subject_of(check.id),)) for rung in looked.sound)
        remedies += [priced_remedy(scratch, one, search, base) for one in made if one is not None]
    remedies = _priced_first(_without_harm(remedies))
    bench = _Bench(scratch, tuple(check.id for check in checks), search.price, search.patience, tick)
    harmless = [one for one in remedies if not one.harms]
    failing = frozenset(check.id for check in checks if check.verdict is Verdict.FAILS)
    cover = cheapest_cover(_offers(harmless, priced=base is not None), bench.wanted, failing)
    moves = bench.mended_together(bench.makeable([harmless[at].move for at in cover.taken]), remedies)
    moves = bench.exchanged(bench.thinned(moves), remedies)
    searched = Searched(checks, remedies, cover, found, _least(harmless, cover), search.patience.over)
    return _told(bench, search, moves, searched)


def _without_harm(remedies: Sequence[Remedy]) -> list[Remedy]:
    """Those that make nothing worse; of a check that has none such, all of them."""
    good = {one.check for one in remedies if not one.harms}
    return [one for one in remedies if not one.harms or one.check not in good]


def _priced_first(remedies: Sequence[Remedy]) -> list[Remedy]:
    """Those with a total; of a check that has none such, all of them."""
    whole = {one.check for one in remedies if has_total(one)}
    return [one for one in remedies if has_total(one) or one.check not in whole]


def _offers(remedies: Sequence[Remedy], *, priced: bool) -> list[Offer]:
    """What each costs, by price; by the size of the change where no price is known, and beyond all prices where its
    own is lacking.
    """
    beyond = 1.0 + sum(abs(one.price.cash.likely) for one in remedies if one.price is not None)
    found, mends = [], _mends(remedies)
    for one in remedies:
        cost = one.move.effort if not priced else beyond * one.move.effort
        if one.price is not None and one.price.whole:
            cost = one.price.cash.likely
        keys = frozenset(edit.key for edit in one.edits)
        found.append(Offer(cost, frozenset(mends[repr(one.edits)]), keys))
    return found


def _mends(remedies: Sequence[Remedy]) -> dict[str, set[str]]:
    """The checks that the same edits, as text, mend, whichever check they were found for."""
    found: dict[str, set[str]] = {}
    for one in remedies:
        also = (effect.id for effect in one.effects if effect.better and _sound(effect.after))
        found.setdefault(repr(one.edits), set()).update((one.check, *also))
    return found


def _least(remedies: Sequence[Remedy], cover: Cover) -> float | None:
    """Below this no set of these changes adds up, changes that save money taken for that alone; None where unknown.

    Of changes that set the same keys only one can be taken.
    """
    if not cover.proven or not all(map(has_total, remedies)):
        return None
    saved: dict[frozenset[str], float] = {}
    for one in remedies:
        keys = frozenset(edit.key for edit in one.edits)
        cash = one.price.cash.likely if one.price is not None else 0.0
        saved[keys] = min(saved.get(keys, 0.0), cash)
    return cover.cost + sum(saved.values())


def _sound(state: State | None) -> bool:
    return state is not None and state.verdict is Verdict.SOUND


@dataclass(frozen=True)
class _Bench:
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
        """How many checks fail, are unproven and are near with these changes; endless without a plan."""
        joined = together(moves)
        counts = [self._of_subject(subject, joined) for subject in self.subjects]
        return _summed(counts)

    def is_no_worse(self, moves: Sequence[Move], now: Badness) -> bool:
        """Whether their badness is no more than this; left at the first subject by which more fail."""
        joined = together(moves)
        counts: list[Badness] = []
        for subject in sorted(self.subjects, key=_SLOW.__contains__):
            counts.append(self._of_subject(subject, joined))
            if _summed(counts)[0] > now[0]:
                return False
        return _summed(counts) <= now

    def is_better(self, moves: Sequence[Move], now: Badness) -> bool:
        """Whether their badness is less than this."""
        return self.is_no_worse(moves, now) and self.badness(moves) < now

    def _of_subject(self, subject: str, joined: Move) -> Badness:
        after = self.scratch.states(subject, joined.edits)
        if after is None:
            return (math.inf, math.inf, math.inf)
        verdicts = [state.verdict for state in after.values()]
        return tuple(float(verdicts.count(one)) for one in (Verdict.FAILS, Verdict.UNPROVEN, Verdict.NEAR))

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
    """Whether two moves set no key in common, nor one a table that the other sets something in."""
    mine, theirs = ({edit.key for edit in move.edits} for move in (one, other))
    return not any(meets(key, theirs) for key in mine) and not any(meets(key, mine) for key in theirs)


def together(moves: Sequence[Move]) -> Move:
    """Several moves as one."""
    edits = tuple(edit for move in moves for edit in move.edits)
    return Move("; ".join(move.words for move in moves), edits, sum(move.effort for move in moves))


def _told(bench: _Bench, search: Search, moves: list[Move], searched: Searched) -> Whole:
    scratch, joined = bench.scratch, together(moves)
    subjects = touched(joined.edits) if search.fully else bench.subjects
    after = {
        name: state
        for subject in bench.subjects
        for name, state in (scratch.states(subject, joined.edits) or {}).items()
    }
    left = tuple(one for one in after.values() if one.verdict is not Verdict.SOUND)
    moved = effects_on(scratch, joined, subjects) if moves else ()
    spoilt = sum(one.worse for one in moved if subject_of(one.id) not in bench.subjects)
    price = _price(scratch, search, joined)
    return Whole(
        tuple(moves),
        tuple(State.of(check) for check in searched.checks),
        left,
        moved,
        price,
        searched.least if price is not None else None,
        searched.tried,
        len(searched.remedies),
        subjects,
        late_words(search.patience, searched)
        + proof_words(searched, priced=price is not None)
        + (end_words(len(left), spoilt) if searched.remedies else ""),
    )


def _price(scratch: Scratch, search: Search, joined: Move) -> Priced | None:
    """What all of it adds to the cost: as the answer on it has it where everything is asked, else the quick way."""
    changed = scratch.with_edits(joined.edits)
    quick = None if changed is None else difference(search.price(scratch.loaded), search.price(changed))
    if quick is None or not joined.edits:
        return quick
    full = (scratch.price(joined.edits) if search.fully else None) or quick
    bare = not_listed(scratch, joined.edits, search, search.price(scratch.loaded))
    return with_lacking(told_whole(full, joined.edits) or full, (*quick.unpriced, *bare))
