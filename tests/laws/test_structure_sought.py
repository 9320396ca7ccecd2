"""Checks of the structure that are sought alone, without the rest of the answer, are those of the whole."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from tests.many import many
from tidestead import desk
from tidestead.desk.sought import sought
from tidestead.plan import LoadedPlan, load, loads

EXAMPLES = Path(__file__).parents[2] / "examples"
EACH = 1 if many(100) == 100 else 11
"""Checks are sought alone one in so many, each of them in a long run."""


@cache
def plan(name: str = "packhouse") -> LoadedPlan:
    return load(EXAMPLES / f"{name}.toml")


@pytest.mark.parametrize("name", ["packhouse", pytest.param("skerry", marks=pytest.mark.long)])
def test_checks_sought_alone_are_those_of_the_whole_answer(name: str) -> None:
    """Each by itself, so that what it does not hang on is left out, and all of them."""
    whole = desk.answer(plan(name), ["structure"])["structure"]
    every = sought(plan(name), "structure")
    assert (every.checks, every.figures) == (whole.checks, whole.figures)
    for check in whole.checks[::EACH]:
        assert sought(plan(name), "structure", {check.id}).checks == (check,)
    for figure in whole.figures:
        assert sought(plan(name), "structure", {figure.id}).figures == (figure,)


@pytest.mark.parametrize(
    "without",
    [
        "timber_rules = .*",
        "rim = .*",
        r"\[vessels.reef.walls.all.studs\]\n(.+\n)*",
        r"\[vessels.reef.ties.cross\]\n(.+\n)*",
    ],
)
def test_checks_sought_alone_are_those_of_a_plan_that_is_silent_on_some_of_it(without: str) -> None:
    """What the plan does not say silences no less of a check that is sought alone."""
    text, cut = re.subn(f"(?m)^{without}", "", plan().text, count=1)
    assert cut == 1
    silent = loads(text)
    whole = desk.answer(silent, ["structure"])["structure"]
    assert whole.checks != desk.answer(plan(), ["structure"])["structure"].checks
    for check in whole.checks[:: max(1, EACH // 3)]:
        assert sought(silent, "structure", {check.id}).checks == (check,), check.id
