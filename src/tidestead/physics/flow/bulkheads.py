"""Fittings through a wall: does the hole fit, does the nut clamp the wall, what pushes on it.

A bulkhead fitting has a flange with a gasket on the wet side and a nut on the dry one; it clamps the wall between.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from tidestead.core.dims import G, KgPerM3, Metre, Newton, Pascal
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class BulkheadSize:
    """A fitting: its hole, its flange over all, and the thinnest and thickest wall its nut clamps."""

    hole: Metre
    flange: Metre
    clamps_from: Metre
    clamps_to: Metre

    def __post_init__(self) -> None:
        _refuse.not_positive(hole=self.hole)
        _refuse.negative(thinnest_wall=self.clamps_from)
        if self.flange <= self.hole or self.clamps_to <= self.clamps_from:
            raise ImpossibleInput(
                "a flange is wider than its hole, and the thickest wall thicker than the thinnest"
            )


@dataclass(frozen=True)
class HolePlace:
    """Where a hole is in a sheet: from its middle to the nearest face of a stud, edge of the sheet, other hole.

    `to_other` runs to the middle of the other hole, `other_flange` is the flange there; None where there is none.
    """

    to_stud: Metre
    to_edge: Metre
    to_other: Metre | None = None
    other_flange: Metre = 0.0


@dataclass(frozen=True)
class HoleRoom:
    """Room left round a flange, below nothing where it does not fit, and of sheet left beside the hole."""

    flange_to_stud: Metre
    flange_to_edge: Metre
    flange_to_other: Metre | None
    hole_to_edge: Metre


@dataclass(frozen=True)
class ClampFit:
    """How a wall fits between flange and nut: what is missing is below nothing."""

    wall: Metre
    thinner_by: Metre
    thicker_by: Metre


@dataclass(frozen=True)
class BlankLoad:
    """Water on a fitting shut with a plug or a shut valve: pressure at its middle, push on what the gasket rings."""

    pressure: Pascal
    push: Newton


def wall_build_up(layers: tuple[Metre, ...]) -> Metre:
    """Thickness between flange and nut: sheathing, liner, backing plates, washers.

        sum of the layers

    Source: geometry.
    Valid:  gaskets left out (a clamp range is for the wall alone); soft liners squeeze to a little less.
    """
    for layer in layers:
        _refuse.negative(layer=layer)
    return float(sum(layers))


def clamp_fit(size: BulkheadSize, wall: Metre) -> ClampFit:
    """Whether a nut clamps a wall.

        thinner_by = wall - thinnest;   thicker_by = thickest - wall      both above nothing: it fits

    Source: geometry.
    Valid:  the maker's clamp range, gasket on.
    """
    _refuse.negative(wall=wall)
    return ClampFit(wall=wall, thinner_by=wall - size.clamps_from, thicker_by=size.clamps_to - wall)


def hole_room(size: BulkheadSize, place: HolePlace) -> HoleRoom:
    """Room round a fitting in its sheet.

        flange: distance - flange/2 (- other flange/2);  sheet beside the hole: distance - hole/2

    Source: geometry.
    Valid:  flat sheet; the nut on the dry side is taken to be no wider than the flange.
    """
    _refuse.negative(to_the_stud=place.to_stud, to_the_edge=place.to_edge)
    half = size.flange / 2.0
    other = None if place.to_other is None else place.to_other - half - place.other_flange / 2.0
    return HoleRoom(
        flange_to_stud=place.to_stud - half,
        flange_to_edge=place.to_edge - half,
        flange_to_other=other,
        hole_to_edge=place.to_edge - size.hole / 2.0,
    )


def blank_load(density: KgPerM3, head: Metre, diameter: Metre) -> BlankLoad:
    """Water on a fitting that is shut.

        p = rho*g*h      F = p*pi/4*d**2      h: water above its middle; d: what the gasket rings

    Source: hydrostatics: on a round face under water the pressure at the middle is the mean.
    Valid:  wholly under water; the thread of the nut bears it, with the nut's own pull on top.
    """
    _refuse.negative(density=density)
    _refuse.not_positive(diameter=diameter)
    if head < diameter / 2.0:
        raise ImpossibleInput(f"a face {diameter} m wide is not under water with its middle {head} m down")
    pressure = density * G * head
    return BlankLoad(pressure, pressure * pi / 4.0 * diameter**2)
