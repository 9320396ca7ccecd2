"""Floors, types and style: the tools that watch them run with the tests and never skip."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.house.tree import PACKAGE, PYTHON_PLACES, ROOT

BESIDE_PYTHON = Path(sys.executable).parent
PLACES = [place for place in PYTHON_PLACES if (ROOT / place).exists()]


def check(*command: str) -> None:
    """Run one tool on the tree; what it says is the failure."""
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=280)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout}{done.stderr}"


def test_arrows_run_downward_only() -> None:
    check(str(BESIDE_PYTHON / "lint-imports"), "--no-cache")


def test_style_is_clean() -> None:
    check(sys.executable, "-m", "ruff", "check", "--no-cache", *PLACES)


def test_layout_is_one() -> None:
    check(sys.executable, "-m", "ruff", "format", "--no-cache", "--check", *PLACES)


@pytest.mark.timeout(300)
def test_types_are_strict() -> None:
    """Of everything that is Python, in one run, so that what is read for one place is there for the next."""
    check(sys.executable, "-m", "mypy", *PLACES)


def named(contract: dict[str, Any]) -> set[str]:
    """The rooms a contract speaks of."""
    return {room.strip(" ()") for floor in contract["layers"] for room in floor.replace(":", "|").split("|")}


def rooms(folder: Path) -> set[str]:
    """The packages that stand in a folder."""
    return {path.parent.name for path in folder.glob("*/__init__.py")}


def test_mypy_is_strict_and_layers_are_complete() -> None:
    """The tools' settings themselves: loosening them here must not pass unseen."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]
    assert settings["mypy"]["strict"] is True
    assert sorted(settings["mypy"]["files"]) == sorted(PYTHON_PLACES)
    assert "exclude" not in settings["mypy"]
    contracts = settings["importlinter"]["contracts"]
    floors, subjects = (contract for contract in contracts if contract["type"] == "layers")
    assert floors["exhaustive"] is True
    assert rooms(PACKAGE) <= named(floors) | set(floors["exhaustive_ignores"])
    assert rooms(PACKAGE / "physics") <= named(subjects), (
        "every subject of physics is kept apart from the others"
    )
    overrides = settings["mypy"].get("overrides", [])
    assert not any("ignore_errors" in override for override in overrides)
    loosened = [one for one in overrides if set(one) != {"module", "ignore_missing_imports"}]
    assert all(name.startswith("tidestead.physics.") for one in loosened for name in one["module"]), (
        "only the compiled laws are let off anything"
    )
