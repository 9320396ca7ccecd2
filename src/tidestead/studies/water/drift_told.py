"""Salt that goes with skimmate, splash and leaks: judged, worked, shown."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Column, Figure, Table, Working
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import System, show
from tidestead.physics.water import salts
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.water.wording import between
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.salt_facts import EvaporatingFacts
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import DAY, factor_of

_AT = At("drift", "salinity", "water", "losses")
_BETWEEN, _SETTLED = "drift from one change to the next", "where drift settles under the changes"


def drift_checks(facts: EvaporatingFacts) -> Iterator[Judged]:
    """From one change to the next, and for good."""
    drift = facts.drift
    why = facts.no_drift
    if drift is not None and drift.between is None:
        why = "the plan names no changes: write [changes] with share and every"
    if drift is None or drift.between is None or drift.settled is None:
        yield Judged(unproven(_AT, "between", _BETWEEN, "psu", why, YOURS), by_level=False)
        yield Judged(unproven(_AT, "settled", _SETTLED, "psu", why, YOURS), by_level=False)
        return
    change, steps = table("water_limits")["change"], table("fault_limits")["salinity"]
    limit = Limit(change.si("salts"), change.figure("salts").source, "a step that animals bear")
    advice = "salt water for part of the top-off, so that what is lost is made up with salt"
    yield Judged(below(_AT, "between", _BETWEEN, drift.between, "psu", limit, advice=advice), by_level=False)
    limit = Limit(steps.si("warn"), steps.figure("warn").source, "off what is kept: somebody should be told")
    advice = f"new water {drift.saltier or 0.0:.2g} psu saltier than what is kept, or salt once a week"
    yield Judged(below(_AT, "settled", _SETTLED, drift.settled, "psu", limit, advice=advice), by_level=False)


def drift_working(plan: Plan, setting: Setting, facts: EvaporatingFacts) -> Iterator[Working]:
    """A day, from one change to the next, for good, and the salt of a week."""
    drift = facts.drift
    if drift is None:
        return
    psu = given("S", setting.sal_psu, "psu")
    flow, volume = given("q", drift.flow * DAY, "m3"), given("V", setting.volume, "m3")
    lines = [
        step(
            "d", "fall of salinity in a day, q lost in it", "d = S*q/V", (psu, flow, volume),
            (drift.daily, "psu"), BALANCE,
        )
    ]  # fmt: skip
    if plan.changes is not None and drift.between is not None and drift.settled is not None:
        days = float(plan.changes.every) / DAY
        numbers = (psu, flow, volume, given("n", days, "count"))
        formula, meaning = "D = S*(1 - exp(-q*n/V))", "fall in n days, from one change to the next"
        lines.append(step("D", meaning, formula, numbers, (drift.between, "psu"), BALANCE))
        share = drift.between / drift.settled if drift.settled > 0.0 else 1.0
        parts = (given("D", drift.between, "psu"), given("g", share, "1"))
        meaning = "fall that the changes settle at, g the share of old water that each takes"
        lines.append(step("D_end", meaning, "D_end = D/g", parts, (drift.settled, "psu"), BALANCE))
    factor, _ = factor_of(plan)
    each = float(salts.salt_per_volume(setting.sal_psu, setting.temp_c))
    mixes = (flow, given("c", each, "kg/m3"), given("f", factor.likely, "1"))
    meaning = "dry mix that holds it for a week, c the salt in the water and f the mix for it"
    lines.append(step("m", meaning, "m = 7*q*c*f", mixes, (drift.weekly.likely, "kg"), BALANCE))
    yield Working("salinity: what losses take", tuple(lines))


def drift_figures(facts: EvaporatingFacts) -> Iterator[Figure]:
    """Salt to add."""
    if facts.drift is not None:
        words = "salt mix a week that makes up for skimmate, splash and leaks"
        yield Figure("water.drift.salt", words, facts.drift.weekly, "kg", COMPUTED)


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
