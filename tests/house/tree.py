"""Where things stand in the tree, and how the house tests read them."""

from __future__ import annotations

import ast
import importlib
import pkgutil
import shutil
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "tidestead"
TESTS = ROOT / "tests"
PYTHON_PLACES = ("src", "tests", "benchmarks", "tools", "start.py")
"""Everything of ours that is Python."""

_NOT_OURS = {".git", ".venv", "__pycache__", ".mypy_cache", ".ruff_cache", ".pytest_cache"}
_NOT_OURS_AT_THE_TOP = {"build", "dist"}
"""A room of ours has the name of what packing leaves behind."""


def python_files(*places: str) -> list[Path]:
    """Every Python file under the named places of the tree (all of them when none is named)."""
    found: list[Path] = []
    for place in places or PYTHON_PLACES:
        path = ROOT / place
        found += [path] if path.is_file() else sorted(path.rglob("*.py"))
    return found


def text_files() -> Iterator[Path]:
    """Every file that belongs to the tree: what git keeps, or everything where there is no git.

    A user's own plans lie in the tree too, and are none of our business.
    """
    paths = [ROOT / name for name in _kept_by_git()]
    if not paths:
        paths = sorted(path for path in ROOT.rglob("*") if _ours(path.relative_to(ROOT).parts))
    yield from (path for path in paths if path.is_file())


def _ours(steps: tuple[str, ...]) -> bool:
    return not _NOT_OURS & set(steps) and steps[0] not in _NOT_OURS_AT_THE_TOP


def _kept_by_git() -> list[str]:
    git = shutil.which("git")
    command = [git or "git", "ls-files", "-z"]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False) if git else None
    return sorted(filter(None, listed.stdout.split("\0"))) if listed and listed.returncode == 0 else []


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
