"""In which order what was assumed is told: what carries the load first, then the water, weather last."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple


class Batch(NamedTuple):
    """What is told together: its title, and patterns of the keys that belong to it, those that matter most first."""

    title: str
    keys: tuple[str, ...]


_VESSEL = r"vessels\.[^.]+"
BATCHES = (
    Batch(
        "The foot of the walls, and the ground",
        (
            rf"{_VESSEL}\.walls\.[^.]+\.base\.(capacity|spacing|diameter|bears_on|tie)\b",
            rf"{_VESSEL}\.walls\.[^.]+\.base\b",
            rf"{_VESSEL}\.stands_on\.(soil|slab_thickness|floor)\b",
            rf"{_VESSEL}\.stands_on\b",
        ),
    ),
    Batch(
        "The window",
        (rf"{_VESSEL}\.walls\.[^.]+\.windows\.[^.]+\.opening\b", rf"{_VESSEL}\.walls\.[^.]+\.windows\b"),
    ),
    Batch(
        "Timber, sheets and fasteners",
        (rf"{_VESSEL}\.(walls|ties|corners)\b", rf"{_VESSEL}\.wood$", r"building\.(warmest_wood|humidity)$"),
    ),
    Batch("The vessel, its lining and its test fill", (rf"{_VESSEL}\.brim$", rf"{_VESSEL}\.(?!ports\b)")),
    Batch(
        "How the water goes round", (r"pumps\b", r"(vessels|valves|circuits|apparatus|outfalls|targets)\b")
    ),
    Batch("The water, its warmth and its light", (r"(water|heaters|chillers|lamps|corals|covers|fans)\b",)),
    Batch("The house over it", (r"building\b",)),
    Batch("The weather", (r"(weather|site)\b",)),
)
REST = "Everything else"
_RANKED = tuple((one.title, re.compile(keys)) for one in BATCHES for keys in one.keys)


def title_for(key: str) -> str:
    """The title under which a key of the plan is told."""
    return next((title for title, keys in _RANKED if keys.match(key)), REST)


def loads_first(keys: Iterable[str]) -> tuple[str, ...]:
    """Keys in the order in which they are told; those of one rank stay as they come."""
    return tuple(sorted(keys, key=_rank))


def _rank(key: str) -> int:
    return next((rank for rank, (_, keys) in enumerate(_RANKED) if keys.match(key)), len(_RANKED))
