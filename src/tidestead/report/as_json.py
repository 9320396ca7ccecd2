"""Answers as one JSON object: SI values with their unit beside them, format 1, which only grows by addition.

No NaN and no infinity is ever written. What is not a finite number is null, and `why_null` of the same object
says why, under the name of the field (for a place inside a list: the field and the indices, joined by "/").
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Mapping
from importlib import resources
from typing import Any, TypeAlias

from tidestead import __version__
from tidestead.core.answer import (
    Answer,
    Assumption,
    Check,
    Estimate,
    Figure,
    Given,
    Series,
    Step,
    Table,
    Working,
)
from tidestead.core.scene import Area, Contours, Measure, Note, Scene, Shape, Stroke
from tidestead.core.source import Source
from tidestead.report import wording
from tidestead.report.charts_json import chart_object
from tidestead.report.json_numbers import Numbers
from tidestead.report.solids_json import round_object

FORMAT = 1

Object: TypeAlias = dict[str, Any]

_NUMBER_LIST = re.compile(r"\[\n\s*(?:-?[0-9][0-9.eE+-]*|null)(?:,\n\s*(?:-?[0-9][0-9.eE+-]*|null))*\n\s*\]")
"""A list of numbers as json writes it. A string never holds an end of line there, so no words are touched."""


def document(answers: Mapping[str, Answer], plan: str) -> Object:
    """The whole object as plain data."""
    return {
        "format": FORMAT,
        "tidestead": __version__,
        "plan": plan,
        "answers": {subject: _answer(answer) for subject, answer in answers.items()},
    }


def dump(answers: Mapping[str, Answer], plan: str, ascii_only: bool = False) -> str:
    """The object as text, lists of numbers on one line, with a newline at its end."""
    text = json.dumps(document(answers, plan), indent=1, ensure_ascii=ascii_only, allow_nan=False)
    return _NUMBER_LIST.sub(_one_line, text) + "\n"


def _one_line(found: re.Match[str]) -> str:
    return f"[{' '.join(found[0][1:-1].split())}]"


def answers_schema() -> Object:
    """The JSON Schema (2020-12) that every document of this format satisfies."""
    text = resources.files("tidestead.report").joinpath("data", "answers.schema.json").read_text("utf-8")
    schema: Object = json.loads(text)
    return schema


def _source(source: Source) -> Object:
    return {
        "work": source.work,
        "place": source.place,
        "known": source.known.name.lower(),
        "note": source.note,
    }


def _answer(answer: Answer) -> Object:
    return {
        "subject": answer.subject,
        "question": answer.question,
        "verdict": answer.verdict.value,
        "sentence": answer.sentence,
        "checks": [_check(check) for check in wording.ordered(answer.checks)],
        "figures": [_figure(figure) for figure in answer.figures],
        "assumptions": [_assumption(assumption) for assumption in answer.assumptions],
        "working": [_working(working) for working in answer.working],
        "tables": [_table(table) for table in answer.tables],
        "series": [_series(series) for series in answer.series],
        "scenes": [_scene(scene) for scene in answer.scenes],
        "charts": [chart_object(chart) for chart in answer.charts],
        "rounds": [round_object(view) for view in answer.rounds],
        "cautions": list(answer.cautions),
        "sources": [_source(source) for source in answer.sources],
    }


def _estimate(numbers: Numbers, estimate: Estimate | None, reason: str) -> Object:
    ends = (None, None, None) if estimate is None else (estimate.likely, estimate.low, estimate.high)
    found = {
        name: numbers.take(name, end, reason)
        for name, end in zip(("value", "low", "high"), ends, strict=True)
    }
    if estimate is not None and math.isfinite(estimate.followed):
        found["followed"] = numbers.take("followed", estimate.followed)
    return found


def _check(check: Check) -> Object:
    numbers = Numbers()
    reason = wording.reason(check)
    limit = check.limit
    return {
        "id": check.id,
        "what": check.what,
        "where": check.where,
        "part": check.part,
        "case": check.case,
        **_estimate(numbers, check.estimate, reason),
        "basis": check.estimate.basis if check.estimate else "",
        "unit": check.unit,
        "limit": numbers.run("limit", limit)
        if isinstance(limit, tuple)
        else numbers.take("limit", limit, reason),
        "must_be": check.must_be,
        "datum": numbers.take("datum", check.datum),
        "near": numbers.take("near", check.near),
        "use": numbers.take("use", check.use, reason),
        "margin": numbers.take("margin", check.margin, reason),
        "verdict": check.verdict.value,
        "limit_includes": check.limit_includes,
        "missing": check.missing,
        "advice": check.advice,
        "source": _source(check.source),
        "cautions": list(check.cautions),
        "why_null": numbers.why,
    }


def _figure(figure: Figure) -> Object:
    numbers = Numbers()
    return {
        "id": figure.id,
        "what": figure.what,
        **_estimate(numbers, figure.estimate, ""),
        "basis": figure.estimate.basis,
        "unit": figure.unit,
        "source": _source(figure.source),
        "why_null": numbers.why,
    }


def _assumption(assumption: Assumption) -> Object:
    return {
        "key": assumption.key,
        "value": assumption.value,
        "why": assumption.why,
        "source": _source(assumption.source),
    }


def _working(working: Working) -> Object:
    return {
        "title": working.title,
        "check": working.check,
        "part": working.part,
        "steps": [_step(step) for step in working.steps],
    }


def _step(step: Step) -> Object:
    numbers = Numbers()
    return {
        "symbol": step.symbol,
        "meaning": step.meaning,
        "formula": step.formula,
        "numbers": [_given(given) for given in step.numbers],
        "result": numbers.take("result", step.result),
        "unit": step.unit,
        "source": _source(step.source),
        "why_null": numbers.why,
    }


def _given(given: Given) -> Object:
    numbers = Numbers()
    return {
        "symbol": given.symbol,
        "value": numbers.take("value", given.value),
        "unit": given.unit,
        "why_null": numbers.why,
    }


def _table(table: Table) -> Object:
    numbers = Numbers()
    rows = [
        [
            cell if isinstance(cell, str) else numbers.take(f"rows/{number}/{index}", cell)
            for index, cell in enumerate(row)
        ]
        for number, row in enumerate(table.rows)
    ]
    return {
        "id": table.id,
        "title": table.title,
        "columns": [{"head": column.head, "unit": column.unit} for column in table.columns],
        "rows": rows,
        "note": table.note,
        "why_null": numbers.why,
    }


def _series(series: Series) -> Object:
    numbers = Numbers()
    runs = {name: numbers.run(name, getattr(series, name)) for name in ("at", "likely", "low", "high")}
    return {
        "id": series.id,
        "title": series.title,
        "axis": series.axis,
        "axis_unit": series.axis_unit,
        "unit": series.unit,
        **runs,
        "why_null": numbers.why,
    }


def _scene(scene: Scene) -> Object:
    numbers = Numbers()
    return {
        "id": scene.id,
        "title": scene.title,
        "told": scene.told,
        "unit": "m",
        "exaggerated": numbers.take("exaggerated", scene.exaggerated),
        "shapes": [_shape(shape) for shape in scene.shapes],
        "why_null": numbers.why,
    }


def _shape(shape: Shape) -> Object:
    numbers = Numbers()
    made = _geometry(shape, numbers)
    made["part"] = getattr(shape, "part", "")
    made["why_null"] = numbers.why
    return made


def _geometry(shape: Shape, numbers: Numbers) -> Object:
    match shape:
        case Area():
            outline = [numbers.run(f"outline/{index}", point) for index, point in enumerate(shape.outline)]
            return {"kind": "area", "outline": outline, "stuff": shape.stuff, "label": shape.label}
        case Stroke():
            points = [numbers.run(f"points/{index}", point) for index, point in enumerate(shape.points)]
            return {"kind": "stroke", "points": points, "stuff": shape.stuff, "label": shape.label}
        case Note():
            return {"kind": "note", "at": numbers.run("at", shape.at), "words": shape.words}
        case Measure():
            return {
                "kind": "measure",
                "start": numbers.run("start", shape.start),
                "end": numbers.run("end", shape.end),
                "aside": numbers.take("aside", shape.aside),
                "words": shape.words,
            }
        case Contours():
            return _contours(shape, numbers)


def _contours(field: Contours, numbers: Numbers) -> Object:
    return {
        "kind": "contours",
        "what": field.what,
        "unit": field.unit,
        "across": numbers.run("across", field.across),
        "up": numbers.run("up", field.up),
        "values": [numbers.run(f"values/{index}", row) for index, row in enumerate(field.values)],
        "limit": numbers.take("limit", field.limit, "no limit is drawn"),
    }
