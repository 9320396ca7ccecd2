"""Judging nitrate and phosphate: where they go, when they pass what is wanted, what would hold them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.answer import Assumption, Column, Estimate, Figure, Table
from tidestead.core.charts import Curve, LineChart, Mark
from tidestead.core.source import COMPUTED, PRACTICE, Source
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.water.life_sources import BALANCE, STOICHIOMETRY
from tidestead.studies.water.nutrient_steps import level_steps
from tidestead.studies.water.nutrients import NutrientFacts, NutrientLevel, feed_row, nitrate_target
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, scaled

AT = At("nutrients", "nutrients", "water", "feed")
YEARS = 2.0
_POINTS = 49
_SLIP = 1e-9
_ROUNDED = 5e-3
"""Most that three figures shown lie above the number they stand for, as a share of it."""
_YEAR = 365.25
_NO_SINKS = (
    "Nitrate that dead zones of rock and sand breathe away is not counted where the plan does not tell it: fit "
    "filters.NAME.denitrifies from your own log."
)
_NO_UPTAKE = (
    "What corals and algae build in, and what a reactor binds, is not counted: the level is an upper bound."
)


def nutrient_section(inputs: Inputs, _setting: Setting, facts: NutrientFacts) -> Section:
    """Both levels, what they cost, and the nitrate of two years."""
    plan, system = inputs.plan, inputs.system
    levels = [one for one in (facts.nitrate, facts.phosphate) if one is not None]
    if not levels:
        source = nitrate_target(plan)[1]
        return Section(judged=tuple(_silent(name, facts, source) for name in ("nitrate", "phosphate")))
    return Section(
        judged=tuple(_judged(facts, one, system) for one in levels),
        figures=tuple(_figures(facts)),
        tables=(_table(facts),),
        charts=tuple(_chart(one, system) for one in levels if one.name == "nitrate"),
        assumptions=tuple(_assumptions(plan, facts)),
        cautions=() if facts.exports.denitrified > 0.0 else (_NO_SINKS,),
        told=tuple(_told(one, facts, system) for one in levels),
    )


def _silent(name: str, facts: NutrientFacts, source: Source) -> Judged:
    return Judged(
        unproven(AT, name, f"{name} that it comes to", "mg/L", facts.missing, source), by_level=False
    )


def _judged(facts: NutrientFacts, level: NutrientLevel, system: System) -> Judged:
    includes = "your own target" if level.target_source.work == "your plan" else "borne by a mixed tank"
    limit = Limit(level.target, level.target_source, includes)
    cautions: tuple[str, ...] = (_NO_UPTAKE,)
    if level.name == "nitrate" and facts.exports.denitrified <= 0.0:
        cautions = (_NO_SINKS, _NO_UPTAKE)
    what = f"{level.name} that it comes to" + ("" if math.isfinite(level.settled.high) else " in ten years")
    check = below(
        AT,
        level.name,
        what,
        level.judged,
        "mg/L",
        limit,
        advice=holding_words(facts, level, system),
        cautions=cautions,
    )
    return Judged(check, level_steps(facts, level), by_level=False)


def holding_words(facts: NutrientFacts, level: NutrientLevel, system: System) -> str:
    """What would hold the target with the most that may be made, for that is what the check is judged by."""
    every = show((facts.exports.every or 7.0) * DAY, "s", system)
    ways = []
    if level.share.likely < 1.0:
        most = f", {_percent(level.share.high)} with the most made" if level.share.high < 1.0 else ""
        ways.append(f"changes of {_percent(level.share.likely)} every {every}{most}")
    else:
        ways.append(f"something beside changes, for even all the water every {every} would not hold it")
    one = level.balances[2]
    leaves = level.target * (one.renewed + one.pace * one.volume)
    if facts.feed is not None and 0.0 < leaves < one.made:
        fed = show(_down(facts.feed * leaves / one.made), "kg/s", system)
        ways.append(f"feed of {fed} with the changes as they are")
    if level.name == "nitrate" and one.made > 0.0 and level.target > 0.0:
        pace = _up(max((one.made / level.target - one.renewed) / one.volume, 0.0))
        ways.append(
            f"filters without air that take {pace:.2g} of the nitrate a day in all (filters.NAME.denitrifies)"
        )
    elif one.made > leaves:
        ways.append(f"media or algae that bind {_up(one.made - leaves):.2g} g of phosphate a day")
    return "; or ".join(ways)


def _up(amount: float) -> float:
    """The next number of two figures that is no smaller: what is bought must be enough."""
    if amount <= 0.0:
        return 0.0
    unit = 10.0 ** (math.floor(math.log10(amount)) - 1)
    return math.ceil(amount / unit - _SLIP) * unit


def _down(amount: float) -> float:
    """A little less, so that the three figures shown are no more than it."""
    return amount * (1.0 - _ROUNDED)


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _figures(facts: NutrientFacts) -> Iterator[Figure]:
    if facts.ammonia is not None and facts.oxygen is not None and facts.alkalinity is not None:
        source = feed_row().figure("ammonia").source
        yield Figure("water.nutrients.ammonia", "ammonia nitrogen made", facts.ammonia, "g/day", source)
        bound = Estimate.exact(facts.bound)
        words = "all nitrogen in the feed: no more can come of it"
        yield Figure("water.nutrients.bound", words, bound, "g/day", feed_row().figure("nitrogen").source)
        words = "oxygen that turning it to nitrate takes"
        yield Figure("water.nutrients.oxygen", words, facts.oxygen, "g/day", STOICHIOMETRY)
        alkalinity = scaled(facts.alkalinity, 50.04)
        words = "alkalinity that it takes, as calcium carbonate"
        yield Figure("water.nutrients.alkalinity", words, alkalinity, "g/day", STOICHIOMETRY)
    for level in (facts.nitrate, facts.phosphate):
        if level is None:
            continue
        ident = f"water.nutrients.{level.name}"
        if math.isfinite(level.settles_in):
            time = Estimate.exact(DAY * level.settles_in)
            yield Figure(
                f"{ident}.settles", f"until {level.name} has gone nine tenths of its way", time, "s", BALANCE
            )
        if level.passes is not None and math.isfinite(level.passes.high):
            words = f"until {level.name} passes what is wanted"
            yield Figure(f"{ident}.passes", words, scaled(level.passes, DAY), "s", BALANCE)
        if level.share.high <= 1.0:
            words = f"size of each change that would hold the {level.name} that is wanted"
            yield Figure(f"{ident}.holding", words, level.share, "1", COMPUTED, "share")


def _table(facts: NutrientFacts) -> Table:
    columns = (
        Column("nutrient"), Column("now", "mg/L"), Column("made", "g/day"), Column("in a year", "mg/L"),
        Column("settles at, least", "mg/L"), Column("likely", "mg/L"), Column("most", "mg/L"),
        Column("wanted at most", "mg/L"), Column("nine tenths of the way", "s"),
    )  # fmt: skip
    rows: list[tuple[float | str | None, ...]] = []
    for one in (facts.nitrate, facts.phosphate):
        if one is not None:
            ends = [
                end if math.isfinite(end) else "never"
                for end in (one.settled.low, one.settled.likely, one.settled.high)
            ]
            settles = DAY * one.settles_in if math.isfinite(one.settles_in) else "never"
            start = one.start if one.start_told else None
            rows.append((one.name, start, one.made.likely, one.after(_YEAR)[1], *ends, one.target, settles))
    note = (
        "As the ion, as tests print it. Changes are spread over the days: the level just before one is shown."
    )
    return Table("water.nutrients.levels", "where nutrients go", columns, tuple(rows), note)


def _chart(level: NutrientLevel, system: System) -> LineChart:
    days = tuple(YEARS * _YEAR * at / (_POINTS - 1) for at in range(_POINTS))
    runs = [level.after(day) for day in days]
    low, likely, high = (tuple(run[part] for run in runs) for part in range(3))
    curve = Curve("nitrate", tuple(DAY * day for day in days), likely, low, high)
    ends = (likely[-1], low[-1], high[-1])
    now, then, least, most = (
        show(one, "mg/L", system, "", (level.start, *ends)) for one in (level.start, *ends)
    )
    told = f"From {now} now to {then} in two years ({least} to {most}), where {level.target:g} mg/L is wanted at most."
    return LineChart(
        "water.nutrients.nitrate",
        "Nitrate over two years, changes spread over the days",
        told,
        "nitrate",
        "mg/L",
        (curve,),
        along="from now",
        along_unit="s",
        ribbon="least to most that feed makes of it",
        limits=(Mark(level.target, "wanted at most:"),),
    )


def _assumptions(plan: Plan, facts: NutrientFacts) -> Iterator[Assumption]:
    row = feed_row()
    if plan.water.nitrate is None:
        yield Assumption("water.nitrate", "0 mg/L", "nobody has told what there is now", PRACTICE)
    if plan.water.phosphate is None:
        yield Assumption("water.phosphate", "0 mg/L", "nobody has told what there is now", PRACTICE)
    if plan.feed is not None and plan.feed.phosphorus is None:
        words = f"{100.0 * row.si('phosphorus'):.1f} %"
        yield Assumption("feed.phosphorus", words, "as dry feeds have it", row.figure("phosphorus").source)
    if facts.exports.every <= 0.0:
        yield Assumption("changes", "none", "the plan tells no changes of water", PRACTICE)
    if facts.exports.denitrified <= 0.0:
        yield Assumption(
            "filters.NAME.denitrifies", "nothing", "it can only be fitted from your own log", PRACTICE
        )
    yield Assumption("sources", "0 mg/L", "nitrate and phosphate of new water; test it", PRACTICE)


def _told(level: NutrientLevel, facts: NutrientFacts, system: System) -> str:
    """One sentence on one nutrient."""
    judged, target = level.judged, level.target
    pair = (judged.likely, judged.high, target)
    likely, high, wanted = (show(one, "mg/L", system, "", pair) for one in pair)
    where = (
        f"comes to about {likely}"
        if math.isfinite(level.settled.likely)
        else f"never settles: {likely} in ten years"
    )
    words = f"{level.name.capitalize()} {where} (up to {high}) where {wanted} is wanted at most"
    if level.passes is not None and math.isfinite(level.passes.likely):
        words += f"; from now it passes that in about {show(DAY * level.passes.likely, 's', system)}"
    if 0.0 < level.share.likely < 1.0 and judged.likely > target:
        every = show((facts.exports.every or 7.0) * DAY, "s", system)
        words += f"; changes of {_percent(level.share.likely)} every {every} would hold it"
    return words + "."
