"""Head lost in full pipes: friction by Darcy and Weisbach with Colebrook's factor, and by Hazen and Williams.

Flow is positive from start to end; lost head takes its sign.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    CubicMetrePerSecond,
    G,
    Metre,
    MetrePerSecond,
    PerMetre,
    Ratio,
    SquareMetre,
    SquareMetrePerSecond,
)
from tidestead.physics import _refuse
from tidestead.physics.flow._one_or_many import greater, lesser, natural_log, root, signed
from tidestead.physics.flow.laws import HeadAt

LAMINAR_TO: Ratio = 2000.0
TURBULENT_FROM: Ratio = 4000.0
"""Reynolds numbers between which flow is neither. Source: L. Rossman et al., EPANET 2.2 User Manual (2020),
analysis algorithms, where the factor is bridged over the same range."""

CREEP: MetrePerSecond = 1e-4
"""Our choice. Below it a loss that goes with the square of the flow is let go with the flow itself, so that a
loss never stops growing with flow. At 0.1 m/s that is one part in two million."""

_COLEBROOK_STEPS = 4
"""Newton's steps from a start within 2 %; three are at rounding already."""

_HAZEN_WILLIAMS = 4.727 * 0.3048 ** (4.871 - 3.0 * 1.852)
_HAZEN_POWER: Ratio = 1.852
_BORE_POWER: Ratio = 4.871
"""Source: L. Rossman et al., EPANET 2.2 User Manual (2020), table of pipe headloss formulas, 4.727 in feet and
cubic feet a second; here in metres."""


def pipe_area(bore: Metre) -> SquareMetre:
    """Area of a round bore.

        A = pi * D**2 / 4

    Source: geometry.
    Valid:  round pipes running full.
    """
    _refuse.negative(bore=bore)
    return math.pi * bore**2 / 4.0


def pipe_velocity(flow: CubicMetrePerSecond, bore: Metre) -> MetrePerSecond:
    """Mean velocity in a round pipe running full.

        v = Q / A

    Source: continuity.
    Valid:  round pipes running full.
    """
    _refuse.not_positive(bore=bore)
    return flow / pipe_area(bore)


def velocity_head(velocity: MetrePerSecond) -> Metre:
    """Head that stands for a velocity.

        h = v**2 / (2*g)

    Source: D. Bernoulli, Hydrodynamica (1738), in any text on hydraulics.
    Valid:  even velocity over the bore; turbulent pipe flow carries 3 to 10 % more.
    """
    return velocity**2 / (2.0 * G)


def reynolds_number(
    flow: CubicMetrePerSecond, bore: Metre, kinematic_viscosity: SquareMetrePerSecond
) -> Ratio:
    """Reynolds number of a flow in a round pipe.

        Re = v*D/nu = 4*Q / (pi*D*nu)

    Source: O. Reynolds (1883), in any text on hydraulics.
    Valid:  round pipes running full.
    """
    _refuse.not_positive(bore=bore, kinematic_viscosity=kinematic_viscosity)
    number: Ratio = 4.0 * np.abs(flow) / (math.pi * bore * kinematic_viscosity)
    return number


@dataclass(frozen=True)
class FrictionFactor:
    """Darcy's friction factor, and how fast it changes with the Reynolds number."""

    factor: Ratio
    slope: Ratio


def colebrook_factor(reynolds: Ratio, relative_roughness: Ratio) -> FrictionFactor:
    """Darcy's friction factor of turbulent flow.

        1/sqrt(f) = -2*log10(eD/3.7 + 2.51/(Re*sqrt(f)))     eD: roughness over bore

    Solved by Newton's method for 1/sqrt(f); the slope is exact too.

    Source: C. Colebrook, J. Inst. Civil Engineers 11 (1939) 133-156.
    Valid:  Re above 4000, roughness up to 0.05 of the bore; real pipes scatter by 5 to 10 % about it.
    """
    _refuse.not_positive(reynolds=reynolds)
    _refuse.negative(relative_roughness=relative_roughness)
    return _colebrook(reynolds, relative_roughness)


def _colebrook(reynolds: Ratio, relative_roughness: Ratio) -> FrictionFactor:
    scale = 2.0 / math.log(10.0)
    rough, smooth = relative_roughness / 3.7, 2.51 / reynolds
    inverse = -scale * natural_log(rough + 5.74 / reynolds**0.9)
    for _ in range(_COLEBROOK_STEPS):
        inner = rough + smooth * inverse
        inverse = inverse - (inverse + scale * natural_log(inner)) / (1.0 + scale * smooth / inner)
    share = scale * smooth / (rough + smooth * inverse)
    inverse_slope = share * inverse / (reynolds * (1.0 + share))
    return FrictionFactor(inverse**-2.0, -2.0 * inverse**-3.0 * inverse_slope)


def friction_factor(reynolds: Ratio, relative_roughness: Ratio) -> Ratio:
    """Darcy's friction factor of any flow.

        f = 64/Re                                   Re up to 2000
        f = 64/Re*(1 - w) + Colebrook's f*w         w = s**2*(3 - 2*s),   s = (Re - 2000)/2000
        f = Colebrook's f                           Re from 4000

    Between the two the factor is bridged so that lost head and its slope run on without a step.

    Source: J. Poiseuille (1846) and G. Hagen (1839) for 64/Re; C. Colebrook (1939), see `colebrook_factor`;
            the bridge is ours.
    Valid:  round pipes running full. From 2000 to 4000 flow is unsteady and nothing is sure to 30 %.
    """
    _refuse.not_positive(reynolds=reynolds)
    weight = _turbulence(reynolds)[0]
    turbulent = colebrook_factor(np.maximum(reynolds, LAMINAR_TO), relative_roughness).factor
    factor: Ratio = 64.0 / reynolds * (1.0 - weight) + turbulent * weight
    return factor


def _turbulence(reynolds: Ratio) -> tuple[Ratio, Ratio]:
    """How much of the flow counts as turbulent, and how fast that grows with the Reynolds number."""
    width = TURBULENT_FROM - LAMINAR_TO
    along = lesser(greater((reynolds - LAMINAR_TO) / width, 0.0), 1.0)
    return along**2 * (3.0 - 2.0 * along), 6.0 * along * (1.0 - along) / width


def pipe_loss(
    flow: CubicMetrePerSecond,
    length: Metre,
    bore: Metre,
    roughness: Metre,
    kinematic_viscosity: SquareMetrePerSecond,
) -> Metre:
    """Head lost by friction in a straight pipe; takes the sign of the flow.

        h = f * L/D * v**2/(2*g)

    Source: H. Darcy and J. Weisbach, in any text on hydraulics; f by `friction_factor`.
    Valid:  round pipe running full, steady flow, new and clean: deposits and growth come on top.
    """
    return PipeLaw(length, bore, roughness, kinematic_viscosity).at(flow).head


def loss_gradient(
    flow: CubicMetrePerSecond, bore: Metre, roughness: Metre, kinematic_viscosity: SquareMetrePerSecond
) -> Ratio:
    """Head lost by friction for each metre of pipe.

        i = f/D * v**2/(2*g)

    Source: as `pipe_loss`.
    Valid:  as `pipe_loss`.
    """
    return pipe_loss(flow, 1.0, bore, roughness, kinematic_viscosity)


def hazen_williams_loss(flow: CubicMetrePerSecond, length: Metre, bore: Metre, coefficient: Ratio) -> Metre:
    """Head lost by friction in a straight pipe, by the waterworks' formula; takes the sign of the flow.

        h = 10.67 * L * Q**1.852 / (C**1.852 * D**4.871)

    Source: L. Rossman et al., EPANET 2.2 User Manual (2020), table of pipe headloss formulas, after Williams
            and Hazen (1905).
    Valid:  water near 15 degC in pipes of 50 mm and more at about 1 m/s; `pipe_loss` is better everywhere.
    """
    return HazenWilliamsLaw(length, bore, coefficient).at(flow).head


def square_loss(flow: CubicMetrePerSecond, bore: Metre, k: Ratio) -> HeadAt:
    """Head lost by a resistance that goes with the square of the velocity, and its slope.

        h = K * v**2/(2*g)     with the sign of the flow; below 0.1 mm/s it goes with the flow itself

    Source: J. Weisbach, in any text on hydraulics.
    Valid:  turbulent flow; at Reynolds numbers below some thousand K itself rises. K may be negative (tees).
    """
    _refuse.not_positive(bore=bore)
    return _square_loss(flow, bore, k)


def _square_loss(flow: CubicMetrePerSecond, bore: Metre, k: Ratio) -> HeadAt:
    """The same for a bore that has been looked at: laws are asked many times over."""
    area = math.pi * bore**2 / 4.0
    coefficient, creep = k / (2.0 * G * area**2), CREEP * area
    size = root(flow**2 + creep**2)
    return HeadAt(coefficient * flow * size, coefficient * (size + flow**2 / size))


@dataclass(frozen=True)
class PipeLaw:
    """A round pipe running full, and the resistances in it: `sum_k` counts heads of velocity in this bore."""

    length: Metre
    bore: Metre
    roughness: Metre
    kinematic_viscosity: SquareMetrePerSecond
    sum_k: Ratio = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(length=self.length, roughness=self.roughness)
        _refuse.not_positive(bore=self.bore, kinematic_viscosity=self.kinematic_viscosity)
        _refuse.endless(length=self.length, bore=self.bore, sum_k=self.sum_k)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope: friction and resistances."""
        size = abs(flow)
        laminar_slope = 128.0 * self.kinematic_viscosity * self.length / (math.pi * G * self.bore**4)
        per_flow = 4.0 / (math.pi * self.bore * self.kinematic_viscosity)
        reynolds = per_flow * size
        weight, growth = _turbulence(reynolds)
        turbulent, turbulent_slope = self._turbulent(size, greater(reynolds, LAMINAR_TO))
        laminar = laminar_slope * size
        friction = laminar + weight * (turbulent - laminar)
        slope = laminar_slope + weight * (turbulent_slope - laminar_slope)
        slope = slope + growth * per_flow * (turbulent - laminar)
        resisted = _square_loss(flow, self.bore, self.sum_k)
        return HeadAt(signed(friction, flow) + resisted.head, slope + resisted.slope)

    def _turbulent(self, size: CubicMetrePerSecond, reynolds: Ratio) -> tuple[Metre, PerMetre]:
        """Head and slope as if the flow were turbulent."""
        found = _colebrook(reynolds, self.roughness / self.bore)
        scale = 8.0 * self.length / (math.pi**2 * G * self.bore**5)
        head = scale * found.factor * size**2
        return head, scale * size * (2.0 * found.factor + found.slope * reynolds)


@dataclass(frozen=True)
class HazenWilliamsLaw:
    """A round pipe running full, by the waterworks' formula, and the resistances in it."""

    length: Metre
    bore: Metre
    coefficient: Ratio
    sum_k: Ratio = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(length=self.length)
        _refuse.not_positive(bore=self.bore, coefficient=self.coefficient)
        _refuse.endless(length=self.length, bore=self.bore, sum_k=self.sum_k)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope: friction and resistances."""
        scale = _HAZEN_WILLIAMS * self.length / (self.coefficient**_HAZEN_POWER * self.bore**_BORE_POWER)
        size = root(flow**2 + (CREEP * math.pi * self.bore**2 / 4.0) ** 2)
        power = _HAZEN_POWER - 1.0
        friction = scale * flow * size**power
        slope = scale * size**power * (1.0 + power * flow**2 / size**2)
        resisted = _square_loss(flow, self.bore, self.sum_k)
        return HeadAt(friction + resisted.head, slope + resisted.slope)
