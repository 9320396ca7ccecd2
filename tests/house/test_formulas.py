"""Every public formula of physics says its source, its range and its units; a planted fault is found."""

from __future__ import annotations

import importlib.util
import textwrap
from pathlib import Path
from types import ModuleType

import pytest

from tests.house.formulas import complaints, is_private, owed_text, public_functions
from tests.house.tree import modules_of

PHYSICS = [module for module in modules_of("tidestead.physics") if not is_private(module)]

GOOD = '''
    from __future__ import annotations
    from dataclasses import dataclass
    from typing import Annotated, Literal, NamedTuple, Protocol
    from tidestead.core.dims import Array, Metre, Newton, Pascal

    @dataclass(frozen=True)
    class Push:
        """A push and where it acts."""

        force: Newton
        above: Metre

    class Law(Protocol):
        def at(self, depth: Metre) -> Push: ...

    class _Rows(NamedTuple):
        given: Array
        deepest: Metre

    def push(
        depth: Metre, way: Literal["in", "out"], rows: _Rows, law: Law | None = None, at: Array | None = None
    ) -> Push:
        """The push.

            F = p * h

        Source: a book, table 1,
                second edition.
        Valid:  anywhere.
        """
        return Push(depth, depth)
'''


def planted(folder: Path, text: str) -> ModuleType:
    """A made-up module of physics."""
    path = folder / "madeup.py"
    path.write_text(textwrap.dedent(text), encoding="utf-8")
    spec = importlib.util.spec_from_file_location("madeup", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(__import__("sys").modules, "madeup", module)
        spec.loader.exec_module(module)
        found = complaints(module)
    module.__dict__["found"] = found
    return module


@pytest.mark.parametrize("module", PHYSICS, ids=lambda module: module.__name__)
def test_formula_owes_nothing(module: ModuleType) -> None:
    found = complaints(module)
    assert not found, "\n".join(found)


def test_there_are_formulas_to_walk() -> None:
    assert sum(len(public_functions(module)) for module in PHYSICS) > 0


def test_whole_module_has_no_complaint(tmp_path: Path) -> None:
    module = planted(tmp_path, GOOD)
    assert [function.__name__ for function in public_functions(module)] == ["push"]
    assert module.found == []


@pytest.mark.parametrize(
    ("right", "wrong", "word"),
    [
        ("Source: a book, table 1,\n                second edition.", "", "push has no 'Source:'"),
        ("Source: a book, table 1,\n                second edition.", "Source:", "push has no 'Source:'"),
        ("Valid:  anywhere.", "It is valid: anywhere", "push has no 'Valid:'"),
        ("depth: Metre, way", "depth: float, way", "argument 'depth' has no unit: float"),
        ("depth: Metre, way", "depth, way", "argument 'depth' is not annotated"),
        ("depth: Metre, way", 'depth: Annotated[float, "furlong"], way', "'furlong', which core.dims"),
        ("depth: Metre, way", "depth: tuple[Metre, float], way", "argument 'depth' has no unit: float"),
        ("depth: Metre, way", "depth: Metre | int, way", "argument 'depth' has no unit: int"),
        ("depth: Metre, way", "depth: Missing, way", "annotations cannot be read"),
        ("def at(self, depth: Metre)", "def at(self, depth: float)", "Law.at: argument 'depth' has no unit"),
        ("deepest: Metre", "deepest: float", "argument 'rows' has no unit: float"),
        ("= None\n    ) -> Push:", "= None\n    ) -> float:", "its result has no unit: float"),
        ("= None\n    ) -> Push:", "= None\n    ):", "its result is not annotated"),
        ("force: Newton", "force: float", "field 'force' has no unit: float"),
        ("@dataclass(frozen=True)", "@dataclass", "Push is not frozen"),
        ("@dataclass(frozen=True)\n", "\n", "Push is a class but not a dataclass"),
        ('"""A push and where it acts."""', "", "Push has no docstring"),
        ("above: Metre\n", "above: Metre\n\n        @property\n        def pull(self) -> float:\n"
         "            return 1.0\n", "Push.pull: its result has no unit"),
    ],
)  # fmt: skip
def test_planted_fault_is_found(tmp_path: Path, right: str, wrong: str, word: str) -> None:
    assert right in GOOD
    found = planted(tmp_path, GOOD.replace(right, wrong)).found
    assert any(word in fault for fault in found), found


@pytest.mark.parametrize(
    "module", [one for one in PHYSICS if public_functions(one)], ids=lambda one: one.__name__
)
def test_our_own_formula_that_loses_its_source_is_found(tmp_path: Path, module: ModuleType) -> None:
    """Take the source away from one formula of ours, in a copy of its file."""
    function = public_functions(module)[0]
    text = Path(module.__file__ or "").read_text(encoding="utf-8")
    start = text.index(f"def {function.__name__}(")
    robbed = text[:start] + text[start:].replace("Source:", "Recalled:", 1)
    assert planted(tmp_path, robbed).found == [
        f"madeup.{function.__name__} has no 'Source:' in its docstring"
    ]


def test_docstring_gone_is_found(tmp_path: Path) -> None:
    start, end = GOOD.index('"""The push.'), GOOD.index("return Push(depth, depth)")
    found = planted(tmp_path, GOOD[:start] + GOOD[end:]).found
    assert found == ["madeup.push has no docstring"]


def test_source_is_read_over_two_lines() -> None:
    assert owed_text("Words.\n\nSource: one,\n        two.\nValid: here.\n", "Source") == "one, two."
    assert owed_text("Words.\n\nSource: one,\n        two.\nValid: here.\n", "Valid") == "here."
