"""Lines of working of changes: warmth, salt, a round of loads, nitrate."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.answer import Step, Working
from tidestead.core.source import COMPUTED
from tidestead.physics import seawater
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.batches import BALANCE, TEOS
from tidestead.studies.water.salt_facts import ChangingFacts, Effect, NitrateSeries, Round
from tidestead.studies.water.salt_steps import flow_step
from tidestead.studies.water.setting import Setting

ROUNDS = {"usual": "one change", "big": "half of all the water"}


def _parts(effect: Effect) -> tuple[Body, float, float]:
    """The water that stays, its weight, and that of the new."""
    kept = Body(effect.tank.volume - effect.new.volume, effect.tank.sal_psu, effect.tank.temp_c)
    return kept, float(salts.water_mass(kept)), float(salts.water_mass(effect.new))


def warmth_steps(effect: Effect) -> tuple[Step, ...]:
    """The tank in the middle of its band."""
    _, m1, m2 = _parts(effect)
    tank, new, after = effect.tank, effect.new, effect.after
    c1, c2 = (float(seawater.specific_heat(one.sal_psu, one.temp_c)) for one in (tank, new))
    numbers = (
        given("m1", m1, "kg"), given("c1", c1, "J/(kg K)", "fine"), given("T1", tank.temp_c, "degC"),
        given("m2", m2, "kg"), given("c2", c2, "J/(kg K)", "fine"), given("T2", new.temp_c, "degC"),
    )  # fmt: skip
    formula = "T = (m1*c1*T1 + m2*c2*T2)/(m1*c1 + m2*c2)"
    meaning = "temperature after it: what stays (1) and what is new (2), by weight and specific heat"
    ends = (given("T", after.temp_c, "degC"), given("T1", tank.temp_c, "degC"))
    return (
        step("T", meaning, formula, numbers, (after.temp_c, "degC"), BALANCE),
        step(
            "dT",
            "step of temperature",
            "dT = max(T - T1, T1 - T)",
            ends,
            (effect.warmth.likely, "K"),
            COMPUTED,
        ),
    )


def salt_steps(effect: Effect) -> tuple[Step, ...]:
    """New water off by what an instrument may be."""
    _, m1, m2 = _parts(effect)
    saltier = effect.tank.sal_psu
    numbers = (
        given("m1", m1, "kg"), given("S1", effect.tank.sal_psu, "psu"), given("m2", m2, "kg"),
        given("S2", saltier, "psu"),
    )  # fmt: skip
    formula = "S = (m1*S1 + m2*S2)/(m1 + m2)"
    meaning = "salinity after it, new water mixed to what is kept"
    ends = (given("S", effect.after.sal_psu, "psu"), given("S1", effect.tank.sal_psu, "psu"))
    return (
        step("S", meaning, formula, numbers, (effect.after.sal_psu, "psu"), BALANCE),
        step(
            "dS",
            "step of salinity",
            "dS = max(S - S1, S1 - S)",
            ends,
            (effect.salinity.likely, "psu"),
            COMPUTED,
        ),
    )


def round_working(name: str, one: Round, setting: Setting, facts: ChangingFacts) -> Working:
    """Loads, what is gone, hours and heat of one load."""
    return Working(f"{ROUNDS[name]}: loads, hours, heat", tuple(_round(one, setting, facts)))


def _round(one: Round, setting: Setting, facts: ChangingFacts) -> Iterator[Step]:
    numbers = (given("f", one.share, "1"), given("V", setting.volume, "m3"))
    yield step("A", "new water", "A = f*V", numbers, (one.amount, "m3"), COMPUTED)
    parts = (given("A", one.amount, "m3"), given("n", float(one.loads), "count"))
    yield step("v", "each load, n of them", "v = A/n", parts, (one.load, "m3"), COMPUTED)
    yield _gone(one, setting)
    if facts.supply is not None and one.making is not None:
        yield flow_step(facts.supply)
    if one.heat > 0.0 and facts.supply is not None:
        yield _heat(one, setting, facts.supply.temp_c)
    if one.one is not None:
        times = (
            given("t1", one.making or 0.0, "s"), given("t2", one.stirring, "s"), given("t3", one.warming or 0.0, "s"),
            given("t4", one.draining or 0.0, "s"), given("t5", one.pumping or 0.0, "s"),
        )  # fmt: skip
        meaning = "one load: made, stirred and warmed at the same time, drained, pumped over"
        yield step("t", meaning, "t = t1 + max(t2, t3) + t4 + t5", times, (one.one, "s"), COMPUTED)


def _gone(one: Round, setting: Setting) -> Step:
    """Share of the old water that is gone."""
    gone = one.load / setting.volume
    if math.isclose(one.replaced, 1.0 - (1.0 - gone) ** one.loads, rel_tol=1e-9):
        numbers = (
            given("v", one.load, "m3"),
            given("V", setting.volume, "m3"),
            given("n", float(one.loads), "count"),
        )
        meaning = "old water gone after it: later loads take out some of what the first brought"
        return step("g", meaning, "g = 1 - (1 - v/V)**n", numbers, (one.replaced, "1"), BALANCE)
    meaning = "old water gone after it: new water runs out with the old"
    return step("g", meaning, "g = 1 - exp(-f)", (given("f", one.share, "1"),), (one.replaced, "1"), BALANCE)


def _heat(one: Round, setting: Setting, cold_c: float) -> Step:
    rho = float(seawater.density(setting.sal_psu, cold_c))
    held = float(seawater.specific_heat(setting.sal_psu, 0.5 * (cold_c + setting.temp_c)))
    numbers = (
        given("v", one.load, "m3"), given("rho", rho, "kg/m3", "fine"), given("c", held, "J/(kg K)", "fine"),
        given("T", setting.temp_c, "degC"), given("T0", cold_c, "degC"),
    )  # fmt: skip
    return step("H", "heat that warms a load", "H = v*rho*c*(T - T0)", numbers, (one.heat, "J"), TEOS)


def nitrate_working(series: NitrateSeries) -> Working:
    """Changes of the plan's share, likely."""
    path = series.paths[0]
    start, goal, new = (
        given("C0", series.start, "mg/L"), given("C", series.goal, "mg/L"), given("C1", series.incoming.likely, "mg/L"),
    )  # fmt: skip
    if not math.isfinite(path.likely) or path.likely <= 0.0 or path.share >= 1.0:
        left = step(
            "d", "what new water leaves over the goal", "d = C1 - C", (new, goal),
            (series.incoming.likely - series.goal, "mg/L"), BALANCE,
        )  # fmt: skip
        return Working("nitrate: by a series of changes", (left,))
    exact = math.log((series.goal - series.incoming.likely) / (series.start - series.incoming.likely))
    exact /= math.log1p(-path.share)
    meaning = "changes until nitrate is down, to be rounded up; f the share of the old water that goes"
    one = step(
        "n", meaning, "n = ln((C - C1)/(C0 - C1))/ln(1 - f)", (start, goal, new, given("f", path.share, "1")),
        (exact, "count"), BALANCE,
    )  # fmt: skip
    return Working("nitrate: by a series of changes", (one,))
