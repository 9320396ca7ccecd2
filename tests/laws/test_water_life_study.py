"""What lives in the water and what it does: sums by hand, matter kept, which way things go, what is proposed mends."""

from __future__ import annotations

import pytest

from tests.laws.water_life import DAY, FED, GRAMS, UNBOUND, UNFED, found
from tidestead.core.answer import Verdict
from tidestead.physics.ammonia import pka_bell, share_at
from tidestead.physics.water import nutrients as laws
from tidestead.studies.water.new_filter import cycling_days, new_filter_of

# By hand


def test_feed_of_200_grams_at_45_percent_makes_8_28_grams_of_nitrogen() -> None:
    fed = found("skerry", FED)
    assert fed.nutrients.ammonia is not None
    assert fed.nutrients.ammonia.likely == pytest.approx(8.28)
    assert fed.nutrients.ammonia.high == pytest.approx(12.96)
    assert fed.nutrients.bound == pytest.approx(14.4)
    assert fed.stock.ammonia is not None
    assert 24.0 * fed.stock.ammonia.likely == pytest.approx(8.28)


def test_one_degree_of_alkalinity_takes_7_147_of_calcium() -> None:
    one = found("skerry", UNFED, ('uses_alkalinity = "0.12 dKH"', 'uses_alkalinity = "1 dKH"'))
    used = one.alkalinity.used
    assert used.nitrification.high == 0.0
    assert used.calcium.likely / one.setting.volume == pytest.approx(7.147, abs=5e-4)


def test_soda_of_100_grams_in_a_litre_by_hand() -> None:
    """5 L of it into 11.86 m3: 100/105.988*2*5/11.86."""
    one = found("skerry")
    soda = next(doser for doser in one.alkalinity.dosers if doser.key == "soda")
    assert soda.rise == pytest.approx(100.0 / 105.988 * 2.0 * 5.0 / one.setting.volume)
    assert soda.safe == pytest.approx(0.005 * 0.5 / soda.rise)


def test_nitrifying_area_carries_its_ceiling() -> None:
    one = found("skerry")
    assert one.stock.area == pytest.approx(42.0)
    assert 24.0 * one.stock.ceiling == pytest.approx(0.28 * 42.0)


def test_quarantine_is_full_of_ammonia_when_the_sum_says_so() -> None:
    one = found("skerry")
    held, act = one.ramp.quarantine, one.ammonia.steps[1].total
    assert held is not None
    assert held.to_act is not None
    assert act is not None
    made = 35.0 * 0.48 * 0.092 * 0.25 / 2.3  # g N a day by the lot
    assert held.made.likely == pytest.approx(made)
    assert held.to_act.likely == pytest.approx(24.0 * act * 0.3 / made)


# What is kept


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_nitrogen_is_kept(name: str) -> None:
    """At the settled level as much leaves as is made; on the way, what came less what left is what stands there."""
    level = found(name).nitrate
    for one, settled in zip(
        level.balances, (level.settled.low, level.settled.likely, level.settled.high), strict=True
    ):
        leaves = settled * (one.renewed + one.pace * one.volume)
        assert leaves + min(one.uptake, one.made) == pytest.approx(one.made, rel=1e-12)
        now, later = (float(laws.nutrient_after(one, level.start, day)) for day in (30.0, 30.01))
        middle = float(laws.nutrient_after(one, level.start, 30.005))
        flow_in = one.made - one.uptake - (one.renewed + one.pace * one.volume) * middle
        assert one.volume * (later - now) / 0.01 == pytest.approx(flow_in, rel=1e-6)


def test_no_more_nitrate_comes_of_feed_than_nitrogen_is_in_it() -> None:
    one = found("packhouse")
    assert one.nitrate.made.high < float(laws.nitrate_ion(one.nutrients.bound))


def test_nitrogen_of_a_new_filter_is_kept() -> None:
    at = found("skerry")
    facts = new_filter_of(at.inputs, at.setting)
    sums = [sum(three) for three in zip(facts.ammonia, facts.nitrite, facts.nitrate, strict=True)]
    assert sums == pytest.approx([facts.dose] * len(sums), abs=1e-7)
    days = cycling_days(at.inputs, at.setting)
    assert 0.0 < days.low < days.likely < days.high <= new_filter_of(at.inputs, at.setting).longest
    assert facts.days == days


def test_fish_and_bacteria_burn_no_more_than_the_feed_holds() -> None:
    """1.40 kg of oxygen for each kg of feed at 45 % protein."""
    for load in (found("skerry", FED).stock.now, found("skerry", FED).stock.grown):
        assert load.feed is not None
        most = load.feed * DAY * GRAMS * (2.67 * 0.40 + 4.57 * 0.16 * 0.45) / 24.0
        assert most == pytest.approx(200.0 * 1.397 / 24.0, rel=1e-3)
        assert load.bacteria.high + load.fish.low <= most * (1.0 + 1e-12)
        assert load.bacteria.low <= load.bacteria.likely <= load.bacteria.high


# Which way things go


def test_more_feed_makes_more_nitrate_and_ammonia() -> None:
    less = found("skerry", *UNBOUND)
    more = found("skerry", *UNBOUND, ('daily = "35 g/day"', 'daily = "70 g/day"'))
    assert more.nitrate.settled.likely == pytest.approx(2.0 * less.nitrate.settled.likely)
    assert less.stock.now.tan is not None
    assert more.stock.now.tan is not None
    assert more.stock.now.tan.likely > less.stock.now.tan.likely
    assert more.stock.uptake.likely > less.stock.uptake.likely


def test_more_surface_leaves_less_ammonia() -> None:
    less, more = found("skerry"), found("skerry", ('surface = "30 m2"', 'surface = "90 m2"'))
    assert less.ammonia.standing is not None
    assert more.ammonia.standing is not None
    assert more.ammonia.standing.high < less.ammonia.standing.high
    assert more.stock.ceiling > less.stock.ceiling
    assert more.stock.clearance is not None
    assert less.stock.clearance is not None
    assert more.stock.clearance.likely > less.stock.clearance.likely


def test_too_small_a_filter_fails_and_the_ammonia_is_unproven() -> None:
    one = found(
        "skerry", ('surface = "30 m2"', 'surface = "1 m2"'), ('surface = "12 m2"', 'surface = "1 m2"')
    )
    assert one.checks["water.stock.filter"].verdict is Verdict.FAILS
    assert one.checks["water.ammonia.act"].verdict is Verdict.UNPROVEN
    assert "beyond the filter" in one.checks["water.ammonia.act"].missing


def test_a_reading_of_the_uptake_wins() -> None:
    one = found("skerry", ("[quarantine]", '[measured]\nuptake = "4 g/h"\n\n[quarantine]'))
    uptake = one.stock.uptake
    assert (uptake.low, uptake.likely, uptake.high) == pytest.approx((4.0, 4.0, 4.0))
    assert one.stock.measured
    assert one.stock.grown.uptake.likely > 4.0


def test_covers_take_air_from_the_night_and_stones_bring_it() -> None:
    plan = found("packhouse")
    bare = found("packhouse", ('share = "90 %"\nwhen = "night"', 'share = "1 %"\nwhen = "night"'))
    assert plan.stock.now.oxygen is not None
    assert bare.stock.now.oxygen is not None
    assert plan.stock.now.oxygen.low < bare.stock.now.oxygen.low
    stone = '[airpumps.a]\nvessel = "reef"\nflow = "20 L/min"\ndepth = "1 m"\n\n[salt]'
    aired = found("packhouse", ("[salt]", stone))
    assert aired.stock.now.oxygen is not None
    assert aired.stock.now.oxygen.low > plan.stock.now.oxygen.low


def test_bicarbonate_moves_the_ph_less_than_soda() -> None:
    soda = found("skerry").alkalinity.dosers[0]
    mild = found(
        "skerry",
        (
            'reagent = "sodium-carbonate"\nstrength = "100 g/L"',
            'reagent = "sodium-bicarbonate"\nstrength = "79 g/L"',
        ),
    )
    other = mild.alkalinity.dosers[0]
    assert (soda.carbon, other.carbon) == (0.5, 1.0)
    assert soda.after is not None
    assert other.after is not None
    before = mild.alkalinity.system.middle
    assert before is not None
    assert abs(other.after.ph - before.ph) < 0.5 * abs(soda.after.ph - before.ph)


def test_ph_8_14_nbs_and_8_00_total_are_one_water() -> None:
    nbs = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.14 NBS"')).ammonia
    total = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.00 total"')).ammonia
    assert nbs.share is not None
    assert total.share is not None
    assert total.share.likely == pytest.approx(nbs.share.likely, rel=0.03)
    assert nbs.other is not None
    bell = float(share_at(pka_bell(35.0, 25.5), 8.14))  # a third form, of the NBS kind as the first
    assert nbs.other == pytest.approx(bell, rel=0.08)
    assert bell < nbs.share.likely  # the form of the limits tells most: the safe side
    wrong = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.14 total"')).ammonia
    assert wrong.share is not None
    assert wrong.share.likely > 1.25 * nbs.share.likely


# What is proposed mends what it is proposed for


def test_changes_that_are_said_to_hold_the_nitrate_hold_it() -> None:
    one = found("skerry").nitrate
    share = 100.0 * one.share.likely
    held = found("skerry", ('share = "6 %"', f'share = "{share:.6f} %"')).nitrate
    assert held.settled.likely == pytest.approx(held.target, rel=1e-5)


def test_doses_that_are_said_to_hold_the_alkalinity_hold_it() -> None:
    one = found("skerry")
    dose = dict(one.alkalinity.hold)["soda"]
    held = found(
        "skerry",
        (
            'strength = "100 g/L"\ndaily = "250 mL/day"',
            f'strength = "100 g/L"\ndaily = "{dose * 1e6:.6f} mL/day"',
        ),
    )
    value = held.checks["water.alkalinity.daily"].estimate
    assert value is not None
    assert value.likely == pytest.approx(1.0, rel=1e-6)
    assert held.checks["water.alkalinity.daily"].verdict is Verdict.SOUND


def test_oxygen_stands_at_what_warns_with_as_many_fish_as_it_carries() -> None:
    stock = found("packhouse").stock
    carried = next(one.mass for one in stock.capacities if one.by == "oxygen")
    assert carried is not None
    load = stock.grown
    taken = stock.coral_uptake.likely + (load.fish.likely + load.bacteria.likely) / load.mass * carried.likely
    assert stock.saturation - taken / stock.exchange.likely == pytest.approx(5.0)


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_fish_come_by_lots_that_the_filter_and_quarantine_bear(name: str) -> None:
    one = found(name)
    ramp, stock = one.ramp, one.stock
    assert ramp.warn is not None
    assert max(week.tan.high for week in ramp.weeks) <= ramp.warn * (1.0 + 1e-9)
    assert all(week.tan.low <= week.tan.likely < week.tan.high for week in ramp.weeks)
    assert ramp.weeks[0].mass == pytest.approx(stock.mass_now)
    assert ramp.weeks[-1].mass == pytest.approx(stock.mass_grown)
    assert sum(week.added for week in ramp.weeks) == pytest.approx(stock.mass_grown - stock.mass_now)
    for before, after in zip(ramp.weeks, ramp.weeks[1:], strict=False):
        assert after.week - before.week == ramp.lots
        assert after.added <= min(ramp.largest, ramp.growth * before.mass) * (1.0 + 1e-9)
    assert ramp.lots == {"skerry": 6, "packhouse": 1}[name]
