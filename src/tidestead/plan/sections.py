"""Where the parts of a plan stand in its text: under headings of their own, as keys of a table above, in braces."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.plan.editing import written
from tidestead.plan.lines import placed
from tidestead.plan.scanning import statements
from tidestead.plan.statements import BARE_KEY, Mark, Path, Statement

_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\r\n]|\\[^\r\n])*"|'[^'\r\n]*')"""
_DOTTED = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_HEADING = re.compile(rf"\[[ \t]*{_DOTTED}[ \t]*\]")
_COMMA = re.compile(r"\s*,\s*")


@dataclass(frozen=True)
class Spliced:
    """Stretches of a text with the words that take their place."""

    places: tuple[tuple[int, int, str], ...]

    def __bool__(self) -> bool:
        return bool(self.places)

    def applied(self, text: str) -> str:
        """The text after the changes, made from its end up, so that none moves another."""
        for start, end, words in sorted(self.places, reverse=True):
            text = text[:start] + words + text[end:]
        return text


@dataclass(frozen=True)
class Section:
    """A heading with the keys under it."""

    path: Path
    start: int
    end: int


@dataclass(frozen=True)
class Pair:
    """A key with its value, and the table in whose section it stands."""

    path: Path
    table: Path
    statement: Statement

    @property
    def value(self) -> Mark:
        """Where its value stands."""
        return self.statement.inner[0][1]


@dataclass(frozen=True)
class Layout:
    """The sections and pairs of a text that is TOML."""

    text: str
    sections: tuple[Section, ...]
    pairs: tuple[Pair, ...]

    @classmethod
    def of(cls, text: str) -> Layout:
        sections: list[Section] = []
        pairs: list[Pair] = []
        for statement, path in placed(text, statements(text)):
            if path is None:
                continue
            if statement.kind == "pair":
                pairs.append(Pair(path, sections[-1].path if sections else (), statement))
            if statement.kind in ("table", "tables"):
                sections.append(Section(path, statement.start, statement.end))
            elif sections:
                last = sections[-1]
                sections[-1] = Section(last.path, last.start, statement.end)
        return cls(text, tuple(sections), tuple(pairs))

    @property
    def newline(self) -> str:
        return "\r\n" if "\r\n" in self.text else "\n"

    def in_braces(self, path: Path) -> bool:
        """Whether a new table at a path stands best in braces: it would be in some, or its neighbours are."""
        beside = [pair for pair in self.pairs if pair.path[:-1] == path[:-1] == pair.table]
        within = any(path[: len(pair.path)] == pair.path for pair in self.pairs)
        return within or any(self.text[pair.value.start] == "{" for pair in beside)

    def copy_of(self, path: Path, new: Path) -> Spliced:
        """What puts a part there once more; nothing where it stands inside the braces of another."""
        lines = [pair for pair in self._pairs_of(path)]
        sections = list(self._sections_of(path))
        places: list[tuple[int, int, str]] = []
        for table in dict.fromkeys(pair.table for pair in lines):
            own = [pair for pair in lines if pair.table == table]
            words = "".join(self._line_again(pair, new) for pair in own)
            places.append((own[-1].statement.end, own[-1].statement.end, words))
        if sections:
            words = "".join(
                2 * self.newline + self._heading_again(section, path, new) for section in sections
            )
            places.append((sections[-1].end, sections[-1].end, words))
        return Spliced(tuple(places))

    def renaming(self, path: Path, new: Path) -> Spliced:
        """What gives a part another name; nothing where it stands inside the braces of another."""
        places: list[tuple[int, int, str]] = []
        for section in self._sections_of(path):
            found = _HEADING.match(self.text, section.start)
            if found is not None:
                heading = f"[{spelled((*new, *section.path[len(path) :]))}]"
                places.append((found.start(), found.end(), heading))
        for pair in self._pairs_of(path):
            name = spelled((*new, *pair.path[len(path) :])[len(pair.table) :])
            places.append((pair.statement.start, pair.value.start, f"{name} = "))
        return Spliced(tuple(places))

    def cuts(self, path: Path) -> Spliced:
        """What takes a part or a value out: whole sections each with the blank line before it, lines, or braces."""
        spans = [
            self._lines_of(section.start, section.end, blank=True) for section in self._sections_of(path)
        ]
        spans += [
            self._lines_of(pair.statement.start, pair.statement.end, blank=False)
            for pair in self._pairs_of(path)
        ]
        if not spans:
            spans = [span for pair in self.pairs if (span := self._in_braces(pair, path))]
        return Spliced(tuple((start, end, "") for start, end in self._to_the_end(sorted(spans))))

    # Finding

    def _sections_of(self, path: Path) -> Iterator[Section]:
        return (section for section in self.sections if section.path[: len(path)] == path)

    def _pairs_of(self, path: Path) -> Iterator[Pair]:
        """Keys of the part that stand in the section of a table above it."""
        return (pair for pair in self.pairs if pair.path[: len(path)] == path and len(pair.table) < len(path))

    # Copying

    def _line_again(self, pair: Pair, new: Path) -> str:
        begin = self.text.rfind("\n", 0, pair.statement.start) + 1
        indent = self.text[begin : pair.statement.start]
        name = spelled((*new, *pair.path[len(new) :])[len(pair.table) :])
        rest = self.text[pair.value.start : pair.statement.end]
        return f"{self.newline}{indent if not indent.strip() else ''}{name} = {rest}"

    def _heading_again(self, section: Section, path: Path, new: Path) -> str:
        heading = _HEADING.match(self.text, section.start)
        behind = self.text[heading.end() if heading else section.start : section.end]
        return f"[{spelled((*new, *section.path[len(path) :]))}]{behind}"

    # Taking out

    def _lines_of(self, start: int, end: int, *, blank: bool) -> tuple[int, int]:
        """The whole lines from one place to another, with one blank line before them where that is wanted."""
        begin = self.text.rfind("\n", 0, start) + 1
        before = self.text.rfind("\n", 0, max(begin - 1, 0)) + 1
        if blank and begin and not self.text[before:begin].strip():
            begin = before
        return begin, self.text.find("\n", end) + 1 or len(self.text)

    def _to_the_end(self, spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """Spans of which one that reaches the end of a text without a last line end takes the one before it too."""
        reach, unended = len(self.text), not self.text.endswith("\n")
        for at in range(len(spans) - 1, -1, -1):
            start, end = spans[at]
            if not unended or end != reach:
                break
            lead = 2 if self.text[:start].endswith("\r\n") else int(self.text[:start].endswith("\n"))
            spans[at] = (start - lead, end)
            reach = start
        return _apart(spans)

    def _in_braces(self, pair: Pair, path: Path) -> tuple[int, int] | None:
        """The stretch of a value inside the braces of a pair, with the comma that parts it from its neighbour."""
        inner = path[len(pair.path) :]
        if pair.path != path[: len(pair.path)] or not inner:
            return None
        marks = [(at, mark) for at, mark in pair.statement.inner if at]
        own = [mark for at, mark in marks if at[: len(inner)] == inner]
        around = [mark for at, mark in pair.statement.inner if at == inner[:-1]]
        if not own or not around:
            return None
        start, end = min(mark.start for mark in own), max(mark.end for mark in own)
        before = [mark.end for _, mark in marks if around[0].start < mark.start and mark.end <= start]
        if before:
            return max(before), end
        after = _COMMA.match(self.text, end)
        lead = around[0].start + 1
        lead += len(self.text[lead:start]) - len(self.text[lead:start].lstrip())
        return (lead, after.end()) if after else None


def _apart(spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Spans that do not overlap: one that begins before the end of the last begins at that end."""
    found: list[tuple[int, int]] = []
    for start, end in spans:
        found.append((max(start, found[-1][1]) if found else start, end))
    return found


def spelled(parts: Path) -> str:
    """Keys as they are written in a heading or before an equals sign."""
    return ".".join(part if BARE_KEY.fullmatch(part) else written(part) for part in map(str, parts))
