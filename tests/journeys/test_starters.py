"""The starter plans, with the marks taken away from what they propose, are plans that answer."""

from __future__ import annotations

import re

import pytest

from tidestead import desk
from tidestead.core.answer import Verdict
from tidestead.core.units import System
from tidestead.plan import loads, starter_text


@pytest.mark.parametrize("system", ["metric", "us"])
def test_what_a_starter_proposes_may_be_taken_as_it_stands(system: System) -> None:
    """Every single mark before a key or a heading goes, but for the user's own materials and the earthquake."""
    text = starter_text(system)
    end = text.index("# ---- your own materials")
    bared = re.sub(r"^# (?=\[|[a-z_]+ = )", "", text[:end], flags=re.MULTILINE)
    bared = re.sub(r"^earthquake.*\n", "", bared, flags=re.MULTILINE)
    answers = desk.answer(loads(bared.replace("[weather]", "[weather]\nyears = 2")), ["heat", "light"])
    for name, answer in answers.items():
        assert all(check.verdict is not Verdict.UNPROVEN for check in answer.checks), (name, answer.sentence)
