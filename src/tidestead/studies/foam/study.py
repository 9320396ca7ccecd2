"""Will the fractionator earn its place? Bubbles, dwell, flooding, neck, clean-up time."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tidestead.catalog import table
from tidestead.core.answer import Answer, Estimate
from tidestead.core.dims import G
from tidestead.core.kept import kept
from tidestead.physics.flow.suction import air_pressure
from tidestead.physics.foam import columns, diffusers, froth, removal, towers
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import ColumnState
from tidestead.physics.surface_tension import surface_tension
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.outline import KEPT, Same, key_of, outline
from tidestead.studies.foam.facts import BLOWER, EFFICIENCIES, USUAL, FoamFacts, TowerFoam, Way
from tidestead.studies.foam.gas import gas_facts
from tidestead.studies.foam.told import tell
from tidestead.studies.foam.way import clear_level, diffuser_height, lift_of, way_of
from tidestead.studies.inputs import Inputs
from tidestead.studies.vessels import plan_area

REMOVED = (0.90, 0.99, 0.9999)
_HAIR = 1e-6
"""Metres that do not count."""


def find(inputs: Inputs, flow: FlowFacts) -> FoamFacts:
    """Every vessel whose role is fractionator, with the water that the flow study sends through it."""
    return _found(outline(inputs.plan), flow)


@kept(at_most=KEPT, by=lambda plan, flow: (key_of(plan), Same(flow)))
def _found(plan: Plan, flow: FlowFacts) -> FoamFacts:
    found: list[TowerFoam] = []
    missing: list[tuple[str, str]] = []
    water = flow.water
    properties = WaterProperties(
        water.density, water.dynamic_viscosity, float(surface_tension(water.sal_gkg, water.temp_c))
    )
    pressure = float(air_pressure(plan.site.elevation or 0.0))
    for key, vessel in plan.vessels.items():
        if vessel.role != "fractionator":
            continue
        placed = _missing(key, vessel, flow) or _placed(key, vessel, flow)
        if isinstance(placed, str):
            missing.append((key, placed))
        else:
            found.append(_tower(key, vessel, flow, _Around(properties, pressure), placed))
    gas = gas_facts(plan, flow, found, water.kinematic_viscosity)
    return FoamFacts(tuple(found), tuple(missing), water.sal_gkg, water.sal_psu, water.density, gas)


def _missing(key: str, vessel: Vessel, flow: FlowFacts) -> str:
    """What must be known before anything can be said; empty where all is."""
    if not flow.solved:
        return "the flow is not known: " + (flow.missing[0] if flow.missing else "no circuit")
    if flow.inflow.get(key, 0.0) <= 0.0:
        return f"no circuit sends water to it: end one at a port of vessels.{key}"
    if not flow.over(lambda running: running.inflow.get(key, 0.0)).finite:
        return "the flow at the ends of its range was not found"
    if vessel.air is None or not vessel.air.flow:
        return f"say how much air it gets: vessels.{key}.air.flow"
    if vessel.across is None and (vessel.length is None or vessel.width is None):
        return f"say how wide it is: vessels.{key}.across"
    return ""


@dataclass(frozen=True)
class _Bubbling:
    """A column with its air: where air and water meet, and what bubbles there are to think of."""

    column: columns.Column
    air_flow: float
    way: Way
    properties: WaterProperties

    def state(self, flow: float, size: float) -> ColumnState:
        """Of one bubble size at one flow. Water counts for the dwell only where it meets bubbles.

        Water that rises with the bubbles crowds them less than still water does: they are judged as in still water.
        """
        against = 0.0 if self.way.rises else flow
        state = columns.column_state(self.column, against, self.air_flow, size, self.properties)
        area = self.column.area
        met = (
            None
            if state.holdup is None
            else float(columns.water_dwell(area * self.way.met, state.holdup, flow))
        )
        ratio = self.air_flow / flow if flow > 0.0 else float("inf")
        return replace(state, water_speed=flow / area, air_to_water=ratio, water_dwell=met)


def _placed(key: str, vessel: Vessel, flow: FlowFacts) -> Way | str:
    """The water's way and the diffuser's place; or why nothing can be said."""
    clear = clear_level(key, vessel, flow)
    hung = diffuser_height(vessel, clear.likely)
    if hung < -_HAIR:
        return f"its diffuser would lie under its floor: vessels.{key}.air.depth is more than its water"
    if clear.low <= hung:
        return f"its diffuser stands out of the water: raise the water, or vessels.{key}.air.depth"
    way = way_of(key, vessel, flow, clear.likely, hung)
    return way if way is not None else f"no port of vessels.{key} lets water out: start a circuit at one"


@dataclass(frozen=True)
class _Around:
    """The water, and the pressure of the air of the place in Pa."""

    properties: WaterProperties
    air_pressure: float


def _tower(key: str, vessel: Vessel, flow: FlowFacts, around: _Around, way: Way) -> TowerFoam:
    air, properties = vessel.air, around.properties
    air_flow = (air.flow if air is not None else None) or 0.0
    size = air.bubble if air is not None else None
    level = clear_level(key, vessel, flow).likely
    area, depth = plan_area(vessel), level - way.heights.diffuser
    bubbling = _Bubbling(columns.Column(area, depth), air_flow, way, properties)
    through = flow.over(lambda running: running.inflow.get(key, 0.0))
    states, (best, likely, worst) = _states(bubbling, through, size)
    loss = ((air.loss if air is not None else None) or 0.0) * properties.density * G
    pressure = float(diffusers.diffuser_pressure(depth, properties.density, loss))
    volume, system = float(towers.column_volume(area, level)), flow.volume_with(key)
    moved = sum(max(pump.flow, 0.0) for pump in flow.pumps)
    neck_area = float(towers.round_area(vessel.cone.neck)) if vessel.cone is not None else None
    caught = _caught(size)
    return TowerFoam(
        key=key,
        properties=properties,
        area=area,
        width=vessel.across or min(vessel.length or 0.0, vessel.width or 0.0),
        neck_area=neck_area,
        slope=_slope(vessel),
        depth=depth,
        volume=volume,
        system=system,
        share_of_system=float(towers.share_of_system(volume, system)),
        flow=through,
        air_flow=air_flow,
        air_pressure=pressure,
        air_loss=loss,
        air_power=float(diffusers.air_power(air_flow, pressure, BLOWER, around.air_pressure)),
        columns=states,
        best=best,
        worst=worst,
        necks=_necks(neck_area, air_flow, properties),
        of_pumps=through.likely / moved if moved > 0.0 else None,
        efficiencies=caught,
        times=_times(through.likely, system, caught),
        bubble=size,
        way=way,
        lift=lift_of(key, vessel, flow, way, (best, likely, worst)),
    )


def _states(
    bubbling: _Bubbling, through: Estimate, size: float | None
) -> tuple[tuple[ColumnState, ...], tuple[ColumnState, ColumnState, ColumnState]]:
    """Every bubble shown at the likely flow; then the best, the likely and the worst that may be."""
    known = (size,) if size is not None else ()
    shown = sorted({*table("foam_limits")["bubbles"].several("diameters"), *known})
    states = tuple(bubbling.state(through.likely, one) for one in shown)
    least, most = (size, size) if size is not None else (shown[0], shown[-1])
    likely = min(states, key=lambda one: abs(one.bubble - (size or USUAL)))
    best, worst = bubbling.state(max(through.low, 0.0), most), bubbling.state(through.high, least)
    return states, (best, likely, worst)


def _caught(bubble: float | None) -> tuple[float, ...]:
    """Shares that a pass may take: larger bubbles than the usual make less surface of the same air."""
    size = bubble if bubble is not None else USUAL
    return tuple(float(removal.efficiency_by_surface(one, USUAL, size)) for one in EFFICIENCIES)


def _times(flow: float, system: float, caught: tuple[float, ...]) -> tuple[tuple[float, ...], ...]:
    streams = [removal.SideStream(flow, system, one) for one in caught]
    return tuple(
        (share, *(float(removal.removal_time(stream, share)) for stream in streams)) for share in REMOVED
    )


def _necks(area: float | None, air_flow: float, properties: WaterProperties) -> tuple[froth.NeckState, ...]:
    if area is None:
        return ()
    row = table("foam_limits")["neck"]
    dry = row.si("liquid_dry")
    return tuple(
        froth.neck_state(area, air_flow, size, properties, dry) for size in row.several("foam_diameters")
    )


def _slope(vessel: Vessel) -> float | None:
    if vessel.cone is None or vessel.across is None:
        return None
    return float(towers.cone_slope(vessel.across / 2.0, vessel.cone.neck / 2.0, vessel.cone.height))


def judge(inputs: Inputs, facts: FoamFacts) -> Answer:
    """Every check, the sentence, tables, the drawing and cautions."""
    return _judged(Inputs(outline(inputs.plan), inputs.system), facts)


@kept(at_most=KEPT, by=lambda inputs, facts: (key_of(inputs.plan), inputs.system, Same(facts)))
def _judged(inputs: Inputs, facts: FoamFacts) -> Answer:
    return tell(inputs, facts)
