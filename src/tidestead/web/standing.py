"""How each of the twelve questions stands: its last answer, whether it is for the plan of now, how far work is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.answer import Answer, Assumption, Verdict
from tidestead.desk.lanes import News
from tidestead.desk.subjects import SubjectEntry

State: TypeAlias = Literal["waiting", "working", "done", "fault"]


@dataclass(frozen=True)
class Standing:
    """One question. `answer` is the last there was; it is for the plan as it stands only where `state` is done."""

    subject: str
    question: str
    state: State = "waiting"
    answer: Answer | None = None
    done: int = 0
    of: int = 0
    words: str = ""

    @classmethod
    def first(cls, entry: SubjectEntry) -> Standing:
        """A question before any answer; one that cannot be worked out yet says so at once."""
        if entry.built:
            return cls(entry.name, entry.question)
        return cls(entry.name, entry.question, "done", Answer(entry.name, entry.question, entry.reason))

    @property
    def current(self) -> bool:
        """Whether the answer is for the plan as it stands."""
        return self.state == "done"

    @property
    def verdict(self) -> Verdict | None:
        """The verdict of the last answer; None where there has been none."""
        return self.answer.verdict if self.answer is not None else None

    def after(self, news: News) -> Standing:
        """How the question stands when news has come."""
        state: State = "working"
        answer, words = self.answer, ""
        match news.kind:
            case "answer":
                state, answer = "done", news.answer
            case "same":
                state = "done"
            case "fault":
                state, words = "fault", news.words
            case "compiling":
                words = "its laws are compiled first, which takes half a minute, once"
        return Standing(self.subject, self.question, state, answer, news.done, news.of, words)

    def waiting(self) -> Standing:
        """The same for a plan that has changed: the last answer stays until there is a new one."""
        return Standing(self.subject, self.question, "waiting", self.answer)


def current(standings: Mapping[str, Standing]) -> dict[str, Answer]:
    """The answers that are for the text as it stands."""
    return {name: one.answer for name, one in standings.items() if one.current and one.answer is not None}


def note_assumed(kept: dict[str, Assumption], before: Answer, now: Answer | None) -> None:
    """What was assumed until the user wrote it is kept by key, so that it can be assumed again."""
    taken = {one.key for one in now.assumptions} if now is not None else set()
    kept.update({one.key: one for one in before.assumptions if one.key not in taken})
    for key in taken & set(kept):
        del kept[key]
