"""Oxygen: what the water can hold, and what surfaces and bubbles bring in when it runs short."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Step, Working
from tidestead.core.source import Known, Source
from tidestead.core.units import System
from tidestead.physics import oxygen
from tidestead.physics.flow.suction import air_pressure
from tidestead.physics.foam.bubbles import WaterProperties, rise_speed
from tidestead.physics.foam.diffusers import ATMOSPHERE
from tidestead.physics.surface_tension import surface_tension
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import USUAL, FoamFacts, GasFacts, GasGain, TowerFoam
from tidestead.studies.judged import step
from tidestead.studies.vessels import FALLBACK_C, plan_area

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
    pressure = float(air_pressure(plan.site.elevation or 0.0))
    held = float(oxygen.held_mass(psu, warm, pressure))
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
            each = [3600.0 * speed * area * (held - danger) for speed in speeds]
            low, likely, high = min(each), each[1], max(each)
            gains.append(GasGain(key, how, low, likely, high, area, speeds[1]))
    for tower in towers:
        gains.append(_bubbles(tower, flow, Medium(psu, warm, viscosity, pressure), danger / held))
    fish = {system: float(oxygen.fish_uptake(*shoal, warm)) for system, shoal in SHOALS.items()}
    cold = float(oxygen.held_mass(psu, cool, pressure))
    return GasFacts(cold, held, danger, tuple(gains), fish, pressure, (cool, warm))


@dataclass(frozen=True)
class Medium:
    """Water and air that bubbles pass: salinity, degC, kinematic viscosity in m2/s, pressure of the air in Pa."""

    psu: float
    temp_c: float
    viscosity: float
    air_pressure: float


def _bubbles(tower: TowerFoam, flow: FlowFacts, medium: Medium, filled: float) -> GasGain:
    """What the tower's air gives: by bubbles of the size known or usual as the upper bound, by diffusers as low."""
    psu, temp_c, viscosity = medium.psu, medium.temp_c, medium.viscosity
    size = tower.bubble if tower.bubble is not None else USUAL
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
    gains = sorted(
        float(oxygen.air_gain(tower.air_flow, temp_c, share, filled, medium.air_pressure)) for share in shares
    )
    return GasGain(tower.key, "air of the fractionator", gains[0], gains[1], gains[2])


_FIT = (
    "C0 = 1.42905*exp(2.00907 + 3.22014*Ts + 4.05010*Ts**2 + 4.94457*Ts**3 - 0.256847*Ts**4 + 3.88767*Ts**5 "
    "- S*(6.24523e-3 + 7.37614e-3*Ts + 1.03410e-2*Ts**2 + 8.17083e-3*Ts**3) - 4.88682e-7*S**2)"
)

_HELD = Source(
    "H. Garcia and L. Gordon (1992)", "equation 8; Henry's law for other pressures of the air", Known.READ
)
_AIR = Source("U.S. Standard Atmosphere (1976)", known=Known.QUOTED)
_FLUX = Source("flux through a surface", "speed of exchange times what is missing", Known.COMPUTED)


def held_steps(facts: FoamFacts) -> tuple[Step, ...]:
    """Oxygen that the water holds at the warmest kept, in the air of the place."""
    gas, (_, warm) = facts.gas, facts.gas.temps
    at_sea = float(oxygen.saturation_mass(facts.sal_psu, warm))
    vapour = float(oxygen.vapour_pressure(facts.sal_psu, warm))
    scaled = math.log((298.15 - warm) / (273.15 + warm))
    return (
        step(
            "Ts",
            "scaled warmth of the water",
            "Ts = ln((298.15 - T)/(273.15 + T))",
            (given("T", warm, "degC"),),
            (scaled, "1"),
            _HELD,
        ),
        step(
            "C0",
            "oxygen that water at rest under moist air of standard pressure holds",
            _FIT,
            (given("Ts", scaled, "1"), given("S", facts.sal_psu, "psu")),
            (at_sea, "g/m3"),
            _HELD,
        ),
        step(
            "C",
            "the same in the air of the place, p0; pv is the vapour in it, ps standard pressure",
            "C = C0*(p0 - pv)/(ps - pv)",
            (
                given("C0", at_sea, "g/m3"),
                given("p0", gas.air_pressure, "Pa", "air"),
                given("pv", vapour, "Pa", "air"),
                given("ps", ATMOSPHERE, "Pa", "air"),
            ),
            (gas.warm, "g/m3"),
            _HELD,
        ),
    )


def gas_working(facts: FoamFacts) -> Working:
    """What open water takes in at the level of danger."""
    gas, steps = facts.gas, []
    for gain in gas.gains:
        if gain.area > 0.0:
            numbers = (
                given("k", gain.speed, "m/s"),
                given("A", gain.area, "m2"),
                given("C", gas.warm, "g/m3"),
                given("C_low", gas.danger, "g/m3"),
            )
            meaning = f"oxygen that comes into {gain.where}, {gain.how}, k likely"
            steps.append(step("G", meaning, "G = k*A*(C - C_low)", numbers, (gain.likely, "g/h"), _FLUX))
    return Working("oxygen: what open water takes in", tuple(steps))
