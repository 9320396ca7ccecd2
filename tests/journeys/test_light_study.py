"""The light study from plan to answer: numbers worked elsewhere, what lamps and shade do, what stays unproven."""

from __future__ import annotations

import pickle
from dataclasses import replace

import numpy as np
import pytest

from tests.journeys.climates import climate
from tests.journeys.flow_plans import changed
from tests.journeys.light_plans import (
    LAMPS,
    REEF,
    answer_of,
    answer_without,
    check_of,
    example_answer,
    facts_of,
)
from tests.journeys.worked import off, steps_of
from tidestead.core.answer import Verdict
from tidestead.core.charts import BarChart, LineChart, YearMap
from tidestead.core.weather import MONTH_OF_HOUR, Normals
from tidestead.intake.sun import sun_path
from tidestead.plan import loads
from tidestead.report.svg_chart import draw_chart
from tidestead.report.wording import governing
from tidestead.studies import light
from tidestead.studies.inputs import Inputs

DEEP = {
    "greensboro": (5.3, 7.0, 10.2, 13.2, 13.7, 15.3, 14.9, 13.7, 10.6, 8.4, 5.4, 4.7),
    "miami": (7.9, 10.3, 12.3, 15.0, 14.3, 13.5, 14.1, 13.5, 11.5, 10.1, 8.0, 7.5),
    "sand_point": (1.0, 2.0, 4.1, 7.1, 7.6, 8.9, 12.0, 6.2, 6.7, 3.1, 1.3, 0.7),
}
"""Light of a day at 1.4 m by month, worked beforehand with another model on the same three files: sheet of three walls,
0.69 straight on, dirt 0.85, bars 0.78, Kd 0.15, 2.06 umol/J, all of the sun taken through the roof."""


@pytest.mark.parametrize("name", DEEP)
def test_light_at_depth_is_as_another_model_had_it(name: str) -> None:
    """Within a tenth where the sun stands high. Low winter sun comes in by the front wall too, which the other model
    leaves out: there ours gives more, up to a third more at 55 north in December."""
    (group,) = facts_of(REEF, name).groups
    ours = np.array(group.typical) * 2.06 / 2.04
    ratio = ours / np.array(DEEP[name])
    high = slice(2, 9) if name == "sand_point" else slice(0, 12)
    assert np.all(np.abs(ratio[high] - 1.0) < 0.11)
    assert np.all(ratio > 0.97)
    assert np.all(ratio < 1.36)


@pytest.mark.parametrize("name", DEEP)
def test_made_years_keep_the_light_of_the_file_they_are_made_of(name: str) -> None:
    (group,) = facts_of(REEF, name).groups
    assert np.array(group.natural.likely) == pytest.approx(np.array(group.typical), rel=0.09)
    assert np.all(np.array(group.natural.low) <= np.array(group.natural.likely))
    assert np.all(np.array(group.natural.likely) <= np.array(group.natural.high))


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_both_examples_answer_with_numbers(name: str) -> None:
    answer = example_answer(name)
    assert answer.verdict is (Verdict.NEAR if name == "skerry" else Verdict.FAILS)
    assert "Natural light alone carries" in answer.sentence
    assert "except in Oct to" in answer.sentence
    assert "mol/(m² day)" in answer.sentence
    assert "kWh a year" in answer.sentence
    kinds = [type(chart) for chart in answer.charts]
    assert kinds[:3] == [BarChart, LineChart, YearMap]
    assert all(check.verdict is not Verdict.UNPROVEN for check in answer.checks)


@pytest.mark.parametrize("text", [REEF, REEF + LAMPS, REEF.replace("69 %", "40 %") + LAMPS])
def test_every_formula_has_its_numbers_and_they_give_its_result(text: str) -> None:
    assert off(answer_of(text)) == []


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_working_of_the_examples(name: str) -> None:
    assert off(example_answer(name)) == []


def test_working_of_two_readings() -> None:
    text = REEF.replace(
        "[supplies]", '[measured]\nlight = ["310 umol/m2/s at 0.2 m", "240 umol/m2/s at 1.0 m"]\n\n[supplies]'
    )
    answer = answer_of(text)
    assert off(answer) == []
    (first,) = [step for step in steps_of(answer) if step.symbol == "Kd"]
    assert first.result == pytest.approx(0.320, abs=5e-4)


def test_lamps_make_up_what_they_are_said_to() -> None:
    """The power that the answer asks for, put into the plan, lifts the darkest month to the least of the band."""
    (bare,) = facts_of(REEF, "sand_point").groups
    power = max(bare.make_up.power)
    lit = REEF + LAMPS.replace("700 W", f"{power:.1f} W") + 'reaches = "70 %"\n'
    (group,) = facts_of(lit, "sand_point").groups
    assert min(group.deep.likely) == pytest.approx(bare.band.least, rel=1e-3)
    assert group.lighting.planned
    assert group.natural.likely == pytest.approx(bare.natural.likely)


def test_the_worked_lamps_of_730_watts() -> None:
    """55 north in December, 6 wanted at 1.4 m where the sun gives 0.7, 7.4 m2: 730 W over 12 h (reflection ignored)."""
    text = changed(REEF, ('depth = "0.3 to 1.4 m"', 'depth = "0.3 to 1.4 m"\nwants = "6 to 16 mol/m2/day"'))
    (group,) = facts_of(text, "sand_point").groups
    lacking = group.make_up.missing[11]
    assert group.area == pytest.approx(7.4)
    assert group.make_up.power[11] * 5.3 / lacking == pytest.approx(730.0, abs=5.0)
    energy = group.make_up.power[11] * 5.3 / lacking * 12.0 * 3600.0
    assert energy == pytest.approx(31e6, rel=0.02)


def test_water_too_dim_for_any_lamp_is_said() -> None:
    answer = answer_of(changed(REEF, ("0.15 1/m", "19 1/m")))
    assert "No lamps make up the rest at corals reef" in answer.sentence
    assert check_of(answer, "light.reef.least").advice == "clearer water or corals higher up"


def test_energy_and_cost_of_lamps_by_hand() -> None:
    """700 W for 12 h on 365 days are 3066 kWh, at 0.30 that is 919.80 EUR."""
    answer = answer_of(REEF + LAMPS)
    figures = {figure.id: figure for figure in answer.figures}
    assert figures["light.lamps.bars.energy"].estimate.likely == pytest.approx(3066.0 * 3.6e6)
    assert figures["light.lamps.bars.cost"].estimate.likely == pytest.approx(919.80)
    assert figures["light.lamps.bars.cost"].unit == "EUR"


def test_lamps_warm_water_and_air_hour_by_hour() -> None:
    facts = facts_of(REEF + LAMPS)
    water, air = facts.water_heat["tank"], facts.air_heat["tank"]
    assert water.shape == (8760,)
    assert set(np.round(water + air, 9)) == {0.0, 700.0}
    assert float((water + air).sum()) == pytest.approx(700.0 * 12.0 * 365.0)
    assert water[12] == pytest.approx(700.0 * 0.7 * 2.2 / 4.57)
    assert water[5] == 0.0
    assert water[6] > 0.0


def test_lamps_of_some_months_and_half_hours() -> None:
    lamps = LAMPS.replace('hours = "12 h"', 'hours = "7 h"\nmonths = "Oct to Mar"')
    facts = facts_of(REEF + lamps)
    power = facts.water_heat["tank"] + facts.air_heat["tank"]
    noon, dawn = 24 * 200 + 12, 24 * 10 + 8
    assert power[noon] == 0.0
    assert power[dawn] == pytest.approx(350.0)
    days = 31 + 30 + 31 + 31 + 28 + 31
    assert float(power.sum()) == pytest.approx(700.0 * 7.0 * days)


def test_lamps_that_light_less_than_the_corals_do_not_count_for_the_least() -> None:
    small = REEF.replace('depth = "0.3 to 1.4 m"', 'depth = "0.3 to 1.4 m"\narea = "3 m2"')
    lit = small + LAMPS + 'lights = "2 m2"\n'
    (group,) = facts_of(lit).groups
    assert not group.lighting.covers
    assert group.deep.likely == pytest.approx(group.natural.likely)
    assert group.top.likely[11] > group.natural_top.likely[11] + 1.0
    assert any(
        "not counted for the least" in caution
        for caution in check_of(answer_of(lit), "light.reef.least").cautions
    )


def test_lamps_side_by_side_and_over_one_another() -> None:
    """Two lamps of 2 m2 each: the least light is of each by itself, the most of both together."""
    one = LAMPS.replace("700 W", "200 W") + 'lights = "2 m2"\n'
    two = one + one.replace("lamps.bars", "lamps.more")
    (single,), (double,) = facts_of(REEF + one).groups, facts_of(REEF + two).groups
    assert double.lighting.low == pytest.approx(single.lighting.low)
    assert double.lighting.high == pytest.approx(2.0 * single.lighting.high)
    assert double.area == pytest.approx(4.0)


def test_shade_by_month_takes_its_share() -> None:
    shaded = changed(
        REEF,
        (
            'bars = "22 %"',
            'bars = "22 %"\nshade = { share = "40 %", above = "30 degC", months = "Jun to Aug" }',
        ),
    )
    (bare,), (group,) = facts_of(REEF).groups, facts_of(shaded).groups
    ratio = np.array(group.natural.likely) / np.array(bare.natural.likely)
    assert ratio[5:8] == pytest.approx([0.6] * 3)
    assert ratio[:5] == pytest.approx([1.0] * 5)


def test_shade_that_is_asked_for_is_enough() -> None:
    """Shade of the share told, put in for the months told, keeps a bright year within the limits."""
    (bare,) = facts_of(REEF, "miami").groups
    share = 100.0 * max(bare.shade) + 0.5
    assert share > 10.0
    text = changed(
        REEF,
        (
            'bars = "22 %"',
            f'bars = "22 %"\nshade = {{ share = "{share:.1f} %", above = "30 degC", months = "all year" }}',
        ),
    )
    (group,) = facts_of(text, "miami").groups
    assert max(group.natural_top.high) <= group.band.most * 1.001
    assert max(group.sun_peaks) <= group.band.peak * 1.001
    assert max(group.shade) == 0.0


def test_covers_that_stay_on_dim_and_covers_of_the_night_do_not() -> None:
    cover = '\n[covers.lid]\nover = "tank"\nshare = "50 %"\npasses = "20 %"\n'
    (bare,), (dim,) = facts_of(REEF).groups, facts_of(REEF + cover).groups
    (night,) = facts_of(REEF + cover + 'when = "night"\n').groups
    assert np.array(dim.natural.likely) == pytest.approx(0.6 * np.array(bare.natural.likely))
    assert night.natural.likely == pytest.approx(bare.natural.likely, rel=1e-6)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('shape = "gable"\n', ""), 'shape = "gable" or "lean-to"'),
        (('glazing = "pc-8-triple"\n', ""), "clear sheet"),
        (('water = "1.5 m"\n', ""), "how deep the water is"),
        (('[vessels.tank]', '[vessels.tank]\nplace = { x = "30 m", y = "1 m" }'), "not inside the building"),
    ],
)  # fmt: skip
def test_what_the_plan_leaves_out_stays_unproven_with_the_reason(change: tuple[str, str], words: str) -> None:
    answer = answer_of(changed(REEF, change))
    assert answer.verdict is Verdict.UNPROVEN
    assert words in answer.sentence
    assert not answer.charts


def test_no_corals_and_no_weather_are_unproven() -> None:
    bare = REEF.split("[corals.reef]")[0]
    answer = answer_of(bare)
    assert answer.verdict is Verdict.UNPROVEN
    assert "[corals.NAME]" in answer.sentence
    blind = answer_without(REEF, "The plan names no source of weather.")
    assert blind.verdict is Verdict.UNPROVEN
    assert "The plan names no source of weather" in blind.sentence


def test_readings_by_which_light_grows_are_not_believed() -> None:
    text = REEF.replace(
        "[supplies]", '[measured]\nlight = ["200 umol/m2/s at 0.2 m", "240 umol/m2/s at 1.0 m"]\n\n[supplies]'
    )
    answer = answer_of(text)
    assert answer.verdict is Verdict.UNPROVEN
    assert "light grows with depth" in answer.sentence


def test_no_house_is_the_open_sky_and_said() -> None:
    text = REEF.split("[building]")[0] + "[water]" + REEF.split("[water]")[1]
    answer = answer_of(text)
    (group,) = facts_of(text).groups
    assert group.surface.likely == pytest.approx(group.outside.likely, rel=0.02)
    assert any(one.key == "building" and one.value == "none" for one in answer.assumptions)


def test_a_polar_night_is_dark_and_has_working() -> None:
    """78 north: months without any sun; lamps alone carry the corals there."""
    weather = climate("sand_point")
    dark = sun_path(78.0, 15.0, 0.0, 1.0)
    top = np.bincount(MONTH_OF_HOUR, weights=dark.top) / np.bincount(MONTH_OF_HOUR)
    normals = Normals((-8.0,) * 12, tuple(0.4 * float(one) for one in top), (0.7,) * 12, (4.0,) * 12)
    north = replace(
        weather, latitude=78.0, longitude=15.0, years=(), normals=normals, sun=dark, typical=False
    )
    for text in (REEF, REEF + LAMPS):
        inputs = Inputs(loads(text).plan, "metric", north)
        facts = light.find(inputs)
        answer = light.judge(inputs, facts)
        assert facts.groups[0].natural.likely[11] == 0.0
        assert facts.day_length[11] == 0.0
        assert off(answer) == []
        assert "0 mol/(m² day)" in answer.sentence
        for chart in answer.charts:
            assert "nan" not in draw_chart(chart, "metric")


def test_a_house_without_clear_sheet_is_dark() -> None:
    walls = "\n".join(
        f'sides.{face} = {{ wall = ["18 mm plywood"] }}'
        for face in ("front", "back", "left", "right", "roof", "roof-back")
    )
    answer = answer_of(changed(REEF, ('bars = "22 %"', f'bars = "22 %"\n{walls}')) + LAMPS)
    assert off(answer) == []
    assert "in no month" in answer.sentence
    assert check_of(answer, "light.reef.peak").verdict is Verdict.SOUND


def test_more_groups_than_a_sentence_holds_stand_in_the_tables() -> None:
    more = "".join(
        f'\n[corals.group{number}]\nkind = "soft"\nvessel = "tank"\ndepth = "0.{number} to 1.0 m"\n'
        for number in range(1, 5)
    )
    answer = answer_of(REEF + more)
    assert "2 more groups stand in the tables." in answer.sentence
    assert len([table for table in answer.tables if table.id.endswith(".months")]) == 5


def test_a_file_of_one_typical_year_is_told_beside_made_years() -> None:
    answer = answer_of(REEF)
    table = next(table for table in answer.tables if table.id == "light.reef.months")
    assert table.columns[-1].head.endswith("typical year of the file")
    assert any(
        one.key == "weather" and "one typical year of weather and 19 years made" in one.value
        for one in answer.assumptions
    )


def test_real_years_are_tried_as_they_are() -> None:
    """Six copies of one year: its own light, and no spread."""
    weather = climate("greensboro")
    several = replace(weather, years=weather.years * 6, typical=False)
    facts = light.find(Inputs(loads(REEF).plan, "metric", several))
    (group,) = facts.groups
    assert facts.years == "6 real years"
    assert group.natural.low == pytest.approx(group.natural.high)
    assert group.typical == ()
    (typical,) = facts_of(REEF).groups
    assert group.natural.likely == pytest.approx(typical.typical)


def test_clearer_sheet_and_water_give_more_and_verdicts_change() -> None:
    """The same corals fail under thick sheet in dim water and are held under clear sheet in clear water."""
    deep = REEF.replace('depth = "0.3 to 1.4 m"', 'depth = "1.0 to 1.4 m"\nwants = "4 to 30 mol/m2/day"')
    dim = answer_of(changed(deep, ('passes = "69 %"', 'passes = "45 %"'), ("0.15 1/m", "0.4 1/m")))
    clear = answer_of(changed(deep, ('passes = "69 %"', 'passes = "85 %"')))
    assert check_of(dim, "light.reef.least").verdict is Verdict.FAILS
    assert check_of(clear, "light.reef.least").verdict is Verdict.SOUND


def test_your_own_band_wins_and_yours_row_may_be_used() -> None:
    own = REEF.replace('kind = "small-polyp"', 'kind = "yours:mine"') + (
        '\n[yours.corals.mine]\nlike = "soft"\ntitle = "Mine"\nleast = "1 mol/m2/day"\nmost = "30 mol/m2/day"\n'
    )
    (group,) = facts_of(own).groups
    assert (group.band.least, group.band.most) == (1.0, 30.0)
    assert group.band.title == "Mine"


def test_the_answer_is_the_same_again_and_facts_travel() -> None:
    inputs = Inputs(loads(REEF + LAMPS).plan, "us", climate("miami"))
    one, other = light.find(inputs), light.find(inputs)
    assert light.judge(inputs, one).sentence == light.judge(inputs, other).sentence
    back = pickle.loads(pickle.dumps(one))
    assert back.groups[0].natural == one.groups[0].natural


def test_us_words_have_us_units() -> None:
    answer = answer_of(REEF + LAMPS, system="us")
    note = next(table.note for table in answer.tables if table.id == "light.reef.made_up")
    assert "ft²" in note
    assert not any(" m²," in table.note for table in answer.tables)


def test_picture_of_the_day_agrees_with_the_highest_hour_that_is_judged() -> None:
    """Mean days stay under what is borne where the highest hour does not: the picture must show that hour too."""
    answer = example_answer("packhouse")
    check = check_of(answer, "light.floor.peak")
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    assert isinstance(check.limit, float)
    chart = next(one for one in answer.charts if one.id == "light.floor.days")
    assert isinstance(chart, LineChart)
    *means, brightest, judged = chart.curves
    assert max(max(curve.values) for curve in means) < check.limit
    assert max(brightest.values) == pytest.approx(check.estimate.likely, rel=0.02)
    assert set(judged.values) == {check.estimate.high}
    assert "mean days" in chart.title
    worked = next(one for one in answer.working if one.check == check.id)
    assert {check.estimate.likely, check.estimate.high} <= {step.result for step in worked.steps}


def test_first_picture_is_of_the_corals_that_govern() -> None:
    answer = example_answer("packhouse")
    first = governing(answer)
    assert first is not None
    assert answer.charts[0].id.startswith(f"light.{first.part}.")
