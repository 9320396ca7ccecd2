"""The heat study from plan to answer: both examples, working that comes out, a balance that closes, the same again."""

from __future__ import annotations

import json
import math
import pickle
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.journeys.flow_plans import EXAMPLES, changed
from tests.journeys.heat_plans import CHILLER, COLD, FAN, HOUSE, OPEN, ROUND, brief, example_found, found
from tests.journeys.worked import off
from tidestead import desk
from tidestead.cli import main
from tidestead.core.answer import Answer, Table, Verdict
from tidestead.core.charts import BarChart, LineChart, RankChart, StackChart
from tidestead.plan import loads
from tidestead.report.svg_chart import draw_chart
from tidestead.studies.heat.steps import SIGNS

EACH = pytest.mark.parametrize("name", ["skerry", "packhouse"])

ALWAYS = {
    "heat.water.coldest", "heat.water.warmest", "heat.water.spell", "heat.water.wave", "heat.heaters.size",
    "heat.heaters.stuck", "heat.building.humidity", "heat.building.warm_air",
}  # fmt: skip
"""Checks of a whole plan: their ids are pointed at by remedies and by the log, and never change."""

LIFTED = "C = V*c"


@EACH
def test_both_examples_answer_over_an_ensemble(name: str) -> None:
    one = example_found(name)
    assert one.years.count == 20
    own = {"heat.sump.top_off.evaporation"} if name == "packhouse" else set()
    assert {check.id for check in one.answer.checks} == ALWAYS | own
    assert all(check.verdict is not Verdict.UNPROVEN for check in one.answer.checks)
    assert "Over 20 years made from monthly means the water stays between" in one.answer.sentence
    assert endless(one.answer) == []
    kinds = [type(chart) for chart in one.answer.charts]
    assert kinds == [LineChart, StackChart, BarChart, BarChart, RankChart, LineChart, LineChart]
    for chart in one.answer.charts:
        assert "nan" not in draw_chart(chart, "metric")


def endless(answer: Answer) -> list[str]:
    """Numbers of an answer that are none."""
    told = [(check.id, check.estimate) for check in answer.checks]
    told += [(figure.id, figure.estimate) for figure in answer.figures]
    found = [
        ident
        for ident, one in told
        if one is None or not all(map(math.isfinite, (one.low, one.likely, one.high)))
    ]
    for series in answer.series:
        columns = (series.at, series.likely, series.low or (), series.high or ())
        found += [series.id for column in columns if not all(map(math.isfinite, column))]
    for table in answer.tables:
        cells = [cell for row in table.rows for cell in row if isinstance(cell, float)]
        found += [] if all(map(math.isfinite, cells)) else [table.id]
    return found


@pytest.mark.parametrize("text", [HOUSE, COLD, OPEN, ROUND, HOUSE + CHILLER + FAN])
def test_every_formula_has_its_numbers_and_they_give_its_result(text: str) -> None:
    answer = found(text).answer
    assert off(answer) == []
    assert endless(answer) == []


@EACH
def test_working_of_the_examples(name: str) -> None:
    assert off(example_found(name).answer) == []


@EACH
def test_every_check_over_years_or_a_spell_has_working(name: str) -> None:
    answer = example_found(name).answer
    worked = {one.check for one in answer.working}
    assert worked >= ALWAYS - {"heat.water.wave", "heat.building.warm_air"}


def balance_of(
    series: dict[str, dict[str, Any]], capacity: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """By day: the sum of all parts, what is stored and what the change of temperature tells, and what moves, in J."""
    parts = [np.array(series[f"heat.balance.{name[2:]}"]["likely"]) for name in SIGNS]
    stored = np.array(series["heat.balance.stored"]["likely"])
    end = series["heat.balance.end"]
    before = re.search(r"before the first (-?[\d.]+)", str(end["title"]))
    assert before is not None
    rise = np.diff(np.array([float(before[1]), *end["likely"]])) * capacity
    moves = 86400.0 * np.sum(np.abs(parts), axis=0)
    gaps = np.stack([86400.0 * (np.sum(parts, axis=0) - stored), 86400.0 * stored - rise])
    return gaps[0], gaps[1], moves


def capacity_of(working: list[dict[str, Any]]) -> float:
    (step,) = [step for one in working for step in one["steps"] if step["formula"] == LIFTED]
    return float(step["result"]["value"] if isinstance(step["result"], dict) else step["result"])


@EACH
def test_balance_closes_from_the_exported_days_alone(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """The parts of a day make what is stored, and that is the capacity times the change of temperature: to a
    millionth of what moves on that day, out of what `--json` prints and nothing else."""
    assert main(["ask", str(EXAMPLES / f"{name}.toml"), "heat", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)["answers"]["heat"]
    series = {one["id"]: one for one in answer["series"]}
    parts, rises, moves = balance_of(series, capacity_of(answer["working"]))
    assert len(moves) == 365
    assert np.all(moves > 1e6)
    assert np.max(np.abs(parts) / moves) < 1e-6
    assert np.max(np.abs(rises) / moves) < 1e-6


def test_monthly_parts_add_up_to_what_is_stored() -> None:
    """Means of months and years: the tables of gains and losses, each month by itself."""
    one = found(HOUSE)
    balance = one.years.balance
    for month in range(12):
        parts = [balance[name][month] for name in SIGNS]
        assert sum(parts) == pytest.approx(balance["w_stored"][month], abs=1e-6 * sum(map(abs, parts)))
    tables = {table.id: table for table in one.answer.tables}
    for month in range(12):
        gains, losses = numbers(tables["heat.gains"], month), numbers(tables["heat.losses"], month)
        assert sum(gains) + sum(losses[:-1]) == pytest.approx(losses[-1], abs=1e-3)


def numbers(table: Table, row: int) -> list[float]:
    return [cell for cell in table.rows[row] if isinstance(cell, float)]


def test_every_step_of_every_year_closes() -> None:
    for one in (example_found("skerry"), example_found("packhouse"), found(HOUSE), found(OPEN), found(ROUND)):
        assert 0.0 < one.years.closure < 1e-9


@EACH
def test_us_and_metric_words_tell_the_same_facts(name: str) -> None:
    metric, us = (example_found(name, system).answer for system in ("metric", "us"))
    assert [check.estimate for check in metric.checks] == [check.estimate for check in us.checks]
    assert [figure.estimate for figure in metric.figures] == [figure.estimate for figure in us.figures]
    assert "°C" in metric.sentence
    assert "°F" not in metric.sentence
    assert "°F" in us.sentence
    assert "°C" not in us.sentence


def test_the_answer_is_the_same_again_and_facts_travel() -> None:
    """Asked once more without what was kept, and after a journey as bytes."""
    one = found(HOUSE)
    again = found.__wrapped__(HOUSE)
    assert again.facts is not one.facts
    assert again.answer == one.answer
    back = pickle.loads(pickle.dumps(one.facts))
    assert back.years == one.facts.years
    assert back.spell == one.facts.spell


def test_the_answer_is_the_same_in_another_process(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "house.toml"
    path.write_text(HOUSE, encoding="utf-8")
    assert main(["ask", str(path), "heat", "--json"]) == 0
    here = capsys.readouterr().out
    shown = subprocess.run(
        [sys.executable, "-m", "tidestead", "ask", str(path), "heat", "--json"],
        capture_output=True, text=True, encoding="utf-8", timeout=300, check=True,
    )  # fmt: skip
    assert json.loads(shown.stdout)["answers"] == json.loads(here)["answers"]


def test_more_years_are_tried_when_they_are_asked_for() -> None:
    """One year has no spread; three have one, and the first of them is that year."""
    one, three = (brief(changed(HOUSE, ("years = 2", f"years = {count}"))) for count in (1, 3))
    assert one.years.nights.low == one.years.nights.high
    assert one.years.coldest.low == one.years.coldest.high
    assert one.answer.sentence.startswith("Not as it stands. Over one year made from monthly means")
    assert three.years.count == 3
    assert three.years.heater.low < three.years.heater.likely < three.years.heater.high
    assert three.years.heater.low < one.years.heater.likely * 1.05
    assert three.years.coldest.low <= three.years.coldest.likely <= three.years.coldest.high


def test_long_work_tells_how_far_it_is() -> None:
    heard: list[tuple[str, int, int]] = []
    text = changed(
        HOUSE, ("years = 2", "years = 3"), ('name = "house"', 'name = "heard"'), ("0.75 1/h", "0.76 1/h")
    )
    desk.answer(loads(text), ["heat"], within=lambda *told: heard.append(told))
    assert sorted(heard) == [("heat", number, 3) for number in (1, 2, 3)]


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_picture_of_the_year_marks_the_hours_that_are_judged(name: str) -> None:
    """The mean of a day never goes as far as the hour that the checks judge."""
    answer = example_found(name).answer
    chart = next(one for one in answer.charts if one.id == "heat.year")
    assert isinstance(chart, LineChart)
    ends = {check.id: check.estimate for check in answer.checks if check.estimate is not None}
    drawn = {value for curve in chart.curves[1:] for value in curve.values}
    assert drawn == {ends["heat.water.coldest"].low, ends["heat.water.warmest"].high}
    assert "means of the day" in chart.title
