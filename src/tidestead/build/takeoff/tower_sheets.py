"""Sheathing of a tower: each face cut of sheets with bevelled edges, or bent round it, with openings and holes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tidestead.build.lists import Hole
from tidestead.build.takeoff.box_sheets import in_sheet, sheets_told
from tidestead.build.takeoff.clear import clear_sheet
from tidestead.build.takeoff.fixings import sheathing_screws
from tidestead.build.takeoff.gathered import Gathered, Part, Shape, Sheets
from tidestead.build.takeoff.seams import seam_fabric
from tidestead.build.takeoff.sheeting import Field, Prop, Sheeted, grain_is_level, sheeted
from tidestead.build.takeoff.tower_shape import Tower
from tidestead.core.units import show
from tidestead.plan.items import Item
from tidestead.plan.model import Sheathing
from tidestead.studies.openings import Rect, opening_of
from tidestead.studies.structure.drawings_tower import ring_heights


@dataclass(frozen=True)
class _Face:
    """A face whose sheathing the plan names."""

    name: str
    sheathing: Sheathing
    one: float
    layers: tuple[Sheeted, ...]
    field: Field


def tower_sheets(
    gathered: Gathered,
    tower: Tower,
    sizes: dict[str, tuple[float, float]],
    holes: dict[str, list[Hole]],
) -> None:
    """Sheathing of all faces, `sizes` of a sheet and `holes` by face; faces that share a key are one line."""
    together: dict[tuple[str, str], list[_Face]] = {}
    for face in tower.faces:
        sheathing, one = tower.wall(face).sheathing, tower.sheet(face)
        path = tower.path_of(face)
        openings = _openings(gathered, tower, face)
        if sheathing is None or sheathing.sheet is None or one is None:
            gathered.lacks(f"{path}.sheathing.sheet", f"Say the sheathing of {tower.key}.")
            continue
        level = grain_is_level(sheathing)
        size = sizes[face]
        room = size if level else (size[1], size[0])
        field = Field(
            0.0, 0.0, tower.vessel.height, (), ring_heights(tower.vessel), openings, tuple(holes[face])
        )
        layers = tuple(
            sheeted(_layer(tower, field, one, layer), room, from_right=layer % 2 == 1)
            for layer in range(sheathing.layers)
        )
        together.setdefault((path, sheathing.sheet), []).append(
            _Face(face, sheathing, one, layers, _layer(tower, field, one, 0))
        )
    for (path, sheet), faces in together.items():
        _list(gathered, tower, (path, sheet), faces)


def _layer(tower: Tower, field: Field, one: float, layer: int) -> Field:
    """The field of one layer: as wide as its outer side, so that its edges can be bevelled; bent, as its middle."""
    if tower.sides:
        grown = (layer + 1) * one * math.tan(math.pi / tower.sides)
        left, right = -grown, tower.width(0.0) + grown
        ends = (0.0, tower.width(0.0)) if tower.vessel.ribs is None or tower.vessel.ribs.at_corners else ()
    else:
        left, right = 0.0, tower.width((layer + 0.5) * one)
        ends = ()
    stretched = 1.0 if tower.sides else right / tower.width(0.0)
    props = tuple(Prop(at * stretched, 0.0, tower.vessel.height) for at in (*tower.ribs_at(), *ends))
    return replace(field, left=left, right=right, props=props)


def _list(gathered: Gathered, tower: Tower, at: tuple[str, str], faces: Sequence[_Face]) -> None:
    path, sheet = at
    first = faces[0]
    numbers = ", ".join(face.name for face in faces)
    where = f"face{'s' if len(faces) > 1 else ''} {numbers} of {tower.key}" if tower.sides else tower.key
    part = Part(f"{path}.sheathing", f"sheathing of {where}", "S")
    shapes: list[Shape] = [shape for face in faces for layer in face.layers for shape in layer.shapes]
    basis = sheets_told(gathered, first.sheathing, first.layers)
    edges = ""
    if tower.sides:
        edges = f"upright edges bevelled {show(math.pi / tower.sides, 'rad', gathered.system)} off square"
        basis += f"; width of the outer side, {edges}"
    else:
        basis += "; bent round, as long as the girth of its middle"
    made = Sheets(grain_is_level(first.sheathing), basis, edges=edges)
    gathered.sheets(part, Item("sheet", sheet), shapes, made)
    edge = sum(layer.edges for face in faces for layer in face.layers)
    between = sum(layer.between for face in faces for layer in face.layers)
    screwed = Part(part.key, f"screws through the {part.what}", "")
    sheathing_screws(gathered, screwed, (edge, between), first.one * first.sheathing.layers)
    seam_fabric(gathered, tower.vessel, part, [(face.field, face.layers[0]) for face in faces])


def _openings(gathered: Gathered, tower: Tower, face: str) -> tuple[Rect, ...]:
    """Clear openings of a face's windows; what is not told of them is said."""
    rects, found = dict(tower.windows(face)), []
    for name, window in tower.wall(face).windows.items():
        here = f"{tower.path_of(face)}.windows.{name}"
        opening = opening_of(window, rects[name]) if name in rects else None
        if opening is not None:
            found.append(opening)
            continue
        absent = "sill" if name not in rects else "edges" if window.edges is None else "seat.width"
        gathered.lacks(
            f"{here}.{absent}", f"Say {absent} of window {name}: its opening in the sheathing follows."
        )
    return tuple(found)


def tower_windows(gathered: Gathered, tower: Tower, holes: dict[str, list[Hole]]) -> None:
    """The clear sheets of all faces."""
    for face in tower.faces:
        rects = dict(tower.windows(face))
        for name, window in tower.wall(face).windows.items():
            own = in_sheet(holes[face], rects[name]) if name in rects else ()
            called = f"window {name} in face {face} of {tower.key}", "G"
            clear_sheet(gathered, f"{tower.path_of(face)}.windows.{name}", called, window, own)
