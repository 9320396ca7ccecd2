"""The plan: the one file that describes the system."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from tidestead.plan.climate_fields import Attenuation
from tidestead.plan.fields import (
    Acceleration,
    Currency,
    Elevation,
    Latitude,
    Longitude,
    PartName,
    Salinity,
    TemperatureBand,
    Words,
    Zone,
)
from tidestead.plan.model.book import BookRow, Cutting, Rate, Risk
from tidestead.plan.model.building import Building
from tidestead.plan.model.climate import WeatherPlan
from tidestead.plan.model.electrics import Backup, Device, ElectricCircuit, Supply
from tidestead.plan.model.flow import Apparatus, Circuit, FlowTargets, Outfall, Pump, Supplies, Valve
from tidestead.plan.model.keeping import (
    Adsorber,
    AirPump,
    Changes,
    Doser,
    Feed,
    Filter,
    Fish,
    Harvest,
    Kalkwasser,
    Losses,
    Quarantine,
    Reactor,
    SaltMix,
    WaterSource,
)
from tidestead.plan.model.part import Part
from tidestead.plan.model.prices import HelpPrices
from tidestead.plan.model.response import Cleaning, Response, Thresholds
from tidestead.plan.model.vessel import Vessel
from tidestead.plan.model.warmth import Chiller, Coral, Cover, Heater, Lamp, Measured, WaterFan
from tidestead.plan.water_fields import (
    PH,
    Alkalinity,
    AlkalinityRate,
    Calcium,
    CalciumRate,
    Magnesium,
    Nutrient,
)

VERSION = 1


class Earthquake(Part):
    """Ground acceleration to design for, from the local code. Without it only still water is checked."""

    horizontal: Acceleration
    """Share of gravity, such as "0.3 g"."""
    source: Words
    """Who gave it."""


class Site(Part):
    """Where it stands."""

    place: Words | None = None
    """In words, for your own use."""
    latitude: Latitude | None = None
    """Degrees, north positive."""
    longitude: Longitude | None = None
    """Degrees, east positive."""
    elevation: Elevation | None = None
    """Above the sea."""
    timezone: Zone | None = None
    """Such as "Europe/London"."""
    earthquake: Earthquake | None = None


class Water(Part):
    """The water that is kept."""

    salinity: Salinity | None = None
    """Practical salinity, grams in a kilogram (ppt), or what a hydrometer, a conductivity meter or a refractometer
    shows, with its scale and temperatures."""
    keep: TemperatureBand | None = None
    """Coolest to warmest."""
    clarity: Attenuation | None = None
    """How fast light for plants dies away with depth, such as "0.2 1/m"; two meter readings under `measured` win."""
    ph: PH | None = None
    """With the scale it is counted on: "8.2 NBS" by a meter set with bought buffers, else "8.1 total"."""
    alkalinity: Alkalinity | None = None
    """What is kept, such as "8 dKH" or "2.9 meq/L"."""
    calcium: Calcium | None = None
    """What is kept, by weight in a litre."""
    magnesium: Magnesium | None = None
    """What is kept, by weight in a litre."""
    uses_alkalinity: AlkalinityRate | None = None
    """What is used up in a day, measured with nothing dosed: such as "0.3 dKH"."""
    uses_calcium: CalciumRate | None = None
    """What is used up in a day, measured with nothing dosed: such as "1.5 mg/L"; worked out of the alkalinity when left
    out, which is coarse where a filter takes much of that."""
    nitrate: Nutrient | None = None
    """Of NO3, as tests print it: what there is now."""
    phosphate: Nutrient | None = None
    """Of PO4, as tests print it: what there is now."""


class Plan(Part):
    """The whole system."""

    tidestead: int
    """Version of this file's layout."""
    name: Words
    """What you call it."""
    show: Literal["metric", "us"] = "metric"
    """The units that answers are shown in, and that advice on faults is given in. Any unit may be typed either
    way."""
    gallons: Literal["us", "imperial"] | None = None
    """Which gallon a bare "gal" means."""
    currency: Currency | None = None
    """Three letters, such as "EUR"."""
    site: Site = Site()
    weather: WeatherPlan = WeatherPlan()
    building: Building = Building()
    water: Water = Water()
    vessels: dict[PartName, Vessel] = Field(default_factory=dict)
    pumps: dict[PartName, Pump] = Field(default_factory=dict)
    valves: dict[PartName, Valve] = Field(default_factory=dict)
    apparatus: dict[PartName, Apparatus] = Field(default_factory=dict)
    circuits: dict[PartName, Circuit] = Field(default_factory=dict)
    outfalls: dict[PartName, Outfall] = Field(default_factory=dict)
    heaters: dict[PartName, Heater] = Field(default_factory=dict)
    chillers: dict[PartName, Chiller] = Field(default_factory=dict)
    covers: dict[PartName, Cover] = Field(default_factory=dict)
    fans: dict[PartName, WaterFan] = Field(default_factory=dict)
    lamps: dict[PartName, Lamp] = Field(default_factory=dict)
    corals: dict[PartName, Coral] = Field(default_factory=dict)
    salt: SaltMix = SaltMix()
    sources: dict[PartName, WaterSource] = Field(default_factory=dict)
    changes: Changes | None = None
    feed: Feed | None = None
    fish: dict[PartName, Fish] = Field(default_factory=dict)
    quarantine: Quarantine | None = None
    filters: dict[PartName, Filter] = Field(default_factory=dict)
    adsorbers: dict[PartName, Adsorber] = Field(default_factory=dict)
    harvests: dict[PartName, Harvest] = Field(default_factory=dict)
    losses: Losses = Losses()
    dosers: dict[PartName, Doser] = Field(default_factory=dict)
    kalkwasser: Kalkwasser | None = None
    reactors: dict[PartName, Reactor] = Field(default_factory=dict)
    airpumps: dict[PartName, AirPump] = Field(default_factory=dict)
    supply: Supply | None = None
    electrics: dict[PartName, ElectricCircuit] = Field(default_factory=dict)
    devices: dict[PartName, Device] = Field(default_factory=dict)
    backups: dict[PartName, Backup] = Field(default_factory=dict)
    response: Response | None = None
    thresholds: Thresholds = Thresholds()
    cleaning: Cleaning | None = None
    measured: Measured = Measured()
    supplies: Supplies = Supplies()
    prices: HelpPrices = HelpPrices()
    book: dict[PartName, BookRow] = Field(default_factory=dict)
    rates: dict[Currency, Rate] = Field(default_factory=dict)
    risks: dict[PartName, Risk] = Field(default_factory=dict)
    cutting: Cutting = Cutting()
    targets: FlowTargets = FlowTargets()
    yours: dict[str, dict[str, dict[str, Any]]] = Field(default_factory=dict)
    """Your own catalogue rows by table, named with `yours:` where they are used."""
