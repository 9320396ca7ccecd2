"""Stresses in a straight timber from what acts on it; shared by the American and the European rules."""

from __future__ import annotations

from tidestead.core.dims import CubicMetre, Metre, Newton, NewtonMetre, Pascal, Ratio, SquareMetre
from tidestead.physics import _refuse


def bending_stress(moment: NewtonMetre, modulus: CubicMetre) -> Pascal:
    """Largest bending stress in the outermost fibre.

        f_b = M / S

    Arrays broadcast. S is the section modulus of what is left of the timber.
    Source: elementary beam theory; NDS-2018 3.3.2; EN 1995-1-1 6.1.6.
    Valid:  stress in proportion to strain, load square to one side of the timber.
    """
    _refuse.not_positive(section_modulus=modulus)
    return moment / modulus


def shear_stress(force: Newton, breadth: Metre, depth: Metre, crack_factor: Ratio = 1.0) -> Pascal:
    """Largest shear stress of a rectangular timber.

        f_v = 1.5 * V / (k_cr * b * d)

    Arrays broadcast. `crack_factor` is k_cr of EN 1995-1-1 for the width that drying cracks leave; the
    American values have it inside, so there it stays at one.
    Source: elementary beam theory; NDS-2018 3.4.2; EN 1995-1-1 6.1.7 with amendment A1 (2008).
    Valid:  rectangles without a notch at the support.
    """
    _refuse.not_positive(breadth=breadth, depth=depth, crack_factor=crack_factor)
    return 1.5 * force / (crack_factor * breadth * depth)


def axial_stress(force: Newton, area: SquareMetre) -> Pascal:
    """Even stress of a pull, a push or a bearing over an area.

        f = N / A

    Arrays broadcast. For a pull, A is what holes and notches leave; for a bearing, the touching face.
    Source: elementary statics; NDS-2018 3.8 and 3.10; EN 1995-1-1 6.1.2 and 6.1.5.
    Valid:  force through the middle of the area.
    """
    _refuse.not_positive(area=area)
    return force / area
