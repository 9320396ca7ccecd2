"""A share of all the water replaced, load by load: what each part takes, and how much of the old water is gone."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Estimate
from tidestead.core.units import System, show
from tidestead.physics.water import changes as laws
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Changes
from tidestead.studies.water.batches import making_time
from tidestead.studies.water.costs import cost_of
from tidestead.studies.water.salt_facts import Round
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY, Supply, Vat, recipe_of

_HOUR = 3600.0


def round_of(
    plan: Plan, setting: Setting, supply: Supply, vat: Vat, factor: Estimate, share: float
) -> Round | None:
    """None where the plan has no changes or no vat."""
    changes = plan.changes
    if changes is None or vat.missing:
        return None
    amount = share * setting.volume
    loads = laws.vat_loads(amount, vat.volume)
    load = amount / loads
    recipe = recipe_of(Body(load, setting.sal_psu, setting.temp_c), supply, factor)
    heat, warming = _warming(changes, setting, supply, load)
    both = changes.way != "drain-first"
    moved = None if changes.pump is None else load / float(changes.pump)
    whole = recipe_of(Body(amount, setting.sal_psu, setting.temp_c), supply, factor)
    full = min(vat.volume / setting.volume, 1.0)
    return Round(
        share,
        amount,
        load,
        loads,
        making_time(supply, recipe),
        stirring_of(changes),
        warming,
        0.0 if both and moved is not None else moved,
        moved,
        heat,
        replaced_by(changes, share, loads),
        float(laws.changes_to_reach(1.0, 0.0, 1.0 - share, full)),
        cost_of(plan, supply, whole, heat * loads),
    )


def stirring_of(changes: Changes | None) -> float:
    """How long new water is stirred, s: the plan's, else the usual."""
    said = None if changes is None else changes.mixes
    return table("water_limits")["mixing"].si("stirred") if said is None else float(said)


def stirring_assumed(plan: Plan, system: System) -> Iterator[Assumption]:
    """Where the plan is silent."""
    if plan.changes is None or plan.changes.mixes is None:
        row = table("water_limits")["mixing"]
        words = show(row.si("stirred"), "s", system)
        why = "how long new water is stirred until it is used"
        yield Assumption("changes.mixes", words, why, row.figure("stirred").source)


def replaced_by(changes: Changes, share: float, loads: int) -> float:
    """Share of the old water that is gone: with several loads each takes some of the new water of those before."""
    if changes.way == "drain-first":
        return float(1.0 - laws.level_after_changes(1.0, 0.0, share / loads, loads))
    return float(laws.share_together(share))


def at_once(changes: Changes, replaced: float) -> float:
    """Share that meets the animals within a day: of what runs all the time, a day's."""
    if changes.way != "all-the-time":
        return replaced
    return float(laws.share_together(min(changes.share * DAY / float(changes.every), 1.0)))


def _warming(changes: Changes, setting: Setting, supply: Supply, load: float) -> tuple[float, float | None]:
    """Heat for a load and the time it takes; nothing where the plan has no heater for it."""
    if changes.heater is None:
        return 0.0, None
    cold = Body(load, setting.sal_psu, supply.temp_c)
    heat = laws.heat_to_warm(cold, setting.temp_c)
    return heat, laws.hours_to_warm(cold, setting.temp_c, float(changes.heater)) * _HOUR
