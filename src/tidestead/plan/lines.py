"""Where every key of a plan stands: its line, and its value as typed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tidestead.plan.scanning import statements
from tidestead.plan.statements import Key, Mark, Path, Statement, dotted, shown


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
        for part, path in placed(text, statements(text) if parts is None else parts):
            if part.kind == "junk" or path is None:
                continue
            here = Mark(part.line, part.start, part.end, whole=True)
            again = part.kind == "pair" and path in marks
            for depth in range(1, len(path) + 1):
                marks.setdefault(path[:depth], here)
            for inner, mark in part.inner if not again else ():
                _fill(marks, path, inner, mark)
        return cls(text, marks)

    def line(self, path: Path) -> int:
        """The line of a key, or of the nearest table above it that the text has; the first for the plan."""
        for depth in range(len(path), 0, -1):
            if path[:depth] in self.marks:
                return self.marks[path[:depth]].line
        return 1

    def key_typed(self, path: Path) -> str:
        """The key with its value as typed, or the heading that names it."""
        mark = self.marks.get(path)
        typed = self.typed(path)
        return typed if mark is None or mark.whole else shown(f"{dotted(path[-1:])} = {typed}", 80)

    def typed(self, path: Path) -> str:
        """The value as typed, on one line; empty where the text has none, or a whole table."""
        mark = self.marks.get(path)
        return shown(self.text[mark.start : mark.end]) if mark and not mark.whole else ""


def placed(text: str, parts: Iterable[Statement]) -> Iterator[tuple[Statement, Path | None]]:
    """Each statement with its full path: of the table it opens, or of the key it sets.

    None under a heading that cannot be read, for then nobody knows where the keys belong.
    """
    table: Path | None = ()
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
            if part.kind == "junk" and text.startswith("[", part.start):
                table = None
            yield part, None if table is None else (*table, *part.key)


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
