"""The same water in other ways, and two waters blended: exact balances of what is dissolved."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.salt_systems import asked, setting
from tests.laws.water_life import found
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.studies.water.blends import blend_working, blends_of, blends_table
from tidestead.studies.water.changing import changing_of
from tidestead.studies.water.changing_ways import BATCH, TRICKLE, Ways, ways_of, ways_section

# The same water


def ways(*swaps: tuple[str, str]) -> Ways:
    one = found("packhouse", *swaps)
    told = ways_of(one.inputs.plan, one.setting, changing_of(one.inputs, one.setting), one.nutrients)
    assert told is not None
    return told


@pytest.mark.parametrize("share", [0.01, 0.1, 0.5, 1.0])
def test_a_trickle_dilutes_by_exp(share: float) -> None:
    """A thousand thousandths of the water, one after the other, leave (1 - f/n)**n, which goes to exp(-f)."""
    told = ways(('share = "10 %"\nevery', f'share = "{100.0 * share:g} %"\nevery'))
    gone = {one.words: one.gone for one in told.all()}
    assert gone[TRICKLE] == pytest.approx(1.0 - math.exp(-share), rel=1e-12)
    assert gone[TRICKLE] == pytest.approx(1.0 - (1.0 - share / 1e6) ** 1e6, rel=1e-5)
    assert gone[BATCH] == pytest.approx(share, rel=1e-12)


def test_a_trickle_settles_where_it_takes_as_much_as_is_made() -> None:
    """Stepped through the days it comes to the level that is told, and batches swing between theirs."""
    told = ways()
    assert told.made is not None
    trickle, batch = told.trickle(), told.all()[0]
    level, step = 0.0, 0.01
    for _ in range(int(6000 / step)):
        level += step * (told.made - told.pace * level)
    assert trickle.ends[0] == pytest.approx(level, rel=1e-6)
    swings = 0.0
    for _ in range(2000):
        swings = (swings + told.made * told.every) * (1.0 - told.share)
    assert batch.ends[1] == pytest.approx(swings, rel=1e-9)
    assert batch.ends[0] == pytest.approx(swings / (1.0 - told.share), rel=1e-9)
    assert trickle.ends[0] == pytest.approx(batch.ends[0], rel=1e-12)


def test_a_trickle_reaches_the_goal_by_the_water_told() -> None:
    told = ways()
    way, one = told.trickle(), told.series
    left = one.incoming.likely + (one.start - one.incoming.likely) * math.exp(-way.water / told.volume)
    assert left == pytest.approx(one.goal, rel=1e-12)
    assert way.water == pytest.approx(way.days * told.pace * told.volume, rel=1e-12)


def test_without_feed_nothing_is_said_of_where_it_settles() -> None:
    inputs = asked()
    one = found("bare")
    told = ways_section(inputs, setting(), changing_of(inputs, setting()), one.nutrients)
    assert [row[4:] for row in told.tables[0].rows] == [(None, None)] * 3
    assert all(step.symbol != "C_s" for work in told.workings for step in work.steps)


# Two waters


@given(st.floats(35.0, 45.0), st.floats(2.0, 30.0))
@settings(max_examples=30)
def test_a_blend_keeps_salt_and_weight(psu: float, warm: float) -> None:
    inputs = asked(
        (
            'temperature = "10 degC"\nsalinity = "33 psu"',
            f'temperature = "{warm:.2f} degC"\nsalinity = "{psu:.3f} psu"',
        )
    )
    blends = [one for one in blends_of(inputs.plan, setting()) if one.made is not None]
    assert {one.fresher.key for one in blends} == {"membrane", "tanker"}
    for one in blends:
        assert one.made is not None
        parts = (
            Body(one.first, one.saltier.sal_psu, one.saltier.temp_c),
            Body(one.second, one.fresher.sal_psu, one.fresher.temp_c),
        )
        assert one.made.sal_psu == pytest.approx(35.0, rel=1e-12)
        assert one.made.volume == pytest.approx(0.5, rel=1e-12)
        salt = sum(float(salts.salt_mass(part)) for part in parts)
        assert salt == pytest.approx(float(salts.salt_mass(one.made)), rel=1e-9)
        mass = sum(float(salts.water_mass(part)) for part in parts)
        assert mass == pytest.approx(float(salts.water_mass(one.made)), rel=1e-9)
        assert one.weight == pytest.approx(35.0 / one.saltier.sal_psu, rel=1e-12)
        assert one.volume == pytest.approx(one.first / np.sum([one.first, one.second]), rel=1e-12)


def test_two_waters_too_fresh_are_told_as_such() -> None:
    """The sea at 33 psu and fresh water never make 35."""
    inputs = asked()
    (told,) = blends_table(inputs.plan, setting(), "metric")
    assert len(told.rows) == 2
    assert all("both are fresher" in str(row[-1]) for row in told.rows)
    assert not list(blend_working(inputs.plan, setting()))


def test_sources_that_are_alike_have_no_blend() -> None:
    """Membrane and tanker are both fresh: of the three pairs two are told."""
    pairs = {(one.saltier.key, one.fresher.key) for one in blends_of(asked().plan, setting())}
    assert pairs == {("sea", "membrane"), ("sea", "tanker")}


def test_the_working_of_a_blend_gives_its_volumes() -> None:
    inputs = asked(('salinity = "33 psu"', 'salinity = "38 psu"'))
    one = next(blend for blend in blends_of(inputs.plan, setting()) if blend.made is not None)
    (work,) = blend_working(inputs.plan, setting())
    told = {step.symbol: step.result for step in work.steps}
    assert told == pytest.approx({"w": one.weight, "V1": one.first, "V2": one.second})
    assert one.weight == pytest.approx(35.0 / 38.0)
