"""The heat wave as degree heating weeks: days out of hours, the month that corals are used to, the agency's steps."""

from __future__ import annotations

import numpy as np
import pytest

from tidestead.core.months import MONTH_DAYS
from tidestead.studies.heat.bleaching import bleaching_table, heating, warmest_month
from tidestead.studies.heat.facts import Tried


def _hours(*days: float) -> tuple[float, ...]:
    """Every day swings by 3 K about its mean."""
    swing = 1.5 * np.sin(2.0 * np.pi * np.arange(24) / 24.0)
    return tuple(float(hour) for day in days for hour in day + swing)


def test_days_count_by_their_means_and_not_by_their_hottest_hour() -> None:
    assert heating(_hours(28.0, 29.0, 27.8, 28.2), 27.0) == pytest.approx(4.2 / 7.0)
    assert heating(_hours(27.9, 27.9), 27.0) == 0.0


def test_a_cooler_end_of_the_wave_takes_nothing_back() -> None:
    assert heating(_hours(30.0, 30.0, 25.0, 25.0), 27.0) == pytest.approx(6.0 / 7.0)


@pytest.mark.parametrize("month", range(12))
def test_the_warmest_month_is_found_wherever_it_lies(month: int) -> None:
    days = [20.0 + (6.0 if at == month else 0.0) for at, many in enumerate(MONTH_DAYS) for _ in range(many)]
    assert warmest_month(days) == pytest.approx(26.0)


def test_steps_of_the_agency_are_told_by_name() -> None:
    ways = (
        Tried("cooled", 27.0, _hours(*[27.0] * 9)),
        Tried("as planned", 30.0, _hours(*[29.0] * 9)),
        Tried("no chiller", 33.0, _hours(*[31.0] * 9)),
        Tried("nothing", 35.0, _hours(*[34.0] * 9)),
    )
    table = bleaching_table(ways, 27.0)
    assert [row[1] for row in table.rows] == ["0.00", "2.57", "5.14", "9.00"]
    assert [str(row[2]).split()[0] for row in table.rows] == ["none", "warmth", "bleaching", "death"]
    assert "27.0 °C (80.6 °F)" in table.note
