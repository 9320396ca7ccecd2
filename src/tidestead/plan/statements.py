"""The statements a plan's text is cut into, with the line and span of every key and value."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

Key: TypeAlias = tuple[str, ...]
Path: TypeAlias = tuple[str | int, ...]
Kind: TypeAlias = Literal["table", "tables", "pair", "junk"]

BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


@dataclass(frozen=True)
class Trouble:
    """A place where the text is not TOML, told in the words of a Fault."""

    line: int
    given: str
    allowed: str
    advice: str


@dataclass(frozen=True)
class Mark:
    """Where a key or list item stands: its line, and the span of its value as typed.

    `whole`: the span is that of a heading or of a line that only names this table on its way.
    """

    line: int
    start: int
    end: int
    whole: bool = False


@dataclass(frozen=True)
class Statement:
    """One header, one `key = value`, or one stretch of text that is neither.

    `inner` marks every value inside, outermost first, counted from the statement's own key: the whole value
    is the empty path. `broken`: the value cannot be told. `fatal`: the reader must not be handed this.
    """

    kind: Kind
    key: Key
    line: int
    start: int
    end: int
    inner: tuple[tuple[Path, Mark], ...] = ()
    troubles: tuple[Trouble, ...] = ()
    broken: bool = False
    fatal: bool = False


def shown(text: str, most: int = 60) -> str:
    """Text as typed, on one line, cut where it is long, with nothing in it that a terminal would obey."""
    line = "".join(char if char.isprintable() else " " for char in text[: 4 * most].strip())
    return line if len(line) <= most else line[: most - 3] + "..."


def dotted(path: Path) -> str:
    """A path as a builder would write it: vessels.basin.ties.cross.at[1]."""
    words = ""
    for part in path:
        if isinstance(part, int):
            words += f"[{part + 1}]"
            continue
        plain = BARE_KEY.fullmatch(part) is not None
        words += ("." if words else "") + (part if plain else f'"{shown(part)}"')
    return words


def steps_shared(one: Sequence[object], other: Sequence[object]) -> int:
    """How many steps two paths have in common from the top."""
    pairs = zip(one, other, strict=False)
    return next((at for at, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))
