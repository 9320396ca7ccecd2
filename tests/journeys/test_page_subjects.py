"""A subject that comes later appears on the page by itself: through its result types alone."""

from __future__ import annotations

import math
import re
import sys
import types
from pathlib import Path

import pytest

from tests.journeys.page_parts import Still, client_of
from tidestead import desk
from tidestead.core.answer import (
    Answer,
    Assumption,
    Check,
    Column,
    Estimate,
    Figure,
    Given,
    Series,
    Step,
    Table,
    Working,
)
from tidestead.core.charts import BarChart, Bars, HoursChart, HoursRow, Moment
from tidestead.core.scene import Area, Scene
from tidestead.core.source import PRACTICE
from tidestead.desk import answering, subjects
from tidestead.plan import loads
from tidestead.studies.inputs import Inputs
from tidestead.web.bench import Bench

NAME = "kelp"


CHECKS = (
    Check(
        "kelp.bed.reach",
        "reach of the kelp",
        "kelp bed",
        "m",
        Estimate(1.0, 2.0, 2.5),
        1.5,
        PRACTICE,
        part="kelp.bed",
        advice="a shallower bed <b>now</b>",
    ),
    Check("kelp.bed.none", "kelp's own weight", "kelp bed", "kg", Estimate.exact(math.nan), 1.5, PRACTICE),
)
STEP = Step("L", "length", "L = 2*h/3", (Given("h", 3.0, "m"),), 2.0, "m", PRACTICE)
TABLE = Table(
    "kelp.months", "Kelp by month", (Column("month"), Column("length", "m")), (("=May", 1.0), ("June", None))
)
SCENE = Scene(
    "kelp.side",
    "Kelp from the side",
    "Kelp <script>alert(1)</script> from the side.",
    (Area(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), "water", "kelp.bed"),),
)
CHART = BarChart(
    "kelp.bars", "Kelp in bars", "Two bars.", "length", "m", (Bars("kelp", tuple(map(float, range(12)))),)
)

HOURS = HoursChart(
    "kelp.hours",
    "Kelp without light",
    "It lasts for hours.",
    "time in the dark",
    (
        HoursRow(
            "lamp <b>out", (None, None, Moment(3600.0, 7200.0, 14400.0)), Moment.exact(18000.0), "fails", 2.5
        ),
    ),
    864000.0,
)


def _judge(inputs: Inputs, found: object) -> Answer:
    """One of everything that an answer can hold."""
    del inputs, found
    return Answer(
        subject=NAME,
        question="Does the kelp reach the light?",
        sentence="Not yet: the kelp ends 1 m below the light.",
        checks=CHECKS,
        figures=(Figure("kelp.mass", "mass of kelp", Estimate(1.0, 2.0, 3.0), "kg", PRACTICE),),
        assumptions=(Assumption("kelp.bed", "bare rock", "nobody has said", PRACTICE),),
        working=(Working("reach of the kelp", (STEP,), "kelp.bed.reach", "kelp.bed"),),
        tables=(TABLE,),
        series=(Series("kelp.days", "Kelp over days", "day", "s", "m", (0.0, 1.0), (1.0, 2.0)),),
        scenes=(SCENE,),
        charts=(CHART, HOURS),
        cautions=("Kelp is slippery.",),
    )


@pytest.fixture
def kelp(monkeypatch: pytest.MonkeyPatch) -> None:
    """The desk with one more subject, as a later version would have it."""
    study = types.ModuleType("a_study_of_kelp")
    study.__dict__.update(find=lambda inputs: None, judge=_judge)
    monkeypatch.setitem(sys.modules, study.__name__, study)
    entry = subjects.SubjectEntry(NAME, "Does the kelp reach the light?", study.__name__, ("water",))
    known = (*subjects.SUBJECTS, entry)
    monkeypatch.setattr(subjects, "SUBJECTS", known)
    monkeypatch.setattr(answering, "SUBJECTS", known)
    monkeypatch.setattr(answering, "_KNOWN", {one.name: one for one in known})


@pytest.mark.usefixtures("kelp")
def test_a_subject_nobody_knew_appears_untouched(plan: Path) -> None:
    bench = Bench(plan, Still((NAME,)))
    with client_of(bench) as client:
        standing = client.get("/")
        assert "Does the kelp reach the light?" in standing.text
        page = client.get(f"/question/{NAME}").text
        for words in (
            "Not yet: the kelp ends 1 m below the light.",
            "reach of the kelp",
            "kelp bed",
            "Kelp by month",
            "mass of kelp",
            "nobody has said",
            "Kelp is slippery.",
            "Kelp in bars",
            "a shallower bed &lt;b&gt;now",
        ):
            assert words in page
        assert "<script>alert" not in page
        assert "<svg" in page
        hours = client.get(f"/question/{NAME}?picture=kelp.hours").text
        for cell in ("lamp &lt;b&gt;out", "2 h (1 h to 4 h)", "5 h", "fails, 250 % used"):
            assert re.search(rf"<t[hd][^>]*>{re.escape(cell)}</t[hd]>", hours)
        assert "2 h (1 h to 4 h)" not in page
        for picture in ("kelp.side", "kelp.bars", "kelp.hours"):
            assert client.get(f"/question/{NAME}/picture/{picture}.svg").text.startswith("<svg")
        assert "<mfrac" in client.get(f"/question/{NAME}/working/0").text
        assert "'=May" in client.get(f"/question/{NAME}/table/kelp.months.csv").text
        twin = client.get(f"/api/question/{NAME}").json()["answers"][NAME]
        assert twin["verdict"] == "fails"
        assert twin["checks"][1]["verdict"] == "unproven"


def test_questions_without_a_study_stand_there_unproven_with_the_reason(plan: Path) -> None:
    unbuilt = [entry for entry in subjects.SUBJECTS if not entry.built]
    if not unbuilt:
        pytest.skip("every question has a study")
    bench = Bench(plan, Still(tuple(entry.name for entry in unbuilt)))
    with client_of(bench) as client:
        for entry in unbuilt:
            page = client.get(f"/question/{entry.name}").text
            assert entry.question in page
            assert '<b class="verdict">unproven</b>' in page
            assert entry.reason in page


def test_only_what_an_edit_touches_is_worked_out_again(plan: Path) -> None:
    """The desk keeps an answer while what its study reads stands: the same object, which a lane need not send again."""
    text = plan.read_text("utf-8")
    before = desk.answer(loads(text), ["structure", "flow"])
    after = desk.answer(loads(text.replace('power = "170 W"', 'power = "180 W"')), ["structure", "flow"])
    assert after["structure"] is before["structure"]
    assert after["flow"] is not before["flow"]
