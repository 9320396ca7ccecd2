"""Every place under a table of the plan: its key, what it may hold, what it means, and whether it must be there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from pydantic import BaseModel

from tidestead.plan.forms.own import is_row, row_places
from tidestead.plan.forms.words import told_of
from tidestead.plan.outline import Spot, spot, spot_at
from tidestead.plan.statements import Path


@dataclass(frozen=True)
class Place:
    """One key of a table."""

    path: Path
    spot: Spot
    told: str = ""
    needed: bool = False
    default: object = None
    of: type[BaseModel] | None = None

    @property
    def key(self) -> str:
        return str(self.path[-1])


def places_under(path: Path, here: Spot) -> Iterator[Place]:
    """The keys that a table may have; none where its parts are named by the user."""
    if here.model is not None:
        for key, inner, told, needed, default in _keys_of(here.model):
            yield Place((*path, key), inner, told, needed, default, here.model)
    elif is_row(path):
        for key, (inner, told) in row_places(str(path[1])).items():
            yield Place((*path, key), inner, told)


@cache
def _keys_of(model: type[BaseModel]) -> tuple[tuple[str, Spot, str, bool, object], ...]:
    """Of each key of a model: its place, what it means, whether it must be there, what is taken else."""
    found = []
    for key, info in model.model_fields.items():
        default = None if info.is_required() else info.get_default(call_default_factory=True)
        inner = spot(info.annotation, tuple(info.metadata))
        found.append((key, inner, told_of(model, key), info.is_required(), default))
    return tuple(found)


def place_at(path: Path) -> Place | None:
    """The place at a path, be it in the file or not; None where the plan knows none."""
    if not path:
        return None
    here = spot_at(path[:-1])
    if here is None:
        return None
    known = next((place for place in places_under(path[:-1], here) if place.key == path[-1]), None)
    if known is not None:
        return known
    inner = here.under(path[-1])
    return Place(path, inner) if inner is not None and (here.model is None) else None
