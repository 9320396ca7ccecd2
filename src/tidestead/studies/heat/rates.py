"""Evaporation of the open water by three correlations side by side: they disagree, and the spread is told."""

from __future__ import annotations

import numpy as np

from tidestead.core.months import MONTHS
from tidestead.core.weather import MONTH_OF_HOUR, WeatherYear
from tidestead.physics import air
from tidestead.physics.heat import evaporation
from tidestead.physics.heat.engine import HeatYear
from tidestead.physics.heat.evaporation import OpenWater
from tidestead.studies.heat.assembly import Basis
from tidestead.studies.heat.facts import Rates

UNDISTURBED = 0.5
"""Activity factor of a still pool in the handbook's formula."""

SPEED = 0.1
"""Of the air over water in a house, m/s. Common practice, no source."""

_SHOWN = (0, 3, 6, 9)


def rates_of(basis: Basis, year: HeatYear, weather: WeatherYear) -> tuple[Rates, ...]:
    """Means of four months of a year: what one square metre after another would lose, as if uncovered."""
    found = []
    surface = sum(water.surface for water in basis.waters)
    for month in _SHOWN:
        hours = month == MONTH_OF_HOUR
        temp_w, temp_a = float(year.water_c[0][hours].mean()), float(year["air_c"][hours].mean())
        pressure = float(weather.pressure[hours].mean())
        ratio = float(year["ratio"][hours].mean())
        vapour = float(air.vapour_of_ratio(ratio, pressure))
        water = OpenWater(
            temp_w, temp_a, float(evaporation.vapour_over(basis.sal_psu, temp_w)), vapour, pressure
        )
        found.append(
            Rates(
                MONTHS[month],
                temp_w,
                temp_a,
                vapour,
                surface * float(evaporation.shah_rate(water, SPEED)),
                surface * float(evaporation.handbook_rate(water, UNDISTURBED)),
                surface * evaporation.QUIET * float(evaporation.busy_rate(water, SPEED)),
            )
        )
    return tuple(found)


def spread_of(rates: tuple[Rates, ...]) -> tuple[float, float]:
    """By how much the least and the most of the three stand off the one that is used, as factors over the months."""
    ratios = [(one.handbook / one.shah, one.busy / one.shah, 1.0) for one in rates if one.shah > 0.0]
    if not ratios:
        return 1.0, 1.0
    return float(np.min(ratios)), float(np.max(ratios))
