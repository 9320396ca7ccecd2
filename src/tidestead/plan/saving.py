"""Edits that are judged before they are taken, and saves that lose nothing.

A save writes a file of its own beside the plan, puts it on the disk, keeps what was there before as
PLAN.previous.toml, and only then takes the plan's name in one step. Whatever stops it, the plan is either as
it was or as it was to be.
"""

from __future__ import annotations

import codecs
import os
import secrets
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.editing import Value, path_of, with_value, without
from tidestead.plan.faults import ordered
from tidestead.plan.model import Plan
from tidestead.plan.reading import digest_of, judged
from tidestead.plan.remarks import without_remarks
from tidestead.plan.text import decode

try:
    import fcntl
except ImportError:  # Windows has no such lock; there the digest alone guards
    fcntl = None  # type: ignore[assignment]  # asked for before each use

_UNFINISHED = ".part"
_LOOKS, _BETWEEN = 20, 0.02
"""How often, and how many seconds apart, it is looked whether another saver is done."""
_LONG = 80
"""Characters of the plan's name in the name of an unfinished file; a file name may not be longer than 255."""


@dataclass
class Document:
    """The text of a plan while it is edited, and which file it was read from in which state."""

    text: str
    path: Path | None = None
    digest: str = ""
    marked: bool = False

    @property
    def data(self) -> bytes:
        """The bytes to be saved."""
        return (codecs.BOM_UTF8 if self.marked else b"") + self.text.encode("utf-8")


def set_value(document: Document, key: str, value: Value | None) -> Plan:
    """Change one value in the document, or take it out with None; the plan as it then is.

    All other text stays as typed, but for the program's own remark that this value was assumed. Raises a PlanError,
    and leaves the document as it was, where the plan would then have a fault.
    """
    path = path_of(key)
    text = without_remarks(document.text, path, value)
    text = without(text, path) if value is None else with_value(text, path, value)
    plan = _sound(text, str(document.path or "plan"))
    document.text = text
    return plan


def save(document: Document, path: str | Path) -> Path:
    """Write the document to its file; the path of the previous version that was kept, or of the new file.

    Raises a PlanError where the text has a fault, where the file has changed on disk since it was read, or
    where another file stands at the path.
    """
    target = Path(path).resolve()
    _sound(document.text, target.name)
    try:
        own = document.path is not None and document.path.resolve() == target
        kept = _replace(document, target) if own else _create(document, target)
    except OSError as error:
        why = error.strerror or str(error)
        raise _refused(target, f"cannot be saved: {why}.", "What was saved before is still there.") from error
    document.path, document.digest = target, digest_of(document.data)
    return kept


def previous_of(path: Path) -> Path:
    """Where the version before the last save is kept."""
    return path.with_name(f"{path.stem}.previous{path.suffix}")


def _sound(text: str, name: str) -> Plan:
    """The plan in a text, which is held to all that reading it back will ask."""
    decoded = decode(text.encode("utf-8", "surrogatepass"), name)
    plan, faults = judged(decoded.text, name)
    told = [*decoded.faults, *faults]
    if told or plan is None:
        raise PlanError(ordered(told))
    return plan


def _replace(document: Document, target: Path) -> Path:
    """Take the place of the file the document was read from, if that is still as it was."""
    kept = previous_of(target)
    with _held(target) as file:
        before = file.read()
        if digest_of(before) != document.digest or not os.path.samestat(
            os.fstat(file.fileno()), target.stat()
        ):
            advice = "Read it again and make the change there; nothing was written."
            raise _refused(target, "has changed on disk since it was read.", advice)
        if not os.access(target, os.W_OK):
            raise _refused(target, "may not be written.", "Change its rights, or save it under another name.")
        _sweep(target)
        with (
            _beside(target, document.data, like=target) as fresh,
            _beside(target, before, like=target) as old,
        ):
            os.replace(old, kept)
            os.replace(fresh, target)
    _settle(target.parent)
    return kept


def _create(document: Document, target: Path) -> Path:
    """Make a new file, never over one that is there."""
    taken = _refused(target, "is there already.", "Give another name.")
    if target.exists():
        raise taken
    with _beside(target, document.data) as fresh:
        try:
            os.link(fresh, target)
        except FileExistsError:
            raise taken from None
        except OSError:
            os.replace(fresh, target)
    _settle(target.parent)
    return target


@contextmanager
def _held(target: Path) -> Iterator[BinaryIO]:
    """The file as it is, held so that of two savers the second sees what the first has done."""
    if target.exists() and not target.is_file():  # to open a pipe would wait for its writer
        raise _refused(target, "is not a plain file any more.", "Take that away, and put the plan back.")
    try:
        file = target.open("rb")
    except FileNotFoundError:
        raise _refused(
            target, "is no longer there.", "Put it back under this name first, or save under another."
        ) from None
    with file:
        if fcntl is not None:
            _lock(file, target)
        yield file


def _lock(file: BinaryIO, target: Path) -> None:
    """Hold the file against other savers, who are done in a moment; whoever holds it longer is not waited for."""
    for _ in range(_LOOKS):
        try:
            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            time.sleep(_BETWEEN)
        else:
            return
    raise _refused(target, "is held by another program.", "Let that finish, and save again.")


def _sweep(target: Path) -> None:
    """Take away what a crash left beside the plan. Only its one saver, who holds the plan, may do this."""
    for name in os.listdir(target.parent):
        if fcntl is not None and name.startswith(f".{target.name[:_LONG]}.") and name.endswith(_UNFINISHED):
            with suppress(FileNotFoundError):  # gone already is as good
                target.with_name(name).unlink()


@contextmanager
def _beside(target: Path, data: bytes, like: Path | None = None) -> Iterator[Path]:
    """A finished file in the same folder, on the disk; taken away again if it is not used."""
    fresh = target.with_name(f".{target.name[:_LONG]}.{secrets.token_hex(6)}{_UNFINISHED}")
    try:
        with fresh.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if like is not None:
            fresh.chmod(stat.S_IMODE(like.stat().st_mode))
        yield fresh
    finally:
        with suppress(FileNotFoundError):  # moved to its place: nothing to take away
            fresh.unlink()


def _settle(folder: Path) -> None:
    """Put the change of names on the disk too, where the system lets a folder be opened for that."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _refused(target: Path, allowed: str, advice: str) -> PlanError:
    return PlanError((Fault(str(target), None, "", allowed, advice),))
