"""The values of a plan whose text is not wholly TOML: what can still be read, and what cannot.

Only used once the library's reader has refused the whole text. A broken statement is left out, a value typed
without its quotes is taken as if it had them, and everything else goes on to be judged, on its own line.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from tidestead.core.errors import Fault
from tidestead.plan.lines import placed
from tidestead.plan.statements import Mark, Path, Statement, dotted, shown

_READER_PLACE = re.compile(r"\s*\((?:at line (\d+), column \d+|at end of document)\)$")
_WORD = re.compile(r"[A-Za-z0-9_-]+")
_MOST_WORDS = 20
CURLY = "“”„‟‘’‚‛«»"
"""Quotes that a word processor writes."""


@dataclass
class Mended:
    """What could be read of a text that is not TOML."""

    values: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    unread: set[Path] = field(default_factory=set)
    """Keys that are there, or may be, but whose value cannot be told: not to be called missing."""


def mend(text: str, parts: Iterable[Statement]) -> Mended:
    """Everything that can be read, and a fault for everything that cannot."""
    return _Mender(text).run(parts)


def reader_fault(error: tomllib.TOMLDecodeError, name: str) -> Fault:
    """The library reader's own complaint, for text in which we see nothing wrong."""
    words = str(error)
    found = _READER_PLACE.search(words)
    line = int(found.group(1)) if found and found.group(1) else None
    said = _READER_PLACE.sub("", words)
    return Fault(name, line, "", f"This is not TOML: {said}.", "Compare the line with its neighbours.")


class _Mender:
    def __init__(self, text: str) -> None:
        self.text = text
        self.out = Mended()
        self.first: dict[Path, int] = {}
        self.opened: set[Path] = set()

    def run(self, parts: Iterable[Statement]) -> Mended:
        for part, path in placed(self.text, parts):
            for trouble in part.troubles:
                self._fault(path or part.key, trouble.line, trouble.given, trouble.allowed, trouble.advice)
            if path is None:
                self._value(part.key, part.inner)
            elif part.kind in ("table", "tables"):
                self._open(path, part)
            elif part.kind == "junk":
                words = _WORD.findall(self.text, part.start, part.end)
                self.out.unread.update((*path, word) for word in words[:_MOST_WORDS])
            elif part.broken:
                self.out.unread.add(path)
            else:
                self._set(path, part)
        return self.out

    def _open(self, path: Path, part: Statement) -> None:
        if path in self.first:
            self._twice(path, part.line)
            return
        self.first[path] = part.line
        self._table(path, part.line)

    def _set(self, path: Path, part: Statement) -> None:
        if path in self.first or path in self.opened:
            self._twice(path, part.line)
            return
        table = self._table(path[:-1], part.line)
        self.first[path] = part.line
        if table is not None:
            table[path[-1]] = self._value(path, part.inner)

    def _twice(self, path: Path, line: int) -> None:
        first = self.first.get(path)
        before = f", first on line {first}" if first is not None else ""
        self._fault(path, line, "", f"is written twice{before}.", "Keep one of them.")

    def _table(self, path: Path, line: int) -> dict[Any, Any] | None:
        """The table at a path, made where it is missing; None where a plain value stands in the way."""
        here: Any = self.out.values
        for depth, part in enumerate(path):
            self.opened.add(path[: depth + 1])
            if isinstance(part, int):
                here.extend({} for _ in range(part + 1 - len(here)))
                here = here[part]
                continue
            following = path[depth + 1] if depth + 1 < len(path) else None
            here = here.setdefault(part, [] if isinstance(following, int) else {})
            if not isinstance(here, list if isinstance(following, int) else dict):
                name = dotted(path[: depth + 1])
                advice = f"Keep one: the value of {name}, or the table."
                self._fault(path, line, "", f"cannot stand here: {name} is a plain value.", advice)
                return None
        return here if isinstance(here, dict) else None

    def _value(self, path: Path, inner: Iterable[tuple[Path, Mark]]) -> Any:
        """The value of a key, built from the marks of its parts, outermost first."""
        whole: list[Any] = []
        around: list[tuple[Path, int, Any]] = []
        for at, mark in inner:
            opening = self.text[mark.start]
            made: Any = {"[": [], "{": {}}.get(opening)
            value = self._leaf((*path, *at), mark) if made is None else made
            while around and mark.start >= around[-1][1]:
                around.pop()
            if not around:
                whole.append(value)
            elif not _put(around[-1][2], at[len(around[-1][0]) :], value):
                self._fault(
                    (*path, *at),
                    mark.line,
                    "",
                    "is written twice in one pair of braces.",
                    "Keep one of them.",
                )
            if made is not None:
                around.append((at, mark.end, made))
        return whole[0] if whole else None

    def _leaf(self, path: Path, mark: Mark) -> Any:
        typed = self.text[mark.start : mark.end]
        try:
            return tomllib.loads(f"value = {typed}")["value"]
        except tomllib.TOMLDecodeError:
            pass  # what it may have meant is told below
        inside = typed.strip("".join(CURLY))
        if typed[0] in CURLY and inside.isprintable() and not set(inside) & set('"\\'):
            advice = f'Write "{shown(inside)}".'
            self._fault(
                path, mark.line, shown(typed), "stands in curly quotes; TOML takes straight ones.", advice
            )
            return inside
        if typed[0] in "\"'":
            allowed, advice = (
                "holds a backslash or a sign that TOML does not take.",
                "Write \\\\ for one backslash.",
            )
        elif typed.lower() in ("true", "yes", "on", "false", "no", "off"):
            allowed, advice = (
                "is neither true nor false.",
                "Write true or false, in small letters, without quotes.",
            )
        else:
            quoted = typed.replace("\\", "\\\\").replace('"', '\\"')
            allowed, advice = "must stand in quotes.", f'Write "{shown(quoted)}".'
        self._fault(path, mark.line, shown(typed), allowed, advice)
        return typed

    def _fault(self, path: Path, line: int, given: str, allowed: str, advice: str) -> None:
        where = dotted(path) or "this line"
        self.out.faults.append(Fault(where, line, given, allowed, advice))


def _put(into: Any, inner: Path, value: Any) -> bool:
    """Set a value inside braces or brackets; False where something stands there already."""
    if isinstance(into, list):
        into.append(value)
        return True
    for part in inner[:-1]:
        into = into.setdefault(part, {})
        if not isinstance(into, dict):
            return False
    if inner[-1] in into:
        return False
    into[inner[-1]] = value
    return True
