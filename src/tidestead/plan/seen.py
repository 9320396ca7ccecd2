"""What can be made out of a plan that may have faults in it: a value where there is a good one, else None."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse
from tidestead.plan.fields import MOST_ITEMS
from tidestead.plan.merging import merged
from tidestead.plan.statements import Path

HAIR = 1e-4
"""Metres. Sizes typed in two unit systems may differ by a rounding that means nothing."""


class Misfit(NamedTuple):
    """A part that does not fit its neighbours: where, why, and what to do."""

    path: Path
    allowed: str
    advice: str


@dataclass(frozen=True)
class Seen:
    """One table of the plan as read from the file, before the models have judged it."""

    path: Path
    values: Mapping[str, Any] = field(default_factory=dict)
    gallon: Gallon = None

    def under(self, key: str) -> Seen:
        """The table under a key; an empty one where there is none."""
        value = self.values.get(key)
        return Seen((*self.path, key), value if isinstance(value, dict) else {}, self.gallon)

    def parts(self, key: str) -> Iterator[tuple[str, Seen]]:
        """The named parts under a key."""
        table = self.under(key)
        for name, value in table.values.items():
            if isinstance(value, dict):
                yield name, table.under(name)

    def over(self, shared: Seen) -> Seen:
        """This table with what it leaves out taken from another."""
        return Seen(self.path, merged(shared.values, self.values), self.gallon)

    def has(self, key: str) -> bool:
        return key in self.values

    def length(self, key: str) -> float | None:
        """A length in metres."""
        return self._metres(self.values.get(key))

    def lengths(self, key: str) -> list[tuple[int, float]]:
        """The good lengths of a list, each with its place in it."""
        items = self.values.get(key)
        found = [(place, self._metres(item)) for place, item in enumerate(_listed(items))]
        return [(place, value) for place, value in found if value is not None]

    def number(self, key: str) -> int | None:
        """A whole number."""
        value = self.values.get(key)
        return value if isinstance(value, int) and not isinstance(value, bool) else None

    def numbers(self, key: str) -> list[tuple[int, int]]:
        """The whole numbers of a list, each with its place in it."""
        items = self.values.get(key)
        return [
            (place, item)
            for place, item in enumerate(_listed(items))
            if isinstance(item, int) and not isinstance(item, bool)
        ]

    def word(self, key: str) -> str:
        """A text; empty where there is none."""
        value = self.values.get(key)
        return value if isinstance(value, str) else ""

    def _metres(self, value: Any) -> float | None:
        if not isinstance(value, str):
            return None
        try:
            return parse(value, "length", self.gallon)
        except QuantityError:
            return None


def _listed(items: Any) -> list[Any]:
    return items[:MOST_ITEMS] if isinstance(items, list) else []
