"""No test asserts nothing, and none is skipped or expected to fail without a reason."""

from __future__ import annotations

import ast
import textwrap
from pathlib import Path

import pytest

from tests.house.tree import named, parsed, python_files
from tests.house.trials import faults

FILES = python_files("tests")


@pytest.mark.parametrize("path", FILES, ids=named)
def test_file_tests_something(path: Path) -> None:
    found = [f"{named(path)}:{fault}" for fault in faults(parsed(path))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("def test_a():\n    f()\n", "asserts nothing"),
        ("class TestA:\n    def test_a(self):\n        f()\n", "asserts nothing"),
        ("def test_a():\n    assert True\n", "asserts a constant"),
        ("def test_a():\n    assert (f(), 'words')\n", "asserts a constant"),
        ("def test_a():\n    assert x.y == x.y\n", "asserts a constant"),
        ("@pytest.mark.skip\ndef test_a():\n    assert f()\n", "skip without a reason"),
        ("@pytest.mark.skip(reason='')\ndef test_a():\n    assert f()\n", "skip without a reason"),
        ("@pytest.mark.skipif(True)\ndef test_a():\n    assert f()\n", "skipif without a reason"),
        ("def test_a():\n    pytest.skip()\n    assert f()\n", "skip without a reason"),
        ("def test_a():\n    pytest.importorskip('m')\n    assert f()\n", "importorskip"),
        ("def test_a():\n    pytest.xfail('later')\n    assert f()\n", "hides"),
        ("@pytest.mark.xfail\ndef test_a():\n    assert f()\n", "xfail without a reason"),
        ("@pytest.mark.xfail(reason='print differs')\ndef test_a():\n    assert f()\n", "not strict"),
        ("@pytest.mark.xfail(strict=True)\ndef test_a():\n    assert f()\n", "xfail without a reason"),
    ],
)
def test_planted_fault_is_found(text: str, word: str) -> None:
    found = faults(ast.parse(text))
    assert len(found) == 1, found
    assert word in found[0]


def test_honest_tests_pass() -> None:
    text = """
        @pytest.mark.xfail(strict=True, reason=case.differs)
        def test_a():
            assert f() == f()
        @pytest.mark.skipif(missing, reason="no data beside the tree")
        def test_b():
            with pytest.raises(ValueError):
                f()
        def test_c():
            np.testing.assert_allclose(f(), 1.0)
        def test_d():
            check_all(f())
    """
    assert faults(ast.parse(textwrap.dedent(text))) == []
