"""What every public formula and every public record of physics owes its reader.

Each rule takes an imported module and gives complaints in words, so that it can be tried on a made-up module
with planted faults as well as on ours.
"""

from __future__ import annotations

import dataclasses
import enum
import inspect
import re
import types
import typing
from collections.abc import Callable, Iterator, Mapping, Sequence
from types import ModuleType
from typing import Any

import numpy as np

from tidestead.core import dims

UNITS = frozenset(unit for unit in map(dims.unit_of, vars(dims).values()) if unit is not None)
"""The vocabulary: every unit that core.dims gives a name to."""

_OWED = ("Source", "Valid")
_GROUPS = (tuple, list, dict, Sequence, Mapping, types.UnionType, typing.Union)
_UNITLESS = (bool, str, type(None))


def public_functions(module: ModuleType) -> list[Callable[..., Any]]:
    """The formulas a module offers: defined in it and not private, also where a cache stands round them."""
    own = [value for name, value in vars(module).items() if not name.startswith("_")]
    functions = (value for value in own if inspect.isroutine(inspect.unwrap(value)))
    return [value for value in functions if value.__module__ == module.__name__]


def public_records(module: ModuleType) -> list[type]:
    """The classes a module offers, exceptions and enumerations aside."""
    own = [
        value for name, value in vars(module).items() if not name.startswith("_") and inspect.isclass(value)
    ]
    return [
        value
        for value in own
        if value.__module__ == module.__name__ and not issubclass(value, (Exception, enum.Enum))
    ]


def is_private(module: ModuleType) -> bool:
    """Modules with a leading underscore serve their neighbours and offer no formula."""
    return any(part.startswith("_") for part in module.__name__.split("."))


def complaints(module: ModuleType) -> list[str]:
    """Everything a module of physics owes and has not given."""
    found: list[str] = []
    for function in public_functions(module):
        found += docstring_faults(function) + signature_faults(function)
    for record in public_records(module):
        found += record_faults(record)
    return [f"{module.__name__}.{fault}" for fault in found]


def docstring_faults(function: Callable[..., Any]) -> list[str]:
    """A formula says what it gives, where it comes from and where it stops being true."""
    name, text = function.__qualname__, inspect.getdoc(function) or ""
    if not text:
        return [f"{name} has no docstring"]
    return [f"{name} has no '{word}:' in its docstring" for word in _OWED if not owed_text(text, word)]


def owed_text(docstring: str, word: str) -> str:
    """What stands after `Source:` or `Valid:` up to the next such line or empty line."""
    found = re.search(rf"^[ \t]*{word}:[ \t]*(.+(?:\n(?!\s*$|[ \t]*\w+:).+)*)", docstring, re.MULTILINE)
    return " ".join(found[1].split()) if found else ""


def signature_faults(function: Callable[..., Any]) -> list[str]:
    """Every argument and the result carries its unit."""
    bare = inspect.unwrap(function)
    name = function.__qualname__
    try:
        hints = typing.get_type_hints(bare, include_extras=True)
    except (NameError, TypeError) as trouble:
        return [f"{name}: its annotations cannot be read ({trouble})"]
    found = []
    for argument in [*inspect.signature(bare).parameters, "return"]:
        if argument in {"self", "cls"}:
            continue
        said = "its result" if argument == "return" else f"argument '{argument}'"
        if argument not in hints:
            found.append(f"{name}: {said} is not annotated")
        else:
            found += [f"{name}: {said} {why}" for why in unit_faults(hints[argument])]
    return found


def record_faults(record: type) -> list[str]:
    """A record of physics is a frozen dataclass with a docstring, each field with its unit."""
    name = record.__qualname__
    if _is_protocol(record):
        return [fault for method in _methods(record) for fault in signature_faults(method)]
    if not dataclasses.is_dataclass(record):
        return [f"{name} is a class but not a dataclass"]
    found = []
    if not record.__dataclass_params__.frozen:  # type: ignore[attr-defined]  # typeshed leaves it out
        found.append(f"{name} is not frozen")
    if not record.__doc__ or record.__doc__.startswith(f"{name}("):
        found.append(f"{name} has no docstring")
    hints = typing.get_type_hints(record, include_extras=True)
    for field in dataclasses.fields(record):
        found += [f"{name}: field '{field.name}' {why}" for why in unit_faults(hints[field.name])]
    for method in _methods(record):
        found += signature_faults(method)
        if not inspect.getdoc(method) and len(inspect.signature(method).parameters) > 1:
            found.append(f"{method.__qualname__} has no docstring")
    return found


def _methods(record: type) -> Iterator[Callable[..., Any]]:
    for name, value in vars(record).items():
        if name.startswith("_"):
            continue
        inner = (
            getattr(value, "fget", None) or getattr(value, "func", None) or getattr(value, "__func__", value)
        )
        if inspect.isfunction(inner):
            yield inner


def unit_faults(hint: Any) -> list[str]:
    """Why a type does not say its unit; nothing where it does, or where it has none to say."""
    unit = dims.unit_of(hint)
    if unit is not None:
        return [] if unit in UNITS else [f"has the unit '{unit}', which core.dims does not name"]
    origin = typing.get_origin(hint)
    origin = typing.get_origin(getattr(origin, "__value__", None)) or origin  # a name given to a type
    if origin is typing.Literal or hint is Ellipsis:
        return []
    if origin in _GROUPS:
        return [fault for inner in typing.get_args(hint) for fault in unit_faults(inner)]
    kind = origin or hint
    if kind is Callable or kind in _UNITLESS:
        return []
    if inspect.isclass(kind) and (issubclass(kind, (np.ndarray, enum.Enum)) or _is_record(kind)):
        return []
    if inspect.isclass(kind) and hasattr(kind, "_fields"):
        return _named_tuple_faults(kind)
    return [f"has no unit: {getattr(hint, '__name__', hint)}"]


def _named_tuple_faults(kind: type) -> list[str]:
    """A named tuple is taken for what its fields say: the compiler knows it, and no dataclass."""
    hints = typing.get_type_hints(kind, include_extras=True)
    return [fault for hint in hints.values() for fault in unit_faults(hint)]


def _is_protocol(kind: type) -> bool:
    """A description of what a record must be able to do."""
    return bool(getattr(kind, "_is_protocol", False))


def _is_record(kind: type) -> bool:
    """A record of ours or what one must be able to do, or a matrix kept sparse by scipy."""
    return dataclasses.is_dataclass(kind) or _is_protocol(kind) or kind.__module__.startswith("scipy.sparse")
