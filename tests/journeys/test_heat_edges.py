"""Heat where the plan is thin, wrong or far off: what stays unproven and why, what is refused, poles, the open air."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.journeys.climates import FILES, bundled
from tests.journeys.flow_plans import changed
from tests.journeys.heat_plans import (
    BUILDING,
    COLD,
    COVER,
    HEATERS,
    HOUSE,
    MONEY,
    OPEN,
    PLACE,
    ROUND,
    TANK,
    WEATHER,
    Found,
    brief,
    found,
    found_of,
    months_turned,
    normals_set,
    without,
)
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import load, loads
from tidestead.report.svg_chart import draw_chart

VAT = """
[vessels.vat]
role = "vat"
made = "bought"
shape = "box"
length = "1 m"
width = "1 m"
height = "1 m"
water = "0.8 m"

[heaters.vat]
vessel = "vat"
power = "3 kW"
setpoint = "25 degC"
"""


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (PLACE + BUILDING + TANK + HEATERS + MONEY, "The plan names no source of weather"),
        (without(HOUSE, "temperature"), "The monthly means have no temperature"),
        (changed(HOUSE, ('length = "7 m"\n', "")), "building.length is not in the plan"),
        (without(HOUSE, "glazing"), "building.glazing is not in the plan: say what clear sheet it has"),
        (changed(HOUSE, ("[building.floor]", 'left = { clear = "40 %" }\n\n[building.floor]')),
         "building.sides.left.wall is not in the plan: say what the left end is made of"),
        (changed(HOUSE, ('role = "display"', 'role = "display"\nholds = "fresh"')), "no vessel holds seawater"),
        (changed(HOUSE, ('power = "1.5 kW"', 'power = "100 kW"'), ('"3.7 m"', '"0.5 m"'), ('"2 m"', '"0.4 m"')),
         "the water boils or freezes through"),
    ],
    ids=["no weather", "no temperatures", "no length", "no sheet", "bare wall", "fresh water", "boils"],
)  # fmt: skip
def test_what_cannot_be_told_is_unproven_with_the_reason(text: str, words: str) -> None:
    answer = brief(text).answer
    assert answer.verdict is Verdict.UNPROVEN
    assert answer.sentence.startswith("Not proved yet.")
    assert words in answer.sentence
    assert (answer.charts, answer.figures, answer.tables, answer.series) == ((), (), (), ())


@pytest.mark.parametrize(
    ("change", "where", "words"),
    [
        (('vessel = "tank"', 'vessel = "tonk"'), "heaters.tank.vessel", 'Did you mean "tank"?'),
        (('power = "1.5 kW"', 'power = "0 W"'), "heaters.tank.power", "must be more than 0"),
        (('power = "1.5 kW"', 'power = "-1 kW"'), "heaters.tank.power", "must be more than 0"),
        (('power = "1.5 kW"', 'power = "2000 kW"'), "heaters.tank.power", "or less"),
        (("count = 4", "count = 0"), "heaters.tank.count", "must be 1 or more"),
        (("years = 2", "years = 0"), "weather.years", "must be 1 or more"),
        (('"60 %", above', '"120 %", above'), "building.shade.share", "from 0 % to 100 %"),
        (('lasts = "4 days", mean = "-8', 'lasts = "40 days", mean = "-8'), "weather.cold_spell.lasts", "or less"),
        (('lasts = "4 days", mean = "-8', 'lasts = "4 h", mean = "-8'), "weather.cold_spell.lasts", "or more"),
        (('"-8 degC"', '"-300 degC"'), "weather.cold_spell.mean", "or more"),
        (('keep = "24 to 28 degC"', 'keep = "28 to 24 degC"'), "water.keep", "the lower value comes first"),
        (('[supplies]', COVER.replace('"night"', '"night"\nmonths = "Oct to"') + "[supplies]"),
         "covers.lid.months", "is not a span of months"),
        (('[supplies]', COVER.replace('"night"', '"night"\nmonths = "Octopus to May"') + "[supplies]"),
         "covers.lid.months", "is not a span of months"),
        (('[supplies]', COVER.replace('"tank"', '"reef"') + "[supplies]"), "covers.lid.over", "names no vessel"),
        (('[supplies]', COVER.replace('"90 %"', '"190 %"') + "[supplies]"), "covers.lid.share", "from 0 % to 100 %"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_is_a_fault_of_the_plan(change: tuple[str, str], where: str, words: str) -> None:
    with pytest.raises(PlanError) as caught:
        loads(changed(HOUSE, change))
    (fault,) = caught.value.faults
    assert fault.where == where
    assert words in str(fault)


def test_months_may_be_written_out() -> None:
    """Names and their beginnings; spells run over the turn of the year."""
    covers = [
        loads(HOUSE + COVER + f'months = "{words}"\n').plan.covers["lid"].months
        for words in ("Sept to March", "sep to mar", "September to Mar")
    ]
    assert covers == [(8, 9, 10, 11, 0, 1, 2)] * 3


def test_no_vessel_in_the_plan_is_unproven() -> None:
    bare = PLACE + WEATHER + BUILDING + MONEY
    assert brief(bare).answer.verdict is Verdict.UNPROVEN


def test_a_tank_in_the_open_is_answered_without_a_house() -> None:
    """Nothing is said of glazing, timber and damp; it loses far more than under a roof."""
    one, house = found(OPEN), found(HOUSE)
    assert one.energy > 1.5 * house.energy
    assert one.needed > 2.0 * house.needed
    idents = {figure.id for figure in one.answer.figures}
    assert not {"heat.condensate", "heat.glazing.wet", "heat.timber.damp"} & idents
    assert "heat.dampness" not in {table.id for table in one.answer.tables}
    assert "heat.damp" not in {chart.id for chart in one.answer.charts}
    assert any(one.key == "building" and one.value == "none" for one in one.answer.assumptions)
    assert not any("glazing" in (check.advice or "") for check in one.answer.checks)
    ranks = {rank.name for rank in one.facts.ranks}
    assert "wind at the building" in ranks
    assert not {"heat through the glazing", "air through cracks"} & ranks


def test_no_heaters_tell_how_large_they_would_have_to_be() -> None:
    """Without any the water goes cold, and the power that would hold it is that of a plan with heaters."""
    one = brief(COLD)
    assert not any("heaters" in check.id for check in one.answer.checks)
    assert one.energy == 0.0
    assert one.check("heat.water.coldest").verdict is Verdict.FAILS
    assert "Try heaters of" in one.answer.sentence
    assert "Heaters run" not in one.answer.sentence
    needed = one.figure("heat.heaters.needed").estimate
    at_26 = brief(changed(HOUSE, ('"25 degC"', '"26 degC"')))
    assert needed.likely == pytest.approx(at_26.needed, rel=0.04)
    assert one.facts.ranks == ()
    assert one.facts.cut is not None
    assert one.facts.cut.to_harm == 0.0
    assert "without any power cut" in one.answer.sentence


def test_no_band_that_is_kept_is_unproven_with_the_key_and_the_rest_is_told() -> None:
    one = brief(without(HOUSE, "keep"))
    assert one.answer.verdict in (Verdict.UNPROVEN, Verdict.FAILS)
    assert "water.keep" in (one.check("heat.water.coldest").missing or "")
    assert one.check("heat.heaters.size").estimate is not None
    assert not any(figure.id.startswith("heat.days.") for figure in one.answer.figures)


def test_spells_milder_than_the_years_are_told() -> None:
    one = brief(
        changed(HOUSE, ('mean = "-8 degC"', 'mean = "9 degC"'), ('mean = "26 degC"', 'mean = "12 degC"'))
    )
    told = " ".join(one.answer.cautions)
    assert "The cold spell of the plan is no colder" in told
    assert "The heat wave of the plan is no warmer" in told
    assert "no colder" not in " ".join(brief(HOUSE).answer.cautions)
    assert one.needed < brief(HOUSE).needed


def test_spells_that_the_plan_leaves_out_are_assumed_and_said() -> None:
    bare = without(without(HOUSE, "cold_spell"), "heat_wave")
    one = brief(bare)
    told = {assumption.key: assumption.value for assumption in one.answer.assumptions}
    assert told["weather.cold_spell"] == "5 days of -7 °C"
    assert told["weather.heat_wave"] == "5 days of 24 °C"
    assert {"weather.cold_spell", "weather.heat_wave"} & {
        one.key for one in brief(HOUSE).answer.assumptions
    } == set()


def test_what_the_plan_leaves_out_is_assumed_under_its_key() -> None:
    thin = without(without(without(HOUSE, "infiltration"), "soil"), "layers")
    told = {assumption.key for assumption in brief(thin).answer.assumptions}
    expected = {"building.infiltration", "building.floor.layers", "building.floor.soil", "pumps.mover.heats_water",
                "heaters.tank.band", "circuits", "weather"}  # fmt: skip
    assert expected <= told
    said = {assumption.key for assumption in brief(HOUSE).answer.assumptions}
    assert not {"building.infiltration", "building.floor.layers", "building.floor.soil"} & said


def test_without_circuits_all_water_counts_as_mixed_and_it_is_said() -> None:
    sump = VAT.replace("vat", "sump").replace("3 kW", "1 kW")
    one = brief(HOUSE + sump)
    assert one.facts.groups == (("tank", "sump"),)
    assert one.facts.volume == pytest.approx(3.7 * 2.0 * 1.5 + 0.8)
    assert one.facts.heater_power == pytest.approx(7000.0)
    (told,) = [assumption for assumption in one.answer.assumptions if assumption.key == "circuits"]
    assert told.value == "well mixed"


def test_a_vat_that_no_line_joins_is_left_out_and_said() -> None:
    """Its heater does not warm the tank: with it or without, the same answer."""
    one, plain = brief(ROUND + VAT), brief(ROUND)
    assert "vat: No line joins it to the display" in " ".join(one.answer.cautions)
    assert one.facts.keys == ("tank", "sump")
    assert one.facts.heater_power == pytest.approx(plain.facts.heater_power)
    assert one.energy == pytest.approx(plain.energy, rel=0.01)


def test_only_heaters_in_a_vat_apart_are_unproven() -> None:
    one = brief(ROUND.split("[heaters.tank]")[0] + VAT)
    check = one.check("heat.heaters.size")
    assert check.verdict is Verdict.UNPROVEN
    assert "no heater stands in a vessel" in (check.missing or "")


SOUTH = changed(
    months_turned(HOUSE), ("latitude = 52.0", "latitude = -43.0"), ("longitude = 5.0", "longitude = 172.0"),
    ("Europe/Amsterdam", "Pacific/Auckland"), ('faces = "south"', 'faces = "north"'),
)  # fmt: skip


def winter_share(one: Found, months: tuple[int, ...]) -> float:
    heat = one.years.balance["w_heaters"]
    return sum(heat[month] for month in months) / sum(heat)


def test_south_of_the_equator_heaters_run_in_june() -> None:
    """Half a year on, the same house at about the same warmth asks for about the same energy."""
    south, north = brief(SOUTH), brief(HOUSE)
    assert winter_share(south, (5, 6, 7)) > 0.4
    assert winter_share(north, (5, 6, 7)) < 0.1
    assert winter_share(north, (11, 0, 1)) > 0.4
    assert south.energy == pytest.approx(north.energy, rel=0.25)
    assert south.facts.stuck is not None
    assert north.facts.stuck is not None
    assert south.facts.stuck.highest == pytest.approx(north.facts.stuck.highest, abs=2.5)


POLAR = changed(HOUSE, ("latitude = 52.0", "latitude = 78.0"), ("Europe/Amsterdam", "Arctic/Longyearbyen"),
                ('mean = "-8 degC"', 'mean = "-30 degC"'), ('mean = "26 degC"', 'mean = "12 degC"'))  # fmt: skip
POLAR = normals_set(POLAR, "temperature", "-13 -13 -13 -10 -3 3 6 5 1 -5 -8 -11 degC")
POLAR = normals_set(POLAR, "sun", "0 0.05 0.8 2.9 4.8 5.0 4.0 2.2 0.9 0.15 0 0 kWh/m2/day")


def test_a_polar_site_is_answered() -> None:
    one = brief(POLAR)
    sun = one.years.balance["w_sun"]
    assert sun[11] == 0.0
    assert sun[5] > 100.0
    assert one.needed > 1.5 * brief(HOUSE).needed
    assert max(one.years.humidity.high) <= 1.0
    for chart in one.answer.charts:
        assert "nan" not in draw_chart(chart, "metric")


def test_a_place_where_nothing_has_to_be_heated_is_answered() -> None:
    """Heaters that never come on: no power is asked for, none is ranked, and nothing divides by nothing."""
    warm = normals_set(HOUSE, "temperature", "27 27 28 28 28 28 28 28 28 28 27 27 degC")
    warm = changed(
        warm, ("latitude = 52.0", "latitude = 12.0"), ('mean = "-8 degC"', 'mean = "25 degC"'),
        ('mean = "26 degC"', 'mean = "34 degC"'), ('setpoint = "25 degC"', 'setpoint = "20 degC"'),
    )  # fmt: skip
    one = found(warm)
    assert one.energy == 0.0
    assert one.needed == 0.0
    assert one.check("heat.heaters.size").verdict is Verdict.SOUND
    assert one.facts.ranks == ()
    assert "Heaters run in 0 nights" in one.answer.sentence
    assert one.check("heat.water.warmest").verdict is Verdict.FAILS


def test_single_glass_is_answered_and_bettered_by_a_second_pane() -> None:
    one = found(changed(HOUSE, ('"pc-8-twin"', '"glass-4"')))
    ranks = {rank.name: rank for rank in one.facts.ranks}
    glazing = ranks["heat through the glazing"]
    assert glazing.less < glazing.more
    assert any("glazing" in improvement.name for improvement in one.facts.improvements)
    assert one.energy > 1.1 * found(HOUSE).energy


@pytest.mark.parametrize("name", ["greensboro", "sand_point"])
def test_a_weather_file_beside_the_plan_is_used(name: str, tmp_path: Path) -> None:
    """A typical year that pvlib brings along, copied beside the plan: named as such, its means made into years."""
    file, site = FILES[name]
    assert site.zone is not None
    shutil.copy(bundled() / file, tmp_path / file)
    text = changed(
        PLACE + WEATHER.split("[weather.normals]")[0] + BUILDING + TANK + HEATERS + MONEY,
        ("latitude = 52.0", f"latitude = {site.latitude}"), ("longitude = 5.0", f"longitude = {site.longitude}"),
        ('elevation = "5 m"', f'elevation = "{site.elevation:g} m"'), ("Europe/Amsterdam", site.zone),
        ("years = 2", f'years = 2\nfile = "{file}"'),
    )  # fmt: skip
    path = tmp_path / "house.toml"
    path.write_text(text, encoding="utf-8")
    one = found_of(load(path))
    assert one.facts.missing == ()
    assert one.facts.weather_source is not None
    (told,) = [assumption for assumption in one.answer.assumptions if assumption.key == "weather"]
    assert "year" in told.value
    assert one.energy > 500.0
    beside = found_of(loads(text))
    assert beside.answer.verdict is Verdict.UNPROVEN
