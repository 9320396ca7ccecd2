"""Where a pump runs: its point in a solved network, and the curve of the system it works against."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tidestead.core.dims import CubicMetrePerSecond, Metre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.laws import Link, SeriesLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw, beyond_curve, pump_head


@dataclass(frozen=True)
class OperatingPoint:
    """A pump's flow and the head it gives; whether that lies outside its curve, where the head is a guess."""

    flow: CubicMetrePerSecond
    head: Metre
    beyond: bool


@dataclass(frozen=True)
class SystemPoint:
    """A flow, and the head the system asks of a pump that drives it."""

    flow: CubicMetrePerSecond
    head: Metre


def operating_point(pump: Link, state: NetworkState) -> OperatingPoint:
    """Flow and head of a pump in a solved network.

        H = h(Q)     h: the pump's curve, Q: its flow in the network

    Source: definition; the flow by `solve_network`.
    Valid:  a link that is a pump, or a pump in a row with others; as the pump's curve.
    """
    law = _pump_in(pump)
    flow = state.flows[pump.name]
    return OperatingPoint(flow, pump_head(law, flow), beyond_curve(law, flow))


def _pump_in(link: Link) -> PumpLaw | PowerPumpLaw:
    parts = link.through.parts if isinstance(link.through, SeriesLaw) else (link.through,)
    found = [part for part in parts if isinstance(part, PumpLaw | PowerPumpLaw)]
    if len(found) != 1:
        raise ImpossibleInput(f"{link.name} holds {len(found)} pumps; one is meant")
    return found[0]


def system_curve(
    links: Sequence[Link],
    fixed: Mapping[str, Metre],
    injections: Mapping[str, CubicMetrePerSecond],
    pump: str,
    flows: Sequence[CubicMetrePerSecond],
) -> tuple[SystemPoint, ...]:
    """Head that the rest of a network asks of one pump at each flow.

        H(Q) = head at its outlet - head at its inlet, with Q drawn at the one and let in at the other

    Other pumps run on. The pump's curve crosses this one where it runs.

    Raises as `solve_network`; SolverError too where the network cannot take a flow at all.
    Source: definition; heads by `solve_network`.
    Valid:  flows forward and more than nothing; parts in a row with the pump in one link are not counted.
    """
    _refuse.not_positive(**{"flow of the system": min(flows, default=1.0)})
    held = next((link for link in links if link.name == pump), None)
    if held is None:
        raise ImpossibleInput(f"there is no element {pump}")
    rest = [link for link in links if link.name != pump]
    touched = {node for link in rest for node in (link.start, link.end)}
    levels = {node: level for node, level in fixed.items() if node in touched}
    found: list[SystemPoint] = []
    state = None
    for flow in flows:
        moved = dict(injections)
        for node, way in ((held.start, -1.0), (held.end, 1.0)):
            if node not in fixed:
                moved[node] = moved.get(node, 0.0) + way * flow
        state = solve_network(rest, levels, moved, state)
        heads = {**fixed, **state.heads}
        found.append(SystemPoint(flow, heads[held.end] - heads[held.start]))
    return tuple(found)
