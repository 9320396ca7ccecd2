"""What the setting rests on where the plan is silent, so that none of it is taken unsaid."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import change_supply


def setting_assumed(plan: Plan, setting: Setting, system: System) -> Iterator[Assumption]:
    """Salinity and warmth, which every weight of salt and every hour of heat rest on; whose water it is; which source
    new water comes from, and how it is changed.
    """
    if setting.assumed_salinity:
        yield Assumption("water.salinity", f"{setting.sal_psu:g} psu", "the sea's usual salinity", PRACTICE)
    if setting.assumed_temperature:
        yield Assumption("water.keep", show(setting.temp_c, "degC", system), "a warm reef", PRACTICE)
    if not setting.display:
        words = ", ".join(setting.volumes)
        yield Assumption(
            "vessels.NAME.role", words, "no vessel is the display: all seawater counts as one", PRACTICE
        )
    yield from _changes(plan)


def _changes(plan: Plan) -> Iterator[Assumption]:
    """Which source, where there are several; which way of changing, where it is not said."""
    changes, supply = plan.changes, change_supply(plan)
    if supply is not None and len(plan.sources) > 1 and (changes is None or changes.source is None):
        yield Assumption("changes.source", supply.key, "the first source that the plan names", PRACTICE)
    if changes is not None and "way" not in changes.model_fields_set:
        yield Assumption("changes.way", changes.way, "old water goes out before new comes in", PRACTICE)
