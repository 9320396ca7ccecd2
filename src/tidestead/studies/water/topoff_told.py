"""The top-off shown: months, salinity when it fails, figures, sentences."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Column, Estimate, Figure, Table
from tidestead.core.charts import BarChart, Bars, Chart, Curve, LineChart, Mark
from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.core.source import COMPUTED
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.salt_facts import EvaporatingFacts
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY
from tidestead.studies.water.wording import between


def topoff_figures(plan: Plan, facts: EvaporatingFacts) -> Iterator[Figure]:
    """Fresh water of a year, of the worst month, refills while the owner is away."""
    if facts.year is None or facts.draw is None:
        return
    words = "fresh water for the top-off in a year, losses among it"
    yield Figure("water.topoff.year", words, facts.year, "m3", COMPUTED)
    words = f"fresh water drawn in a day of {MONTHS[facts.worst]}, the worst month"
    yield Figure("water.topoff.worst", words, facts.draw, "m3/s", COMPUTED, "day")
    if facts.lasts is not None:
        yield Figure("water.topoff.lasts", "time the stock lasts then", facts.lasts, "s", COMPUTED)
    away = None if plan.response is None or plan.response.away is None else float(plan.response.away)
    if away is not None and facts.stock is not None:
        draw, each = facts.draw, away / facts.stock
        fills = Estimate(each * draw.low, each * draw.likely, each * draw.high, draw.basis)
        words = "times its stock is used up between two visits of the owner"
        yield Figure("water.topoff.refills", words, fills, "1", COMPUTED)


def topoff_tables(setting: Setting, facts: EvaporatingFacts) -> Iterator[Table]:
    """Months; salinity without top-off."""
    if facts.draw is None:
        return
    columns = (
        Column("month"), Column("evaporates", "m3/s", "day"), Column("P10", "m3/s", "day"),
        Column("P90", "m3/s", "day"), Column("in the month", "m3"),
    )  # fmt: skip
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (name, facts.likely[at], facts.low[at], facts.high[at], facts.likely[at] * DAY * MONTH_DAYS[at])
        for at, name in enumerate(MONTHS)
    )
    lost = 0.0 if facts.drift is None else facts.drift.flow
    note = f"From all the water together, mean of the month, {facts.basis}."
    if lost > 0.0:
        note += " What replaces skimmate, splash and leaks comes on top."
    yield Table("water.topoff.months", "What evaporates, month by month", columns, rows, note)
    yield _unstopped(setting, facts)


def _unstopped(setting: Setting, facts: EvaporatingFacts) -> Table:
    columns = (
        Column("without top-off for", "s"),
        Column("salinity", "psu"),
        Column("at worst", "psu"),
        Column("rise at worst", "psu"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    for one in facts.without:
        if one.salinity is None:
            rows.append((one.time, None, None, None))
        else:
            rows.append(
                (one.time, one.salinity.likely, one.salinity.high, one.salinity.high - setting.sal_psu)
            )
    note = (
        f"In {MONTHS[facts.worst]}, the worst month. The level falls in the vessel with the float valve first: its "
        "pump may run dry before salinity matters. Empty places: more than half the water would be gone."
    )
    return Table("water.topoff.failed", "Salinity when the top-off fails", columns, tuple(rows), note)


def topoff_charts(inputs: Inputs, setting: Setting, facts: EvaporatingFacts) -> Iterator[Chart]:
    """Months as bars, salinity over the days without."""
    if facts.draw is None:
        return
    system = inputs.system
    year = "" if facts.year is None else f" A year takes {between(facts.year, 'm3', system)} of fresh water."
    least, most = (pick(range(12), key=facts.likely.__getitem__) for pick in (min, max))
    low, high = (show(facts.likely[at], "m3/s", system, "day") for at in (least, most))
    yield BarChart(
        "water.topoff.months",
        "Evaporation by month",
        f"{low} in {MONTHS[least]}, {high} in {MONTHS[most]}.{year}",
        "evaporation",
        "m3/s",
        (Bars("evaporates", facts.likely, facts.low, facts.high),),
        ribbon=facts.basis,
        style="day",
    )
    points = [(0.0, Estimate.exact(setting.sal_psu))]
    points += [(one.time, one.salinity) for one in facts.without if one.salinity is not None]
    if len(points) > 1:
        yield _salinity(inputs.plan, setting, facts, points, system)


def _salinity(
    plan: Plan,
    setting: Setting,
    facts: EvaporatingFacts,
    points: list[tuple[float, Estimate]],
    system: System,
) -> LineChart:
    act = plan.thresholds.salinity_act or table("fault_limits")["salinity"].si("act")
    last, found = points[-1]
    told = (
        f"In {MONTHS[facts.worst]} salinity goes from {show(setting.sal_psu, 'psu', system)} to "
        f"{show(found.likely, 'psu', system)} in {show(last, 's', system)}, at worst {show(found.high, 'psu', system)}."
    )
    likely, low, high = (tuple(getattr(one, end) for _, one in points) for end in ("likely", "low", "high"))
    return LineChart(
        "water.topoff.failed",
        "Salinity when the top-off fails",
        told,
        "salinity",
        "psu",
        (Curve("salinity", tuple(time for time, _ in points), likely, low, high),),
        along="time without top-off",
        along_unit="s",
        ribbon=facts.basis,
        limits=(Mark(setting.sal_psu + act, "act at:"),),
    )


def topoff_told(inputs: Inputs, facts: EvaporatingFacts) -> Iterator[str]:
    """What goes off, and how long the stock lasts."""
    if facts.draw is None:
        return
    system, draw = inputs.system, facts.draw
    drawn = between(draw, "m3/s", system, "day")
    words = f"The top-off draws {drawn} in {MONTHS[facts.worst]}, the worst month"
    if facts.lasts is not None and facts.stock is not None:
        words += f"; its {show(facts.stock, 'm3', system)} last {between(facts.lasts, 's', system)}"
    elif facts.endless:
        words += "; no stock ends it but the float"
    yield f"{words}."
