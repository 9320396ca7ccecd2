"""A change that is looked at and not saved: what it leads to, what becomes of it when the plan changes, how it ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple, TypeAlias

from tidestead.core.errors import PlanError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.editing import path_of
from tidestead.plan.edits import Edit, edited
from tidestead.plan.forms import Draft, field_at, words_of_key
from tidestead.web.standing import Standing

End: TypeAlias = Literal["", "kept", "left", "overtaken"]

KEPT = "What was tried is kept: it stands in the plan now."
LEFT = "What was tried is left; the plan is as it was."


class Stood(NamedTuple):
    """What stands at a key: the value, and how many of the parts above it are there."""

    value: object
    parts: int


@dataclass(frozen=True)
class Trial:
    """Edits on a scratch copy: `number` tells one trial from another, `job` one asking for its answers from another.

    Of several edits of one key the last counts. `was` is what stood in the plan in place of each.
    """

    number: int
    edits: tuple[Edit, ...]
    was: tuple[Stood, ...]
    loaded: LoadedPlan
    job: int = 0
    standings: dict[str, Standing] = field(default_factory=dict)

    @classmethod
    def on(cls, text: str, name: str, edits: Sequence[Edit], number: int) -> Trial | None:
        """The trial of edits on a text; None where the plan has all of it already.

        Raises a PlanError where the edits cannot be made or the plan would have faults.
        """
        kept = tuple({edit.key: edit for edit in edits}.values())
        then = edited(text, kept)
        was = _standing(text, name, kept)
        if was == _standing(then, name, kept):
            return None
        return cls(number, kept, was, loads(then, name))

    def words(self) -> dict[str, str]:
        """By key what each field that is tried would show; whole parts are no fields."""
        draft = Draft.of(self.loaded.text)
        found = {edit.key: field_at(draft, edit.key) for edit in self.edits}
        return {key: one.typed for key, one in found.items() if one is not None}

    def told(self) -> str:
        """What is tried in one line, as its fields would show it; of a whole part its name."""
        words = self.words()
        lines = []
        for edit in self.edits:
            value = ", ".join(words.get(edit.key, "").splitlines())
            lines.append(f"{words_of_key(edit.key)} {'taken out' if edit.value is None else value}".rstrip())
        return "; ".join(lines)


@dataclass(frozen=True)
class Ended:
    """How the last trial ended, for pages that showed it."""

    number: int = 0
    how: End = ""
    words: str = ""


def carried(trial: Trial, text: str, name: str) -> Trial | Ended:
    """The trial on another text of the plan, or how it ended: what another has changed is never tried over unseen.

    What of it the plan has by now is tried no more; the rest goes on.
    """
    now = _standing(text, name, trial.edits)
    then = _standing(trial.loaded.text, name, trial.edits)
    every = zip(trial.edits, trial.was, now, then, strict=True)
    rest = [(edit, was, stands) for edit, was, stands, wanted in every if stands != wanted]
    if not rest:
        return Ended(trial.number, "kept", KEPT)
    changed = [words_of_key(edit.key) for edit, was, stands in rest if was != stands]
    if changed:
        words = f"The plan was changed meanwhile where something was being tried ({', '.join(changed[:3])})"
        return Ended(trial.number, "overtaken", f"{words}; nothing is being tried any more.")
    edits, were = tuple(edit for edit, _, _ in rest), tuple(was for _, was, _ in rest)
    try:
        return replace(trial, edits=edits, was=were, loaded=loads(edited(text, edits), name))
    except PlanError:
        words = "What was being tried no longer fits the plan, which was changed meanwhile"
        return Ended(trial.number, "overtaken", f"{words}; nothing is being tried any more.")


def _standing(text: str, name: str, edits: Sequence[Edit]) -> tuple[Stood, ...]:
    draft = Draft.of(text, name)
    paths = [path_of(edit.key) for edit in edits]
    return tuple(
        Stood(draft.at(path), sum(draft.at(path[:end]) is not None for end in range(1, len(path))))
        for path in paths
    )
