"""How a timber-framed wall carries the water, by hand: sheet to studs, studs to rim and base, rim to ties.

A stud stands on the floor and is held at its foot and its head. The water presses outward, most at the foot.
`base_load` is the line load on a stud at floor level, see `stud_line_load`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Count,
    G,
    KgPerM3,
    Metre,
    Newton,
    NewtonMetre,
    NewtonMetre2,
    NewtonMetre2PerMetre,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    Pascal,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure.beams import equal_spans
from tidestead.physics.structure.pressure import wall_thrust

_NEWTON_STEPS = 8
"""Steps to the place of the largest bow. It lies between 0.519 and 0.577 of the span, so few are needed."""


@dataclass(frozen=True)
class SheathingStrip:
    """What a strip of sheathing one metre wide must stand: largest moment, shear, bow."""

    moment: NewtonMetrePerMetre
    shear: NewtonPerMetre
    deflection: Metre


@dataclass(frozen=True)
class StudReactions:
    """What a stud hands to the rim at its head and to the base at its foot."""

    top: Newton
    bottom: Newton


@dataclass(frozen=True)
class StudMoment:
    """The largest moment of a stud, and how far below its head it is."""

    moment: NewtonMetre
    from_top: Metre


@dataclass(frozen=True)
class StudBow:
    """The largest bow of a stud, and how far below its head it is."""

    deflection: Metre
    from_top: Metre


@dataclass(frozen=True)
class RimSpan:
    """What a rim must stand between ties, and what each tie must hold. No tie, no tie force."""

    moment: NewtonMetre
    shear: Newton
    deflection: Metre
    tie_force: Newton


def sheathing_strip(
    pressure: Pascal, span: Metre, spans: Count, stiffness: NewtonMetre2PerMetre
) -> SheathingStrip:
    """Largest moment, shear and bow of a strip of sheet across studs, under the pressure at its lower edge.

        M = c_m*p*s**2,   V = c_v*p*s,   bow = c_d*p*s**4/EI      per metre of width
        three spans: 1/10, 6/10, 0.0069

    Source: AISC, Steel Construction Manual, Table 3-23, see `beams.equal_spans`.
    Valid:  even pressure over the strip, so take a low strip and its lower edge; stiff studs; `span` centre
            to centre, which is on the safe side of the clear span. Panel standards count any number as three.
    """
    _refuse.negative(pressure=pressure)
    state = equal_spans(pressure, span, spans, stiffness)
    return SheathingStrip(moment=state.moment, shear=state.shear, deflection=state.deflection)


def stud_line_load(depth: Metre, density: KgPerM3, spacing: Metre) -> NewtonPerMetre:
    """Line load of the water on one stud at floor level.

        w0 = density * g * depth * spacing

    Source: elementary hydrostatics.
    Valid:  stud in a row of equal spacing. Where the sheet runs on over several studs, the last but one takes
            up to 14 % more; the middle one of a sheet over two bays takes 25 % more.
    """
    _refuse.negative(depth=depth, density=density, spacing=spacing)
    return density * G * depth * spacing


def _check_stud(length: Metre, depth: Metre, base_load: NewtonPerMetre) -> None:
    _refuse.not_positive(length=length, depth=depth)
    _refuse.negative(base_load=base_load)
    if np.any(np.greater(depth, np.multiply(length, 1.0 + 1e-9))):
        raise ImpossibleInput(f"water {depth} m deep stands above the head of a stud of {length} m")


def stud_reactions(length: Metre, depth: Metre, base_load: NewtonPerMetre) -> StudReactions:
    """What a stud hands to the rim and to the base.

        R_top = w0*h**2 / (6*L),   R_bottom = w0*h/2 - R_top      L: length, h: depth, w0: base load

    Source: statics of a simple beam; at h = L: AISC, Steel Construction Manual, Table 3-23 case 2.
    Valid:  0 < h <= L, both ends free to turn.
    """
    _check_stud(length, depth, base_load)
    top = base_load * depth**2 / (6.0 * length)
    return StudReactions(top=top, bottom=base_load * depth / 2.0 - top)


def stud_moment(length: Metre, depth: Metre, base_load: NewtonPerMetre) -> StudMoment:
    """Largest moment of a stud.

        M = R_top * (L - h + 2*u/3)   at L - h + u below the head,   u = h*sqrt(h/(3*L))
        at h = L: M = w0*L**2 / (9*sqrt(3))

    Source: statics of a simple beam; at h = L: AISC, Steel Construction Manual, Table 3-23 case 2.
    Valid:  0 < h <= L, both ends free to turn.
    """
    top = stud_reactions(length, depth, base_load).top
    wet = depth * np.sqrt(depth / (3.0 * length))
    dry = length - depth
    return StudMoment(moment=top * (dry + 2.0 * wet / 3.0), from_top=dry + wet)


def stud_shear(length: Metre, depth: Metre, base_load: NewtonPerMetre, from_foot: Metre) -> Newton:
    """Shear in a stud at a distance above its foot, positive while the stud pushes on the base.

        V = R_bottom - w0*y*(1 - y/(2*h))     y: from_foot, up to the water surface; above it V = -R_top

    Source: statics of a simple beam.
    Valid:  0 <= y <= L. Timber standards let the load within one depth of the support be left out.
    """
    reactions = stud_reactions(length, depth, base_load)
    _refuse.negative(height=from_foot)
    if np.any(np.greater(from_foot, np.multiply(length, 1.0 + 1e-9))):
        raise ImpossibleInput(f"a place {from_foot} m up a stud of {length} m is not on it")
    wet = np.minimum(from_foot, depth)
    shear: Newton = reactions.bottom - base_load * wet * (1.0 - wet / (2.0 * depth))
    return shear


def stud_deflection(
    length: Metre, depth: Metre, base_load: NewtonPerMetre, stiffness: NewtonMetre2
) -> StudBow:
    """Largest bow of a stud, exact for any depth.

        EI*y = C*x - R_top*x**3/6 + w0*<x - a>**5/(120*h),   a = L - h,   C = R_top*L/6 * L - w0*h**4/(120*L)
        at h = L: y = 0.0065222*w0*L**4/EI at 0.5193*L below the head      x: below the head

    The place is where the slope is nothing, found by Newton's method.

    Source: integration of the moment (Macaulay's brackets); at h = L: AISC, Steel Construction Manual,
            Table 3-23 case 2.
    Valid:  0 < h <= L, both ends free to turn, small bow, shear bow left out. Short-term: creep comes on top.
    """
    _refuse.not_positive(stiffness=stiffness)
    top = stud_reactions(length, depth, base_load).top
    dry = length - depth
    start_slope = top * length**2 / 6.0 - base_load * depth**4 / (120.0 * length)
    place = 0.55 * length
    for _ in range(_NEWTON_STEPS):
        wet = np.maximum(place - dry, 0.0)
        slope = start_slope - top * place**2 / 2.0 + base_load * wet**4 / (24.0 * depth)
        moment = top * place - base_load * wet**3 / (6.0 * depth)
        place = place + slope / np.where(moment > 0.0, moment, 1.0)
    wet = np.maximum(place - dry, 0.0)
    bow = start_slope * place - top * place**3 / 6.0 + base_load * wet**5 / (120.0 * depth)
    return StudBow(deflection=bow / stiffness, from_top=place)


def rim_line_load(stud_length: Metre, depth: Metre, density: KgPerM3) -> NewtonPerMetre:
    """Line load of the stud heads on the rim.

        q = density * g * h**3 / (6*L)

    Source: statics, `stud_reactions` spread over the stud spacing.
    Valid:  0 < h <= L; studs close enough together to count as an even load.
    """
    thrust = wall_thrust(depth, density)
    _check_stud(stud_length, depth, thrust)
    return thrust * depth / (3.0 * stud_length)


def base_line_load(stud_length: Metre, depth: Metre, density: KgPerM3) -> NewtonPerMetre:
    """Line load of the stud feet on what holds the foot of the wall.

        q = density * g * h**2/2 - q_rim        twice the rim's where water stands to the head

    Source: statics, `stud_reactions` spread over the stud spacing.
    Valid:  0 < h <= L. Something named must carry it: a ledger, slab anchors, a tie under the floor.
    """
    return wall_thrust(depth, density) - rim_line_load(stud_length, depth, density)


def rim_between_ties(
    line_load: NewtonPerMetre, tie_spacing: Metre, spans: Count, stiffness: NewtonMetre2
) -> RimSpan:
    """Largest moment, shear and bow of a rim over equal spans between ties, and the force in the busiest tie.

        M = c_m*q*l**2,   T = c_r*q*l     three spans: 1/10 and 1.1;  no ties: M = q*L**2/8 corner to corner

    Source: AISC, Steel Construction Manual, Table 3-23, see `beams.equal_spans`.
    Valid:  ties evenly spaced and stiff against the rim, corners free to turn. Uneven: `continuous_beam`.
    """
    _refuse.negative(line_load=line_load)
    state = equal_spans(line_load, tie_spacing, spans, stiffness)
    return RimSpan(
        moment=state.moment, shear=state.shear, deflection=state.deflection, tie_force=state.reaction
    )


def corner_tension(end_load: NewtonPerMetre, end_length: Metre) -> Newton:
    """Pull along a rim from the end of the other wall's rim that hangs on it at the corner.

        N = q_end * B / 2

    Source: statics.
    Valid:  no tie holds the end wall nearer; else B is the distance from the corner to its first tie.
    """
    _refuse.negative(end_load=end_load, end_length=end_length)
    return end_load * end_length / 2.0
