"""What a part of the plan, or one of its values, is called in plain words."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.errors import PlanError
from tidestead.plan.editing import path_of
from tidestead.plan.forms.leaves import gathers, is_table
from tidestead.plan.forms.own import called, is_row
from tidestead.plan.forms.words import kind_of_part, label_of
from tidestead.plan.merging import SHARED
from tidestead.plan.outline import Spot, spot_at
from tidestead.plan.statements import Path

_TOLD = 3
"""Keys that are named where several are told; the others are counted."""


def title_of(path: Path, here: Spot) -> str:
    """What a part is called: of a named one, what it is and its name."""
    above = spot_at(path[:-1])
    named = above is not None and gathers(above)
    if not named:
        return label_of(str(path[-1]))
    if path[-2:] == ("walls", SHARED):
        return "What all walls share"
    if here.model is not None:
        return f"{kind_of_part(here.model)} {path[-1]}"
    words = label_of(called(str(path[1])))
    return words if len(path) == 2 else f"{words}: {path[-1]}"


def words_of_key(key: str) -> str:
    """A key in words, such as "Vessel basin, wall south, window long: thickness"; as it is where it means nothing."""
    try:
        path = path_of(key)
    except PlanError:
        return key
    while path and isinstance(path[-1], int):  # an item of a list is told as the list
        path = path[:-1]
    ways = [path[:depth] for depth in range(1, len(path) + 1)]
    spots = [spot_at(way) for way in ways]
    if not spots or None in spots:
        return key
    tables = [
        title_of(way, spot)
        for way, spot in zip(ways, spots, strict=True)
        if spot is not None and (is_row(way) or (is_table(spot) and (way == path or not gathers(spot))))
    ]
    told = ", ".join([*tables[:1], *map(_lowered, tables[1:])])
    if spots[-1] is not None and is_table(spots[-1]):
        return told
    return f"{told}: {_lowered(label_of(str(path[-1])))}" if told else label_of(str(path[-1]))


def words_of_keys(keys: Sequence[str]) -> str:
    """Several keys in words; of many the first, and how many more."""
    told = "; ".join(map(words_of_key, keys[:_TOLD]))
    return told + (f"; and {len(keys) - _TOLD} more" if len(keys) > _TOLD else "")


def _lowered(words: str) -> str:
    """Words inside a line; what is written in capitals stays."""
    return words if words[:2].isupper() else words[:1].lower() + words[1:]
