"""What the questions of a first plan send and get back, as models: they are the published description of the door."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field, JsonValue

from tidestead.web.bodies import Body, Digest, FaultOut

Answers: TypeAlias = Annotated[
    dict[Annotated[str, Field(max_length=40)], Annotated[str, Field(max_length=1_000)]],
    Field(max_length=200, description="Words as typed, by the id of their blank."),
]


class Answered(Body):
    """Answers that are looked at, nothing more."""

    answers: Answers


class AnsweredOn(Body):
    """Answers to be written: in place of a plan that holds no work yet, else in a new file beside it."""

    answers: Answers
    base: Digest
    beside: Annotated[
        str, Field(max_length=120, description="Name of a new file beside the plan; empty: the plan itself.")
    ] = ""


class ChoiceOut(BaseModel):
    """One answer that may be picked. `only_for`: a blank and the answer to it that this one goes with."""

    value: str
    words: str
    only_for: tuple[str, str] | None


class BlankOut(BaseModel):
    """One thing to fill in. `when`: other blanks, with the answers for which this one is asked.

    `open`: what is taken, or what stays unproven, where one that is optional is left open.
    """

    id: str
    words: str
    kind: Literal["words", "quantity", "degrees", "count", "choice", "yes_no"]
    hint: str
    optional: bool
    open: str
    suggest: str
    examples: dict[str, str]
    choices: list[ChoiceOut]
    when: dict[str, list[str]]


class QuestionAsked(BaseModel):
    """One screen."""

    id: str
    words: str
    hint: str
    blanks: list[BlankOut]


class FirstAsked(BaseModel):
    """All questions; whether the open plan may be written over, and what a file beside it would be called."""

    digest: str
    file: str
    untouched: bool
    beside: str
    questions: list[QuestionAsked]


class AssumedOut(BaseModel):
    """One key that nobody said: its value, the same as written in the plan, and why it is taken.

    `words` tells the key, `title` what it is told under. `blank` is the one that was left open, if it stands for its
    answer.
    """

    key: str
    words: str
    title: str
    value: JsonValue
    written: str
    why: str
    blank: str


class FirstLooked(BaseModel):
    """What answers would lead to. `asked` are the blanks that are asked with them, `offered` the choices of each
    that go with the others; faults and echoes are by blank. There is a text where there are no faults."""

    sound: bool
    asked: list[str]
    offered: dict[str, list[str]]
    faults: dict[str, list[FaultOut]]
    echoes: dict[str, str]
    assumed: list[AssumedOut]
    text: str


class FirstWritten(BaseModel):
    """A first plan was written: in which file, whether that is the one that is open, and its digest if so."""

    file: str
    opened: bool
    digest: str
    count: int
    words: str
