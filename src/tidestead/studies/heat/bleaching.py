"""The heat wave told as degree heating weeks, for corals."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tidestead.core.answer import Column, Table
from tidestead.core.months import MONTH_DAYS
from tidestead.physics.bleaching import BLEACHING, MORTALITY, most_heating_weeks
from tidestead.studies.heat.facts import Tried

_HOURS = 24


def bleaching_table(tried: Sequence[Tried], used_to: float) -> Table:
    """Every way through the wave, against the warmest month that corals are used to, degC."""
    columns = (Column("heat wave, for corals"), Column("degree heating weeks (°C)"), Column("which is"))
    found = [(one.name, heating(one.water, used_to)) for one in tried if one.water]
    rows = tuple((name, f"{weeks:.2f}", _meaning(weeks)) for name, weeks in found)
    note = (
        f"Used to {used_to:.1f} °C ({1.8 * used_to + 32.0:.1f} °F), the mean of the display's warmest month in the "
        "median of the years. Days at least 1 °C above it are summed and parted by seven (NOAA Coral Reef Watch). "
        "Only days round the wave are counted; a long warm summer adds to it."
    )
    return Table("heat.bleaching", "What the heat wave is for corals", columns, rows, note)


def heating(hourly: Sequence[float], used_to: float) -> float:
    """The most that degree heating weeks come to, of water told by hours from a midnight on."""
    daily = np.array(hourly, dtype=float).reshape(-1, _HOURS).mean(axis=1)
    return most_heating_weeks(daily, used_to)


def warmest_month(daily: Sequence[float]) -> float:
    """Mean of the warmest month of 365 daily means."""
    ends = np.cumsum(MONTH_DAYS)[:-1]
    return max(float(month.mean()) for month in np.split(np.array(daily, dtype=float), ends))


def _meaning(weeks: float) -> str:
    if weeks >= MORTALITY:
        return f"death of corals is likely (from {MORTALITY:g} on)"
    if weeks >= BLEACHING:
        return f"bleaching is likely (from {BLEACHING:g} on)"
    return "warmth that counts, no bleaching expected" if weeks > 0.0 else "none"
