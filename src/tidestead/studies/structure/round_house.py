"""The edges of the building in the axes of the plan."""

from __future__ import annotations

from tidestead.core.solids import Spot, Wire
from tidestead.plan.model.building import Building
from tidestead.studies.house.daylight import quarter_turns


def house_wires(building: Building) -> tuple[Wire, ...]:
    """Every edge of the building, its south-west corner inside at the origin; none where its measures are not known.

    The front is turned to the nearest of the four sides, as for daylight.
    """
    shape, length, width = building.shape, building.length, building.width
    eaves, ridge, faces = building.eaves, building.ridge, building.faces
    if shape is None or not length or not width or not eaves or not ridge or faces is None:
        return ()
    turns = quarter_turns(faces)
    profile = (
        [(0.0, 0.0), (0.0, eaves), (width, ridge), (width, 0.0)]
        if shape == "lean-to"
        else [(0.0, 0.0), (0.0, eaves), (width / 2.0, ridge), (width, eaves), (width, 0.0)]
    )

    def spot(along: float, deep: float, height: float) -> Spot:
        x, y = along - length / 2.0, deep - width / 2.0
        for _ in range(turns):
            x, y = y, -x
        wide, north = (length, width) if turns % 2 == 0 else (width, length)
        return round(x + wide / 2.0, 5), round(y + north / 2.0, 5), height

    ends = [
        tuple(spot(along, deep, height) for deep, height in [*profile, profile[0]]) for along in (0.0, length)
    ]
    edges = [(spot(0.0, deep, height), spot(length, deep, height)) for deep, height in profile]
    return tuple(Wire(points, "ghost", "building", "edge of the building") for points in (*ends, *edges))
