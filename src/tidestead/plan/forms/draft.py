"""A plan's text as it is being written: what can be read of it, where it stands, and what is wrong."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from tidestead.core.errors import Fault, PlanError
from tidestead.core.units import Gallon, System
from tidestead.plan.faults import ordered
from tidestead.plan.lines import Lines
from tidestead.plan.mending import mend
from tidestead.plan.model import Plan
from tidestead.plan.reading import judged
from tidestead.plan.scanning import statements
from tidestead.plan.statements import Path, Statement
from tidestead.plan.text import decode
from tidestead.plan.toml import own_values


@dataclass(frozen=True)
class Draft:
    """A text, the values in it, and every fault of it. `plan` is None where the text makes none."""

    text: str
    values: Mapping[str, Any]
    lines: Lines
    plan: Plan | None
    faults: tuple[Fault, ...]

    @classmethod
    def of(cls, text: str, name: str = "plan") -> Draft:
        """The draft that a text is; it may be any text at all."""
        return _draft(text, name)

    @property
    def sound(self) -> bool:
        """Whether it may be saved."""
        return self.plan is not None and not self.faults

    @property
    def gallon(self) -> Gallon:
        """What a bare "gal" means here."""
        said = self.values.get("gallons")
        return said if said in ("us", "imperial") else None

    @property
    def system(self) -> System:
        """The units that its reader wants."""
        return "us" if self.values.get("show") == "us" else "metric"

    def at(self, path: Path) -> Any:
        """The value at a path as read; None where there is none."""
        here: Any = self.values
        for part in path:
            if isinstance(here, dict):
                here = here.get(part)
            elif isinstance(here, list) and isinstance(part, int) and part < len(here):
                here = here[part]
            else:
                return None
        return here

    def typed(self, path: Path) -> str:
        """A value as its writer sees it: text without its quotes, anything else as it is spelt."""
        value = self.at(path)
        if isinstance(value, str):
            return value
        mark = self.lines.marks.get(path)
        if mark is None or value is None or mark.whole:
            return ""
        return self.text[mark.start : mark.end].strip()


@lru_cache(maxsize=8)
def _draft(text: str, name: str) -> Draft:
    try:
        decoded = decode(text.encode("utf-8", "surrogatepass"), name)
    except PlanError as error:
        return Draft(text, {}, Lines.of(""), None, error.faults)
    plan, faults = judged(decoded.text, name)
    told = ordered([*decoded.faults, *faults])
    parts = statements(decoded.text)
    lines = Lines.of(decoded.text, parts)
    return Draft(text, _values(decoded.text, parts), lines, None if told else plan, told)


def _values(text: str, parts: Sequence[Statement]) -> dict[str, Any]:
    """The values of a text; of one that is not TOML, those that can be read."""
    if not any(part.fatal for part in parts):
        try:
            return own_values(text)
        except tomllib.TOMLDecodeError:
            pass  # what can be read of it is found below
    return mend(text, parts).values
