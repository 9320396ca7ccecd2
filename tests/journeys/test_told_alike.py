"""The sentence of an answer and the sign beside its subject speak of the same check."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed, example
from tidestead import desk
from tidestead.core.answer import Answer, Verdict
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


@pytest.mark.parametrize("subject", ["structure", "flow", "foam", "light", "heat"])
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
