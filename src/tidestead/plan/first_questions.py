"""The questions of a first plan: what is asked, in which words, and of whom. They stand in starters/first.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

from tidestead.catalog import table
from tidestead.core.units import System
from tidestead.plan.editing import path_of
from tidestead.plan.fields import Typed
from tidestead.plan.outline import spot_at

Kind = Literal["words", "quantity", "degrees", "count", "choice", "yes_no"]
"""Of an answer: free text, a quantity with its unit, degrees on a map, a whole number, one of some, yes or no."""

YES_NO = {"yes": "yes", "no": "no"}
STARTERS = Path(__file__).with_name("starters")


@dataclass(frozen=True)
class Choice:
    """One answer that may be picked. `only_for`: a blank and the answer to it that this choice belongs to."""

    value: str
    words: str
    only_for: tuple[str, str] | None = None


@dataclass(frozen=True)
class Blank:
    """One thing to fill in. `when` names other blanks, each with the answers for which this one is asked.

    `open` says what is taken, or what stays unproven, where it is left open; empty where it is needed.
    """

    id: str
    words: str
    kind: Kind
    hint: str = ""
    reads: str = ""
    measures: str = ""
    open: str = ""
    examples: Mapping[str, str] | None = None
    suggest: str = ""
    most: int = 100
    choices: tuple[Choice, ...] = ()
    when: Mapping[str, tuple[str, ...]] | None = None

    @property
    def typed(self) -> Typed | None:
        """How a quantity is read; None where it is none."""
        if self.measures:
            return Typed(self.measures, above=0.0)
        here = spot_at(path_of(self.reads)) if self.reads else None
        return here.typed if here is not None and isinstance(here.typed, Typed) else None

    @property
    def optional(self) -> bool:
        """Whether it may be left open."""
        return bool(self.open)

    def example(self, system: System) -> str:
        """What a reader of one system may write; empty where choices are listed."""
        return self.examples[system] if self.examples else ""

    def offered(self, answers: Mapping[str, str]) -> tuple[Choice, ...]:
        """The choices that go with the other answers."""
        return tuple(
            one
            for one in self.choices
            if one.only_for is None or answers.get(one.only_for[0], "").strip() == one.only_for[1]
        )


@dataclass(frozen=True)
class Question:
    """One screen: a question and its blanks."""

    id: str
    words: str
    hint: str
    blanks: tuple[Blank, ...]

    @property
    def first(self) -> tuple[Blank, ...]:
        """What stands in the open: blanks that are needed; where none is, the first."""
        return tuple(one for one in self.blanks if not one.optional) or self.blanks[:1]

    @property
    def details(self) -> tuple[Blank, ...]:
        """What may be left open, and stands folded."""
        return tuple(one for one in self.blanks if one not in self.first)


@cache
def questions() -> tuple[Question, ...]:
    """All questions, in their order."""
    data = tomllib.loads((STARTERS / "first.toml").read_text(encoding="utf-8"))
    return tuple(
        Question(one["id"], one["words"], one.get("hint", ""), tuple(map(_blank, one["blanks"])))
        for one in data["questions"]
    )


def blanks() -> Iterator[Blank]:
    """Every blank of every question."""
    return (blank for question in questions() for blank in question.blanks)


def asked(answers: Mapping[str, str]) -> dict[str, Blank]:
    """The blanks that are asked with these answers, by id: those whose reason to be asked is itself asked."""
    found: dict[str, Blank] = {}
    for blank in blanks():
        reasons = (blank.when or {}).items()
        if all(name in found and answers.get(name, "").strip() in wanted for name, wanted in reasons):
            found[blank.id] = blank
    return found


def _blank(entry: Mapping[str, Any]) -> Blank:
    plain = {
        key: value
        for key, value in entry.items()
        if key not in ("choices", "rows", "by", "of", "only", "when")
    }
    when = {name: tuple(values) for name, values in entry.get("when", {}).items()}
    return Blank(**plain, choices=tuple(_choices(entry)), when=when or None)


def _choices(entry: Mapping[str, Any]) -> Iterator[Choice]:
    """The choices as they are listed, or the rows of a table of the catalogue."""
    listed = YES_NO if entry["kind"] == "yes_no" else entry.get("choices", {})
    yield from (Choice(value, words) for value, words in listed.items())
    if "rows" not in entry:
        return
    for row in table(entry["rows"]):
        tag = str(row.tag(entry["by"], "")) if "by" in entry else ""
        if "only" in entry and tag not in entry["only"]:
            continue
        yield Choice(row.name, row.title, (entry["of"], tag) if "of" in entry else None)
