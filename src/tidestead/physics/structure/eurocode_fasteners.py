"""Nails, screws and bolts loaded sideways by Eurocode 5: Johansen's modes with the rope effect.

Pulling out is in `eurocode_withdrawal`. Characteristic values; `eurocode.design_strength` lowers them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tidestead.core.dims import KgPerM3, Metre, Newton, NewtonMetre, Pascal, Radian, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick

_MM: Final = 1e-3
_MPA: Final = 1e6
"""The code's formulas are written in millimetres and newtons per square millimetre."""

_EMBED: Final = 0.082
_EMBED_PLYWOOD: Final = 0.11
"""Embedment constants of wood and plywood. Source: EN 1995-1-1, equations 8.15, 8.16, 8.20, 8.32, 8.36."""

_HINGE: Final = 0.3
_HINGE_POWER: Final = 2.6
"""Yield moment of round dowels. Source: EN 1995-1-1, equations 8.14 and 8.30."""

_ONE_HINGE: Final = 1.05
_TWO_HINGES: Final = 1.15
"""What the code adds to modes with hinges, because steel needs no k_mod. Source: EN 1995-1-1, 8.2.2."""

_THIN_PLATE: Final = 0.4
_THICK_PLATE: Final = 2.3
"""Source: EN 1995-1-1, 8.2.3, equations 8.9 and 8.10."""


@dataclass(frozen=True)
class EcJoint:
    """One dowel, head side and point side.

    Lengths are those that bear in each member: for a nail or screw the head side's thickness and the
    penetration of the point side. `yield_moment` is M_y,Rk.
    """

    diameter: Metre
    head_length: Metre
    point_length: Metre
    head_embedment: Pascal
    point_embedment: Pascal
    yield_moment: NewtonMetre


@dataclass(frozen=True)
class JohansenModes:
    """Modes a to f in single shear, with the code's 1.05 and 1.15, without the rope effect."""

    a: Newton
    b: Newton
    c: Newton
    d: Newton
    e: Newton
    f: Newton


@dataclass(frozen=True)
class DoubleModes:
    """Modes g to k in double shear, for each shear plane, without the rope effect."""

    g: Newton
    h: Newton
    j: Newton
    k: Newton


@dataclass(frozen=True)
class ShearCapacity:
    """Characteristic capacity for each shear plane, the mode that governs, and the rope effect in it."""

    value: Newton
    mode: str
    rope: Newton


def nail_embedment(density: KgPerM3, diameter: Metre, predrilled: bool = False) -> Pascal:
    """Embedment strength of wood under nails, and under screws to 6 mm.

        f_h = 0.082*rho_k*d**-0.3 driven;  0.082*(1 - 0.01*d)*rho_k predrilled      N/mm2, d in mm

    Arrays broadcast.
    Source: EN 1995-1-1, 8.3.1.1(5), equations 8.15 and 8.16.
    Valid:  nails to 8 mm, any angle to the grain.
    """
    _refuse.not_positive(density=density, diameter=diameter)
    d = diameter / _MM
    return _EMBED * density * ((1.0 - 0.01 * d) if predrilled else d**-0.3) * _MPA


def bolt_embedment(density: KgPerM3, diameter: Metre, grain_angle_rad: Radian = 0.0) -> Pascal:
    """Embedment strength of softwood under bolts, and under screws thicker than 6 mm.

        f_h0 = 0.082*(1 - 0.01*d)*rho_k;  f_ha = f_h0/(k90*sin**2 + cos**2),  k90 = 1.35 + 0.015*d

    Arrays broadcast.
    Source: EN 1995-1-1, 8.5.1.1, equations 8.31 to 8.33.
    Valid:  softwood, bolts to 30 mm.
    """
    _refuse.not_positive(density=density, diameter=diameter)
    d = diameter / _MM
    turned = (1.35 + 0.015 * d) * np.sin(grain_angle_rad) ** 2 + np.cos(grain_angle_rad) ** 2
    strength: Pascal = _EMBED * (1.0 - 0.01 * d) * density / turned * _MPA
    return strength


def plywood_embedment(density: KgPerM3, diameter: Metre, bolt: bool = False) -> Pascal:
    """Embedment strength of plywood.

        nails, screws to 6 mm: f_h = 0.11*rho_k*d**-0.3;  bolts: 0.11*(1 - 0.01*d)*rho_k      N/mm2, d in mm

    Arrays broadcast.
    Source: EN 1995-1-1, equations 8.20 and 8.36.
    Valid:  any angle to the face grain; nail heads at least twice the nail's diameter.
    """
    _refuse.not_positive(density=density, diameter=diameter)
    d = diameter / _MM
    return _EMBED_PLYWOOD * density * ((1.0 - 0.01 * d) if bolt else d**-0.3) * _MPA


def yield_moment(tensile_strength: Pascal, diameter: Metre) -> NewtonMetre:
    """Characteristic yield moment of a round nail, screw or bolt.

        M_y = 0.3 * f_u * d**2.6          N mm, N/mm2 and mm

    Arrays broadcast. For screws `diameter` is the effective one.
    Source: EN 1995-1-1, equations 8.14 and 8.30.
    Valid:  round dowels; nails of wire of 600 N/mm2 or more.
    """
    _refuse.not_positive(tensile_strength=tensile_strength, diameter=diameter)
    moment: NewtonMetre = _HINGE * tensile_strength / _MPA * (diameter / _MM) ** _HINGE_POWER * _MM
    return moment


def screw_diameter(thread: Metre, root: Metre, smooth_in_point: Metre) -> Metre:
    """Effective diameter of a screw loaded sideways.

        d where the smooth shank is as thick as the thread and reaches 4*d into the point side, else 1.1*root

    Arrays broadcast. `smooth_in_point`: length of such a shank in the point side; none for most screws.
    Source: EN 1995-1-1, 8.7.1.
    Valid:  wood screws and coach screws.
    """
    _refuse.not_positive(thread=thread, root=root)
    _refuse.negative(smooth_in_point=smooth_in_point)
    diameter: Metre = pick(np.greater_equal(smooth_in_point, 4.0 * thread), thread, 1.1 * root)
    return diameter


def johansen_modes(joint: EcJoint) -> JohansenModes:
    """Characteristic capacity of one dowel in single shear, mode by mode.

        a = f1*t1*d;  b = f2*t2*d
        c = f1*t1*d/(1+B) * (sqrt(B + 2*B**2*(1 + r + r**2) + B**3*r**2) - B*(1 + r))
        d = 1.05*f1*t1*d/(2+B) * (sqrt(2*B*(1+B) + 4*B*(2+B)*M/(f1*d*t1**2)) - B)
        e = 1.05*f1*t2*d/(1+2*B) * (sqrt(2*B**2*(1+B) + 4*B*(1+2*B)*M/(f1*d*t2**2)) - B)
        f = 1.15*sqrt(2*B/(1+B)) * sqrt(2*M*f1*d)             B = f2/f1, r = t2/t1, 1 head side, 2 point side

    Arrays broadcast.
    Source: EN 1995-1-1, 8.2.2, equation 8.6, after K. W. Johansen (1949).
    Valid:  timber to timber and panel to timber, faces in contact.
    """
    d, t1, t2 = joint.diameter, joint.head_length, joint.point_length
    f1, f2, M = joint.head_embedment, joint.point_embedment, joint.yield_moment
    _refuse.not_positive(diameter=d, head_length=t1, point_length=t2)
    _refuse.not_positive(head_embedment=f1, point_embedment=f2, yield_moment=M)
    B, r = f2 / f1, t2 / t1
    bearing = f1 * t1 * d
    root_c = np.sqrt(B + 2 * B**2 * (1 + r + r**2) + B**3 * r**2)
    root_d = np.sqrt(2 * B * (1 + B) + 4 * B * (2 + B) * M / (f1 * d * t1**2))
    root_e = np.sqrt(2 * B**2 * (1 + B) + 4 * B * (1 + 2 * B) * M / (f1 * d * t2**2))
    return JohansenModes(
        a=bearing,
        b=f2 * t2 * d,
        c=bearing / (1 + B) * (root_c - B * (1 + r)),
        d=_ONE_HINGE * bearing / (2 + B) * (root_d - B),
        e=_ONE_HINGE * f1 * t2 * d / (1 + 2 * B) * (root_e - B),
        f=_TWO_HINGES * np.sqrt(2 * B / (1 + B)) * np.sqrt(2 * M * f1 * d),
    )


def double_modes(joint: EcJoint) -> DoubleModes:
    """Characteristic capacity for each plane of one dowel in double shear, mode by mode.

        g = f1*t1*d;  h = 0.5*f2*t2*d;  j as d of single shear;  k as f of single shear

    Arrays broadcast. Member 1 is either outer one, 2 the inner one with its whole thickness.
    Source: EN 1995-1-1, 8.2.2, equation 8.7.
    Valid:  outer members alike.
    """
    modes = johansen_modes(joint)
    return DoubleModes(g=modes.a, h=0.5 * modes.b, j=modes.d, k=modes.f)


def rope_effect(yielding: Newton, axial: Newton, most: Ratio) -> Newton:
    """What a dowel's hold along its axis adds to a mode with hinges or tilting.

        least of F_ax/4 and `most` times the Johansen part

    Arrays broadcast. `most`: 0.15 round nails, 0.25 square nails and bolts, 0.50 other nails, 1.00 screws,
    0 where the axial capacity is not known.
    Source: EN 1995-1-1, 8.2.2(2).
    Valid:  dowels square to the joint.
    """
    _refuse.negative(yielding=yielding, axial=axial, most=most)
    rope: Newton = np.minimum(axial / 4.0, most * yielding)
    return rope


def _least(bearing: dict[str, float], hinged: dict[str, float], axial: Newton, most: Ratio) -> ShearCapacity:
    """The weakest mode; only `hinged` ones are helped by the rope effect."""
    ropes = {name: float(rope_effect(force, axial, most)) for name, force in hinged.items()}
    total = bearing | {name: force + ropes[name] for name, force in hinged.items()}
    mode = min(total, key=total.__getitem__)
    return ShearCapacity(value=float(total[mode]), mode=mode, rope=ropes.get(mode, 0.0))


def shear_capacity(joint: EcJoint, axial: Newton = 0.0, most: Ratio = 0.0) -> ShearCapacity:
    """Characteristic capacity of one dowel in single shear.

        F_v = least of a, b, and c to f with the rope effect

    Single numbers only.
    Source: EN 1995-1-1, 8.2.2, equation 8.6.
    Valid:  as `johansen_modes`.
    """
    m = johansen_modes(joint)
    return _least({"a": m.a, "b": m.b}, {"c": m.c, "d": m.d, "e": m.e, "f": m.f}, axial, most)


def double_shear_capacity(joint: EcJoint, axial: Newton = 0.0, most: Ratio = 0.0) -> ShearCapacity:
    """Characteristic capacity of one dowel in double shear, for each of its two planes.

        F_v = least of g, h, and j and k with the rope effect

    Single numbers only.
    Source: EN 1995-1-1, 8.2.2, equation 8.7.
    Valid:  as `double_modes`.
    """
    m = double_modes(joint)
    return _least({"g": m.g, "h": m.h}, {"j": m.j, "k": m.k}, axial, most)


def thin_plate_capacity(joint: EcJoint, axial: Newton = 0.0, most: Ratio = 0.0) -> ShearCapacity:
    """Characteristic capacity of one dowel through a steel plate no thicker than half its diameter.

        a = 0.4*f*t*d;  b = 1.15*sqrt(2*M*f*d) + rope            f, t of the point side

    Single numbers only. The head side of the joint is the steel and is not read.
    Source: EN 1995-1-1, 8.2.3, equation 8.9.
    Valid:  single shear; between half and whole diameter interpolate with the thick plate.
    """
    bearing = joint.point_embedment * joint.point_length * joint.diameter
    hinge = _TWO_HINGES * np.sqrt(2.0 * joint.yield_moment * joint.point_embedment * joint.diameter)
    return _least({"a": _THIN_PLATE * bearing}, {"b": float(hinge)}, axial, most)


def thick_plate_capacity(joint: EcJoint, axial: Newton = 0.0, most: Ratio = 0.0) -> ShearCapacity:
    """Characteristic capacity of one dowel through a steel plate at least as thick as its diameter.

        c = f*t*d*(sqrt(2 + 4*M/(f*d*t**2)) - 1) + rope;  d = 2.3*sqrt(M*f*d) + rope;  e = f*t*d

    Single numbers only. The head side of the joint is the steel and is not read.
    Source: EN 1995-1-1, 8.2.3, equation 8.10.
    Valid:  single shear; hole no more than a tenth wider than the dowel.
    """
    f, t, d, M = joint.point_embedment, joint.point_length, joint.diameter, joint.yield_moment
    _refuse.not_positive(point_embedment=f, point_length=t, diameter=d, yield_moment=M)
    bearing = f * t * d
    tilt = float(bearing * (np.sqrt(2.0 + 4.0 * M / (f * d * t**2)) - 1.0))
    hinge = float(_THICK_PLATE * np.sqrt(M * f * d))
    return _least({"e": bearing}, {"c": tilt, "d": hinge}, axial, most)
