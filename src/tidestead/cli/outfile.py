"""Files written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

from tidestead.cli.ending import WrongInputError


def check(path: Path) -> None:
    """Refuse a place where no file can be written, before anything is worked out for it."""
    if path.is_dir():
        raise WrongInputError(
            f"{path} is a folder; a file name is needed.", f"Write, say, -o {path / 'answers.json'}"
        )
    if not path.parent.is_dir():
        raise WrongInputError(
            f"{path} cannot be written: there is no folder {path.parent}.", "Make it first."
        )


def write(path: Path, content: str | bytes) -> None:
    """Write text as UTF-8, or bytes as they are, in place of a file of that name.

    A crash or Ctrl-C leaves the old file as it was.
    """
    check(path)
    try:
        if path.exists() and not path.is_file():
            path.write_bytes(_bytes(content))
        else:
            _write_beside(path.resolve(), content, replace=True)
    except OSError as error:
        raise _refusal(path, error) from error


def create(path: Path, text: str) -> bool:
    """Write a new file; False, and nothing done, where the name is taken."""
    try:
        _write_beside(path, text, replace=False)
    except FileExistsError:
        return False
    except OSError as error:
        raise _refusal(path, error) from error
    return True


def folder(path: Path) -> Path:
    """The folder, made if it is not there."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise WrongInputError(
            f"{path} is a file; a folder is needed there.", "Give another name after -o."
        ) from error
    except OSError as error:
        raise _refusal(path, error) from error
    return path


def _bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def _write_beside(path: Path, content: str | bytes, replace: bool) -> None:
    """Write to a new file in the same folder, bring it to disk, then give it its name in one step."""
    draft = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with draft.open("xb") as stream:
            stream.write(_bytes(content))
            stream.flush()
            os.fsync(stream.fileno())
        if replace:
            os.replace(draft, path)
        else:
            _name_if_free(draft, path)
    finally:
        draft.unlink(missing_ok=True)


def _name_if_free(draft: Path, path: Path) -> None:
    """Give the draft its name unless the name is taken. A link refuses a taken name; a rename would not."""
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:
        # A file system without links: the gap between look and rename is the price.
        if path.exists():
            raise FileExistsError(path) from None
        os.replace(draft, path)


def _refusal(path: Path, error: OSError) -> WrongInputError:
    why = (error.strerror or str(error)).lower()
    return WrongInputError(f"{path} cannot be written: {why}.", "Choose another place.")
