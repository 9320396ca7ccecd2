"""What the light study finds: light at the corals by month and hour, what lamps add, what they warm."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Assumption, Estimate
from tidestead.core.dims import Array
from tidestead.core.source import Source

Months = tuple[float, ...]
"""Twelve numbers, January first."""


@dataclass(frozen=True)
class Spread:
    """Twelve months of all years that were tried: P10, median and P90 of them."""

    low: Months
    likely: Months
    high: Months


@dataclass(frozen=True)
class Clarity:
    """How fast light dies away in the water, 1/m, and how that is known. `readings` are (depth, light)."""

    rate: Estimate
    source: Source
    readings: tuple[tuple[float, float], ...] = ()
    missing: str = ""


@dataclass(frozen=True)
class Band:
    """What corals are held to: light of a day, mol/(m2 day), and peak, umol/(m2 s)."""

    kind: str
    title: str
    least: float
    most: float
    harm: float
    peak: float
    source: Source
    harm_source: Source
    peak_source: Source
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Lighting:
    """Lamps that hang over one vessel, taken together, as one group of corals has them.

    `reaches` is the share of their light that enters the water, `power` all of them, `area` what they light. `low` and
    `high` are the flow just under the surface, umol/(m2 s), spread side by side and laid over one another, by hour of
    the day and month: shape (12, 24). `covers` says that the area they light is no less than that of the corals.
    """

    names: tuple[str, ...]
    power: float
    efficacy: float
    reaches: float
    hours: float
    area: float
    low: Array
    high: Array
    covers: bool

    @property
    def planned(self) -> bool:
        return bool(self.names)


@dataclass(frozen=True)
class MakeUp:
    """What lamps of the group's efficacy would have to give so that the darkest corals have their least, by month.

    `missing` mol/(m2 day) beside the sun alone; `power` the mean watts while they burn, `energy` of each month, J;
    `year` energy of a year, J, with its range over the years.
    """

    missing: Months
    power: Months
    energy: Months
    year: Estimate


@dataclass(frozen=True)
class CoralLight:
    """One group of corals and its light. Depths in metres under the surface, shallowest and deepest.

    `outside` falls on level ground outdoors, `surface` on the water, before it throws some back; `natural` arrives at
    the deepest and `natural_top` at the shallowest; `deep` and `top` are these with lamps. `least`, `most` and `peak`
    hold what is not known of water and sky too. Light of a day in mol/(m2 day), `peak` in umol/(m2 s).
    `sun_peaks` is the highest hour of each month in a bright year (P90), without lamps.
    `days` are mean days (4, 24) round solstices and equinoxes, `year` five-day means (73, 24), `brightest` the day,
    from 0, of the highest hour in a middling year and its hours, all at the shallowest with lamps. `shade` is the share
    of the sun to keep out by month beyond the plan's shade, lamps off; `typical` is natural light at the deepest in
    the one typical year of a file.
    """

    key: str
    vessel: str
    band: Band
    shallow: float
    deepest: float
    area: float
    outside: Spread
    surface: Spread
    natural: Spread
    natural_top: Spread
    deep: Spread
    top: Spread
    peaks: Spread
    sun_peaks: Months
    least: Estimate
    most: Estimate
    peak: Estimate
    lighting: Lighting
    make_up: MakeUp
    shade: Months
    days: tuple[Months, ...]
    year: tuple[Months, ...]
    brightest: tuple[int, Months]
    typical: Months = ()


@dataclass(frozen=True)
class LampFacts:
    """Lamps of the plan: energy of a year, J, and the part of their power that warms the water."""

    key: str
    vessel: str
    power: float
    energy: float
    water_share: float


@dataclass(frozen=True, eq=False)
class LightFacts:
    """All that was found. `water_heat` and `air_heat` are watts of the lamps by hour of the year, by vessel, (8760,).

    `floor_heat` is the share of the sun's heat under the surface that reaches the floor, by vessel.
    """

    groups: tuple[CoralLight, ...]
    missing: tuple[tuple[str, str], ...]
    clarity: Clarity
    lamps: tuple[LampFacts, ...]
    water_heat: dict[str, Array]
    air_heat: dict[str, Array]
    floor_heat: dict[str, Estimate]
    day_length: Months
    years: str
    weather_words: str
    weather_source: Source | None
    notes: tuple[str, ...]
    assumptions: tuple[Assumption, ...]
