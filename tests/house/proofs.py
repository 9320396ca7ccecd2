"""Which formulas are proven, and how: by a published case, or by being called beside a referee.

Only the list `CASES` of a module of tests/published counts, and only a call in a module of tests/agree.
"""

from __future__ import annotations

import ast
import importlib
import inspect
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from types import ModuleType
from typing import Any

from tests.house.formulas import is_private, public_functions
from tests.house.tree import TESTS, modules_in, modules_of, parsed
from tests.published.case import Case

Function = Callable[..., Any]


def every_formula() -> list[Function]:
    """Every public function of physics."""
    modules = [module for module in modules_of("tidestead.physics") if not is_private(module)]
    return [function for module in modules for function in public_functions(module)]


def address(function: Function) -> str:
    """Where a function lives, as one says it."""
    bare = inspect.unwrap(function)
    return f"{bare.__module__}.{bare.__qualname__}"


def cases_of(module: ModuleType) -> list[Case]:
    """The published cases a test module judges by."""
    return [case for case in getattr(module, "CASES", ()) if isinstance(case, Case)]


def every_case() -> list[tuple[str, Case]]:
    """Every published case with the name of the module it stands in."""
    return [
        (module.__name__.rpartition(".")[2], case)
        for module in modules_in("published")
        for case in cases_of(module)
    ]


def proven_by_print() -> dict[str, list[Case]]:
    """Formulas by address, with the cases that judge each one."""
    found: dict[str, list[Case]] = {}
    for _, case in every_case():
        found.setdefault(address(case.of), []).append(case)
    return found


def proven_by_referee() -> set[str]:
    """Formulas, by address, that some module of tests/agree imports and calls."""
    return {name for path in sorted((TESTS / "agree").glob("test_*.py")) for name in called_in(path)}


def called_in(path: Path) -> set[str]:
    """Addresses of the functions of ours that a file imports and calls."""
    tree = parsed(path)
    known = dict(_imported(tree))
    calls = (node.func for node in ast.walk(tree) if isinstance(node, ast.Call))
    found = (_resolved(called, known) for called in calls)
    return {address(function) for function in found if callable(function)}


def _imported(tree: ast.Module) -> Iterator[tuple[str, Any]]:
    """Names that imports of ours bind in a file, with what they stand for."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "tidestead":
            for name in node.names:
                yield name.asname or name.name, _member(node.module or "", name.name)
        elif isinstance(node, ast.Import):
            for name in node.names:
                if name.asname and name.name.split(".")[0] == "tidestead":
                    yield name.asname, importlib.import_module(name.name)


def _member(module: str, name: str) -> Any:
    held = importlib.import_module(module)
    return getattr(held, name) if hasattr(held, name) else importlib.import_module(f"{module}.{name}")


def _resolved(node: ast.expr, known: dict[str, Any]) -> Any:
    """What a called expression stands for, where it is a name or a member of a module of ours."""
    if isinstance(node, ast.Name):
        return known.get(node.id)
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        holder = known.get(node.value.id)
        return getattr(holder, node.attr, None) if inspect.ismodule(holder) else None
    return None


def half_last_digit(printed: float) -> float:
    """Half a step in the last digit that stands in print, as far as a float remembers it.

    A float forgets trailing zeros, so the true step may be smaller. Whole numbers count as printed to one.
    """
    text = repr(printed)
    exponent = Decimal(text.removesuffix(".0")).as_tuple().exponent
    assert isinstance(exponent, int), f"{text} is not a printed number"
    return 0.5 * 10.0 ** min(exponent, 0)
