"""What a person sees while long work goes on: on the error stream, and only where it is a terminal."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from threading import Lock

COMPILING = "Compiling the laws of heat and weather: half a minute, once.\n"

_COUNTED = {"cost": "things"}
"""What the parts of a subject are, where they are nothing that it is asked for."""
_EVERY = 0.2
_WIDE = 24


def announce(subjects: Sequence[str] | None) -> None:
    """Say that something has to be compiled first."""
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs

    if desk.must_compile(subjects):
        sys.stderr.write(COMPILING)
        sys.stderr.flush()


@dataclass
class Bar:
    """One line that shows how far a subject is, drawn anew a few times a second, from any thread."""

    counted: str = "years"
    lock: Lock = field(default_factory=Lock)
    last: float = 0.0
    wide: int = 0

    def show(self, subject: str, done: int, of: int) -> None:
        """So many parts of so many."""
        now = time.monotonic()
        with self.lock:
            if now - self.last < _EVERY or of < 1:
                return
            self.last = now
            filled = _WIDE * done // of
            counted = _COUNTED.get(subject, self.counted)
            line = f"{subject}: {'#' * filled}{'.' * (_WIDE - filled)} {done} of {of} {counted}"
            sys.stderr.write("\r" + line.ljust(self.wide))
            sys.stderr.flush()
            self.wide = len(line)

    def clear(self) -> None:
        """Take the line away."""
        with self.lock:
            if self.wide:
                sys.stderr.write("\r" + " " * self.wide + "\r")
                sys.stderr.flush()


@contextmanager
def bar(counted: str = "years") -> Iterator[Bar | None]:
    """A bar where the error stream is a terminal, else none; `counted` is what its parts are."""
    if not sys.stderr.isatty():
        yield None
        return
    shown = Bar(counted)
    try:
        yield shown
    finally:
        shown.clear()
