"""Nitrogen and phosphorus from feed to nitrate and phosphate: what is made, what leaves, where the levels go."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS, Source
from tidestead.physics.water import nutrients as laws
from tidestead.physics.water.nutrients import Balance
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Feed
from tidestead.studies.checks import ENOUGH
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.exports import Exports, asked_share, exports_of
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, GRAMS, moved

LEFT = 0.1
"""Share of the way that is left when a level is said to have settled."""

FAR = 3652.5
"""Days, ten years: the level then is judged where nothing lets it settle."""

_NITRATE, _PHOSPHATE = float(laws.nitrate_ion(1.0)), float(laws.phosphate_ion(1.0))
"""Weight of the ions for each of their nitrogen and phosphorus."""

NO_FEED = "say what is fed in a day: feed.daily"
_SHARES = "share of the protein that becomes ammonia, from the usual to what rots in the water"


@dataclass(frozen=True)
class NutrientLevel:
    """One nutrient, as its ion. Levels g/m3 (mg/L), `made` g/day, times in days.

    `taken`, g/day, is what granulates bind and algae carry off where there is enough of it. `balances` are those of
    the least made with the most taken, of the likely, and of the most made with the least taken. `settled` is inf
    where nothing takes it away; `judged` is that level, or the one in ten years. `passes` is when the target is
    passed, None where it never is or is passed already; `share` the size of each change that would hold the target
    with the likely and with the most made, inf where none does, `roomy` the one that leaves room
    under it. `start` is today's, `start_told` whether the plan tells it.
    """

    name: str
    made: Estimate
    taken: Estimate
    balances: tuple[Balance, Balance, Balance]
    start: float
    start_told: bool
    target: float
    target_source: Source
    settled: Estimate
    judged: Estimate
    settles_in: float
    passes: Estimate | None
    share: Estimate
    roomy: Estimate

    def after(self, days: float) -> tuple[float, float, float]:
        """Least, likely and most after so many days."""
        low, likely, high = (float(laws.nutrient_after(one, self.start, days)) for one in self.balances)
        return low, likely, high


@dataclass(frozen=True)
class NutrientFacts:
    """Both levels (None where the plan tells no feed), and what the nitrogen costs.

    `feed` kg/s, `ammonia` and `bound` g N/day (no more can come of the feed than the bound), `oxygen` g/day that
    turning it to nitrate takes, `alkalinity` mol/day (equivalents), net of what denitrification gives back.
    """

    feed: float | None
    protein: float
    ammonia: Estimate | None
    bound: float
    oxygen: Estimate | None
    alkalinity: Estimate | None
    exports: Exports
    nitrate: NutrientLevel | None
    phosphate: NutrientLevel | None
    missing: str = ""


def nutrients_of(inputs: Inputs, setting: Setting) -> NutrientFacts:
    """Balances by the plan and the catalogue."""
    plan = inputs.plan
    exports = exports_of(plan, setting)
    protein, _ = protein_of(plan)
    if plan.feed is None or setting.volume <= 0.0:
        why = (
            NO_FEED if plan.feed is None else "say how large the vessels are and how deep the water: vessels"
        )
        return NutrientFacts(None, protein, None, 0.0, None, None, exports, None, None, why)
    daily = plan.feed.daily * DAY * GRAMS
    ammonia = ammonia_made(daily, protein)
    nitrate = _nitrate(plan, setting, exports, ammonia)
    return NutrientFacts(
        plan.feed.daily,
        protein,
        ammonia,
        float(laws.nitrogen_in_feed(daily, protein)),
        ammonia.times(laws.OXYGEN_PLAIN),
        _alkalinity(ammonia, setting, exports, nitrate),
        exports,
        nitrate,
        _phosphate(plan, plan.feed, setting, exports),
    )


def feed_row() -> Row:
    """What food becomes."""
    return table("water_limits")["feed"]


def protein_of(plan: Plan) -> tuple[float, Source]:
    """Share of the feed that is protein, and who says so."""
    if plan.feed is not None and plan.feed.protein is not None:
        return plan.feed.protein, YOURS
    return feed_row().si("protein"), feed_row().figure("protein").source


def ammonia_made(daily: float, protein: float) -> Estimate:
    """Ammonia nitrogen of so much feed, both g/day."""
    row = feed_row()
    usual = float(laws.ammonia_from_feed(daily, protein, row.si("ammonia")))
    most = float(laws.ammonia_from_feed(daily, protein, row.si("ammonia_high")))
    return Estimate(usual, usual, most, _SHARES)


def nitrate_target(plan: Plan) -> tuple[float, Source]:
    """The most nitrate that is wanted, g/m3, and who says so."""
    return _target(plan.targets.nitrate, "nitrate")


def _target(own: float | None, name: str) -> tuple[float, Source]:
    if own is not None:
        return GRAMS * own, YOURS
    row = table("water_limits")["nutrients"]
    return GRAMS * row.si(name), row.figure(name).source


def _nitrate(plan: Plan, setting: Setting, exports: Exports, ammonia: Estimate) -> NutrientLevel:
    """Of nitrogen to nitrate: all ammonia is turned."""
    made = ammonia.times(_NITRATE)
    return _level("nitrate", made, exports, plan, setting)


def _phosphate(plan: Plan, feed: Feed, setting: Setting, exports: Exports) -> NutrientLevel:
    row = feed_row()
    daily = feed.daily * DAY * GRAMS
    low, likely, high = (row.si(key) for key in ("phosphorus_low", "phosphorus", "phosphorus_high"))
    content = Estimate(low, likely, high, "phosphorus in feed")
    if feed.phosphorus is not None:
        content = Estimate.exact(feed.phosphorus)
    kept = Estimate(row.si("kept_low"), row.si("kept"), row.si("kept_high"))

    def made(share: float, stays: float) -> float:
        return float(laws.phosphate_ion(laws.phosphorus_from_feed(daily, share, stays)))

    basis = (
        "phosphorus in the feed, and the share of it that stays in the water, each at its ends, as squares"
    )
    return _level("phosphate", moved(made, (content, kept), basis, 0.0), exports, plan, setting)


def _level(name: str, made: Estimate, exports: Exports, plan: Plan, setting: Setting) -> NutrientLevel:
    """Where one level goes from what there is now."""
    nitrate = name == "nitrate"
    told = plan.water.nitrate if nitrate else plan.water.phosphate
    start = GRAMS * (told or 0.0)
    target, source = _target(plan.targets.nitrate if nitrate else plan.targets.phosphate, name)
    pace = exports.denitrified if nitrate else 0.0
    taken = exports.nitrogen.times(_NITRATE) if nitrate else exports.phosphorus.times(_PHOSPHATE)
    ends = ((made.low, taken.high), (made.likely, taken.likely), (made.high, taken.low))
    low, likely, high = (
        Balance(setting.volume, comes, pace=pace, renewed=exports.renewed, uptake=goes)
        for comes, goes in ends
    )
    basis = made.basis if taken.high <= 0.0 else f"{made.basis}; {taken.basis}".removesuffix("; ")
    balances = (low, likely, high)
    levels = [_settled(one, start) for one in balances]
    far = [
        level if math.isfinite(level) else float(laws.nutrient_after(one, start, FAR))
        for level, one in zip(levels, balances, strict=True)
    ]
    return NutrientLevel(
        name,
        made,
        taken,
        balances,
        start,
        told is not None,
        target,
        source,
        Estimate(levels[0], levels[1], levels[2], basis),
        Estimate(far[0], far[1], far[2], basis),
        _settles_in(likely, start),
        _passes(balances, start, target),
        _holding(balances, exports, plan, target),
        _holding(balances, exports, plan, ENOUGH * target),
    )


def _settled(balance: Balance, start: float) -> float:
    """Where it comes to; where nothing comes and goes, or as much as goes, where it is."""
    level = float(laws.settled_nutrient(balance))
    return start if math.isnan(level) else level


def _settles_in(balance: Balance, start: float) -> float:
    """Days until nine tenths of the way is gone; where more is taken than comes, of the way to nothing."""
    if balance.made >= balance.uptake:
        return laws.days_to_settle(balance, LEFT)
    return laws.days_to_nutrient(balance, start, LEFT * start) if start > 0.0 else 0.0


def _passes(balances: tuple[Balance, Balance, Balance], start: float, target: float) -> Estimate | None:
    """Days until the target is passed with the most, the likely and the least made; inf where never."""
    if start >= target:
        return None
    most, likely, least = (laws.days_to_nutrient(one, start, target) for one in reversed(balances))
    return None if math.isinf(most) else Estimate(most, likely, least, "with the most, likely, least made")


def _holding(balances: tuple[Balance, ...], exports: Exports, plan: Plan, target: float) -> Estimate:
    """Size of each change that holds the target, at the plan's interval or each week."""
    every = exports.every or 7.0
    found = []
    for one in balances:
        rest = max(one.made - one.uptake, 0.0) - one.pace * one.volume * target
        wanted = rest / target - exports.lost if target > 0.0 else math.inf
        found.append(asked_share(plan.changes, max(wanted, 0.0) * every / one.volume))
    return Estimate(found[0], found[1], found[2], "with the least, likely, most made")


def _alkalinity(ammonia: Estimate, setting: Setting, exports: Exports, nitrate: NutrientLevel) -> Estimate:
    """Equivalents a day: what nitrate takes, less what denitrification at the settled level and algae that grow on
    nitrate give back, one for each nitrogen.
    """
    parts = []
    for made, balance in zip((ammonia.low, ammonia.likely, ammonia.high), nitrate.balances, strict=True):
        settled = float(laws.settled_nutrient(balance)) if exports.denitrified > 0.0 else 0.0
        back = (exports.denitrified * setting.volume * settled + min(balance.uptake, balance.made)) / _NITRATE
        chalk = laws.nitrification_alkalinity(made) - laws.denitrification_alkalinity(back)
        parts.append(2.0 * float(chalk) / CHALK)
    return Estimate(parts[0], parts[1], parts[2], ammonia.basis)


CHALK = 100.087
"""g/mol of calcium carbonate, two equivalents. Source: IUPAC standard atomic weights."""
