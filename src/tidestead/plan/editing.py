"""One value of a plan's text changed, added or taken out, with every other character left as it stands.

Comments stay by what they speak of: a new key goes behind the last key of its own table, before the blank
lines and remarks that lead in the next one. Each edit is proved by the library's reader: the values after it
are those before it with this one change, or the edit is refused.
"""

from __future__ import annotations

import json
import math
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeAlias

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.lines import placed
from tidestead.plan.scanning import statements
from tidestead.plan.statements import Mark, Path, Statement, dotted, steps_shared
from tidestead.plan.toml import own_values, values_in

Value: TypeAlias = "str | int | float | bool | date | list[Any] | dict[str, Any]"

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_STEP = re.compile(r"""\.?(?:([A-Za-z0-9_-]+|"[^"]*"|'[^']*'|[^.\[\]"']+)|\[(\d+)\])""")


def path_of(key: str) -> Path:
    """The path a dotted key names: vessels.basin.ties.cross.at[2] is the second item of that list."""
    parts: list[str | int] = []
    at = 0
    while at < len(key) or not key:
        found = _STEP.match(key, at)
        if found is None or (at > 0) != (key[at] in ".["):
            raise PlanError((Fault(key, None, "", "is not a key.", "Write such as vessels.basin.water."),))
        word, number = found.groups()
        parts.append(int(number) - 1 if number else word.strip("\"'"))
        at = found.end()
    return tuple(parts)


def with_value(text: str, path: Path, value: Value) -> str:
    """The text with the value at a path set; tables that are missing on the way are made."""
    edited = _Editor(text).set(path, value)
    wanted = own_values(text)
    _set_in(wanted, path, value)
    return _proved(edited, wanted, path)


def without(text: str, path: Path) -> str:
    """The text without a key, or without a table and all that is under it."""
    wanted = own_values(text)
    here: Any = wanted
    for part in path[:-1]:
        here = here[part]
    del here[path[-1]]
    return _proved(_Editor(text).remove(path), wanted, path)


def _proved(edited: str, wanted: Mapping[str, Any], path: Path) -> str:
    try:
        sound = _pruned(values_in(edited)) == _pruned(wanted)
    except tomllib.TOMLDecodeError:
        sound = False
    if not sound:
        raise PlanError((_cannot(path, "cannot be edited here without changing more."),))
    return edited


def _pruned(value: Any) -> Any:
    """Values without empty tables: a heading may go with its last key."""
    if not isinstance(value, dict):
        return value
    kept = {key: _pruned(inner) for key, inner in value.items()}
    return {key: inner for key, inner in kept.items() if inner != {}}


def _cannot(path: Path, why: str) -> Fault:
    return Fault(dotted(path), None, "", why, "Edit the file by hand.")


def _set_in(values: Any, path: Path, value: Value) -> None:
    here = values
    for part in path[:-1]:
        here = here.setdefault(part, {}) if isinstance(here, dict) else here[part]
    here[path[-1]] = value


@dataclass(frozen=True)
class _Placed:
    statement: Statement
    path: Path
    table: Path


class _Editor:
    def __init__(self, text: str) -> None:
        self.text = text
        self.newline = "\r\n" if "\r\n" in text else "\n"
        self.placed: list[_Placed] = []
        self.values: dict[Path, Mark] = {}
        table: Path = ()
        for statement, path in placed(text, statements(text)):
            if path is None:
                continue
            table = path if statement.kind in ("table", "tables") else table
            self.placed.append(_Placed(statement, path, table))
            if statement.kind == "pair":
                self.values |= {(*path, *inner): mark for inner, mark in statement.inner}

    # Setting

    def set(self, path: Path, value: Value) -> str:
        mark = self.values.get(path)
        if mark is not None:
            return self._spliced(mark.start, mark.end, written(value))
        for depth in range(len(path) - 1, 0, -1):
            if path[:depth] in self.values:
                return self._into_braces(path, depth, value)
        return (
            self._as_dotted(path, value) or self._under_heading(path, value) or self._new_heading(path, value)
        )

    def _into_braces(self, path: Path, depth: int, value: Value) -> str:
        outer = self.values[path[:depth]]
        if self.text[outer.start] != "{" or not all(isinstance(part, str) for part in path[depth:]):
            raise PlanError((_cannot(path, f"cannot stand under {dotted(path[:depth])}."),))
        pair = f"{_key(path[depth:])} = {written(value)}"
        inside = self.text[outer.start + 1 : outer.end - 1].rstrip()
        at = outer.start + 1 + len(inside)
        lead = ", " if inside.strip() else " "
        tail = "" if self.text[at : outer.end - 1] else " "
        return self._spliced(at, at, f"{lead}{pair}{tail}")

    def _as_dotted(self, path: Path, value: Value) -> str:
        """Beside keys that spell the same table out with dots; empty where there are none."""
        best: _Placed | None = None
        longest = 0
        for one in self.placed:
            shared = steps_shared(one.path, path)
            dots = one.statement.kind == "pair" and len(one.table) < shared < len(one.path)
            if dots and shared >= longest:
                best, longest = one, shared
        if best is None:
            return ""
        return self._line_after(best.statement, f"{_key(path[len(best.table) :])} = {written(value)}")

    def _under_heading(self, path: Path, value: Value) -> str:
        """Behind the last key of the table's own section; empty where it has no heading."""
        line = f"{_key(path[-1:])} = {written(value)}"
        section = [one.statement for one in self.placed if one.table == path[:-1]]
        if section:
            return self._line_after(section[-1], line)
        return self._spliced(0, 0, line + self.newline) if len(path) == 1 else ""

    def _new_heading(self, path: Path, value: Value) -> str:
        """A section of its own behind the last section of the table it belongs to."""
        depth = max((steps_shared(one.table, path) for one in self.placed), default=0)
        kin = [one.table for one in self.placed if depth and one.table[:depth] == path[:depth]]
        last = next((one.statement for one in reversed(self.placed) if not kin or one.table == kin[-1]), None)
        section = f"[{_key(path[:-1])}]{self.newline}{_key(path[-1:])} = {written(value)}"
        if last is None:
            return section + self.newline
        return self._line_after(last, self.newline + section, indent=False)

    def _line_after(self, statement: Statement, line: str, *, indent: bool = True) -> str:
        begin = self.text.rfind("\n", 0, statement.start) + 1
        lead = self.text[begin : statement.start] if indent and statement.kind == "pair" else ""
        lead = lead if not lead.strip() else ""
        return self._spliced(statement.end, statement.end, f"{self.newline}{lead}{line}")

    # Taking out

    def remove(self, path: Path) -> str:
        whole = [one.statement for one in self.placed if one.path[: len(path)] == path]
        whole += [
            one.statement
            for one in self.placed
            if one.table[: len(path)] == path and one.statement not in whole
        ]
        if whole:
            text = self.text
            for statement in sorted(whole, key=lambda one: one.start, reverse=True):
                begin = text.rfind("\n", 0, statement.start) + 1
                end = text.find("\n", statement.end) + 1 or len(text)
                text = text[:begin] + text[end:]
            return text
        outer = self.values.get(path[:-1])
        if outer is None:
            raise PlanError((_cannot(path, "cannot be taken out here."),))
        inner = tomllib.loads(f"x = {self.text[outer.start : outer.end]}")["x"]
        del inner[path[-1]]
        return self._spliced(outer.start, outer.end, written(inner))

    def _spliced(self, start: int, end: int, words: str) -> str:
        return self.text[:start] + words + self.text[end:]


def written(value: Value) -> str:
    """A value as it is written in the file."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) or (isinstance(value, float) and math.isfinite(value)):
        return repr(value)
    if isinstance(value, str):
        plain = value.isprintable() and "'" not in value
        return f"'{value}'" if plain and '"' in value else _quoted(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list):
        return f"[{', '.join(map(written, value))}]"
    if isinstance(value, dict):
        pairs = ", ".join(f"{_key((key,))} = {written(inner)}" for key, inner in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    raise PlanError(
        (Fault("", None, repr(value)[:60], "cannot stand in a plan.", "Give text, a number or a list."),)
    )


def _quoted(text: str) -> str:
    """Text in double quotes: JSON's escapes are TOML's, but for the delete sign."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _key(parts: Path) -> str:
    return ".".join(part if _BARE_KEY.fullmatch(part) else _quoted(part) for part in map(str, parts))
