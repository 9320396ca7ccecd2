"""What a form is made of: plain frozen data, so that a page and its JSON twin show the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.errors import Fault

Kind: TypeAlias = Literal[
    "quantity",
    "number",
    "whole",
    "choice",
    "yes_no",
    "catalogue",
    "name",
    "price",
    "words",
    "list",
    "unknown",
]
"""How a field is edited. name: that of another part of the plan. list: one line for each item. unknown: the file has
a key here that means nothing."""


@dataclass(frozen=True)
class Choice:
    """One thing that may be picked: how it is written in the file, how it is called, the numbers that matter."""

    value: str
    label: str
    told: str = ""


@dataclass(frozen=True)
class Field:
    """One value of the plan. `key` is dotted, `typed` as it stands in the file; empty where the file is silent.

    `echo` reads the value back in both unit systems; empty where it cannot be understood. A list has a line for each
    item in both. `assumed` is what is taken while the file is silent, where that is known. `lines` is how many items
    a list must have, 0 where that is free. `there`: the table that it stands in is in the file.
    """

    key: str
    label: str
    told: str
    kind: Kind
    typed: str = ""
    echo: str = ""
    needed: bool = False
    examples: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    assumed: str = ""
    lines: int = 0
    faults: tuple[Fault, ...] = ()
    there: bool = False

    @property
    def name(self) -> str:
        """The key in its own table."""
        return last_of(self.key)


@dataclass(frozen=True)
class Addable:
    """A table that the file does not have yet. `named`: one of several, under a name of the user's choice.

    `names` are those that come to mind; `only` says that no other will do.
    """

    key: str
    title: str
    told: str
    named: bool = False
    names: tuple[str, ...] = ()
    only: bool = False


@dataclass(frozen=True)
class Form:
    """One table of the plan with its fields and the tables in it. `gathers`: a table of named parts.

    `faults` are those of the table as a whole; those of its fields and parts stand with them.
    """

    key: str
    title: str
    told: str
    fields: tuple[Field, ...] = ()
    parts: tuple[Form, ...] = ()
    can_add: tuple[Addable, ...] = ()
    can_copy: bool = False
    can_remove: bool = False
    gathers: bool = False
    faults: tuple[Fault, ...] = ()

    @property
    def name(self) -> str:
        """The key in its own table."""
        return last_of(self.key)

    @property
    def all_forms(self) -> Iterator[Form]:
        """This form and every form in it."""
        yield self
        for part in self.parts:
            yield from part.all_forms

    @property
    def all_faults(self) -> tuple[Fault, ...]:
        """The faults of this table and of everything in it."""
        own = [*self.faults, *(fault for field in self.fields for fault in field.faults)]
        return (*own, *(fault for part in self.parts for fault in part.all_faults))


@dataclass(frozen=True)
class Group:
    """Forms that a builder thinks of together."""

    name: str
    title: str
    told: str
    forms: tuple[Form, ...]

    @property
    def all_forms(self) -> Iterator[Form]:
        """Every form of the group."""
        for form in self.forms:
            yield from form.all_forms

    @property
    def all_faults(self) -> tuple[Fault, ...]:
        """Every fault of the group."""
        return tuple(fault for form in self.forms for fault in form.all_faults)


@dataclass(frozen=True)
class Sheet:
    """All the groups of one plan, and the faults that belong to no form: those of the file itself."""

    groups: tuple[Group, ...]
    faults: tuple[Fault, ...] = ()

    @property
    def all_forms(self) -> Iterator[Form]:
        """Every form of the plan."""
        for group in self.groups:
            yield from group.all_forms


def last_of(key: str) -> str:
    """The last step of a dotted key, without quotes."""
    if key.endswith('"'):
        return key[key.rfind('"', 0, -1) + 1 : -1]
    return key.rpartition(".")[2]
