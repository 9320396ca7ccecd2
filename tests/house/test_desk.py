"""The desk keeps answers by the parts of the plan that a subject reads: every part read must be named there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house.tree import PACKAGE
from tidestead.desk.subjects import ENTRIES, SubjectEntry
from tidestead.plan.model import Plan

ALWAYS = {"show", "gallons"}
"""How numbers are worded, which the key has of its own; what gallons meant on reading."""

BUILT = [entry for entry in ENTRIES.values() if entry.study]


def _room(entry: SubjectEntry) -> Path:
    """The folder of a study, or of the study whose stage it is; of building the whole, which the cost reads with."""
    folder = PACKAGE / entry.study.removeprefix("tidestead.").replace(".", "/")
    if entry.study.startswith("tidestead.build."):
        return PACKAGE / "build"
    return folder if folder.is_dir() else folder.parent


@pytest.mark.parametrize("entry", BUILT, ids=[entry.name for entry in BUILT])
def test_every_part_of_the_plan_that_a_subject_reads_is_in_its_key(entry: SubjectEntry) -> None:
    """Else a plan changed there is answered with what was told before."""
    uses = set(entry.uses)
    read: set[str] = set()
    for path in [*_room(entry).rglob("*.py"), *(PACKAGE / "studies").glob("*.py")]:
        text = path.read_text(encoding="utf-8")
        if path.parent.name == "studies" and path.name == "vessels.py":
            continue  # helpers that are handed a vessel
        read |= set(re.findall(r"\bplan\.(\w+)", text)) & set(Plan.model_fields)
    missing = read - uses - ALWAYS
    assert read
    assert not missing, f"{entry.name} reads {sorted(missing)}: name it in desk/subjects.py"


@pytest.mark.parametrize("entry", BUILT, ids=[entry.name for entry in BUILT])
def test_subject_that_reads_the_weather_is_given_it(entry: SubjectEntry) -> None:
    """Else it would be told that there is none; and one that does not read it need not wait for it."""
    texts = [path.read_text(encoding="utf-8") for path in _room(entry).rglob("*.py")]
    reads = any(re.search(r"\binputs\.(?:no_)?weather\b", text) for text in texts)
    assert reads == entry.weather
    assert not entry.weather or "weather" in entry.uses
