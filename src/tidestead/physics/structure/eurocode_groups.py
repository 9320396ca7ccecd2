"""Fasteners together by Eurocode 5: rows, joints across the grain, end grain, joints of two materials."""

from __future__ import annotations

from typing import Final

import numpy as np

from tidestead.core.dims import Count, Metre, Newton, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick

_MM: Final = 1e-3

_SPLITTING: Final = 14.0
"""N and mm. Source: EN 1995-1-1, 8.1.4, equation 8.4."""

_END_GRAIN: Final = 1.0 / 3.0
"""Share of the sideways capacity of nails in end grain. Source: EN 1995-1-1, 8.3.1.2(4), from memory."""


def connection_kmod(first: Ratio, second: Ratio) -> Ratio:
    """k_mod of a joint between two kinds of wood or sheet.

        k_mod = sqrt(k_mod1 * k_mod2)

    Arrays broadcast.
    Source: EN 1995-1-1, 2.3.2.1(2), equation 2.6, from memory.
    Valid:  two timber elements of different time-dependent behaviour.
    """
    _refuse.not_positive(first=first, second=second)
    kmod: Ratio = np.sqrt(first * second)
    return kmod


def nails_in_row(number: Count, spacing: Metre, diameter: Metre, predrilled: bool = False) -> Ratio:
    """Effective number of nails in a row along the grain and along the load.

        n_ef = n**k;  k = 1 at 14*d, 0.85 at 10*d, 0.7 at 7*d, 0.5 at 4*d predrilled, straight in between

    Arrays broadcast. Rows staggered by a diameter across the grain need no reduction. Driven nails closer
    than 7*d give no number.
    Source: EN 1995-1-1, 8.3.1.1(8), equation 8.17 and Table 8.1, from memory.
    Valid:  nails, and screws to 6 mm.
    """
    _refuse.not_positive(number=number, spacing=spacing, diameter=diameter)
    apart = spacing / diameter
    least = 4.0 if predrilled else 7.0
    power = np.interp(apart, [4.0, 7.0, 10.0, 14.0], [0.5, 0.7, 0.85, 1.0])
    count: Ratio = pick(np.less(apart, least * (1 - 1e-9)), np.nan, number**power)
    return count


def bolts_in_row(number: Count, spacing: Metre, diameter: Metre) -> Ratio:
    """Effective number of bolts in a row along the grain and along the load.

        n_ef = least of n and n**0.9 * (a1/(13*d))**0.25

    Arrays broadcast. Across the grain all count; between, interpolate.
    Source: EN 1995-1-1, 8.5.1.1(4), equation 8.34.
    Valid:  bolts, and screws thicker than 6 mm.
    """
    _refuse.not_positive(number=number, spacing=spacing, diameter=diameter)
    count: Ratio = np.minimum(number, number**0.9 * (spacing / (13.0 * diameter)) ** 0.25)
    return count


def splitting_capacity(breadth: Metre, depth: Metre, to_loaded_edge: Metre) -> Newton:
    """Characteristic pull across the grain that a joint may put on a timber before it splits.

        F_90 = 14 * b * sqrt(h_e / (1 - h_e/h))           N and mm

    Arrays broadcast. `to_loaded_edge`: from the edge that is pulled to the farthest fastener, h_e. A tie that
    pulls at a rim is such a joint.
    Source: EN 1995-1-1, 8.1.4, equation 8.4.
    Valid:  softwood; compare the larger of the shear forces on both sides of the joint.
    """
    _refuse.not_positive(breadth=breadth, depth=depth, to_loaded_edge=to_loaded_edge)
    if np.any(np.greater_equal(to_loaded_edge, depth)):
        raise ImpossibleInput(f"a fastener {to_loaded_edge} m from the edge lies outside {depth} m of timber")
    reach = to_loaded_edge / _MM / (1.0 - to_loaded_edge / depth)
    capacity: Newton = _SPLITTING * breadth / _MM * np.sqrt(reach)
    return capacity


def end_grain_share(secondary: bool, service_class: Count) -> Ratio:
    """Share of their sideways capacity that smooth nails keep in end grain.

        1/3 in secondary structures of service class 1 or 2, else nothing

    Single numbers only. A wall that holds water is no secondary structure.
    Source: EN 1995-1-1, 8.3.1.2(3) and (4), from memory.
    Valid:  three nails or more, driven ten diameters deep.
    """
    return _END_GRAIN if secondary and service_class <= 2 else 0.0
