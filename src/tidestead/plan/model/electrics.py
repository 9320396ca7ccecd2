"""Power: the supply, its circuits with what protects them, what hangs on each, what stands in when it fails."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.climate_fields import Power
from tidestead.plan.electric_fields import (
    Amps,
    BatteryEnergy,
    Burns,
    ConductorArea,
    Peak,
    PowerFactor,
    ResidualAmps,
    Volts,
)
from tidestead.plan.fields import Duration, Length, PartName
from tidestead.plan.model.part import Part
from tidestead.plan.water_fields import OnCircuitItems, SmallVolume


class Supply(Part):
    """What comes to the building."""

    volts: Volts
    """Between the conductors that feed one circuit."""
    amps: Amps
    """Of the main protective device."""
    phases: Literal[1, 3] = 1
    """One, or three."""
    distance: Length | None = None
    """Of cable from where the voltage is held to the building."""
    cable: ConductorArea | None = None
    """Copper of one conductor, such as "6 mm2"."""


class ElectricCircuit(Part):
    """One circuit from the board, and what hangs on it."""

    breaker: Amps
    """Of its protective device."""
    residual: ResidualAmps | None = None
    """Trip level of the residual-current device (ground-fault interrupter) over it."""
    shares: PartName | None = None
    """Another circuit whose residual-current device this one hangs on as well."""
    cable: ConductorArea | None = None
    """Copper of one conductor."""
    length: Length | None = None
    """Of cable, from the board to the farthest thing on it."""
    feeds: OnCircuitItems
    """What hangs on it, such as ["pump return", "heater sump", "device router"]."""


class Device(Part):
    """Anything else that draws power: a router, a controller, a dosing pump, a light."""

    power: Power
    """That it draws."""
    kind: Literal["electronic", "motor", "heating", "lamp"] = "electronic"
    """What sort of load: what it takes to start and what it leaks to earth hang on it."""
    must_run: bool = False
    """Whether it must go on when the power stops."""
    power_factor: PowerFactor | None = None
    """Share of its current that does work; by its kind when left out."""


class Backup(Part):
    """What stands in when the power fails."""

    kind: Literal["battery", "generator"]
    """battery: with an inverter. generator: with an engine, outdoors only."""
    energy: BatteryEnergy | None = None
    """What a new battery holds."""
    power: Power | None = None
    """That it gives for as long as it lasts."""
    peak: Peak | None = None
    """Times its power that it gives for a start, from its maker's sheet; when left out twice for an inverter, 1.1 to
    1.25 times for a generator."""
    carries: OnCircuitItems
    """What hangs on it when the power stops, such as ["pump return"]."""
    starts: Literal["by itself", "by hand"] = "by itself"
    """by hand: only once somebody is there."""
    tank: SmallVolume | None = None
    """Fuel of a generator."""
    burns: Burns | None = None
    """Litres of fuel for each kWh; 0.5 when left out."""
    lasts: Duration | None = None
    """How long it has been seen to carry that load; worked out when left out."""
