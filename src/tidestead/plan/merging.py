"""What walls share: `all` said once, and each wall's own words over it, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

from tidestead.plan.model import Part, Vessel, Wall

AnyPart = TypeVar("AnyPart", bound=Part)

SHARED = "all"


def wall_of(vessel: Vessel, name: str) -> Wall:
    """One wall of a vessel with everything `all` says that the wall does not say otherwise."""
    own = vessel.walls.get(name, Wall())
    shared = vessel.walls.get(SHARED)
    return own if shared is None else laid_over(shared, own)


def laid_over(shared: AnyPart, own: AnyPart) -> AnyPart:
    """A part with what it leaves out taken from another of its kind; parts within it likewise."""
    changed: dict[str, Any] = {}
    for name in own.model_fields_set:
        mine, theirs = getattr(own, name), getattr(shared, name)
        if isinstance(mine, Part) and isinstance(theirs, Part):
            changed[name] = laid_over(theirs, mine)
        elif isinstance(mine, dict) and isinstance(theirs, dict):
            changed[name] = theirs | {
                key: laid_over(theirs[key], value) if key in theirs else value for key, value in mine.items()
            }
        else:
            changed[name] = mine
    return shared.model_copy(update=changed)


def merged(shared: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    """The same for tables as read from a file."""
    both = dict(shared)
    for key, mine in own.items():
        theirs = both.get(key)
        both[key] = merged(theirs, mine) if isinstance(theirs, dict) and isinstance(mine, dict) else mine
    return both
