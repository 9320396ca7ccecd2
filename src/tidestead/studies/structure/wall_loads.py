"""What one wall is given to carry, and what its studs, jambs, sills and rim do under it.

Windows hand their load to the timbers round them: the sides to the jambs, the bottom to the sill, the top to
the rim or to a header. Sill and header hand theirs to the jambs, the jambs to rim and base.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tidestead.core.dims import Array
from tidestead.physics.structure.beams import BeamState, LinePatch, patched_beam
from tidestead.studies.structure.drawings_box import stud_places, window_left
from tidestead.studies.structure.found import WallPlace
from tidestead.studies.structure.window_facts import WindowFacts

POINT = 0.02
"""A single force is spread over this length."""
_SLICES = 12
"""An uneven edge load is cut into so many even ones."""


@dataclass(frozen=True)
class Patch:
    """A line load along a timber, from one place to another, growing evenly."""

    start: float
    end: float
    at_start: float
    at_end: float

    @property
    def force(self) -> float:
        return (self.at_start + self.at_end) / 2.0 * (self.end - self.start)


@dataclass(frozen=True)
class JambLoads:
    """The timbers round one window: loads on sill, header and the busier jamb, and where they stand."""

    window: WindowFacts
    left: float
    right: float
    sill: tuple[Patch, ...]
    sill_force: float
    header: tuple[Patch, ...]
    header_force: float
    jamb: tuple[Patch, ...]
    jamb_top: float
    jamb_bottom: float


@dataclass(frozen=True)
class WallLoads:
    """One wall under one load case. Depth at the deep end; line loads in N/m, forces in N.

    `rim` are the patches along the rim, `rim_even` and `base_even` the line loads where there is no window,
    `base_push` the whole push on the base. `stud_depth` is the water over a stud's foot, `stud_base` the line
    load there.
    """

    place: WallPlace
    weight: float
    depth: float
    span: float
    spacing: float
    stud_base: float
    stud_top: float
    stud_bottom: float
    rim_even: float
    base_even: float
    base_push: float
    rim: tuple[Patch, ...]
    jambs: tuple[JambLoads, ...]

    @property
    def pressure(self) -> float:
        """Pressure at the floor."""
        return self.weight * self.depth


def cut(patches: Iterable[Patch], joints: Sequence[float]) -> list[LinePatch]:
    """Patches along a beam cut at its props, each with the number of its span."""
    found = []
    for patch in patches:
        for number, (begin, end) in enumerate(pairwise(joints)):
            low, high = max(patch.start, begin), min(patch.end, end)
            if high - low > 1e-9:
                slope = (patch.at_end - patch.at_start) / (patch.end - patch.start)
                found.append(
                    LinePatch(
                        number,
                        low - begin,
                        high - begin,
                        patch.at_start + slope * (low - patch.start),
                        patch.at_start + slope * (high - patch.start),
                    )
                )
    return found


def bent(patches: Iterable[Patch], joints: Sequence[float], stiffness: float) -> BeamState:
    """A beam over props at `joints` under patches."""
    return patched_beam(np.diff(np.asarray(joints, dtype=float)), cut(patches, joints), stiffness)


def water_patch(weight: float, depth: float, bottom: float, top: float, width: float) -> tuple[Patch, ...]:
    """Line load of the water on an upright `width` wide between two heights above the floor."""
    wet = min(top, depth)
    if wet <= bottom:
        return ()
    return (Patch(bottom, wet, weight * (depth - bottom) * width, weight * (depth - wet) * width),)


def ends(patches: Sequence[Patch], length: float) -> tuple[float, float]:
    """Reactions of a simple beam at its start and at its end."""
    total = sum(patch.force for patch in patches)
    turning = 0.0
    for patch in patches:
        width = patch.end - patch.start
        turning += width * (
            patch.at_start * (patch.start / 2.0 + width / 6.0)
            + patch.at_end * (patch.start / 2.0 + width / 3.0)
        )
    end = turning / length
    return total - end, end


def sliced(place: Array, line_load: Array, start: float, total: float) -> tuple[Patch, ...]:
    """An edge's line load as patches that carry exactly its total, shifted to begin at `start`."""
    at, load = np.asarray(place, dtype=float), np.maximum(np.asarray(line_load, dtype=float), 0.0)
    joints = np.linspace(at[0], at[-1], _SLICES + 1)
    dense = np.linspace(at[0], at[-1], 40 * _SLICES + 1)
    values = np.interp(dense, at, load)
    running = np.concatenate(([0.0], np.cumsum((values[1:] + values[:-1]) / 2.0 * np.diff(dense))))
    pieces = np.diff(np.interp(joints, dense, running))
    scale = max(total, 0.0) / pieces.sum() if pieces.sum() > 0.0 else 0.0
    widths = np.diff(joints)
    return tuple(
        Patch(float(start + low - at[0]), float(start + high - at[0]), float(even), float(even))
        for low, high, even in zip(joints[:-1], joints[1:], pieces * scale / widths, strict=True)
        if even > 0.0
    )


def point(at: float, force: float, length: float) -> Patch:
    """A single force, kept on the beam."""
    low = min(max(at - POINT / 2.0, 0.0), length - POINT)
    return Patch(low, low + POINT, force / POINT, force / POINT)


def wall_loads(
    place: WallPlace, weight: float, level: float, windows: Sequence[WindowFacts]
) -> WallLoads | None:
    """Loads of one wall; None where the plan gives no studs to carry them."""
    studs = place.wall.studs
    if studs is None or studs.spacing is None or studs.section is None:
        return None
    depth = level + place.deeper
    span = max(place.height + place.deeper, depth)
    places = stud_places(place)
    spacing = places[1] - places[0] if len(places) > 1 else studs.spacing
    even = water_patch(weight, depth, 0.0, span, 1.0)
    base_even, rim_even = ends(even, span)
    jambs = tuple(_jamb_loads(place, weight, depth, span, spacing, window) for window in windows)
    rim = _rim_patches(place, rim_even, jambs, weight, depth, span)
    push = sum(patch.force for patch in even) * place.length
    return WallLoads(
        place,
        weight,
        depth,
        span,
        spacing,
        weight * depth * spacing,
        rim_even * spacing,
        base_even * spacing,
        rim_even,
        base_even,
        push - sum(patch.force for patch in rim),
        rim,
        jambs,
    )


def _jamb_loads(
    place: WallPlace, weight: float, depth: float, span: float, spacing: float, window: WindowFacts
) -> JambLoads:
    left = window_left(window.window, place.length)
    right = left + window.width
    sill_at, top_at = window.sill, window.sill + window.height
    reactions = window.reactions
    cripple = water_patch(weight, depth, 0.0, sill_at, 1.0)
    cripple_top = ends(cripple, sill_at)[1] if sill_at > 0.0 else 0.0
    sill = (
        *sliced(reactions.bottom.place, reactions.bottom.line_load, 0.0, reactions.bottom.total),
        *((Patch(0.0, window.width, cripple_top, cripple_top),) if cripple_top > 0.0 else ()),
    )
    header: tuple[Patch, ...] = ()
    if window.top_on == "header":
        above = tuple(
            Patch(patch.start - top_at, patch.end - top_at, patch.at_start, patch.at_end)
            for patch in water_patch(weight, depth, top_at, span, 1.0)
        )
        lower = ends(above, span - top_at)[0] if above else 0.0
        header = (
            *sliced(reactions.top.place, reactions.top.line_load, 0.0, reactions.top.total),
            *((Patch(0.0, window.width, lower, lower),) if lower > 0.0 else ()),
        )
    side = max(reactions.left, reactions.right, key=lambda edge: edge.total)
    jamb = [*sliced(side.place, side.line_load, sill_at, side.total)]
    jamb += water_patch(weight, depth, 0.0, span, spacing / 2.0)
    if window.window.opening.sill_held_by != "base":
        jamb.append(point(sill_at, max(ends(sill, window.width)), span))
    if header:
        jamb.append(point(top_at, max(ends(header, window.width)), span))
    bottom, top = ends(jamb, span)
    return JambLoads(
        window,
        left,
        right,
        sill,
        sum(patch.force for patch in sill),
        header,
        sum(patch.force for patch in header),
        tuple(jamb),
        top,
        bottom,
    )


def _rim_patches(
    place: WallPlace, even: float, jambs: tuple[JambLoads, ...], weight: float, depth: float, span: float
) -> tuple[Patch, ...]:
    """Loads along the rim: studs where there is no window; jamb heads; window tops or what is over a header."""
    patches: list[Patch] = []
    begin = 0.0
    for jamb in sorted(jambs, key=lambda one: one.left):
        if jamb.left > begin:
            patches.append(Patch(begin, jamb.left, even, even))
        patches += [point(at, jamb.jamb_top, place.length) for at in (jamb.left, jamb.right)]
        patches += _over_window(jamb, weight, depth, span)
        begin = max(begin, jamb.right)
    if begin < place.length:
        patches.append(Patch(begin, place.length, even, even))
    return tuple(patches)


def _over_window(jamb: JambLoads, weight: float, depth: float, span: float) -> tuple[Patch, ...]:
    window = jamb.window
    if window.top_on == "rim":
        top = window.reactions.top
        return sliced(top.place, top.line_load, jamb.left, top.total)
    if window.top_on == "header":
        begin = window.sill + window.height
        above = tuple(
            Patch(patch.start - begin, patch.end - begin, patch.at_start, patch.at_end)
            for patch in water_patch(weight, depth, begin, span, 1.0)
        )
        upper = ends(above, span - begin)[1] if above else 0.0
        return (Patch(jamb.left, jamb.right, upper, upper),) if upper > 0.0 else ()
    return ()
