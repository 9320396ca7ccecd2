"""Water is judged at the adverse end: what passes by its likely value alone fails, and what is advised then passes."""

from __future__ import annotations

import math
import re

import pytest

from tests.laws.water_life import Found, found
from tidestead.core.answer import Estimate, Verdict
from tidestead.core.errors import PlanError
from tidestead.physics import ammonia as laws
from tidestead.physics.ph import PHScale
from tidestead.physics.water import nutrients
from tidestead.physics.water.nutrients import Film
from tidestead.studies.water.carrying import FILMS

LIME = 'strength = "140 g/L"\ndaily = "250 mL/day"'
NOT_READ = ('uses_calcium = "0.7 mg/L"', "#")
READ = 'uses_alkalinity = "0.12 dKH"'


def dosed(daily: str, *more: tuple[str, str]) -> Found:
    return found("skerry", (LIME, f'strength = "140 g/L"\ndaily = "{daily} mL/day"'), *more)


# Calcium


def test_calcium_is_judged_by_the_least_that_corals_may_use() -> None:
    """250 mL are 125 % of the likely use, within 60 to 140 %; of the least that nitrification leaves, 164 %."""
    one = dosed("250")
    check, used = one.checks["water.calcium.daily"], one.alkalinity.used.calcium
    given = one.alkalinity.given[1].likely + one.alkalinity.changes[1]
    assert check.estimate is not None
    assert given / used.likely < 1.4
    assert check.estimate.likely == pytest.approx(given / used.likely)
    assert check.estimate.high == pytest.approx(given / used.low)
    assert check.verdict is Verdict.FAILS


def test_dose_that_is_advised_for_calcium_passes_at_both_ends() -> None:
    told = re.search(r"lime (\d+) mL", dosed("250").checks["water.calcium.daily"].advice)
    assert told is not None
    assert dosed(told[1]).checks["water.calcium.daily"].verdict in (Verdict.SOUND, Verdict.NEAR)


def test_calcium_that_was_read_has_no_range_and_no_more_advice_to_measure() -> None:
    one = dosed("250", (READ, f'{READ}\nuses_calcium = "0.8 mg/L"'))
    used = one.alkalinity.used
    assert used.calcium == Estimate.exact(0.8 * one.setting.volume, "measured")
    assert one.checks["water.calcium.daily"].verdict is Verdict.SOUND
    read = dosed("250", ('uses_alkalinity = "0.12 dKH"', 'uses_calcium = "0.8 mg/L"'))
    assert read.checks["water.calcium.daily"].verdict is Verdict.SOUND
    assert read.checks["water.alkalinity.daily"].verdict is Verdict.UNPROVEN


def test_calcium_too_vague_for_any_dose_asks_for_a_reading() -> None:
    """At the packhouse nitrification takes from six tenths of the alkalinity to nearly all of it."""
    one = found("packhouse", NOT_READ)
    assert not one.alkalinity.used.calcium_to_give(0.4)[1]
    assert "water.uses_calcium" in one.checks["water.calcium.daily"].advice
    none = found("packhouse", NOT_READ, ('uses_alkalinity = "0.25 dKH"', 'uses_alkalinity = "0.2 dKH"'))
    assert none.alkalinity.used.calcium.low == 0.0
    check = none.checks["water.calcium.daily"]
    assert check.verdict is Verdict.UNPROVEN
    assert "water.uses_calcium" in check.missing


def test_calcium_aimed_at_lies_near_all_that_may_be_used() -> None:
    used = found("skerry").alkalinity.used
    for low, likely, high in ((0.5, 0.6, 0.7), (0.3, 0.6, 0.6), (0.55, 0.55, 1.2)):
        goal, proved = type(used)(
            used.alkalinity,
            used.corals,
            used.nitrification,
            Estimate(low, likely, high),
            used.magnesium,
            True,
            False,
            (),
        ).calcium_to_give(0.4)
        assert proved is (0.6 * high <= 1.4 * low)
        if proved:
            assert goal / high >= 0.6 - 1e-12
            assert goal / low <= 1.4 + 1e-12


@pytest.mark.parametrize("typed", ["-1 mg/L", "1", "2 g/L"])
def test_calcium_use_that_cannot_be_is_refused(typed: str) -> None:
    with pytest.raises(PlanError) as raised:
        dosed("250", (READ, f'{READ}\nuses_calcium = "{typed}"'))
    (fault,) = raised.value.faults
    assert fault.where == "water.uses_calcium"
    assert typed in fault.given


# Fish that come


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_ammonia_while_fish_come_is_the_most_that_feed_makes_on_the_slowest_films(name: str) -> None:
    """Each week by hand: the load at 0.144 of the protein, films of 0.41 of fresh water, the lot's rise on top."""
    one = found(name)
    ramp, stock, plan = one.ramp, one.stock, one.inputs.plan
    assert plan.feed is not None
    assert stock.grown.feed is not None
    most = stock.grown.feed * 86400.0 * 1000.0 * stock.protein * 0.144 / stock.mass_grown
    pace = math.log1p(ramp.growth) / 7.0
    for week in ramp.weeks:
        films = nutrients.film_ammonia(most * week.mass, stock.area, one.setting.temp_c, Film(sea=FILMS[0]))
        before = week.mass - week.added
        share = week.added / before
        rise = (1.0 + share) * math.log1p(share) - share
        peak = most * before / (pace * one.setting.volume) * rise
        assert week.tan.high == pytest.approx(films + peak, rel=1e-9)
        assert week.tan.high > 1.5 * week.tan.likely


def test_stocking_is_judged_by_its_worst_and_stops_where_that_warns() -> None:
    """Of filters cut down until the likely ammonia just holds, the worst does not: no ramp is promised."""
    cut = found("packhouse", ('surface = "300 ft2"', 'surface = "200 ft2"'))
    assert cut.stock.grown.tan is not None
    assert cut.ramp.warn is not None
    assert cut.stock.grown.tan.likely < cut.ramp.warn < cut.stock.grown.tan.high
    check = cut.checks["water.ramp.ammonia"]
    assert check.verdict is Verdict.UNPROVEN
    assert "at worst" in check.missing
    whole = found("packhouse").checks["water.ramp.ammonia"]
    assert whole.estimate is not None
    assert whole.estimate.high > whole.estimate.likely
    assert whole.verdict is Verdict.SOUND


# Ammonia by pH


def test_what_a_test_may_show_is_told_for_the_warmest_water_as_the_levels_are() -> None:
    """A row at the kept pH tells the very totals at which somebody warns and acts."""
    one = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.2 NBS"'))
    row = next(each for each in one.ammonia.table if each[0] == 8.2)
    share = float(laws.unionised_share(8.2, PHScale.NBS, one.setting.sal_psu, 27.0))
    assert row[1] == pytest.approx(share, rel=1e-12)
    totals = [step.total for step in one.ammonia.steps[:2]]
    assert None not in totals
    assert list(row[2:]) == pytest.approx(totals)
