"""What took long to find, kept in the user's cache folder, so that the next process need not find it again.

A door that works for a user turns it on; whoever uses the library has nothing written. What is kept under a key is met
only with the very files of the program that found it. What cannot be read or written is found anew, without a word.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tidestead.core.cache_folder import cache_folder
from tidestead.core.program import program

WORTH_IT = 0.2
"""Seconds of finding from which it is kept. Own choice."""

_AT_MOST = 300
_TIDY_EVERY = 20
"""Files that are kept, those last used; writings between two looks at how many there are. Own choices."""
_ENDING = ".facts"
_DIGEST = hashlib.sha256
_LONG = _DIGEST().digest_size


@dataclass
class _State:
    meets: bool = False
    keeps: bool = False
    written: int = 0


_STATE = _State()


def keep_on_disk(meets: bool = True, keeps: bool = True) -> None:
    """From now on what other processes kept is met, and what this one finds is kept.

    Who tries many plans, none of which is asked for again, only meets.
    """
    _STATE.meets, _STATE.keeps = meets, keeps


def met(key: str) -> Any | None:
    """What was kept under a key; None where there is nothing, or nothing that can be trusted."""
    if not _STATE.meets:
        return None
    path = _path(key)
    try:
        if not _ours(path):
            return None
        content = path.read_bytes()
        said, held = content[:_LONG], content[_LONG:]
        if _DIGEST(held).digest() != said:
            return None
        found = pickle.loads(held)
        os.utime(path)
    except (OSError, pickle.UnpicklingError, AttributeError, ImportError, EOFError):
        return None  # found anew: that is never wrong
    return found


def keep(key: str, found: Any) -> None:
    """Keep it, whole or not at all: another process may read at the same time."""
    if not _STATE.keeps:
        return
    path = _path(key)
    beside = path.with_suffix(f".{os.getpid()}")
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        held = pickle.dumps(found, pickle.HIGHEST_PROTOCOL)
        beside.write_bytes(_DIGEST(held).digest() + held)
        beside.replace(path)
    except (OSError, pickle.PicklingError, AttributeError, TypeError):
        with suppress(OSError):  # what is left of it is never met: it has another ending
            beside.unlink(missing_ok=True)
        return
    _STATE.written += 1
    if _STATE.written % _TIDY_EVERY == 1:
        _tidy(path.parent)


def _path(key: str) -> Path:
    name = _DIGEST(f"{program()}\n{key}".encode()).hexdigest()
    return cache_folder() / "found" / f"{name[:40]}{_ENDING}"


def _ours(path: Path) -> bool:
    """Whether the file is the user's own and nobody else may write it."""
    if sys.platform == "win32":
        return path.is_file()
    told = path.stat()
    return told.st_uid == os.getuid() and not told.st_mode & 0o022


def _tidy(folder: Path) -> None:
    """Drop what was not used for longest."""
    with suppress(OSError):  # another process may drop the same file
        files = sorted(folder.glob(f"*{_ENDING}"), key=lambda path: path.stat().st_mtime_ns, reverse=True)
        for path in files[_AT_MOST:]:
            path.unlink(missing_ok=True)
