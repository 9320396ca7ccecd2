"""What sweeps have found, kept on this machine point by point, so that one that was stopped goes on where it was."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from tidestead import __version__
from tidestead.core.cache_folder import cache_folder
from tidestead.core.program import program
from tidestead.desk.sought import weather_digest
from tidestead.plan import LoadedPlan
from tidestead.trials.shows import Cell, Shown

KEEP_FILES = 40
"""Sweeps kept; those that were used longest ago go first."""


@dataclass(frozen=True)
class Row:
    """One point: its number in the grid, what was found at it, or why its plan was refused.

    `fault` says that it is this program that failed there: such a row is never kept.
    """

    number: int
    cells: tuple[Cell, ...] = ()
    refused: str = ""
    fault: bool = False


class Known:
    """The rows of one plan, with the same keys varied and the same things shown, by their values as typed."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._rows: dict[tuple[str, ...], tuple[tuple[Cell, ...], str]] = {}

    @classmethod
    def of(cls, loaded: LoadedPlan, keys: Sequence[str], shown: Sequence[Shown], anew: bool = False) -> Known:
        """What is known for a plan as it stands, with its weather. `anew` forgets it."""
        subjects = {one.subject for one in shown}
        said = [loaded.digest, __version__, program(), weather_digest(loaded, subjects)]
        said += [*keys, "", *(one.id for one in shown)]
        name = hashlib.sha256("\n".join(said).encode()).hexdigest()[:32]
        found = cls(cache_folder() / "sweeps" / f"{name}.jsonl")
        if anew:
            with suppress(OSError):
                found._path.unlink(missing_ok=True)
        else:
            found._read()
        return found

    def row(self, number: int, typed: tuple[str, ...]) -> Row | None:
        """The row of a point, where it is known."""
        found = self._rows.get(typed)
        return None if found is None else Row(number, *found)

    def add(self, rows: Iterable[tuple[tuple[str, ...], Row]]) -> None:
        """Keep rows with their values as typed. Where nothing can be kept nothing is said: the sweep goes on."""
        add_lines(self._path, [_line(typed, row) for typed, row in rows if not row.fault])

    def _read(self) -> None:
        try:
            lines = self._path.read_bytes().splitlines()
            self._path.touch()
        except OSError:
            return
        for line in lines:
            with suppress(ValueError, TypeError, KeyError, AttributeError):  # torn off, or of another sort
                typed, cells, refused = _parsed(json.loads(line))
                self._rows[typed] = (cells, refused)


def _line(typed: tuple[str, ...], row: Row) -> str:
    cells = [asdict(cell) for cell in row.cells]
    return json.dumps({"at": typed, "cells": cells, "refused": row.refused}, separators=(",", ":"))


def _parsed(kept: Mapping[str, Any]) -> tuple[tuple[str, ...], tuple[Cell, ...], str]:
    """The parts of a line that was kept; raises where it is none."""
    cells = tuple(Cell(**{**cell, "limits": tuple(cell["limits"])}) for cell in kept["cells"])
    return tuple(map(str, kept["at"])), cells, str(kept["refused"])


def add_lines(path: Path, lines: Sequence[str]) -> None:
    """Lines at the end of a file that only ever grows. Where nothing can be kept nothing is said."""
    if not lines:
        return
    with suppress(OSError):  # a full disk stops nobody's search
        if not path.exists():
            path.parent.mkdir(parents=True, exist_ok=True)
            drop_oldest(path.parent)
        with path.open("ab") as stream:
            # a line that was torn off ends here, and is passed over when it is read
            stream.write(b"\n" + b"".join(f"{line}\n".encode() for line in lines))


def drop_oldest(folder: Path) -> None:
    files = sorted(folder.glob("*.jsonl"), key=lambda path: path.stat().st_mtime)
    for path in files[: max(0, len(files) - KEEP_FILES + 1)]:
        path.unlink(missing_ok=True)
