"""The plan a command was given: found, read, and the subjects asked of it."""

from __future__ import annotations

import difflib
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from tidestead.cli.ending import WrongInputError
from tidestead.core.errors import PlanError

if TYPE_CHECKING:
    from tidestead.plan import LoadedPlan


def read(given: str) -> LoadedPlan:
    """The plan in a file; says what is wrong where there is no such file or it cannot be read."""
    path = found(given)
    try:
        from tidestead import plan  # noqa: PLC0415 - help and faults come at once: only when it runs

        return plan.load(path)
    except PlanError as error:
        raise WrongInputError(_told(error, given)) from error
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        raise WrongInputError(
            f"{given} cannot be read: {why}.", "Check the name and who may read it."
        ) from error
    except RecursionError as error:
        raise WrongInputError(
            f"{given} nests brackets deeper than any plan needs.", "Take some away."
        ) from error


def found(given: str) -> Path:
    """The path of a plan; says what is wrong where no such file lies there."""
    path = Path(given)
    try:
        if path.is_dir():
            raise WrongInputError(f"{given} is a folder, not a plan.", _nearby(path, ""))
        if not path.exists():
            raise WrongInputError(f"There is no file {given}.", _nearby(path.parent, path.name))
        if not path.is_file():
            raise WrongInputError(
                f"{given} is not an ordinary file.", "A plan is a text file that you can edit."
            )
    except OSError as error:
        raise WrongInputError(
            f"{given} cannot be read: {(error.strerror or str(error)).lower()}.", "Check the name."
        ) from error
    return path


def _told(error: PlanError, given: str) -> str:
    """Every fault of a plan, in the order of its lines."""
    faults = sorted(error.faults, key=lambda fault: fault.line or 0)
    count = f"{len(faults)} faults" if len(faults) != 1 else "one fault"
    return "\n".join((f"{given}: {count}. Nothing was computed.", *(f"  {fault}" for fault in faults)))


def _nearby(folder: Path, name: str) -> str:
    """Advice that names the plan files lying in the folder."""
    try:
        plans = sorted(entry.name for entry in os.scandir(folder) if entry.name.endswith(".toml"))
    except (OSError, ValueError):
        plans = []
    near = difflib.get_close_matches(name, plans, 1, 0.5)
    if near:
        return f"Did you mean {folder / near[0]}?"
    if plans:
        return f"Plans in that folder: {', '.join(plans[:5])}."
    return '"tidestead new PLAN" writes a plan to start from.'


def subjects(asked: Sequence[str]) -> list[str] | None:
    """The subjects asked for, each once, or None for all; a word that is none is met with the nearest."""
    from tidestead.desk import SUBJECTS  # noqa: PLC0415 - help and faults come at once: only when it runs

    names = [entry.name for entry in SUBJECTS]
    for word in asked:
        if word not in names:
            near = difflib.get_close_matches(word.lower(), names, 1, 0.4)
            advice = f'Did you mean "{near[0]}"?' if near else f"Subjects: {', '.join(names)}."
            raise WrongInputError(f'"{word}" is not a subject.', advice)
    return list(dict.fromkeys(asked)) or None
