"""Pipes that run full over a crest or down a drop: how much, how high, when they start, and what stops them."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from tidestead.core.dims import (
    CubicMetrePerSecond,
    G,
    KgPerM3,
    Metre,
    MetrePerSecond,
    Pascal,
    Ratio,
    SquareMetre,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_HOLE: Ratio = 0.61
"""Discharge coefficient of a drilled hole, for water and for slow air. Source: textbooks, sharp orifice."""

_SLUG: Ratio = 0.345
"""Rise of a long bubble in an upright pipe over sqrt(g*D).
Source: Davies and Taylor (1950), White and Beardmore (1962), from memory."""

PARTS: Ratio = 1.0 / 3.0
"""Air over water, by volume, from which bubbles join to pockets and the column of a siphon parts: a quarter of the
pipe is air then. Source: the end of bubbly flow by Taitel, Barnea and Dukler (1980), from memory; that a siphon ends
with it is derived. The holes of common practice, 3 to 6 mm in pipes of 15 to 30 mm, let in that much and more."""

_SWIRL: Ratio = 2.3
"""Source: ANSI/HI 9.8, pump intake design, from memory."""


@dataclass(frozen=True)
class SiphonPipe:
    """A pipe that runs full. `resistance` is all its losses in velocity heads: 1 + sum of K + f*L/D."""

    bore: Metre
    resistance: Ratio

    def __post_init__(self) -> None:
        _refuse.not_positive(bore=self.bore)
        if self.resistance < 1.0:
            raise ImpossibleInput(f"a full pipe loses at least one velocity head, got {self.resistance}")

    @property
    def area(self) -> SquareMetre:
        """Area of the bore."""
        return pi * self.bore**2 / 4.0


@dataclass(frozen=True)
class Crest:
    """The highest place of a siphon: the water and air about it, and losses from the inlet up to it.

    `resistance_before` is in velocity heads, sum of K + f*L/D from the inlet to the crest.
    """

    density: KgPerM3
    air_pressure: Pascal
    vapour_pressure: Pascal
    resistance_before: Ratio


@dataclass(frozen=True)
class BreakHole:
    """What a siphon-break hole does: air it lets in once bare, against the water the pipe would pull down."""

    air: CubicMetrePerSecond
    share: Ratio


def siphon_flow(pipe: SiphonPipe, fall: Metre) -> CubicMetrePerSecond:
    """Flow of a full pipe for the fall between the waters at its ends.

        H = (1 + sum of K + f*L/D)*v**2/(2*g)      Q = A*v

    Source: energy equation between two open waters.
    Valid:  no air in the pipe, crest below `crest_limit`. A free end: fall down to its middle.
    """
    _refuse.negative(fall=fall)
    flow: CubicMetrePerSecond = pipe.area * (2.0 * G * fall / pipe.resistance) ** 0.5
    return flow


def siphon_fall(pipe: SiphonPipe, flow: CubicMetrePerSecond) -> Metre:
    """Fall that a flow through a full pipe needs.

        H = (1 + sum of K + f*L/D)*v**2/(2*g)

    Source: energy equation between two open waters.
    Valid:  as siphon_flow.
    """
    _refuse.negative(flow=flow)
    return pipe.resistance * (flow / pipe.area) ** 2 / (2.0 * G)


def crest_limit(crest: Crest, speed: MetrePerSecond) -> Metre:
    """How high a crest may stand above the water it is fed from before the water in it boils.

        z <= (pa - pv)/(rho*g) - (1 + K)*v**2/(2*g)

    Source: energy equation from the water to the crest.
    Valid:  clean still air pressure; dissolved air comes out at two thirds of it, so stay well below.
    """
    _refuse.not_positive(density=crest.density, air_pressure=crest.air_pressure)
    _refuse.negative(vapour_pressure=crest.vapour_pressure, losses_before_the_crest=crest.resistance_before)
    still = (crest.air_pressure - crest.vapour_pressure) / (crest.density * G)
    return still - (1.0 + crest.resistance_before) * speed**2 / (2.0 * G)


def priming_flow(bore: Metre) -> CubicMetrePerSecond:
    """Flow from which water carries air down an upright pipe, so that a drain can fill and start as a siphon.

        v = 0.345*sqrt(g*D)      the rise of a long bubble in still water

    Source: Davies and Taylor (1950), from memory; that a drain starts above it is derived.
    Valid:  bores over 20 mm. Below it a drain that must run full stays half air; slanting pipes need more.
    """
    _refuse.not_positive(bore=bore)
    flow: CubicMetrePerSecond = pi * bore**2 / 4.0 * _SLUG * (G * bore) ** 0.5
    return flow


def covering_depth(bore: Metre, flow: CubicMetrePerSecond) -> Metre:
    """Depth of water over an inlet that keeps it from drawing air through a swirl.

        S = D*(1 + 2.3*v/sqrt(g*D))

    Source: ANSI/HI 9.8, pump intake design, from memory; the same as S = D + 0.574*Q/D**1.5 in inches and gpm.
    Valid:  open water round the inlet. A strainer, a lid or an elbow turned down needs less; no source says how much.
    """
    _refuse.not_positive(bore=bore)
    _refuse.negative(flow=flow)
    speed = flow / (pi * bore**2 / 4.0)
    depth: Metre = bore * (1.0 + _SWIRL * speed / (G * bore) ** 0.5)
    return depth


def spill_of_hole(hole: Metre, head: Metre) -> CubicMetrePerSecond:
    """Water that squirts from a siphon-break hole while the pump runs.

        Q = 0.61*A*sqrt(2*g*h)      h: head in the pipe at the hole above the water outside it

    Source: sharp orifice.
    Valid:  a clean drilled hole, its wall thinner than the hole is wide; a thick wall passes up to a third more.
    """
    _refuse.not_positive(hole=hole)
    _refuse.negative(head=head)
    flow: CubicMetrePerSecond = _HOLE * pi * hole**2 / 4.0 * (2.0 * G * head) ** 0.5
    return flow


def break_hole(
    pipe: SiphonPipe, hole: Metre, fall: Metre, water_density: KgPerM3, air_density: KgPerM3
) -> BreakHole:
    """What a siphon-break hole does once the water outside has sunk to it.

        air = 0.61*A*sqrt(2*rho*g*h/rho_air)      h: what is left of the fall at the hole, after the inlet's head
        share = air/Q      Q: flow of the siphon

    `fall` is the height of the hole above the lower water. Suction at the hole is at least that of the velocity
    head and inlet loss, h = fall/R; the longer the leg below, the more of the fall stands there. From a share of
    `PARTS` on the siphon parts; in a flow below `priming_flow` any air gathers, and every hole ends it.
    Source: sharp orifice and energy equation; that the share decides is derived.
    Valid:  suction up to 10 kPa, above which air thins; holes that are clean and above the foam line.
    """
    _refuse.not_positive(hole=hole, water_density=water_density, air_density=air_density)
    _refuse.not_positive(fall=fall)
    suction = water_density * G * fall / pipe.resistance
    air = _HOLE * pi * hole**2 / 4.0 * (2.0 * suction / air_density) ** 0.5
    return BreakHole(air, air / siphon_flow(pipe, fall))
