"""The sentence of an answer and the sign beside its subject speak of the same check."""

from __future__ import annotations

import re

import pytest

from tests.journeys.flow_plans import changed, example
from tidestead import desk
from tidestead.core.answer import Answer, Verdict
from tidestead.core.charts import RankChart
from tidestead.plan import loads
from tidestead.report.wording import governing, ordered
from tidestead.studies.sentences import named

STRONG = '"0 m3/h at 5.2 m", "6 m3/h at 4.5 m", "12 m3/h at 2.6 m", "16 m3/h at 0 m"'
WEAK = changed(
    example("skerry"), (STRONG, '"0 m3/h at 3.2 m", "4 m3/h at 2.6 m", "6 m3/h at 1.6 m", "8 m3/h at 0 m"')
)
"""A pump that moves too little brings other checks down with it."""


def said(answer: Answer) -> str:
    """How the sentence begins to tell of the check that governs."""
    first = governing(answer)
    assert first is not None
    return first.where if first.verdict is Verdict.UNPROVEN else named(first)


MARKS = re.compile(r"`|\*\*|<-|\b\d(?:\.\d+)?e-?\d+")
"""Marks of a program in words for a builder."""
METRIC = re.compile(r"\d[ \u00a0](mm|m/s|K|m|kg|L)\b|litre|degC")


def prose(answer: Answer) -> list[str]:
    """What is read as words: notes, heads and words of tables, pictures, figures, cautions."""
    words = [answer.sentence, *answer.cautions, *(figure.what for figure in answer.figures)]
    words += [text for one in (*answer.scenes, *answer.charts) for text in (one.title, one.told)]
    for table in answer.tables:
        words += [table.title, table.note, *(column.head for column in table.columns)]
        words += [cell for row in table.rows for cell in row if isinstance(cell, str)]
    return words + [text for check in answer.checks for text in (check.what, check.advice, check.missing)]


@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_words_for_a_builder_hold_no_marks_of_a_program(name: str) -> None:
    for answer in desk.answer(
        loads(example(name)), ["structure", "flow", "foam", "light", "heat", "power"]
    ).values():
        assert [text for text in prose(answer) if MARKS.search(text)] == []


def test_power_in_us_units_speaks_no_metric() -> None:
    answer = desk.answer(loads(example("packhouse")), ["power"], "us")["power"]
    assert [text for text in prose(answer) if METRIC.search(text)] == []


def test_heat_in_us_units_speaks_no_metric() -> None:
    answer = desk.answer(loads(example("packhouse")), ["heat"], "us")["heat"]
    assert [text for text in prose(answer) if METRIC.search(text)] == []
    names = [row.name for chart in answer.charts if isinstance(chart, RankChart) for row in chart.rows]
    assert [text for text in names if METRIC.search(text)] == []
    assert any("°F" in text for text in names)


@pytest.mark.parametrize("subject", ["structure", "flow", "foam", "light", "heat", "power"])
@pytest.mark.parametrize(
    "text", [example("packhouse"), example("skerry"), WEAK], ids=["packhouse", "skerry", "weak"]
)
def test_sentence_tells_of_the_check_that_governs(text: str, subject: str) -> None:
    answer = desk.answer(loads(text), [subject])[subject]
    assert said(answer) in answer.sentence


def test_cause_goes_before_what_it_brings_down_in_both() -> None:
    answer = desk.answer(loads(WEAK), ["flow"])["flow"]
    first = governing(answer)
    assert first is not None
    assert first.verdict is answer.verdict is Verdict.FAILS
    assert first.id != ordered(answer.checks)[0].id
