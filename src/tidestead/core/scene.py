"""Drawings as plain geometry in metres: what is where, of what stuff, under what name.

A scene knows no colours, pixels or fonts; renderers choose those from `stuff`. `part` is the key that checks
carry too, so that a drawing and its checks can point at each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Stuff = Literal[
    "timber",
    "sheet",
    "clear",
    "water",
    "membrane",
    "ground",
    "metal",
    "seal",
    "outline",
    "ghost",
    "load",
    "bow",
    "solid",
    "dashed",
    "dotted",
]
Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True)
class Area:
    """A filled outline."""

    outline: tuple[Point, ...]
    stuff: Stuff
    part: str = ""
    label: str = ""


@dataclass(frozen=True)
class Stroke:
    """An open line."""

    points: tuple[Point, ...]
    stuff: Stuff
    part: str = ""
    label: str = ""


@dataclass(frozen=True)
class Note:
    """Words at a place."""

    at: Point
    words: str
    part: str = ""


@dataclass(frozen=True)
class Measure:
    """A dimension between two points, drawn `aside` metres off the line; `style` as units.show takes it."""

    start: Point
    end: Point
    aside: float
    style: str = ""
    words: str = ""


@dataclass(frozen=True)
class Contours:
    """A field on a regular grid: values[row][column] at across[column], up[row], in `unit`."""

    across: tuple[float, ...]
    up: tuple[float, ...]
    values: tuple[tuple[float, ...], ...]
    unit: str
    what: str
    limit: float | None = None
    part: str = ""


Shape: TypeAlias = Area | Stroke | Note | Measure | Contours


@dataclass(frozen=True)
class Sign:
    """A sign of the drawing that its key explains: lines in a square of side one round its middle, and words."""

    lines: tuple[tuple[Point, ...], ...]
    words: str


@dataclass(frozen=True)
class Scene:
    """One drawing, true to scale, x to the right and y up, in metres. `told` is the same in words."""

    id: str
    title: str
    told: str
    shapes: tuple[Shape, ...]
    exaggerated: float = 1.0
    signs: tuple[Sign, ...] = ()
