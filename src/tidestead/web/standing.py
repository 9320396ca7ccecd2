"""How each of the twelve questions stands: its last answer, whether it is for the plan of now, how far work is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.answer import Answer, Verdict
from tidestead.desk.lanes import News

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
