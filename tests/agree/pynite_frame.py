"""One of our frame models rebuilt in PyNite, the referee for frames."""

from __future__ import annotations

import math
from dataclasses import astuple
from typing import Any

import numpy as np
from numpy.typing import NDArray
from Pynite import FEModel3D

from tidestead.physics.structure.frame_model import DIRECTIONS, END_FREEDOMS, Bar, FrameModel

COMBO = "Combo 1"
_WAYS = {"x": "DX", "y": "DY", "z": "DZ", "rx": "RX", "ry": "RY", "rz": "RZ"}
_ENDS = ("Dx", "Dy", "Dz", "Rx", "Ry", "Rz")


def refereed(model: FrameModel) -> Any:
    """The same frame in PyNite, not yet solved. PyNite's z second moment is our strong one."""
    other = FEModel3D()
    for node in model.nodes:
        other.add_node(node.name, node.x, node.y, node.z)
    for bar in model.bars:
        _add_bar(other, bar)
    for support in model.supports:
        other.def_support(support.node, *(way in support.held for way in DIRECTIONS))
    for spring in model.springs:
        other.def_support_spring(spring.node, _WAYS[spring.direction], spring.stiffness)
    for load in model.node_loads:
        for name, size in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), (*load.force, *load.moment), strict=True):
            other.add_node_load(load.node, name, size)
    for line in model.bar_loads:
        for name, first, last in zip(("FX", "FY", "FZ"), line.load_start, line.load_end, strict=True):
            if first or last:
                other.add_member_dist_load(line.bar, name, first, last, line.start, line.end)
    return other


def _add_bar(other: Any, bar: Bar) -> None:
    section = bar.section
    name = "-".join(map(repr, astuple(section)))
    if name not in other.sections:
        other.add_material(name, section.youngs_modulus, section.shear_modulus, 0.3, 0.0)
        other.add_section(name, section.area, section.weak, section.strong, section.torsion)
    other.add_member(bar.name, bar.start, bar.end, name, name)
    member = other.members[bar.name]
    # PyNite rolls a member from its own idea of upright; measure that idea and roll by the difference.
    along, upright, across = member.T()[:3, :3]
    aim = np.asarray(bar.strong_along, dtype=float)
    aim = aim - (aim @ along) * along
    member.rotation = math.degrees(math.atan2(aim @ across, aim @ upright))
    freed = {
        f"{way}{end}": True
        for end, free in (("i", bar.start_free), ("j", bar.end_free))
        for way, what in zip(_ENDS, END_FREEDOMS, strict=True)
        if what in free
    }
    if freed:
        other.def_releases(bar.name, **freed)


def node_moves(other: Any, model: FrameModel) -> NDArray[np.float64]:
    """Movements of the nodes in the order of the model, one row of six each."""
    nodes = [other.nodes[node.name] for node in model.nodes]
    return np.array([[getattr(node, _WAYS[way])[COMBO] for way in DIRECTIONS] for node in nodes])


def reactions(other: Any, model: FrameModel) -> NDArray[np.float64]:
    """Forces of the ground on the nodes, one row of six each."""
    names = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
    nodes = [other.nodes[node.name] for node in model.nodes]
    return np.array([[getattr(node, name)[COMBO] for name in names] for node in nodes])


def end_forces(other: Any, model: FrameModel) -> NDArray[np.float64]:
    """Forces on the ends of the bars in their own directions, one row of twelve each."""
    return np.array([np.asarray(other.members[bar.name].f(COMBO)).ravel() for bar in model.bars])
