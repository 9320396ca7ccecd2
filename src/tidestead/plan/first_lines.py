"""The lines of a first plan: what was typed and what is assumed, each with its key; and the file they make."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from tidestead.plan.editing import Value, written
from tidestead.plan.first_questions import STARTERS
from tidestead.plan.first_said import Said
from tidestead.plan.remarks import remark

_WIDE = 110
"""Characters up to which a remark stands behind its line; longer ones stand before it."""
_REMARK_AT = 39
_PLAIN = re.compile(r"[+-]?(0|[1-9][0-9]{0,3})(\.[0-9]{1,9})?")
"""A number as TOML writes one."""


@dataclass(frozen=True)
class Line:
    """One key of the plan. `blanks` are those it comes from; `why` is empty where its value was typed.

    `literal` is a number as it was typed, which is written without quotes. `open` is the blank that was left open,
    where the line stands for its answer.
    """

    key: str
    value: Value
    blanks: tuple[str, ...] = ()
    why: str = ""
    literal: str = ""
    open: str = ""

    @property
    def table(self) -> str:
        """The heading it stands under; empty for the top of the file."""
        return self.key.rpartition(".")[0]

    @property
    def words(self) -> tuple[str, ...]:
        """As it is written, with its remark."""
        pair = f"{self.key.rpartition('.')[2]} = {self.literal or written(self.value)}"
        if not self.why:
            return (pair,)
        told = remark(self.why)
        beside = f"{pair:<{_REMARK_AT - 1}} {told}"
        return (beside,) if len(beside) <= _WIDE else (told, pair)


def typed(said: Said, key: str, blank: str) -> Iterator[Line]:
    """What was typed, as it was typed; nothing where nothing was."""
    text = said.text(blank)
    kind = said.asked[blank].kind if text else ""
    number = {"count": said.count, "degrees": said.degrees}.get(kind, lambda _: None)(blank)
    if number is not None and _PLAIN.fullmatch(text):
        yield Line(key, number, (blank,), literal=text)
    elif text:
        yield Line(key, text, (blank,))


def assumed(said: Said, key: str, name: str) -> Iterator[Line]:
    """What is taken where nobody asked; nothing where it goes by an answer that is not there yet."""
    value = assumed_value(said, name)
    if value is not None:
        yield Line(key, value, (), _data()["assumed"][name]["why"])


def assumed_value(said: Said, name: str) -> Value | None:
    """The value alone, by units shown or by rules for timber; None where the rules are not said yet."""
    entry = _data()["assumed"][name]
    return next((entry[one] for one in ("value", said.system, said.text("rules")) if one in entry), None)


def derived(key: str, value: Value | None, name: str, *blanks: str) -> Iterator[Line]:
    """What is assumed because of what was typed; nothing where that is missing."""
    if value is not None:
        yield Line(key, value, blanks, _data()["assumed"][name]["why"])


def answer(said: Said, blank: str, taken: Value | None = None) -> str:
    """What was answered; where a blank was left open, what is taken for it; empty where it is not asked."""
    if said.text(blank) or blank not in said.asked:
        return said.text(blank)
    value = assumed_value(said, blank) if taken is None else taken
    return "" if value is None else str(value)


def typed_or(said: Said, key: str, blank: str, taken: Value | None = None) -> Iterator[Line]:
    """What was typed; where the blank was left open, `taken` or what is assumed under its name."""
    if said.text(blank) or blank not in said.asked:
        yield from typed(said, key, blank)
        return
    value = assumed_value(said, blank) if taken is None else taken
    if value is not None and value != "":
        yield Line(key, value, (blank,), _data()["assumed"][blank]["why"], open=blank)


def file_of(lines: Iterable[Line], head: Iterable[str]) -> str:
    """The plan's text: the head, then the lines under their headings in the order in which they come."""
    tables: dict[str, list[Line]] = {"": []}
    for line in lines:
        tables.setdefault(line.table, []).append(line)
    text = [f"# {words}" for words in head] + [""]
    for table, under in tables.items():
        if table:
            text += ["", *_headed(table)]
        text += [words for line in under for words in line.words]
    return "\n".join(text) + "\n"


def _headed(table: str) -> Iterator[str]:
    """A heading, with what it is about where that is told."""
    told: Mapping[str, str] = _data()["headings"]
    heading = f"[{table}]"
    yield f"{heading:<{_REMARK_AT - 1}} # {told[table]}" if table in told else heading


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads((STARTERS / "first_assumed.toml").read_text(encoding="utf-8"))
