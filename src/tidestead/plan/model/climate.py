"""Where the weather comes from: a file beside the plan, real years fetched once, or twelve monthly normals."""

from __future__ import annotations

from tidestead.plan.climate_fields import (
    FileName,
    SpellLength,
    TwelveShares,
    TwelveSpeeds,
    TwelveSuns,
    TwelveSwings,
    TwelveTemperatures,
    YearCount,
    Years,
)
from tidestead.plan.fields import Temperature
from tidestead.plan.model.part import Part


class MonthlyNormals(Part):
    """Means of the twelve months, January first."""

    temperature: TwelveTemperatures | None = None
    """Mean of day and night."""
    swing: TwelveSwings | None = None
    """From the coldest to the warmest hour of a day; estimated from the sun when left out."""
    sun: TwelveSuns | None = None
    """Falling on level ground, such as "2.1 kWh/m2/day"."""
    humidity: TwelveShares | None = None
    """Relative humidity."""
    wind: TwelveSpeeds | None = None
    """At 10 m, as weather stations give it."""


class WeatherSpell(Part):
    """Days on end that must be stood: a cold spell or a heat wave."""

    lasts: SpellLength
    """Such as "5 days"; 1 to 30 days."""
    mean: Temperature
    """Mean of day and night over all of it."""


class WeatherPlan(Part):
    """Weather: the first of these that can be had is used, and said."""

    file: FileName | None = None
    """A weather file beside the plan: EPW, TMY3, PVGIS json or csv, or a csv with named columns and units."""
    pvgis: Years | None = None
    """Years of real hours to fetch from the European PVGIS service, once, when online: "2005 to 2023"."""
    normals: MonthlyNormals = MonthlyNormals()
    cold_spell: WeatherSpell | None = None
    """The coldest days to stand; heaters are sized by it."""
    heat_wave: WeatherSpell | None = None
    """The warmest days to stand."""
    years: YearCount | None = None
    """How many years are tried, 1 to 1000; 20 when left out."""
