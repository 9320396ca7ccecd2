"""Where a first plan is written: in place of a plan without work in it, or in a new file beside one that has some."""

from __future__ import annotations

import re
import shlex
import unicodedata
from pathlib import Path

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import Document, save
from tidestead.plan.first import untouched
from tidestead.plan.saving import previous_of
from tidestead.web.bench import Bench

_NAME = re.compile(r"[^./\\:*?\"<>|\x00-\x1f\x7f][^/\\:*?\"<>|\x00-\x1f\x7f]{0,100}\.toml")
_MOST = 100
_LONGEST = 200
"""Bytes of a name; most systems take 255, and an unfinished file beside it needs some."""
_DEVICES = {
    "CON",
    "PRN",
    "AUX",
    "NUL",
    *(f"{name}{number}" for name in ("COM", "LPT") for number in range(1, 10)),
}
"""Names that are no files on Windows."""


def may_replace(bench: Bench) -> bool:
    """Whether the open plan holds no work of its user's yet, so that a first plan may take its place."""
    return untouched(bench.text)


def name_beside(bench: Bench) -> str:
    """A name for a new file beside the plan that no file has yet."""
    folder, stem = bench.path.parent, bench.path.stem[:80]
    names = (f"{stem}-first{number if number > 1 else ''}.toml" for number in range(1, _MOST))
    return next((name for name in names if not (folder / name).exists()), f"{stem}-first{_MOST}.toml")


def write_in_place(bench: Bench, text: str, base: str) -> str:
    """Put the plan in the open file; what was done, in words. Raises as the bench's `save_text`.

    Raises a PlanError where the file holds somebody's work.
    """
    bench.look()
    if not may_replace(bench):
        allowed = "is a plan with your work in it, and is not written over."
        raise PlanError(
            (Fault(bench.path.name, None, "", allowed, f"Write {name_beside(bench)} beside it."),)
        )
    bench.save_text(text, base, "the first plan")
    bench.forget_before()  # the starter's answers were nobody's
    return f"{bench.path.name} is written."


def write_beside(bench: Bench, text: str, name: str) -> str:
    """Put the plan in a new file beside the open one; what to do then, in words.

    Raises a PlanError where the name is none, or another file has it.
    """
    target = beside(bench.path, name)
    save(Document(text), target)
    return (
        f"{name} is written beside {bench.path.name}. To open it: tidestead open {shlex.quote(str(target))}"
    )


def _plain(name: str) -> bool:
    """Whether a name is one that every system takes as a file of its own, and that looks like what it is."""
    shown = all(
        unicodedata.category(letter) not in ("Cc", "Cf", "Zl", "Zp", "Cs", "Cn", "Co") for letter in name
    )
    short = len(name.encode("utf-8", "replace")) <= _LONGEST
    device = name.partition(".")[0].strip().upper() in _DEVICES
    return bool(_NAME.fullmatch(name)) and shown and short and not device and name == name.strip()


def beside(path: Path, name: str) -> Path:
    """The place of a file beside the plan. Raises a PlanError where the name is no plain file name, or is taken."""
    target = path.parent / name
    if not _plain(name) or target == previous_of(path):
        advice = "Write a plain name that ends in .toml, with no folder in it."
        raise PlanError(
            (Fault("file", None, f'"{name[:60]}"', "is not a name for a plan beside this one.", advice),)
        )
    if target.is_symlink() or target.exists():
        raise PlanError((Fault("file", None, f'"{name}"', "is there already.", "Give another name."),))
    return target
