"""Where a number or a formula comes from, and how well that is known."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Known(StrEnum):
    """How a figure is known; the value is the word printed beside it."""

    READ = "source seen"
    QUOTED = "quoted by another"
    RECALLED = "from memory"
    PRACTICE = "common practice"
    COMPUTED = "computed"
    YOURS = "yours"


@dataclass(frozen=True)
class Source:
    """A work, the place in it, and how we know what it says."""

    work: str
    place: str = ""
    known: Known = Known.READ
    note: str = ""

    def __str__(self) -> str:
        cited = f"{self.work}, {self.place}" if self.place else self.work
        return f"{cited} [{self.known.value}]"


PRACTICE = Source("common practice, no source", known=Known.PRACTICE)
COMPUTED = Source("computed by this program", known=Known.COMPUTED)
STATICS = Source("elementary statics", known=Known.COMPUTED)
YOURS = Source("your plan", known=Known.YOURS)
