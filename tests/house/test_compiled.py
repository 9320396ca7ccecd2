"""Compiled laws stand in private files of physics, and nowhere else: their cache knows the texts of those only."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.house.tree import PACKAGE, named, parsed, python_files
from tidestead.core import compiled

MAKERS = {"compiled", "joined", "kernel"}
HOME = PACKAGE / "core" / "compiled.py"


def made_in(tree: ast.Module) -> list[int]:
    """Lines in which something is handed to the compiler: by decorator or by call, under whatever name."""
    names = {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module == "tidestead.core.compiled"
        for alias in node.names
        if alias.name in MAKERS
    }
    lines = []
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            lines += [
                one.lineno for one in node.decorator_list if isinstance(one, ast.Name) and one.id in names
            ]
        elif isinstance(node, ast.Call):
            member = isinstance(node.func, ast.Attribute) and node.func.attr in {*MAKERS, "njit", "jit"}
            name = isinstance(node.func, ast.Name) and node.func.id in names
            lines += [node.lineno] if member or name else []
        elif isinstance(node, (ast.Import, ast.ImportFrom)):
            lines += [node.lineno] if _brings_numba(node) else []
    return sorted(lines)


def _brings_numba(node: ast.Import | ast.ImportFrom) -> bool:
    modules = [node.module or ""] if isinstance(node, ast.ImportFrom) else [one.name for one in node.names]
    return any(module.split(".")[0] == "numba" for module in modules)


def may_hold_laws(path: Path) -> bool:
    """Private files of the rooms whose texts the cache is named after."""
    return path.name.startswith("_") and path.is_relative_to(PACKAGE / "physics")


@pytest.mark.parametrize("path", python_files("src"), ids=named)
def test_only_private_files_of_physics_compile(path: Path) -> None:
    found = made_in(parsed(path))
    assert may_hold_laws(path) or path == HOME or not found, f"{named(path)}: compiles in lines {found}"


def test_there_are_compiled_laws() -> None:
    assert sum(bool(made_in(parsed(path))) for path in python_files("src") if may_hold_laws(path)) > 5


def test_the_cache_is_named_after_every_file_that_compiles() -> None:
    home = Path(compiled.__file__).parent.parent
    known = set(compiled._files(home / room for room in compiled._ROOMS))
    assert {path for path in python_files("src") if may_hold_laws(path)} <= known


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("from tidestead.core.compiled import kernel\n@kernel\ndef f(): pass\n", [2]),
        ("from tidestead.core.compiled import compiled as made\nlaw = made(other)\n", [2]),
        ("from tidestead.core import compiled\nlaw = compiled.joined(other)\n", [2]),
        ("import numba\n@numba.njit(cache=True)\ndef f(): pass\n", [1, 2]),
        ("from numba import njit\n", [1]),
        ("from tidestead.core.compiled import waits_for_compiler\nwaits_for_compiler()\n", []),
        ("def kernel(f): return f\n@kernel\ndef f(): pass\n", []),
    ],
)
def test_a_planted_law_is_found(text: str, lines: list[int]) -> None:
    assert made_in(ast.parse(text)) == lines
