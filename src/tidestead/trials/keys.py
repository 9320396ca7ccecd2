"""Keys of the plan that changes set: which of them meet."""

from __future__ import annotations

from collections.abc import Collection


def meets(key: str, sets: Collection[str]) -> bool:
    """Whether one of these is the key, or a table that it stands in."""
    return any(key == one or key.startswith((f"{one}.", f"{one}[")) for one in sets)


def apart(mine: Collection[str], theirs: Collection[str]) -> bool:
    """Whether two sets of keys have none in common, nor one a table that the other has something in."""
    return not any(meets(key, theirs) for key in mine) and not any(meets(key, mine) for key in theirs)
