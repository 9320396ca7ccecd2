"""Photons for plants, 400 to 700 nm, out of the power of daylight; and their sum over a day."""

from __future__ import annotations

from tidestead.core.dims import DailyLight, LightFlow, MicromolePerJoule, WattPerM2
from tidestead.physics import _refuse

DAYLIGHT: MicromolePerJoule = 2.04
DAYLIGHT_LOW: MicromolePerJoule = 1.98
DAYLIGHT_HIGH: MicromolePerJoule = 2.3
"""Photons for each joule of daylight of all colours. 2.04 mol/MJ as field measurements are quoted; ASTM G173's clear
sun gives 1.977; half of the power at 4.6 gives 2.3, which is as high as cloud takes it."""

OF_PAR: MicromolePerJoule = 4.57
"""Photons for each joule of daylight between 400 and 700 nm. Source: R. Thimijan and R. Heins (1983), HortScience
18(6):818-822, table 3, sunlight; quoted."""

_DAY = 86400.0
_MILLION = 1e6


def photon_flow(power: WattPerM2, photons: MicromolePerJoule = DAYLIGHT) -> LightFlow:
    """Flow of photons that comes with so much power of light.

        PPFD = k*E

    E of all daylight with k = 2.04 (1.98 to 2.3), or of its part from 400 to 700 nm with k = 4.57.

    Source: R. Thimijan and R. Heins (1983), HortScience 18(6):818-822, for 4.57; 2.04 as quoted.
    Valid:  daylight. Under cloud k of all daylight rises; behind green or red glass it is another.
    """
    _refuse.negative(power=power)
    _refuse.not_positive(photons=photons)
    return power * photons


def daily_light(mean: LightFlow) -> DailyLight:
    """Photons of a day (daily light integral) from the mean of its 24 hours.

        DLI = PPFD_mean*86400/1e6

    Source: definition.
    Valid:  the mean of day and night; a flow kept for t hours has a mean of PPFD*t/24.
    """
    _refuse.negative(mean=mean)
    return mean * (_DAY / _MILLION)
