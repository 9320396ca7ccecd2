"""What one value of the plan is to a form: its kind, what may be picked, and what typed words mean there."""

from __future__ import annotations

import re
from datetime import date
from typing import Any, get_args, get_origin

from pydantic.fields import FieldInfo

from tidestead.core.errors import QuantityError
from tidestead.core.units import System
from tidestead.plan.book_fields import DAY_EXAMPLE, Day, read_day
from tidestead.plan.editing import Value
from tidestead.plan.fields import Named, PartName, Typed
from tidestead.plan.flow_fields import PortName
from tidestead.plan.forms.shapes import Kind
from tidestead.plan.outline import Spot, spot
from tidestead.plan.price_fields import PriceOf, usual_money

_WHOLE = re.compile(r"[+-]?[0-9]{1,15}")
_NUMBER = re.compile(r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{1,15})?|\.[0-9]{1,15})(?:[eE][+-]?[0-9]{1,2})?")
_YES, _NO = ("yes", "true"), ("no", "false")


def is_table(place: Spot) -> bool:
    """Whether a place holds keys or named parts, not a value."""
    return place.model is not None or gathers(place)


def gathers(place: Spot) -> bool:
    """Whether a place holds parts by names of the user's."""
    return get_origin(place.annotation) is dict


def is_list(place: Spot) -> bool:
    """Whether a place holds a list, an item to a line."""
    return place.typed is None and get_origin(place.annotation) is tuple


def kind_of(place: Spot) -> Kind:
    """How a value is edited."""
    if isinstance(place.typed, Named):
        return "catalogue"
    if isinstance(place.typed, Typed):
        return "whole" if place.typed.whole else "quantity"
    if place.words:
        return "choice"
    if is_list(place):
        return "list"
    plain: dict[Any, Kind] = {bool: "yes_no", int: "whole", float: "number"}
    if place.annotation in plain:
        return plain[place.annotation]
    if any(isinstance(item, PriceOf) for item in place.metadata):
        return "price"
    return "name" if names_part(place) or names_port(place) else "words"


def names_part(place: Spot) -> bool:
    """Whether the name of a vessel belongs here."""
    return get_args(PartName)[1] in place.metadata


def names_port(place: Spot) -> bool:
    """Whether the name of a port or a junction belongs here."""
    return get_args(PortName)[1] in place.metadata


def item_of(place: Spot) -> Spot:
    """The place of one item of a list."""
    return spot(get_args(place.annotation)[0])


def items_wanted(place: Spot) -> int:
    """How many items a list must have; 0 where that is free."""
    remarks = [
        inner
        for item in place.metadata
        for inner in (item.metadata if isinstance(item, FieldInfo) else (item,))
    ]
    return next((least for item in remarks if (least := getattr(item, "min_length", None))), 0)


def examples_of(place: Spot, key: str, system: System, currency: str = "") -> tuple[str, ...]:
    """What may be typed, that of the reader's own units and money first; nothing where the choices say it."""
    if is_list(place):
        return examples_of(item_of(place), key, system, currency)
    for item in place.metadata:
        if isinstance(item, PriceOf):
            return (item.example(currency or usual_money(system)),)
        if isinstance(item, Day):
            return (DAY_EXAMPLE,)
    if not isinstance(place.typed, Typed):
        return ()
    if place.typed.whole:
        return ()
    first = place.typed.example(system, key)
    more = () if first not in place.typed.shown_examples else place.typed.shown_examples
    return tuple(dict.fromkeys((first, *more)))


def value_typed(place: Spot, words: str, standing: Any = None) -> Value | None:
    """The value that typed words stand for, as it is written in the file; None where nothing was typed.

    Words that cannot stand here come back as they are: the reader tells what is wrong with them. `standing` is the
    value in the file now: a number without a unit stays a number, a yes stays one, a date of TOML too.
    """
    words = _unquoted(words.strip())
    if not words:
        return None
    kind = kind_of(place)
    if kind == "list":
        inner = item_of(place)
        items = [value_typed(inner, line) for line in words.splitlines()]
        return [item for item in items if item is not None] or None
    if (kind == "yes_no" or isinstance(standing, bool)) and words.lower() in (*_YES, *_NO):
        return words.lower() in _YES
    if kind == "whole" and _WHOLE.fullmatch(words):
        return int(words)
    if isinstance(standing, date):
        return _day(words)
    bare = kind == "number" or (isinstance(standing, int | float) and not isinstance(standing, bool))
    return _number(words) if bare and _NUMBER.fullmatch(words) else words


def _day(words: str) -> date | str:
    try:
        return read_day(words)
    except QuantityError:
        return words


def _number(words: str) -> int | float:
    return int(words) if _WHOLE.fullmatch(words) else float(words)


def _unquoted(words: str) -> str:
    """Words that were typed in the quotes that a file would need; a sign for inches at the end is no quote."""
    inside = words[1:-1]
    return inside.strip() if len(words) > 1 and words[0] == words[-1] == '"' and '"' not in inside else words
