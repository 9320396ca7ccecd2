"""Resistance of fittings: by velocity heads, by turbulent friction factors, by valve coefficients; strainers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from tidestead.core.dims import CubicMetrePerSecond, Metre, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.laws import HeadAt, Law, SeriesLaw
from tidestead.physics.flow.pipes import PipeLaw, pipe_area, square_loss

_STEEL: Metre = 0.00015 * 0.3048
"""Roughness of clean commercial steel, of which the fittings in the tables are. Source: L. Moody, Trans. ASME 66
(1944) 671-684; with it `turbulent_factor` gives every value of Crane's table from 1/2 in to 8 in."""

_KV_OF_UNIT_AREA = 3600.0 * math.sqrt(2.0 * 1e5 / 1000.0)
"""m3/h through one square metre of no contraction at one bar. Source: definition of Kv: water of 1000 kg/m3."""


@dataclass(frozen=True)
class FittingLaw:
    """A resistance of so many heads of the velocity in a bore. Negative for a tee that helps."""

    k: Ratio
    bore: Metre

    def __post_init__(self) -> None:
        _refuse.not_positive(bore=self.bore)
        _refuse.endless(k=self.k, bore=self.bore)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        return square_loss(flow, self.bore, self.k)


def gathered(laws: Sequence[Law]) -> SeriesLaw:
    """Laws in a row with those of one bore put together, so that fewer are asked for the same head.

    Lengths of one sort of pipe add up, and so do the velocity heads that fittings cost in one bore.
    Source: one flow passes all of them, and their heads add up.
    Valid:  everywhere; what is neither a pipe nor a plain resistance stays as it is.
    """
    pipes: dict[tuple[float, float, float], PipeLaw] = {}
    ks: dict[float, float] = {}
    rest: list[Law] = []
    for law in laws:
        if isinstance(law, PipeLaw):
            kind = law.bore, law.roughness, law.kinematic_viscosity
            length = law.length + (pipes[kind].length if kind in pipes else 0.0)
            pipes[kind] = PipeLaw(length, *kind)
            ks[law.bore] = ks.get(law.bore, 0.0) + law.sum_k
        elif isinstance(law, FittingLaw):
            ks[law.bore] = ks.get(law.bore, 0.0) + law.k
        else:
            rest.append(law)
    whole = [replace(pipe, sum_k=ks.pop(pipe.bore, 0.0)) for pipe in pipes.values()]
    return SeriesLaw((*whole, *(FittingLaw(k, bore) for bore, k in ks.items()), *rest))


@dataclass(frozen=True)
class StrainerLaw:
    """A strainer of which a share of the openings is blocked; `k` holds for the clean one."""

    k: Ratio
    bore: Metre
    fouled: Ratio = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(k=self.k)
        fouled_k(self.k, self.fouled)

    @property
    def resistance(self) -> FittingLaw:
        """The same as a fitting."""
        return FittingLaw(fouled_k(self.k, self.fouled), self.bore)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        return self.resistance.at(flow)


def fitting_loss(flow: CubicMetrePerSecond, bore: Metre, k: Ratio) -> Metre:
    """Head lost in a fitting; takes the sign of the flow.

        h = K * v**2/(2*g)

    Source: J. Weisbach, in any text on hydraulics.
    Valid:  turbulent flow; K of printed tables scatters by 20 to 50 % from make to make.
    """
    return square_loss(flow, bore, k).head


def turbulent_factor(bore: Metre) -> Ratio:
    """Crane's friction factor of full turbulence, by which resistances of fittings are told.

        f_T = 0.25 / log10((e/D)/3.7)**2     e = 0.00015 ft

    It is that of steel pipe for fittings in pipes of any material.

    Source: Crane TP-410 (2009), appendix A; its table in steps of 0.001 is met from 1/2 in to 8 in.
    Valid:  bores from 15 to 300 mm.
    """
    _refuse.not_positive(bore=bore)
    factor: Ratio = 0.25 / np.log10(_STEEL / bore / 3.7) ** 2
    return factor


def multiple_k(multiple: Ratio, bore: Metre) -> Ratio:
    """Resistance of a fitting whose table gives a multiple of the turbulent friction factor.

        K = n * f_T

    Source: Crane TP-410 (2009), appendix A.
    Valid:  fittings of the bore of the pipe. Plastic fittings with sharp inner edges may lose twice as much.
    """
    _refuse.negative(multiple=multiple)
    return multiple * turbulent_factor(bore)


def bend_k(radius: Ratio, angle_rad: Radian, bore: Metre) -> Ratio:
    """Resistance of a smooth bend of any angle.

        K = (n - 1)*(0.25*pi*f_T*r/D + 0.5*K90) + K90     n: angle in quarter turns, radius: r/D
        K90 = f_T*N,   N from Crane's table: 20, 14, 12, 12, 14, 17, 24, 30 at r/D 1, 1.5, 2, 3, 4, 6, 8, 10

    Source: Crane TP-410 (2009), appendix A, pipe bends.
    Valid:  r/D from 1 to 10, angles from 45 to 360 degrees; below, too high.
    """
    _refuse.not_positive(radius=radius)
    _refuse.negative(angle=angle_rad)
    radii = (1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0)
    multiples = (20.0, 14.0, 12.0, 12.0, 14.0, 17.0, 24.0, 30.0)
    if np.any(np.less(radius, radii[0])) or np.any(np.greater(radius, radii[-1])):
        raise ImpossibleInput(
            f"bends from 1 to 10 bores of radius are known, got {radius}; a tighter one is an elbow"
        )
    factor = turbulent_factor(bore)
    quarter = factor * np.interp(radius, radii, multiples)
    further = 2.0 * angle_rad / math.pi - 1.0
    resistance: Ratio = quarter + further * (0.25 * math.pi * factor * radius + 0.5 * quarter)
    return resistance


def sudden_widening_k(bore: Metre, wider: Metre) -> Ratio:
    """Resistance of a sudden step to a wider pipe, in heads of the velocity in the narrow one.

        K = (1 - (d/D)**2)**2

    Source: J. Borda (1766) and Carnot, in any text on hydraulics; Crane TP-410 (2009), appendix A.
    Valid:  turbulent flow; an outlet into a vessel is d/D = 0, K = 1.
    """
    _refuse.not_positive(bore=bore)
    if np.any(np.less(wider, bore)):
        raise ImpossibleInput(f"a widening from {bore} m to {wider} m is none")
    return (1.0 - (bore / wider) ** 2) ** 2


def sudden_narrowing_k(bore: Metre, wider: Metre) -> Ratio:
    """Resistance of a sudden step from a wider pipe, in heads of the velocity in the narrow one.

        K = 0.5*(1 - (d/D)**2)

    Source: Crane TP-410 (2009), appendix A.
    Valid:  turbulent flow, square edges; from a vessel d/D = 0, K = 0.5.
    """
    _refuse.not_positive(bore=bore)
    if np.any(np.less(wider, bore)):
        raise ImpossibleInput(f"a narrowing from {wider} m to {bore} m is none")
    return 0.5 * (1.0 - (bore / wider) ** 2)


def rebased_k(k: Ratio, bore: Metre, other: Metre) -> Ratio:
    """A resistance told in heads of the velocity in one bore, told for another.

        K2 = K1 * (D2/D1)**4

    Source: continuity.
    Valid:  the same flow in both.
    """
    _refuse.not_positive(bore=bore, other=other)
    return k * (other / bore) ** 4


def k_from_kv(kv: CubicMetrePerSecond, bore: Metre) -> Ratio:
    """Resistance of an element whose maker gives its flow at one bar.

        K = (Kv0/Kv)**2,   Kv0 = A*sqrt(2*p/rho) at p = 1 bar, rho = 1000 kg/m3

    Source: definition of Kv, IEC 60534-1.
    Valid:  `kv` as a flow in m3/s at one bar; turbulent flow. Cv in US gal/min at 1 psi is 1.156 Kv in m3/h.
    """
    _refuse.not_positive(kv=kv)
    return (_KV_OF_UNIT_AREA / 3600.0 * pipe_area(bore) / kv) ** 2


def fouled_k(k: Ratio, fouled: Ratio) -> Ratio:
    """Resistance of a strainer of which a share of the openings is blocked.

        K = K_clean / (1 - s)**2

    Source: derived: what is left open passes the flow that much faster, and its loss goes with the square.
    Valid:  loss in the openings rules; dirt that also lies in the open part makes it worse.
    """
    _refuse.not_a_share(fouled=fouled)
    if np.any(np.equal(fouled, 1.0)):
        raise ImpossibleInput("a strainer that is blocked entirely passes nothing: take the link as shut")
    return k / (1.0 - fouled) ** 2
