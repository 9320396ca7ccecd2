"""Writing a remedy into its plan, and taking the last save back: the former text is kept as the page keeps it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import LoadedPlan
from tidestead.plan.edits import Edit, edited
from tidestead.plan.reading import digest_of
from tidestead.plan.saving import Document, previous_of, save
from tidestead.plan.text import decode, read_bytes


def written(loaded: LoadedPlan, edits: Sequence[Edit]) -> Path:
    """Make the edits in the plan's file; the path of the former version, which is kept.

    Raises a PlanError where they cannot be made, or where the file has changed since it was read.
    """
    if loaded.path is None:
        raise PlanError((Fault("plan", None, "", "was read from no file.", "Save it first."),))
    document = loaded.document
    document.text = edited(loaded.text, edits)
    return save(document, loaded.path)


def undone(path: Path) -> Path:
    """Bring back the version before the last save, byte for byte; the one that it replaces is kept in its place.

    So a second undo brings back what the first took away. Raises a PlanError where no former version is kept.
    """
    former = previous_of(path)
    if not former.is_file():
        told = Fault(
            str(former), None, "", "is not there: no former version is kept.", "Nothing was changed."
        )
        raise PlanError((told,))
    decoded = decode(former.read_bytes(), former.name)
    return save(Document(decoded.text, path, digest_of(read_bytes(path)), decoded.marked), path)
