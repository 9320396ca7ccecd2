"""Everything of a plan that draws power: what it draws, and what sort of load it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.plan.model import Plan
from tidestead.plan.water_fields import ON_TABLES, ApparatusKind, OnCircuit
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.power.facts import Sort

SORTS = {
    "motor": ("factor-motor", "induction-motor", "pump-motor"),
    "drive": ("factor-electronic", "electronic-motor", "pump-electronic"),
    "compressor": ("factor-compressor", "compressor", "chiller"),
    "heating": ("factor-heating", "heater", "heater-element"),
    "lamp": ("factor-lamp", "lamp", "lamp-driver"),
    "electronic": ("factor-electronic", "electronic-motor", "controller"),
    "air": ("factor-motor", "induction-motor", "air-pump"),
}
"""Sorts of apparatus: rows for power factor, start and leakage."""

_OF_KIND: dict[ApparatusKind, str] = {
    "pump": "motor", "heater": "heating", "chiller": "compressor", "lamp": "lamp", "fan": "motor", "air": "air",
}  # fmt: skip


@dataclass(frozen=True)
class Thing:
    """One entry of the plan that draws power: `power` W of all `count` of it, None where the plan does not say.

    `factor` is its power factor where the plan has one.
    """

    item: OnCircuit
    sort: str
    power: float | None
    count: int = 1
    factor: float | None = None

    @property
    def words(self) -> str:
        """ "pump return", "heater sump (4)"."""
        named = words_of(self.item)
        return named if self.count == 1 else f"{named} ({self.count})"


def words_of(item: OnCircuit) -> str:
    """ "pump return", "air pump stones", "router"."""
    if item.kind == "device":
        return item.name
    return f"{'air pump' if item.kind == 'air' else item.kind} {item.name}"


def rows_of(sort: str) -> Sort:
    """The rows of a sort of apparatus."""
    limits = table("electric_limits")
    factor, starting, leakage = (limits[name] for name in SORTS[sort])
    return Sort(factor, starting, leakage)


def things_of(plan: Plan, flow: FlowFacts | None) -> dict[OnCircuit, Thing]:
    """Every entry of the plan that draws electric power; pumps by their full power where the flow is not known."""
    found = (thing for kind in ON_TABLES for thing in _things(plan, flow, kind))
    return {thing.item: thing for thing in found}


def _things(plan: Plan, flow: FlowFacts | None, kind: ApparatusKind) -> Iterator[Thing]:
    if kind == "pump":
        yield from _pumps(plan, flow)
    elif kind == "device":
        yield from _devices(plan)
    else:
        for name in getattr(plan, ON_TABLES[kind]):
            count = plan.heaters[name].count if kind == "heater" else 1
            if kind != "heater" or plan.heaters[name].energy == "electric":
                pumped = kind == "heater" and plan.heaters[name].yields > 1.0
                sort = "compressor" if pumped else _OF_KIND[kind]
                yield Thing(OnCircuit(kind, name), sort, _power(plan, kind, name), count)


def _power(plan: Plan, kind: ApparatusKind, name: str) -> float | None:
    """Electric power of one entry."""
    if kind == "heater":
        heater = plan.heaters[name]
        return heater.count * heater.power / heater.yields
    if kind == "chiller":
        return plan.chillers[name].draws
    power: float | None = getattr(plan, ON_TABLES[kind])[name].power
    return power


def _pumps(plan: Plan, flow: FlowFacts | None) -> Iterator[Thing]:
    """A pump at its speed. One that runs slower than full has electronics before it."""
    watts = {} if flow is None else {pump.name: pump.power for pump in flow.pumps}
    for name, pump in plan.pumps.items():
        sort = "motor" if pump.speed == 1.0 else "drive"
        yield Thing(OnCircuit("pump", name), sort, watts.get(name) or pump.power)


def _devices(plan: Plan) -> Iterator[Thing]:
    for name, device in plan.devices.items():
        yield Thing(OnCircuit("device", name), device.kind, device.power, factor=device.power_factor)
