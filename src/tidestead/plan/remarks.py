"""Values that a first plan took without having asked: the remarks that say so in its text, found and taken out.

Only a remark of exactly the form that the program writes counts, behind the value on its line or alone on the line
before it. Whatever else stands behind a # is its writer's, and nobody touches it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from tidestead.core.kept import kept
from tidestead.plan.lines import placed
from tidestead.plan.scanning import statements
from tidestead.plan.statements import Path, Statement
from tidestead.plan.toml import values_in

BEGIN = "# assumed: "
"""How such a remark begins; a text without it has none."""
_END = "; change it when you know"
_REMARK = re.compile(rf"{re.escape(BEGIN)}([^\r\n]+?){re.escape(_END)}")
_ABSENT = object()


@dataclass(frozen=True)
class Remark:
    """One value that was assumed, and why. `spans` are the stretches of the text that say so."""

    path: Path
    why: str
    spans: tuple[tuple[int, int], ...]


def remark(why: str) -> str:
    """What is written at a value that nobody said."""
    return f"{BEGIN}{why}{_END}"


@kept(at_most=4)
def remarks(text: str) -> tuple[Remark, ...]:
    """Every remark of a text that says that a value was assumed, in order."""
    if BEGIN not in text:
        return ()
    found = (
        _remark_at(text, statement, path)
        for statement, path in placed(text, statements(text))
        if path is not None and statement.kind == "pair" and not statement.broken
    )
    return tuple(one for one in found if one is not None)


def without_remarks(text: str, path: Path, value: Any = None) -> str:
    """The text without the remarks at values that a new value at a path changes; None takes out what is there.

    Raises a TOMLDecodeError where the text is not TOML.
    """
    told = remarks(text)
    if not told:
        return text
    values = values_in(text)
    spans = [span for one in told if _changes(values, one.path, path, value) for span in one.spans]
    return _cut(text, spans)


def _remark_at(text: str, statement: Statement, path: Path) -> Remark | None:
    found = [*_before(text, statement.start), *_behind(text, statement)]
    return Remark(path, found[0][0], tuple(span for _, span in found)) if found else None


def _behind(text: str, statement: Statement) -> Iterator[tuple[str, tuple[int, int]]]:
    """The remark behind a value, with the spaces between them."""
    if not statement.inner:
        return
    value = statement.inner[0][1]
    rest = text[value.end : statement.end]
    found = _REMARK.fullmatch(rest.strip(" \t\r"))
    if found is not None:
        yield found[1], (value.end, value.end + len(rest.rstrip(" \t\r")))


def _before(text: str, start: int) -> Iterator[tuple[str, tuple[int, int]]]:
    """The remark alone on the line before a key, with the end of that line."""
    own = text.rfind("\n", 0, start) + 1
    above = text.rfind("\n", 0, max(own - 1, 0)) + 1
    found = _REMARK.fullmatch(text[above:own].strip(" \t\r\n")) if own else None
    if found is not None:
        yield found[1], (above, own)


def _changes(values: Any, told: Path, path: Path, value: Any) -> bool:
    """Whether a new value at a path changes the value that a remark speaks of."""
    shared = min(len(told), len(path))
    if told[:shared] != path[:shared]:
        return False
    now = _found(values, told if len(told) > len(path) else path)
    later = _found(value, told[shared:]) if value is not None else _ABSENT
    return _typed(now) != _typed(later)


def _found(values: Any, path: Sequence[str | int]) -> Any:
    """What stands at a path, or the sign that nothing does."""
    for part in path:
        try:
            values = values[part]
        except (KeyError, IndexError, TypeError):
            return _ABSENT
    return values


def _typed(value: Any) -> object:
    """A value that equals another only where both are written alike: 1 is neither 1.0 nor true."""
    if isinstance(value, dict):
        return {key: _typed(inner) for key, inner in value.items()}
    return [_typed(inner) for inner in value] if isinstance(value, list) else (type(value), value)


def _cut(text: str, spans: Sequence[tuple[int, int]]) -> str:
    """The text without some stretches, taken out from its end up, so that none moves another."""
    for start, end in sorted(spans, reverse=True):
        text = text[:start] + text[end:]
    return text


def assumed_in(text: str) -> tuple[Remark, ...]:
    """As `remarks`, of those values alone that a reader finds there; nothing where the text is not TOML."""
    try:
        values = values_in(text)
    except tomllib.TOMLDecodeError:
        return ()
    return tuple(one for one in remarks(text) if _found(values, one.path) is not _ABSENT)
