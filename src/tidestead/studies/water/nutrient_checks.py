"""Judging nitrate and phosphate: where they go, when they pass what is wanted, what would hold them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.catalog import Row
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
from tidestead.studies.water.nutrient_ways import holding_words
from tidestead.studies.water.nutrients import NutrientFacts, NutrientLevel, feed_row, nitrate_target
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY
from tidestead.studies.water.takings import algae, granulate
from tidestead.studies.water.wording import percent

AT = At("nutrients", "nutrients", "water", "feed")
YEARS = 2.0
_POINTS = 49
_YEAR = 365.25
_NO_SINKS = (
    "Nitrate that dead zones of rock and sand breathe away is not counted where the plan does not tell it: fit "
    "filters.NAME.denitrifies from your own log."
)
_NO_UPTAKE = (
    "What corals, and algae that nobody takes out, build in is not counted: the level is an upper bound."
)
_MEANS = (
    "Granulates bind much at first and little at last, and their means are counted: test behind them, and renew a load "
    "once it lets phosphate through."
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
        cautions=tuple(_cautions(facts, levels)),
        told=tuple(_told(one, facts, system) for one in levels),
    )


def _cautions(facts: NutrientFacts, levels: list[NutrientLevel]) -> Iterator[str]:
    """Sinks that are not told, and levels that are brought to nothing."""
    if facts.exports.denitrified <= 0.0:
        yield _NO_SINKS
    for one in levels:
        if one.taken.likely > one.made.likely:
            yield (
                f"By the likely numbers {_takers(facts, one)} can take all the {one.name} that is made, and "
                "corals starve without any: begin with a part of it, test each week, and stay under what is wanted, "
                "not at nothing."
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
    if level.name == "phosphate" and any(one.path.startswith("adsorbers") for one in facts.exports.takings):
        cautions = (_MEANS, _NO_UPTAKE)
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


def _figures(facts: NutrientFacts) -> Iterator[Figure]:
    if facts.ammonia is not None and facts.oxygen is not None and facts.alkalinity is not None:
        source = feed_row().figure("ammonia").source
        yield Figure("water.nutrients.ammonia", "ammonia nitrogen made", facts.ammonia, "g/day", source)
        bound = Estimate.exact(facts.bound)
        words = "all nitrogen in the feed: no more can come of it"
        yield Figure("water.nutrients.bound", words, bound, "g/day", feed_row().figure("nitrogen").source)
        words = "oxygen that turning it to nitrate takes"
        yield Figure("water.nutrients.oxygen", words, facts.oxygen, "g/day", STOICHIOMETRY)
        alkalinity = facts.alkalinity.times(50.04)
        words = "alkalinity that it takes, as calcium carbonate"
        yield Figure("water.nutrients.alkalinity", words, alkalinity, "g/day", STOICHIOMETRY)
    for level in (facts.nitrate, facts.phosphate):
        if level is None:
            continue
        ident = f"water.nutrients.{level.name}"
        if level.taken.high > 0.0:
            words = f"{level.name} that {_takers(facts, level)} can take, where there is as much"
            yield Figure(f"{ident}.taken", words, level.taken, "g/day", BALANCE)
        if math.isfinite(level.settles_in):
            time = Estimate.exact(DAY * level.settles_in)
            yield Figure(
                f"{ident}.settles", f"until {level.name} has gone nine tenths of its way", time, "s", BALANCE
            )
        if level.passes is not None and math.isfinite(level.passes.high):
            words = f"until {level.name} passes what is wanted"
            yield Figure(f"{ident}.passes", words, level.passes.times(DAY), "s", BALANCE)
        if level.share.high <= 1.0:
            words = f"size of each change that would hold the {level.name} that is wanted"
            yield Figure(f"{ident}.holding", words, level.share, "1", COMPUTED, "share")


def _takers(facts: NutrientFacts, level: NutrientLevel) -> str:
    """What takes of it, in words."""
    kinds = {one.path.partition(".")[0] for one in facts.exports.takings}
    if level.name == "nitrate" or "adsorbers" not in kinds:
        return "harvested algae"
    return "granulates and harvested algae" if "harvests" in kinds else "granulates"


def _table(facts: NutrientFacts) -> Table:
    columns = (
        Column("nutrient"), Column("now", "mg/L"), Column("made", "g/day"), Column("taken at most", "g/day"),
        Column("in a year", "mg/L"),
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
            rows.append(
                (
                    one.name,
                    start,
                    one.made.likely,
                    one.taken.likely or None,
                    one.after(_YEAR)[1],
                    *ends,
                    one.target,
                    settles,
                )
            )
    note = (
        "As the ion, as tests print it. Changes are spread over the days: the level just before one is shown. Taken by "
        "granulates and harvested algae, as far as there is so much."
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
    yield from _takings(plan)
    if facts.exports.denitrified <= 0.0:
        yield Assumption(
            "filters.NAME.denitrifies", "nothing", "it can only be fitted from your own log", PRACTICE
        )
    yield Assumption("sources", "0 mg/L", "nitrate and phosphate of new water; test it", PRACTICE)


def _takings(plan: Plan) -> Iterator[Assumption]:
    """What loads and harvests are silent on."""
    for key, load in plan.adsorbers.items():
        if load.binds is None:
            row = granulate(load.kind)
            why = "phosphorus that a load takes, by its weight; measure before and behind it"
            yield Assumption(f"adsorbers.{key}.binds", _ends(row, "binds"), why, row.figure("binds").source)
    for key, cut in plan.harvests.items():
        row = algae()
        for name, of in (
            ("dry", "the wet weight"),
            ("nitrogen", "the dry weight"),
            ("phosphorus", "the dry weight"),
        ):
            if getattr(cut, name) is None:
                source = row.figure(name).source
                yield Assumption(f"harvests.{key}.{name}", _ends(row, name), f"of {of}", source)


def _ends(row: Row, name: str) -> str:
    """A share with its range, in per cent."""
    low, likely, high = (100.0 * row.si(one) for one in (f"{name}_low", name, f"{name}_high"))
    return f"{likely:g} % ({low:g} to {high:g})"


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
        words += f"; changes of {percent(level.share.likely, 'up')} every {every} would just hold it, likely"
    return words + "."
