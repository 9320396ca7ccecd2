"""What warms, cools and lights the water, and what lives by the light."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.climate_fields import Area as SurfaceArea
from tidestead.plan.climate_fields import (
    CoralKind,
    DailyLight,
    DepthBand,
    Difference,
    Efficacy,
    HeaterCount,
    HeatPower,
    LightReadings,
    Months,
    Power,
    Speed,
)
from tidestead.plan.fields import Duration, PartName, Ratio, Share, Temperature
from tidestead.plan.flow_fields import TariffPrice
from tidestead.plan.model.part import Part
from tidestead.plan.water_fields import FilmReadings, OxygenUptake


class Heater(Part):
    """Heaters of one kind in one vessel, with their thermostat."""

    vessel: PartName
    """Whose water it warms."""
    power: HeatPower
    """Of one of them, into the water."""
    count: HeaterCount = 1
    """How many."""
    setpoint: Temperature
    """What its thermostat keeps."""
    band: Difference | None = None
    """From switching on to switching off; 0.5 K when left out."""
    energy: Literal["electric", "fuel"] = "electric"
    """What it burns."""
    yields: Ratio = 1.0
    """Heat in the water for each part of energy paid: 1 of an immersed element, 3 of a good heat pump, 0.9 of fuel."""
    price: TariffPrice | None = None
    """Of a kWh of its fuel, or of its current where that has a price of its own; current goes by the tariff else."""


class Chiller(Part):
    """A machine that cools the water."""

    vessel: PartName
    """Whose water it cools."""
    cooling: HeatPower
    """Heat that it takes out of the water."""
    draws: Power
    """Electric power that it takes for that."""
    setpoint: Temperature
    """What its thermostat keeps."""
    band: Difference | None = None
    """From switching on to switching off; 0.5 K when left out."""
    rejects: Literal["outdoors", "indoors"] = "outdoors"
    """Where its heat goes."""


class Cover(Part):
    """A cover on the water."""

    over: PartName
    """Which vessel."""
    share: Share
    """Of the water that it covers."""
    months: Months = tuple(range(12))
    """When it is used, such as "Oct to Apr"."""
    when: Literal["night", "always"] = "always"
    """night: only while the sun is down."""
    passes: Share = 0.0
    """Of the sun that it lets through."""


class WaterFan(Part):
    """A fan that blows over the water to cool it."""

    over: PartName
    """Which vessel."""
    speed: Speed
    """Of the air at the water."""
    power: Power
    """Electric."""
    above: Temperature
    """Water temperature above which it runs."""


class Lamp(Part):
    """Lamps over the water that make up what the sun leaves short."""

    over: PartName
    """Which vessel."""
    power: Power
    """Electric, all of them together."""
    efficacy: Efficacy | None = None
    """Light for each joule; 2.2 umol/J when left out."""
    hours: Duration
    """How long a day, round noon."""
    months: Months = tuple(range(12))
    """When they are used, such as "Sep to Apr"."""
    lights: SurfaceArea | None = None
    """Area of the water that they light; all of it when left out."""
    reaches: Share | None = None
    """Share of their light that enters the water; 70 % when left out."""


class Coral(Part):
    """Corals of one kind, and where they sit."""

    kind: CoralKind
    """A catalogue name: what band of light they are held to."""
    vessel: PartName
    """Where they live."""
    depth: DepthBand
    """Shallowest to deepest of them, under the water's surface."""
    area: SurfaceArea | None = None
    """That they cover."""
    wants: DailyLight | None = None
    """Least and most light of a day, where you know better than the catalogue."""


class Measured(Part):
    """What you have measured; it stands before what is assumed."""

    light: LightReadings = ()
    """Readings of a light meter under water, taken within a minute: ["310 umol/m2/s at 0.2 m", ...]."""
    film: FilmReadings = ()
    """What windows looked like so long after they were wiped: ["clean after 2 days", "some after 4 days", ...]."""
    uptake: OxygenUptake | None = None
    """Oxygen that everything in the water uses, from an hour with the pumps off and a probe: such as "6 g/h"."""
