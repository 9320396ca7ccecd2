"""The command line: a door. It reads the request, calls the desk and shows what comes back."""

from __future__ import annotations

import _thread
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from tidestead.core.threads import one_for_matrices

_LATER = 0.05
"""Seconds after which an interrupt that was lost is raised once more."""


def main(args: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0 done, 1 it fails, 2 wrong input, 3 a fault of ours."""
    try:
        one_for_matrices()
        with _no_interrupt_lost():
            from tidestead.cli.commands import run  # noqa: PLC0415 - help and faults come at once: only when it runs

            return run(list(sys.argv[1:] if args is None else args))
    except KeyboardInterrupt:
        return 130


def _interrupt_later() -> None:
    """Ctrl-C once more in a moment; one that falls into this itself, on a busy machine, is put off again."""
    while True:
        try:
            again = threading.Timer(_LATER, _thread.interrupt_main)
            again.daemon = True
            again.start()
        except KeyboardInterrupt:
            continue
        return


@contextmanager
def _no_interrupt_lost() -> Iterator[None]:
    """Ctrl-C that falls into a library where no exception can leave is raised once more, and not printed."""
    before: Callable[[Any], object] = sys.unraisablehook

    def once_more(lost: Any) -> None:
        if lost.exc_type is not None and issubclass(lost.exc_type, KeyboardInterrupt):
            _interrupt_later()  # here it would be lost as well
        else:
            before(lost)

    sys.unraisablehook = once_more
    try:
        yield
    finally:
        sys.unraisablehook = before
