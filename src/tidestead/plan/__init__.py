"""The plan: one TOML file that describes the system, read into frozen models, edited with comments kept."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tidestead.plan.merging import wall_of
    from tidestead.plan.reading import LoadedPlan, load, loads
    from tidestead.plan.saving import Document, save, set_value
    from tidestead.plan.schema import json_schema
    from tidestead.plan.starter import starter_text

_HOMES = {
    "Document": "saving",
    "LoadedPlan": "reading",
    "json_schema": "schema",
    "load": "reading",
    "loads": "reading",
    "save": "saving",
    "set_value": "saving",
    "starter_text": "starter",
    "wall_of": "merging",
}

__all__ = [
    "Document",
    "LoadedPlan",
    "json_schema",
    "load",
    "loads",
    "save",
    "set_value",
    "starter_text",
    "wall_of",
]


def __getattr__(name: str) -> Any:
    """Each name from the module it lives in, when it is first asked for: reading a plan loads no editor."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_HOMES[name]}"), name)
