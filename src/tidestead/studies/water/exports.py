"""How dissolved things leave the water: changes, skimmer and splash, filters without air, granulates, algae."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.physics.water import changes as change_laws
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Changes
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY
from tidestead.studies.water.takings import Taking, added, takings_of


@dataclass(frozen=True)
class Exports:
    """Water that leaves in a day, m3: by changes (`share` in effect of each, `every` in days), by other losses; the
    share of all nitrate that filters take in a day; what granulates bind and what algae carry off, `takings`.
    """

    changed: float
    share: float
    every: float
    lost: float
    denitrified: float
    takings: tuple[Taking, ...] = ()

    @property
    def phosphorus(self) -> Estimate:
        """Bound and harvested, g P in a day at most; all at their ends together, for they vary alike."""
        return added([one.phosphorus for one in self.takings])

    @property
    def nitrogen(self) -> Estimate:
        """Harvested, g N in a day at most."""
        return added([one.nitrogen for one in self.takings])

    @property
    def renewed(self) -> float:
        """All the water that leaves in a day."""
        return self.changed + self.lost


def exports_of(plan: Plan, setting: Setting) -> Exports:
    """By the plan; what it is silent on takes nothing."""
    share = 0.0 if plan.changes is None else effective_share(plan.changes)
    every = 0.0 if plan.changes is None else plan.changes.every / DAY
    losses = plan.losses
    lost = sum(flow or 0.0 for flow in (losses.skimmate, losses.splash, losses.leak)) * DAY
    inside = [one for one in plan.filters.values() if one.vessel in setting.volumes]
    taken = sum(one.denitrifies or 0.0 for one in inside) * DAY
    changed = share * setting.volume / every if every > 0.0 else 0.0
    return Exports(changed, share, every, lost, taken, takings_of(plan, setting))


def effective_share(changes: Changes) -> float:
    """Of the old water that one change takes: less than its size where it runs in while the old runs out."""
    if changes.way == "both-at-once":
        return float(change_laws.share_together(changes.share))
    return changes.share


def asked_share(changes: Changes | None, effective: float) -> float:
    """The size of a change that takes a share of the old water, by the plan's way of changing; inf where none does."""
    if changes is not None and changes.way == "both-at-once":
        return -math.log1p(-effective) if effective < 1.0 else math.inf
    return effective
