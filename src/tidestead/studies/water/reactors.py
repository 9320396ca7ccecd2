"""What calcium reactors bring by the day, and the flow through each that would hold the level."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.physics.water import dosing as laws
from tidestead.physics.water.dosing import Stock
from tidestead.plan.model import Plan
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY

Flows = tuple[tuple[str, float], ...]
"""Flow by reactor, m3/day."""


@dataclass(frozen=True)
class ReactorFacts:
    """One reactor. `flow` m3/day; alkalinity `leaving` it and `entering` it, mol/m3.

    `brings` a day: alkalinity mol, calcium g; both below nothing where less comes out than goes in.
    """

    key: str
    vessel: str
    flow: float
    leaving: float
    entering: float
    brings: Stock

    @property
    def gain(self) -> float:
        """Alkalinity that the water takes up on its way through, mol/m3."""
        return self.leaving - self.entering


def reactors_of(plan: Plan, setting: Setting, entering: float) -> tuple[ReactorFacts, ...]:
    """Every reactor that gives into the water that is shared; `entering` is the alkalinity of that water."""
    found = []
    for key, one in plan.reactors.items():
        if one.vessel in setting.volumes and setting.volume > 0.0:
            flow = one.flow * DAY
            daily = float(laws.reactor_brings(flow, one.alkalinity, entering, setting.volume))
            calcium = float(laws.calcium_with_alkalinity(daily))
            brings = Stock(daily * setting.volume, calcium * setting.volume, 0.0)
            found.append(ReactorFacts(key, one.vessel, flow, one.alkalinity, entering, brings))
    return tuple(found)


def holding_flows(reactors: tuple[ReactorFacts, ...], wanted: float, volume: float) -> Flows:
    """Flow through each that brings so much alkalinity (mol a day) between them, in equal parts.

    A reactor that gives back less than it is given is left out.
    """
    able = [one for one in reactors if one.gain > 0.0]
    return tuple(
        (
            one.key,
            float(laws.reactor_flow(wanted / len(able) / volume, one.leaving, one.entering, volume)),
        )
        for one in able
    )
