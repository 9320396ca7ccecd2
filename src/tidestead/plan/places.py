"""Where in the plan the part stands that a check or a drawing names."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from typing import Any

from tidestead.core.kept import kept
from tidestead.plan.merging import SHARED
from tidestead.plan.outline import spot_at
from tidestead.plan.statements import Path, dotted

_SIDES = "walls"
"""The table whose shared part describes what the others of it leave out."""


def names_in(values: Mapping[str, Any]) -> Hashable:
    """The names of all tables, without what they hold."""
    return tuple((key, names_in(inner)) for key, inner in values.items() if isinstance(inner, Mapping))


@kept(at_most=8, by=names_in)
def key_finder(values: Mapping[str, Any]) -> Callable[[str], str]:
    """`key_of_part` for one plan, which finds each part once for as long as no table comes, goes or is renamed."""
    found: dict[str, str] = {}

    def find(part: str) -> str:
        if part not in found:
            found[part] = key_of_part(values, part)
        return found[part]

    return find


def key_of_part(values: Mapping[str, Any], part: str) -> str:
    """The dotted key of the table that describes a part, such as vessels.reef.walls.south for reef.south.

    `values` are the plan's as read from TOML. Names of parts leave out the tables that only hold named parts; what the
    plan does not spell out itself, such as the joint of a stud, is described where it belongs to, and what a wall
    leaves to all walls, where those are described. Empty where nothing in the plan bears the name.
    """
    path, rest = _followed(values, (), part.split(".") if part else [])
    if rest and _SIDES in path[:-1]:
        side = path.index(_SIDES) + 1
        names = [*map(str, path[side + 1 :]), *rest]
        shared, left = _followed(values, (*path[:side], SHARED), names)
        if len(left) < len(rest):
            return dotted(shared)
    return dotted(path)


def _followed(values: Mapping[str, Any], path: Path, names: list[str]) -> tuple[Path, list[str]]:
    """As far as names lead from a path, and those that are left."""
    here: Any = values
    for key in path:
        here = here.get(key, {}) if isinstance(here, Mapping) else {}
    for number, name in enumerate(names):
        step = _step(path, here, name)
        if not step:
            return path, names[number:]
        for key in step:
            here = here[key]
        path = (*path, *step)
    return path, []


def _step(path: Path, here: Any, name: str) -> Path:
    """The key itself, or the table of named parts that holds it, or any table that does; empty where none does."""
    if not isinstance(here, Mapping):
        return ()
    if isinstance(here.get(name), Mapping):
        return (name,)
    tables = ((key, inner) for key, inner in here.items() if isinstance(inner, Mapping))
    holding = [key for key, inner in tables if isinstance(inner.get(name), Mapping)]
    named = [key for key in holding if _names_its_parts((*path, key))]
    return (*(named or holding)[:1], name) if holding else ()


def _names_its_parts(path: Path) -> bool:
    """Whether the parts of a table bear names of the user's."""
    spot = spot_at(path)
    return spot is not None and spot.model is None
