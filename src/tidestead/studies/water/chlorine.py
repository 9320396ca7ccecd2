"""Chlorine that comes with new water, what carbon and thiosulfate take of it, and what is left in all the water."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import YOURS
from tidestead.core.units import System, advised, show
from tidestead.physics.water import dechlorinating as laws
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.life_sources import STOICHIOMETRY
from tidestead.studies.water.salt_facts import Dose
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY, GRAMS, Supply, fresh_supply

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
        why = f"write sources.{supply.key}.chlorine: what a test strip shows of the water as it comes"
        return Dose(use, words, supply.key, 0.0, volume, 0.0, why)
    left = supply.chlorine_left or 0.0
    return Dose(
        use,
        words,
        supply.key,
        supply.chlorine,
        volume,
        left * volume / setting.volume,
        carbon=supply.carbon,
        thiosulfate=supply.thiosulfate,
        left=left,
    )


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
        mends = _mends(dose, chronic * setting.volume / dose.volume, system)
        value = Estimate.exact(MICRO * dose.level)
        check = below(_AT, dose.use, what, value, UNIT, limit, advice=mends, cautions=_cautions(dose))
        yield Judged(check, _steps(setting, dose), by_level=False)


def _mends(dose: Dose, may: float, system: System) -> str:
    """Carbon or thiosulfate that leaves no more than may be left, ug/L, and the proof by a strip."""
    if dose.incoming <= 0.0:
        return "a test strip of every load"
    passes = dose.incoming * (1.0 - dose.carbon)
    share = max(1.0 - may / (MICRO * dose.incoming), 0.0)
    asked = float(laws.thiosulfate_for_chlorine(GRAMS * passes))
    crystals = advised(asked, "mg/L", system, "up")
    each = advised(asked / GRAMS * dose.volume, "kg", system, "up")
    carbon = [
        f"carbon on the way in that takes {math.ceil(100.0 * share - 1e-9):.0f} % or more of it "
        f"(sources.{dose.supply}.carbon; {_promised():.0f} % is what class I of NSF/ANSI 42 promises)"
    ]
    ways = [
        *(carbon if share > 0.0 else ()),
        f"{crystals} of sodium thiosulfate crystals stirred into it, {each} for{dose.words.removeprefix('of')} "
        f"(sources.{dose.supply}.thiosulfate)",
    ]
    return f"{'; or '.join(ways)}; then a test strip: {show(may, UNIT, system)} may be left"


def _promised() -> float:
    """Per cent that a carbon filter takes which is certified for chlorine."""
    return 100.0 * table("water_limits")["chlorine"].si("carbon")


def _cautions(dose: Dose) -> tuple[str, ...]:
    """What strips do not tell apart, and the ammonia that is left of chloramine."""
    freed = float(laws.chloramine_nitrogen(MICRO * dose.incoming)) * dose.volume
    return (
        (
            _CHLORAMINE,
            f"{_FREED} {freed / 1000.0:.2g} g of ammonia nitrogen for{dose.words.removeprefix('of')}.",
        )
        if freed
        else ()
    )


_FREED = "Were it all chloramine, breaking it up, by carbon or by thiosulfate, would leave"
_CHLORAMINE = (
    "Chloramine outlasts stirring and passes a membrane: ask the waterworks which of the two they use. Chlorine on "
    "its own goes off in a day of stirring; that is not counted."
)


def _steps(setting: Setting, dose: Dose) -> tuple[Step, ...]:
    """What is left behind carbon and thiosulfate, and how far all the water thins it."""
    numbers = (
        given("C1", MICRO * dose.left, UNIT), given("v", dose.volume, "m3"), given("V", setting.volume, "m3"),
    )  # fmt: skip
    meaning = f"chlorine in all the water, from {dose.supply}"
    last = step("C", meaning, "C = C1*v/V", numbers, (MICRO * dose.level, UNIT), BALANCE)
    each = float(laws.thiosulfate_for_chlorine(1.0))
    parts = (
        given("C0", MICRO * dose.incoming, UNIT),
        given("c", dose.carbon, "1", "share"),
        given("T", MICRO * dose.thiosulfate, UNIT),
        given("n", each, "1"),
    )
    meaning = (
        "left of chlorine C0 behind carbon that takes c of it and thiosulfate T, n of which go with one of it"
    )
    first = step(
        "C1", meaning, "C1 = max(C0*(1 - c) - T/n, 0)", parts, (MICRO * dose.left, UNIT), STOICHIOMETRY
    )
    return first, last
