"""Values of a plan's text read back in both unit systems, by dotted key."""

from __future__ import annotations

from collections.abc import Iterable

from tidestead.core.errors import PlanError
from tidestead.plan.forms import Draft, field_at


def echoes(text: str, keys: Iterable[str], name: str = "plan") -> dict[str, str]:
    """How each value was understood; nothing for a key that has none, or whose value cannot be read."""
    draft = Draft.of(text, name)
    found = {}
    for key in keys:
        try:
            field = field_at(draft, key)
        except PlanError:  # no key at all: the faults say so
            continue
        if field is not None and field.echo:
            found[key] = field.echo
    return found
