"""Salt that goes with skimmate, splash and leaks: judged, worked, shown."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Column, Estimate, Figure, Given, Step, Table, Working
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import System, show
from tidestead.physics.water import salts
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.salt_facts import DriftFacts, EvaporatingFacts
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY, factor_of
from tidestead.studies.water.wording import between

_AT = At("drift", "salinity", "water", "losses")
_BETWEEN = "drift from one change to the next"
_TOLD = 0.5
"""Fall under the changes that is told as a caution, psu: what an instrument shows. Own choice."""


def drift_checks(plan: Plan, setting: Setting, facts: EvaporatingFacts) -> Iterator[Judged]:
    """From one change to the next."""
    drift, why = facts.drift, facts.no_drift
    if drift is not None and drift.between is None:
        why = "the plan names no changes: write [changes] with share and every"
    if drift is None or drift.between is None or plan.changes is None:
        yield Judged(unproven(_AT, "between", _BETWEEN, "psu", why, YOURS), by_level=False)
        return
    row = table("water_limits")["change"]
    limit = Limit(row.si("salts"), row.figure("salts").source, "a step that animals bear")
    advice = "salt once a week, or salt water for part of the top-off"
    check = below(_AT, "between", _BETWEEN, drift.between, "psu", limit, advice=advice)
    steps = (
        _day_step(setting, drift),
        _between_step(setting, drift, float(plan.changes.every) / DAY, drift.between),
    )
    yield Judged(check, steps, by_level=False)


def _put(setting: Setting, drift: DriftFacts) -> tuple[Given, Given, Given]:
    """Salinity, what is lost in a day, all the water."""
    return (
        given("S", setting.sal_psu, "psu"), given("q", drift.flow * DAY, "m3"), given("V", setting.volume, "m3"),
    )  # fmt: skip


def _day_step(setting: Setting, drift: DriftFacts) -> Step:
    meaning = "fall of salinity in a day, q lost in it"
    return step("d", meaning, "d = S*q/V", _put(setting, drift), (drift.daily, "psu"), BALANCE)


def _between_step(setting: Setting, drift: DriftFacts, days: float, falls: float) -> Step:
    numbers = (*_put(setting, drift), given("n", days, "count"))
    formula, meaning = "D = S*(1 - exp(-q*n/V))", "fall in n days, from one change to the next"
    return step("D", meaning, formula, numbers, (falls, "psu"), BALANCE)


def drift_working(plan: Plan, setting: Setting, facts: EvaporatingFacts) -> Iterator[Working]:
    """The salt of a week, and where the changes alone let it settle."""
    drift = facts.drift
    if drift is None:
        return
    factor, _ = factor_of(plan)
    each = float(salts.salt_per_volume(setting.sal_psu, setting.temp_c))
    flow = given("q", drift.flow * DAY, "m3")
    mixes = (flow, given("c", each, "kg/m3"), given("f", factor.likely, "1"))
    meaning = "dry mix that holds it for a week: c the salt in the water, f the mix for it, q lost in a day"
    lines = [step("m", meaning, "m = 7*q*c*f", mixes, (drift.weekly.likely, "kg"), BALANCE)]
    if drift.between is not None and drift.settled:
        lost = drift.between / setting.sal_psu
        share = (drift.between / drift.settled - lost) / (1.0 - lost)
        parts = (
            given("D", drift.between, "psu"),
            given("g", share, "1"),
            given("S", setting.sal_psu, "psu"),
        )
        meaning = (
            "fall that changes alone settle at, just before one: D lost from one to the next at S, g the share of old "
            "water that each takes"
        )
        formula = "D_end = D/(g + (1 - g)*D/S)"
        lines.append(step("D_end", meaning, formula, parts, (drift.settled, "psu"), BALANCE))
    yield Working("salinity: what losses take", tuple(lines))


def drift_cautions(facts: EvaporatingFacts) -> Iterator[str]:
    """New water as salty as what is kept never brings back what was lost before."""
    drift = facts.drift
    if drift is not None and drift.settled is not None and drift.settled > _TOLD:
        yield (
            "New water mixed to the kept salinity makes up for only a part of the salt that skimmate and splash take: "
            f"in the end salinity stands {drift.settled:.2g} psu too low. Mix it {drift.saltier or 0.0:.2g} psu "
            "saltier, or add salt once a week, and measure."
        )


def drift_figures(facts: EvaporatingFacts) -> Iterator[Figure]:
    """Salt to add."""
    if facts.drift is not None:
        words = "salt mix a week that makes up for skimmate, splash and leaks"
        yield Figure("water.drift.salt", words, facts.drift.weekly, "kg", COMPUTED)
        if facts.drift.settled is not None:
            words = "salinity that changes alone let it fall by in the end"
            yield Figure("water.drift.settles", words, Estimate.exact(facts.drift.settled), "psu", COMPUTED)


def drift_table(setting: Setting, facts: EvaporatingFacts) -> Iterator[Table]:
    """What each loss does, and all of them."""
    drift = facts.drift
    if drift is None:
        return
    columns = (
        Column("what is lost"), Column("a day", "m3/s", "day"), Column("salinity falls in a day", "psu"),
        Column("in a month of 30 days", "psu"),
    )  # fmt: skip
    rows = [(name, *_falls(setting, flow)) for name, flow in drift.lost]
    if len(rows) > 1:
        rows.append(("all of it", *_falls(setting, drift.flow)))
    note = "Salt water that goes for good and is made up with fresh water, no change meanwhile."
    yield Table("water.drift", "Salt that is lost", columns, tuple(rows), note)


def _falls(setting: Setting, flow: float) -> tuple[float, float, float]:
    psu, volume, daily = setting.sal_psu, setting.volume, flow * DAY
    month = psu - float(salts.lost_salt_salinity(psu, volume, daily, 30.0))
    return flow, -float(salts.lost_salt_drift(psu, volume, daily)), month


def drift_told(facts: EvaporatingFacts, system: System) -> Iterator[str]:
    """What holds salinity."""
    drift = facts.drift
    if drift is None:
        return
    words = f"Losses take {show(drift.monthly, 'psu', system)} of salinity a month"
    if drift.settled is not None:
        words += f", and changes alone let it settle {show(drift.settled, 'psu', system)} too low"
    yield f"{words}: {between(drift.weekly, 'kg', system)} of salt mix a week holds it."
