"""What may stand at any place of a plan: the keys known there and the kind of value each takes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from tidestead.core.units import System
from tidestead.plan.fields import Named, Typed
from tidestead.plan.model import Plan
from tidestead.plan.price_fields import PriceOf, usual_money
from tidestead.plan.statements import Path


@dataclass(frozen=True)
class Spot:
    """One place in a plan. `keys` are the fields known under it; a table of named parts has none."""

    annotation: Any
    metadata: tuple[Any, ...] = ()

    @cached_property
    def model(self) -> type[BaseModel] | None:
        kind = self.annotation
        return kind if isinstance(kind, type) and issubclass(kind, BaseModel) else None

    @property
    def keys(self) -> Mapping[str, FieldInfo]:
        return self.model.model_fields if self.model else {}

    @cached_property
    def words(self) -> tuple[str, ...]:
        """The words that may be written here, where only certain ones may."""
        return tuple(map(str, get_args(self.annotation))) if get_origin(self.annotation) is Literal else ()

    @cached_property
    def typed(self) -> Typed | Named | None:
        return next((item for item in self.metadata if isinstance(item, Typed | Named)), None)

    def under(self, part: str | int) -> Spot | None:
        """The place one step further in."""
        if self.model:
            found = self.model.model_fields.get(str(part))
            return spot(found.annotation, tuple(found.metadata)) if found else None
        if get_origin(self.annotation) in (dict, tuple):
            kinds = [kind for kind in get_args(self.annotation) if kind is not Ellipsis]
            return spot(kinds[-1])
        return None

    def example_in(self, system: System | None, key: str | None = None) -> str:
        """A value to copy, as it is written at a key in the file of a reader of one system."""
        if self.words:
            return " or ".join(f'"{word}"' for word in self.words)
        if isinstance(self.typed, Typed):
            first = self.typed.example(system, key)
            return first if first.replace(".", "").isdigit() else f'"{first}"'
        for item in self.metadata:
            if isinstance(item, PriceOf):
                return f'"{item.example(usual_money(system or "metric"))}"'
        return self._plain_example(system)

    def _plain_example(self, system: System | None) -> str:
        if self.annotation is bool:
            return "true"
        if self.annotation in (int, float):
            return "1"
        if get_origin(self.annotation) is tuple:
            inner = spot(get_args(self.annotation)[0])
            return f"[{inner.example_in(system)}]"
        if self.model or get_origin(self.annotation) is dict:
            return "{ ... }"
        return '"..."'


def spot(annotation: Any, metadata: tuple[Any, ...] = ()) -> Spot:
    """The place for an annotation, with its options and remarks unwrapped."""
    if get_origin(annotation) is Annotated:
        inner, *more = get_args(annotation)
        return spot(inner, (*metadata, *more))
    if get_origin(annotation) in (Union, UnionType):
        kinds = [kind for kind in get_args(annotation) if kind is not NoneType]
        return spot(kinds[0], metadata)
    return Spot(annotation, metadata)


@lru_cache(maxsize=2048)
def spot_at(path: Path) -> Spot | None:
    """The place a path leads to, or None where the plan knows none."""
    here: Spot | None = Spot(Plan)
    for part in path:
        here = here.under(part) if here else None
    return here


def known_keys(path: Path) -> tuple[str, ...]:
    """The keys known in the table at a path; empty where its parts are named by the user."""
    here = spot_at(path)
    return tuple(here.keys) if here else ()
