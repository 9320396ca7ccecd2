"""Water, salt and reagents: of the first fill and of a year, as the study of the water found them."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.findings import YEAR, Finding, Gap
from tidestead.build.takeoff.studied import Studies
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, YOURS
from tidestead.core.units import show
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Plan
from tidestead.studies.water.facts import Matters, WaterFacts
from tidestead.studies.water.waters import Supply

SALT = Item("salt")
DAY = 86400.0
_LIME, _LIME_EACH = "calcium hydroxide", 0.074093 / 2.0
"""Kilograms of it for each mole of alkalinity. Source: IUPAC standard atomic weights; two charges to a formula."""

_GAS, _GAS_EACH = "carbon dioxide", 0.044009 / 2.0
"""The same of carbon dioxide: CaCO3 + CO2 + H2O = Ca + 2 HCO3, one for two of alkalinity. Source: as above."""

GAS_LOST = Estimate(1.2, 1.45, 1.9, "a fifth to nine tenths more leaves the reactor as gas in its water")
"""Carbon dioxide for each part that dissolves chalk. Own sum: with pK1 near 5.85 in seawater what runs out at pH 6.9,
6.5 or 6.2 holds 0.09, 0.22 or 0.45 of it for each bicarbonate, and two bicarbonates go with one of it."""

_CHALK, _CHALK_EACH = "calcium reactor media", 0.100087 / 2.0
"""The same of calcium carbonate."""


def water_taken(plan: Plan, studies: Studies) -> Iterator[Finding]:
    """The first fill, changes, what evaporates, what is lost, what is dosed and fed."""
    yield from _fed(plan)
    yield from _dosed(plan)
    facts = studies.water
    if facts is None or facts.matters is None:
        why = "" if facts is None else f": {facts.missing}"
        yield Gap("water", f"The water is not known: its salt, sources and losses are not listed{why}.")
        return
    yield from _first(plan, facts, facts.matters)
    yield from _changed(plan, facts, facts.matters)
    yield from _evaporated(plan, facts.matters)
    yield from _alkaline(facts.matters)


def _salt(mix: Estimate, what: str, key: str, basis: str, vessel: str | None = None) -> Line:
    """Salt: of the first fill of a vessel, or of a year."""
    return Line(
        SALT, mix, "kg", what, key, "water", "water", vessel or "", basis, COMPUTED, yearly=vessel is None
    )


def _water(
    plan: Plan, supply: Supply, good: Estimate, what: str, vessel: str | None = None
) -> Iterator[Line]:
    """Water taken of a source for so much good water, and what takes its chlorine."""
    key = f"sources.{supply.key}"
    whole = good.times(1.0 / supply.share) if supply.share > 0.0 else good
    basis = f"{show(good.likely, 'm3', plan.show)} of source {supply.key}"
    if supply.share < 1.0:
        basis += f", of which {100.0 * supply.share:.0f} % of what is fed to it comes out good"
    yield Line(Item("water", supply.key), whole, "m3", what, key, "water", "water", vessel or "", basis, COMPUTED,
               yearly=vessel is None)  # fmt: skip
    if supply.thiosulfate > 0.0:
        yield Line(Item("chlorine-remover"), good.times(supply.thiosulfate), "kg", f"thiosulfate, {what}",
                   f"{key}.thiosulfate", "water", "water", vessel or "", "the dose of the plan in all of it", YOURS,
                   yearly=vessel is None)  # fmt: skip


def _first(plan: Plan, facts: WaterFacts, matters: Matters) -> Iterator[Finding]:
    """By the source that changes draw on, as the answer on water has it; what tests take of it with it."""
    salting, filling = matters.salting, matters.filling
    if salting.missing or salting.whole is None or salting.supply is None:
        yield Gap(
            "sources" if salting.supply is None else "water.salinity", f"First fill: {salting.missing}."
        )
        return
    supply, recipe = salting.supply, salting.whole.recipe
    told = next(
        (one for one in filling.fills if one.supply.key == supply.key and one.course is not None), None
    )
    volume = show(facts.setting.volume, "m3", plan.show)
    basis = f"all the water, {volume}, by source {supply.key}{_others(plan, matters)}"
    if recipe.mix.high > 0.0:
        yield _salt(recipe.mix, "salt of the first fill", "salt", basis, facts.setting.display)
    good = recipe.source if told is None or told.course is None else told.course.water
    what = "water of the first fill" if told is None else "water of the first fill with its tests"
    yield from _water(plan, supply, Estimate.exact(good), what, facts.setting.display)
    if recipe.fresh > 0.0:
        yield from _thinned(plan, facts, matters)
    if told is not None and told.heat > 0.0:
        yield Line(Item("energy"), Estimate.exact(told.heat), "J", "energy that warms the first fill", "heaters",
                   "water", "water", facts.setting.display,
                   "from the source's warmth to what is kept; losses not counted")  # fmt: skip


def _others(plan: Plan, matters: Matters) -> str:
    """What other sources would take instead."""
    salting = matters.salting
    own = None if salting.supply is None else salting.supply.key
    words = [
        f"{one.supply.key} {show(one.recipe.mix.likely, 'kg', plan.show)}"
        for one in matters.filling.fills
        if one.recipe is not None and one.supply.key != own
    ]
    return f"; salt by other sources: {', '.join(words)}" if words else ""


def _thinned(plan: Plan, facts: WaterFacts, matters: Matters) -> Iterator[Finding]:
    """Fresh water that thins a source that is too salty."""
    whole, fresh = matters.salting.whole, matters.evaporating.supply
    volume = 0.0 if whole is None else whole.recipe.fresh
    if fresh is None:
        needed = show(volume, "m3", plan.show)
        yield Gap("sources", f"Name a source of fresh water: {needed} of it thin the first fill.")
        return
    what = "fresh water that thins the first fill"
    yield from _water(plan, fresh, Estimate.exact(volume), what, facts.setting.display)


def _changed(plan: Plan, facts: WaterFacts, matters: Matters) -> Iterator[Finding]:
    """New water of a year and its salt: the recipe of all the water, in the share that is changed."""
    changes, salting = plan.changes, matters.salting
    if changes is None:
        yield Gap("changes", "Say how the water is changed: its yearly salt and water are not listed.")
        return
    if salting.whole is None or salting.supply is None:
        return  # told with the first fill
    times = YEAR / changes.every
    amount, recipe = times * changes.share, salting.whole.recipe
    volume = show(changes.share * facts.setting.volume, "m3", plan.show)
    basis = f"{times:.1f} changes of {volume} in a year"
    if recipe.mix.high > 0.0:
        yield _salt(recipe.mix.times(amount), "salt of changes", "changes", basis)
    yield from _water(plan, salting.supply, Estimate.exact(amount * recipe.source), "water of changes")
    if recipe.fresh > 0.0 and matters.evaporating.supply is not None:
        fresh = Estimate.exact(amount * recipe.fresh)
        yield from _water(plan, matters.evaporating.supply, fresh, "fresh water that thins changes")


def _evaporated(plan: Plan, matters: Matters) -> Iterator[Finding]:
    """Fresh water for what goes off and for losses, and the salt that losses take."""
    found = matters.evaporating
    if found.year is None:
        yield Gap("vessels", f"Fresh water of a year: {found.missing}.")
    elif found.supply is None:
        yield Gap("sources", "Name a source of fresh water: what evaporates is not listed.")
    else:
        yield from _water(plan, found.supply, found.year, "fresh water for what evaporates and is lost")
    if found.drift is not None:
        weeks = YEAR / (7.0 * DAY)
        words = "salt that losses take, given back so that salinity holds"
        yield _salt(
            found.drift.weekly.times(weeks), words, "losses", "by the losses of the plan, week by week"
        )


def _dosed(plan: Plan) -> Iterator[Finding]:
    """Reagents by what their pumps give."""
    for name, doser in plan.dosers.items():
        if doser.daily is None:
            yield Gap(
                f"dosers.{name}.daily", f"Say what doser {name} gives in a day: its reagent is not listed."
            )
            continue
        year = doser.daily * YEAR
        basis = f"{show(year, 'm3', plan.show)} of solution in a year at {doser.strength:g} g/L"
        yield Line(Item("reagent", doser.reagent), Estimate.exact(year * doser.strength), "kg",
                   f"{doser.reagent} of doser {name}", f"dosers.{name}", "water", "water", doser.vessel, basis,
                   YOURS, yearly=True)  # fmt: skip


def _alkaline(matters: Matters) -> Iterator[Line]:
    """Lime for limewater, chalk for reactors: by the alkalinity that they bring in a day."""
    found, days = matters.alkalinity, YEAR / DAY
    if found.lime is not None:
        lime = found.lime.alkalinity.times(days * _LIME_EACH)
        yield Line(Item(OWN, _LIME), lime, "kg", "lime for limewater", "kalkwasser", "water", "water", "",
                   "as strong as it can be, in its share of the top-off; what settles comes on top", COMPUTED,
                   yearly=True)  # fmt: skip
    for one in found.reactors:
        if one.brings.alkalinity > 0.0:
            chalk = Estimate.exact(one.brings.alkalinity * days * _CHALK_EACH)
            yield Line(Item(OWN, _CHALK), chalk, "kg", f"chalk for reactor {one.key}", f"reactors.{one.key}", "water",
                       "water", one.vessel, "by the alkalinity that it brings", COMPUTED, yearly=True)  # fmt: skip
            gas = GAS_LOST.times(one.brings.alkalinity * days * _GAS_EACH)
            yield Line(Item(OWN, _GAS), gas, "kg", f"carbon dioxide for reactor {one.key}", f"reactors.{one.key}",
                       "water", "water", one.vessel, "by the alkalinity that it brings; " + GAS_LOST.basis, PRACTICE,
                       yearly=True)  # fmt: skip


def _fed(plan: Plan) -> Iterator[Line]:
    if plan.feed is not None and plan.feed.daily > 0.0:
        yield Line(Item(OWN, "food"), Estimate.exact(plan.feed.daily * YEAR), "kg", "food", "feed", "water", "water",
                   "", f"{show(plan.feed.daily, 'kg/s', plan.show)}, all year", YOURS, yearly=True)  # fmt: skip
