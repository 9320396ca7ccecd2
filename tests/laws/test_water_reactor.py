"""Calcium reactors of a plan: sums by hand, what is proposed holds, what is told of the gas and of a spent reactor."""

from __future__ import annotations

import pytest

from tests.journeys.worked import misses, not_given
from tests.laws.water_life import BARE, Found, Swap, found
from tidestead.catalog import table
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import loads

RUN = 'flow = "10 L/day"\nalkalinity = "20 meq/L"\n'
REACTOR = f'[reactors.chalk]\nvessel = "tank"\n{RUN}'
TEN_CUBIC_METRES: Swap = ('length = "3 m"\nwidth = "2 m"', 'length = "5 m"\nwidth = "2 m"')
KEPT = '[water]\nalkalinity = "2.5 meq/L"\nuses_alkalinity = "0.02 meq/L"\n\n[vessels.tank]'
SODA = '[dosers.soda]\nvessel = "sump"'


def tank(reactor: str = REACTOR, water: str = KEPT) -> Found:
    """Ten cubic metres with a reactor."""
    return found("bare", TEN_CUBIC_METRES, ("[vessels.tank]", f"{reactor}\n{water}"))


def skerry(run: str = RUN, *swaps: Swap) -> Found:
    return found("skerry", (SODA, f'[reactors.chalk]\nvessel = "sump"\n{run}\n{SODA}'), *swaps)


def cautions_of(one: Found) -> str:
    return " ".join(caution for section in one.sections for caution in section.cautions)


def figures_of(one: Found) -> dict[str, float]:
    return {each.id: each.estimate.likely for section in one.sections for each in section.figures}


# By hand


def test_ten_litres_a_day_of_20_into_ten_cubic_metres_at_2_5() -> None:
    """10 L * 17.5 meq/L is 0.175 equivalents over 10 m3: 0.0175 meq/L a day, and half as many moles of calcium."""
    one = tank()
    assert one.setting.volume == pytest.approx(10.0)
    figures = figures_of(one)
    assert figures["water.reactors.chalk.brings"] == pytest.approx(0.0175)
    assert figures["water.alkalinity.given"] == pytest.approx(0.0175)
    assert figures["water.calcium.given"] == pytest.approx(0.0175 / 2.0 * 40.078)
    assert one.alkalinity.given[2].likely == 0.0


def test_flow_that_holds_by_hand() -> None:
    """0.02 meq/L a day out of 10 m3 at 17.5 meq/L gained: 200/17.5 litres."""
    one = tank()
    assert figures_of(one)["water.reactors.chalk.holds"] == pytest.approx(200.0 / 17.5)
    advice = one.checks["water.alkalinity.daily"].advice
    assert "11.4 L a day through reactor chalk" in advice
    assert "weakens" in advice


def test_its_table_has_a_row_for_each() -> None:
    second = REACTOR.replace("chalk", "second").replace("10 L/day", "4 L/day")
    one = tank(f"{REACTOR}\n{second}")
    (rows,) = (
        each.rows for section in one.sections for each in section.tables if each.id == "water.reactors"
    )
    assert [row[0] for row in rows] == ["chalk", "second"]
    assert rows[0][2:] == pytest.approx((10.0, 2.5, 20.0, 0.0175, 0.0175 * 20.039, 100.0 / 17.5))
    assert rows[1][5] == pytest.approx(0.4 * 0.0175)


# It counts, and what is proposed holds


def test_it_adds_to_bottles_and_leaves_less_for_them() -> None:
    before, after = found("skerry").alkalinity, skerry().alkalinity
    gained = 0.010 * (20.0 - 8.0 * 20.0 / 56.077)
    assert after.given[0].likely - before.given[0].likely == pytest.approx(gained)
    assert after.given[1].likely - before.given[1].likely == pytest.approx(gained / 2.0 * 40.078)
    soda = next(one for one in after.dosers if one.key == "soda")
    less = (dict(before.hold)["soda"] - dict(after.hold)["soda"]) * soda.stock.alkalinity
    assert less == pytest.approx(gained)


def test_the_flow_that_is_said_to_hold_the_alkalinity_holds_it() -> None:
    weak: Swap = ('strength = "100 g/L"\ndaily = "250 mL/day"', 'strength = "100 g/L"\ndaily = "10 mL/day"')
    flow = dict(skerry(RUN, weak).alkalinity.hold_flow)["chalk"] * 1000.0
    held = skerry(RUN.replace("10 L/day", f"{flow:.6f} L/day"), weak).checks["water.alkalinity.daily"]
    assert flow > 0.0
    assert held.estimate is not None
    assert held.estimate.likely == pytest.approx(1.0, rel=1e-6)
    assert held.verdict is Verdict.SOUND


def test_the_flow_for_calcium_brings_what_corals_take() -> None:
    one = tank().alkalinity
    flow = dict(one.hold_flow_calcium)["chalk"]
    assert flow * 17.5 / 2.0 * 40.078 == pytest.approx(one.used.calcium.likely - one.changes[1])


def test_its_working_is_worked_through() -> None:
    one = skerry()
    steps = {
        step.symbol: step
        for section in one.sections
        for each in section.judged
        for step in each.steps
        if each.check.id == "water.alkalinity.daily"
    }
    assert {"G_1", "R_1", "U", "r"} <= set(steps)
    assert steps["R_1"].result == pytest.approx(
        one.alkalinity.reactors[0].brings.alkalinity / one.setting.volume
    )
    assert "R_1" in steps["r"].formula
    assert not [(step.formula, misses(step)) for step in steps.values() if misses(step) or not_given(step)]


# What is told


def test_the_gas_and_the_ph_are_warned_of_only_with_a_reactor() -> None:
    told, limit = cautions_of(tank()), table("foul_air")["carbon-dioxide"].figure("work")
    assert f"{limit.printed:g} ppm" in told
    assert "5000 ppm" in told
    assert limit.source.work in told
    assert "cylinder" in told
    assert "lowers the pH" in told
    assert "reactor" not in cautions_of(found("skerry"))


def test_a_spent_reactor_takes_and_has_no_flow_that_holds() -> None:
    one = tank(REACTOR.replace("20 meq/L", "2.4 meq/L"))
    assert one.alkalinity.given[0].likely == pytest.approx(-0.001)
    assert one.alkalinity.hold_flow == ()
    assert "brings nothing: 2.40 meq/L leaves it and 2.50 meq/L goes in" in cautions_of(one)
    assert "[dosers.NAME]" in one.checks["water.alkalinity.daily"].advice


def test_one_that_stands_at_other_water_is_not_counted() -> None:
    vat = BARE.partition("[vessels.tank]")[2].replace('"display"', '"vat"\nholds = "fresh"')
    elsewhere = REACTOR.replace('"tank"', '"vat"')
    one = tank(f"[vessels.vat]{vat}\n{elsewhere}")
    assert one.alkalinity.reactors == ()
    assert "chalk is not counted: vat" in cautions_of(one)


def test_a_silent_plan_takes_the_seas_alkalinity_and_says_so() -> None:
    one = tank(water="[vessels.tank]")
    (entering,) = (each.entering for each in one.alkalinity.reactors)
    assert entering == pytest.approx(2.35 * one.setting.sal_psu / 35.0)
    assumed = [each for section in one.sections for each in section.assumptions]
    assert any(each.key == "water.alkalinity" and f"{entering:.2f}" in each.value for each in assumed)


def test_a_vessel_that_is_not_there_is_a_fault() -> None:
    nowhere = REACTOR.replace('"tank"', '"tanc"')
    with pytest.raises(PlanError) as refused:
        loads(f"{BARE}\n{nowhere}")
    (fault,) = refused.value.faults
    assert fault.where == "reactors.chalk.vessel"
    assert 'Did you mean "tank"?' in fault.advice
