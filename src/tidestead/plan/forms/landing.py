"""Each fault at the field it speaks of; else at the nearest table above; else at the plan as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from tidestead.core.errors import Fault
from tidestead.plan.forms.shapes import Form, Group, Sheet


def with_faults(groups: Iterable[Group], faults: Iterable[Fault]) -> Sheet:
    """The groups with every fault in its one place."""
    groups = tuple(groups)
    known = {key for group in groups for form in group.all_forms for key in _keys_of(form)}
    landed: dict[str, list[Fault]] = {}
    lost: list[Fault] = []
    for fault in faults:
        place = next((key for key in ways_up(fault.where) if key in known), None)
        (lost if place is None else landed.setdefault(place, [])).append(fault)
    told = tuple(replace(group, forms=tuple(_with(form, landed) for form in group.forms)) for group in groups)
    return Sheet(told, tuple(lost))


def ways_up(where: str) -> Iterator[str]:
    """A dotted key, then what it stands in, and so on: at[2], at, the table of `at` ..."""
    while where:
        yield where
        where = where[: max(where.rfind("."), where.rfind("["), 0)]


def _keys_of(form: Form) -> Iterator[str]:
    if form.key:
        yield form.key
    for field in form.fields:
        yield field.key


def _with(form: Form, landed: dict[str, list[Fault]]) -> Form:
    if not landed:
        return form
    fields = tuple(
        replace(field, faults=tuple(landed[field.key])) if field.key in landed else field
        for field in form.fields
    )
    parts = tuple(_with(part, landed) for part in form.parts)
    own = tuple(landed.get(form.key, ())) if form.key else ()
    return replace(form, fields=fields, parts=parts, faults=own)
