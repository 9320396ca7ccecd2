"""What a timber's cross-section is worth: area, second moments, moduli, torsion; one plank or several.

"Deep" is the larger side of a plank, "broad" the smaller one. The strong second moment resists loads that
push along the deep side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Count, CubicMetre, Metre, Metre4, Ratio, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_TORSION_TERMS = 12
"""Odd terms kept of the torsion series; the next one changes J by less than one part in a million."""


@dataclass(frozen=True)
class MemberSection:
    """A cross-section. `strong` resists loads along the deep side, `weak` those along the broad side."""

    area: SquareMetre
    strong: Metre4
    weak: Metre4
    strong_modulus: CubicMetre
    weak_modulus: CubicMetre
    torsion: Metre4


def rectangle_area(breadth: Metre, depth: Metre) -> SquareMetre:
    """Area of a rectangle.

        A = b * d

    Source: geometry.
    Valid:  any rectangle.
    """
    _refuse.not_positive(breadth=breadth, depth=depth)
    return breadth * depth


def rectangle_second_moment(breadth: Metre, depth: Metre) -> Metre4:
    """Second moment of a rectangle against loads along `depth`.

        I = b * d**3 / 12

    Source: elementary beam theory; AWC, NDS Supplement (2018), Table 1B prints it for sawn lumber.
    Valid:  any rectangle.
    """
    _refuse.not_positive(breadth=breadth, depth=depth)
    return breadth * depth**3 / 12.0


def rectangle_modulus(breadth: Metre, depth: Metre) -> CubicMetre:
    """Section modulus of a rectangle against loads along `depth`.

        S = b * d**2 / 6

    Source: elementary beam theory; AWC, NDS Supplement (2018), Table 1B prints it for sawn lumber.
    Valid:  any rectangle, stress in proportion to strain.
    """
    _refuse.not_positive(breadth=breadth, depth=depth)
    return breadth * depth**2 / 6.0


def rectangle_torsion(breadth: Metre, depth: Metre) -> Metre4:
    """Torsion constant of a rectangle.

        J = b*t**3/3 * (1 - 192/pi**5 * t/b * sum over odd n of tanh(n*pi*b/(2*t))/n**5)
        b, t: longer and shorter side

    Source: S. Timoshenko and J. N. Goodier, Theory of Elasticity, 3rd edition (1970), section 109.
    Valid:  one even material; wood along its grain comes near enough for the stiffness of a frame.
    """
    _refuse.not_positive(breadth=breadth, depth=depth)
    long, short = np.maximum(breadth, depth), np.minimum(breadth, depth)
    series = np.zeros(np.shape(long))
    for n in range(1, 2 * _TORSION_TERMS, 2):
        series = series + np.tanh(n * np.pi * long / (2.0 * short)) / n**5
    constant: Metre4 = long * short**3 / 3.0 * (1.0 - 192.0 / np.pi**5 * short / long * series)
    return constant


def plank_section(
    breadth: Metre, depth: Metre, pieces: Count = 1, made_one: bool = False, share_left: Ratio = 1.0
) -> MemberSection:
    """Section of `pieces` equal planks laid wide face to wide face.

        strong = n * b*d**3/12                          however they are joined
        weak   = n * d*b**3/12                          free to slip on each other
               = d*(n*b)**3/12                          made one by glue

    `made_one` is for planks glued over the whole face. Nails and screws slip: planks joined by them count as
    free, which is on the safe side. `share_left` is the share of the depth that rot, notches and holes leave.

    Source: elementary beam theory; free and made-one are the two ends between which EN 1995-1-1 annex B lies.
    Valid:  equal planks, all loaded together.
    """
    _refuse.not_positive(pieces=pieces, share_left=share_left)
    if np.any(np.greater(share_left, 1.0)):
        raise ImpossibleInput(f"share left cannot be more than the whole, got {share_left}")
    deep = depth * share_left
    thick = breadth * pieces
    weak_unit, count = (thick, 1) if made_one else (breadth, pieces)
    return MemberSection(
        area=rectangle_area(thick, deep),
        strong=rectangle_second_moment(thick, deep),
        weak=count * rectangle_second_moment(deep, weak_unit),
        strong_modulus=rectangle_modulus(thick, deep),
        weak_modulus=count * rectangle_modulus(deep, weak_unit),
        torsion=count * rectangle_torsion(weak_unit, deep),
    )


def net_area(area: SquareMetre, holes: Count, hole: Metre, thickness: Metre) -> SquareMetre:
    """Area left in a member after holes that lie in one cross-section.

        A_net = A - n * hole * thickness

    Source: NDS-2018, 3.1.2 (net section), rule known from memory; geometry.
    Valid:  holes side by side in one cross-section; staggered holes are not treated.
    """
    left = area - holes * hole * thickness
    if np.any(np.less_equal(left, 0.0)):
        raise ImpossibleInput(f"{holes} holes of {hole} m leave nothing of the member")
    return left
