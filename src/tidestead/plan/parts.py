"""Whole parts of a plan's text: added in one go, copied, renamed, taken out. All other text stays as typed.

Remarks inside a part go with it; those above its heading and behind its last line stay. What is copied and then
taken out leaves the text as it was, byte for byte. Each change is proved by the library's reader.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.editing import Value, path_of, with_value, without, written
from tidestead.plan.remarks import without_remarks
from tidestead.plan.sections import Layout, spelled
from tidestead.plan.statements import Path, dotted
from tidestead.plan.toml import own_values, values_in

_LONGEST_LINE = 110
"""Characters up to which a table of plain values stands in braces on one line, where that is how its kind stands."""


def is_there(text: str, path: Path) -> bool:
    """Whether a text that is TOML has a value or a table at a path."""
    return value_at(values_in(text), path) is not None


def with_part(text: str, key: str, values: Mapping[str, Value]) -> str:
    """The text with a new table and all its values. Raises a PlanError where it is there already, or has no value."""
    path = path_of(key)
    if is_there(text, path):
        raise _refused(path, "is there already.", "Give it another name.")
    if not values:
        raise _refused(path, "has nothing in it.", "Fill in at least one value.")
    braced = dict(values)
    one_line = f"{spelled(path[-1:])} = {written(braced)}"
    if Layout.of(text).in_braces(path) and len(one_line) <= _LONGEST_LINE:
        return with_value(text, path, braced)
    inner = {name: value for name, value in values.items() if isinstance(value, dict) and value}
    for name, value in values.items():
        if name not in inner:
            text = with_value(text, (*path, name), value)
    for name, table in inner.items():
        short = (
            all(not isinstance(value, dict) for value in table.values())
            and len(written(table)) < _LONGEST_LINE
        )
        here = (*path, name)
        text = with_value(text, here, table) if short else with_part(text, dotted(here), table)
    return text


def copied(text: str, key: str, new_name: str) -> str:
    """The text with a part once more, under another name, behind the first. Raises a PlanError."""
    path, new, values = _named_anew(text, key, new_name)
    wanted = deepcopy(values)
    value_at(wanted, path[:-1])[new_name] = deepcopy(value_at(values, path))
    layout = Layout.of(text)
    changes = layout.copy_of(path, new)
    if not changes:
        return with_value(text, new, value_at(values, path))
    return _proved(changes.applied(text), wanted, new)


def renamed(text: str, key: str, new_name: str) -> str:
    """The text with a part under another name. What names it elsewhere is not changed. Raises a PlanError."""
    path, new, values = _named_anew(text, key, new_name)
    wanted = deepcopy(values)
    parent = value_at(wanted, path[:-1])
    parent[new_name] = parent.pop(path[-1])
    changes = Layout.of(text).renaming(path, new)
    if not changes:
        return removed(with_value(text, new, value_at(values, path)), key)
    return _proved(changes.applied(text), wanted, new)


def removed(text: str, key: str) -> str:
    """The text without a value, or without a part and the remarks in it. Raises a PlanError where there is none."""
    path = path_of(key)
    wanted = own_values(text)
    if value_at(wanted, path) is None:
        raise _refused(path, "is not in the plan.", "Look at its name.")
    text = without_remarks(text, path)
    if any(isinstance(part, int) for part in path):
        return without(text, path)
    del value_at(wanted, path[:-1])[path[-1]]
    cuts = Layout.of(text).cuts(path)
    try:
        return _proved(cuts.applied(text), wanted, path)
    except PlanError:
        return without(text, path)


def _named_anew(text: str, key: str, new_name: str) -> tuple[Path, Path, dict[str, Any]]:
    """The path of a part, that of its new name, and the values of the plan."""
    path = path_of(key)
    values = own_values(text)
    new = (*path[:-1], new_name)
    if not isinstance(value_at(values, path), dict):
        raise _refused(path, "is not a part of the plan.", "Look at its name.")
    if not new_name.strip():
        raise _refused(path, "needs a name.", "Small letters, digits, - and _.")
    if value_at(values, new) is not None:
        raise _refused(new, "is there already.", "Give it another name.")
    return path, new, values


def value_at(values: Any, path: Path) -> Any:
    """What stands at a path of values; None where nothing does."""
    for part in path:
        if isinstance(values, dict):
            values = values.get(part)
        elif isinstance(values, list) and isinstance(part, int) and part < len(values):
            values = values[part]
        else:
            return None
    return values


def _proved(edited: str, wanted: dict[str, Any], path: Path) -> str:
    """The text, once the reader finds in it what is wanted; tables above the path may go with their last key."""
    try:
        got = dict(values_in(edited))
    except tomllib.TOMLDecodeError:
        got = {}
    for depth in range(len(path) - 1, -1, -1):
        if got == wanted:
            return edited
        if depth and value_at(wanted, path[:depth]) == {}:
            del value_at(wanted, path[: depth - 1])[path[depth - 1]]
    raise _refused(path, "cannot be changed here without changing more.", "Edit the file by hand.")


def _refused(path: Path, allowed: str, advice: str) -> PlanError:
    return PlanError((Fault(dotted(path), None, "", allowed, advice),))
