"""What is varied: one key of the plan with the values it is to take, as typed in a command."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tidestead.core.errors import Fault, PlanError, QuantityError
from tidestead.core.units import DIMENSIONS, parse, parse_price
from tidestead.core.units.bands import DOTS, with_units
from tidestead.plan.editing import Value, path_of
from tidestead.plan.fields import Typed
from tidestead.plan.forms.draft import Draft
from tidestead.plan.forms.leaves import gathers, is_list, is_table, kind_of, value_typed
from tidestead.plan.forms.places import Place, place_at
from tidestead.plan.merging import SHARED
from tidestead.plan.model import BOX_WALLS
from tidestead.plan.outline import spot_at
from tidestead.plan.statements import Path, dotted
from tidestead.trials.steps import stepped, whole_steps

MOST_VALUES = 10_000
"""Of one key."""

_COUNT = re.compile(r":\s*(-?[0-9]{1,40})\s*$")
_EXAMPLE = 'Write it like "vessels.reef.water=1.2..1.4 m:5" or "KEY=2x6,2x8".'
_SIGNS = {"quantity", "number", "whole", "price"}
"""Kinds of value that have something between them."""


@dataclass(frozen=True)
class Axis:
    """A key and its values: as they are put into the plan, as they are typed, and as numbers where they are such.

    `unit` is the SI unit of the numbers; empty where the values are words.
    """

    key: str
    path: Path
    values: tuple[Value, ...]
    typed: tuple[str, ...]
    numbers: tuple[float, ...] = ()
    unit: str = ""

    def __len__(self) -> int:
        return len(self.values)


def read_axis(draft: Draft, words: str) -> Axis:
    """The axis that "key=from..to:n" or "key=one,another" names in a sound plan. Raises a PlanError."""
    key, sign, typed = (part.strip() for part in words.partition("="))
    if not (sign and key and typed):
        raise _refused(words, "", "says no key with its values.", _EXAMPLE)
    path = path_of(key)
    place = _place(draft, path, key)
    try:
        values = _values(draft, place, typed)
    except QuantityError as error:
        raise _refused(key, error.given, error.allowed, error.advice) from None
    if len(values) > MOST_VALUES:
        raise _refused(
            key, f"{len(values):,} values", "are too many.", f"At most {MOST_VALUES:,} of one key."
        )
    texts = tuple(_typed(value) for value in values)
    if len(set(texts)) < len(texts):
        twice = next(text for text in texts if texts.count(text) > 1)
        raise _refused(key, f'"{twice}"', "stands there twice.", "Write each value once.")
    numbers, unit = _numbers(draft, place, texts)
    return Axis(dotted(path), path, tuple(values), texts, numbers, unit)


def _refused(where: str, given: str, allowed: str, advice: str) -> PlanError:
    return PlanError((Fault(where, None, given, allowed, advice),))


def _typed(value: Value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def _place(draft: Draft, path: Path, key: str) -> Place:
    """The place of a key that holds one value."""
    _known_parts(draft, path, key)
    place = place_at(path)
    if place is None:
        raise _refused(key, "", "is no key of a plan.", _nearest(draft, key))
    if is_table(place.spot):
        inner = next(iter(_keys_in(draft.at(path))), "")
        advice = f"Choose one of its keys{f', such as {key}.{inner}' if inner else ''}."
        raise _refused(key, "", "is a table, not a value.", advice)
    if is_list(place.spot):
        raise _refused(key, "", "is a list.", f"Name one of its values, such as {key}[1].")
    if any(isinstance(part, int) for part in path) and draft.at(path) is None:
        raise _refused(key, "", "is no item of that list.", "Items count from 1.")
    return place


def _known_parts(draft: Draft, path: Path, key: str) -> None:
    """Refuse the name of a part that the plan does not have; walls are there unsaid."""
    for depth in range(1, len(path)):
        above = spot_at(path[:depth])
        if above is None:
            raise _refused(key, "", "is no key of a plan.", _nearest(draft, key))
        there = draft.at(path[:depth])
        names = list(there) if isinstance(there, Mapping) else []
        walls = path[depth - 1] == "walls" and path[depth] in (SHARED, *BOX_WALLS)
        if gathers(above) and path[depth] not in names and not walls:
            raise _refused(
                key, "", f"names {path[depth]}, which the plan does not have.", _nearest(draft, key)
            )


def _nearest(draft: Draft, key: str) -> str:
    """The key that was probably meant: one of the plan, or one that a part of the plan may have."""
    known = dict.fromkeys(_keys_in(draft.values))
    above = path_of(key)[:-1]
    here = spot_at(above)
    if here is not None and draft.at(above) is not None:
        known |= dict.fromkeys(dotted((*above, name)) for name in here.keys)
    near = difflib.get_close_matches(key, known, 1, 0.6)
    return f"Did you mean {near[0]}?" if near else "The keys of the plan file are what may be varied."


def _keys_in(values: Any, path: Path = ()) -> Iterator[str]:
    """Dotted keys of all values in a table."""
    for name, inner in values.items() if isinstance(values, Mapping) else ():
        here = (*path, name)
        if isinstance(inner, Mapping):
            yield from _keys_in(inner, here)
        else:
            yield dotted(here)


def _values(draft: Draft, place: Place, typed: str) -> list[Value]:
    """The values that typed words stand for."""
    kind = kind_of(place.spot)
    ends = typed.split(DOTS)
    if len(ends) == 2 and "" not in (ends[0].strip(), ends[1].strip()) and kind in _SIGNS:
        if "," in typed or ";" in typed:
            raise QuantityError(
                f'"{typed}"', "mixes a range with a list.", "Write one or the other, decimals with a point."
            )
        return _between(draft, place, (ends[0], ends[1]))
    if DOTS in typed and len(ends) != 3:
        raise QuantityError(
            f'"{typed}"',
            'has ".." where there is nothing between two values.',
            "List the values with commas between them.",
        )
    parts = [part.strip() for part in typed.split(";" if ";" in typed else ",")]
    if "" in parts:
        raise QuantityError(f'"{typed}"', "has an empty value in it.", "Take one comma out.")
    shared = isinstance(place.spot.typed, Typed) and place.spot.typed.read is None
    parts = with_units(parts) if shared and len(parts) > 1 else parts
    return [_put(draft, place, part) for part in parts]


def _between(draft: Draft, place: Place, ends: tuple[str, str]) -> list[Value]:
    """The values from end to end."""
    first, last = ends
    found = _COUNT.search(last)
    count = int(found[1]) if found else None
    last = last[: found.start()] if found else last
    if count is not None and not 2 <= count <= MOST_VALUES:
        raise QuantityError(f'":{count}"', "is not a number of values.", f"Write :2 to :{MOST_VALUES}.")
    if kind_of(place.spot) == "whole":
        return list(whole_steps((first, last), count))
    kind = place.spot.typed if isinstance(place.spot.typed, Typed) else None
    return [_put(draft, place, text) for text in stepped((first, last), count, kind, draft.gallon)]


def _put(draft: Draft, place: Place, typed: str) -> Value:
    value = value_typed(place.spot, typed, draft.at(place.path))
    return typed if value is None else value


def _numbers(draft: Draft, place: Place, texts: tuple[str, ...]) -> tuple[tuple[float, ...], str]:
    """The values as numbers with their SI unit; nothing where one of them is a word."""
    kind = place.spot.typed
    try:
        if isinstance(kind, Typed) and kind.read is None:
            found = tuple(float(parse(text, kind.dimension, draft.gallon)) for text in texts)
            return found, DIMENSIONS[kind.dimension].si
        if kind_of(place.spot) in ("number", "whole"):
            return tuple(map(float, texts)), "1"
        if kind_of(place.spot) == "price":
            prices = [parse_price(text, draft.gallon) for text in texts]
            units = {f"{price.currency}/{price.per}".rstrip("/") for price in prices}
            return (
                (tuple(float(price.amount) for price in prices), units.pop()) if len(units) == 1 else ((), "")
            )
    except (QuantityError, ValueError):
        return (), ""
    return (), ""
