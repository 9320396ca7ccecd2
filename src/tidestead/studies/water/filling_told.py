"""The first fill shown: a table for each source, the comparison, charts, figures, sentences."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Assumption, Column, Figure, Table, Working
from tidestead.core.charts import BarChart, Bars, Chart
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import System, show
from tidestead.physics import seawater
from tidestead.physics.structure.filling import HOLD_BETWEEN, HOLD_FULL
from tidestead.studies.checks import given
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import step
from tidestead.studies.water.batches import TEOS
from tidestead.studies.water.fill_facts import FillingFacts, SourceFill
from tidestead.studies.water.fill_hindrances import chlorine_words, hindrances_of
from tidestead.studies.water.rounds import stirring_assumed
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.wording import between

_HOUR = 3600.0
_FISH, _WARM = "until fish may come", "until it is salted and warm"


def _until(facts: FillingFacts) -> str:
    return _FISH if facts.cycling is not None else _WARM


def _money(facts: FillingFacts) -> str:
    return next((one.cost.currency for one in facts.told if one.cost is not None and one.cost.currency), "")


def _paid(one: SourceFill) -> float | None:
    total = None if one.cost is None else one.cost.total
    return None if total is None else total.likely


def _takes(one: SourceFill) -> float:
    return one.filled if one.ready is None else one.ready.likely


def figures_of(facts: FillingFacts) -> Iterator[Figure]:
    """Days and money by source."""
    for one in facts.told:
        key = one.supply.key
        if one.ready is not None:
            yield Figure(f"water.fill.{key}.fish", f"first fill by {key}: {_FISH}", one.ready, "s", COMPUTED)
        if one.cost is not None and one.cost.total is not None:
            words = f"first fill by {key}: cost of water, salt and warmth"
            yield Figure(f"water.fill.{key}.cost", words, one.cost.total, one.cost.currency, COMPUTED)


def tables_of(inputs: Inputs, setting: Setting, facts: FillingFacts) -> Iterator[Table]:
    """The comparison first, then each timetable."""
    yield _comparison(facts)
    if _money(facts):
        yield _costs(facts, _money(facts))
    columns = (Column("step"), Column("from", "s"), Column("to", "s"), Column("takes", "s"))
    for one in facts.told:
        rows: tuple[tuple[float | str | None, ...], ...] = tuple(
            (row.words, row.begin, row.end, row.end - row.begin) for row in one.steps
        )
        title = f"First fill by {one.supply.key}, {show(one.water, 'm3', inputs.system)} of its water, step by step"
        yield Table(f"water.fill.{one.supply.key}.steps", title, columns, rows, _note(inputs, setting, one))


def _note(inputs: Inputs, setting: Setting, one: SourceFill) -> str:
    """What hinders, as sentences."""
    return " ".join(f"{words[0].upper()}{words[1:]}." for words in hindrances_of(inputs, setting, one))


def _comparison(facts: FillingFacts) -> Table:
    """Time, water, salt, heat."""
    columns = [Column("source"), Column(_until(facts), "s")]
    if facts.cycling is not None:
        columns += [Column("at least", "s"), Column("at most", "s")]
    columns += [
        Column("water taken", "m3"),
        Column("salt mix", "kg"),
        Column("heat", "J"),
        Column("what takes longest"),
    ]
    note = "Heat that the water loses meanwhile is left out."
    if facts.cycling is not None:
        note += " What takes longest: before the filter begins to grow, which is the same by every source."
    rows = tuple(_row(one, facts) for one in facts.fills)
    return Table("water.fill.compared", "The first fill, source by source", tuple(columns), rows, note)


def _row(one: SourceFill, facts: FillingFacts) -> tuple[float | str | None, ...]:
    ready, recipe = one.ready, one.recipe
    silent = one.missing or recipe is None
    cells: list[float | str | None] = [one.supply.key, None if silent else _takes(one)]
    if facts.cycling is not None:
        cells += [None if ready is None else ready.low, None if ready is None else ready.high]
    before = [row for row in one.steps if row.end <= one.filled]
    longest = max(before, key=lambda row: row.end - row.begin, default=None)
    return (
        *cells,
        None if silent else one.supply.taken(one.water),
        None if silent or recipe is None else recipe.mix.likely,
        None if silent else one.heat or None,
        one.missing if longest is None else longest.words,
    )


def _costs(facts: FillingFacts, money: str) -> Table:
    """Of the sources that have a timetable."""
    heads = ("water", "salt", "heat", "in all")
    silent = any(map(_uncounted, facts.told))
    columns = (
        Column("source"),
        *(Column(words, money) for words in heads),
        *((Column("not counted"),) if silent else ()),
    )
    rows: list[tuple[float | str | None, ...]] = []
    for one in facts.told:
        cost = one.cost
        salt = None if cost is None or cost.salt is None else cost.salt.likely
        water, energy = (None, None) if cost is None else (cost.water, cost.energy)
        rest = (_uncounted(one),) if silent else ()
        rows.append((one.supply.key, water, salt, energy, _paid(one), *rest))
    note = "Nothing is counted for what has no price in the plan. A tanker's load is paid whole."
    return Table(
        "water.fill.costs", "What the first fill costs, source by source", columns, tuple(rows), note
    )


def charts_of(inputs: Inputs, facts: FillingFacts) -> Iterator[Chart]:
    """Time, and money where there are prices."""
    told, system = facts.told, inputs.system
    labels = tuple(one.supply.key for one in told)
    ends = [(one.ready.low, one.ready.high) if one.ready is not None else (one.filled,) * 2 for one in told]
    words = "; ".join(f"{one.supply.key} {show(_takes(one), 's', system)}" for one in told)
    yield BarChart(
        "water.fill.days",
        f"First fill: time {_until(facts)}",
        f"{words}.",
        "time",
        "s",
        (
            Bars(
                "time",
                tuple(map(_takes, told)),
                tuple(low for low, _ in ends),
                tuple(high for _, high in ends),
            ),
        ),
        labels,
        ribbon="" if facts.cycling is None else facts.cycling.basis,
    )
    money, costs = _money(facts), [_paid(one) for one in told]
    known = tuple(cost for cost in costs if cost is not None)
    if money and len(known) == len(told):
        pairs = zip(labels, known, strict=True)
        words = "; ".join(f"{key} {show(cost, money, system)}" for key, cost in pairs)
        bars = (Bars("cost", known),)
        yield BarChart("water.fill.cost", "First fill: cost", f"{words}.", "cost", money, bars, labels)


def assumptions_of(inputs: Inputs, facts: FillingFacts) -> Iterator[Assumption]:
    """Holds of the tests, stirring."""
    system = inputs.system
    if facts.tests:
        words = f"{show(HOLD_BETWEEN * _HOUR, 's', system)} at each quarter of the test fill"
        yield Assumption("holds of the first fill", words, "time to settle and to measure", PRACTICE)
    for one in facts.tests:
        if not one.said:
            words = show(HOLD_FULL * _HOUR, "s", system)
            yield Assumption(f"vessels.{one.vessel}.test.lasts", words, "how long it stands full", PRACTICE)
    yield from stirring_assumed(inputs.plan, system)


def workings_of(setting: Setting, facts: FillingFacts) -> Iterator[Working]:
    """Heat and time to warm all of it, for the coldest source."""
    warmed = [one for one in facts.told if one.heat > 0.0]
    if not warmed or facts.heaters <= 0.0:
        return
    one = min(warmed, key=lambda fill: fill.supply.temp_c)
    cold, kept = one.supply.temp_c, setting.temp_c
    rho = float(seawater.density(setting.sal_psu, cold))
    held = float(seawater.specific_heat(setting.sal_psu, 0.5 * (cold + kept)))
    numbers = (
        given("V", setting.volume, "m3"), given("rho", rho, "kg/m3", "fine"), given("c", held, "J/(kg K)", "fine"),
        given("T", kept, "degC"), given("T0", cold, "degC"),
    )  # fmt: skip
    heat = step("H", "heat for all the water", "H = V*rho*c*(T - T0)", numbers, (one.heat, "J"), TEOS)
    parts = (given("H", one.heat, "J"), given("P", facts.heaters, "W"))
    time = step("t", "all heaters, nothing lost", "t = H/P", parts, (one.heat / facts.heaters, "s"), COMPUTED)
    yield Working(f"first fill: warming it, from {one.supply.key}", (heat, time))


def cautions_of(inputs: Inputs, facts: FillingFacts) -> Iterator[str]:
    """What is left out or not known."""
    if facts.heaters > 0.0:
        yield (
            "Warming the first fill counts no heat lost to the air: in winter it takes longer, and a cover on the "
            "water helps most."
        )
    else:
        yield "The plan has no heaters, so that the time to warm the first fill is not counted: write [heaters.NAME]."
    for key in facts.untested:
        yield f"No test fill of {key} is counted: write vessels.{key}.test with level, water and lasts."
    for one in facts.fills:
        if one.missing:
            yield f"The first fill by {one.supply.key} has no timetable: {one.missing}."
    silent = dict.fromkeys(key for one in facts.told if one.cost is not None for key in one.cost.unpriced)
    if silent:
        yield f"The first fill counts nothing for what has no price: write {', '.join(silent)}."
    if facts.cycling is None:
        yield "How long the filter takes to grow is not counted in the first fill."
    yield (
        "Never leave the first fill running by itself; keep electricity away from it, and stop and drain when anything "
        "moves more than was told beforehand."
    )
    if inputs.plan.changes is None or inputs.plan.changes.pump is None:
        yield "Draining the test water counts no time: write changes.pump."


def told_of(inputs: Inputs, facts: FillingFacts) -> Iterator[str]:
    """The cheapest and the quickest, each with what its price leaves out and what must be done with its water."""
    told, system = facts.told, inputs.system
    quickest = min(told, key=_takes)
    paid = [one for one in told if _paid(one) is not None]
    if len(told) == 1 or not paid:
        yield f"First fill by {_said(quickest, facts, system)}."
        return
    cheapest = min(paid, key=lambda one: _paid(one) or 0.0)
    words = "cheapest" if not any(map(_uncounted, told)) else "cheapest by the prices in the plan"
    if cheapest is quickest:
        said = _said(quickest, facts, system, named=False)
        yield f"First fill: {quickest.supply.key} is both quickest and {words}, {said}."
        return
    yield (
        f"First fill: {words} {'' if words == 'cheapest' else 'is '}by {_said(cheapest, facts, system)}; quickest by "
        f"{_said(quickest, facts, system)}."
    )


def _uncounted(one: SourceFill) -> str:
    """ "the water of sea and tanker, its heat": what a cost leaves out, for the plan has no price for it."""
    named = {"salt.price": "its salt", "supplies.tariff": "its heat"}
    keys = () if one.cost is None else tuple(dict.fromkeys(one.cost.unpriced))
    waters = [key.removeprefix("sources.").removesuffix(".price") for key in keys if key not in named]
    parts = [f"the water of {' and '.join(waters)}"] if waters else []
    return ", ".join([*parts, *(named[key] for key in keys if key in named)])


def _said(one: SourceFill, facts: FillingFacts, system: System, named: bool = True) -> str:
    """As "sea, 210 EUR without the water of sea (no price in the plan), 45 to 90 days until fish may come"."""
    parts = [one.supply.key] if named else []
    paid, uncounted = _paid(one), _uncounted(one)
    if paid is not None and one.cost is not None:
        words = show(paid, one.cost.currency, system)
        parts.append(f"{words} without {uncounted} (no price in the plan)" if uncounted else words)
    time = show(one.filled, "s", system) if one.ready is None else between(one.ready, "s", system)
    parts.append(f"{time} {_until(facts)}")
    parts += [f"with {words}" for words in chlorine_words(one.supply, system)]
    return ", ".join(parts)
