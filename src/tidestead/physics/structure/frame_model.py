"""What a frame is made of: nodes, bars, what holds them, what loads them. Plain data, metres and newtons.

Directions at a node are "x", "y", "z" and the turns "rx", "ry", "rz" about those axes; z is up in a vessel.
A bar's own directions: along it; "strong", the way its deep side points; "weak", square to both.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from tidestead.core.dims import (
    Metre,
    Metre4,
    Newton,
    NewtonMetre,
    NewtonPerMetre,
    Pascal,
    Ratio,
    SquareMetre,
)
from tidestead.physics.structure.members import MemberSection

Direction: TypeAlias = tuple[Ratio, Ratio, Ratio]
"""A direction in space; its length does not matter."""

Force: TypeAlias = tuple[Newton, Newton, Newton]
Moment: TypeAlias = tuple[NewtonMetre, NewtonMetre, NewtonMetre]
LineForce: TypeAlias = tuple[NewtonPerMetre, NewtonPerMetre, NewtonPerMetre]

DIRECTIONS = ("x", "y", "z", "rx", "ry", "rz")
"""At a node, in the order of every row of six."""

END_FREEDOMS = ("axial", "shear_strong", "shear_weak", "torsion", "bend_weak", "bend_strong")
"""At a bar's end, in the order of its end forces."""

HINGE = ("bend_strong", "bend_weak")
"""An end that may turn either way but not about the bar itself."""

SWIVEL = ("bend_strong", "bend_weak", "torsion")
"""An end that may turn about everything. Only at one end of a bar, else the bar spins."""


@dataclass(frozen=True)
class Node:
    """A point where bars meet."""

    name: str
    x: Metre
    y: Metre
    z: Metre


@dataclass(frozen=True)
class BarSection:
    """Stiffness of a bar: moduli of the material and the numbers of its cross-section."""

    youngs_modulus: Pascal
    shear_modulus: Pascal
    area: SquareMetre
    strong: Metre4
    weak: Metre4
    torsion: Metre4

    @classmethod
    def of(cls, section: MemberSection, youngs_modulus: Pascal, shear_modulus: Pascal) -> BarSection:
        """From a cross-section of `members` and the two moduli."""
        return cls(youngs_modulus, shear_modulus, section.area, section.strong, section.weak, section.torsion)


@dataclass(frozen=True)
class Bar:
    """A straight bar. `strong_along` is the direction in space its deep side points to.

    Loads in that direction are resisted by the strong second moment; it need not be square to the bar but
    must not lie along it. `start_free` and `end_free` name what the ends do not pass on, from `END_FREEDOMS`.
    """

    name: str
    start: str
    end: str
    section: BarSection
    strong_along: Direction
    start_free: tuple[str, ...] = ()
    end_free: tuple[str, ...] = ()


@dataclass(frozen=True)
class Support:
    """Directions in which a node cannot move."""

    node: str
    held: tuple[str, ...]


@dataclass(frozen=True)
class Spring:
    """A spring from a node to the ground in one direction; about rx, ry, rz it is N m per radian."""

    node: str
    direction: str
    stiffness: NewtonPerMetre


@dataclass(frozen=True)
class NodeLoad:
    """A force and a moment on a node, in the directions of space."""

    node: str
    force: Force
    moment: Moment = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class BarLoad:
    """A load in the directions of space on part of a bar, from `start` to `end` metres along it.

    It grows evenly from `load_start` to `load_end`.
    """

    bar: str
    start: Metre
    end: Metre
    load_start: LineForce
    load_end: LineForce


@dataclass(frozen=True)
class FrameModel:
    """A whole frame."""

    nodes: tuple[Node, ...]
    bars: tuple[Bar, ...]
    supports: tuple[Support, ...]
    springs: tuple[Spring, ...] = ()
    node_loads: tuple[NodeLoad, ...] = ()
    bar_loads: tuple[BarLoad, ...] = ()
