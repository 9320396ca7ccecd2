"""How the answer on foam is told: its drawing, its working, its cautions, in both systems of units."""

from __future__ import annotations

import math
import re

import pytest

from tests.journeys.flow_plans import example
from tests.journeys.foam_plans import found
from tests.journeys.worked import misses, not_given, steps_of
from tidestead.core.scene import Area, Measure, Note, Stroke
from tidestead.core.units import System, show
from tidestead.plan import loads
from tidestead.report.svg_words import broken
from tidestead.studies import flow, foam
from tidestead.studies.inputs import Inputs


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_every_formula_has_its_numbers_and_they_give_its_result(name: str) -> None:
    _, answer = found(example(name))
    steps = list(steps_of(answer))
    assert len(steps) > 30
    for step in steps:
        assert not not_given(step), step.formula
        assert not misses(step), misses(step)
        assert step.unit
        assert "theory" not in step.formula


def test_cautions_are_told_once() -> None:
    for name in ("skerry", "packhouse"):
        _, answer = found(example(name))
        told = [*answer.cautions, *(words for check in answer.checks for words in check.cautions)]
        assert len(told) == len(set(told))
        mixed = [words for words in told if "mixture" in words]
        assert len(mixed) <= 1


def test_us_wording_has_no_metric_figures() -> None:
    """No number with a metric unit behind it stands in what is told in US units, but sizes of bubbles."""
    inputs = Inputs(loads(example("packhouse")).plan, "us")
    facts = foam.find(inputs, flow.find(inputs))
    answer = foam.judge(inputs, facts)
    told = [
        answer.sentence,
        *answer.cautions,
        *(check.advice for check in answer.checks),
        *(words for check in answer.checks for words in check.cautions),
        *(check.estimate.basis for check in answer.checks if check.estimate is not None),
        *(table.note for table in answer.tables),
        *(
            str(cell)
            for table in answer.tables
            for row in table.rows
            for cell in row
            if isinstance(cell, str)
        ),
        *(scene.told for scene in answer.scenes),
        *(step.meaning for working in answer.working for step in working.steps),
    ]
    sizes = [float(one) for words in told for one in re.findall(r"([\d.]+)\s?mm\b", words)]
    assert sizes
    assert max(sizes) <= max(neck.bubble for neck in facts.towers[0].necks) * 1000.0
    metric = re.compile(r"\d\s?(cm|m|L|kg|kPa|Pa|L/min|m³/h|mm/s|µm|g)\b(?!/)")
    assert not [words for words in told if metric.search(words)]


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_drawing_shows_the_tower_to_scale_with_its_figures(name: str, system: System) -> None:
    """Every line of words stands on one line of the drawing, at its own height; levels and ports at theirs."""
    inputs = Inputs(loads(example(name)).plan, system)
    facts = foam.find(inputs, flow.find(inputs))
    tower, (scene,) = facts.towers[0], foam.judge(inputs, facts).scenes
    notes = [shape for shape in scene.shapes if isinstance(shape, Note)]
    assert not [note.words for note in notes if len(broken(note.words)) > 1]
    listed = [note.at[1] for note in notes if note.part == tower.key]
    assert len(listed) == len(set(listed)) >= 12
    assert tower.lift.level is not None
    strokes = [shape for shape in scene.shapes if isinstance(shape, Stroke)]
    heights = {round(point[1], 6) for stroke in strokes for point in stroke.points}
    assert {
        round(tower.level, 6),
        round(tower.way.heights.diffuser, 6),
        round(tower.way.riser or 0.0, 6),
    } <= heights
    water = next(shape for shape in scene.shapes if isinstance(shape, Area))
    assert max(point[1] for point in water.outline) == tower.lift.level.likely
    measures = {(shape.words, round(math.dist(shape.start, shape.end), 6)) for shape in scene.shapes
                if isinstance(shape, Measure)}  # fmt: skip
    assert ("", round(tower.way.met, 6)) in measures
    assert {words for words, _ in measures} == {"", "neck", "riser, lip over floor"}
    said = " ".join(note.words for note in notes)
    for words in (
        "slope",
        "foam of 1.5 mm",
        "with air",
        "without",
        "diffuser",
        "air in the column",
        "bubbles stay",
    ):
        assert words in said


def test_limiting_part_is_named_with_what_to_change() -> None:
    _, answer = found(example("skerry"))
    assert "The part of tower that limits it is air through the neck" in answer.sentence
    assert "To gain room there: a wider neck ring than 330 mm." in answer.sentence
    # less air would help the neck too, but air over water has only 7 % to spare
    assert "less air" not in answer.sentence


@pytest.mark.parametrize("system", ["metric", "us"])
def test_sentence_and_check_tell_the_same_ends_of_the_time(system: System) -> None:
    inputs = Inputs(loads(example("skerry")).plan, system)
    answer = foam.judge(inputs, foam.find(inputs, flow.find(inputs)))
    check = next(check for check in answer.checks if check.id.endswith(".clean_up"))
    assert check.estimate is not None
    assert isinstance(check.limit, float)
    family = (check.estimate.low, check.estimate.likely, check.estimate.high, check.limit)
    low, high = (show(end, "s", system, "", family) for end in (check.estimate.low, check.estimate.high))
    assert f"takes {low} to {high} for nine tenths" in answer.sentence


def test_fish_are_told_by_the_weights_each_reader_thinks_in() -> None:
    """Small fish take more for their weight: a pound of quarter pounds less than 0.4536 of a kilogram of 100 g."""
    notes = {}
    for system in ("metric", "us"):
        inputs = Inputs(loads(example("skerry")).plan, system)
        facts = foam.find(inputs, flow.find(inputs))
        answer = foam.judge(inputs, facts)
        notes[system] = next(table.note for table in answer.tables if table.id == "foam.oxygen")
    assert "1 kg of resting fish of 100 g each" in notes["metric"]
    assert "1 lb of resting fish of 4 oz each" in notes["us"]
    assert 0.44 < facts.gas.fish["us"] / facts.gas.fish["metric"] < 0.45359237


def test_skimmate_is_never_foretold() -> None:
    _, answer = found(example("skerry"))
    told = [figure.what for figure in answer.figures] + [
        column.head for table in answer.tables for column in table.columns
    ]
    assert not [words for words in told if "skimmate" in words or "litres" in words]
