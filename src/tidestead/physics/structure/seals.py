"""How a window bears on its seat, and how far the seal beside it is stretched.

The seat bears, the seal seals: silicone carries no permanent load. `silicone_bite` shows why.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Metre, NewtonPerMetre, Pascal, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


def seat_bearing(line_load: NewtonPerMetre, width: Metre) -> Pascal:
    """Mean pressure of a window's edge on its seat.

        p = q / b

    Source: elementary statics; edge line loads of plates: Roark, Table 11.4.
    Valid:  the sheet lies on the whole width of the seat.
    """
    _refuse.negative(line_load=line_load)
    _refuse.not_positive(seat_width=width)
    return line_load / width


def seat_peak(line_load: NewtonPerMetre, width: Metre) -> Pascal:
    """Peak pressure at the inner edge of the seat as the sheet bows and turns on it.

        p = 2*q / b      a triangle over the whole width

    Source: elementary statics (triangle of pressure); that it stays a triangle is common practice, no source.
    Valid:  seat or bed soft enough to follow; a hard seat is pressed harder still along its inner edge.
    """
    return 2.0 * seat_bearing(line_load, width)


def silicone_bite(short_side: Metre, pressure: Pascal, strength: Pascal) -> Metre:
    """Width of silicone that would hold a pane by itself.

        bite = short side / 2 * p / f

    With the strength for gusts this is the rule of structural glazing. With the strength for permanent load
    it asks for a joint a metre wide under a metre of water: the joint is a seal, the seat is the support.
    Source: Construction Waterproofing Handbook, page 5.51.
    Valid:  wind on dry facades. Outside that it only shows what is impossible.
    """
    _refuse.negative(pressure=pressure)
    _refuse.not_positive(short_side=short_side, strength=strength)
    return 0.5 * short_side * pressure / strength


def rotation_strain(rotation_rad: Radian, arm: Metre, thickness: Metre) -> Ratio:
    """Stretch of a bed or seal when the edge of the sheet turns about a point `arm` away from it.

        eps = theta * a / e      e: thickness of the bed, across which it is pulled

    Source: geometry of small turns.
    Valid:  turns up to 0.1 rad; the bed sticks to both sides and nothing else holds it.
    """
    _refuse.negative(arm=arm)
    _refuse.not_positive(bed_thickness=thickness)
    strain: Ratio = np.abs(rotation_rad) * arm / thickness
    return strain


def shear_strain(movement: Metre, thickness: Metre) -> Ratio:
    """Shear of a bed whose two sides slide past each other.

        gamma = d / e

    Source: definition of shear strain; structural glazing allows 0.125 to 0.15, quoted.
    Valid:  a bed that sticks to both sides.
    """
    _refuse.not_positive(bed_thickness=thickness)
    strain: Ratio = np.abs(movement) / thickness
    return strain


def shear_stretch(movement: Metre, thickness: Metre) -> Ratio:
    """Real stretch of the sealant in a joint whose two sides slide past each other.

        eps = sqrt(1 + (d/e)**2) - 1

    Weather seals are judged by this; structural joints by `shear_strain`, which is stricter.
    Source: glazing contractors' bulletin on sealant joint design (difference of old and new sealant width).
    Valid:  a joint that sticks to both sides and is free between them.
    """
    slid = shear_strain(movement, thickness)
    stretched: Ratio = np.sqrt(1.0 + slid**2) - 1.0
    return stretched


def joint_width(movement: Metre, capability: Ratio, tolerance: Metre) -> Metre:
    """Width of a sealant joint that can follow a movement.

        W = M / X + t      X: what the sealant follows, as a share of its width; t: building tolerance

    Source: J. Ochshorn, sealant joint calculation, Cornell University building technology course.
    Valid:  sealant on two sides only, over a backing that it does not stick to.
    """
    _refuse.negative(movement=movement, tolerance=tolerance)
    _refuse.not_positive(capability=capability)
    if np.any(np.greater(capability, 1.0)):
        raise ImpossibleInput(f"a movement capability is a share of the joint's width, got {capability}")
    return movement / capability + tolerance
