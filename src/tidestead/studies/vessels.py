"""What several studies need of vessels and water: inside areas, and what is taken where a plan is silent."""

from __future__ import annotations

from tidestead.physics.structure import hydrostatics
from tidestead.plan.model import Plan, Vessel

FALLBACK_PSU = 35.0
FALLBACK_C = 25.0


def display_of(plan: Plan) -> str:
    """The first vessel that is a display; empty where there is none."""
    return next((key for key, vessel in plan.vessels.items() if vessel.role == "display"), "")


def plan_area(vessel: Vessel) -> float:
    """Inside area of a vessel of any shape."""
    if vessel.shape == "box":
        return (vessel.length or 0.0) * (vessel.width or 0.0)
    if vessel.shape == "polygon":
        return float(hydrostatics.polygon_area(vessel.across or 0.0, vessel.sides or 3))
    return float(hydrostatics.round_area(vessel.across or 0.0))
