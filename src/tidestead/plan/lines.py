"""Where every key of a plan stands: its line, and its value as typed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tidestead.plan.statements import Key, Mark, Path, Statement, shown, statements


@dataclass(frozen=True)
class Lines:
    """The text of a plan and the mark of every table, key and list item in it.

    Paths are tuples of keys and of places in lists (counted from 0): ("ties", "cross", "at", 1).
    """

    text: str
    marks: Mapping[Path, Mark]

    @classmethod
    def of(cls, text: str, parts: Iterable[Statement] | None = None) -> Lines:
        """The lines of a text; `parts` are its statements where they are known already."""
        marks: dict[Path, Mark] = {}
        for part, path in placed(statements(text) if parts is None else parts):
            if part.kind == "junk":
                continue
            here = Mark(part.line, part.start, part.end)
            again = part.kind == "pair" and path in marks
            for depth in range(1, len(path) + 1):
                marks.setdefault(path[:depth], here)
            for inner, mark in part.inner if not again else ():
                _fill(marks, path, inner, mark)
        return cls(text, marks)

    def line(self, path: Path) -> int | None:
        """The line of a key, or of the nearest table above it that the text has."""
        for depth in range(len(path), 0, -1):
            if path[:depth] in self.marks:
                return self.marks[path[:depth]].line
        return None

    def typed(self, path: Path) -> str:
        """The value as typed, on one line; empty where the text has none."""
        mark = self.marks.get(path)
        return shown(self.text[mark.start : mark.end]) if mark else ""


def placed(parts: Iterable[Statement]) -> Iterator[tuple[Statement, Path]]:
    """Each statement with its full path: of the table it opens, or of the key it sets."""
    table: Path = ()
    counts: dict[Path, int] = {}
    for part in parts:
        if part.kind == "table":
            table = _resolved(part.key, counts)
            yield part, table
        elif part.kind == "tables":
            listed = (*_resolved(part.key[:-1], counts), part.key[-1])
            counts[listed] = counts.get(listed, 0) + 1
            table = (*listed, counts[listed] - 1)
            yield part, table
        else:
            yield part, (*table, *part.key)


def _resolved(key: Key, counts: Mapping[Path, int]) -> Path:
    """A heading's key with the place in every list of tables that it passes through."""
    path: Path = ()
    for part in key:
        path = (*path, part)
        if path in counts:
            path = (*path, counts[path] - 1)
    return path


def _fill(marks: dict[Path, Mark], path: Path, inner: Path, mark: Mark) -> None:
    """The key's mark becomes its value's; parts of a dotted key inside braces share the last one's."""
    if not inner:
        marks[path] = mark
        return
    for depth in range(1, len(inner)):
        marks.setdefault((*path, *inner[:depth]), mark)
    marks[(*path, *inner)] = mark
