"""Judging the ramp: whether the last week is carried, what stands on the way, and the water of quarantine."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Column, Estimate, Figure, Step, Table
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import System, show
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.life_sources import BALANCE, EBELING, RUSTEN
from tidestead.studies.water.ramp import FIRST, MOST_ROWS, NOTHING_TO_DO, WEEK, RampFacts, RampWeek
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, HOUR
from tidestead.studies.water.stock_facts import StockFacts
from tidestead.studies.water.stock_steps import Spare, carried_steps
from tidestead.studies.water.stocking import NO_FISH, warn_level

AT = At("ramp", "stocking", "water", "fish")
_LAST = "fish in the last week, against what is carried"
_WAY = "total ammonia at its highest while fish come"


def ramp_section(inputs: Inputs, setting: Setting, facts: RampFacts, stock: StockFacts) -> Section:
    """Weeks, checks, quarantine."""
    system = inputs.system
    return Section(
        judged=tuple(_judged(inputs, facts, stock, setting)),
        figures=tuple(_figures(facts)),
        tables=(_table(facts),) if facts.weeks else (),
        assumptions=tuple(_assumptions(inputs, facts)),
        cautions=tuple(_cautions(facts, system)),
        told=tuple(_told(facts, system)),
    )


def _judged(inputs: Inputs, facts: RampFacts, stock: StockFacts, setting: Setting) -> Iterator[Judged]:
    yield _last(inputs, facts, stock, setting)
    if facts.why != NOTHING_TO_DO:
        yield _on_the_way(facts)


def _last(inputs: Inputs, facts: RampFacts, stock: StockFacts, setting: Setting) -> Judged:
    """The likely carrying capacity; its worst is judged under stock."""
    if facts.capacity is None or facts.capacity.mass is None or stock.mass_grown <= 0.0:
        why = (
            NO_FISH
            if stock.mass_grown <= 0.0
            else next((one.why for one in stock.capacities if one.why), NO_FISH)
        )
        return Judged(unproven(AT, "last", _LAST, "kg", why, COMPUTED), by_level=False)
    words = f"likely limit by {facts.capacity.words}; its worst is judged under stock"
    limit = Limit(facts.capacity.mass.likely, COMPUTED, words)
    advice = "fewer or smaller fish, more grown surface in filters, more air"
    check = below(AT, "last", _LAST, Estimate.exact(stock.mass_grown), "kg", limit, advice=advice)
    found = Spare(warn_level(inputs.plan)[0], facts.warn, setting.temp_c)
    return Judged(check, carried_steps(stock, facts.capacity, found), by_level=False)


def _on_the_way(facts: RampFacts) -> Judged:
    source = table("fault_limits")["ammonia"].figure("warn").source
    if not facts.weeks or facts.warn is None:
        return Judged(unproven(AT, "ammonia", _WAY, "mg/L", facts.why, source), by_level=False)
    worst = max(facts.weeks, key=lambda one: one.tan.high)
    limit = Limit(
        facts.warn, source, "total, as nitrogen, that makes the un-ionised ammonia that warns", near=0.0
    )
    advice = "smaller lots, further apart; no feed on the day a lot comes"
    check = below(AT, "ammonia", _WAY, worst.tan, "mg/L", limit, advice=advice)
    return Judged(check, _peak_steps(facts, worst), by_level=False)


def _peak_steps(facts: RampFacts, worst: RampWeek) -> tuple[Step, ...]:
    """What the worst week's lot adds until the filter has grown to it."""
    before = worst.mass - worst.added
    if before <= 0.0 or worst.added <= 0.0:
        return ()
    share, settled = worst.added / before, worst.tan.likely - worst.peak
    lot = (given("M_1", worst.added, "kg"), given("M_0", before, "kg"))
    rise = (
        given("m", facts.made, "g/(kg day)"), given("M_0", before, "kg"), given("x", share, "1"),
        given("g", facts.growth, "1"), given("V", facts.volume, "m3"),
    )  # fmt: skip
    meaning = (
        "rise until the filter has grown to the lot; m: ammonia by the fish's weight, g: its growth in a week"
    )
    formula = "P = m*M_0/(ln(1 + g)/7*V)*((1 + x)*ln(1 + x) - x)"
    both = (given("S_N", settled, "mg/L"), given("P", worst.peak, "mg/L"))
    words = "total ammonia at its highest; S_N: what the grown filter settles at"
    return (
        step(
            "x",
            f"lot of week {worst.week} over the fish before it",
            "x = M_1/M_0",
            lot,
            (share, "1"),
            BALANCE,
        ),
        step("P", meaning, formula, rise, (worst.peak, "mg/L"), BALANCE),
        step("S", words, "S = S_N + P", both, (worst.tan.likely, "mg/L"), RUSTEN),
    )


def _figures(facts: RampFacts) -> Iterator[Figure]:
    if facts.weeks:
        time = Estimate.exact(WEEK * DAY * facts.weeks[-1].week)
        yield Figure("water.ramp.lasts", "until all fish are in", time, "s", RUSTEN)
    held = facts.quarantine
    if held is not None:
        yield Figure(
            "water.quarantine.ammonia", "ammonia nitrogen of a lot in quarantine", held.made, "g/day", EBELING
        )
        if held.to_act is not None:
            ends = Estimate(
                HOUR * held.to_act.low, HOUR * held.to_act.likely, HOUR * held.to_act.high, held.to_act.basis
            )
            words = "quarantine without a filter: until its ammonia must be acted on"
            yield Figure("water.quarantine.hours", words, ends, "s", EBELING)


def _table(facts: RampFacts) -> Table:
    columns = (
        Column("week"), Column("added", "kg"), Column("fish then", "kg"), Column("total ammonia at most", "mg/L"),
        Column("oxygen, dark night", "mg/L"),
    )  # fmt: skip
    shown = facts.weeks if len(facts.weeks) <= MOST_ROWS else (*facts.weeks[: MOST_ROWS - 1], facts.weeks[-1])
    rows = tuple((str(one.week), one.added or None, one.mass, one.tan.high, one.oxygen) for one in shown)
    note = (
        f"Weeks from now. The filter grows by at most {100.0 * facts.growth:.0f} % a week; a lot is no larger than "
        "keeps ammonia at its worst under the level that warns. Fish are fed by weight, and those that grow count as "
        "added. Likely oxygen. Test before each lot: ammonia and nitrite at nothing, or wait."
    )
    if len(facts.weeks) > MOST_ROWS:
        note += f" Of {len(facts.weeks)} lots the first {MOST_ROWS - 1} and the last are shown."
    return Table("water.ramp", "fish week by week", columns, rows, note)


def _assumptions(inputs: Inputs, facts: RampFacts) -> Iterator[Assumption]:
    if not facts.weeks:
        return
    row = table("water_limits")["nitrifiers"]
    words = f"{100.0 * facts.growth:.0f} % a week"
    yield Assumption("growth of the filter", words, "that fish may be added by", row.figure("weekly").source)
    if inputs.plan.quarantine is None:
        yield Assumption(
            "quarantine", "none", "the plan tells none: lots come each week, which is a risk", PRACTICE
        )
    elif inputs.plan.quarantine.most is None:
        words = f"{100.0 * FIRST:.0f} % of the grown stock"
        yield Assumption("quarantine.most", words, "that one lot may be", PRACTICE)


def _cautions(facts: RampFacts, system: System) -> Iterator[str]:
    held = facts.quarantine
    if held is not None and held.to_act is not None:
        low, likely = (show(HOUR * one, "s", system) for one in (held.to_act.low, held.to_act.likely))
        yield (
            f"Quarantine without a grown filter: a lot of {show(held.lot, 'kg', system)} brings its ammonia to the "
            f"level to act at in {low} to {likely}. Keep a ripe sponge for it, change water, or feed little."
        )


def _told(facts: RampFacts, system: System) -> Iterator[str]:
    if not facts.weeks:
        return
    last = facts.weeks[-1]
    lots = sum(1 for one in facts.weeks if one.added > 0.0)
    yield f"The stock is complete at {show(last.mass, 'kg', system)} in week {last.week}, in {lots} lots."
