"""The plan as frozen models, one class per real thing."""

from tidestead.plan.model.part import Fixing, MeasuredFixing, MeasuredTimber, Part
from tidestead.plan.model.plan import VERSION, Building, Earthquake, Plan, Site, Water
from tidestead.plan.model.tower import Cone, Ribs, Rings, TowerButtresses
from tidestead.plan.model.vessel import (
    BOX_WALLS,
    Corner,
    Lining,
    Place,
    StandsOn,
    TestFill,
    Tie,
    Vessel,
)
from tidestead.plan.model.wall import (
    BaseJoint,
    MeasuredSheet,
    Rim,
    Sheathing,
    Studs,
    Wall,
    WallButtresses,
)
from tidestead.plan.model.window import (
    EdgeSupport,
    MeasuredWindow,
    Opening,
    Seat,
    Timber,
    Window,
    WindowEdges,
)

__all__ = [
    "BOX_WALLS",
    "VERSION",
    "BaseJoint",
    "Building",
    "Cone",
    "Corner",
    "Earthquake",
    "EdgeSupport",
    "Fixing",
    "Lining",
    "MeasuredFixing",
    "MeasuredSheet",
    "MeasuredTimber",
    "MeasuredWindow",
    "Opening",
    "Part",
    "Place",
    "Plan",
    "Ribs",
    "Rim",
    "Rings",
    "Seat",
    "Sheathing",
    "Site",
    "StandsOn",
    "Studs",
    "TestFill",
    "Tie",
    "Timber",
    "TowerButtresses",
    "Vessel",
    "Wall",
    "WallButtresses",
    "Water",
    "Window",
    "WindowEdges",
]
