"""What was assumed for the user when the plan was first written: each value as a field, with why it was taken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from tidestead.plan.first_order import loads_first, title_for
from tidestead.plan.forms import Draft, Field, field_at, words_of_key
from tidestead.plan.remarks import BEGIN, Remark, assumed_in
from tidestead.plan.statements import Path, dotted
from tidestead.web.bench import Bench
from tidestead.web.forms_view import draft_of


@dataclass(frozen=True)
class Taken:
    """One value that was assumed: its key, what it is in words, why it was taken, and the fields it is typed in.

    `yours`: it has been typed over since the plan was opened, and is assumed no more.
    """

    key: str
    words: str
    why: str
    fields: tuple[Field, ...]
    yours: bool = False


@dataclass(frozen=True)
class Batch:
    """Values that are told together."""

    title: str
    taken: tuple[Taken, ...]


@dataclass(frozen=True)
class AssumedView:
    """Everything that was assumed, what carries load first. `left` counts what nobody has typed over yet."""

    left: int
    batches: tuple[Batch, ...]


def how_many(bench: Bench) -> int:
    """How many values of the plan are marked as assumed."""
    return len(assumed_in(bench.text))


def assumed(bench: Bench) -> AssumedView:
    """What is marked as assumed in the plan's file, and what was so when it was opened."""
    now = {dotted(one.path): one for one in assumed_in(bench.text)}
    draft = draft_of(bench)
    found = {**_typed_over(bench, draft), **now}
    taken = [
        _taken(bench, draft, found[key], yours=key not in now)
        for key in loads_first(_as_in_file(draft, found))
    ]
    batches = groupby(taken, key=lambda one: title_for(one.key))
    return AssumedView(len(now), tuple(Batch(title, tuple(inner)) for title, inner in batches))


def _typed_over(bench: Bench, draft: Draft) -> dict[str, Remark]:
    """What was assumed when most was, of the texts before this one, and still has a value."""
    before = [version.text for version in bench.history.versions[: bench.history.at]]
    fullest = max(before, key=lambda text: text.count(BEGIN), default="")
    return {dotted(one.path): one for one in assumed_in(fullest) if draft.at(one.path) is not None}


def _as_in_file(draft: Draft, found: Mapping[str, Remark]) -> list[str]:
    """Keys in the order of the file, so that none moves when it is typed over."""
    order = {key: place for place, key in enumerate(_keys_of(draft.at(())))}
    return sorted(found, key=lambda key: order.get(key, len(order)))


def _keys_of(values: Any, under: Path = ()) -> Iterator[str]:
    """Every key of a plan, tables too."""
    if under:
        yield dotted(under)
    for name, value in values.items() if isinstance(values, dict) else ():
        yield from _keys_of(value, (*under, name))


def _taken(bench: Bench, draft: Draft, one: Remark, *, yours: bool) -> Taken:
    key = dotted(one.path)
    return Taken(key, words_of_key(key), one.why, tuple(_fields(bench, draft, one.path)), yours)


def _fields(bench: Bench, draft: Draft, path: Path) -> Iterator[Field]:
    """The field of a value; of a table in braces those of its values."""
    field = field_at(draft, dotted(path), system=bench.system)
    if field is not None:
        yield replace(field, label=words_of_key(field.key))
        return
    inner = draft.at(path)
    for name in inner if isinstance(inner, dict) else ():
        yield from _fields(bench, draft, (*path, name))
