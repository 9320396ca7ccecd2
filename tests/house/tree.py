"""Where things stand in the tree, and how the house tests read them."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "tidestead"
TESTS = ROOT / "tests"
PYTHON_PLACES = ("src", "tests", "benchmarks", "tools", "start.py")
"""Everything of ours that is Python."""

_NOT_OURS = {".git", ".venv", "build", "dist", "__pycache__", "node_modules"}


def python_files(*places: str) -> list[Path]:
    """Every Python file under the named places of the tree (all of them when none is named)."""
    found: list[Path] = []
    for place in places or PYTHON_PLACES:
        path = ROOT / place
        found += [path] if path.is_file() else sorted(path.rglob("*.py"))
    return found


def text_files() -> Iterator[Path]:
    """Every file of the tree that is ours and text."""
    for path in sorted(ROOT.rglob("*")):
        parts = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") and part not in {".ci", ".gitignore"} for part in parts)
        if path.is_file() and not hidden and not _NOT_OURS & set(parts):
            yield path


@cache
def parsed(path: Path) -> ast.Module:
    """The syntax tree of one file; files do not change while the tests run."""
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def named(path: Path) -> str:
    """A path as it is said in a complaint."""
    return path.relative_to(ROOT).as_posix() if path.is_relative_to(ROOT) else path.name


def modules_of(package: str) -> list[ModuleType]:
    """The package and every module below it, imported."""
    top = importlib.import_module(package)
    below = pkgutil.walk_packages(top.__path__, package + ".")
    return [top, *(importlib.import_module(found.name) for found in below)]


def modules_in(folder: str) -> list[ModuleType]:
    """Every test module of one folder of tests, imported."""
    names = sorted(path.stem for path in (TESTS / folder).glob("test_*.py"))
    return [importlib.import_module(f"tests.{folder}.{name}") for name in names]
