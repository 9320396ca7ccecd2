"""The desk has the weather of a plan when a subject wants it, once, and answers anew when any of it changes."""

from __future__ import annotations

import os
import time
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from tests.laws import weather_texts as texts
from tidestead import desk
from tidestead.core.answer import Answer
from tidestead.desk import answering
from tidestead.desk import weather as had
from tidestead.desk.subjects import SubjectEntry
from tidestead.plan import LoadedPlan, load, loads
from tidestead.studies.inputs import Inputs

PLAN = """
tidestead = 1
name = "a shed"

[site]
latitude = 50.0
longitude = 15.0
elevation = "200 m"
timezone = "Etc/GMT-1"

[weather]
file = "hours.epw"

[weather.normals]
temperature = ["1 degC", "2 degC", "5 degC", "9 degC", "14 degC", "17 degC", "19 degC", "18 degC", "14 degC",
               "10 degC", "5 degC", "2 degC"]
sun = ["0.8 kWh/m2/day", "1.5 kWh/m2/day", "2.7 kWh/m2/day", "4 kWh/m2/day", "5.1 kWh/m2/day", "5.4 kWh/m2/day",
       "5.2 kWh/m2/day", "4.5 kWh/m2/day", "3.3 kWh/m2/day", "2 kWh/m2/day", "0.9 kWh/m2/day", "0.6 kWh/m2/day"]
"""


class Study:
    """A made-up study that counts how often it is asked, and tells the weather it was given."""

    def __init__(self) -> None:
        self.found = 0

    def find(self, inputs: Inputs) -> str:
        self.found += 1
        return inputs.weather.words if inputs.weather else inputs.no_weather

    def judge(self, inputs: Inputs, facts: str) -> Answer:
        return Answer("warmth", "Is it warm?", facts)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    (tmp_path / "hours.epw").write_text(texts.epw(), encoding="utf-8")
    path = tmp_path / "shed.toml"
    path.write_text(PLAN, encoding="utf-8")
    return path


@pytest.fixture
def study(monkeypatch: pytest.MonkeyPatch) -> Study:
    """Two more subjects: one that wants weather, and one that needs the first."""
    made = Study()
    entries = {
        "warmth": SubjectEntry("warmth", "Is it warm?", "warmth", ("site", "weather"), weather=True),
        "above": SubjectEntry("above", "And above?", "above", (), ("warmth",)),
    }
    above = SimpleNamespace(find=lambda inputs, facts: (inputs.weather, facts), judge=judged)
    modules = {"warmth": made, "above": above}
    monkeypatch.setattr(answering, "_KNOWN", entries)
    monkeypatch.setattr(answering, "SUBJECTS", tuple(entries.values()))
    monkeypatch.setattr(answering, "import_module", modules.__getitem__)
    monkeypatch.setattr(answering, "_ANSWERS", {})
    monkeypatch.setattr(answering, "_FACTS", {})
    monkeypatch.setattr(had, "_HAD", {})
    return made


def judged(inputs: Inputs, facts: Any) -> Answer:
    return Answer("above", "And above?", f"{facts[0]} {facts[1]}")


def said(plan: Path | LoadedPlan, subject: str = "warmth") -> str:
    loaded = load(plan) if isinstance(plan, Path) else plan
    return str(desk.answer(loaded, [subject])[subject].sentence)


def test_subject_is_given_the_weather_once(plan: Path, study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    assert said(plan) == "file hours.epw: EPW, Testham, typical year, 50.00 N 15.00 E"
    monkeypatch.setattr(had, "weather_of", lambda *given: pytest.fail("had twice"))
    assert said(plan).startswith("file hours.epw")
    assert study.found == 1


def test_subject_that_does_not_want_it_is_given_none(plan: Path, study: Study) -> None:
    """It is answered anew all the same, as the facts it needs rest on it."""
    assert said(plan, "above").startswith("None file hours.epw")


def test_file_with_the_same_time_and_size_but_another_content_is_seen(plan: Path, study: Study) -> None:
    before = said(plan)
    file = plan.with_name("hours.epw")
    when = file.stat()
    file.write_text(file.read_text(encoding="utf-8").replace("TESTHAM", "OTHERHA"), encoding="utf-8")
    os.utime(file, ns=(when.st_atime_ns, when.st_mtime_ns))
    assert file.stat().st_size == when.st_size
    assert said(plan) == before.replace("Testham", "Otherha")
    assert study.found == 2


def test_one_digit_in_one_hour_is_seen(plan: Path, study: Study) -> None:
    before = said(plan)
    file = plan.with_name("hours.epw")
    lines = file.read_text(encoding="utf-8").split("\n")
    fields = lines[4000].split(",")
    fields[6] = f"{float(fields[6]) + 0.1:.1f}"
    lines[4000] = ",".join(fields)
    file.write_text("\n".join(lines), encoding="utf-8")
    assert said(plan) == before
    assert study.found == 2


def test_wrong_file_is_told_and_the_means_stand_in(plan: Path, study: Study) -> None:
    plan.with_name("hours.epw").write_text("nothing of the kind", encoding="utf-8")
    assert (
        said(plan)
        == "twelve monthly means in your plan (in place of the file hours.epw, which cannot be used)"
    )
    plan.with_name("hours.epw").unlink()
    assert said(plan).startswith("twelve monthly means")
    plan.with_name("hours.epw").write_text(texts.epw(), encoding="utf-8")
    assert said(plan).startswith("file hours.epw")


def test_plan_without_place_or_weather_says_why(plan: Path, study: Study) -> None:
    nowhere = PLAN.replace("latitude = 50.0\n", "")
    assert said(loads(nowhere)) == "The site has no latitude: add latitude under [site]."
    nothing = PLAN[: PLAN.index("[weather]")]
    assert said(loads(nothing)).startswith("The plan names no source of weather.")


def test_service_that_was_not_reached_is_asked_again_later(
    plan: Path, study: Study, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not on every edit, and not never."""
    asked = []
    clock = [0.0]

    def fail(*place: float, **given: Any) -> Any:
        asked.append(place)
        raise ConnectionError

    import pvlib  # noqa: PLC0415 - takes most of a second, and no other test here needs it

    monkeypatch.setattr(pvlib.iotools, "get_pvgis_hourly", fail)
    monkeypatch.setattr(time, "monotonic", lambda: clock[0])
    plan.write_text(PLAN.replace('file = "hours.epw"', 'pvgis = "2019 to 2020"'), encoding="utf-8")
    for now, times in ((0.0, 1), (500.0, 1), (601.0, 2), (900.0, 2)):
        clock[0] = now
        assert said(plan).endswith("(in place of PVGIS, which cannot be used)")
        assert len(asked) == times


def test_examples_have_weather() -> None:
    for name in ("skerry", "packhouse"):
        told = had.weather_for(load(Path(__file__).parents[2] / "examples" / f"{name}.toml"))
        assert told.weather is not None, told.reason
        assert told.weather.tried == ()
        assert told.weather.notes == ()


def test_weather_is_kept_for_a_few_plans_only(tmp_path: Path, study: Study) -> None:
    for number in range(9):
        had.weather_for(loads(PLAN.replace("latitude = 50.0", f"latitude = 5{number}.0")))
    assert len(had._HAD) == 4
