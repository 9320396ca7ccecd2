"""What every matter of the water rests on: how much there is, how salt and warm it is, what goes off into the air."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.facts import HeatYears, Spread
from tidestead.studies.salt_scales import salinity_psu
from tidestead.studies.vessels import FALLBACK_C, FALLBACK_PSU, display_of, plan_area


@dataclass(frozen=True)
class Setting:
    """The water that goes round with the display: volumes in m3 by vessel, kept salinity and temperature.

    `evaporation` is by month, kg/s, None where the heat study found none.
    """

    display: str
    volumes: dict[str, float]
    surfaces: dict[str, float]
    sal_psu: float
    temp_c: float
    assumed_salinity: bool
    assumed_temperature: bool
    evaporation: Spread | None
    no_evaporation: str

    @property
    def volume(self) -> float:
        """All of it."""
        return sum(self.volumes.values())

    @property
    def yearly_evaporation(self) -> Estimate | None:
        """Mean of the year, kg/s."""
        if self.evaporation is None:
            return None
        low, likely, high = (sum(part) / len(part) for part in self.evaporation.parts)
        return Estimate(low, likely, high, self.evaporation.basis)


def setting_of(plan: Plan, flow: FlowFacts, heat: HeatYears) -> Setting:
    """From the plan, the circulation and the year of heat; of volumes those that flow found, else as planned."""
    display = display_of(plan)
    known = flow.volumes or _planned(plan)
    group = next((one for one in flow.groups if display in one), frozenset(known))
    volumes = {key: volume for key, volume in known.items() if key in group or not flow.groups}
    if display and display not in volumes:
        volumes = {**_planned(plan), **volumes}
    keep, said = plan.water.keep, plan.water.salinity
    years = heat.years
    return Setting(
        display,
        volumes,
        {key: plan_area(plan.vessels[key]) for key in volumes if key in plan.vessels},
        FALLBACK_PSU if said is None else float(salinity_psu(said)),
        FALLBACK_C if keep is None else sum(keep) / 2.0,
        said is None,
        keep is None,
        None if years is None else years.evaporation,
        "; ".join(heat.missing),
    )


def _planned(plan: Plan) -> dict[str, float]:
    """Volumes of the vessels with seawater, as far as their sizes are there."""
    return {
        key: plan_area(vessel) * vessel.water
        for key, vessel in plan.vessels.items()
        if vessel.holds == "seawater" and vessel.water is not None and plan_area(vessel) > 0.0
    }
