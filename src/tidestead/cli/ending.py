"""How a command ends: the exit codes, and what is said when it did not go well."""

from __future__ import annotations

import os
import sys
import traceback

from tidestead.core.errors import TidesteadError
from tidestead.report.plain import HANDLER, clean

DONE, FAILS, WRONG_INPUT, OUR_FAULT = 0, 1, 2, 3


class WrongInputError(TidesteadError):
    """What the user gave cannot be used: what is wrong, and what to do."""

    def __init__(self, wrong: str, advice: str = "") -> None:
        super().__init__(f"{wrong} {advice}".strip())


def say_wrong(message: str) -> int:
    """Tell what is wrong with the input."""
    _tell(message)
    return WRONG_INPUT


def say_our_fault(error: BaseException, debug: bool) -> int:
    """Tell that this program is at fault; the trace only where it is asked for."""
    if debug:
        traceback.print_exception(error)
    words = " ".join(str(error).split())[:300]
    kind = type(error).__name__
    _tell(
        f"Tidestead is at fault, not your plan: {kind}{f': {words}' if words else ''}",
        "Please report it, with the plan file and the command you typed."
        + ("" if debug else " TIDESTEAD_DEBUG=1 before the command shows where it happened."),
    )
    return OUR_FAULT


def wants_debug() -> bool:
    """Whether the environment asks for traces."""
    return os.environ.get("TIDESTEAD_DEBUG", "") not in ("", "0")


def close_quietly() -> None:
    """Let the interpreter end in peace although nobody reads our output any more."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (BrokenPipeError, ValueError):
            os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def _tell(*lines: str) -> None:
    reconfigure = getattr(sys.stderr, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors=HANDLER)
    for line in lines:
        print(clean(line), file=sys.stderr)
