"""The forms of a plan, made from its text and the model; of the whole plan, of one part, of a part to be added."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from tidestead.core.units import System
from tidestead.plan.editing import path_of
from tidestead.plan.forms.bought import moneys_of
from tidestead.plan.forms.draft import Draft
from tidestead.plan.forms.filling import Filling
from tidestead.plan.forms.groups import Gathering, gatherings
from tidestead.plan.forms.landing import with_faults
from tidestead.plan.forms.leaves import gathers, is_table
from tidestead.plan.forms.naming import title_of
from tidestead.plan.forms.own import called, is_row, tables_named
from tidestead.plan.forms.places import Place, place_at, places_under
from tidestead.plan.forms.shapes import Addable, Field, Form, Group, Sheet
from tidestead.plan.forms.words import kind_of_part, label_of, told_of_part
from tidestead.plan.merging import SHARED
from tidestead.plan.model import FACES, Plan
from tidestead.plan.outline import Spot
from tidestead.plan.own_rows import KEY as YOURS
from tidestead.plan.seen import Seen
from tidestead.plan.shape import wall_names
from tidestead.plan.statements import Path, dotted


def sheet_of(draft: Draft, assumed: Mapping[str, str] | None = None, system: System | None = None) -> Sheet:
    """Every form of a plan, in groups, each fault in its place.

    `assumed` says by dotted key what answers take where the file is silent. Numbers of catalogue rows and examples are
    told in the units of the plan, or of the system given.
    """
    maker = _Maker(draft, Filling(draft, assumed or {}, system or draft.system))
    groups = [maker.group(one) for one in gatherings(tuple(Plan.model_fields))]
    return with_faults(groups, draft.faults)


def form_at(sheet: Sheet, key: str) -> Form | None:
    """The form of one table of the plan; None where it has none."""
    return next((form for form in sheet.all_forms if form.key == key and key), None)


def field_at(draft: Draft, key: str, assumed: str = "", system: System | None = None) -> Field | None:
    """The field of one value, whether or not the file has its table yet; None where the plan knows no such key."""
    place = place_at(path_of(key))
    if place is None or is_table(place.spot):
        return None
    made = Filling(draft, {key: assumed} if assumed else {}, system or draft.system).field(place)
    faults = tuple(fault for fault in draft.faults if fault.where == key or fault.where.startswith(f"{key}["))
    return replace(made, faults=faults)


def blank_form(draft: Draft, key: str, system: System | None = None) -> Form | None:
    """An empty form for a part that is to be added, with the tables it must have; None where none may stand there."""
    path = path_of(key)
    place = place_at(path)
    if place is None or not is_table(place.spot) or (gathers(place.spot) and not is_row(path)):
        return None
    return _Maker(draft, Filling(draft, {}, system or draft.system), blank=True).table(
        place, title=title_of(path, place.spot)
    )


@dataclass
class _Maker:
    draft: Draft
    filling: Filling
    blank: bool = False
    _open: set[Path] = field(default_factory=set)

    def group(self, gathering: Gathering) -> Group:
        """A group: one form for its plain values, then one for each of its tables."""
        known = {place.key: place for place in places_under((), Spot(Plan))}
        places = [known[key] for key in gathering.keys]
        plain = tuple(self.filling.field(place) for place in places if not is_table(place.spot))
        forms = [Form("", gathering.title, gathering.told, plain)] if plain else []
        forms += [self.table(place) for place in places if is_table(place.spot)]
        return Group(gathering.name, gathering.title, gathering.told, tuple(forms))

    def table(self, place: Place, title: str = "") -> Form:
        """The form of a table with all that is in it."""
        here, path = place.spot, place.path
        told = place.told or (told_of_part(here.model) if here.model else "")
        title = title or label_of(place.key)
        there = self.draft.at(path) is not None and len(path) > 1
        if gathers(here) and not is_row(path):
            made = self._gathering(place, title, told)
            return replace(made, can_remove=there)
        fields, parts, more = [], [], []
        for inner in places_under(path, here):
            if not is_table(inner.spot):
                fields.append(self.filling.field(inner))
            elif self._shown(inner):
                parts.append(self.table(inner))
            else:
                more.append(self._addable(inner))
        fields += self.filling.strange(path, here)
        return Form(dotted(path), title, told, tuple(fields), tuple(parts), tuple(more), can_remove=there)

    def _shown(self, place: Place) -> bool:
        """Whether a table has a form: it is in the file, or it must be filled in with the part that is added."""
        if self.blank:
            return place.needed
        return isinstance(self.draft.at(place.path), dict)

    def _gathering(self, place: Place, title: str, told: str) -> Form:
        """The form of a table of named parts."""
        path, inner = place.path, place.spot.under("")
        values = self.draft.at(path)
        parts = [
            self._named(Place((*path, name), inner))
            for name, value in (values.items() if isinstance(values, dict) else ())
            if isinstance(value, dict) and inner is not None
        ]
        return Form(
            dotted(path), title, told, (), tuple(parts), tuple(self._may_add(place, parts)), gathers=True
        )

    def _named(self, place: Place) -> Form:
        """The form of one of the named parts."""
        made = self.table(place, title_of(place.path, place.spot))
        whole = place.spot.model is not None or is_row(place.path)
        return replace(made, can_copy=whole, can_remove=True)

    def _may_add(self, place: Place, parts: list[Form]) -> Iterator[Addable]:
        if place.path == (YOURS,):
            for name in tables_named():
                yield Addable(dotted((YOURS, name)), called(name), "", named=True)
            return
        yield self._addable(place, {part.name for part in parts})

    def _addable(self, place: Place, taken: set[str] | None = None) -> Addable:
        """A table that may be added; of named parts, one more of them."""
        inner = place.spot.under("") if gathers(place.spot) else place.spot
        model = inner.model if inner else None
        told = place.told or (told_of_part(model) if model else "")
        if not gathers(place.spot):
            return Addable(dotted(place.path), label_of(place.key), told)
        names, only = _names_for(self.draft, place.path)
        free = tuple(name for name in names if name not in (taken or ()))
        title = kind_of_part(model) if model else "Row"
        return Addable(dotted(place.path), title, told, named=True, names=free, only=only)


def _names_for(draft: Draft, path: Path) -> tuple[tuple[str, ...], bool]:
    """Names that parts of a table may have, and whether no others may."""
    if path[-1] == "walls" and path[0] == "vessels":
        walls = wall_names(_seen(draft, path[:-1]))
        return (SHARED, *walls), bool(walls)
    if path == ("building", "sides"):
        return FACES, True
    if path == ("rates",):
        return moneys_of(draft), True
    return (), False


def _seen(draft: Draft, path: Path) -> Seen:
    values: Any = draft.at(path)
    return Seen(path, values if isinstance(values, dict) else {}, draft.gallon)
