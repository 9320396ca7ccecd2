"""Chlorine that comes with new water, before any of it is used up."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import YOURS
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.salt_facts import Dose
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY, Supply, fresh_supply

MICRO = 1e6
"""Micrograms in a litre for a kilogram in a cubic metre."""

UNIT = "ug/L"
LITRES = 1000.0
"""Kilograms of water counted for a cubic metre, as the heat study does."""

_TREATED = ("mains", "osmosis", "tanker")
_AT = At("chlorine", "chlorine", "water", "sources")


def doses_of(plan: Plan, setting: Setting, supply: Supply | None, change: float) -> tuple[Dose, ...]:
    """At one change of `change` m3 of the source's water, and in a day of topping up in the worst month."""
    found = []
    if supply is not None and supply.kind in _TREATED and change > 0.0:
        found.append(_dose("change", "of one change", supply, change, setting))
    top = fresh_supply(plan)
    daily = 0.0 if setting.evaporation is None else max(setting.evaporation.high) / LITRES * DAY
    if top is not None and top.kind in _TREATED and daily > 0.0:
        found.append(_dose("topoff", "of a day's top-off", top, daily, setting))
    return tuple(found)


def _dose(use: str, words: str, supply: Supply, volume: float, setting: Setting) -> Dose:
    if supply.chlorine is None:
        why = f"write sources.{supply.key}.chlorine: what a test strip shows of the water as it comes to the vat"
        return Dose(use, words, supply.key, 0.0, volume, 0.0, why)
    level = supply.chlorine * volume / setting.volume
    return Dose(use, words, supply.key, supply.chlorine, volume, level)


def chlorine_checks(setting: Setting, doses: tuple[Dose, ...], system: System) -> Iterator[Judged]:
    """Each against what marine life bears for days."""
    row = table("water_limits")["chlorine"]
    chronic, acute = MICRO * row.si("chronic"), MICRO * row.si("acute")
    source = row.figure("chronic").source
    limit = Limit(chronic, source, f"marine life, for days; {acute:g} µg/L for an hour")
    for dose in doses:
        what = f"chlorine {dose.words}, before any is used up"
        if dose.missing:
            yield Judged(unproven(_AT, dose.use, what, UNIT, dose.missing, YOURS), by_level=False)
            continue
        mends = (
            f"a carbon block before the vat, or a dechlorinator in it, then a test strip: write what is left as "
            f"sources.{dose.supply}.chlorine; {show(chronic * setting.volume / dose.volume, UNIT, system)} may be left"
        )
        value = Estimate.exact(MICRO * dose.level)
        check = below(_AT, dose.use, what, value, UNIT, limit, advice=mends, cautions=(_CHLORAMINE,))
        yield Judged(check, (_step(setting, dose),), by_level=False)


_CHLORAMINE = (
    "Chloramine outlasts stirring and passes a membrane: ask the waterworks which of the two they use. Chlorine on "
    "its own goes off in a day of stirring; that is not counted."
)


def _step(setting: Setting, dose: Dose) -> Step:
    numbers = (
        given("C0", MICRO * dose.incoming, UNIT), given("v", dose.volume, "m3"), given("V", setting.volume, "m3"),
    )  # fmt: skip
    meaning = f"chlorine in all the water, from {dose.supply}"
    return step("C", meaning, "C = C0*v/V", numbers, (MICRO * dose.level, UNIT), BALANCE)
