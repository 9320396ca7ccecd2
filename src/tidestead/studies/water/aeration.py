"""How oxygen comes in while the pumps run: open water, air pumps, the fractionator, water that falls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.physics import oxygen
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import FoamFacts, GasGain
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import HOUR, three
from tidestead.studies.water.stock_facts import Exchange

COVERED = 0.9
"""Share of the exchange that a cover takes. Source: the row of still water; common practice."""

TOWER_AIR = "air of the fractionator"
FALL = "fall over"
"""How the words of two ways begin."""


@dataclass(frozen=True)
class Air:
    """Oxygen the warmest water kept holds at rest, g/m3; that water, degC; pressure of the air, Pa."""

    saturation: float
    warm_c: float
    pressure: float


def exchanges_of(
    plan: Plan, setting: Setting, flow: FlowFacts, foam: FoamFacts, air: Air
) -> tuple[Exchange, ...]:
    """Every way, as water brought to saturation in an hour."""
    return (
        *_surfaces(plan, setting),
        *_towers(setting, foam),
        *_air_pumps(plan, setting, air),
        *_falls(setting, flow),
    )


def _surfaces(plan: Plan, setting: Setting) -> Iterator[Exchange]:
    """Open water of the display and the sump; at the low end a cover is on it."""
    speeds = three(table("oxygen")["stirred-surface"], "speed", HOUR)
    for key, area in setting.surfaces.items():
        if plan.vessels[key].role not in ("display", "sump") or area <= 0.0:
            continue
        covered = min(sum(cover.share for cover in plan.covers.values() if cover.over == key), 1.0)
        clears = speeds.times(area, "stirred water; the low end with its covers on")
        low = clears.low * (1.0 - COVERED * covered)
        how = "surface that jets break" + (", under its cover at the low end" if covered else "")
        yield Exchange(key, how, Estimate(low, clears.likely, clears.high, clears.basis))


def _towers(setting: Setting, foam: FoamFacts) -> Iterator[Exchange]:
    """A tower brings back no more water than passes it."""
    gas = foam.gas
    towers = {tower.key: tower for tower in foam.towers if tower.key in setting.volumes}
    for gain in gas.gains:
        tower = towers.get(gain.where)
        if tower is None or gain.how != TOWER_AIR or gas.warm <= gas.danger:
            continue
        flows = (HOUR * tower.flow.low, HOUR * tower.flow.likely, HOUR * tower.flow.high)
        low, likely, high = (
            passed(part / (gas.warm - gas.danger), moved)
            for part, moved in zip(_gains(gain), flows, strict=True)
        )
        yield Exchange(tower.key, f"{TOWER_AIR}, by the water that passes it",
                       Estimate(low, likely, high, "diffusers and bubbles; flow with its range"))  # fmt: skip


def passed(clears: float, flow: float) -> float:
    """What a mixed vessel on the circuit frees of the whole: its own exchange and its flow, one after the other."""
    return clears * flow / (clears + flow) if clears + flow > 0.0 else 0.0


def _gains(gain: GasGain) -> tuple[float, float, float]:
    return gain.low, gain.likely, gain.high


def _air_pumps(plan: Plan, setting: Setting, air: Air) -> Iterator[Exchange]:
    """Stones and drilled pipes that run on the mains or go on beside them."""
    for key, pump in plan.airpumps.items():
        if pump.vessel not in setting.volumes:
            continue
        grams = stone_oxygen(Stone(pump.flow, pump.depth, pump.bubbles), air.warm_c, air.pressure)
        yield Exchange(pump.vessel, f"air pump {key}", grams.times(1.0 / air.saturation, grams.basis))


@dataclass(frozen=True)
class Stone:
    """Air, m3/s, from stones so deep under water, m, in fine or coarse bubbles."""

    flow: float
    depth: float
    bubbles: str


def stone_oxygen(stone: Stone, temp_c: float, pressure: float) -> Estimate:
    """Oxygen that air gives to water without any, g/h, by the catalogue's share for each metre of depth."""
    row = table("oxygen")[f"{stone.bubbles}-diffuser"]
    low, likely, high = (
        float(oxygen.air_gain(stone.flow, temp_c, 1.0 - (1.0 - row.si(name)) ** stone.depth, 0.0, pressure))
        for name in ("share_low", "share", "share_high")
    )
    return Estimate(low, likely, high, row.title)


def _falls(setting: Setting, flow: FlowFacts) -> Iterator[Exchange]:
    """Water over edges: a share of what it lacks is made good on the way down."""
    shares = three(table("oxygen")["falling-water"], "share", HOUR)
    for one in flow.overflows:
        if one.vessel in setting.volumes and one.flow > 0.0:
            yield Exchange(one.vessel, f"{FALL} {one.port}", shares.times(one.flow, shares.basis))
