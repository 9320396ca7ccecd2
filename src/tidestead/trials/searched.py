"""What the search for a whole design looked at, and in words how far it is from proven."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Check
from tidestead.trials.covering import Cover
from tidestead.trials.mending import Looked
from tidestead.trials.patience import Patience
from tidestead.trials.remedy import Remedy

SWEEPS = 6
"""How often the changes are gone through for one that is cheaper in another's place."""
MOST_TRIES = 24
"""Cheaper plans of one going-through that are worked out, the cheapest first."""


@dataclass(frozen=True)
class Searched:
    """What was looked at."""

    checks: Sequence[Check]
    remedies: Sequence[Remedy]
    cover: Cover
    looked: Sequence[Looked]
    least: float | None
    late: bool

    @property
    def tried(self) -> int:
        """Changes tried one by one."""
        return sum(one.tried for one in self.looked)

    @property
    def cut(self) -> int:
        """Sorts of change for which no time was left."""
        return sum(one.cut for one in self.looked)

    @property
    def unended(self) -> bool:
        """Whether the time ran out before its end."""
        return bool(self.cut) or self.late


def has_total(remedy: Remedy) -> bool:
    """Whether all that it takes has a price."""
    return remedy.price is not None and remedy.price.whole


def late_words(patience: Patience, searched: Searched) -> str:
    """What was left out where the time ran out, in words; nothing where it did not."""
    if not searched.unended:
        return ""
    left = [
        f"{searched.cut} sort{'s of change were' if searched.cut > 1 else ' of change was'} not tried"
        if searched.cut
        else "",
        "what was found was not put together to its end" if searched.late else "",
    ]
    told = " and ".join(one for one in left if one)
    return f"The {patience.minutes:.3g} min given for it were too few: {told}. Asked again, it goes on from here. "


def end_words(left: int, spoilt: int) -> str:
    """What the set leaves that is not sound, in words."""
    end = f", which leaves {_checks(left)} unsound" if left else ", and everything asked for is sound in it"
    also = (
        f"; not weighed: it spoils {_checks(spoilt)} of subjects without one that was asked for"
        if spoilt
        else ""
    )
    return f"{end}{also}."


def _checks(count: int) -> str:
    return "1 check" if count == 1 else f"{count} checks"


def proof_words(searched: Searched, *, priced: bool) -> str:
    """How far from proven it is, in words."""
    count = len(searched.remedies)
    if not count:
        return "No change that was tried mends any of these checks, so there is nothing to choose from."
    measure = "price" if priced else "size of the change, for no price is known"
    if priced and not all(one.harms or has_total(one) for one in searched.remedies):
        measure += ", what has none being dearer than all that has one"
    those = f"the {count} changes that mend a check by themselves, as far as they spoil nothing"
    chosen = (
        f"Of {those}, no set that mends all they can is less by {measure}"
        if searched.cover.proven
        else f"Out of {those} a set was chosen, not proven the least by {measure}"
    )
    rest = (
        "each counted alone. That is no proof over all designs: steps between those tried, half measures that only "
        "together mend a check, and ideas that are on no list here were not weighed; prices of changes made together "
        "need not add up. The set was then worked out as one plan, changes that spoil something added only where less "
        "fails or is near by them, one check that would newly fail outweighing all that are mended, and what the rest "
        "do not need left out"
    )
    if priced:
        rest += (
            "; a change was put aside for another that mends the same check where the whole became cheaper and no less "
            f"sound, {SWEEPS} times at most and by the {MOST_TRIES} cheapest ways each"
        )
    return f"{chosen}, {rest}"
