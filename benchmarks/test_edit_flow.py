"""An edit of either example in a warm process, from plan to new answer on flow: what the page waits for.

Run with `pytest benchmarks/test_edit_flow.py`. Nothing is asserted about time: a machine with other work to do is
slower. The figures to compare with: 0.2 s for an edit that changes the flow, next to nothing for a sheet's thickness.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from tidestead import desk
from tidestead.core.kept import forget
from tidestead.plan import LoadedPlan, load, loads
from tidestead.plan.editing import path_of, with_value

EXAMPLES = Path(__file__).parents[1] / "examples"

VALVE = ("valves.main.open", "{0:.2f} %", 30.0)
WATER = ("vessels.sump.water", "{0:.2f} in", 16.0)
POWER = ("pumps.return.power", "{0:.2f} W", 150.0)
COMBS = {"packhouse": ("vessels.reef.ports.comb.level", "{0:.2f} in", 50.0)}
COMBS["skerry"] = ("vessels.basin.ports.comb.level", "{0:.2f} mm", 1158.0)
SHEETS = {"packhouse": ("vessels.reef.walls.south.windows.long.thickness", "{0:.2f} in", 3.0)}
SHEETS["skerry"] = ("vessels.basin.walls.south.windows.long.thickness", "{0:.2f} mm", 60.0)


def edits(name: str, edit: tuple[str, str, float]) -> Iterator[LoadedPlan]:
    """Plans that differ in one value, no two alike."""
    key, words, first = edit
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for number in count(1):
        yield loads(with_value(text, path_of(key), words.format(first + 0.01 * number)))


def timed(benchmark: Any, name: str, edit: tuple[str, str, float]) -> None:
    forget()
    desk.answer(load(EXAMPLES / f"{name}.toml"), ["flow"])
    plans = edits(name, edit)

    def next_plan() -> tuple[tuple[LoadedPlan, list[str]], dict[str, Any]]:
        return (next(plans), ["flow"]), {}

    answers = benchmark.pedantic(desk.answer, setup=next_plan, rounds=7)
    assert answers["flow"].checks


@pytest.mark.benchmark(group="an edit that changes the flow")
@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_valve(benchmark: Any, name: str) -> None:
    timed(benchmark, name, VALVE)


@pytest.mark.benchmark(group="an edit that changes the flow")
@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_water(benchmark: Any, name: str) -> None:
    timed(benchmark, name, WATER)


@pytest.mark.benchmark(group="an edit that changes the flow")
@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_comb(benchmark: Any, name: str) -> None:
    timed(benchmark, name, COMBS[name])


@pytest.mark.benchmark(group="an edit that changes money only")
@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_power(benchmark: Any, name: str) -> None:
    timed(benchmark, name, POWER)


@pytest.mark.benchmark(group="an edit that flow never reads")
@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_sheet(benchmark: Any, name: str) -> None:
    timed(benchmark, name, SHEETS[name])
