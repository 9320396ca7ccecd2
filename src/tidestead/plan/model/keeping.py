"""What keeps the water right: salt and where the water comes from, changes, food, fish, filters, dosing, losses."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.climate_fields import HeatPower, Power
from tidestead.plan.fields import Count, Duration, Length, PartName, Salinity, Share, Temperature
from tidestead.plan.flow_fields import AirFlow
from tidestead.plan.model.part import Part
from tidestead.plan.water_fields import (
    Alkalinity,
    ChangeShare,
    Chlorine,
    DailyShare,
    DailyVolume,
    FeedRate,
    FishMass,
    MediaMass,
    MediaSurface,
    ReagentName,
    SaltFactor,
    SaltPrice,
    SmallVolume,
    SourceFlow,
    Strength,
    TankVolume,
    Thiosulfate,
    VatVolume,
    WaterPrice,
)


class SaltMix(Part):
    """The dry salt that seawater is mixed from."""

    factor: SaltFactor | None = None
    """Weight of the mix for each weight of sea salt in it: bought mixes hold water. Dissolve a weighed amount, measure
    the salinity, and write what came out."""
    price: SaltPrice | None = None
    """Of a kilogram, such as "2.40 EUR/kg"."""
    stock: FishMass | None = None
    """Weight of it at hand."""


class WaterSource(Part):
    """Where water comes from: for the first fill, for changes, for what evaporates."""

    kind: Literal["mains", "osmosis", "well", "tanker", "sea"]
    """mains: from the tap. osmosis: through a membrane. tanker: brought by the load. sea: fetched or pumped."""
    flow: SourceFlow | None = None
    """What it gives; of a membrane its rated flow with water of 25 °C."""
    load: TankVolume | None = None
    """What one trip brings, where it comes by the load."""
    every: Duration | None = None
    """Time from one load to the next."""
    temperature: Temperature | None = None
    """Of the water as it comes; the coldest that may be."""
    salinity: Salinity | None = None
    """Of the water as it comes, typed as water.salinity is; fresh when left out."""
    recovery: Share | None = None
    """Share of the water fed to a membrane that comes out good."""
    chlorine: Chlorine | None = None
    """In the water as it comes, by a strip: ahead of `carbon` and `thiosulfate`, where it has them."""
    carbon: Share | None = None
    """Share of the chlorine that a carbon filter takes on the way in: 75 % or more by one of class I of NSF/ANSI 42."""
    thiosulfate: Thiosulfate | None = None
    """Sodium thiosulfate, the crystals, that is stirred into all of it before use."""
    price: WaterPrice | None = None
    """Of a cubic metre, such as "3.20 EUR/m3"; of osmosis, of the water fed to it."""


class Changes(Part):
    """How the water is changed."""

    share: ChangeShare
    """Of all the water, each time."""
    every: Duration
    """From one change to the next."""
    way: Literal["drain-first", "both-at-once", "all-the-time"] = "drain-first"
    """drain-first: out, then in. both-at-once: new in while old runs out. all-the-time: the same a day, always."""
    vat: PartName | None = None
    """The vessel that new water is mixed in."""
    holds: VatVolume | None = None
    """What a load of it is, where it is not one of the plan's vessels or not filled whole; a bucket of 10 L or more."""
    source: PartName | None = None
    """Which of the sources; the first when left out."""
    heater: HeatPower | None = None
    """What warms a load."""
    pump: SourceFlow | None = None
    """What moves a load over."""
    mixes: Duration | None = None
    """How long a load is stirred until it is used; a day when left out."""


class Feed(Part):
    """What is fed in a day, to all of them."""

    daily: FeedRate
    """Weight of food as it goes in."""
    protein: Share | None = None
    """Share of it that is protein, as on the label; 45 % when left out."""
    phosphorus: Share | None = None
    """Share of it that is phosphorus; 1.2 % when left out."""
    most: FeedRate | None = None
    """What goes in on a day when somebody means too well; four times the daily when left out."""


class Fish(Part):
    """Fish of one kind, those of a vessel together."""

    vessel: PartName
    """Where they live."""
    mass: FishMass | None = None
    """All of them now; nothing yet when left out."""
    grown: FishMass | None = None
    """All of them once they are grown: as much as now, or more."""
    each: FishMass
    """One of them, grown."""


class Quarantine(Part):
    """The vessel that new fish wait in."""

    volume: TankVolume
    """Water in it."""
    keeps: Duration
    """How long each lot stays."""
    most: FishMass | None = None
    """What it can carry at a time."""


class Filter(Part):
    """A surface on which ammonia is turned to nitrate: media, rock, sand."""

    vessel: PartName
    """Where it stands."""
    surface: MediaSurface
    """Of media, rock or sand that water passes."""
    grown: Share | None = None
    """Of what a grown surface does; all of it when left out."""
    denitrifies: DailyShare | None = None
    """Share of all nitrate that goes in a day, fitted from your own log: 0.01 1/day is a hundredth."""


class Adsorber(Part):
    """A granulate that binds phosphate, in a bag or a vessel that water is driven through."""

    vessel: PartName
    """Whose water runs through it."""
    kind: Literal["ferric-hydroxide", "aluminium-oxide"]
    """ferric-hydroxide: granules of iron. aluminium-oxide: white beads, activated alumina."""
    mass: MediaMass
    """Of a load, dry."""
    every: Duration
    """From one new load to the next."""
    binds: Share | None = None
    """Phosphorus (P) that a load takes until it is renewed, of its own weight: 0.5 % is 5 g for a kilogram. By the
    catalogue when left out."""


class Harvest(Part):
    """Algae that are grown on purpose and taken out: from a refugium, a screen or a basin of their own."""

    vessel: PartName
    """Whose water they feed on."""
    mass: MediaMass
    """Taken out each time, wet, drained of what drips."""
    every: Duration
    """From one harvest to the next."""
    dry: Share | None = None
    """Of the wet weight that is left once it is dried; by the catalogue when left out."""
    nitrogen: Share | None = None
    """Of the dry weight that is nitrogen (N); by the catalogue when left out."""
    phosphorus: Share | None = None
    """Of the dry weight that is phosphorus (P); by the catalogue when left out."""


class Losses(Part):
    """Seawater that leaves for good, each made up with fresh water by the float valve unless salted anew."""

    skimmate: DailyVolume | None = None
    """What the fractionator's cup takes."""
    splash: DailyVolume | None = None
    """Spray, salt creep, wet hands and nets."""
    leak: DailyVolume | None = None
    """A known weep."""


class Doser(Part):
    """A bottle with a stock solution and the pump that gives it."""

    vessel: PartName
    """Where it is given."""
    reagent: ReagentName
    """A catalogue name, such as "sodium-carbonate"."""
    strength: Strength
    """Reagent in a litre of the solution."""
    daily: DailyVolume | None = None
    """What it gives in a day."""
    bottle: SmallVolume
    """What may run out of it at once."""


class Kalkwasser(Part):
    """Limewater in what makes up for evaporation."""

    share: Share = 1.0
    """Of the top-off water that is limewater, as strong as it can be."""


class Reactor(Part):
    """A calcium reactor: water of the tank runs through chalk that carbon dioxide dissolves."""

    vessel: PartName
    """Where its outflow goes; the same water runs in."""
    flow: DailyVolume
    """What runs out of it in a day: time how long it takes to fill a measure."""
    alkalinity: Alkalinity
    """Of what runs out, measured."""


class AirPump(Part):
    """An air pump with its stones."""

    vessel: PartName
    """Whose water it stirs."""
    flow: AirFlow
    """Of air."""
    depth: Length
    """Of the stones under water."""
    power: Power | None = None
    """Electric."""
    bubbles: Literal["fine", "coarse"] = "fine"
    """fine: stones and membranes. coarse: drilled pipe."""
    stones: Count | None = None
    """How many; for your own use."""
    starts: Literal["mains", "battery"] = "mains"
    """mains: stops with the power. battery: goes on, or starts, when the power stops."""
    lasts: Duration | None = None
    """How long its battery carries it."""
