"""From words typed into forms to changes of the plan: looked at, or saved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tidestead.core.errors import Fault, TidesteadError
from tidestead.plan.editing import path_of
from tidestead.plan.edits import Edit, edited
from tidestead.plan.forms import Draft, Field, edit_typed, field_at, part_typed, words_of_key
from tidestead.web.bench import Bench, StaleError
from tidestead.web.forms_bodies import PartIn, PartOn, TypedIn
from tidestead.web.forms_view import copy_of, draft_of


@dataclass(frozen=True)
class Seen:
    """What words would lead to: each field as it would be, and the faults that belong to none of them.

    `now` is what stands in the plan's file in place of each; `gone` are those whose table is not in it any more.
    """

    sound: bool
    fields: dict[str, Field]
    now: dict[str, str]
    others: tuple[Fault, ...]
    gone: frozenset[str] = frozenset()


def looked(bench: Bench, typed: Sequence[TypedIn]) -> Seen:
    """What words typed into fields would lead to. Raises a PlanError where they cannot be written."""
    draft = draft_of(bench)
    gone = frozenset(one.key for one in typed if _is_gone(draft, one))
    here = [one for one in typed if one.key not in gone]
    seen = _seen(bench, edited(bench.text, _edits(draft, here)), here)
    return replace(seen, sound=seen.sound and not gone, gone=gone)


def looked_part(bench: Bench, body: PartIn) -> Seen:
    """What the form of a new part would lead to. Raises a PlanError where it cannot be written."""
    return _seen(bench, with_new(bench, body), body.fields)


def save(bench: Bench, typed: Sequence[TypedIn], base: str) -> dict[str, str]:
    """Save words typed into fields; what each shows then.

    Raises StaleError where a field was changed elsewhere since it was shown, or its table has gone.
    """
    draft = draft_of(bench)
    _must_be_as_shown(draft, typed)
    bench.save(_edits(draft, typed), base, ", ".join(_told(one) for one in typed))
    return {one.key: _now(draft_of(bench), one.key) for one in typed}


def try_out(bench: Bench, typed: Sequence[TypedIn], base: str) -> dict[str, str]:
    """Answer for words typed into fields without saving them; what each would show. Raises as `save`."""
    draft = draft_of(bench)
    _must_be_as_shown(draft, typed)
    bench.try_out(_edits(draft, typed), base)
    then = Draft.of(bench.trial.loaded.text if bench.trial else bench.text, bench.path.name)
    return {one.key: _now(then, one.key) for one in typed}


class TakenError(TidesteadError):
    """A part is there already under the name of a new one."""


def with_new(bench: Bench, body: PartIn | PartOn) -> str:
    """The text with a new part, whole. Raises a PlanError where it cannot be added, TakenError where one is there."""
    if draft_of(bench).at(path_of(body.key)) is not None:
        raise TakenError(
            f"{words_of_key(body.key)} is there already; nothing was saved. Look at that one first."
        )
    if body.like:
        text = copy_of(bench.text, body.like, body.key)
        return edited(text, _edits(Draft.of(text, bench.path.name), body.fields))
    inner = {one.key.removeprefix(f"{body.key}."): one.words for one in body.fields}
    return edited(bench.text, [part_typed(draft_of(bench), body.key, inner)])


def _must_be_as_shown(draft: Draft, typed: Sequence[TypedIn]) -> None:
    for one in typed:
        if _is_gone(draft, one):
            raise StaleError(
                f"The part that {one.key} stands in is no longer in the plan, or has another name. Nothing was saved."
            )
        now = _now(draft, one.key)
        if one.was is not None and one.was != now:
            words = f'"{now}"' if now else "left out"
            raise StaleError(f"{one.key} has been changed meanwhile: it is {words} now. Nothing was saved.")


def _is_gone(draft: Draft, one: TypedIn) -> bool:
    """Whether the table that a field stood in when it was shown is not in the plan any more."""
    above = path_of(one.key)[:-1]
    return one.there and bool(above) and draft.at(above) is None


def _edits(draft: Draft, typed: Sequence[TypedIn]) -> list[Edit]:
    """The edits of those fields whose words differ from what stands there."""
    made = [edit_typed(draft, one.key, one.words) for one in typed]
    return [edit for edit in made if edit.value != _standing(draft, edit)]


def _standing(draft: Draft, edit: Edit) -> object:
    return draft.at(path_of(edit.key))


def _now(draft: Draft, key: str) -> str:
    """What a field shows of a draft; nothing where it has no such value."""
    field = field_at(draft, key)
    return field.typed if field is not None else ""


def _told(one: TypedIn) -> str:
    words = " ".join(one.words.split())
    return f"{one.key} {words[:40]}" if words else f"{one.key} taken out"


def _seen(bench: Bench, text: str, typed: Sequence[TypedIn]) -> Seen:
    draft = Draft.of(text, bench.path.name)
    found = {one.key: field_at(draft, one.key, system=bench.system) for one in typed}
    fields = {key: field for key, field in found.items() if field is not None}
    own = {fault for field in fields.values() for fault in field.faults}
    now = {key: _now(draft_of(bench), key) for key in fields}
    return Seen(draft.sound, fields, now, tuple(fault for fault in draft.faults if fault not in own))
