"""start.py on machines that lack something: what it says, what it gives back, what it hands over."""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path
from types import ModuleType

import pytest

from tests.house.tree import ROOT
from tidestead.cli import demo

POSIX_ONLY = pytest.mark.skipif(os.name == "nt", reason="the stand-in command is a shell script")


def loaded(path: Path) -> ModuleType:
    """start.py as a module, from where it lies."""
    spec = importlib.util.spec_from_file_location("start", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A tree of its own with start.py, the metadata and nothing else."""
    for name in ("start.py", "pyproject.toml"):
        shutil.copy(ROOT / name, tmp_path / name)
    return tmp_path


@pytest.fixture
def set_up(tree: Path) -> Path:
    """The same with an environment in which a stand-in for the program is installed."""
    venv.create(tree / ".venv", symlinks=os.name != "nt")
    start = loaded(tree / "start.py")
    start.COMMAND.write_text('#!/bin/sh\necho "$@"\nexit 7\n', encoding="utf-8")
    start.COMMAND.chmod(0o755)
    (tree / ".venv" / "installed-plain").write_text(start.fingerprint(), encoding="utf-8")
    return tree


def run(tree: Path, *words: str, **settings: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, str(tree / "start.py"), *words],
        cwd=tree.parent,
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        check=False,
    )


@POSIX_ONLY
def test_words_and_exit_code_are_handed_over(set_up: Path) -> None:
    done = run(set_up, "ask", "my plan.toml", "--json")
    assert (done.returncode, done.stdout, done.stderr) == (7, "ask my plan.toml --json\n", "")


@POSIX_ONLY
def test_no_words_mean_the_example(set_up: Path) -> None:
    assert run(set_up).stdout == "demo\n"


@POSIX_ONLY
def test_program_is_told_how_it_was_called(set_up: Path) -> None:
    start = loaded(set_up / "start.py")
    start.COMMAND.write_text(f'#!/bin/sh\necho "${demo.CALLED_AS}"\n', encoding="utf-8")
    assert run(set_up).stdout == "python3 start.py\n"


def test_next_steps_say_how_to_call_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(demo.CALLED_AS, "python3 start.py")
    assert (
        demo.next_steps(Path("p.toml"), "").splitlines()[1]
        == "Try next, with python3 start.py for tidestead:"
    )


@POSIX_ONLY
def test_environment_that_does_not_start_is_made_again(set_up: Path) -> None:
    """Without a package index the installation itself must fail, in words, and with the code kept for it."""
    start = loaded(set_up / "start.py")
    start.PYTHON.unlink()
    start.PYTHON.symlink_to(set_up / "gone")
    done = run(set_up, "ask", PIP_NO_INDEX="1", PIP_FIND_LINKS="", PIP_CONFIG_FILE=os.devnull)
    assert "does not work; making it again" in done.stderr
    assert "pip could not install what Tidestead needs" in done.stderr
    assert (done.returncode, done.stdout) == (start.CANNOT_SET_UP, "")
    assert start.starts(start.PYTHON)
    assert not list((set_up / ".venv").glob("installed-*"))


def test_changed_metadata_asks_for_a_new_installation(tree: Path) -> None:
    start = loaded(tree / "start.py")
    before = start.fingerprint()
    assert start.fingerprint() == before
    with (tree / "pyproject.toml").open("a", encoding="utf-8") as metadata:
        metadata.write("\n")
    assert start.fingerprint() != before


def test_moved_tree_asks_for_a_new_installation(tree: Path) -> None:
    before = loaded(tree / "start.py").fingerprint()
    (tree / "elsewhere").mkdir()
    for name in ("start.py", "pyproject.toml"):
        shutil.move(tree / name, tree / "elsewhere" / name)
    assert loaded(tree / "elsewhere" / "start.py").fingerprint() != before


def test_python_outside_an_environment_is_not_taken_for_one(tree: Path) -> None:
    start = loaded(tree / "start.py")
    assert not start.starts(tree / "nowhere" / "python")
    assert not start.starts(Path(os.path.realpath(sys.executable)))


def test_old_python_is_told_so() -> None:
    old = "import sys, runpy; sys.version_info = (3, 10, 4, 'final', 0); runpy.run_path('start.py')"
    done = subprocess.run([sys.executable, "-c", old], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == loaded(ROOT / "start.py").CANNOT_SET_UP
    assert "needs Python 3.11 or newer; this is Python 3.10." in done.stderr


@pytest.mark.parametrize(
    ("told", "word"),
    [
        ((1, "", "No module named pip"), "apt install python3-venv"),
        ((0, "pip 22.0.2 from /somewhere (python 3.11)", ""), "its own pip 22.0.2 is too old"),
    ],
)
def test_pip_that_cannot_help_is_told_with_advice(
    tree: Path, monkeypatch: pytest.MonkeyPatch, told: tuple[int, str, str], word: str
) -> None:
    start = loaded(tree / "start.py")

    def answer(command: list[str]) -> subprocess.CompletedProcess[str]:
        own = command[0] == str(start.PYTHON)
        return subprocess.CompletedProcess(command, *((1, "", "") if own else told))

    monkeypatch.setattr(start, "quietly", answer)
    with pytest.raises(start.SetUpError, match=word):
        start.pip_command()


def test_pip_of_another_python_is_pointed_at_the_environment(
    tree: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    start = loaded(tree / "start.py")

    def answer(command: list[str]) -> subprocess.CompletedProcess[str]:
        own = command[0] == str(start.PYTHON)
        return subprocess.CompletedProcess(command, int(own), "pip 23.0.1 from /somewhere (python 3.11)", "")

    monkeypatch.setattr(start, "quietly", answer)
    assert start.pip_command() == [sys.executable, "-m", "pip", "--python", str(start.PYTHON)]
