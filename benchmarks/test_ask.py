"""A whole answer on structure: the study alone, both examples from plan to answer, and the command from a cold start.

Run with `pytest benchmarks/test_ask.py`. Nothing is asserted about time: a machine with other work to do is slower.
The figures to compare with: help under 0.3 s, the answer on packhouse under 1.5 s cold.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tidestead.core.answer import Answer
from tidestead.core.kept import forget
from tidestead.plan import LoadedPlan, load
from tidestead.report import as_json
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.structure import study
from tidestead.studies.structure.case_checks import judge_case
from tidestead.studies.structure.case_facts import Subject, find_case
from tidestead.studies.structure.facts import StructureFacts
from tidestead.studies.structure.water import load_cases, water_facts

EXAMPLES = Path(__file__).parents[1] / "examples"
PACKHOUSE = EXAMPLES / "packhouse.toml"
EACH = pytest.mark.parametrize("name", ["packhouse", "skerry"])


def inputs_of(loaded: LoadedPlan) -> Inputs:
    return Inputs(loaded.plan, loaded.plan.show)


def told(inputs: Inputs) -> Answer:
    """Past the desk, which keeps what it was asked before."""
    return study.judge(inputs, found(inputs))


def nothing_kept() -> None:
    """Panels solved in an earlier round are solved again."""
    forget()


def found(inputs: Inputs) -> StructureFacts:
    """All facts, nothing kept from an earlier round."""
    nothing_kept()
    return study.find(inputs)


def command(*words: str) -> subprocess.CompletedProcess[str]:
    """The command line in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "tidestead", *words],
        env=dict(os.environ),
        capture_output=True,
        text=True,
        check=True,
    )


@EACH
@pytest.mark.benchmark(group="from plan to answer")
def test_read_a_plan(benchmark: Any, name: str) -> None:
    loaded = benchmark(load, EXAMPLES / f"{name}.toml")
    assert loaded.plan.vessels


@EACH
@pytest.mark.benchmark(group="from plan to answer")
def test_find(benchmark: Any, name: str) -> None:
    inputs = inputs_of(load(EXAMPLES / f"{name}.toml"))
    facts = benchmark.pedantic(found, args=(inputs,), rounds=5, warmup_rounds=1)
    assert facts.built


@EACH
@pytest.mark.benchmark(group="from plan to answer")
def test_whole_answer(benchmark: Any, name: str) -> None:
    inputs = inputs_of(load(EXAMPLES / f"{name}.toml"))
    answer = benchmark.pedantic(told, args=(inputs,), rounds=5, warmup_rounds=1)
    assert len(answer.checks) > 50


@pytest.mark.benchmark(group="one water level")
def test_one_level_found_and_judged(benchmark: Any) -> None:
    """What the search for the highest safe level does again and again."""
    inputs = inputs_of(load(PACKHOUSE))
    vessel = inputs.plan.vessels["reef"]
    subject = Subject("reef", vessel, inputs.plan, study.tables_of(inputs))
    case = load_cases(vessel, water_facts(inputs.plan, vessel))[0]

    def level() -> list[Judged]:
        nothing_kept()
        return judge_case(subject, find_case(subject, case), "us")

    judged = benchmark(level)
    assert len(judged) > 50


@pytest.mark.benchmark(group="telling")
def test_answer_as_json(benchmark: Any) -> None:
    answer = told(inputs_of(load(PACKHOUSE)))
    text = benchmark(as_json.dump, {"structure": answer}, "packhouse.toml")
    assert text.startswith("{")


@pytest.mark.benchmark(group="cold start")
def test_help_cold(benchmark: Any) -> None:
    done = benchmark.pedantic(command, args=("--help",), rounds=5, warmup_rounds=1)
    assert "ask" in done.stdout


@EACH
@pytest.mark.benchmark(group="cold start")
def test_ask_structure_cold(benchmark: Any, name: str) -> None:
    words = ("ask", str(EXAMPLES / f"{name}.toml"), "structure")
    done = benchmark.pedantic(command, args=words, rounds=5, warmup_rounds=1)
    assert "Will it hold?" in done.stdout
