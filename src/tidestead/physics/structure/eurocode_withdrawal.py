"""Nails, screws and bolts pulled along their axis by Eurocode 5. Characteristic values."""

from __future__ import annotations

from typing import Final

import numpy as np

from tidestead.core.dims import Count, KgPerM3, Metre, Newton, Pascal, Radian, Ratio, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_MM: Final = 1e-3
_MPA: Final = 1e6

_NAIL: Final = 20e-6
_HEAD: Final = 70e-6
"""Withdrawal and pull-through of smooth nails over rho_k**2. Source: EN 1995-1-1, equations 8.25 and 8.26."""

_SCREW: Final = 0.52
_SCREW_THIN: Final = 8.0
_SCREW_SHALLOW: Final = 6.0
_SCREW_FLATTEST: Final = np.pi / 6.0
"""Withdrawal of screws: constant, diameter (mm) from which k_d is one, least thread in diameters, least angle
to the grain. Source: EN 1995-1-1, 8.7.2, amendment A1 (2008)."""

_WASHER: Final = 3.0
"""Bearing under a washer over f_c90. Source: EN 1995-1-1, 8.5.2(2)."""


def nail_withdrawal_strength(density: KgPerM3) -> Pascal:
    """Withdrawal strength of smooth nails from side grain.

        f_ax = 20e-6 * rho_k**2           N/mm2

    Arrays broadcast.
    Source: EN 1995-1-1, equation 8.25.
    Valid:  depth of 12*d or more; smooth nails must not carry permanent or long-term pull.
    """
    _refuse.not_positive(density=density)
    return _NAIL * density**2 * _MPA


def head_pull_strength(density: KgPerM3) -> Pascal:
    """Strength against a nail's or screw's head pulling through.

        f_head = 70e-6 * rho_k**2         N/mm2

    Arrays broadcast.
    Source: EN 1995-1-1, equation 8.26.
    Valid:  wood, and plywood as far as its density counts; screws for want of a declared value.
    """
    _refuse.not_positive(density=density)
    return _HEAD * density**2 * _MPA


def nail_depth_factor(depth: Metre, diameter: Metre) -> Ratio:
    """What a smooth nail's depth in the point side leaves of its withdrawal strength.

        t/(4*d) - 2 from 8*d to 12*d; nothing below, all above

    Arrays broadcast.
    Source: EN 1995-1-1, 8.3.2(7).
    Valid:  smooth nails.
    """
    _refuse.not_positive(diameter=diameter)
    _refuse.negative(depth=depth)
    factor: Ratio = np.clip(depth / (4.0 * diameter) - 2.0, 0.0, 1.0)
    return factor


def nail_axial_capacity(
    density: KgPerM3, diameter: Metre, depth: Metre, head: Metre, thickness: Metre
) -> Newton:
    """Characteristic hold of one smooth nail: pulled out, or its head pulled through.

        F = least of f_ax*d*t_pen and f_ax*d*t + f_head*d_h**2

    Arrays broadcast. `depth` in the point side, `thickness` of the head side, `head` the head's diameter.
    Source: EN 1995-1-1, 8.3.2, equation 8.24; both sides of one density.
    Valid:  side grain only; from end grain nothing. Use for the rope effect; permanent pull is not allowed.
    """
    _refuse.not_positive(head=head, thickness=thickness)
    out = nail_withdrawal_strength(density) * nail_depth_factor(depth, diameter) * diameter * depth
    through = nail_withdrawal_strength(density) * diameter * thickness + head_pull_strength(density) * head**2
    capacity: Newton = np.minimum(out, through)
    return capacity


def screw_withdrawal_strength(density: KgPerM3, diameter: Metre, thread: Metre) -> Pascal:
    """Withdrawal strength of a screw square to the grain.

        f_ax = 0.52 * d**-0.5 * l_ef**-0.1 * rho_k**0.8       N/mm2 and mm

    Arrays broadcast. `diameter` of the thread, `thread` its length in the point side.
    Source: EN 1995-1-1, 8.7.2(5), equation 8.39, amendment A1 (2008).
    Valid:  6 to 12 mm, root 0.6 to 0.75 of the thread; else use the maker's declared value.
    """
    _refuse.not_positive(density=density, diameter=diameter, thread=thread)
    strength: Pascal = _SCREW * (diameter / _MM) ** -0.5 * (thread / _MM) ** -0.1 * density**0.8 * _MPA
    return strength


def screw_withdrawal(
    strength: Pascal, diameter: Metre, thread: Metre, grain_angle_rad: Radian = np.pi / 2.0, number: Count = 1
) -> Newton:
    """Characteristic withdrawal of a group of screws.

        F = n**0.9 * f_ax * d * l_ef * k_d / (1.2*cos**2 + sin**2),   k_d = d/8 mm, at most 1

    Arrays broadcast. The angle is between screw and grain; below 30 degrees (screws into end grain) the rule
    does not reach and the input is refused.
    Source: EN 1995-1-1, 8.7.2(4) and (8), equations 8.38 and 8.41, amendment A1 (2008).
    Valid:  thread of six diameters or more in the point side; the screw's own tension is apart.
    """
    _refuse.not_positive(strength=strength, diameter=diameter, thread=thread, number=number)
    if np.any(np.less(grain_angle_rad, _SCREW_FLATTEST * (1 - 1e-9))):
        raise ImpossibleInput("a screw along the grain may not be pulled: keep 30 degrees or more")
    if np.any(np.less(thread, _SCREW_SHALLOW * diameter * (1 - 1e-9))):
        raise ImpossibleInput("a screw needs six diameters of thread in the point side")
    thin = np.minimum(diameter / _MM / _SCREW_THIN, 1.0)
    turned = 1.2 * np.cos(grain_angle_rad) ** 2 + np.sin(grain_angle_rad) ** 2
    hold: Newton = number**0.9 * strength * diameter * thread * thin / turned
    return hold


def head_pull_capacity(strength: Pascal, head: Metre, number: Count = 1) -> Newton:
    """Characteristic pull-through of the heads of a group of screws.

        F = n**0.9 * f_head * d_h**2

    Arrays broadcast.
    Source: EN 1995-1-1, 8.7.2, equation 8.40b.
    Valid:  density as that for which the strength holds.
    """
    _refuse.not_positive(strength=strength, head=head, number=number)
    capacity: Newton = strength * head**2 * number**0.9
    return capacity


def bolt_tension(tensile_strength: Pascal, stress_area: SquareMetre) -> Newton:
    """Characteristic tension of a bolt or threaded rod, for the rope effect.

        F = f_ub * A_s

    Arrays broadcast.
    Source: EN 1993-1-8, Table 3.4, without its factor 0.9 and partial factor.
    Valid:  ISO metric threads.
    """
    _refuse.not_positive(tensile_strength=tensile_strength, stress_area=stress_area)
    return tensile_strength * stress_area


def washer_capacity(across: Pascal, washer: Metre, hole: Metre) -> Newton:
    """Characteristic bearing of wood under a round washer or the spread of a steel plate.

        F = 3 * f_c90k * pi/4 * (d_w**2 - hole**2)

    Arrays broadcast. For a steel plate the washer is the lesser of 12 plate thicknesses and 4 bolt diameters.
    Source: EN 1995-1-1, 8.5.2(2) and (3).
    Valid:  wood across the grain.
    """
    _refuse.not_positive(across=across, washer=washer, hole=hole)
    if np.any(np.less_equal(washer, hole)):
        raise ImpossibleInput(f"a washer of {washer} m over a hole of {hole} m bears on nothing")
    return float(_WASHER * np.pi / 4.0) * across * (washer**2 - hole**2)


def combined_use(sideways: Ratio, axial: Ratio, smooth: bool = False) -> Ratio:
    """Share used by a fastener pulled and pushed sideways together.

        F_ax/R_ax + F_v/R_v for smooth nails, else (F_ax/R_ax)**2 + (F_v/R_v)**2

    Arrays broadcast. Arguments are shares.
    Source: EN 1995-1-1, 8.3.3, equations 8.27 and 8.28.
    Valid:  nails; screws as the second form.
    """
    _refuse.negative(sideways=sideways, axial=axial)
    return sideways + axial if smooth else sideways**2 + axial**2
