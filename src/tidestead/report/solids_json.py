"""A view in the round as JSON: points in metres, faces as numbers of points."""

from __future__ import annotations

from typing import Any, TypeAlias

from tidestead.core.solids import Round, Solid, Span, Tag, Wire
from tidestead.report.json_numbers import Numbers

Object: TypeAlias = dict[str, Any]


def round_object(view: Round) -> Object:
    """The whole view: bodies, thin lines, dimensions, words."""
    return {
        "id": view.id,
        "title": view.title,
        "told": view.told,
        "unit": "m",
        "seen_from": view.seen_from,
        "solids": [_solid(solid) for solid in view.solids],
        "wires": [_wire(wire) for wire in view.wires],
        "spans": [_span(span) for span in view.spans],
        "tags": [_tag(tag) for tag in view.tags],
    }


def _solid(solid: Solid) -> Object:
    numbers = Numbers()
    return {
        "stuff": solid.stuff,
        "part": solid.part,
        "label": solid.label,
        "points": [numbers.run(f"points/{index}", point) for index, point in enumerate(solid.points)],
        "faces": [list(face) for face in solid.faces],
        "why_null": numbers.why,
    }


def _wire(wire: Wire) -> Object:
    numbers = Numbers()
    return {
        "stuff": wire.stuff,
        "part": wire.part,
        "label": wire.label,
        "points": [numbers.run(f"points/{index}", point) for index, point in enumerate(wire.points)],
        "why_null": numbers.why,
    }


def _span(span: Span) -> Object:
    numbers = Numbers()
    return {
        "start": numbers.run("start", span.start),
        "end": numbers.run("end", span.end),
        "aside": numbers.run("aside", span.aside),
        "words": span.words,
        "why_null": numbers.why,
    }


def _tag(tag: Tag) -> Object:
    numbers = Numbers()
    return {
        "at": numbers.run("at", tag.at),
        "words": tag.words,
        "part": tag.part,
        "why_null": numbers.why,
    }
