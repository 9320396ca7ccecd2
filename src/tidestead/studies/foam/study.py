"""Will the fractionator earn its place? Bubbles, dwell, flooding, neck, clean-up time."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.answer import Answer
from tidestead.core.dims import G
from tidestead.physics.foam import columns, diffusers, froth, removal, towers
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.surface_tension import surface_tension
from tidestead.plan.model import Vessel
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import floor_of
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.foam.gas import gas_facts
from tidestead.studies.foam.told import tell
from tidestead.studies.inputs import Inputs
from tidestead.studies.vessels import plan_area

REMOVED = (0.90, 0.99, 0.9999)
EFFICIENCIES = (1.0, 0.5, 0.25)
"""Shares of what can be skimmed that one pass takes: the flattering case, the likely one and a poor one, where nobody
has measured it. Common practice, no source."""

BLOWER = 0.3
"""Efficiency of a small air pump. Common practice, no source."""


def find(inputs: Inputs, flow: FlowFacts) -> FoamFacts:
    """Every vessel whose role is fractionator, with the water that the flow study sends through it."""
    found: list[TowerFoam] = []
    missing: list[tuple[str, str]] = []
    water = flow.water
    properties = WaterProperties(
        water.density, water.dynamic_viscosity, float(surface_tension(water.sal_gkg, water.temp_c))
    )
    for key, vessel in inputs.plan.vessels.items():
        if vessel.role != "fractionator":
            continue
        why = _missing(key, vessel, flow)
        if why:
            missing.append((key, why))
        else:
            found.append(_tower(key, vessel, flow, properties))
    gas = gas_facts(inputs.plan, flow, found, water.kinematic_viscosity)
    return FoamFacts(tuple(found), tuple(missing), water.sal_gkg, water.density, gas)


def _missing(key: str, vessel: Vessel, flow: FlowFacts) -> str:
    """What must be known before anything can be said; empty where all is."""
    if not flow.solved:
        return "the flow is not known: " + (flow.missing[0] if flow.missing else "no circuit")
    if flow.inflow.get(key, 0.0) <= 0.0:
        return f"no circuit sends water to it: end one at a port of vessels.{key}"
    if vessel.air is None or vessel.air.flow is None:
        return f"say how much air it gets: vessels.{key}.air.flow"
    if vessel.across is None and (vessel.length is None or vessel.width is None):
        return f"say how wide it is: vessels.{key}.across"
    return ""


def _tower(key: str, vessel: Vessel, flow: FlowFacts, properties: WaterProperties) -> TowerFoam:
    air = vessel.air
    air_flow = air.flow if air is not None and air.flow is not None else 0.0
    area, floor = plan_area(vessel), floor_of(vessel)
    level = flow.levels.get(key, floor + (vessel.water or 0.0)) - floor
    depth = air.depth if air is not None and air.depth is not None else level
    water_flow = flow.inflow[key]
    column = columns.Column(area, depth)
    loss = (air.loss or 0.0) * properties.density * G if air is not None else 0.0
    pressure = float(diffusers.diffuser_pressure(depth, properties.density, loss))
    bubbles = (air.bubble,) if air is not None and air.bubble is not None else ()
    sizes = sorted({*table("foam_limits")["bubbles"].several("diameters"), *bubbles})
    volume = float(towers.column_volume(area, level))
    moved = sum(max(pump.flow, 0.0) for pump in flow.pumps)
    neck_area = float(towers.round_area(vessel.cone.neck)) if vessel.cone is not None else None
    row = table("foam_limits")["neck"]
    return TowerFoam(
        key,
        area,
        neck_area,
        _slope(vessel),
        depth,
        volume,
        float(towers.share_of_system(volume, flow.system_volume)),
        water_flow,
        air_flow,
        pressure,
        float(diffusers.air_power(air_flow, pressure, BLOWER)),
        tuple(columns.column_state(column, water_flow, air_flow, size, properties) for size in sizes),
        _necks(neck_area, air_flow, properties, row.several("foam_diameters"), row.si("liquid_dry")),
        water_flow * 3600.0 / flow.system_volume,
        water_flow / moved if moved > 0.0 else None,
        tuple(
            (
                share,
                *(
                    float(
                        removal.removal_time(removal.SideStream(water_flow, flow.system_volume, one), share)
                    )
                    for one in EFFICIENCIES
                ),
            )
            for share in REMOVED
        ),
        air.bubble if air is not None else None,
        level,
    )


def _necks(
    area: float | None, air_flow: float, properties: WaterProperties, sizes: tuple[float, ...], dry: float
) -> tuple[froth.NeckState, ...]:
    if area is None:
        return ()
    return tuple(froth.neck_state(area, air_flow, size, properties, dry) for size in sizes)


def _slope(vessel: Vessel) -> float | None:
    if vessel.cone is None or vessel.across is None:
        return None
    return float(towers.cone_slope(vessel.across / 2.0, vessel.cone.neck / 2.0, vessel.cone.height))


def judge(inputs: Inputs, facts: FoamFacts) -> Answer:
    """Every check, the sentence, tables, the drawing and cautions."""
    return tell(inputs, facts)
