"""What several studies need of vessels and water: inside areas, the salt of a reading, what is taken where a plan
is silent.
"""

from __future__ import annotations

from tidestead.core.errors import ImpossibleInput
from tidestead.core.units import SalinityReading
from tidestead.physics import seawater
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


def salinity_psu(reading: SalinityReading) -> float:
    """Practical salinity of a reading of any kind."""
    if reading.kind == "psu":
        return reading.value
    if reading.kind == "g/kg":
        return seawater.practical_from_absolute(reading.value)
    if reading.sample_c is None or reading.reference_c is None:
        raise ImpossibleInput(
            "a specific gravity needs the temperatures it was read and its instrument made at"
        )
    return seawater.salinity_from_specific_gravity(reading.value, reading.sample_c, reading.reference_c)
