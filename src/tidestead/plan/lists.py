"""Items of a list in a plan's text changed, put in and taken out, each where it stands: lines and remarks stay."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Any

from tidestead.plan.editing import with_value, written
from tidestead.plan.sections import Layout, Spliced
from tidestead.plan.statements import Mark, Path
from tidestead.plan.toml import values_in


def with_items(text: str, path: Path, items: list[Any]) -> str:
    """The text with these items in the list at a path; a list that cannot be followed is written anew."""
    marks = _item_marks(text, path)
    plain = [written(item) for item in items]
    if marks and items and not any(isinstance(item, list | dict) for item in items):
        edited = Spliced(tuple(_changes(text, marks, plain))).applied(text)
        if _holds(edited, with_value(text, path, items)):
            return edited
    return with_value(text, path, items)


def _holds(edited: str, wanted: str) -> bool:
    """Whether an edited text says what another says."""
    try:
        return values_in(edited) == values_in(wanted)
    except tomllib.TOMLDecodeError:
        return False


def _item_marks(text: str, path: Path) -> list[Mark]:
    """Where the items of a list stand; nothing where there is no list."""
    for pair in Layout.of(text).pairs:
        inner = path[len(pair.path) :]
        if pair.path == path[: len(pair.path)]:
            depth = len(inner)
            found = {
                at: mark for at, mark in pair.statement.inner if len(at) == depth + 1 and at[:depth] == inner
            }
            if any(not isinstance(at[-1], int) for at in found):
                return []
            return [found[(*inner, number)] for number in range(len(found))]
    return []


def _changes(text: str, marks: Sequence[Mark], items: list[str]) -> Iterator[tuple[int, int, str]]:
    """What turns the items that stand there into those wanted."""
    before = [text[mark.start : mark.end] for mark in marks]
    for kind, start, end, first, last in SequenceMatcher(a=before, b=items, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        shared = min(end - start, last - first)
        for step in range(shared):
            yield marks[start + step].start, marks[start + step].end, items[first + step]
        if last - first > shared:
            yield _insertion(marks, start + shared, items[first + shared : last])
        elif end - start > shared:
            yield _cut(marks, start + shared, end)


def _insertion(marks: Sequence[Mark], at: int, items: Sequence[str]) -> tuple[int, int, str]:
    """Items put in behind the one before, or before the first."""
    if at:
        return marks[at - 1].end, marks[at - 1].end, "".join(f", {item}" for item in items)
    return marks[0].start, marks[0].start, "".join(f"{item}, " for item in items)


def _cut(marks: Sequence[Mark], start: int, end: int) -> tuple[int, int, str]:
    """Items taken out with the comma that parts them from what stays."""
    if end < len(marks):
        return marks[start].start, marks[end].start, ""
    return marks[start - 1].end, marks[end - 1].end, ""
