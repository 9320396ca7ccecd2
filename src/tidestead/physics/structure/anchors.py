"""Anchors near the edge of a slab that hold the foot of a wall against the push of the water.

The push at the foot of a wall drives its anchors towards the edge of the slab: the edge breaks out before the
bolt does. An anchor maker's approval wins over what stands here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from tidestead.core.dims import Metre, Newton, Pascal, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._us_units import INCH, POUND, PSI

AnchorSort = Literal["cast in", "adhesive", "undercut", "torqued", "driven"]

_EDGE_IN_DIAMETERS: dict[AnchorSort, float] = {
    "cast in": 6.0,
    "adhesive": 6.0,
    "undercut": 6.0,
    "torqued": 8.0,
    "driven": 10.0,
}
"""Least edge distance in bolt diameters. Source: ACI 318-14, sections 17.7.2 and 17.7.3, as an anchor maker's
guide prints them."""

_STRENGTH_REDUCTION: Ratio = 0.70
"""Reduction of shear breakout without reinforcement round the anchor. Source: ACI 318-19, Table 17.5.3(b), as
an anchor maker's guide prints it."""

_FLUID_LOAD_FACTOR: Ratio = 1.4
"""Load factor of a fluid of known height that stays. Source: ASCE 7, combination 1.4(D + F), from memory."""


@dataclass(frozen=True)
class EdgeAnchor:
    """One anchor of a row along the edge of a slab. `spacing` is centre to centre along the row."""

    diameter: Metre
    embedment: Metre
    edge: Metre
    spacing: Metre
    slab_thickness: Metre
    concrete_strength: Pascal


def single_breakout(anchor: EdgeAnchor) -> Newton:
    """Nominal shear at which the edge breaks out in front of one anchor that stands alone in a thick slab.

        V = min(7*(le/d)**0.2*sqrt(d), 9) * sqrt(fc) * c**1.5      pounds, inches, psi
        le = min(embedment, 8*d)      c: distance to the edge that the push drives at

    Source: ACI 318-19, equations 17.7.2.2.1a and b, as an anchor maker's design guide prints them.
    Valid:  cracked plain concrete of normal weight, bolts up to an inch or so, no edge bars.
    """
    _refuse_anchor(anchor)
    diameter, edge = np.divide(anchor.diameter, INCH), np.divide(anchor.edge, INCH)
    bearing = np.minimum(np.divide(anchor.embedment, INCH), 8.0 * diameter)
    factor = np.minimum(7.0 * (bearing / diameter) ** 0.2 * np.sqrt(diameter), 9.0)
    force: Newton = factor * np.sqrt(anchor.concrete_strength / PSI) * edge**1.5 * POUND
    return force


def thin_slab_factor(slab_thickness: Metre, edge: Metre) -> Ratio:
    """What is left of the breakout where the slab is thinner than the cone is deep.

        h/(1.5*c) * sqrt(1.5*c/h)    for h < 1.5*c, else 1

    Source: ACI 318-19, 17.7.2.1 (area) and 17.7.2.6.1 (thickness), as an anchor maker's guide prints them.
    Valid:  as single_breakout.
    """
    _refuse.not_positive(slab_thickness=slab_thickness, edge_distance=edge)
    left: Ratio = np.sqrt(np.minimum(1.0, slab_thickness / (1.5 * edge)))
    return left


def row_factor(spacing: Metre, edge: Metre) -> Ratio:
    """What is left of the breakout of each anchor of a long row whose cones overlap.

        s/(3*c)    for s < 3*c, else 1

    Source: ACI 318-19, 17.7.2.1 and figure R17.7.2.1b (area of a row, each anchor's part), as an anchor
            maker's guide prints it.
    Valid:  rows of equal anchors pushed alike.
    """
    _refuse.not_positive(spacing=spacing, edge_distance=edge)
    left: Ratio = np.minimum(1.0, spacing / (3.0 * edge))
    return left


def row_breakout(anchor: EdgeAnchor) -> Newton:
    """Nominal shear of one anchor of a row along the edge of a thin slab.

        V = V_single * thin slab * row

    Source: ACI 318-19, equation 17.7.2.1b.
    Valid:  as single_breakout; the bolt and the wood it bears on are checked apart.
    """
    thin = thin_slab_factor(anchor.slab_thickness, anchor.edge)
    return single_breakout(anchor) * thin * row_factor(anchor.spacing, anchor.edge)


def lasting_shear(nominal: Newton) -> Newton:
    """Push of water that an anchor of this nominal breakout may carry for good.

        V_allowed = 0.70 * V_nominal / 1.4

    Source: ACI 318-19, Table 17.5.3(b), as an anchor maker's guide prints it; ASCE 7, fluids, from memory.
    Valid:  breakout without reinforcement round the anchor; water of a known height.
    """
    _refuse.negative(nominal_breakout=nominal)
    return _STRENGTH_REDUCTION * nominal / _FLUID_LOAD_FACTOR


def least_edge(diameter: Metre, sort: AnchorSort) -> Metre:
    """Least distance from an anchor to the edge so that setting it does not split the slab.

        c = n*d      n = 6 cast in and torqued, adhesive, undercut; 8 torqued expansion; 10 driven expansion

    Source: ACI 318-14, sections 17.7.2 and 17.7.3, as an anchor maker's guide prints them.
    Valid:  where the product's approval gives nothing else.
    """
    _refuse.not_positive(diameter=diameter)
    return _EDGE_IN_DIAMETERS[sort] * diameter


def full_cone_edge(embedment: Metre) -> Metre:
    """Distance to the edge at which an anchor's pull-out cone is whole.

        c = 1.5*h_ef

    Source: ACI 318-19, 17.6.2.1.4, as an anchor maker's guide prints it.
    Valid:  one anchor, concrete breakout in tension.
    """
    _refuse.not_positive(embedment=embedment)
    return 1.5 * embedment


def _refuse_anchor(anchor: EdgeAnchor) -> None:
    _refuse.not_positive(
        diameter=anchor.diameter,
        embedment=anchor.embedment,
        edge_distance=anchor.edge,
        concrete_strength=anchor.concrete_strength,
    )
