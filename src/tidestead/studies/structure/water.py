"""The loads: how heavy the water is, and how high it may stand for how long."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tidestead.core.dims import Celsius, G, KgPerM3, Metre
from tidestead.physics import seawater
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.salt_scales import salinity_psu
from tidestead.studies.vessels import FALLBACK_C, FALLBACK_PSU

Duration = Literal["permanent", "weeks", "days"]
"""How long a load lasts; the timber rules turn it into a factor."""


@dataclass(frozen=True)
class LoadCase:
    """Water of one kind at one level for one time. `level` is the depth above the highest place of the floor."""

    name: Literal["service", "brim", "test", "tried"]
    words: str
    level: Metre
    density: KgPerM3
    duration: Duration

    @property
    def weight(self) -> float:
        """Specific weight, N/m3."""
        return self.density * G


@dataclass(frozen=True)
class WaterFacts:
    """Density of what a vessel holds and what it rests on."""

    density: KgPerM3
    fresh: KgPerM3
    psu: float | None
    temp_c: Celsius
    assumed: tuple[str, ...]


def water_facts(plan: Plan, vessel: Vessel) -> WaterFacts:
    """Density at the coolest temperature kept, where water is heaviest."""
    assumed = []
    if plan.water.keep is None:
        assumed.append("keep")
    temp_c = plan.water.keep[0] if plan.water.keep else FALLBACK_C
    fresh = seawater.fresh_density(temp_c)
    if vessel.holds == "fresh":
        return WaterFacts(fresh, fresh, None, temp_c, tuple(assumed))
    if plan.water.salinity is None:
        assumed.append("salinity")
        psu = FALLBACK_PSU
    else:
        psu = salinity_psu(plan.water.salinity)
    return WaterFacts(seawater.density(psu, temp_c), fresh, psu, temp_c, tuple(assumed))


def load_cases(vessel: Vessel, water: WaterFacts) -> tuple[LoadCase, ...]:
    """Service for good; the brim for weeks, since nobody may be there; the test fill for days.

    Empty where the plan does not say how deep the water is.
    """
    if vessel.water is None:
        return ()
    brim = vessel.brim if vessel.brim is not None else vessel.height
    cases = [
        LoadCase("service", "in service", vessel.water, water.density, "permanent"),
        LoadCase("brim", "filled to the brim", brim, water.density, "weeks"),
    ]
    if vessel.stage in ("planned", "building", "testing"):
        density = water.fresh if vessel.test.water == "fresh" else water.density
        level = vessel.test.level if vessel.test.level is not None else brim
        cases.append(LoadCase("test", "in the test fill", level, density, lasting(vessel.test.lasts)))
    return tuple(cases)


_DAYS, _WEEKS = 7.0 * 86400.0, 60.0 * 86400.0
"""Longest loads of the classes seven days and two months, seconds; the week and its like of Eurocode 5's short term
lies inside the first. Source: NDS-2018, Table 2.3.2; EN 1995-1-1, Table 2.1, from memory."""

FALLBACK_TEST = _DAYS
"""How long a test fill is taken to stand where the plan is silent."""


def lasting(seconds: float | None) -> Duration:
    """The class of a load that stands so long."""
    time = FALLBACK_TEST if seconds is None else seconds
    if time <= _DAYS * (1.0 + 1e-9):
        return "days"
    return "weeks" if time <= _WEEKS * (1.0 + 1e-9) else "permanent"


def tried(level: Metre, water: WaterFacts) -> LoadCase:
    """A level tried for good, when the highest safe one is looked for."""
    return LoadCase("tried", "at the level tried", level, water.density, "permanent")
