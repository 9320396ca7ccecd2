"""Where in the plan the part stands that a check or a drawing names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tidestead.plan.statements import Path, dotted


def key_of_part(values: Mapping[str, Any], part: str) -> str:
    """The dotted key of the table that describes a part, such as vessels.reef.walls.south for reef.south.

    `values` are the plan's as read from TOML. Names of parts leave out the tables that only hold named parts; what the
    plan does not spell out itself, such as the joint of a stud, is described where it belongs to. Empty where nothing
    in the plan bears the name.
    """
    here: Any = values
    path: Path = ()
    for name in part.split(".") if part else ():
        step = _step(here, name)
        if not step:
            break
        for key in step:
            here = here[key]
        path = (*path, *step)
    return dotted(path)


def _step(here: Any, name: str) -> Path:
    """The key itself, or the table of named parts that holds it; empty where neither does."""
    if not isinstance(here, Mapping):
        return ()
    if isinstance(here.get(name), Mapping):
        return (name,)
    for key, inner in here.items():
        if isinstance(inner, Mapping) and isinstance(inner.get(name), Mapping):
            return (key, name)
    return ()
