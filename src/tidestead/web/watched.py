"""Whether a plan's file, or a file that it names beside it, is another than when it was looked at last."""

from __future__ import annotations

from pathlib import Path
from typing import TypeAlias

from tidestead.plan import LoadedPlan

Stamp: TypeAlias = tuple[object, ...]
"""What the system says of a file without reading it, or why it cannot."""


def stamp_of(path: Path) -> Stamp:
    """The stamp of a file as it is now."""
    try:
        found = path.stat()
    except OSError as error:
        return (error.errno,)
    return (found.st_mtime_ns, found.st_size, found.st_ino)


def stamps_beside(path: Path, loaded: LoadedPlan | None) -> Stamp:
    """The stamps of the files that a plan names beside itself."""
    name = loaded.plan.weather.file if loaded is not None else None
    return (stamp_of(path.resolve().parent / name),) if name else ()
