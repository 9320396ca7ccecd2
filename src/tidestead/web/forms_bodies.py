"""What forms send and what they get back, as models: they are the published description of the door."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import BaseModel, Field

from tidestead.web.bodies import Body, Digest, Done, FaultOut

Key: TypeAlias = Annotated[
    str, Field(min_length=1, max_length=300, description="Dotted, such as vessels.basin.water.")
]
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=40)]


class TypedIn(Body):
    """Words in a field, as typed; a list has an item to a line. `was`: what the field showed before, if it matters.

    `there`: the table that it stands in was in the plan when it was shown; nothing is written where that has gone.
    """

    key: Key
    words: Annotated[str, Field(max_length=100_000)]
    was: Annotated[str | None, Field(max_length=100_000)] = None
    there: bool = False


Typed: TypeAlias = Annotated[list[TypedIn], Field(min_length=1, max_length=300)]
Filled: TypeAlias = Annotated[list[TypedIn], Field(max_length=300, default_factory=list)]
Like: TypeAlias = Annotated[
    str, Field(max_length=300, description="The part that it is a copy of, if it is one.")
]


class Typing(Body):
    """Words that are looked at, nothing more."""

    fields: Typed


class TypingOn(Body):
    """Words to be saved on one text of the plan."""

    fields: Typed
    base: Digest


class PartIn(Body):
    """A part to be added, empty or like one that is there, with the words in its form."""

    key: Key
    like: Like = ""
    fields: Filled


class PartOn(Body):
    """A part to be added to one text of the plan."""

    key: Key
    like: Like = ""
    fields: Filled
    base: Digest


class KeyOn(Body):
    """A part of one text of the plan."""

    key: Key
    base: Digest


class NameOn(Body):
    """Another name for a part."""

    key: Key
    name: Name
    base: Digest


class Written(Done):
    """Words were saved or are being tried. `fields` is what each shows now, `trial` the number of what is tried."""

    fields: dict[str, str]
    trial: int


class FieldTold(BaseModel):
    """How one field was understood and would be shown, what is wrong with it, and what stands in the plan now.

    `gone`: the table that it stood in is not in the plan any more.
    """

    echo: str
    shows: str
    now: str
    gone: bool
    faults: list[FaultOut]


class Looked(BaseModel):
    """What words would lead to. `fields` are those that were sent, `others` the faults that belong to none of them."""

    sound: bool
    fields: dict[str, FieldTold]
    others: list[FaultOut]


class PartTold(BaseModel):
    """One table of the plan in a list of them."""

    key: str
    title: str
    faults: int


class GroupTold(BaseModel):
    """One group of forms and the tables in it."""

    name: str
    title: str
    told: str
    faults: int
    parts: list[PartTold]
