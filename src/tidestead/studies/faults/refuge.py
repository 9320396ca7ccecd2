"""Where the fish may go, and how long they keep there."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.physics import oxygen
from tidestead.physics.oxygen import ClosedWater
from tidestead.studies.faults.facts import Refuge, Threshold
from tidestead.studies.faults.normal import air_oxygen
from tidestead.studies.faults.waters import Basis, exchange
from tidestead.studies.vessels import plan_area
from tidestead.studies.water.aeration import Stone

DEEP = 0.6
"""Depth of a barrel or a quarantine vessel whose shape nobody said, m. Own choice."""

_MOST = 240.0
"""Hours up to which anything is told. Own choice."""


def refuges_of(basis: Basis, level: Threshold) -> Iterator[Refuge]:
    """The quarantine vessel, and every vessel whose water does not go round with the display."""
    quarantine = basis.plan.quarantine
    if basis.stock.mass_now <= 0.0:
        return
    if quarantine is not None:
        yield _refuge(basis, "the quarantine vessel", quarantine.volume, quarantine.volume / DEEP, level)
    for key, vessel in basis.plan.vessels.items():
        if key not in basis.setting.volumes and vessel.water is not None and vessel.holds == "seawater":
            area = plan_area(vessel)
            if area > 0.0:
                yield _refuge(basis, key, area * vessel.water, area, level)


def _refuge(basis: Basis, name: str, volume: float, area: float, level: Threshold) -> Refuge:
    """Hours from well aired water down to the level of harm, with all the fish in it."""
    sal, warm, still = basis.setting.sal_psu, basis.setting.temp_c, exchange("still-surface")
    full = float(oxygen.held_mass(sal, warm, basis.air_pressure))
    fish = basis.stock.fish_uptake

    def hours(speed: float, uptake: float) -> float:
        water = ClosedWater(volume, area, speed, uptake, full, full)
        return min(float(oxygen.hours_to_level(water, level.harm)), _MOST)

    span = Estimate(
        hours(still.low, fish.high), hours(still.likely, fish.likely), hours(still.high, fish.low),
        "still surface and uptake at their ends",
    )  # fmt: skip
    sizes = table("fault_acts")["sizes"]
    gain = air_oxygen(basis, Stone(sizes.si("tried_air"), min(sizes.si("tried_depth"), DEEP), "fine"))
    bubbled = still.likely + gain / (full * area) / 3600.0
    return Refuge(name, volume, span, hours(bubbled, fish.likely), basis.stock.mass_now)
