"""What blends, changes, nutrients and stocking must keep to whatever the numbers: salt and water are not made."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tidestead.physics import seawater
from tidestead.physics.water import changes, nutrients, osmosis, readings, salts, stock
from tidestead.physics.water.changes import StepLimits
from tidestead.physics.water.nutrients import Balance, Film
from tidestead.physics.water.salts import Body
from tidestead.physics.water.stock import Stocking

SALINITY = st.floats(0.0, 42.0)
WARMTH = st.floats(2.0, 38.0)
BODY = st.builds(Body, st.floats(0.01, 100.0), SALINITY, WARMTH)
SHARE = st.floats(0.0, 1.0)
PART = st.floats(0.01, 0.99)
FACTOR = st.floats(1.0, 1.3)
LEVEL = st.floats(0.0, 100.0)
CLOSE = 1e-9
UNTIMED = settings(deadline=None)
"""The first call of all reads the library of seawater, which takes longer than an example may."""

BALANCE = st.builds(
    Balance, volume=st.floats(0.1, 100.0), made=st.floats(0.0, 50.0), pace=st.floats(0.001, 0.5),
    renewed=st.floats(0.0, 5.0), uptake=st.floats(0.0, 10.0), incoming=st.floats(0.0, 20.0),
)  # fmt: skip
STOCKING = st.builds(
    Stocking, adult=st.floats(1.0, 50.0), first=st.floats(0.1, 1.0), made=st.floats(0.1, 1.0),
    growth=st.floats(0.1, 1.0), volume=st.floats(5.0, 50.0), room=st.floats(0.01, 0.5),
)  # fmt: skip


# Salt and water


@UNTIMED
@given(BODY, BODY)
def test_a_blend_keeps_salt_and_water(one: Body, other: Body) -> None:
    both = salts.blend(one, other)
    assert salts.water_mass(both) == pytest.approx(salts.water_mass(one) + salts.water_mass(other), rel=CLOSE)
    assert salts.salt_mass(both) == pytest.approx(
        salts.salt_mass(one) + salts.salt_mass(other), rel=CLOSE, abs=1e-12
    )
    assert min(one.temp_c, other.temp_c) - CLOSE <= both.temp_c <= max(one.temp_c, other.temp_c) + CLOSE


@UNTIMED
@given(BODY, BODY)
def test_it_does_not_matter_which_is_poured_into_which(one: Body, other: Body) -> None:
    there, back = salts.blend(one, other), salts.blend(other, one)
    assert there.volume == pytest.approx(back.volume, rel=CLOSE)
    assert there.temp_c == pytest.approx(back.temp_c, rel=CLOSE)


@UNTIMED
@given(BODY, SALINITY, WARMTH, SHARE)
def test_a_change_keeps_salt_and_water(tank: Body, sal_psu: float, temp_c: float, share: float) -> None:
    after = changes.changed_water(tank, sal_psu, temp_c, share)
    new = Body(tank.volume * share, sal_psu, temp_c)
    mass = (1.0 - share) * salts.water_mass(tank) + salts.water_mass(new)
    salt = (1.0 - share) * salts.salt_mass(tank) + salts.salt_mass(new)
    assert salts.water_mass(after) == pytest.approx(mass, rel=CLOSE)
    assert salts.salt_mass(after) == pytest.approx(salt, rel=CLOSE, abs=1e-12)


@UNTIMED
@given(BODY, SALINITY, WARMTH, PART)
def test_added_water_brings_the_salinity_asked_for(
    body: Body, sal_psu: float, temp_c: float, part: float
) -> None:
    assume(abs(sal_psu - body.sal_psu) > 0.1)
    goal = body.sal_psu + part * (sal_psu - body.sal_psu)
    other = Body(1.0, sal_psu, temp_c)
    added = salts.added_volume(body, other, goal)
    assert salts.blend(body, Body(added, sal_psu, temp_c)).sal_psu == pytest.approx(goal, rel=1e-9, abs=1e-9)


@UNTIMED
@given(BODY, FACTOR, st.floats(0.0, 10.0))
def test_mix_brings_the_salinity_asked_for(body: Body, factor: float, rise: float) -> None:
    mix = salts.mix_to_raise(body, body.sal_psu + rise, factor)
    grams = 1000.0 * (salts.salt_mass(body) + mix / factor) / (salts.water_mass(body) + mix)
    assert seawater.practical_from_absolute(grams) == pytest.approx(body.sal_psu + rise, rel=CLOSE, abs=1e-9)


@UNTIMED
@given(st.builds(Body, st.floats(0.01, 100.0), st.floats(1.0, 42.0), WARMTH), FACTOR)
def test_made_water_weighed_and_measured_gives_its_factor_back(body: Body, factor: float) -> None:
    mix, fresh = salts.mix_needed(body, factor), salts.fresh_needed(body, factor)
    assert mix + fresh == pytest.approx(salts.water_mass(body), rel=CLOSE)
    assume(factor > 1.0 + 1e-9)
    assert salts.mix_factor(mix, fresh, body.sal_psu) == pytest.approx(factor, rel=CLOSE)


@UNTIMED
@given(st.floats(1.0, 42.0), st.floats(1.0, 50.0), st.floats(0.0, 0.1), st.floats(0.0, 5.0))
def test_evaporation_keeps_salt_and_loss_of_salt_goes_on_as_it_began(
    sal_psu: float, volume: float, flow: float, time: float
) -> None:
    saltier = salts.evaporated_salinity(sal_psu, volume, flow, time)
    assert saltier * (volume - flow * time) == pytest.approx(sal_psu * volume, rel=CLOSE)
    once = salts.lost_salt_salinity(sal_psu, volume, flow, time)
    assert salts.lost_salt_salinity(once, volume, flow, time) == pytest.approx(
        salts.lost_salt_salinity(sal_psu, volume, flow, 2.0 * time), rel=CLOSE
    )
    assert salts.lost_salt_drift(sal_psu, volume, flow) <= 0.0


# Changes


@UNTIMED
@given(BODY, SALINITY, WARMTH, st.floats(0.05, 3.0), st.floats(0.05, 3.0))
def test_the_largest_share_meets_its_limits_and_uses_one_up(
    tank: Body, sal_psu: float, temp_c: float, warmth: float, salt: float
) -> None:
    limits = StepLimits(warmth, salt)
    share = changes.largest_share(tank, sal_psu, temp_c, limits)
    after = changes.changed_water(tank, sal_psu, temp_c, share)
    warm, salty = abs(after.temp_c - tank.temp_c), abs(after.sal_psu - tank.sal_psu)
    assert warm <= warmth * (1.0 + 1e-6)
    assert salty <= salt * (1.0 + 1e-6)
    if share < 1.0 - 1e-9:
        assert max(warm / warmth, salty / salt) == pytest.approx(1.0, rel=1e-6)


@UNTIMED
@given(LEVEL, LEVEL, LEVEL, st.floats(0.01, 0.99))
def test_changes_counted_are_enough_and_not_one_too_many(
    start: float, incoming: float, goal: float, share: float
) -> None:
    count = changes.changes_to_reach(start, incoming, goal, share)
    if math.isinf(count):
        assert goal <= incoming
        return
    assume(count < 1e4)
    assert changes.level_after_changes(start, incoming, share, int(count)) <= goal + 1e-6
    if count > 1.0:
        assert changes.level_after_changes(start, incoming, share, int(count) - 1) > goal - 1e-6


@UNTIMED
@given(st.floats(1e-3, 1.0))
def test_drained_first_takes_most_and_filled_first_least(exchanged: float) -> None:
    assert changes.share_filled_first(exchanged) < changes.share_together(exchanged) < exchanged


@UNTIMED
@given(LEVEL, LEVEL, st.floats(0.0, 3.0), st.floats(0.0, 3.0))
def test_water_run_through_twice(start: float, incoming: float, first: float, second: float) -> None:
    once = changes.level_after_flow(start, incoming, first)
    assert changes.level_after_flow(once, incoming, second) == pytest.approx(
        changes.level_after_flow(start, incoming, first + second), abs=1e-9
    )


@UNTIMED
@given(LEVEL, st.floats(0.0, 5.0), st.floats(0.5, 60.0), PART)
def test_a_settled_tank_takes_what_is_made(
    incoming: float, made: float, interval: float, share: float
) -> None:
    before = changes.settled_before(incoming, made, interval, share)
    after = changes.settled_after(incoming, made, interval, share)
    assert before - after == pytest.approx(made * interval, rel=1e-9, abs=1e-9)
    steady = changes.settled_flow(incoming, made, share / interval)
    assert after - 1e-9 <= steady <= before + 1e-9


# Nutrients and films


@UNTIMED
@given(BALANCE, LEVEL, st.floats(0.0, 200.0))
def test_a_nutrient_goes_towards_its_rest(balance: Balance, start: float, time: float) -> None:
    rest = nutrients.settled_nutrient(balance)
    level = nutrients.nutrient_after(balance, start, time)
    assert level >= 0.0
    assert min(start, rest) - 1e-9 <= level <= max(start, rest) + 1e-9
    assert nutrients.nutrient_after(balance, rest, time) == pytest.approx(rest, rel=1e-9, abs=1e-9)


@UNTIMED
@given(BALANCE, PART)
def test_days_to_settle_leave_the_share(balance: Balance, left: float) -> None:
    rest = nutrients.settled_nutrient(balance)
    assume(rest > 1e-3)
    days = nutrients.days_to_settle(balance, left)
    assert nutrients.nutrient_after(balance, 0.0, days) == pytest.approx(rest * (1.0 - left), rel=1e-6)


@UNTIMED
@given(st.floats(1e-3, 5.0), st.floats(5.0, 32.0))
def test_films_like_warmth_and_ammonia_up_to_their_ceiling(ammonia: float, temp_c: float) -> None:
    rate = nutrients.film_rate(ammonia, temp_c)
    assert 0.0 < rate <= nutrients.SEA_CEILING
    assert nutrients.film_rate(1.1 * ammonia, temp_c) >= rate
    assert nutrients.film_rate(ammonia, temp_c + 1.0) >= rate
    free = Film(ceiling=math.inf)
    load = 10.0 * nutrients.film_rate(ammonia, temp_c, free)
    assert nutrients.film_ammonia(load, 10.0, temp_c, free) == pytest.approx(ammonia, rel=1e-9)


@UNTIMED
@given(st.floats(0.0, 1000.0), SHARE, SHARE)
def test_feed_makes_no_more_than_it_holds(feed: float, protein: float, kept: float) -> None:
    assert nutrients.ammonia_from_feed(feed, protein) <= nutrients.nitrogen_in_feed(feed, protein)
    most = nutrients.feed_oxygen(feed, protein)
    assert nutrients.feed_oxygen(feed, protein, kept=kept) <= most
    assert most >= nutrients.nitrification_oxygen(nutrients.ammonia_from_feed(feed, protein))


@UNTIMED
@given(STOCKING)
def test_a_ramp_climbs_and_keeps_its_room(stocking: Stocking) -> None:
    weeks = stock.stocking_ramp(stocking)
    assert weeks[-1] == stocking.adult
    for before, after in pairwise(weeks):
        step = after / before - 1.0
        assert 0.0 < step <= stocking.growth * (1.0 + 1e-9)
        assert stock.addition_peak(stocking, before, step) <= stocking.room * (1.0 + 1e-6)


# Readings and membranes


@UNTIMED
@given(st.floats(2.0, 42.0), st.floats(0.0, 35.0), st.floats(0.015, 0.025))
def test_readings_come_back(sal_psu: float, temp_c: float, slope: float) -> None:
    conducted = readings.conductivity(sal_psu, temp_c)
    shown = readings.compensated_conductivity(conducted, temp_c, 25.0, slope)
    assert readings.salinity_from_compensated(shown, temp_c, 25.0, slope) == pytest.approx(sal_psu, abs=1e-8)
    index = readings.refractive_index(sal_psu, temp_c)
    assert readings.salinity_from_refractive_index(index, temp_c) == pytest.approx(sal_psu, abs=1e-8)
    salty = readings.sodium_chloride_reading(sal_psu)
    assert salty > sal_psu
    assert readings.salinity_from_sodium_chloride_reading(salty) == pytest.approx(sal_psu, abs=1e-8)
    assert readings.uncompensated_reading(sal_psu, 20.0) == pytest.approx(sal_psu, abs=1e-8)


@UNTIMED
@given(st.floats(1.0, 34.0), st.floats(0.05, 0.95))
def test_cold_membranes_are_slower_and_waste_is_what_is_not_made(temp_c: float, recovery: float) -> None:
    assert osmosis.membrane_factor(temp_c + 1.0) > osmosis.membrane_factor(temp_c)
    assert osmosis.hours_to_make(1.0, 0.4, temp_c) > osmosis.hours_to_make(1.0, 0.4, temp_c + 1.0)
    assert 1.0 + osmosis.reject_water(1.0, recovery) == pytest.approx(1.0 / recovery)
