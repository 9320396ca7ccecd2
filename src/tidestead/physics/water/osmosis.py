"""Fresh water through a membrane: slower when cold, and never without waste."""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import Celsius, CubicMetre, CubicMetrePerDay, Hour, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_RATED_AT = 298.0
_ICE = 273.0
_COLD, _WARM = 3020.0, 2640.0
_HOURS = 24.0


def membrane_factor(temp_c: Celsius) -> Ratio:
    """Flow of a reverse osmosis membrane over its rated flow at 25 degC.

        TCF = exp(3020*(1/298 - 1/T)) below 25 degC, exp(2640*(1/298 - 1/T)) from there      T = t + 273

    Source: membrane makers' projections, as quoted in several programs; a printed table of divisors agrees.
    Valid:  5 to 35 degC, same pressure. Other makers' charts print 1.89 in place of 1.71 at 10 degC: a chart of the
            membrane itself wins.
    """
    if np.any(np.less(temp_c, 0.0)) or not np.all(np.less(temp_c, 60.0)):
        raise ImpossibleInput(f"water between 0 and 60 degC is meant, got {temp_c} degC")
    gap = 1.0 / _RATED_AT - 1.0 / np.add(temp_c, _ICE)
    return cast(float, np.exp(np.where(np.less(temp_c, 25.0), _COLD, _WARM) * gap)[()])


def hours_to_make(volume: CubicMetre, rated: CubicMetrePerDay, temp_c: Celsius) -> Hour:
    """Hours a membrane takes for a volume of fresh water.

        t = V/(q25*TCF)

    Source: `membrane_factor`.
    Valid:  rated pressure, clean membrane. Less pressure or fouling takes longer.
    """
    _refuse.negative(volume=volume)
    _refuse.not_positive(rated_flow=rated)
    return volume / (rated * membrane_factor(temp_c)) * _HOURS


def reject_water(made: CubicMetre, recovery: Ratio) -> CubicMetre:
    """Water that runs to waste while some is made.

        V*(1 - r)/r      r: made over supplied

    Source: balance of water.
    Valid:  recovery held; flushing comes on top.
    """
    _refuse.negative(water_made=made)
    _refuse.not_positive(recovery=recovery)
    _refuse.not_a_share(recovery=recovery)
    return made * (1.0 - recovery) / recovery
