"""Judging the stock: oxygen on the darkest night, ammonia against the filter; tables and figures of what is carried."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Column, Estimate, Figure, Table
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.checks import ENOUGH, At, Limit, above, below, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.water.life_sources import MERINO, NIJHOF, RUSTEN
from tidestead.studies.water.nutrients import NO_FEED, feed_row
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.stock_facts import Capacity, Load, StockFacts
from tidestead.studies.water.stock_steps import A_DAY, ammonia_step, ceiling_step, night_steps
from tidestead.studies.water.stocking import NO_FILTER, NO_FISH, warn_level

AT = At("stock", "stock", "water", "fish")
_NIGHT = "oxygen on a long dark night, pumps running"
_FILTER = "ammonia of the feed against the filter"
_READ_IT = "one reading with a probe and the pumps off for an hour (measured.uptake) narrows this most"


def stock_section(inputs: Inputs, setting: Setting, facts: StockFacts) -> Section:
    """Checks of now and of the grown stock."""
    plan = inputs.plan
    return Section(
        judged=tuple(_judged(plan, facts)),
        figures=tuple(_figures(facts)),
        tables=tuple(_tables(facts)),
        assumptions=tuple(_assumptions(plan, setting, facts)),
        cautions=tuple(_cautions(facts)),
        told=tuple(_told(facts, inputs.system)),
    )


def _judged(plan: Plan, facts: StockFacts) -> Iterator[Judged]:
    yield _oxygen(plan, facts, facts.now, grown=False)
    if facts.mass_grown > facts.mass_now:
        yield _oxygen(plan, facts, facts.grown, grown=True)
    yield _filter(facts, facts.now, grown=False)
    if facts.grown.feed != facts.now.feed:
        yield _filter(facts, facts.grown, grown=True)


def _at(grown: bool) -> At:
    return replace(AT, words="stock once grown" if grown else "stock now")


def _oxygen(plan: Plan, facts: StockFacts, load: Load, *, grown: bool) -> Judged:
    level, source = warn_level(plan)
    name, at = "oxygen_grown" if grown else "oxygen", _at(grown)
    if load.oxygen is None:
        why = (
            _silent(facts)
            or "no way that oxygen comes in could be told: say how large the open water is, vessels"
        )
        return Judged(unproven(at, name, _NIGHT, "mg/L", why, source))
    advice = f"more open or stirred water, an air pump, or fewer animals; {_READ_IT}"
    cautions = (*(one for one in facts.missing if one not in (NO_FISH,)), *_doubts(facts))
    limit = Limit(level, source, "the level at which somebody should be told")
    check = above(at, name, _NIGHT, load.oxygen, "mg/L", limit, advice=advice, cautions=cautions)
    return Judged(check, night_steps(plan, facts, load, grown), by_level=False)


def _doubts(facts: StockFacts) -> tuple[str, ...]:
    """What the night rests on that nobody has measured."""
    if facts.measured:
        return ()
    told = _words(table("oxygen")["falling-water"].tag("cautions", ()))
    return (*told, "What corals breathe on their ground differs tenfold among papers.")


def _words(tag: object) -> tuple[str, ...]:
    return tuple(map(str, tag)) if isinstance(tag, tuple) else ()


def _filter(facts: StockFacts, load: Load, *, grown: bool) -> Judged:
    name, at = "filter_grown" if grown else "filter", _at(grown)
    if load.ammonia is None or load.feed is None or facts.area <= 0.0:
        why = NO_FEED if load.ammonia is None else NO_FILTER
        return Judged(unproven(at, name, _FILTER, "g/day", why, NIJHOF))
    made = load.ammonia.times(A_DAY)
    ceiling = A_DAY * facts.ceiling
    needed = made.high / (ceiling / facts.area) / ENOUGH
    advice = f"{math.ceil(needed - 1e-9)} m2 of grown surface in all (filters.NAME.surface), or less feed"
    cautions = (
        "Films that were never fed so much take months to grow to it; organic rot costs them 30 to 50 %.",
        *_words(table("water_limits")["nitrifiers"].tag("cautions", ())),
    )
    limit = Limit(ceiling, NIJHOF, "the most that grown films took with ammonia in plenty")
    check = below(at, name, _FILTER, made, "g/day", limit, advice=advice, cautions=cautions)
    steps = (ceiling_step(facts), ammonia_step(load.feed, facts.protein, made.likely))
    return Judged(check, steps, by_level=False)


def _silent(facts: StockFacts) -> str:
    return next(iter(facts.missing), "")


def _figures(facts: StockFacts) -> Iterator[Figure]:
    yield Figure("water.stock.uptake", "oxygen that everything takes now", facts.uptake, "g/h", PRACTICE)
    yield Figure("water.stock.mass", "fish now", Estimate.exact(facts.mass_now), "kg", COMPUTED)
    yield Figure("water.stock.grown", "fish once grown", Estimate.exact(facts.mass_grown), "kg", COMPUTED)
    if facts.ammonia is not None:
        words = "ammonia nitrogen that the feed becomes"
        yield Figure(
            "water.stock.ammonia",
            words,
            facts.ammonia.times(A_DAY),
            "g/day",
            feed_row().figure("ammonia").source,
        )
    if facts.clearance is not None:
        words = "water that the filter frees of ammonia in an hour"
        yield Figure("water.stock.clearance", words, facts.clearance, "m3/h", RUSTEN)
    for one in facts.capacities:
        if one.mass is not None:
            yield Figure(
                f"water.stock.carried.{one.by}",
                f"fish carried, by {one.words}",
                one.mass,
                "kg",
                COMPUTED,
            )


def _tables(facts: StockFacts) -> Iterator[Table]:
    columns = (Column("oxygen"), Column("low", "g/h"), Column("likely", "g/h"), Column("high", "g/h"))
    loads = [("now", facts.now)] + ([("grown", facts.grown)] if facts.mass_grown > facts.mass_now else [])
    rows: list[tuple[float | str | None, ...]] = []
    for word, load in loads:
        parts = [("fish", load.fish), ("corals in the dark", facts.coral_uptake), ("bacteria", load.bacteria)]
        parts.append(("all, by your reading" if facts.measured else "all", load.uptake))
        rows += [(f"{what}, {word}", one.low, one.likely, one.high) for what, one in parts]
    note = (
        "Fish at rest, fed on the mean of a day, and fed at the worst hour; as many fish now as once grown, smaller. "
        "Bacteria turn ammonia and eat what fish leave of the feed, at most all that it can burn; so their most goes "
        "with the least of the fish. All: fish, feed and corals each at its ends, as squares."
    )
    yield Table("water.stock.breath", "what takes oxygen", columns, tuple(rows), note)
    if facts.exchanges:
        yield _exchange_table(facts)
    yield _carried_table(facts)


def _exchange_table(facts: StockFacts) -> Table:
    heads = ("low", "likely", "high")
    columns = (Column("where"), Column("how"), *(Column(head, "m3/h") for head in heads))
    rows = tuple(
        (one.where, one.how, one.clears.low, one.clears.likely, one.clears.high) for one in facts.exchanges
    )
    note = "Water brought back to saturation in an hour while the pumps run. Surfaces that jets break are a guess."
    return Table("water.stock.air", "what brings oxygen in", columns, rows, note)


def _carried_table(facts: StockFacts) -> Table:
    columns = (
        Column("limited by"), Column("least", "kg"), Column("likely", "kg"), Column("most", "kg"), Column("why not"),
    )  # fmt: skip
    rows = tuple(_carried_row(one) for one in facts.capacities)
    note = "Fish with the feed of the plan by weight. Room to swim and temper of the fish ask for fewer."
    return Table("water.stock.carried", "fish that the water carries", columns, rows, note)


def _carried_row(one: Capacity) -> tuple[float | str | None, ...]:
    if one.mass is None:
        return (one.words, None, None, None, one.why)
    return (one.words, one.mass.low, one.mass.likely, one.mass.high, "")


def _assumptions(plan: Plan, setting: Setting, facts: StockFacts) -> Iterator[Assumption]:
    row = feed_row()
    if plan.feed is not None and plan.feed.protein is None:
        figure = row.figure("protein")
        yield Assumption(
            "feed.protein", f"{100.0 * row.si('protein'):.0f} %", "as dry feeds have it", figure.source
        )
    if facts.grown.feed is not None and facts.grown.feed != facts.now.feed:
        words = f"{100.0 * row.si('ration'):.1f} % of their weight a day"
        yield Assumption(
            "feed.daily", words, "for fish once grown, who get more than now", row.figure("ration").source
        )
    for key, one in plan.filters.items():
        if one.grown is None and one.vessel in setting.volumes:
            yield Assumption(
                f"filters.{key}.grown", "all of it", "the surface is taken to be grown over", PRACTICE
            )
    if not facts.measured and facts.uptake.high > 0.0:
        breath = table("water_limits")["calcifiers"].figure("breath")
        if facts.coral_uptake.high > 0.0:
            yield Assumption(
                "measured.uptake", "1 g/(m2 h) of corals (0.3 to 2.9)", "nobody has read yours", breath.source
            )
        words = "0.3, 0.5 and 1.0 kg for each kg of feed"
        yield Assumption(
            "measured.uptake", words, "oxygen of what lives on the feed", row.figure("oxygen").source
        )


def _cautions(facts: StockFacts) -> Iterator[str]:
    yield from facts.missing
    if facts.mass_grown > 0.0:
        yield (
            "What fish breathe was measured on flatfish of 3 to 166 g at a temperature the abstract does not tell "
            f"({MERINO.work}). Livelier fish take more."
        )


def _told(facts: StockFacts, system: System) -> Iterator[str]:
    least = facts.governs
    if facts.uptake.high > 0.0:
        ends = tuple(show(one, "g/h", system) for one in (facts.uptake.likely, facts.uptake.high))
        by = "by your reading" if facts.measured else f"up to {ends[1]}"
        yield f"Everything in the water takes about {ends[0]} of oxygen, {by}."
    if least is not None and least.mass is not None and facts.mass_grown > 0.0:
        pair = (least.mass.likely, facts.mass_grown)
        carried, grown = (show(one, "kg", system, "", pair) for one in pair)
        yield (
            f"Of oxygen, filter and nitrate, {least.words} sets the stock: about {carried} of fish, where {grown} are "
            "planned."
        )
