"""A formula two percent off must be caught: by print wherever there is a published case, else by its referee.

Every formula, not a sample. Those with a referee only run its tests, which takes minutes: `pytest -m long`.
"""

from __future__ import annotations

import dataclasses
import os
import subprocess
import sys

import numpy as np
import pytest

from tests.house.mutant import OFF, SETTING, scaled
from tests.house.proofs import address, called_in, every_formula, proven_by_print, proven_by_referee
from tests.house.tree import ROOT, TESTS
from tests.published.case import Case
from tidestead.physics.structure.pressure import WallPush

BY_PRINT = {name: [case for case in cases if not case.differs] for name, cases in proven_by_print().items()}
BY_REFEREE = sorted(proven_by_referee() & set(map(address, every_formula())) - BY_PRINT.keys())


def short(name: str) -> str:
    """The address of a formula below its subject; below physics where that is not structure."""
    return name.removeprefix("tidestead.physics.").removeprefix("structure.")


CANNOT_BE_SCALED = {
    "heat.engine.begin": "gives tables that the engine and its referees are both handed",
    "heat.engine.prepare": "gives tables that the engine and its referees are both handed",
    "filling.judge_reading": "gives a word",
    "plate_basis.kept_functions": "gives places in a list",
    "plate_ritz.factored": "gives a matrix in two factors, whose errors cancel when both are scaled",
    "tank_spec.lost_tie": "gives a description that both solvers are handed",
}
"""Formulas whose result has no number that could be two percent off; their referees judge them otherwise."""


@pytest.mark.parametrize("name", sorted(BY_PRINT))
def test_two_percent_off_breaks_a_case(name: str) -> None:
    cases = BY_PRINT[name]
    assert cases, f"{name}: every case of it differs from print, so nothing holds it"
    assert any(not case.holds(OFF) for case in cases), f"{name}: no case notices a result 2 % too large"


@pytest.mark.long
@pytest.mark.timeout(900)
@pytest.mark.parametrize("name", [one for one in BY_REFEREE if short(one) not in CANNOT_BE_SCALED])
def test_two_percent_off_breaks_its_referee(name: str) -> None:
    asked = [str(path) for path in sorted((TESTS / "agree").glob("test_*.py")) if name in called_in(path)]
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-x",
        "-p",
        "tests.house.mutant",
        "-p",
        "no:cacheprovider",
        *asked,
    ]
    spoiled = {**os.environ, SETTING: name}
    done = subprocess.run(command, cwd=ROOT, env=spoiled, capture_output=True, text=True, check=False)
    assert done.returncode == 1, f"{name}: no referee notices a result 2 % too large\n{done.stdout[-2000:]}"


def test_what_cannot_be_scaled_is_there() -> None:
    assert CANNOT_BE_SCALED.keys() <= {short(name) for name in BY_REFEREE}


def test_a_blunt_case_is_noticed() -> None:
    """The check itself: a tolerance of five percent hides a fault of two."""
    blunt = Case("blunt", lambda: 100.0, {}, 100.0, 5.0, "made up", "here", "computed")
    sharp = dataclasses.replace(blunt, name="sharp", to=0.5)
    assert blunt.holds(OFF)
    assert sharp.holds()
    assert not sharp.holds(OFF)


def test_every_real_number_of_a_result_is_scaled() -> None:
    push = scaled(WallPush(force=100.0, along=1.0, above=2.0))
    assert dataclasses.astuple(push) == (102.0, 1.02, 2.04)
    assert scaled((50.0, 3, "words", True)) == (51.0, 3, "words", True)
    assert list(scaled(np.array([1.0, 2.0]))) == [1.02, 2.04]
