"""Laws that run many million times are compiled by numba; where it is missing they run as plain Python, with the
same numbers, only slower.

What was compiled is kept in the user's cache folder under the digest of the files it was made from, so that a change
in any of them, or another version of numba, is never met with old machine code.
"""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Callable, Iterable
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any, TypeVar

from tidestead.core.cache_folder import cache_folder

Law = TypeVar("Law", bound=Callable[..., Any])

PLAIN = "TIDESTEAD_PLAIN"
"""Environment variable: set to anything, nothing is compiled."""

_ROOMS = ("physics",)
_PRIVATE = "_*.py"
"""Compiled laws stand in private files of these rooms, and nowhere else: a house test looks."""


@cache
def numba() -> Any | None:
    """The library, set up to keep what it makes in our folder; None where it is missing or not wanted."""
    if os.environ.get(PLAIN):
        return None
    try:
        import numba as library  # noqa: PLC0415 - a fifth of a second, paid by what needs it
    except ImportError:
        return None
    library.config.CACHE_DIR = str(kept_in(library.__version__))  # type: ignore[attr-defined]  # made on import
    return library


def compiled(law: Law) -> Law:
    """The law as machine code, made when it is first called and kept; the law itself where numba is missing.

    Numbers and arrays only. Exact: no reordering of sums.
    """
    return _made(law, {})


def joined(law: Law) -> Law:
    """As `compiled`, for a part of a larger law that makes no arrays: it is woven into what calls it."""
    return _made(law, {"inline": "always", **_lean()})


def kernel(law: Law) -> Law:
    """As `compiled`, for a large law that makes no arrays: references to them need not be counted."""
    return _made(law, _lean())


def _made(law: Law, more: dict[str, Any]) -> Law:
    library = numba()
    if library is None:
        return law
    made: Law = library.njit(cache=True, nogil=True, error_model="numpy", **more)(law)
    return made


@cache
def _lean() -> dict[str, Any]:
    """numba's own switch for laws that make no arrays, where this version has it: twice as quick."""
    library = numba()
    try:
        if library is not None:
            library.njit(_nrt=False)(_nothing)
            return {"_nrt": False}
    except (KeyError, NameError, TypeError):
        pass  # a version without the switch: the law is compiled without it, with the same numbers
    return {}


def _nothing() -> None:
    """For the trial of a switch."""


def waits_for_compiler(law: str) -> bool:
    """Whether the law of this name has to be compiled first, told without bringing the library."""
    if os.environ.get(PLAIN):
        return False
    try:
        found = version("numba")
    except PackageNotFoundError:
        return False
    return not any(kept_in(found).glob(f"**/*.{law}-*.nbc"))


def kept_in(version: str) -> Path:
    """The folder for what is compiled, named after the texts it is made of."""
    return cache_folder() / f"compiled-{_digest(version)}"


def _digest(version: str) -> str:
    """Of the interpreter, the library and every file that may hold a compiled law."""
    home = Path(__file__).parent.parent
    texts = hashlib.sha256(f"{sys.version} {version}".encode())
    for path in _files(home / room for room in _ROOMS):
        texts.update(path.read_bytes())
    return texts.hexdigest()[:16]


def _files(rooms: Iterable[Path]) -> list[Path]:
    return sorted(path for room in rooms for path in room.rglob(_PRIVATE))
