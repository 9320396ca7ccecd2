"""The page of the heat engine: its examples run, its columns are the engine's, its figures are those of the tests."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

import numpy as np
import pytest

from tests.agree import test_heat_referee
from tests.house.test_docs import fenced
from tests.house.tree import ROOT
from tests.laws import test_heat_balance
from tests.published.test_heat_rooms import OUTSIDE, QUOTED, ranges
from tidestead.physics.heat import engine
from tidestead.physics.heat._count import COLUMNS

PAGE = ROOT / "docs" / "heat-engine.md"
TEXT = PAGE.read_text(encoding="utf-8")


@cache
def worked() -> dict[str, Any]:
    """All examples of the page, one after the other."""
    names: dict[str, Any] = {}
    for block in fenced(PAGE, "python"):
        exec(compile(block, str(PAGE), "exec"), names)
    return names


def test_the_pond_is_a_pond() -> None:
    """It follows the seasons, with a swing smaller than the air's, and loses some 500 to 1,100 mm a year, as open
    water in the Netherlands does (650 mm of Makkink's reference evaporation for grass there; from memory)."""
    found = worked()
    water, air = found["water"].reshape(365, 24), found["found"]["air_c"].reshape(365, 24)
    assert found["found"].closure < 1e-9
    assert 2.0 < water[:59].mean() < 8.0
    assert 16.0 < water[181:243].mean() < 26.0
    assert np.ptp(water, axis=1).mean() < np.ptp(air, axis=1).mean()
    assert 500.0 < found["evaporated"] < 1100.0


def test_the_workshop_is_heated() -> None:
    """By degree days: its walls, roof, floor and cracks pass 60 to 70 W/K; the gains spare some of it."""
    found = worked()
    assert found["warm"]["coldest_c"].min() == pytest.approx(18.0, abs=1e-6)
    assert 500.0 < found["kwh"] < 3000.0
    assert found["warm"].water_c.shape == (0, 8760)


def test_the_balance_of_the_page_closes() -> None:
    found = worked()
    moved = sum(np.abs(found["found"][name]).sum() for name in found["parts"])
    assert abs(found["gap"]) < 1e-9 * moved


def test_every_column_is_on_the_page() -> None:
    table = [line.split("|")[1] for line in TEXT.splitlines() if line.startswith("| `")]
    told = {name for cell in table for name in re.findall(r"`(\w+)`", cell)}
    assert told == set(COLUMNS)


def test_figures_of_the_page_are_those_of_the_tests() -> None:
    assert engine.STEPS == 4
    assert "Four steps an hour are the rule" in TEXT
    assert engine.WARM_UP == 30
    assert "thirty days of its own December" in TEXT
    assert f"within {test_heat_referee.WATER_TO} K of LSODA" in TEXT
    assert f"within {100.0 * test_heat_referee.ENERGY_TO} % of 60 steps" in TEXT
    assert test_heat_balance.CLOSES == 1e-9
    whole, cases = len(ranges(QUOTED)), {case for case, _ in ranges(QUOTED)}
    free = {case for case in cases if case.endswith("FF")}
    assert (len(cases - free), len(free)) == (11, 4)
    assert "eleven heated rooms of it, and four more left to themselves" in TEXT
    assert f"{whole - len(OUTSIDE)} of {whole} figures within the ranges" in TEXT


def test_the_page_is_found() -> None:
    assert "(docs/heat-engine.md)" in (ROOT / "README.md").read_text(encoding="utf-8")
    assert "heat-engine.md" in (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
