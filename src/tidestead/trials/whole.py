"""A whole design in which everything is sound, at the least cost that was found: what was searched, what is proven."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Check, Verdict
from tidestead.trials.covering import Cover, Offer, cheapest_cover
from tidestead.trials.crew import Tick
from tidestead.trials.mending import Search, all_climbed, effects_on, priced_remedy, remedy_of
from tidestead.trials.pricing import difference
from tidestead.trials.remedy import BADNESS, Move, Remedy, State, Whole
from tidestead.trials.scratch import Scratch, touched
from tidestead.trials.searching import subject_of

ROUNDS = 4
"""How often changes are added where those taken together leave a check that each mended alone."""


def whole_design(
    scratch: Scratch,
    checks: Sequence[Check],
    search: Search | None = None,
    tick: Tick | None = None,
) -> Whole:
    """The cheapest changes with which these checks are sound together.

    First every change that mends a check by itself is found; of those the cheapest set that mends all is chosen
    exactly; then the set is worked out as one plan, mended where the changes spoil each other, and each of them left
    out again that is not needed.
    """
    search = search or Search()
    found = all_climbed(scratch, checks, search, tick)
    base = search.price(scratch.loaded)
    remedies = []
    for check, (rungs, _) in zip(checks, found, strict=True):
        made = (remedy_of(scratch, check, rung.move, (subject_of(check.id),)) for rung in rungs if rung.sound)
        remedies += [priced_remedy(scratch, one, search, base) for one in made if one is not None]
    remedies = _without_harm(remedies)
    bench = _Bench(scratch, tuple(check.id for check in checks))
    offers = _offers(remedies)
    cover = cheapest_cover(offers, bench.wanted)
    moves = bench.mended_together([remedies[at].move for at in cover.taken], remedies)
    moves = bench.thinned(moves)
    return _told(bench, search, moves, _Searched(checks, remedies, cover, sum(tried for _, tried in found)))


def _without_harm(remedies: Sequence[Remedy]) -> list[Remedy]:
    """Those that make nothing worse; of a check that has none such, all of them."""
    good = {one.check for one in remedies if not one.harms}
    return [one for one in remedies if not one.harms or one.check not in good]


def _offers(remedies: Sequence[Remedy]) -> list[Offer]:
    """What each costs, by price where all are priced, else by the size of the change."""
    priced = all(one.price is not None and not one.price.unpriced for one in remedies)
    found = []
    for one in remedies:
        cost = one.price.cash.likely if priced and one.price is not None else one.move.effort
        also = (effect.id for effect in one.effects if effect.better and _sound(effect.after))
        found.append(Offer(cost, frozenset((one.check, *also))))
    return found


def _sound(state: State | None) -> bool:
    return state is not None and state.verdict is Verdict.SOUND


@dataclass(frozen=True)
class _Searched:
    """What was looked at."""

    checks: Sequence[Check]
    remedies: Sequence[Remedy]
    cover: Cover
    tried: int


@dataclass(frozen=True)
class _Bench:
    """Changes worked out together."""

    scratch: Scratch
    wanted: tuple[str, ...]

    @property
    def subjects(self) -> tuple[str, ...]:
        """Those that the checks are of: they are asked anew at every try."""
        return tuple(dict.fromkeys(map(subject_of, self.wanted)))

    def badness(self, moves: Sequence[Move]) -> tuple[float, float]:
        """How many checks are not sound that should be, and how many others got worse; endless without a plan."""
        joined = together(moves)
        worse = unsound = 0
        for subject in self.subjects:
            before, after = self.scratch.checks(subject), self.scratch.checks(subject, joined.edits)
            if before is None or after is None:
                return (math.inf, math.inf)
            for name, check in after.items():
                was = before[name].verdict if name in before else Verdict.SOUND
                unsound += name in self.wanted and check.verdict is not Verdict.SOUND
                worse += name not in self.wanted and BADNESS[check.verdict] > BADNESS[was]
        return (unsound, worse)

    def mended_together(self, moves: list[Move], remedies: Sequence[Remedy]) -> list[Move]:
        """The moves, with others added or put in the place of one where together they leave something unsound."""
        now = self.badness(moves)
        for _ in range(ROUNDS):
            if now == (0, 0):
                break
            others = [one.move for one in remedies if one.move not in moves]
            tries = [[*(move for move in moves if _apart(move, other)), other] for other in others]
            best = min(tries, key=self.badness, default=moves)
            if self.badness(best) >= now:
                break
            moves, now = best, self.badness(best)
        return moves

    def thinned(self, moves: list[Move]) -> list[Move]:
        """The moves without those that the rest do not need, the largest tried first."""
        now = self.badness(moves)
        for move in sorted(moves, key=lambda one: -one.effort):
            fewer = [one for one in moves if one is not move]
            if self.badness(fewer) <= now:
                moves = fewer
        return moves


def _apart(one: Move, other: Move) -> bool:
    """Whether two moves set no key in common."""
    return not {edit.key for edit in one.edits} & {edit.key for edit in other.edits}


def together(moves: Sequence[Move]) -> Move:
    """Several moves as one."""
    edits = tuple(edit for move in moves for edit in move.edits)
    return Move("; ".join(move.words for move in moves), edits, sum(move.effort for move in moves))


def _told(bench: _Bench, search: Search, moves: list[Move], searched: _Searched) -> Whole:
    scratch, joined = bench.scratch, together(moves)
    subjects = touched(joined.edits) if search.fully else bench.subjects
    after = {
        name: check
        for subject in bench.subjects
        for name, check in (scratch.checks(subject, joined.edits) or {}).items()
    }
    left = tuple(State.of(one) for one in after.values() if one.verdict is not Verdict.SOUND)
    base, changed = search.price(scratch.loaded), scratch.with_edits(joined.edits)
    price = None if changed is None else difference(base, search.price(changed))
    return Whole(
        tuple(moves),
        tuple(State.of(check) for check in searched.checks),
        left,
        effects_on(scratch, joined, subjects) if moves else (),
        price,
        searched.cover.cost if price is not None and searched.cover.proven else None,
        searched.tried,
        len(searched.remedies),
        subjects,
        _proof(searched, priced=price is not None, left=len(left)),
    )


def _proof(searched: _Searched, *, priced: bool, left: int) -> str:
    """How far from proven it is, in words."""
    count = len(searched.remedies)
    if not count:
        return "No change that was tried mends any of these checks, so there is nothing to choose from."
    measure = "price" if priced else "size of the change, for no price is known"
    those = f"the {count} changes that mend a check by themselves"
    chosen = (
        f"Of {those}, no set that mends all they can is less by {measure}"
        if searched.cover.proven
        else f"Out of {those} a set was chosen, not proven the least by {measure}"
    )
    rest = (
        "each counted alone. That is no proof over all designs: steps between those tried, half measures that only "
        "together mend a check, and ideas that are on no list here were not weighed; prices of changes made together "
        "need not add up. The set was then worked out as one plan"
    )
    end = f", which leaves {left} checks unsound." if left else ", and everything asked for is sound in it."
    return f"{chosen}, {rest}{end}"
