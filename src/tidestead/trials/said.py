"""What a plan's file says at a key, in the user's own words; what walls share is laid under each."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tidestead.core.answer import Check
from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, System, parse
from tidestead.plan import LoadedPlan
from tidestead.plan.forms import words_of_key
from tidestead.plan.merging import SHARED, merged
from tidestead.plan.model import Plan
from tidestead.plan.toml import values_in


@dataclass(frozen=True)
class Said:
    """The values of a plan's text and the plan itself, for looking up and for writing alike."""

    values: Mapping[str, Any]
    plan: Plan

    @classmethod
    def of(cls, loaded: LoadedPlan) -> Said:
        """What a plan says."""
        return cls(values_in(loaded.text), loaded.plan)

    @property
    def system(self) -> System:
        """The units that it is written in."""
        return self.plan.show

    @property
    def gallons(self) -> Gallon:
        """Which gallon it means."""
        return self.plan.gallons

    def raw(self, key: str) -> Any:
        """What stands at a dotted key; None where nothing does."""
        path = key.split(".")
        if len(path) > 3 and path[0] == "vessels" and path[2] == "walls":
            return _at(self._wall(path[1], path[3]), path[4:])
        return _at(self.values, path)

    def text(self, key: str) -> str:
        """The same where it is text, else empty."""
        found = self.raw(key)
        return found if isinstance(found, str) else ""

    def number(self, key: str) -> int | None:
        """The same where it is a whole number."""
        found = self.raw(key)
        return found if isinstance(found, int) and not isinstance(found, bool) else None

    def size(self, key: str, dimension: str = "length") -> float | None:
        """The same in SI where it is a quantity of that dimension."""
        found = self.raw(key)
        if not isinstance(found, str):
            return None
        try:
            return parse(found, dimension, self.gallons)
        except QuantityError:
            return None

    def names(self, key: str) -> tuple[str, ...]:
        """The names under a table."""
        found = self.raw(key)
        return tuple(found) if isinstance(found, Mapping) else ()

    def _wall(self, vessel: str, wall: str) -> Mapping[str, Any]:
        walls = _at(self.values, ["vessels", vessel, "walls"]) or {}
        return merged(walls.get(SHARED, {}), walls.get(wall, {}))


def _at(values: Any, path: list[str]) -> Any:
    for part in path:
        found = re.fullmatch(r"(.+)\[(\d+)\]", part)
        name = found[1] if found else part
        if not isinstance(values, Mapping) or name not in values:
            return None
        values = values[name]
        if found:
            place = int(found[2]) - 1
            if not isinstance(values, list) or place >= len(values):
                return None
            values = values[place]
    return values


@dataclass(frozen=True)
class Asked:
    """A check that wants mending, the plan it is of, and the names its id was made of."""

    said: Said
    check: Check
    names: Mapping[str, str]

    def key(self, pattern: str) -> str:
        """A dotted key with the names of the check put in."""
        return pattern.format(**self.names)


def changed(key: str, value: Any, was: Any) -> str:
    """A change in words: what, what it becomes, what it was."""
    named = words_of_key(key)
    if value is None:
        return f"{named}: taken out"
    now = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    then = ", ".join(map(str, was)) if isinstance(was, list) else str(was)
    return f"{named}: {now}" + ("" if was is None else f" instead of {then}")
