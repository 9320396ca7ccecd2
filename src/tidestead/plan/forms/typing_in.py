"""From words typed into a form to edits of the plan's text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tidestead.plan.editing import Value, path_of
from tidestead.plan.edits import Edit
from tidestead.plan.forms.draft import Draft
from tidestead.plan.forms.leaves import is_table, value_typed
from tidestead.plan.forms.places import place_at
from tidestead.plan.statements import Path


def edit_typed(draft: Draft, key: str, words: str) -> Edit:
    """The edit that words typed into a field make; nothing typed takes the value out. Raises a PlanError."""
    path = path_of(key)
    return Edit(key, _value(draft, path, words))


def part_typed(draft: Draft, key: str, words: Mapping[str, str]) -> Edit:
    """The edit that adds a part whole, from the words typed into its form by dotted key within it.

    Raises a PlanError where a key is none.
    """
    path = path_of(key)
    values: dict[str, Any] = {}
    for inner, typed in words.items():
        steps = path_of(inner)
        value = _value(draft, (*path, *steps), typed)
        if value is None:
            continue
        here = values
        for step in steps[:-1]:
            here = here.setdefault(str(step), {})
        here[str(steps[-1])] = value
    return Edit(key, values)


def _value(draft: Draft, path: Path, words: str) -> Value | None:
    place = place_at(path)
    if place is None or is_table(place.spot):
        return words.strip() or None
    return value_typed(place.spot, words, draft.at(path))
