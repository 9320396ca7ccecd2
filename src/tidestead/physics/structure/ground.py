"""What the ground and the floor feel: wall lines on footings and slabs, floor classes in depth of water.

Off-centre feet stand in `towers.py`, anchors near an edge in `anchors.py`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import G, KgPerM3, Metre, NewtonPerMetre, NewtonPerMetre3, Pascal, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._us_units import PSI

_PULL_ALLOWED = 1.6
_STIFFNESS = 57000.0
"""Allowed bending pull and stiffness of plain concrete, each times the root of its strength, all in psi.
Source: TM 5-809-12 / AFM 88-3 chapter 15 (1987), now UFC 3-320-06A, section 3-4 and appendix B."""

_EDGE_PEAK = float(np.exp(-np.pi / 4.0) * np.sin(np.pi / 4.0))
"""Largest value of exp(-x)*sin(x): the bending of a long strip loaded at its end. Source: Hetenyi, Beams on
Elastic Foundation (1946)."""


@dataclass(frozen=True)
class GroundSlab:
    """A plain concrete slab on the ground: thickness, compressive strength, and the soil's spring."""

    thickness: Metre
    concrete_strength: Pascal
    subgrade: NewtonPerMetre3


def line_footing_pressure(line_load: NewtonPerMetre, width: Metre) -> Pascal:
    """Pressure under the footing of a wall line.

        p = q / b

    Source: elementary statics.
    Valid:  load over the middle of the footing; footing stiff across its width.
    """
    _refuse.negative(line_load=line_load)
    _refuse.not_positive(footing_width=width)
    return line_load / width


def footing_width(line_load: NewtonPerMetre, bearing: Pascal) -> Metre:
    """Least width of a footing under a wall line.

        b = q / p_allowed

    Source: elementary statics.
    Valid:  allowed bearing of the ground, from a soil report, the local code or its presumptive table.
    """
    _refuse.negative(line_load=line_load)
    _refuse.not_positive(allowed_bearing=bearing)
    return line_load / bearing


def spread_width(contact: Metre, slab_thickness: Metre, free_sides: Ratio) -> Metre:
    """Width of ground that a wall line presses on through a slab.

        b = c + n*t      n = 2 inside the slab, 1 where one side of the plate stands at the slab's edge

    Source: common practice, no source: load spreads at 45 degrees.
    Valid:  sound concrete that does not crack under the line: check `slab_line_load` too.
    """
    _refuse.not_positive(contact=contact)
    _refuse.negative(slab_thickness=slab_thickness, free_sides=free_sides)
    return contact + free_sides * slab_thickness


def edge_strip_pressure(line_load: NewtonPerMetre, width: Metre, spread: Pascal) -> Pascal:
    """Pressure on the ground under a wall line that stands on a slab already pressed by the water.

        p = q/b + p_floor

    Source: superposition; common practice, no source for adding the two in full.
    Valid:  width from `spread_width`; the water presses the slab right up to the wall.
    """
    _refuse.negative(spread_pressure=spread)
    return line_footing_pressure(line_load, width) + spread


def slab_line_load(slab: GroundSlab) -> NewtonPerMetre:
    """Line load that a plain slab may bear away from its edges, without a thickening.

        P = 4*f*S / (1/lambda)      S = t**2/6      lambda = (k/(4*E*I))**(1/4)      I = t**3/12
        f = 1.6*sqrt(fc)      E = 57000*sqrt(fc)      in psi

    Source: TM 5-809-12 / AFM 88-3 chapter 15 (1987), table 3-2 and appendix B; Hetenyi (1946).
    Valid:  wall line at least a few slab thicknesses from any edge or unkeyed joint; slab flat on the ground.
    """
    return 4.0 * _slab_bending(slab)


def slab_edge_line_load(slab: GroundSlab) -> NewtonPerMetre:
    """Line load that a plain slab may bear along a free edge, without a thickening.

        P = f*S*lambda / 0.3224      letters as in `slab_line_load`

    Source: TM 5-809-12 / AFM 88-3 chapter 15 (1987), table 3-3 and appendix B; Hetenyi (1946).
    Valid:  as slab_line_load; the ground under the edge is not washed out.
    """
    return _slab_bending(slab) / _EDGE_PEAK


def depth_for_class(live_load: Pascal, density: KgPerM3) -> Metre:
    """Depth of water whose weight alone uses up what a floor is meant to bear.

        h = p / (rho*g)

    Source: elementary hydrostatics.
    Valid:  spread load; joists and their ends are another matter, for an engineer.
    """
    _refuse.negative(live_load=live_load)
    _refuse.not_positive(density=density)
    return live_load / (density * G)


def _slab_bending(slab: GroundSlab) -> NewtonPerMetre:
    """Allowed moment of a metre of slab over its elastic length."""
    _refuse.not_positive(
        slab_thickness=slab.thickness, concrete_strength=slab.concrete_strength, subgrade=slab.subgrade
    )
    root = np.sqrt(np.divide(slab.concrete_strength, PSI))
    pull, stiffness = _PULL_ALLOWED * root * PSI, _STIFFNESS * root * PSI
    inertia = slab.thickness**3 / 12.0
    per_length = (slab.subgrade / (4.0 * stiffness * inertia)) ** 0.25
    bent: NewtonPerMetre = pull * slab.thickness**2 / 6.0 * per_length
    return bent
