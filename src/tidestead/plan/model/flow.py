"""How the water goes: pumps, valves, apparatus in the line, ports of vessels, and the circuits that join them."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.climate_fields import FileName
from tidestead.plan.fields import (
    BubbleSize,
    CleanUp,
    HoleSize,
    Length,
    Level,
    Ratio,
    Share,
    SmallHead,
    Words,
)
from tidestead.plan.flow_fields import (
    AirFlow,
    BulkheadName,
    ChamberVolume,
    CurvePoints,
    Evaporation,
    Items,
    LampPower,
    LampTarget,
    LossPoint,
    PipeName,
    PortName,
    PumpPower,
    TariffPrice,
    TopOffFlow,
    ValveKind,
    Volume,
)
from tidestead.plan.model.part import Part
from tidestead.plan.price_fields import Budget, YearlySum
from tidestead.plan.water_fields import Nutrient, OnCircuitItem


class Pump(Part):
    """A pump as its maker gives it."""

    curve: CurvePoints = ()
    """Points of flow and head, such as ["0 m3/h at 7.0 m", "6 m3/h at 6.1 m", "16 m3/h at 0 m"]."""
    speed: Share = 1.0
    """Of full speed."""
    power: PumpPower | None = None
    """Electric, at full speed."""
    needs_head: Length | None = None
    """Net positive suction head it needs."""
    level: Level | None = None
    """Of the middle of its inlet, above the datum of all levels; that of its suction port when left out."""
    heats_water: Share | None = None
    """Share of its power that ends as heat in the water; 75 % when left out, all of it where it stands in the water."""
    check_valve: bool = False
    """Whether the pump itself lets nothing back when it stands."""


class Valve(Part):
    """A valve, named so that it can be found again and shut."""

    kind: ValveKind
    """What sort of valve."""
    size: PipeName | None = None
    """The pipe it sits in; that of the run it stands in when left out."""
    open: Share = 1.0
    """How far: 0 is shut."""
    cracking: SmallHead | None = None
    """Head that a check valve needs to open."""


class Apparatus(Part):
    """Something in the line that costs head: a lamp in a tube, a chiller, a reactor, a strainer."""

    kind: Literal["uv", "chiller", "reactor", "strainer", "other"]
    """What it is."""
    loss: LossPoint | None = None
    """Head lost at one flow, such as "0.4 m at 4 m3/h"; it grows with the square."""
    fouled: Share = 0.0
    """Share of a strainer's openings that is blocked."""
    uvc: LampPower | None = None
    """UV-C that a new lamp gives."""
    lamp_left: Share | None = None
    """Share of it that is left."""
    volume: ChamberVolume | None = None
    """Water in it."""
    diameter: Length | None = None
    """Inside diameter of a lamp's tube."""
    against: LampTarget | None = None
    """What its dose is wanted for, such as "norway-intake"."""
    same_as: OnCircuitItem | None = None
    """Where the plan tells its power, such as "device uv" or "chiller outside": one machine, which is bought once."""


class Bulkhead(Part):
    """A fitting through a wall."""

    fitting: BulkheadName
    """A catalogue name, such as "heavy-2"."""
    wall: Words
    """Which wall of the vessel, or "floor"."""
    from_left: Length | None = None
    """From the wall's left end, seen from outside, to the middle of the hole; of a round vessel along its outside, from
    the middle of a rib."""
    seat: Literal["liner", "membrane", "rigid"] | None = None
    """What its flange presses on."""
    thickness: Length | None = None
    """Wall it clamps, where it is not sheathing and lining alone."""


class SiphonBreak(Part):
    """A hole that lets air in before too much runs back."""

    level: Level
    """Above the vessel floor."""
    hole: HoleSize
    """Its diameter."""


class Port(Part):
    """A place where water enters or leaves a vessel. Levels are above the vessel floor."""

    kind: Literal["inlet", "outlet", "weir", "standpipe", "siphon", "spill"]
    """inlet: a suction or a hole under water. outlet: where water comes in. weir, standpipe, siphon (kept full by a
    valve): overflows. spill: water falls in from above."""
    level: Level
    """Middle of the hole, crest of the weir, lip of the standpipe."""
    length: Length | None = None
    """Of a weir, along its crest."""
    open: Share = 1.0
    """Share of a weir's length that its teeth leave open."""
    teeth: SmallHead | None = None
    """Height of the teeth."""
    size: PipeName | None = None
    """Of a standpipe, a siphon or a hole."""
    crest: Level | None = None
    """Highest point of a siphon."""
    siphon_break: SiphonBreak | None = None
    bulkhead: Bulkhead | None = None


class FloatValve(Part):
    """What keeps the level against evaporation."""

    level: Level
    """At which it shuts, above the vessel floor."""
    flow: TopOffFlow
    """What it lets in when fully open."""
    stock: Volume | None = None
    """Fresh water it can draw on."""
    evaporation: Evaporation | None = None
    """What goes off into the air from all vessels together, such as "18 L/day"."""


class Circuit(Part):
    """One line from a port or a junction to another: what the water passes, in order."""

    start: PortName
    """Such as "sump.suction", or the name of a junction."""
    route: Items = ()
    """Such as "pipe pvc40-2in 3.2 m", "elbow-90 x3", "valve main", "pump return", "apparatus lamp".
    "riser 1.42 m" is the lip of an open pipe, that high above the datum: it sets the level before it."""
    end: PortName
    """A port or a junction, as for start, or the name of an outfall."""
    high_point: Level | None = None
    """Highest point of the line above the datum, where it is higher than both ends."""


class Outfall(Part):
    """Where water leaves the system for good and falls free: a floor drain, a hose to the sewer."""

    level: Level
    """Of its mouth, above the datum of the whole plan; below nothing where it is deeper."""


class AirFeed(Part):
    """Air to a fractionator."""

    flow: AirFlow | None = None
    """Of air, as it goes in."""
    bubble: BubbleSize | None = None
    """Diameter of the bubbles, if known."""
    depth: Length | None = None
    """Of the diffuser under water."""
    loss: SmallHead | None = None
    """Head of water the diffuser itself costs."""
    blower: OnCircuitItem | None = None
    """What makes it, as a circuit names it, such as "device blower": the air stops with that."""


class Supplies(Part):
    """What comes from outside."""

    tariff: TariffPrice | None = None
    """Of electricity, such as "0.32 EUR/kWh"."""
    book: FileName | None = None
    """A file beside the plan whose [book] is read with the plan's own, such as "prices.toml"; a row of the plan stands
    before one of the same name in the file."""


class FlowTargets(Part):
    """What you want of the circulation, of the water and of what it costs."""

    turnover: Ratio | None = None
    """Times an hour that the display's water should pass the sump."""
    foam_turnover: Ratio | None = None
    """Times an hour that the whole water should pass the fractionator."""
    clean_up: CleanUp | None = None
    """In which nine tenths of what can be skimmed should be gone, when nothing new comes in."""
    quiet: bool = True
    """Whether pipes must run quietly."""
    nitrate: Nutrient | None = None
    """Of NO3: the most that is wanted."""
    phosphate: Nutrient | None = None
    """Of PO4: the most that is wanted."""
    budget: Budget | None = None
    """The most that may still be spent, such as "8000 EUR"."""
    running: YearlySum | None = None
    """The most that a year may cost, such as "1500 EUR/year"."""
