"""Drawings of what the water does: bow and stress over a sheet, the bent frame, the bow to expect while filling."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.core.scene import Contours, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.physics.structure.frames import FrameState

SHOWN_SHARE = 0.08
"""The largest displacement is drawn as this share of the drawing's size."""


_READ_OFF = 0.0015
"""Bows from here on are told as a rule shows them, metres."""


@dataclass(frozen=True)
class Field:
    """What a drawing of a field shows: the sheet, the load case, the judged value with unit, range and limit."""

    ident: str
    sheet: str
    what: str
    unit: str
    case: str
    judged: Estimate
    limit: float | None = None


def field_scene(field: Field, grid: tuple[Array, Array], values: Array, system: System) -> Scene:
    """A field over a sheet, seen from outside. `grid` is (across, up); `values` has shape (up, across).

    It is drawn as its check judges it, at the adverse end of its range: what fails must not look sound. The grid may
    miss the very peak, so that the greatest of the values, in whatever measure, is set to what is judged.
    """
    unit, limit = field.unit, field.limit
    what = field.what if field.judged.high == field.judged.likely else f"{field.what} at worst"
    across, up = (tuple(map(float, axis)) for axis in grid)
    size = np.abs(values)
    most = float(np.max(size))
    drawn = values * (field.judged.high / most) if most > 0.0 else values
    contours = Contours(across, up, tuple(tuple(map(float, row)) for row in drawn), unit, what, limit)
    row, column = np.unravel_index(int(np.argmax(size)), values.shape)
    left, above = (show(place, "m", system, "sheet") for place in (across[column], up[row]))
    peak, likely, allowed = _told(field, system)
    title = f"{field.sheet}: {what}, {field.case}, seen from outside, up to {peak}"
    told = (
        f"{what[0].upper()}{what[1:]}, {field.case}: the largest, {peak}, is {left} from the left edge as seen from "
        f"outside and {above} above the lower edge."
    )
    if what != field.what:
        told += f" Likely it is {likely}. The worst counts: {field.judged.basis.replace('at worst ', '')}."
    if limit is not None:
        title += f", allowed {allowed}"
        told += f" Allowed is {allowed}: it is {'over that' if field.judged.high > limit else 'within that'}."
    return Scene(field.ident, title, told, (contours,))


def _told(field: Field, system: System) -> tuple[str, str, str]:
    """The judged, the likely and the allowed value in one unit; the last is empty where there is none."""
    numbers = [field.judged.high, field.judged.likely, *([] if field.limit is None else [field.limit])]
    style = "" if field.unit != "m" else "bow" if field.judged.high >= _READ_OFF else "fine"
    words = [show(number, field.unit, system, style, numbers) for number in numbers]
    return words[0], words[1], words[2] if len(words) > 2 else ""


def bent_frame(key: str, state: FrameState, system: System) -> Scene:
    """The frame seen from above and to one side, thin as built and thick as it stands under water, exaggerated."""
    model = state.model
    places = np.array([[node.x, node.y, node.z] for node in model.nodes])
    size = float(np.max(np.ptp(places, axis=0)))
    lines = state.shapes(tuple(bar.name for bar in model.bars))
    largest = max(float(np.max(np.linalg.norm(line.moved, axis=1))) for line in lines)
    factor = SHOWN_SHARE * size / largest if largest > 0.0 else 1.0
    shapes: list[Shape] = []
    for line in lines:
        shapes.append(Stroke(_lean(line.rest), "ghost", f"{key}.frame", "as built, without water"))
        shapes.append(Stroke(_lean(line.rest + factor * line.moved), "bow", f"{key}.frame"))
    told = (
        f"Frame of {key} under water, movements drawn {factor:.0f} times too large. The largest is "
        f"{show(largest, 'm', system, 'bow')}."
    )
    return Scene(
        f"structure.{key}.bent", f"How the frame of {key} bends", told, tuple(shapes), exaggerated=factor
    )


def _lean(points: Array) -> tuple[tuple[float, float], ...]:
    """Oblique projection: north runs up and to the right at half its length."""
    return tuple((float(x + 0.35 * y), float(z + 0.25 * y)) for x, y, z in points)
