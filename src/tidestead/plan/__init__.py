"""The plan: one TOML file that describes the system, read into frozen models, edited with comments kept."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tidestead.plan.merging import wall_of
    from tidestead.plan.reading import LoadedPlan, load, loads

_HOMES = {
    "LoadedPlan": "reading",
    "load": "reading",
    "loads": "reading",
    "wall_of": "merging",
}

__all__ = ["LoadedPlan", "load", "loads", "wall_of"]


def __getattr__(name: str) -> Any:
    """Each name from the module it lives in, when it is first asked for: reading a plan loads no editor."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_HOMES[name]}"), name)
