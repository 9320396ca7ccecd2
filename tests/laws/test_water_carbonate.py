"""Laws of the carbonate system and of a new system's bacteria, whatever the water."""

from __future__ import annotations

from dataclasses import replace
from math import inf, isinf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import ammonia, ph
from tidestead.physics.ph import PHScale
from tidestead.physics.water import carbonate, contents, cycling
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.physics.water.cycling import NewWater, Nitrifier

WATERS = st.builds(
    Seawater,
    sal_psu=st.floats(15.0, 45.0),
    temp_c=st.floats(2.0, 36.0),
    phosphate=st.floats(0.0, 20.0),
    silicate=st.floats(0.0, 200.0),
    ammonia=st.floats(0.0, 500.0),
)
ALKALINITY = st.floats(300.0, 8000.0)
AIR = st.floats(20.0, 20000.0)
REEF = Seawater(35.0, 26.0)
FEW = settings(max_examples=many(60), deadline=None)


def same(one: Carbonate, other: Carbonate) -> None:
    for name in ("dic", "alkalinity", "pco2", "co2", "bicarbonate", "carbonate", "aragonite", "calcite"):
        assert getattr(one, name) == pytest.approx(getattr(other, name), rel=1e-8), name
    assert one.ph == pytest.approx(other.ph, abs=1e-9)


@FEW
@given(water=WATERS, alkalinity=ALKALINITY, pco2=AIR, scale=st.sampled_from(PHScale))
def test_every_pair_leads_back_to_the_same_water(
    water: Seawater, alkalinity: float, pco2: float, scale: PHScale
) -> None:
    found = carbonate.from_alkalinity_and_air(water, alkalinity, pco2)
    assert found.alkalinity == pytest.approx(alkalinity, rel=1e-9)
    assert found.dic == pytest.approx(found.co2 + found.bicarbonate + found.carbonate, rel=1e-12)
    same(found, carbonate.from_alkalinity_and_carbon(water, alkalinity, found.dic))
    same(found, carbonate.from_carbon_and_air(water, found.dic, pco2))
    told = ph.on_scale(found.ph, PHScale.TOTAL, scale, water.sal_psu, water.temp_c)
    same(found, carbonate.from_alkalinity_and_ph(water, alkalinity, told, scale))


@FEW
@given(water=WATERS, alkalinity=ALKALINITY, pco2=AIR, more=st.floats(1.01, 3.0))
def test_more_gas_sours_and_more_alkalinity_sweetens(
    water: Seawater, alkalinity: float, pco2: float, more: float
) -> None:
    found = carbonate.from_alkalinity_and_air(water, alkalinity, pco2)
    sour = carbonate.from_alkalinity_and_air(water, alkalinity, pco2 * more)
    sweet = carbonate.from_alkalinity_and_air(water, alkalinity * more, pco2)
    assert sour.ph < found.ph < sweet.ph
    assert sour.aragonite < found.aragonite < sweet.aragonite
    assert found.calcite > found.aragonite


@FEW
@given(pco2=st.floats(100.0, 3000.0), alkalinity=st.floats(1500.0, 5000.0), added=st.floats(10.0, 1500.0))
def test_hydroxide_moves_ph_most_and_bicarbonate_least(pco2: float, alkalinity: float, added: float) -> None:
    before = carbonate.from_alkalinity_and_air(REEF, alkalinity, pco2)
    hydroxide, soda, bicarbonate = (
        carbonate.with_carbon_dosed(REEF, before, added, share) for share in (0.0, 0.5, 1.0)
    )
    assert hydroxide.ph > soda.ph > bicarbonate.ph
    assert hydroxide.pco2 < before.pco2 < bicarbonate.pco2
    assert hydroxide.dic == pytest.approx(before.dic)
    assert bicarbonate.dic == pytest.approx(before.dic + added)


@FEW
@given(reading=st.floats(6.0, 10.0), sal_psu=st.floats(5.0, 45.0), temp_c=st.floats(0.0, 40.0))
def test_scales_lead_back_and_stand_in_order(reading: float, sal_psu: float, temp_c: float) -> None:
    for one in PHScale:
        for other in PHScale:
            there = ph.on_scale(reading, one, other, sal_psu, temp_c)
            assert ph.on_scale(there, other, one, sal_psu, temp_c) == pytest.approx(reading, abs=1e-12)
    total, sea = (
        ph.on_scale(reading, PHScale.FREE, scale, sal_psu, temp_c)
        for scale in (PHScale.TOTAL, PHScale.SEAWATER)
    )
    assert sea < total < reading


def test_scales_are_one_without_salt() -> None:
    for scale in (PHScale.TOTAL, PHScale.SEAWATER):
        assert ph.on_scale(8.0, PHScale.FREE, scale, 0.0, 25.0) == 8.0


@FEW
@given(reading=st.floats(6.5, 9.5), sal_psu=st.floats(20.0, 40.0), temp_c=st.floats(5.0, 34.0))
def test_ammonia_bites_more_where_it_is_warm_and_sweet(reading: float, sal_psu: float, temp_c: float) -> None:
    for share in (ammonia.unionised_share, ammonia.unionised_share_total):
        here = share(reading, PHScale.NBS, sal_psu, temp_c)
        assert 0.0 < here < 1.0
        assert share(reading + 0.1, PHScale.NBS, sal_psu, temp_c) > here
        assert share(reading, PHScale.NBS, sal_psu, temp_c + 1.0) > here
        whole = ammonia.total_that_holds(0.035, here)
        assert ammonia.unionised_ammonia(whole, here) == pytest.approx(0.035)


def test_a_measured_calcium_counts_in_proportion() -> None:
    plain = carbonate.from_alkalinity_and_air(REEF, 2500.0, 420.0)
    rich = carbonate.from_alkalinity_and_air(
        replace(REEF, calcium=1.1 * contents.calcium(35.0)), 2500.0, 420.0
    )
    assert rich.aragonite == pytest.approx(1.1 * plain.aragonite)
    assert rich.calcite == pytest.approx(1.1 * plain.calcite)
    assert rich.ph == plain.ph


def test_contents_go_there_and_back() -> None:
    mass = contents.mass_of_content(10284.6, contents.CALCIUM_MASS, 1023.0)
    assert contents.content_of_mass(mass, contents.CALCIUM_MASS, 1023.0) == pytest.approx(10284.6)


def test_waters_that_cannot_be_are_refused() -> None:
    with pytest.raises(ImpossibleInput, match="has more alkalinity alone"):
        carbonate.from_alkalinity_and_ph(REEF, 100.0, 9.5, PHScale.TOTAL)
    with pytest.raises(ImpossibleInput, match="more than the 5 dissolved"):
        carbonate.from_carbon_and_air(REEF, 5.0, 420.0)
    with pytest.raises(ImpossibleInput, match="no pH from"):
        carbonate.from_alkalinity_and_air(REEF, -5e5, 420.0)
    with pytest.raises(ImpossibleInput):
        carbonate.from_alkalinity_and_air(REEF, float("nan"), 420.0)
    with pytest.raises(ImpossibleInput):
        carbonate.from_alkalinity_and_air(REEF, 2500.0, 0.0)
    with pytest.raises(ImpossibleInput):
        Seawater(-1.0, 25.0)
    with pytest.raises(ImpossibleInput, match="degC"):
        Seawater(35.0, 298.15)
    with pytest.raises(ImpossibleInput):
        Seawater(35.0, 25.0, calcium=-1.0)


GROWING = Nitrifier(growth=0.6, half=0.8, decay=0.04, most=6.0, start=0.002)
SLOWER = Nitrifier(growth=0.4, half=1.0, decay=0.04, most=6.0, start=0.001)


@settings(max_examples=12, deadline=None)
@given(
    start=st.floats(0.1, 8.0),
    coming=st.floats(0.0, 0.5),
    growth=st.floats(0.1, 1.0),
    brought=st.floats(0.001, 1.0),
)
def test_nitrogen_is_kept(start: float, coming: float, growth: float, brought: float) -> None:
    first = replace(GROWING, growth=growth, start=brought)
    curve = cycling.cycling_curve(NewWater(start, 0.1, 2.0, coming), first, SLOWER, until=60.0, every=1.0)
    whole = curve.ammonia + curve.nitrite + curve.nitrate
    assert whole == pytest.approx(start + 2.1 + coming * curve.day, rel=1e-9)
    assert np.all(curve.ammonia > -1e-9)
    assert np.all(curve.nitrite > -1e-9)
    assert np.all(np.diff(curve.nitrate) > -1e-12)
    assert np.all(curve.ammonia_capacity <= first.most)


def test_ammonia_gives_way_to_nitrite_and_nitrite_to_nitrate() -> None:
    curve = cycling.cycling_curve(NewWater(2.0, 0.0, 0.0, 0.0), GROWING, SLOWER, until=90.0, every=0.5)
    assert np.all(np.diff(curve.ammonia) <= 1e-9)
    top = int(np.argmax(curve.nitrite))
    assert curve.nitrite[top] > 0.5
    assert np.all(np.diff(curve.nitrite[: top + 1]) > 0.0)
    assert np.all(np.diff(curve.nitrite[top:]) <= 1e-9)
    assert curve.nitrate[-1] == pytest.approx(2.0, abs=0.01)


def test_more_bacteria_at_the_start_are_sooner_done() -> None:
    days = [
        cycling.days_until_low(
            cycling.cycling_curve(
                NewWater(2.0, 0.0, 0.0, 0.0), replace(GROWING, start=some), replace(SLOWER, start=some), 120.0, 0.5
            ),
            0.1,
        )
        for some in (0.001, 0.01, 0.1, 1.0)
    ]  # fmt: skip
    assert days == sorted(days, reverse=True)
    assert 0.0 < days[-1] < days[0] < 120.0


def test_capacity_grows_by_its_rate_while_there_is_plenty() -> None:
    """Far more food than the half-saturation and room without end: exp((mu - b)*t)."""
    plenty = replace(GROWING, most=inf, half=1e-9, start=1e-6)
    curve = cycling.cycling_curve(NewWater(100.0, 0.0, 0.0, 0.0), plenty, SLOWER, until=10.0, every=1.0)
    assert curve.ammonia_capacity == pytest.approx(1e-6 * np.exp(0.56 * curve.day), rel=1e-7)


def test_food_that_keeps_coming_settles_where_growth_meets_decay() -> None:
    """Without end of room mu*A/(K + A) = b, whatever comes in."""
    first, second = replace(GROWING, most=inf), replace(SLOWER, most=inf)
    curve = cycling.cycling_curve(NewWater(1.0, 0.0, 0.0, 0.3), first, second, until=600.0, every=10.0)
    assert curve.ammonia[-1] == pytest.approx(0.8 * 0.04 / (0.6 - 0.04), rel=1e-3)
    assert curve.nitrite[-1] == pytest.approx(1.0 * 0.04 / (0.4 - 0.04), rel=1e-3)


def test_days_until_low() -> None:
    curve = cycling.cycling_curve(NewWater(2.0, 0.0, 0.0, 0.0), GROWING, SLOWER, until=90.0, every=0.5)
    assert cycling.days_until_low(curve, 3.0) == 0.0
    strict, mild = (cycling.days_until_low(curve, level) for level in (0.05, 0.5))
    assert mild < strict < 90.0
    short = cycling.cycling_curve(NewWater(2.0, 0.0, 0.0, 0.0), GROWING, SLOWER, until=5.0, every=0.5)
    assert isinf(cycling.days_until_low(short, 0.5))


def test_bacteria_that_cannot_be_are_refused() -> None:
    with pytest.raises(ImpossibleInput, match="room for"):
        replace(GROWING, start=7.0)
    with pytest.raises(ImpossibleInput):
        replace(GROWING, half=0.0)
    with pytest.raises(ImpossibleInput):
        NewWater(-1.0, 0.0, 0.0, 0.0)
    with pytest.raises(ImpossibleInput):
        cycling.cycling_curve(NewWater(1.0, 0.0, 0.0, 0.0), GROWING, SLOWER, until=0.0, every=1.0)
