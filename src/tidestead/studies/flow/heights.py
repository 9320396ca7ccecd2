"""Heights above one datum: floors, water surfaces, ports."""

from __future__ import annotations

from tidestead.physics.flow.draining import Basin, upright_basin
from tidestead.plan.model import Plan, Port, Vessel
from tidestead.studies.vessels import plan_area

OVER = 0.5
"""How far above its brim a vessel is taken to go on, metres, so that spilling is found and not refused."""


def floor_of(vessel: Vessel) -> float:
    """Floor level of a vessel; the datum where the plan is silent."""
    return vessel.place.floor or 0.0


def port_of(plan: Plan, name: str) -> tuple[str, Vessel, Port] | None:
    """Vessel and port that "vessel.port" names; None for a junction."""
    key, dot, port = name.partition(".")
    if not dot:
        return None
    vessel = plan.vessels[key]
    return key, vessel, vessel.ports[port]


def place_of(plan: Plan, name: str) -> str:
    """The vessel of a port; a junction is a place of its own."""
    found = port_of(plan, name)
    return name if found is None else found[0]


def brim_depth(vessel: Vessel) -> float:
    """Depth at which a vessel spills."""
    return vessel.brim if vessel.brim is not None else vessel.height


def brim_of(vessel: Vessel) -> float:
    """Height at which a vessel spills."""
    return floor_of(vessel) + brim_depth(vessel)


def basin_of(vessel: Vessel) -> Basin:
    """The vessel as volume against height, walls taken to go on over its brim."""
    floor = floor_of(vessel)
    return upright_basin(floor, floor + vessel.height + OVER, plan_area(vessel))


def brimful_basin(vessel: Vessel) -> Basin:
    """The vessel as volume against height, up to where it spills."""
    floor = floor_of(vessel)
    return upright_basin(floor, floor + brim_depth(vessel), plan_area(vessel))
