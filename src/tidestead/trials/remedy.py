"""What a search for remedies hands on: changes, what they lead to, what they cost. Nothing is tried here."""

from __future__ import annotations

from dataclasses import dataclass, field

from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.dims import Array
from tidestead.plan.edits import Edit


@dataclass(frozen=True)
class Move:
    """One change of the plan in words and as edits. `effort` orders what has no price; own choice, small is little."""

    words: str
    edits: tuple[Edit, ...]
    effort: float = 1.0


@dataclass(frozen=True)
class Ladder:
    """Changes of one sort, from the least to the most."""

    name: str
    rungs: tuple[Move, ...]


@dataclass(frozen=True)
class State:
    """What a check comes to: its likely value, margin and verdict. `id` is another one's where it took its place.

    `worst` is the end of its range that is judged; None where it is no other, or where both ends are.
    """

    id: str
    what: str
    where: str
    value: float | None
    unit: str
    style: str
    use: float | None
    verdict: Verdict
    part: str = ""
    worst: float | None = None

    @classmethod
    def of(cls, check: Check) -> State:
        """The state of a check."""
        value = check.estimate.likely if check.estimate is not None else None
        told = (check.id, check.what, check.where, value, check.unit, check.style, check.use, check.verdict)
        return cls(*told, check.part, _worst(check))

    @property
    def margin(self) -> float | None:
        """What is left of the limit."""
        return None if self.use is None else 1.0 - self.use


def _worst(check: Check) -> float | None:
    ends = check.estimate
    if ends is None or not ends.finite or check.must_be not in ("below", "above"):
        return None
    end = ends.high if check.must_be == "below" else ends.low
    return None if end == ends.likely else end


@dataclass(frozen=True)
class Effect:
    """What a remedy does to another check; `before` or `after` is None where it is not made then."""

    before: State | None
    after: State | None

    @property
    def id(self) -> str:
        """The check's own."""
        one = self.after or self.before
        return one.id if one is not None else ""

    @property
    def worse(self) -> bool:
        """Whether its verdict gets worse, or it is new and not sound."""
        was = self.before.verdict if self.before is not None else Verdict.SOUND
        return self.after is not None and BADNESS[self.after.verdict] > BADNESS[was]

    @property
    def untold_cost(self) -> bool:
        """Whether it is a sum of the cost that is not known any more."""
        unproven = self.after is not None and self.after.verdict is Verdict.UNPROVEN
        return unproven and self.id.split(".", 1)[0] == "cost"

    @property
    def better(self) -> bool:
        """Whether its verdict gets better, or a check that was not sound is made no more."""
        if self.before is None:
            return False
        now = self.after.verdict if self.after is not None else Verdict.SOUND
        return BADNESS[now] < BADNESS[self.before.verdict]


BADNESS = {Verdict.SOUND: 0, Verdict.NEAR: 1, Verdict.UNPROVEN: 2, Verdict.FAILS: 3}


@dataclass(frozen=True)
class Priced:
    """What is still to be spent for a plan, and a year of it, where that is known. `unpriced` has no price, so that the
    cash is no total; `sums` and `years` are the throws of both, by which two plans are told apart, as they are by
    `lacking`: how much is needed of each that has no price.
    """

    cash: Estimate
    currency: str
    yearly: Estimate | None = None
    unpriced: tuple[str, ...] = ()
    lacking: tuple[tuple[str, float], ...] = field(default=(), repr=False, compare=False)
    sums: Array | None = field(default=None, repr=False, compare=False)
    years: Array | None = field(default=None, repr=False, compare=False)

    @property
    def whole(self) -> bool:
        """Whether everything in it has a price."""
        return not self.unpriced


@dataclass(frozen=True)
class Remedy:
    """A change that makes a check sound, as it was found by working the changed plan out.

    `effects` are all other checks of `subjects` that it moves. `price` is what it adds to the cash still to spend;
    None where no price is known. `number` is what it is written by; `unasked` are subjects that it may move too and
    that were not asked, for want of time.
    """

    check: str
    move: Move
    before: State
    after: State
    subjects: tuple[str, ...]
    effects: tuple[Effect, ...] = ()
    price: Priced | None = None
    number: int = 0
    unasked: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """What to change."""
        return self.move.words

    @property
    def edits(self) -> tuple[Edit, ...]:
        """The same for the plan's file."""
        return self.move.edits

    @property
    def harms(self) -> tuple[Effect, ...]:
        """Other checks that get worse; a sum that is whole no more, for want of a price, is told as that price."""
        bare = self.price is not None and not self.price.whole
        return tuple(one for one in self.effects if one.worse and not (bare and one.untold_cost))

    @property
    def rank(self) -> tuple[bool, bool, bool, float, float, str]:
        """Without harm first, then what was asked in full, then by what is priced in full, by cost, by size of change.

        What has no total has no cost to be ranked by; what was not asked may do harm.
        """
        bare = self.price is None or not self.price.whole
        cost = 0.0 if self.price is None or bare else self.price.cash.likely
        return (bool(self.harms), bool(self.unasked), bare, round(cost, 2), self.move.effort, self.words)


@dataclass(frozen=True)
class Mended:
    """One failing or near check: its remedies, cheapest first, and what was tried in all.

    `best` is the nearest that any change came where none mends it, with its words; `cut` are the sorts of change that
    were not tried, for want of time.
    """

    check: Check
    remedies: tuple[Remedy, ...]
    tried: int
    best: tuple[str, State] | None = None
    cut: int = 0


@dataclass(frozen=True)
class Whole:
    """Changes with which every check that was asked for is sound, or the best that was found.

    `bound` is what no set of the changes that spoil nothing, each by its own price, falls below, None where it is not
    known; `left` are checks that are not sound yet. `late` says that the time ran out: asked again, it goes on.
    """

    moves: tuple[Move, ...]
    before: tuple[State, ...]
    left: tuple[State, ...]
    effects: tuple[Effect, ...]
    price: Priced | None
    bound: float | None
    tried: int
    changes: int
    subjects: tuple[str, ...]
    proof: str
    late: bool = False

    @property
    def edits(self) -> tuple[Edit, ...]:
        """All its edits, in order."""
        return tuple(edit for move in self.moves for edit in move.edits)
