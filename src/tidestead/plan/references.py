"""Where a plan names one of its parts elsewhere: a heater its vessel, a circuit its ports, a route its valves,
an electric circuit what hangs on it, a row of the price book what it is of.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tidestead.plan.editing import path_of, with_value
from tidestead.plan.flow_fields import NAMED_KINDS, RouteItem
from tidestead.plan.forms.leaves import is_list, item_of, names_part, names_port
from tidestead.plan.items import PARTS
from tidestead.plan.items import Item as BoughtItem
from tidestead.plan.outline import Spot, spot_at
from tidestead.plan.parts import renamed
from tidestead.plan.statements import Path
from tidestead.plan.toml import values_in
from tidestead.plan.water_fields import ON_TABLES, OnCircuit

_NAMES_IN = {"source": "sources", "shares": "electrics"}
"""Keys that name a part which is no vessel, and the table it stands in."""
_ROUTED = {"valves": "valve", "pumps": "pump", "apparatus": "apparatus"}


def renamed_everywhere(text: str, key: str, new_name: str) -> str:
    """The text with a part under another name, there and wherever the plan names it. Raises a PlanError."""
    path, values = path_of(key), values_in(text)
    text = renamed(text, key, new_name)
    for place, words in _naming(values, path, new_name):
        here = place if place[: len(path)] != path else (*path[:-1], new_name, *place[len(path) :])
        text = with_value(text, here, words)
    return text


def _naming(values: Any, path: Path, new: str) -> Iterator[tuple[Path, str]]:
    """Every place that names a part, with the words that name it anew."""
    for place, here, words in _texts(values, ()):
        again = (
            _part_anew(str(place[-1]), words, path, new)
            if names_part(here)
            else _anew(here, words, path, new)
        )
        if again != words:
            yield place, again


def _part_anew(key: str, words: str, path: Path, new: str) -> str:
    """The words at a place that names a whole part."""
    named = (_NAMES_IN.get(key, "vessels"), words)
    return new if tuple(path) == named else words


def _texts(values: Any, path: Path) -> Iterator[tuple[Path, Spot, str]]:
    """Every text of the plan with its place and what may stand there."""
    if isinstance(values, dict):
        for key, value in values.items():
            yield from _texts(value, (*path, key))
    elif (here := spot_at(path)) is not None:
        if isinstance(values, list) and is_list(here):
            inner = item_of(here)
            yield from (((*path, at), inner, item) for at, item in enumerate(values) if isinstance(item, str))
        elif isinstance(values, str):
            yield path, here, values


def _anew(here: Spot, words: str, path: Path, new: str) -> str:
    """The words at a place once a part has its new name."""
    table, name = path[0], str(path[-1])
    vessel = table == "vessels" and len(path) == 2
    port = table == "vessels" and len(path) == 4 and path[2] == "ports"
    if names_port(here):
        if vessel and words.startswith(f"{name}."):
            return f"{new}{words[len(name) :]}"
        if port and words == f"{path[1]}.{name}":
            return f"{path[1]}.{new}"
        return new if table == "outfalls" and words == name else words
    if here.annotation is BoughtItem:
        sort, _, bought = words.partition(" ")
        return f"{sort} {new}" if PARTS.get(sort) == table and bought.strip() == name else words
    kind = _kind_of(here, str(table))
    return f"{kind} {new}" if kind and words.split() == [kind, name] else words


def _kind_of(here: Spot, table: str) -> str:
    """What a part of a table is called where it is an item of a route, or hangs on an electric circuit."""
    if here.annotation is OnCircuit:
        return next((kind for kind, one in ON_TABLES.items() if one == table), "")
    kind = _ROUTED.get(table, "")
    return kind if here.annotation is RouteItem and kind in NAMED_KINDS else ""
