"""Loads along a timber: patches that grow evenly, what they do to a beam, and an edge's load cut into them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tidestead.core.kept import kept
from tidestead.physics.structure.beams import BeamState, LinePatch, patched_beam
from tidestead.physics.structure.plates import EdgeReaction

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
    return _bent(tuple(patches), tuple(joints), stiffness)


@kept(at_most=512)
def _bent(patches: tuple[Patch, ...], joints: tuple[float, ...], stiffness: float) -> BeamState:
    state = patched_beam(np.diff(np.asarray(joints, dtype=float)), cut(patches, joints), stiffness)
    for numbers in (state.reactions, state.hogging, state.sagging, state.shear, state.deflection):
        numbers.flags.writeable = False  # more than one may hold it
    return state


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


@kept(at_most=256, by=lambda edge, start: (edge.place.tobytes(), edge.line_load.tobytes(), edge.total, start))
def sliced(edge: EdgeReaction, start: float) -> tuple[Patch, ...]:
    """An edge's line load as patches that carry exactly its total, shifted to begin at `start`."""
    at, load, total = edge.place, np.maximum(edge.line_load, 0.0), edge.total
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
