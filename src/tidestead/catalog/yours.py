"""The user's own rows: typed in the plan with units, checked against the table they join.

A row may say `like = "acrylic-cast"`: it then has everything of that row which it does not say otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from tidestead.catalog.rows import YOURS_MARK, Datum, Row, Table, Tag, missing_keys, nearest
from tidestead.core.errors import QuantityError
from tidestead.core.source import YOURS, Known, Source
from tidestead.core.units import DIMENSIONS, Gallon, parse

_OWN_KEYS = ("title", "like", "source")


@dataclass(frozen=True)
class RowFault:
    """What is wrong with one key of a user's row; the key is empty where the row as a whole is meant."""

    table: str
    row: str
    key: str
    given: str
    allowed: str
    advice: str

    def __str__(self) -> str:
        where = ".".join(part for part in ("yours", self.table, self.row, self.key) if part)
        return " ".join(part for part in (f"{where}:", self.given, self.allowed, self.advice) if part)


def own_rows(
    table: Table, rows: Mapping[str, Mapping[str, Any]], gallon: Gallon = None
) -> tuple[list[Row], list[RowFault]]:
    """The rows that are sound, named with their mark, and every fault of those that are not."""
    good: list[Row] = []
    faults: list[RowFault] = []
    for name, entry in rows.items():
        reader = _Reader(table, name, gallon)
        row = reader.row(entry)
        faults += reader.faults
        if not reader.faults:
            good.append(row)
    return good, faults


class _Reader:
    def __init__(self, table: Table, name: str, gallon: Gallon) -> None:
        self.table, self.name, self.gallon = table, name, gallon
        self.faults: list[RowFault] = []
        self.known_figures = {key: datum for row in table for key, datum in row.figures.items()}
        self.known_tags = {key: tag for row in table for key, tag in row.tags.items()}

    def row(self, entry: Mapping[str, Any]) -> Row:
        base = self._like(entry.get("like"))
        source = self._source(entry.get("source"))
        tags: dict[str, Tag] = dict(base.tags) if base else {}
        figures: dict[str, Datum] = dict(base.figures) if base else {}
        for key, value in entry.items():
            if key in self.known_figures:
                self._figure(figures, key, value, source)
            elif key in self.known_tags:
                self._tag(tags, key, value)
            elif key not in _OWN_KEYS:
                self._unknown(key)
        title = entry.get("title", base.title if base else self.name)
        if not isinstance(title, str):
            self._fault("title", "", "must be text in quotes.", 'Write "...".')
        made = Row(
            self.table.name,
            YOURS_MARK + self.name,
            str(title),
            MappingProxyType(tags),
            MappingProxyType(figures),
        )
        missing = missing_keys(made) if not self.faults else []
        if missing:
            advice = f'Add them, or like = "{self.table.names[0]}" for what you do not know.'
            self._fault("", "", f"lacks {', '.join(missing)}.", advice)
        return made

    def _like(self, like: Any) -> Row | None:
        if like is None or (isinstance(like, str) and like in self.table):
            return self.table[like] if like is not None else None
        close = nearest(str(like), self.table.names)
        advice = f'Did you mean "{close[0]}"?' if close else f"Known: {', '.join(self.table.names[:12])}."
        self._fault("like", "", f"is not in the catalogue of {self.table.name}.", advice)
        return None

    def _source(self, said: Any) -> Source:
        if said is None:
            return YOURS
        if not isinstance(said, str) or not said.strip():
            self._fault("source", "", "must be text in quotes.", 'Write such as "maker\'s data sheet".')
            return YOURS
        return Source(said.strip()[:200], known=Known.YOURS)

    def _figure(self, figures: dict[str, Datum], key: str, value: Any, source: Source) -> None:
        ours = self.known_figures[key]
        dimension = ours.dimension
        many = isinstance(ours.value, tuple)
        if isinstance(value, list) != many:
            wanted = "a list of quantities" if many else "one quantity"
            self._fault(key, "", f"must be {wanted}.", f"Write such as {_example(dimension, many=many)}.")
            return
        read = [self._number(key, item, dimension) for item in (value if many else [value])]
        numbers = tuple(number for number in read if number is not None)
        if len(numbers) == len(read):
            si = DIMENSIONS[dimension].si
            made = numbers if many else numbers[0]
            figures[key] = Datum(made, si, made, si, dimension, source)

    def _number(self, key: str, item: Any, dimension: str) -> float | None:
        if isinstance(item, bool) or not isinstance(item, str | int | float):
            self._fault(key, "", "must be a quantity in quotes.", f"Write such as {_example(dimension)}.")
            return None
        try:
            return parse(item if isinstance(item, str) else repr(item), dimension, self.gallon)
        except QuantityError as error:
            self._fault(key, error.given, error.allowed, error.advice)
            return None

    def _tag(self, tags: dict[str, Tag], key: str, value: Any) -> None:
        ours = self.known_tags[key]
        made: Any = tuple(value) if isinstance(value, list) else value
        words = not isinstance(made, tuple) or all(isinstance(item, str) for item in made)
        if type(made) is not type(ours) or not words:
            kinds = {bool: "true or false", str: "text in quotes", tuple: "a list of texts"}
            self._fault(key, "", f"must be {kinds.get(type(ours), 'a word')}.", f"Ours has {ours!r}."[:80])
            return
        tags[key] = made

    def _unknown(self, key: str) -> None:
        known = (*self.known_figures, *self.known_tags, *_OWN_KEYS)
        close = nearest(key, known, 1)
        advice = f"Did you mean {close[0]}?" if close else f"Known here: {', '.join(known[:20])}."
        self._fault(key, key, f"is not a key of {self.table.name}.", advice)

    def _fault(self, key: str, given: str, allowed: str, advice: str) -> None:
        self.faults.append(RowFault(self.table.name, self.name, key, given, allowed, advice))


def _example(dimension: str, *, many: bool = False) -> str:
    example = DIMENSIONS[dimension].example.split(" or ")[0]
    return f"[{example}]" if many else example
