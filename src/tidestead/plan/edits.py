"""Several changes to a plan's text at once, each proved on its own: values set, parts added, either taken out."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.editing import Value, path_of, with_value
from tidestead.plan.lists import with_items
from tidestead.plan.parts import is_there, removed, with_part
from tidestead.plan.remarks import without_remarks
from tidestead.plan.statements import Path
from tidestead.plan.toml import values_in

MOST = 500
"""Edits made at once; a form of a whole vessel has some hundred values."""


@dataclass(frozen=True)
class Edit:
    """A value for a dotted key, or None to take out what is there. A new table of values is a part added whole."""

    key: str
    value: Value | None


def edited(text: str, edits: Sequence[Edit]) -> str:
    """The text after all the edits, in order. Raises a PlanError where one cannot be made; none is made then.

    The program's own remark that a value was assumed goes when that value is changed or taken out. Whether the plan
    is then sound is for `reading.judged`.
    """
    if len(edits) > MOST:
        raise PlanError((Fault("", None, "", f"are more than {MOST} changes at once.", "Make fewer."),))
    try:
        values_in(text)
    except tomllib.TOMLDecodeError:
        allowed, advice = (
            "is not TOML as it stands, so that no form can change it.",
            "Mend the file itself first.",
        )
        raise PlanError((Fault("this file", None, "", allowed, advice),)) from None
    for edit in edits:
        text = _after(text, edit)
    return text


def _after(text: str, edit: Edit) -> str:
    path = path_of(edit.key)
    text = without_remarks(text, path, edit.value)
    if edit.value is None:
        return removed(text, edit.key) if is_there(text, path) else text
    if isinstance(edit.value, dict) and edit.value and not is_there(text, path):
        return with_part(text, edit.key, edit.value)
    if isinstance(edit.value, list) and is_there(text, path):
        return with_items(text, path, edit.value)
    try:
        return with_value(text, path, edit.value)
    except (KeyError, IndexError, TypeError, AttributeError):
        raise PlanError((_no_place(edit.key, path),)) from None


def _no_place(key: str, path: Path) -> Fault:
    what = "list item" if any(isinstance(part, int) for part in path) else "table"
    return Fault(
        key, None, "", f"is in no {what} that the plan has.", "Read the plan again and make the change there."
    )
