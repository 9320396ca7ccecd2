"""Chlorine of tap water and what takes it away: the thiosulfate that it asks for, and the ammonia of chloramine.

Chlorine counts as Cl2, as strips and waterworks print it, whatever form it has.
"""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import GramPerM3, GramPerMole, Ratio
from tidestead.physics import _refuse
from tidestead.physics.ammonia import NITROGEN_MASS

CHLORINE: GramPerMole = 70.90
"""Of Cl2. Source: IUPAC standard atomic weights."""

THIOSULFATE: GramPerMole = 248.17
"""Of Na2S2O3 with five of water, the crystals that are sold. Source: IUPAC standard atomic weights."""

TO_TETRATHIONATE: Ratio = 2.0
TO_SULPHATE: Ratio = 0.25
"""Moles of thiosulfate for each of chlorine: 2 S2O3 + Cl2 -> S4O6 + 2 Cl, or S2O3 + 4 Cl2 + 5 H2O -> 2 SO4 + 8 Cl
+ 10 H. Source: stoichiometry. Which of them runs depends on pH and surplus: the first takes most and is safe."""


def thiosulfate_for_chlorine(chlorine: GramPerM3, moles: Ratio = TO_TETRATHIONATE) -> GramPerM3:
    """Crystals of sodium thiosulfate that take away so much chlorine.

        T = n*248.17/70.90*Cl      n = 2: 7.0 g for a gram; n = 1/4: 0.875 g

    Source: stoichiometry.
    Valid:  free chlorine and chloramine alike, counted as Cl2; n from 1/4 to 2.
    """
    _refuse.negative(chlorine=chlorine)
    _refuse.not_positive(moles=moles)
    return moles * THIOSULFATE / CHLORINE * chlorine


def chlorine_left(chlorine: GramPerM3, thiosulfate: GramPerM3, moles: Ratio = TO_TETRATHIONATE) -> GramPerM3:
    """Chlorine that a dose of those crystals leaves, at least nothing.

        Cl - T*70.90/(n*248.17)

    Source: `thiosulfate_for_chlorine` read backwards.
    Valid:  as that; stirred in well, for some minutes.
    """
    _refuse.negative(chlorine=chlorine, thiosulfate=thiosulfate)
    _refuse.not_positive(moles=moles)
    taken = np.multiply(thiosulfate, CHLORINE / (moles * THIOSULFATE))
    return cast(float, np.maximum(np.subtract(chlorine, taken), 0.0)[()])


def chloramine_nitrogen(chlorine: GramPerM3) -> GramPerM3:
    """Ammonia nitrogen that is left of chloramine once its chlorine is gone.

        N = 14.007/70.90*Cl

    Source: stoichiometry, NH2Cl: one nitrogen for what counts as one Cl2.
    Valid:  all of the chlorine bound as monochloramine; dichloramine has half as much.
    """
    _refuse.negative(chlorine=chlorine)
    return NITROGEN_MASS / CHLORINE * chlorine
