"""The command line: a door. It reads the request, calls the desk and shows what comes back."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

_MATRIX_THREADS = ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS")
"""Matrices here are small: threads that wait for each other cost more than they save, most of all on a busy
machine. What the user has set stands."""


def main(args: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0 done, 1 it fails, 2 wrong input, 3 a fault of ours."""
    for name in _MATRIX_THREADS:
        os.environ.setdefault(name, "1")
    try:
        from tidestead.cli.commands import run  # noqa: PLC0415 - only when it runs

        return run(list(sys.argv[1:] if args is None else args))
    except KeyboardInterrupt:
        return 130
