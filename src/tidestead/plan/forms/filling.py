"""The fields of a table, filled with what stands in the file."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from tidestead.catalog.rows import row_names
from tidestead.core.units import System
from tidestead.plan.fields import Named
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.forms.bought import items_known
from tidestead.plan.forms.choices import choices_of
from tidestead.plan.forms.draft import Draft
from tidestead.plan.forms.echoes import reading_back, told
from tidestead.plan.forms.leaves import (
    examples_of,
    is_list,
    item_of,
    items_wanted,
    kind_of,
    names_part,
    names_port,
)
from tidestead.plan.forms.own import LIKE, is_row
from tidestead.plan.forms.places import Place, places_under
from tidestead.plan.forms.shapes import Choice, Field, Kind
from tidestead.plan.forms.words import label_of
from tidestead.plan.items import Item as BoughtItem
from tidestead.plan.merging import SHARED
from tidestead.plan.model import Bulkhead, StandsOn
from tidestead.plan.outline import Spot
from tidestead.plan.own_rows import KEY as YOURS
from tidestead.plan.ports import FLOOR
from tidestead.plan.seen import Seen
from tidestead.plan.shape import wall_names
from tidestead.plan.statements import Path, dotted


@dataclass(frozen=True)
class Filling:
    """A draft, by key what answers take where it is silent, and the units that numbers are told in."""

    draft: Draft
    assumed: Mapping[str, str]
    system: System

    def field(self, place: Place) -> Field:
        """One value with all that a form tells of it."""
        here, path = place.spot, place.path
        choices, kind = self._choices(place), kind_of(here)
        return Field(
            dotted(path),
            label_of(place.key),
            place.told,
            _kind(here, kind, choices),
            self._typed(here, path),
            self._echo(here, path, choices),
            place.needed,
            examples_of(here, place.key, self.system, self._currency()),
            choices,
            self._assumed(place),
            items_wanted(here) if is_list(here) else 0,
            there=self.draft.at(path[:-1]) is not None,
        )

    def _currency(self) -> str:
        """The money that the plan counts in; empty where it says none, or what is none."""
        named = self.draft.at(("currency",))
        return named if isinstance(named, str) and re.fullmatch("[A-Z]{3}", named) else ""

    def strange(self, path: Path, here: Spot) -> Iterator[Field]:
        """Values in the file whose keys mean nothing: they can be seen, and taken out."""
        values = self.draft.at(path)
        if not isinstance(values, dict) or (here.model is None and not is_row(path)):
            return
        known = {place.key for place in places_under(path, here)}
        for key, value in values.items():
            if key not in known and not isinstance(value, dict):
                spelt = self.draft.typed((*path, key))
                told = "This key means nothing here."
                yield Field(dotted((*path, key)), key, told, "unknown", spelt, there=True)

    def _typed(self, here: Spot, path: Path) -> str:
        value = self.draft.at(path)
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, list) and is_list(here):
            items = (self.draft.typed((*path, at)) for at in range(len(value)))
            return "\n".join(" ".join(item.split()) for item in items)
        return self.draft.typed(path)

    def _echo(self, here: Spot, path: Path, choices: tuple[Choice, ...]) -> str:
        value, gallon = self.draft.at(path), self.draft.gallon
        if value is None:
            return ""
        if isinstance(value, list) and is_list(here):
            inner = item_of(here)
            items = [reading_back(inner, self.draft.typed((*path, at)), gallon) for at in range(len(value))]
            return "\n".join(items) if any(items) else ""
        if isinstance(here.typed, Named):
            row = next((choice for choice in choices if choice.value == value), None)
            return f"{row.label}: {row.told}" if row and row.told else row.label if row else ""
        return "" if kind_of(here) == "whole" else reading_back(here, self.draft.typed(path), gallon)

    def _choices(self, place: Place) -> tuple[Choice, ...]:
        here = place.spot
        if isinstance(here.typed, Named):
            rows = self.draft.at((YOURS, here.typed.table))
            yours = rows if isinstance(rows, dict) else {}
            return choices_of(here.typed.table, yours, self.draft.gallon, self.system)
        if place.key == LIKE and is_row(place.path[:-1]):
            return choices_of(str(place.path[1]), {}, self.draft.gallon, self.system)
        if here.words:
            return tuple(Choice(word, word) for word in here.words)
        return tuple(Choice(name, name) for name in self._names(place))

    def _names(self, place: Place) -> tuple[str, ...]:
        """Names of other parts of the plan that may stand here."""
        whole = Seen((), self.draft.values, self.draft.gallon)
        if names_part(place.spot):
            return tuple(name for name, _ in whole.parts(_NAMED.get(place.key, "vessels")))
        if names_port(place.spot):
            return tuple(_ports(whole))
        if is_list(place.spot) and item_of(place.spot).annotation is RouteItem:
            return tuple(_passable(whole))
        if place.spot.annotation is BoughtItem:
            return items_known(self.draft, self.system)
        walled = {(StandsOn, "falls_to"): (), (Bulkhead, "wall"): (FLOOR,)}
        if place.of and (place.of, place.key) in walled:
            values: Any = self.draft.at(place.path[:2])
            vessel = Seen(place.path[:2], values if isinstance(values, dict) else {}, self.draft.gallon)
            return (*wall_names(vessel), *walled[place.of, place.key])
        return ()

    def _assumed(self, place: Place) -> str:
        """What is taken where the file is silent: as an answer says, as all walls have it, as the model has it."""
        key = dotted(place.path)
        if key in self.assumed:
            return self.assumed[key]
        path = place.path
        if path[0] == "vessels" and path[2:3] == ("walls",) and len(path) > 4 and path[3] != SHARED:
            shared = self._typed(place.spot, (*path[:3], SHARED, *path[4:]))
            if shared:
                return f"{shared}, as said of all its walls"
        return self._default(place)

    def _default(self, place: Place) -> str:
        value = place.default
        if value is None or value == ():
            return ""
        if isinstance(value, bool):
            return "yes" if value else "no"
        return told(place.spot, value)


def _kind(here: Spot, kind: Kind, choices: tuple[Choice, ...]) -> Kind:
    """How a value is edited whose names are known: a vessel is picked, other names may be typed."""
    if not choices:
        return kind
    return "choice" if names_part(here) else "name" if kind == "words" else kind


_NAMED = {"source": "sources", "shares": "electrics"}
"""Keys that name a part which is no vessel, with the table that it stands in."""


def _passable(whole: Seen) -> Iterator[str]:
    """What water can pass, without the lengths: the named things of this plan, then the fittings."""
    for word, key in (("valve", "valves"), ("pump", "pumps"), ("apparatus", "apparatus")):
        yield from (f"{word} {name}" for name, _ in whole.parts(key))
    yield from row_names("fittings")


def _ports(whole: Seen) -> Iterator[str]:
    """Every port as a circuit names it, then the junctions that other circuits name, then the outfalls."""
    for name, vessel in whole.parts("vessels"):
        for port, _ in vessel.parts("ports"):
            yield f"{name}.{port}"
    ends = [circuit.word(side) for _, circuit in whole.parts("circuits") for side in ("start", "end")]
    yield from dict.fromkeys(end for end in ends if end and "." not in end)
    yield from (name for name, _ in whole.parts("outfalls"))
