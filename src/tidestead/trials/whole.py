"""A whole design in which everything is sound, at the least cost that was found: what was searched, what is proven."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tidestead.core.answer import Check, Verdict
from tidestead.trials.covering import Cover, Offer, cheapest_cover
from tidestead.trials.crew import Tick
from tidestead.trials.mending import (
    Search,
    all_climbed,
    effects_on,
    not_listed,
    priced_remedy,
    remedy_of,
)
from tidestead.trials.pricing import difference, told_whole, with_lacking
from tidestead.trials.remedy import Move, Priced, Remedy, State, Whole
from tidestead.trials.scratch import Scratch, touched
from tidestead.trials.searched import (
    Searched,
    end_words,
    has_total,
    late_words,
    proof_words,
)
from tidestead.trials.searching import subject_of
from tidestead.trials.together import Bench, together

CLIMBED = 0.6
"""The share of a time for finding changes one by one; the rest is for putting them together. Own choice."""


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
    bench = Bench(scratch, tuple(check.id for check in checks), search.price, search.patience, tick)
    harmless = [one for one in remedies if not one.harms]
    failing = frozenset(check.id for check in checks if check.verdict is Verdict.FAILS)
    cover = cheapest_cover(_offers(harmless, priced=base is not None), bench.wanted, failing)
    moves = bench.thinned(bench.makeable([harmless[at].move for at in cover.taken]))
    moves = bench.thinned(bench.mended_together(moves, remedies))
    moves = bench.exchanged(moves, remedies)
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


def _told(bench: Bench, search: Search, moves: list[Move], searched: Searched) -> Whole:
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
        searched.unended,
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
