"""Oxygen: what the water can hold, and what surfaces and bubbles bring in when it runs short."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tidestead.catalog import table
from tidestead.core.source import Source
from tidestead.core.units import System
from tidestead.physics import oxygen
from tidestead.physics.foam.bubbles import WaterProperties, rise_speed
from tidestead.physics.surface_tension import surface_tension
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import GasFacts, GasGain, TowerFoam
from tidestead.studies.vessels import FALLBACK_C, plan_area

_USUAL = 0.8e-3
"""Diameter of a bubble in a fractionator where the plan is silent. Common practice, no source."""

SHOALS: Mapping[System, tuple[float, float]] = {"metric": (0.1, 1.0), "us": (0.11339809250, 0.45359237)}
"""Weight of a fish and of all of them, by which uptake is told, kg: 1 kg of 100 g each; 1 lb of a quarter pound."""


def exchange_sources() -> tuple[Source, ...]:
    """Where the speeds of exchange at a still surface come from."""
    row = table("oxygen")["still-surface"]
    return tuple(row.figure(name).source for name in ("speed_low", "speed", "speed_high"))


def gas_facts(plan: Plan, flow: FlowFacts, towers: Sequence[TowerFoam], viscosity: float) -> GasFacts:
    """Saturation at both ends of the temperatures kept, and gains at the level of danger."""
    cool, warm = plan.water.keep or (FALLBACK_C, FALLBACK_C)
    psu = flow.water.sal_psu
    held = float(oxygen.saturation_mass(psu, warm))
    rows = table("oxygen")
    danger = 1000.0 * rows["danger"].si("level")  # g/m3, as saturation is
    gains: list[GasGain] = []
    for key, vessel in plan.vessels.items():
        if vessel.holds != "seawater" or vessel.role not in ("display", "sump"):
            continue
        for name, how in (
            ("still-surface", "surface left still"),
            ("stirred-surface", "surface broken by a jet"),
        ):
            row, area = rows[name], plan_area(vessel)
            speeds = (row.si("speed_low"), row.si("speed"), row.si("speed_high"))
            low, likely, high = (3600.0 * speed * area * (held - danger) for speed in speeds)
            gains.append(GasGain(key, how, low, likely, high))
    for tower in towers:
        gains.append(_bubbles(tower, flow, (psu, warm), viscosity, danger / held))
    fish = {system: float(oxygen.fish_uptake(*shoal, warm)) for system, shoal in SHOALS.items()}
    return GasFacts(float(oxygen.saturation_mass(psu, cool)), held, danger, tuple(gains), fish)


def _bubbles(
    tower: TowerFoam, flow: FlowFacts, water: tuple[float, float], viscosity: float, filled: float
) -> GasGain:
    """What the tower's air gives: by bubbles of the size known or usual as the upper bound, by diffusers as low."""
    psu, temp_c = water
    size = tower.bubble if tower.bubble is not None else _USUAL
    properties = WaterProperties(
        flow.water.density, flow.water.dynamic_viscosity, float(surface_tension(flow.water.sal_gkg, temp_c))
    )
    bubble = oxygen.Bubble(size, float(rise_speed(size, properties)))
    gas = oxygen.GasWater(
        viscosity,
        float(oxygen.diffusivity(viscosity, temp_c)),
        float(oxygen.ostwald_coefficient(psu, temp_c)),
    )
    most = float(oxygen.bubble_share(bubble, gas, tower.depth))
    row = table("oxygen")["fine-diffuser"]
    low, likely = (1.0 - (1.0 - row.si(name)) ** tower.depth for name in ("share_low", "share"))
    shares = sorted((low, likely, max(most, likely)))
    gains = [float(oxygen.air_gain(tower.air_flow, temp_c, share, filled)) for share in shares]
    return GasGain(tower.key, "air of the fractionator", gains[0], gains[1], gains[2])
