"""Remedies that were asked for on the page: what is being sought, what was found for which text of the plan."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from tidestead.core.errors import TidesteadError
from tidestead.plan import LoadedPlan
from tidestead.plan.edits import Edit
from tidestead.trials.remedy import Mended, Whole
from tidestead.web.seeker import Quest, Seeks, Word

State: TypeAlias = Literal["none", "working", "done", "fault"]
WHOLE = ""
"""In place of the id of a check: everything is to be sound."""
_KEPT = 200
"""Searches kept, of this text of the plan and of earlier ones."""


class NotFoundError(TidesteadError):
    """There is no such remedy."""


@dataclass(frozen=True)
class Sought:
    """How one search stands: `found` is whole when it is done, before that what is known so far, by this search or by
    one that had no time to end.
    """

    check: str
    state: State = "none"
    stage: str = ""
    done: int = 0
    of: int = 0
    found: Mended | Whole | None = None
    words: str = ""

    def after(self, word: Word) -> Sought:
        """How it stands when a word has come."""
        if word.stage == "fault":
            return Sought(self.check, "fault", words=word.words)
        state: State = "done" if word.stage == "done" else "working"
        return Sought(self.check, state, word.stage, word.done, word.of, word.found or self.found)

    @property
    def unended(self) -> bool:
        """Whether it is done for want of time, so that it may go on."""
        return self.state == "done" and isinstance(self.found, Whole) and self.found.late

    @property
    def changes(self) -> tuple[tuple[str, tuple[Edit, ...]], ...]:
        """What may be tried or done: in words and as edits, in the order in which it is told."""
        if isinstance(self.found, Mended):
            return tuple((one.words, one.edits) for one in self.found.remedies)
        if isinstance(self.found, Whole) and self.found.moves:
            return (("; ".join(move.words for move in self.found.moves), self.found.edits),)
        return ()


class Finding:
    """All searches of one bench. It belongs to the bench's event loop."""

    def __init__(self, seeker: Seeks) -> None:
        self.seeker = seeker
        self._kept: dict[tuple[str, str], Sought] = {}
        self._now: tuple[str, str] | None = None
        self._number = 0
        self._tell: Callable[[dict[str, Any]], None] = lambda _: None

    def start(self, soon: Callable[..., object], tell: Callable[[dict[str, Any]], None]) -> None:
        """Begin; `soon` calls something in the event loop, from any thread, and `tell` tells every page."""
        self._tell = tell

        def hear(word: Word) -> None:
            soon(self.heard, word)

        self.seeker.start(hear)

    def sought(self, digest: str, check: str) -> Sought:
        """How the search for a check's remedies in one text stands."""
        return self._kept.get((digest, check), Sought(check))

    def ask(self, loaded: LoadedPlan, check: str) -> None:
        """Begin a search, or go on with one that had no time to end, and give up another.

        What was found already is not sought again.
        """
        key = (loaded.digest, check)
        former = self.sought(*key)
        if former.state in ("done", "working") and not former.unended:
            return
        self._leave()
        self._number += 1
        self._keep(key, Sought(check, "working", "begun", found=former.found))
        self._now = key
        self.seeker.ask(Quest(self._number, loaded, check))
        self._tell_of(key)

    def give_up(self) -> None:
        """Search no more."""
        self.seeker.give_up()
        self._leave()

    def plan_is(self, digest: str) -> None:
        """The plan has another text: what is sought in a former one is given up; what was found in it is kept."""
        if self._now is None or self._now[0] != digest:
            self.give_up()

    def forget(self) -> None:
        """A file beside the plan has changed: whatever was found may be so no more."""
        self.give_up()
        self._kept.clear()

    def edits(self, digest: str, check: str, number: int) -> tuple[str, tuple[Edit, ...]]:
        """A change that was found, in words and as edits. Raises NotFoundError."""
        changes = self.sought(digest, check).changes
        if not 1 <= number <= len(changes):
            raise NotFoundError("No such remedy is known for the plan as it stands. Nothing was changed.")
        return changes[number - 1]

    def heard(self, word: Word) -> None:
        """A word of the search, in the event loop."""
        key = self._now
        if key is None or word.number != self._number:
            return
        self._keep(key, self._kept[key].after(word))
        if word.stage in ("done", "fault"):
            self._now = None
        self._tell_of(key)

    def _leave(self) -> None:
        """What was being sought is not sought any more; what an earlier search of it found stands."""
        key, self._now = self._now, None
        if key is not None:
            left = self._kept.pop(key, None)
            if left is not None and isinstance(left.found, Whole):
                self._keep(key, Sought(left.check, "done", "done", found=left.found))
            self._tell_of(key)

    def _keep(self, key: tuple[str, str], sought: Sought) -> None:
        self._kept[key] = sought
        while len(self._kept) > _KEPT:
            self._kept.pop(next(iter(self._kept)))

    def _tell_of(self, key: tuple[str, str]) -> None:
        one = self.sought(*key)
        news = {"kind": "remedies", "check": one.check, "state": one.state, "stage": one.stage}
        self._tell({**news, "words": progress(one), "changes": len(one.changes)})


def progress(one: Sought) -> str:
    """How far a search is, in words; empty where none is at work."""
    if one.state == "fault":
        return f"The search ended: {one.words}"
    if one.state != "working":
        return ""
    match one.stage:
        case "trying":
            return f"{one.done} of {one.of} sorts of change tried."
        case "pricing":
            so_far = f" ({one.done} priced so far)" if one.done else ""
            return f"Found; prices and what else it moves are being worked out{so_far}."
    return "The search has begun."
