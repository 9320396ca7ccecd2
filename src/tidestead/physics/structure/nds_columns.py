"""Lumber under a push by the American rules: struts of buttresses, posts, studs that also carry a load."""

from __future__ import annotations

from typing import Final

import numpy as np

from tidestead.core.dims import Metre, Pascal, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick

_EULER: Final = 0.822
"""pi**2 / 12, with the safety already in E_min. Source: NDS-2018, 3.7.1.5."""

_SAWN: Final = 0.8
"""c of sawn lumber. Source: NDS-2018, 3.7.1.5."""

_SLENDEREST: Final = 50.0
"""Largest l_e / d. Source: NDS-2018, 3.7.1.4."""


def column_buckling_stress(modulus_min: Pascal, length: Metre, depth: Metre) -> Pascal:
    """Critical buckling design value of a rectangular column about one axis.

        F_cE = 0.822 * E_min' / (l_e / d)**2

    Arrays broadcast. `length` is the length between points held sideways, `depth` the side that bends.
    Source: NDS-2018, 3.7.1.5.
    Valid:  l_e / d up to 50; a slenderer column is refused with ImpossibleInput.
    """
    _refuse.not_positive(modulus_min=modulus_min, length=length, depth=depth)
    slenderness = length / depth
    if np.any(np.greater(slenderness, _SLENDEREST)):
        raise ImpossibleInput(
            f"a column {length} m long and {depth} m thick is slenderer than 50; hold it sideways in between"
        )
    return _EULER * modulus_min / slenderness**2


def column_stability_factor(compression: Pascal, buckling: Pascal) -> Ratio:
    """C_P, what slenderness leaves of the strength along the grain.

        C_P = (1 + r)/2c - sqrt(((1 + r)/2c)**2 - r/c),   r = F_cE / F_c*,   c = 0.8

    Arrays broadcast. `compression` is F_c* with every factor but C_P.
    Source: NDS-2018, 3.7.1.5, equation 3.7-1.
    Valid:  sawn lumber.
    """
    _refuse.not_positive(compression=compression, buckling=buckling)
    ratio = buckling / compression
    half = (1.0 + ratio) / (2.0 * _SAWN)
    factor: Ratio = half - np.sqrt(half**2 - ratio / _SAWN)
    return factor


def compression_bending_use(
    pressed: Pascal, compression: Pascal, buckling: Pascal, bent: Pascal, bending: Pascal
) -> Ratio:
    """Share used by a push and a bend about one axis together.

        (f_c / F_c')**2 + f_b / (F_b' * (1 - f_c / F_cE))

    Arrays broadcast. At or past F_cE the share is endless.
    Source: NDS-2018, 3.9.2, equation 3.9-3, for bending about the axis of F_cE.
    Valid:  bending about one axis, held against twisting.
    """
    _refuse.not_positive(compression=compression, buckling=buckling, bending=bending)
    _refuse.negative(pressed=pressed, bent=bent)
    left = np.maximum(1.0 - pressed / buckling, 0.0)
    bent_share = bent / np.maximum(bending * left, 1e-300)
    share: Ratio = pick(np.greater(left, 0.0), np.square(pressed / compression) + bent_share, np.inf)
    return share
