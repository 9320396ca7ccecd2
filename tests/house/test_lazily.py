"""A name that a package brings when it is asked for is not that of one of its modules, which would take its place."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

from tests.house.tree import PACKAGE

LAZY = [path.parent for path in PACKAGE.rglob("__init__.py") if "lazily(" in path.read_text(encoding="utf-8")]


@pytest.mark.parametrize("folder", LAZY, ids=[folder.name for folder in LAZY])
def test_names_are_no_modules_and_each_is_there(folder: Path) -> None:
    package = importlib.import_module(".".join(("tidestead", *folder.relative_to(PACKAGE).parts)))
    modules = {path.stem for path in folder.glob("*.py")} | {
        path.name for path in folder.iterdir() if path.is_dir()
    }
    assert package.__all__
    assert not set(package.__all__) & modules
    for name in package.__all__:
        assert callable(getattr(package, name))
    with pytest.raises(AttributeError, match="has no attribute 'nothing_of_the_kind'"):
        package.__getattr__("nothing_of_the_kind")
