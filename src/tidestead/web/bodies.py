"""What the page sends and what it gets back, as models: they are the published description of the door."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, JsonValue, field_validator

from tidestead.core.errors import Fault
from tidestead.plan.editing import Value
from tidestead.plan.forms import said, words_of_key

Digest: TypeAlias = Annotated[
    str, Field(max_length=64, description="Which text of the plan the change was made on.")
]


class Body(BaseModel):
    """Something sent. A name that is not known is refused."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


DEEPEST = 12


def _depth(value: JsonValue, so_far: int = 0) -> int:
    """How deep tables and lists lie within one another; no deeper than matters."""
    if so_far > DEEPEST or not isinstance(value, dict | list) or not value:
        return so_far
    inner = value.values() if isinstance(value, dict) else value
    return max(_depth(one, so_far + 1) for one in inner)


def as_sent(value: Value | None) -> JsonValue:
    """A value of the file as JSON has it: a day is its text."""
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list):
        return [as_sent(one) for one in value]
    if isinstance(value, dict):
        return {key: as_sent(one) for key, one in value.items()}
    return value


class EditIn(Body):
    """One key and the value it is to have, as TOML would have it; null takes it out, a new table is added whole."""

    key: Annotated[str, Field(min_length=1, max_length=300)]
    value: JsonValue = None

    @field_validator("value")
    @classmethod
    def _shallow(cls, value: JsonValue) -> JsonValue:
        """No table of a plan lies deeper within another."""
        if _depth(value) > DEEPEST:
            raise ValueError(f"lies more than {DEEPEST} tables or lists deep")
        return value


EditList: TypeAlias = Annotated[list[EditIn], Field(min_length=1, max_length=200)]


class Edits(Body):
    """Edits that are looked at, nothing more."""

    edits: EditList


class EditsOn(Body):
    """Edits made on one text of the plan."""

    edits: EditList
    base: Digest


class WholeText(Body):
    """A text in place of the whole plan. In `preview` nothing is saved."""

    text: Annotated[str, Field(max_length=1_000_000)]
    base: Digest = ""


class On(Body):
    """A step back or forth on one text of the plan."""

    base: Digest


class Leave(Body):
    """The keys at which nothing is to be tried any more; none means all that is tried."""

    keys: Annotated[list[Annotated[str, Field(min_length=1, max_length=300)]], Field(max_length=300)] = []


class KeepOn(Body):
    """What is being tried, to be saved on one text of the plan; `trial` is its number as the page showed it."""

    base: Digest
    trial: Annotated[int, Field(ge=0, le=10**15)]


class Units(Body):
    """The units to show."""

    system: Literal["metric", "us"]


class FaultOut(BaseModel):
    """One thing wrong: where, by its key and in words, its line, what was written, what is allowed, what to do."""

    where: str
    words: str
    line: int | None
    given: str
    allowed: str
    advice: str
    said: str
    """All of it in a sentence for who fills in a form."""

    @classmethod
    def of(cls, fault: Fault, kind: str = "") -> FaultOut:
        """A fault as it is sent; for a field of a kind, where it belongs to one."""
        return cls(
            where=fault.where,
            words=words_of_key(fault.where),
            line=fault.line,
            given=fault.given,
            allowed=fault.allowed,
            advice=fault.advice,
            said=said(fault, kind),
        )


class Refused(BaseModel):
    """Why nothing was done."""

    words: str
    faults: list[FaultOut] = []
    taken: bool = False
    """Whether a part of that name is there already."""


class Previewed(BaseModel):
    """What edits would lead to: every fault the plan would have, and how each typed quantity was understood."""

    sound: bool
    faults: list[FaultOut]
    echoes: dict[str, str]


class PlanOut(BaseModel):
    """The plan as it stands in its file."""

    file: str
    digest: str
    count: int
    text: str
    faults: list[FaultOut]
    system: Literal["metric", "us"]
    undoes: str
    redoes: str


class Done(BaseModel):
    """A change was made: the digest of the plan now, how many texts it has had, and what was done in words."""

    digest: str
    count: int
    words: str


class ChangeOut(BaseModel):
    """One thing that is not as it was. `better` is null where neither can be said."""

    subject: str
    check: str
    what: str
    was: str
    now: str
    better: bool | None


class QuestionOut(BaseModel):
    """How one question stands."""

    subject: str
    question: str
    state: Literal["waiting", "working", "done", "fault"]
    verdict: str | None
    sentence: str
    done: int
    of: int
    words: str
    changes: list[ChangeOut]


class StandingOut(BaseModel):
    """How the whole stands."""

    name: str
    digest: str
    faults: list[FaultOut]
    questions: list[QuestionOut]


class TrialOut(BaseModel):
    """How a trial stands: its number, its edits (none where nothing is tried), what their fields would show by key.

    `ended` says how the last trial ended, `words` tell it, `ended_number` is which that was.
    """

    number: int
    edits: list[EditIn]
    fields: dict[str, str]
    at_work: bool
    questions: list[QuestionOut]
    ended: Literal["", "kept", "left", "overtaken"]
    ended_number: int
    words: str
