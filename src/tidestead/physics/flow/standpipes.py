"""Upright drain pipes with an open top: at which head they carry how much, and how they run at it.

A lip takes water as a weir at first, as an orifice once it is drowned, and in the end no more than the full pipe
below it can carry. The least of the three is what it takes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi
from typing import Literal, TypeAlias

from tidestead.core.dims import CubicMetrePerSecond, G, Metre, MetrePerSecond, Ratio, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.laws import HeadAt

Regime: TypeAlias = Literal["dry", "weir", "gulping", "orifice", "full"]

_ORIFICE: Ratio = 0.6
_LIP: Ratio = 0.414
"""Coefficient of a drowned lip, and weir coefficient over sqrt(2*g).
Source: EPA, SWMM reference manual, volume II, section 6.2, bottom orifices; quoted."""

_GULPS_FROM: Ratio = 0.25
_GULPS_TO: Ratio = 0.6
"""Heads over bore between which a lip draws air in gulps. Derived: either side of the change at 0.36."""

_ERROR: Ratio = 0.15
_SWIRL: Ratio = 1.0 / 3.0
"""Error of the head over a lip that runs as a weir; share of its flow that a swirl may take. Common practice, no
source."""

_NOTHING: Ratio = 0.02
"""Share of the drowning head below which the law runs on to nothing as a parabola."""

GALLON_A_MINUTE: CubicMetrePerSecond = 231.0 * 0.0254**3 / 60.0
INCH: Metre = 0.0254
"""Units in which the two laws of stacks are printed. Source: definition."""
_STACK = 27.8 * GALLON_A_MINUTE / INCH ** (8.0 / 3.0)
"""Source: Wyly and Eaton, National Bureau of Standards; US gallons a minute and inches, as codes quote it."""

_FILM = 4.4 * 0.3048 * (INCH / GALLON_A_MINUTE) ** 0.4
"""Source: Wyly and Eaton, NBS Monograph 31 (1961), measured; quoted. Their theory gives 3.0 in place of 4.4."""


@dataclass(frozen=True)
class Standpipe:
    """An upright drain.

    `drop` is the height of the lip above where the pipe lets go of its water (the water below if it ends under
    it), `resistance` all losses of the full pipe in velocity heads: 1 + sum of K + f*L/D, the entry among them.
    """

    bore: Metre
    drop: Metre
    resistance: Ratio

    def __post_init__(self) -> None:
        _refuse.not_positive(bore=self.bore, drop=self.drop)
        if self.resistance < 1.0:
            raise ImpossibleInput(f"a full pipe loses at least one velocity head, got {self.resistance}")

    @property
    def area(self) -> SquareMetre:
        """Area of the bore."""
        return pi * self.bore**2 / 4.0


@dataclass(frozen=True)
class StandpipeFlow:
    """What a standpipe takes at a head over its lip, what each limit alone would let by, and how it runs."""

    flow: CubicMetrePerSecond
    lip: CubicMetrePerSecond
    drowned: CubicMetrePerSecond
    full: CubicMetrePerSecond
    regime: Regime


@dataclass(frozen=True)
class StandpipeHead:
    """Head over the lip that a flow needs with its span, and how the pipe runs at it."""

    head: Metre
    regime: Regime
    low: Metre
    high: Metre


def drowning_head(bore: Metre) -> Metre:
    """Head at which a lip turns from a weir into an orifice.

        h_crit = Cd*A/(0.414*P) = 0.362*D      Cd = 0.6, A: area, P: length of the lip

    Source: EPA, SWMM reference manual, volume II, section 6.2, quoted; another text puts the change at about D/3.
    Valid:  level lip in open water, no swirl.
    """
    _refuse.not_positive(bore=bore)
    return _ORIFICE * bore / (4.0 * _LIP)


def lip_flow(bore: Metre, head: Metre) -> CubicMetrePerSecond:
    """Flow over the rim of an open pipe end before it drowns.

        Q = Cd*A*sqrt(2*g*h_crit) * (h/h_crit)**1.5

    Source: EPA, SWMM reference manual, volume II, section 6.2, bottom orifices; quoted.
    Valid:  h below `drowning_head`; above it the orifice takes less.
    """
    _refuse.negative(head=head)
    drowns = drowning_head(bore)
    flow: CubicMetrePerSecond = drowned_flow(bore, drowns) * (head / drowns) ** 1.5
    return flow


def drowned_flow(bore: Metre, head: Metre) -> CubicMetrePerSecond:
    """Flow into an open pipe end that is drowned and does not run full below.

        Q = Cd*A*sqrt(2*g*h)      Cd = 0.6

    Source: EPA, SWMM reference manual, volume II, equation 6-3, quoted.
    Valid:  sharp lip, air below it. A swirl with an air core takes up to a third less.
    """
    _refuse.not_positive(bore=bore)
    _refuse.negative(head=head)
    flow: CubicMetrePerSecond = _ORIFICE * pi * bore**2 / 4.0 * (2.0 * G * head) ** 0.5
    return flow


def full_pipe_flow(pipe: Standpipe, head: Metre) -> CubicMetrePerSecond:
    """Flow that the pipe below the lip carries when it runs full.

        Q = A*sqrt(2*g*(h + drop)/R)      R: 1 + sum of K + f*L/D

    Source: energy equation from the water above to the outfall.
    Valid:  no air drawn in; pressure in the pipe above that of vapour (`siphons.crest_limit`).
    """
    _refuse.negative(head=head)
    flow: CubicMetrePerSecond = pipe.area * (2.0 * G * (head + pipe.drop) / pipe.resistance) ** 0.5
    return flow


def standpipe_flow(pipe: Standpipe, head: Metre) -> StandpipeFlow:
    """What a standpipe takes at a head, and how it runs. One pipe and one head at a time.

        Q = least of lip, drowned lip, full pipe
        weir below 0.25 D; gulping to 0.6 D; orifice above; full where the pipe is the least

    Source: the three formulas; the limits of gulping are derived, no test data found.
    Valid:  an open top to the air. A pipe that gulps swings between two flows and is loud.
    """
    limits = lip_flow(pipe.bore, head), drowned_flow(pipe.bore, head), full_pipe_flow(pipe, head)
    flow = min(limits)
    return StandpipeFlow(flow, *limits, _regime(pipe.bore, head, limits[2] <= flow))


def standpipe_head(pipe: Standpipe, flow: CubicMetrePerSecond) -> StandpipeHead:
    """Head over the lip that a flow needs, and how the pipe runs at it. One pipe and one flow at a time.

        h = larger of the lip's (weir or orifice) and Q**2*R/(2*g*A**2) - drop

    The span of a lip that runs as a weir is 15 % either way, as of any low weir. One that gulps or is drowned may
    swirl and take a third less: its highest head is that of half as much again.
    Source: `standpipe_flow` read backwards; the span is common practice, no source.
    Valid:  as there.
    """
    _refuse.negative(flow=flow)
    law = StandpipeLaw(pipe.bore)
    over = law.at(flow).head
    full = (flow / pipe.area) ** 2 * pipe.resistance / (2.0 * G) - pipe.drop
    head = max(over, full)
    regime = _regime(pipe.bore, head, full >= over)
    high = over * (1.0 + _ERROR)
    if regime in ("gulping", "orifice", "full"):
        high = max(high, law.at(flow / (1.0 - _SWIRL)).head)
    return StandpipeHead(head, regime, max(over * (1.0 - _ERROR), full), max(high, full))


def stack_capacity(bore: Metre, filled: Ratio) -> CubicMetrePerSecond:
    """Flow that an open upright drain carries as a film on its wall, the core left to the air.

        Q = 27.8*r**(5/3)*D**(8/3)      US gal/min, inches; r: share of the bore that is water, usually 7/24

    Source: Wyly and Eaton, National Bureau of Standards, quoted in codes; EN 12056-3 clause 6 agrees within 0.3 %.
    Valid:  r from 1/5 to 1/3, plain smooth pipe; take the real bore. Above 1/3 plugs of water form.
    """
    _refuse.not_positive(bore=bore)
    _refuse.not_a_share(filled=filled)
    flow: CubicMetrePerSecond = _STACK * filled ** (5.0 / 3.0) * bore ** (8.0 / 3.0)
    return flow


def stack_speed(flow: CubicMetrePerSecond, bore: Metre) -> MetrePerSecond:
    """Speed of the film in an open upright drain once it has stopped gaining: what makes it loud and drags air.

        V = 4.4*(Q/D)**0.4      ft/s, US gal/min, inches

    Source: Wyly and Eaton, NBS Monograph 31 (1961), measured; quoted.
    Valid:  drops of a few metres and more; below that the film is slower.
    """
    _refuse.not_positive(bore=bore)
    _refuse.negative(flow=flow)
    speed: MetrePerSecond = _FILM * (flow / bore) ** 0.4
    return speed


@dataclass(frozen=True)
class StandpipeLaw:
    """The lip as an element that spills freely at its crest (`Link.over`); the full pipe is `Link.through`."""

    bore: Metre

    @cached_property
    def _turn(self) -> tuple[Metre, CubicMetrePerSecond]:
        drowns = drowning_head(self.bore)
        return drowns, float(drowned_flow(self.bore, drowns))

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope at a flow; a flow out of the lip meets a steep straight line."""
        turn_head, turn_flow = self._turn
        share = flow / turn_flow
        if share >= 1.0:
            return HeadAt(turn_head * share**2, 2.0 * turn_head * share / turn_flow)
        knee = _NOTHING**1.5
        if share >= knee:
            head = turn_head * share ** (2.0 / 3.0)
            return HeadAt(head, 2.0 / 3.0 * head / flow)
        # A parabola with the head and slope of the lip at the knee, and a straight line before nothing.
        first, bend = 4.0 / 3.0 * _NOTHING / knee, -_NOTHING / knee**2 / 3.0
        if share <= 0.0:
            return HeadAt(turn_head * first * share, turn_head * first / turn_flow)
        return HeadAt(
            turn_head * (first + bend * share) * share, turn_head * (first + 2.0 * bend * share) / turn_flow
        )


def _regime(bore: Metre, head: Metre, full: bool) -> Regime:
    if head <= 0.0:
        return "dry"
    if full:
        return "full"
    if head < _GULPS_FROM * bore:
        return "weir"
    return "gulping" if head < _GULPS_TO * bore else "orifice"
