"""The plan: one TOML file that describes the system, read into frozen models, edited with comments kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

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


__getattr__ = lazily(__name__, _HOMES)
