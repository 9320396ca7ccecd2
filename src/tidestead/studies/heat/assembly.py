"""The plan put together as one system for the year of heat, as it stands or with some dials turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, SunPath
from tidestead.physics.heat import cooling, evaporation
from tidestead.physics.heat.system import Body, Link, Room, Shade, System, Thermostat, Vents, Wall
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.machines import Given, given_by, heatings_of, lamp_hours
from tidestead.studies.heat.shell import floor_of, walls_of, windows_of
from tidestead.studies.heat.waters import Water, joined_sides, waters_of
from tidestead.studies.house import House
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.vessels import display_of

MIXED_WITHIN = 0.5
"""Kelvin between two vessels below which they count as one body of water. Own choice."""

_COLDEST_STORE = 4.0e6
"""J/(m3 K) of seawater, a little less than it stores (4.09e6): streams are not overrated. Own choice."""
_EXPOSED, _OPEN = 0.5, 0.7
"""Wind at a house and over open water as a share of that at 10 m. Common practice, no source."""

_VENTS_OVER = 4.0
"""Kelvin over which vents open all the way, where nobody said. Common practice, no source."""


@dataclass(frozen=True, eq=False)
class Basis:
    """All that a system is made of, worked out once. `groups` are keys of vessels that count as one body each.

    `apart` is how far vessels would differ with all heaters on, K; None where the flow is not known. `left_out` are
    vessels with seawater that no line joins to the display.
    """

    plan: Plan
    house: House
    flow: FlowFacts
    light: LightFacts
    sun: SunPath
    waters: tuple[Water, ...]
    groups: tuple[tuple[str, ...], ...]
    given: tuple[Given, ...]
    sal_psu: float
    temp_c: float
    apart: float | None
    left_out: tuple[str, ...]

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(water.key for water in self.waters)

    def members(self, group: Sequence[str]) -> list[Water]:
        """The vessels of one body."""
        return [water for water in self.waters if water.key in group]

    @property
    def heater_power(self) -> float:
        """All heaters of vessels that are known, W."""
        known = self.keys
        return sum(one.power * one.count for one in self.plan.heaters.values() if one.vessel in known)


def basis_of(plan: Plan, house: House, flow: FlowFacts, light: LightFacts, sun: SunPath) -> Basis:
    """Vessels, machines and how well the water is mixed."""
    floor_heat = {key: found.likely for key, found in light.floor_heat.items()}
    held = waters_of(plan, house, flow, sun, floor_heat)
    joined = _joined(plan, [water.key for water in held], flow)
    waters = tuple(water for water in held if water.key in joined)
    temp_c = sum(plan.water.keep) / 2.0 if plan.water.keep is not None else flow.water.temp_c
    apart = _apart(plan, joined, flow)
    return Basis(
        plan, house, flow, light, sun, waters, _groups(plan, joined, apart), given_by(plan, flow),
        flow.water.sal_psu, temp_c, apart, tuple(water.key for water in held if water.key not in joined),
    )  # fmt: skip


def _joined(plan: Plan, keys: Sequence[str], flow: FlowFacts) -> list[str]:
    """Vessels whose water goes round with the display's, that first; all of them where the flow is not known."""
    display = display_of(plan)
    if display not in keys:
        return list(keys)
    group = next((one for one in flow.groups if display in one), frozenset((display,)))
    return [display, *(key for key in keys if key != display and (flow.missing or key in group))]


def _apart(plan: Plan, joined: Sequence[str], flow: FlowFacts) -> float | None:
    """By how much the display differs from where the heaters are, with all of them on."""
    display = display_of(plan)
    stream = flow.inflow.get(display, 0.0) if display else 0.0
    if stream <= 0.0:
        return None
    power = sum(
        one.power * one.count
        for one in plan.heaters.values()
        if one.vessel in joined and one.vessel != display
    )
    return power / (stream * _COLDEST_STORE)


def _groups(plan: Plan, joined: Sequence[str], apart: float | None) -> tuple[tuple[str, ...], ...]:
    """Vessels that lines join are one body where the stream evens them out; the display comes first."""
    if not joined:
        return ()
    if apart is None or apart <= MIXED_WITHIN or joined[0] != display_of(plan) or len(joined) == 1:
        return (tuple(joined),)
    return (joined[0],), tuple(joined[1:])


def assemble(basis: Basis, dials: Dials = AS_PLANNED) -> System:
    """The system of a plan with dials turned."""
    bodies = [_body(basis, group, dials) for group in basis.groups]
    body_of = {key: number for number, group in enumerate(basis.groups) for key in group}
    links: tuple[Link, ...] = ()
    if len(bodies) > 1:
        stream = basis.flow.inflow.get(basis.groups[0][0], 0.0)
        links = (Link(0, 1, stream * _COLDEST_STORE),)
    open_air = basis.house.open
    return System(
        None if open_air else _room(basis, dials),
        () if open_air else (*walls_of(basis.house), *_floor(basis, dials)),
        () if open_air else windows_of(basis.house, dials),
        tuple(bodies),
        tuple(heatings_of(basis.plan, body_of, dials)),
        links,
        exposure=(_OPEN if open_air else _EXPOSED) * dials.wind,
    )


def _floor(basis: Basis, dials: Dials) -> tuple[Wall, ...]:
    covered = sum(
        water.footprint for water in basis.waters if basis.plan.vessels[water.key].stands_on.kind != "joists"
    )
    return floor_of(basis.plan, basis.house, covered, dials)


def _body(basis: Basis, group: Sequence[str], dials: Dials) -> Body:
    waters = basis.members(group)
    surface = sum(water.surface for water in waters)
    first = group[0] == basis.groups[0][0]
    lamps, _ = lamp_hours(basis.light, tuple(group))
    gains = sum(one.water for one in basis.given) if first else 0.0
    speed, above = _fan(basis.plan, group, dials)
    volume = sum(water.volume for water in waters) * dials.volume
    return Body(
        group[0],
        float(cooling.water_capacity(volume, basis.sal_psu, basis.temp_c)),
        surface,
        joined_sides(waters, dials),
        float(evaporation.water_activity(basis.sal_psu, basis.temp_c)),
        _mean([water.sun_beam for water in waters], waters),
        sum(water.sun_diffuse * water.surface for water in waters) / surface,
        _cover(waters, dials, basis.sun),
        max((water.passes for water in waters), default=0.0),
        table("heat_limits")["silent"].si("cover_resistance"),
        lamps * dials.machines,
        gains * dials.machines,
        speed,
        above,
        evaporates=dials.evaporation,
    )


def _mean(hours: Sequence[Array], waters: Sequence[Water]) -> Array:
    """Mean over the open surfaces."""
    surface = sum(water.surface for water in waters)
    whole = np.zeros(HOURS)
    for values, water in zip(hours, waters, strict=True):
        whole = whole + values * (water.surface / surface)
    return whole


def _cover(waters: Sequence[Water], dials: Dials, sun: SunPath) -> Array:
    """Covered share of all surfaces together; a cover that is tried lies on the largest of them."""
    largest = max(waters, key=lambda water: water.surface)
    tried = np.where(sun.up > 0.0, dials.cover, max(dials.cover, dials.night_cover))
    hours = [np.maximum(water.cover, tried) if water is largest else water.cover for water in waters]
    return _mean(hours, waters)


def _fan(plan: Plan, group: Sequence[str], dials: Dials) -> tuple[float, float]:
    """Speed of the air that fans blow over a body, and above which temperature of it."""
    fans = [fan for fan in plan.fans.values() if fan.over in group]
    speed = max((fan.speed for fan in fans), default=0.0)
    above = min((fan.above for fan in fans), default=100.0)
    if dials.fan > speed:
        return dials.fan, (plan.water.keep[1] if plan.water.keep is not None else 27.0) - 1.0
    return speed, above


def _room(basis: Basis, dials: Dials) -> Room:
    building = basis.plan.building
    volume = max(basis.house.volume - sum(water.volume for water in basis.waters), 1.0)
    silent = table("heat_limits")["silent"].si("infiltration")
    cracks = silent if building.infiltration is None else building.infiltration
    _, lamps = lamp_hours(basis.light, basis.keys)
    return Room(
        volume,
        cracks * dials.draughts,
        _vents(basis.plan) if dials.vents else None,
        _shade(basis.plan) if dials.shade else None,
        _thermostat(basis.plan),
        sum(one.air for one in basis.given) * dials.machines,
        lamps=lamps * dials.machines,
    )


def _vents(plan: Plan) -> Vents | None:
    vents = plan.building.vents
    if vents is None:
        return None
    over = _VENTS_OVER if vents.opens_over is None else vents.opens_over
    if vents.rate is not None:
        return Vents(vents.opens_at, over, rate=vents.rate, powered=vents.fan is not None)
    if vents.area is None:
        return None
    return Vents(vents.opens_at, over, area=vents.area, height=_rise(plan))


def _rise(plan: Plan) -> float:
    """Height between low and high openings: as said, else from a third of the eaves to the ridge."""
    vents, building = plan.building.vents, plan.building
    if vents is not None and vents.height is not None:
        return vents.height
    return max((building.ridge or 2.5) - (building.eaves or 2.0) / 3.0, 0.3)


def _shade(plan: Plan) -> Shade | None:
    shade = plan.building.shade
    if shade is None:
        return None
    drawn = np.isin(MONTH_OF_HOUR, shade.months).astype(float) if shade.months else None
    warms = table("heat_limits")["silent"].si("shade_warms") if shade.hangs == "inside" else 0.0
    return Shade(shade.share, shade.above, shade.by == "water", drawn, warms)


def _thermostat(plan: Plan) -> Thermostat:
    heater = plan.building.air_heater
    if heater is None:
        return Thermostat()
    return Thermostat(heater.to, float("inf") if heater.power is None else heater.power)
