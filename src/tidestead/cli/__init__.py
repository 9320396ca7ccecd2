"""The command line: a door. It reads the request, calls the desk and shows what comes back."""

from __future__ import annotations

import sys
from collections.abc import Sequence


def main(args: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0 done, 1 it fails, 2 wrong input, 3 a fault of ours."""
    try:
        from tidestead.cli.commands import run  # noqa: PLC0415 - only when it runs

        return run(list(sys.argv[1:] if args is None else args))
    except KeyboardInterrupt:
        return 130
