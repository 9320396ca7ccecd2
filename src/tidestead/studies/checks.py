"""Shorthand for checks: where they are, how their ids are made."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypedDict, Unpack

from tidestead.core.answer import NEAR, Check, Estimate, Given
from tidestead.core.source import Source

ENOUGH = 1.0 - NEAR
"""Share of a limit that advice aims at, so that what is advised is sound and not only near."""


@dataclass(frozen=True)
class At:
    """A part of the system: `key` is basin.south.long, `words` what a builder calls it, `path` its plan key."""

    key: str
    words: str
    subject: str = "structure"
    path: str = ""

    def below(self, key: str, words: str, path: str = "") -> At:
        """A part of this part; `path` where the plan files it under another name than `key`."""
        return At(f"{self.key}.{key}", f"{self.words}, {words}", self.subject, f"{self.path}.{path or key}")

    def ident(self, name: str) -> str:
        return f"{self.subject}.{self.key}.{name}"


@dataclass(frozen=True)
class Limit:
    """What a value is held against. `includes` is the safety it already holds."""

    value: float | tuple[float, float] | None
    source: Source
    includes: str = ""
    near: float = NEAR


class More(TypedDict, total=False):
    """Further fields of a check."""

    style: str
    advice: str
    cautions: tuple[str, ...]
    datum: float


def below(
    at: At, name: str, what: str, value: Estimate | float, unit: str, limit: Limit, **more: Unpack[More]
) -> Check:
    """A check that the value stays below its limit."""
    if isinstance(value, Estimate):
        low, likely, high = float(value.low), float(value.likely), float(value.high)
        estimate = Estimate(low, likely, high, value.basis, value.followed)
    else:
        estimate = Estimate.exact(float(value))
    return Check(
        at.ident(name),
        what,
        at.words,
        unit,
        estimate,
        limit.value if limit.value is None or isinstance(limit.value, tuple) else float(limit.value),
        limit.source,
        part=at.key,
        near=limit.near,
        limit_includes=limit.includes,
        **more,
    )


def above(
    at: At, name: str, what: str, value: Estimate | float, unit: str, limit: Limit, **more: Unpack[More]
) -> Check:
    """A check that the value stays above its limit."""
    return replace(below(at, name, what, value, unit, limit, **more), must_be="above")


def unproven(at: At, name: str, what: str, unit: str, why: str, source: Source) -> Check:
    """A check that cannot be made, and why."""
    return Check(at.ident(name), what, at.words, unit, None, None, source, part=at.key, missing=why)


def given(symbol: str, value: float, unit: str, style: str = "") -> Given:
    """A number for a line of working."""
    return Given(symbol, float(value), unit, style)
