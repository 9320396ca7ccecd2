"""What a plate problem is made of: the panel, how its edges are held, the water against it.

Lengths run from the bottom left corner seen from the dry side: x along the width, y up the height.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias, cast, get_args

import numpy as np

from tidestead.core.dims import (
    Array,
    Metre,
    Newton,
    NewtonMetre,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    NewtonPerMetre2,
    NewtonPerMetre3,
    Pascal,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput, SolverError

Support: TypeAlias = Literal["free", "simple", "clamped"]
EdgeName: TypeAlias = Literal["left", "right", "bottom", "top"]
Metres = Annotated[Array, "m"]
Moments = Annotated[Array, "N m/m"]
LineLoads = Annotated[Array, "N/m"]

EDGE_NAMES: tuple[EdgeName, ...] = get_args(EdgeName)
SUPPORTS: tuple[Support, ...] = get_args(Support)
POISSON_LIMIT: Ratio = 0.5
"""No isotropic solid has more; at this value it keeps its volume. Source: elementary elasticity."""


def _positive(name: str, value: float) -> None:
    if not np.all(np.isfinite(value) & np.greater(value, 0.0)):
        raise ImpossibleInput(f"{name}: {value!r} given; a finite number above zero is needed.")


def _finite(name: str, value: float) -> None:
    if not math.isfinite(value):
        raise ImpossibleInput(f"{name}: {value!r} given; a finite number is needed.")


def _not_negative(name: str, value: float) -> None:
    _finite(name, value)
    if value < 0.0:
        raise ImpossibleInput(f"{name}: {value!r} given; it cannot be below zero.")


@dataclass(frozen=True)
class Edges:
    """How each edge is held: "free", "simple" (held both ways, free to turn) or "clamped"."""

    left: Support
    right: Support
    bottom: Support
    top: Support

    def __post_init__(self) -> None:
        for name in EDGE_NAMES:
            if self.of(name) not in SUPPORTS:
                raise ImpossibleInput(f"{name} edge: {self.of(name)!r} given; one of {SUPPORTS} is needed.")

    def of(self, name: EdgeName) -> Support:
        """The support of one edge by its name."""
        return cast(Support, getattr(self, name))


@dataclass(frozen=True)
class EdgeSprings:
    """What a free edge leans on: force per metre of edge for each metre of bow, N/m2. Zero is nothing.

    A rim under the top edge of a window is such a spring. An edge already held cannot have one.
    """

    left: NewtonPerMetre2 = 0.0
    right: NewtonPerMetre2 = 0.0
    bottom: NewtonPerMetre2 = 0.0
    top: NewtonPerMetre2 = 0.0

    def __post_init__(self) -> None:
        for name in EDGE_NAMES:
            _not_negative(f"stiffness under the {name} edge", self.of(name))

    def of(self, name: EdgeName) -> NewtonPerMetre2:
        """The stiffness under one edge by its name."""
        return cast(float, getattr(self, name))


@dataclass(frozen=True)
class Panel:
    """A flat rectangular sheet of one material and thickness."""

    width: Metre
    height: Metre
    thickness: Metre
    modulus: Pascal
    poisson: Ratio
    edges: Edges
    springs: EdgeSprings = EdgeSprings()

    def __post_init__(self) -> None:
        for name in ("width", "height", "thickness", "modulus"):
            _positive(name, getattr(self, name))
        if not 0.0 <= self.poisson <= POISSON_LIMIT:
            raise ImpossibleInput(
                f"poisson: {self.poisson!r} given; a ratio from 0 to {POISSON_LIMIT} is needed."
            )
        for edge in EDGE_NAMES:
            if self.springs.of(edge) > 0.0 and self.edges.of(edge) != "free":
                raise ImpossibleInput(
                    f"{edge} edge: it is {self.edges.of(edge)} and also leans on a spring. "
                    "Mark it free and give the spring, or leave the spring out."
                )

    @property
    def rigidity(self) -> NewtonMetre:
        """Bending stiffness of a strip one metre wide."""
        return flexural_rigidity(self.modulus, self.thickness, self.poisson)

    @property
    def mirrored(self) -> bool:
        """Whether left and right are held alike, so that the bow is the same on both halves."""
        return self.edges.left == self.edges.right and self.springs.left == self.springs.right

    def length(self, name: EdgeName) -> Metre:
        """Length of one edge."""
        return self.width if name in ("bottom", "top") else self.height

    def leaning(self) -> tuple[EdgeName, ...]:
        """The free edges that lean on a spring."""
        return tuple(name for name in EDGE_NAMES if self.springs.of(name) > 0.0)

    def check_held(self) -> None:
        """Raise SolverError where the edges leave the panel a mechanism.

        A plate may move as a rigid body in three ways: shift and two tilts. A clamped edge takes all three; a
        simple or leaning edge takes two, and any second one takes the third.
        """
        supports = [self.edges.of(name) for name in EDGE_NAMES]
        if "clamped" in supports:
            return
        holding = [name for name in EDGE_NAMES if self.edges.of(name) == "simple"]
        holding += list(self.leaning())
        if not holding:
            raise SolverError("the panel is a mechanism: no edge holds it, so it would be pushed away.")
        if len(holding) == 1:
            raise SolverError(
                f"the panel is a mechanism: only its {holding[0]} edge holds it, and that edge lets it turn. "
                "Clamp that edge or hold a second one."
            )


@dataclass(frozen=True)
class WaterLoad:
    """Water against the panel: `head` above the panel's bottom edge, `weight` the weight of a cubic metre.

    `pressure` is a further even push over the whole panel (negative pulls). A head greater than the panel's
    height gives the trapezoid load of a window below the surface.
    """

    head: Metre
    weight: NewtonPerMetre3
    pressure: Pascal = 0.0

    def __post_init__(self) -> None:
        _not_negative("head of water above the bottom edge", self.head)
        _not_negative("weight of a cubic metre of water", self.weight)
        _finite("even pressure", self.pressure)

    def push(self, height: Metre) -> NewtonPerMetre:
        """Whole push on one metre of width of a panel of this height: weight*(head*h - h**2/2), h wetted."""
        wet = min(self.head, height)
        return self.weight * wet * (self.head - 0.5 * wet) + self.pressure * height

    def moment(self, height: Metre) -> Newton:
        """Moment of that push about the panel's bottom edge, for one metre of width."""
        wet = min(self.head, height)
        return self.weight * wet**2 * (0.5 * self.head - wet / 3.0) + 0.5 * self.pressure * height**2


def flexural_rigidity(modulus: Pascal, thickness: Metre, poisson: Ratio) -> NewtonMetre:
    """Bending stiffness of a plate strip one metre wide.

        D = E * t**3 / (12 * (1 - nu**2))

    Arrays broadcast.
    Source: Kirchhoff plate theory (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, eq. 3).
    Valid:  one even, elastic, isotropic sheet; thickness under a tenth of the shorter side.
    """
    _positive("modulus", modulus)
    _positive("thickness", thickness)
    return modulus * thickness**3 / (12.0 * (1.0 - poisson**2))


def bending_stress(moment: NewtonMetrePerMetre, thickness: Metre) -> Pascal:
    """Stress at the face of a plate from the moment on a metre of its width.

        sigma = 6 * M / t**2

    Positive is tension on the face that the positive moment stretches. Arrays broadcast.
    Source: elementary bending (section modulus of a strip one metre wide, t**2/6).
    Valid:  one even, elastic sheet; no pull or push in the plane of the sheet.
    """
    _positive("thickness", thickness)
    return 6.0 * moment / thickness**2
