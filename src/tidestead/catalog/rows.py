"""Tables of materials, fittings and limits: every figure with its unit, its source and how that is known.

The files lie in `data/`, one per table. A figure stands in them as printed; it is turned to SI once, here,
and keeps its printed form beside it. A row or figure without a source makes the whole table refuse to load.
"""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeAlias

from tidestead.catalog.demands import DEMANDS, demanded
from tidestead.core.errors import CatalogError, QuantityError
from tidestead.core.source import Known, Source
from tidestead.core.units import DIMENSIONS, Gallon, to_si
from tidestead.core.units.dimensions import Unit
from tidestead.core.units.symbols import canonical

YOURS_MARK = "yours:"
"""Stands before the name of a user's own row, wherever it is used; so that it never shadows one of ours."""

TABLES = tuple(DEMANDS)

Tag: TypeAlias = str | bool | int | tuple[str, ...]
Value: TypeAlias = float | tuple[float, ...]

_KNOWN = MappingProxyType({known.name.lower(): known for known in Known if known is not Known.YOURS})
_FIGURE_KEYS = ("value", "values")
_ROW_HEADING = re.compile(r"^\[rows\.([^\]\n]+)\]", re.MULTILINE)
_DATA = Path(__file__).with_name("data")


@dataclass(frozen=True)
class Datum:
    """One figure: its SI value (or values), as printed, and where it is printed."""

    value: Value
    unit_si: str
    printed: Value
    printed_unit: str
    dimension: str
    source: Source


@dataclass(frozen=True, eq=False)  # a row is itself: what is worked out from it can be kept by it
class Row:
    """One material, fitting or limit. `tags` are its words, `figures` its numbers."""

    table: str
    name: str
    title: str
    tags: Mapping[str, Tag]
    figures: Mapping[str, Datum]

    def __reduce__(self) -> tuple[Any, ...]:
        """Facts hold rows and go from process to process; a read-only mapping cannot, so it is made anew."""
        return _same_row, (self.table, self.name, self.title, dict(self.tags), dict(self.figures))

    def has(self, key: str) -> bool:
        """Whether the row has this figure or tag."""
        return key in self.figures or key in self.tags

    def figure(self, key: str) -> Datum:
        """The figure with its source; a CatalogError where the row has none."""
        try:
            return self.figures[key]
        except KeyError:
            close = nearest(key, self.figures)
            hint = f' Did you mean "{close[0]}"?' if close else ""
            raise CatalogError(f'{self.table}, row "{self.name}" has no figure "{key}".{hint}') from None

    def si(self, key: str) -> float:
        """One number in SI."""
        value = self.figure(key).value
        if isinstance(value, tuple):
            raise CatalogError(f'{self.table}, row "{self.name}": "{key}" is a list of {len(value)} numbers.')
        return value

    def several(self, key: str) -> tuple[float, ...]:
        """A list of numbers in SI."""
        value = self.figure(key).value
        return value if isinstance(value, tuple) else (value,)

    def tag(self, key: str, missing: Tag | None = None) -> Tag:
        """A word, a yes or no, or a list of words; `missing` where the row is silent, else a CatalogError."""
        found = self.tags.get(key, missing)
        if found is None:
            raise CatalogError(f'{self.table}, row "{self.name}" has no "{key}".')
        return found


@dataclass(frozen=True)
class Table:
    """Rows by name, in the order of the file."""

    name: str
    about: str
    rows: Mapping[str, Row]

    def __reduce__(self) -> tuple[Any, ...]:
        """As a row's."""
        return _same_table, (self.name, self.about, dict(self.rows))

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(self.rows)

    def __contains__(self, name: object) -> bool:
        return name in self.rows

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows.values())

    def __getitem__(self, name: str) -> Row:
        try:
            return self.rows[name]
        except KeyError:
            close = nearest(name, self.rows)
            hint = f' Did you mean "{close[0]}"?' if close else f" Rows: {', '.join(self.names)}."
            raise CatalogError(f'{self.name} has no row "{name}".{hint}') from None

    def with_rows(self, more: Iterable[Row]) -> Table:
        """A new table that has these rows too; a name that stands already is refused."""
        rows = dict(self.rows)
        for row in more:
            if row.name in rows:
                raise CatalogError(f'{self.name} has two rows "{row.name}".')
            rows[row.name] = row
        return replace(self, rows=MappingProxyType(rows))

    def with_yours(self, rows: Mapping[str, Mapping[str, Any]], gallon: Gallon = None) -> Table:
        """A new table that has the user's own rows too, as `yours:NAME`; CatalogError where one is wrong."""
        from tidestead.catalog.yours import own_rows  # noqa: PLC0415 - reads typed quantities; seldom wanted

        own, faults = own_rows(self, rows, gallon)
        if faults:
            raise CatalogError("\n".join(str(fault) for fault in faults))
        return self.with_rows(own)


def _same_row(table: str, name: str, title: str, tags: dict[str, Tag], figures: dict[str, Datum]) -> Row:
    return Row(table, name, title, MappingProxyType(tags), MappingProxyType(figures))


def _same_table(name: str, about: str, rows: dict[str, Row]) -> Table:
    return Table(name, about, MappingProxyType(rows))


def nearest(word: str, names: Iterable[str], most: int = 3) -> list[str]:
    """The names most like a word, nearest first."""
    from difflib import get_close_matches  # noqa: PLC0415 - wanted on faults only

    return get_close_matches(word[:80], list(names), most, 0.6) if word else []


@cache
def table(name: str) -> Table:
    """One of our tables, read once; a CatalogError where there is none of that name."""
    return read_table(name, _text(name))


@cache
def row_names(name: str) -> tuple[str, ...]:
    """The names of a table's rows, in order, found without reading them: a plan is judged by names only."""
    return tuple(found.strip("\"'") for found in _ROW_HEADING.findall(_text(name)))


def _text(name: str) -> str:
    if name not in DEMANDS:
        close = nearest(name, TABLES)
        raise CatalogError(f'There is no table "{name}". ' + (f"Did you mean {close[0]}?" if close else ""))
    return (_DATA / f"{name}.toml").read_text(encoding="utf-8")


def read_table(name: str, text: str) -> Table:
    """A table from its file's text; a CatalogError where a figure lacks unit or source, or a row a key."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CatalogError(f"{name}.toml is not TOML: {error}.") from error
    unknown = set(data) - {"about", "sources", "rows"}
    if unknown:
        raise CatalogError(f"{name}.toml has keys that mean nothing: {', '.join(sorted(unknown))}.")
    sources = {key: _source(f"{name}, source {key}", entry) for key, entry in data.get("sources", {}).items()}
    rows = {key: _row(name, key, entry, sources) for key, entry in data.get("rows", {}).items()}
    for row in rows.values():
        demand(row)
    return Table(name, data.get("about", ""), MappingProxyType(rows))


def demand(row: Row) -> None:
    """Refuse a row that lacks what its table demands of its kind."""
    missing = missing_keys(row)
    if missing:
        raise CatalogError(f'{row.table}, row "{row.name}" lacks {", ".join(missing)}.')


def missing_keys(row: Row) -> list[str]:
    """What the row's table demands of its kind and the row does not have."""
    kinds = tuple(kind for key in ("kind", "basis") if isinstance(kind := row.tags.get(key), str))
    return [key for key in demanded(row.table, kinds) if not row.has(key)]


def _source(where: str, entry: Any) -> Source:
    if not isinstance(entry, dict) or not entry.get("work") or entry.get("known") not in _KNOWN:
        raise CatalogError(f"{where} needs work, and known as one of {', '.join(_KNOWN)}.")
    return Source(entry["work"], entry.get("place", ""), _KNOWN[entry["known"]], entry.get("note", ""))


def _row(table_name: str, name: str, entry: Any, sources: Mapping[str, Source]) -> Row:
    where = f'{table_name}, row "{name}"'
    if not isinstance(entry, dict) or not isinstance(entry.get("title"), str):
        raise CatalogError(f"{where} needs a title.")
    tags: dict[str, Tag] = {}
    figures: dict[str, Datum] = {}
    for key, value in entry.items():
        if key == "title":
            continue
        if isinstance(value, dict):
            figures[key] = _datum(where, key, value, sources)
        else:
            tags[key] = _tag(f'{where}: "{key}"', value)
    return Row(table_name, name, entry["title"], MappingProxyType(tags), MappingProxyType(figures))


def _tag(where: str, value: Any) -> Tag:
    if isinstance(value, list) and all(isinstance(item, str) for item in value):
        return tuple(value)
    if isinstance(value, str | bool):
        return value
    raise CatalogError(f"{where} is a number without unit and source.")


def _datum(row: str, key: str, entry: Mapping[str, Any], sources: Mapping[str, Source]) -> Datum:
    where = f'{row}: "{key}"'
    given = [key for key in _FIGURE_KEYS if key in entry]
    if len(given) != 1 or set(entry) - {*_FIGURE_KEYS, "unit", "source"}:
        raise CatalogError(f"{where} needs value (or values), unit, source, and nothing else.")
    source, unit = sources.get(entry.get("source", "")), entry.get("unit")
    if source is None or not isinstance(unit, str):
        raise CatalogError(f"{where} has no unit, or no source that the file lists.")
    printed = entry[given[0]]
    numbers = printed if isinstance(printed, list) else [printed]
    if not numbers or not all(map(_is_number, numbers)):
        raise CatalogError(f"{where} is not a number.")
    try:
        wanted = "temperature_difference" if unit == "K" else "density" if "density" in key else None
        dimension, sized = _measured_in(unit, wanted)
        values = tuple(float(sized.to_si(Fraction(repr(number)))) for number in numbers)
    except QuantityError as error:
        raise CatalogError(f"{where}: {error}") from error
    si, floats = DIMENSIONS[dimension].si, tuple(map(float, numbers))
    if given[0] == "values":
        return Datum(values, si, floats, unit, dimension, source)
    return Datum(values[0], si, floats[0], unit, dimension, source)


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


@cache
def _measured_in(unit: str, wanted: str | None) -> tuple[str, Unit]:
    """The dimension a printed unit belongs to, and its size. Where several take it at one size, the first."""
    symbol = canonical(unit)
    size = Fraction(repr(to_si(1.0, unit, wanted)))
    takers = [DIMENSIONS[wanted]] if wanted else DIMENSIONS.values()
    for one in takers:
        found = one.units.get(symbol)
        if found is not None and math.isclose(found.to_si(Fraction(1)), size):
            return one.name, found
    raise CatalogError(f'"{unit}" is converted as no dimension known here.')
