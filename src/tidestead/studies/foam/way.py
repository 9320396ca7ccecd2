"""Where the water goes through a tower, and how high the air lifts it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.physics.foam.columns import ColumnState
from tidestead.physics.foam.contact import Heights, contact_height, lifted_level
from tidestead.plan.model import Port, Vessel
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.heights import floor_of
from tidestead.studies.foam.facts import Lift, Way

_CARRIES = 0.05
"""Share of the tower's water from which on a port counts as one of its ways."""

_OVERFLOWS = ("weir", "standpipe")
"""Ports at which the surface itself runs over an edge."""


@dataclass(frozen=True)
class _End:
    """A port that carries water, at its height above the floor."""

    name: str
    height: float
    port: Port
    line: Line


def clear_level(key: str, vessel: Vessel, flow: FlowFacts) -> Estimate:
    """Depth of the water without air, with its range."""
    floor = floor_of(vessel)
    found = flow.over(lambda running: running.levels[key])
    return Estimate(found.low - floor, found.likely - floor, found.high - floor, found.basis)


def diffuser_height(vessel: Vessel, level: float) -> float:
    """Height of the diffuser above the floor: it stays where it is hung under the water that the plan says."""
    depth = vessel.air.depth if vessel.air is not None else None
    if depth is None:
        return 0.0
    return (vessel.water if vessel.water is not None else level) - depth


def way_of(key: str, vessel: Vessel, flow: FlowFacts, level: float, diffuser: float) -> Way | None:
    """Of all pairs of feed and outlet that carry, the one along which water meets the fewest bubbles."""
    ends = tuple(_ends(key, vessel, flow, level))
    whole = flow.inflow.get(key, 0.0)
    feeds = [end for amount, end in ends if amount > _CARRIES * whole]
    outlets = [end for amount, end in ends if -amount > _CARRIES * whole]
    floor = floor_of(vessel)
    ways = [_way(feed, outlet, diffuser, floor) for feed in feeds for outlet in outlets]
    return min(ways, key=lambda way: way.met, default=None)


def _way(feed: _End, outlet: _End, diffuser: float, floor: float) -> Way:
    heights = Heights(feed.height, outlet.height, diffuser)
    spills = outlet.port.kind in _OVERFLOWS
    riser = None if spills else next((lip - floor for lip in outlet.line.lips if lip > floor), None)
    return Way(
        feed.name,
        outlet.name,
        heights,
        float(contact_height(heights)),
        outlet.height > feed.height,
        spills,
        outlet.line.bore,
        riser,
    )


def _ends(key: str, vessel: Vessel, flow: FlowFacts, level: float) -> Iterator[tuple[float, _End]]:
    """Every port with a line and what comes in through it; what leaves is below nothing."""
    for line in flow.lines:
        for name, sign in ((line.circuit.start, -1.0), (line.circuit.end, 1.0)):
            owner, _, short = name.partition(".")
            if owner != key or short not in vessel.ports:
                continue
            port = vessel.ports[short]
            at_surface = port.kind in ("spill", *_OVERFLOWS) or port.level > level
            yield sign * flow.flows[line.key], _End(short, level if at_surface else port.level, port, line)


def lift_of(
    key: str, vessel: Vessel, flow: FlowFacts, way: Way, states: tuple[ColumnState, ColumnState, ColumnState]
) -> Lift:
    """Levels with the air on: least air in the lowest level, most in the highest. `states`: best, likely, worst."""
    clear = clear_level(key, vessel, flow)
    foot = max(way.heights.diffuser, way.heights.outlet)
    lips = _dry_lips(key, vessel, flow)
    if way.spills:
        return Lift(clear, clear, foot, None, lips)
    shares = [state.holdup for state in states if state.holdup is not None]
    if len(shares) < len(states):
        return Lift(clear, None, foot, None, lips)
    low, likely, high = shares
    basis = "size of the bubbles" + (f"; {clear.basis}" if clear.basis else "")
    level = Estimate(
        float(lifted_level(clear.low, foot, low)),
        float(lifted_level(clear.likely, foot, likely)),
        float(lifted_level(clear.high, foot, high)),
        basis,
    )
    return Lift(clear, level, foot, Estimate(low, likely, high, basis), lips)


def _dry_lips(key: str, vessel: Vessel, flow: FlowFacts) -> tuple[tuple[str, float], ...]:
    """Overflows of the tower that nothing runs over without air: a lift must not reach them."""
    whole = flow.inflow.get(key, 0.0)
    running = {
        line.circuit.start.partition(".")[2]
        for line in flow.lines
        if line.circuit.start.partition(".")[0] == key and flow.flows[line.key] > _CARRIES * whole
    }
    return tuple(
        (name, port.level)
        for name, port in vessel.ports.items()
        if port.kind in _OVERFLOWS and name not in running and math.isfinite(port.level)
    )
