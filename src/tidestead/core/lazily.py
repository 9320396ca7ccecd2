"""Names of a package that come from their modules when they are first asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def lazily(package: str, homes: Mapping[str, str]) -> Callable[[str], Any]:
    """A `__getattr__` for a package: each name from its module, so that who needs one module of it brings no other."""

    def found(name: str) -> Any:
        if name not in homes:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        return getattr(import_module(f"{package}.{homes[name]}"), name)

    return found
