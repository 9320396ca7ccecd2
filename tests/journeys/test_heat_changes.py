"""What a change in the plan does to warmth: sheet, covers, setpoints, foam, draughts, heaters, cooling, spells."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.journeys.flow_plans import changed
from tests.journeys.heat_plans import CHILLER, COVER, FAN, HOUSE, MONEY, ROUND, Found, brief, found
from tidestead.core.answer import Verdict

Asked = Callable[[Found], float]


def energy(one: Found) -> float:
    return one.energy


def coldest(one: Found) -> float:
    return one.coldest


def warmest(one: Found) -> float:
    return one.warmest


def wave(one: Found) -> float:
    return one.wave


def needed(one: Found) -> float:
    return one.needed


def evaporated(one: Found) -> float:
    return one.evaporated


def humidity(one: Found) -> float:
    return max(one.years.humidity.likely)


def stuck(one: Found) -> float:
    assert one.facts.stuck is not None
    return one.facts.stuck.highest


def spell(one: Found) -> float:
    assert one.facts.spell is not None
    return one.facts.spell.lowest.likely


BACK = 'back = { wall = ["18 mm plywood", "100 mm mineral-wool", "12 mm plywood"] }'
SHADE = 'shade = { share = "60 %", above = "25 degC" }\n'
TOP_OFF = 'top_off = {{ level = "1.5 m", flow = "2 L/min", evaporation = "{} L/day" }}\nplace ='


def glass(text: str) -> str:
    return changed(text, ('"pc-8-twin"', '"pc-16-triple"'))


def foam(text: str) -> str:
    return changed(text, ('role = "display"', 'role = "display"\ninsulation = ["50 mm xps"]'))


def foam_under(text: str) -> str:
    return changed(text, ('role = "display"', 'role = "display"\nfloor_insulation = ["50 mm xps"]'))


CHANGES: list[tuple[str, Callable[[str], str], list[tuple[Asked, float, float]]]] = [
    ("better glazing", glass, [(energy, -0.35, -0.15), (needed, -0.25, -0.1), (evaporated, -0.25, -0.05)]),
    ("cover by night", lambda text: text + COVER,
     [(energy, -0.35, -0.1), (evaporated, -0.6, -0.2), (needed, -0.35, -0.1), (humidity, -0.4, 0.0)]),
    ("setpoint a kelvin lower", lambda text: changed(text, ('"25 degC"', '"24 degC"')),
     [(energy, -0.2, -0.05), (coldest, -0.05, -0.03), (needed, -0.08, -0.01)]),
    ("foam round the tank", foam, [(energy, -0.4, -0.1), (needed, -0.4, -0.1)]),
    ("foam under the tank", foam_under, [(energy, -0.1, -0.005), (needed, -0.05, -0.001)]),
    ("twice as draughty", lambda text: changed(text, ('"0.75 1/h"', '"1.5 1/h"')),
     [(energy, 0.02, 0.2), (needed, 0.01, 0.15), (evaporated, 0.01, 0.2)]),
    ("larger heaters", lambda text: changed(text, ('power = "1.5 kW"', 'power = "2.5 kW"')),
     [(stuck, 0.03, 0.2), (spell, -0.001, 0.03), (energy, -0.01, 0.02), (needed, 0.0, 0.0)]),
    ("smaller heaters", lambda text: changed(text, ('power = "1.5 kW"', 'power = "500 W"')),
     [(stuck, -0.2, -0.03), (spell, -0.5, -0.1), (energy, -0.9, -0.1), (needed, 0.0, 0.0)]),
    ("a chiller", lambda text: text + CHILLER, [(warmest, -0.15, -0.02), (wave, -0.2, -0.04), (spell, -0.001, 0.001)]),
    ("a fan over the water", lambda text: text + FAN,
     [(warmest, -0.15, -0.02), (wave, -0.15, -0.02), (evaporated, 0.02, 0.4)]),
    ("no shade", lambda text: changed(text, (SHADE, "")),
     [(warmest, 0.05, 0.3), (wave, 0.05, 0.4), (energy, -0.1, 0.0)]),
    ("no vents", lambda text: changed(text, ('vents = { rate = "30 1/h", opens_at = "24 degC" }\n', "")),
     [(warmest, 0.03, 0.4), (wave, 0.03, 0.4)]),
    ("shade in every month", lambda text: changed(text, ('"25 degC" }', '"25 degC", months = "all year" }')),
     [(energy, 0.05, 0.5), (warmest, -0.1, 0.0)]),
    ("a dark roof", lambda text: changed(text, (BACK, f"{BACK}\n{BACK.replace('back', 'roof', 1)}")),
     [(warmest, -0.2, 0.0), (needed, -0.4, -0.03)]),
    ("half the water", lambda text: changed(text, ('water = "1.5 m"', 'water = "0.75 m"')),
     [(stuck, 0.0, 0.3), (energy, -0.3, 0.0)]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("change", "effects"), [pytest.param(change, effects, id=name) for name, change, effects in CHANGES]
)
def test_a_change_of_the_plan_moves_the_answer_the_right_way(
    change: Callable[[str], str], effects: list[tuple[Asked, float, float]]
) -> None:
    """By how much as a share of what it was: between two bounds, wide, but on the right side of nothing."""
    before, after = brief(HOUSE), brief(change(HOUSE))
    for asked, least, most in effects:
        share = asked(after) / asked(before) - 1.0
        assert least - 1e-6 <= share <= most + 1e-6, f"{asked.__name__} {share:+.3f}"


def test_verdicts_follow_the_plan() -> None:
    """The same check sound, near or failing by what stands in the plan, and the sentence says so."""
    small = brief(changed(HOUSE, ('power = "1.5 kW"', 'power = "500 W"')))
    large = brief(changed(HOUSE, ('power = "1.5 kW"', 'power = "2.5 kW"')))
    assert small.check("heat.heaters.size").verdict is Verdict.FAILS
    assert small.answer.sentence.startswith("Not as it stands.")
    assert "Heaters: power for the cold spell" in small.answer.sentence
    assert "Try heaters of" in small.answer.sentence
    assert large.check("heat.heaters.size").verdict is Verdict.SOUND
    assert large.check("heat.heaters.stuck").verdict is Verdict.FAILS
    bare = changed(HOUSE, (SHADE, ""))
    assert brief(bare).check("heat.water.warmest").verdict is Verdict.FAILS
    cool = changed(HOUSE + CHILLER, ('"24 to 28 degC"', '"24 to 31 degC"'))
    assert brief(cool).check("heat.water.warmest").verdict is Verdict.SOUND


def test_heaters_are_sized_on_the_cold_spell_and_not_on_the_coldest_made_year() -> None:
    """Five kelvin colder asks for more, but for less than the mean loss of each kelvin, for water does not evaporate
    faster in the cold. Three times as many made years change nothing, and fewer change next to nothing."""
    ten, colder = (brief(changed(HOUSE, ("years = 2", "years = 10"), ('mean = "-8 degC"', f'mean = "{mean} degC"')))
                   for mean in (-8, -13))  # fmt: skip
    assert ten.facts.spell is not None
    assert colder.facts.spell is not None
    per_kelvin = ten.facts.spell.load.likely / (25.0 - -8.0)
    rise = (colder.facts.spell.load.likely - ten.facts.spell.load.likely) / 5.0
    assert 0.4 * per_kelvin < rise < 1.1 * per_kelvin
    many, few = (brief(changed(HOUSE, ("years = 2", f"years = {count}"))) for count in (30, 5))
    assert many.facts.spell is not None
    assert many.facts.spell.load.likely == pytest.approx(ten.facts.spell.load.likely)
    assert many.years.coldest.low <= ten.years.coldest.low + 0.05
    assert few.needed == pytest.approx(ten.needed, rel=0.08)
    assert abs(few.needed - ten.needed) < 0.5 * (colder.needed - ten.needed)


def test_a_longer_spell_asks_for_no_less() -> None:
    longer = brief(changed(HOUSE, ('lasts = "4 days"', 'lasts = "8 days"')))
    assert longer.needed >= 0.97 * brief(HOUSE).needed


def test_one_heater_dead_leaves_the_water_colder() -> None:
    facts = brief(HOUSE).facts
    assert facts.spell is not None
    assert facts.spell.without_one.likely < facts.spell.lowest.likely
    tight = brief(changed(HOUSE, ("count = 4", "count = 3"))).facts.spell
    assert tight is not None
    assert tight.without_one.likely < tight.lowest.likely - 0.3


def test_more_and_smaller_heaters_do_less_harm_when_one_is_stuck() -> None:
    facts = brief(HOUSE).facts
    assert facts.spell is not None
    shares = facts.spell.stuck
    assert [count for count, _, _ in shares] == [1, 2, 3, 4]
    assert all(count * power == pytest.approx(facts.spell.needed.high) for count, power, _ in shares)
    hot = [highest for _, _, highest in shares]
    assert hot == sorted(hot, reverse=True)
    assert hot[0] - hot[3] > 2.0


def test_what_is_tried_in_the_heat_wave_cools() -> None:
    tried = {one.name: one.highest for one in brief(HOUSE).facts.tried}
    assert tried["without the shade"] > tried["as planned"] + 1.0
    assert tried["with the vents shut"] > tried["as planned"]
    assert tried["with a fan of 1 m/s over the water"] < tried["as planned"] - 0.3
    assert tried["with a chiller"] < tried["as planned"] - 0.5
    assert tried["with both"] < min(tried["with a chiller"], tried["with a fan of 1 m/s over the water"])
    with_one = {one.name for one in brief(HOUSE + CHILLER).facts.tried}
    assert {"with a further chiller", "with the chiller dead"} <= with_one


def test_what_is_tried_as_a_heat_wave_matches_the_plan_that_has_it() -> None:
    """A dial turned in the study is the same house as a plan that says it: fan over the water, and shade left out."""
    tried = {one.name: one.highest for one in brief(HOUSE).facts.tried}
    bare = brief(changed(HOUSE, (SHADE, "")))
    assert bare.wave == pytest.approx(tried["without the shade"], abs=0.15)


def test_a_power_cut_cools_as_by_hand_at_first_and_a_cover_holds_it() -> None:
    cut = brief(HOUSE).facts.cut
    assert cut is not None
    assert cut.water[12] == pytest.approx(cut.formula[12], abs=0.15)
    assert cut.water[0] > cut.water[24] > cut.water[48] > cut.water[72]
    assert all(open_ < covered for open_, covered in zip(cut.water[6:72], cut.covered[6:72], strict=True))
    assert cut.to_harm is not None
    assert cut.covered_to_harm is None or cut.covered_to_harm > cut.to_harm


def test_what_decides_is_ranked_and_each_moves_the_right_way() -> None:
    ranks = {one.name: one for one in found(HOUSE).facts.ranks}
    spread = [abs(one.more - one.less) for one in found(HOUSE).facts.ranks]
    assert spread == sorted(spread, reverse=True)
    for name in ("heat through the glazing", "evaporation", "air through cracks", "setpoint", "heat into the ground",
                 "heat through the vessels' sides"):  # fmt: skip
        assert ranks[name].more > ranks[name].less, name
    for name in ("the sun", "heat of pumps and lamps", "outdoor temperature"):
        assert ranks[name].more < ranks[name].less, name
    small = abs(ranks["volume of water"].more - ranks["volume of water"].less)
    assert small < 0.1 * spread[0]


def test_improvements_save_and_what_the_plan_has_is_left_out() -> None:
    first, *others = found(HOUSE).facts.improvements
    assert first.name == "as planned"
    assert len(others) == 7
    assert all(one.heater < first.heater for one in others)
    assert others[-1].heater < min(one.heater for one in others[:-1])
    covered = found(HOUSE + COVER).facts.improvements
    assert not any("cover" in one.name for one in covered)


def test_setpoint_above_the_chiller_s_never_makes_the_two_fight() -> None:
    """Two kelvin higher would put the heaters above the chiller; it is turned up with them."""
    ranks = {one.name: one for one in found(HOUSE + CHILLER).facts.ranks}
    plain = {one.name: one for one in found(HOUSE).facts.ranks}
    assert ranks["setpoint"].more < 1.4 * plain["setpoint"].more


def test_a_chiller_set_below_the_heaters_is_told_and_costs_dear() -> None:
    apart, fighting = (brief(HOUSE + CHILLER.replace("26 degC", f"{at} degC")) for at in (26, 24))
    assert "fight: one begins before the other ends" in " ".join(fighting.answer.cautions)
    assert "fight" not in " ".join(apart.answer.cautions)
    assert fighting.energy > 1.5 * apart.energy


def test_shade_over_the_glazing_keeps_more_heat_out_than_under_it() -> None:
    outside = brief(changed(HOUSE, ('"25 degC" }', '"25 degC", hangs = "outside" }')))
    assert outside.wave < brief(HOUSE).wave
    assert "building.shade.hangs" in {one.key for one in brief(HOUSE).answer.assumptions}
    assert "building.shade.hangs" not in {one.key for one in outside.answer.assumptions}


def test_a_heat_pump_of_three_takes_a_third_of_the_money() -> None:
    plain, pump = (brief(text).figure("heat.heaters.cost").estimate
                   for text in (HOUSE, changed(HOUSE, ("count = 4", "count = 4\nyields = 3"))))  # fmt: skip
    assert pump.likely == pytest.approx(plain.likely / 3.0, abs=1.0)
    energy_cost = brief(HOUSE).energy * 0.30
    assert plain.likely == pytest.approx(energy_cost, abs=0.51)


def test_a_fuel_without_a_price_tells_no_money_and_one_with_a_price_its_own() -> None:
    burner = changed(HOUSE, ("count = 4", 'count = 4\nenergy = "fuel"\nyields = 0.9'))
    one = found(burner)
    assert not any(figure.id == "heat.heaters.cost" for figure in one.answer.figures)
    assert "EUR" not in one.answer.sentence
    assert not any("saved, EUR" in column.head for table in one.answer.tables for column in table.columns)
    priced = found(burner.replace("yields = 0.9", 'yields = 0.9\nprice = "0.09 EUR/kWh"'))
    cost = priced.figure("heat.heaters.cost").estimate.likely
    assert cost == pytest.approx(priced.energy * 0.09 / 0.9, abs=0.51)


def test_two_kinds_of_heaters_share_the_price_by_their_power() -> None:
    """Three quarters electric at 0.30, a quarter a heat pump of 3: 0.25 for a kWh of heat."""
    second = '\n[heaters.pump]\nvessel = "tank"\npower = "2 kW"\nsetpoint = "25 degC"\nyields = 3\n'
    one = brief(HOUSE.replace(MONEY, second + MONEY))
    assert one.facts.heater_power == pytest.approx(8000.0)
    assert one.figure("heat.heaters.cost").estimate.likely == pytest.approx(one.energy * 0.25, abs=0.51)


def test_no_tariff_tells_energy_without_money() -> None:
    one = brief(HOUSE.replace(MONEY, ""))
    assert "kWh" in one.answer.sentence
    assert not any(figure.id == "heat.heaters.cost" for figure in one.answer.figures)


def test_humidity_and_warm_wood_follow_the_building() -> None:
    """What the timber was sized for is held against what the building does: too dry a figure fails, a wide one not."""
    tight, wide = (brief(changed(HOUSE, ('infiltration = "0.75 1/h"', f'infiltration = "0.75 1/h"\n{keys}')))
                   for keys in ('humidity = "40 to 70 %"\nwarmest_wood = "20 degC"',
                                'humidity = "40 to 99 %"\nwarmest_wood = "45 degC"'))  # fmt: skip
    for ident in ("heat.building.humidity", "heat.building.warm_air"):
        assert tight.check(ident).verdict is Verdict.FAILS
        assert wide.check(ident).verdict in (Verdict.SOUND, Verdict.NEAR)
        assert tight.check(ident).estimate == wide.check(ident).estimate
    assert not any("building" in check.id for check in brief(HOUSE).answer.checks)


def test_top_off_is_held_against_what_evaporates() -> None:
    """In litres a day of the month with most, which the month's mass of water gives."""
    at = "heat.tank.top_off.evaporation"
    small, large = (brief(changed(HOUSE, ("place =", TOP_OFF.format(amount)))) for amount in (5, 80))
    assert small.check(at).verdict is Verdict.FAILS
    assert large.check(at).verdict is Verdict.SOUND
    estimate = small.check(at).estimate
    assert estimate is not None
    assert estimate.likely == pytest.approx(max(small.years.evaporation.likely) / 1000.0)


def test_water_that_goes_round_slowly_is_two_bodies() -> None:
    """Heaters in the sump: with them all on it stands above the tank by power over stream, and each is a body."""
    one = brief(ROUND)
    strong = brief(changed(ROUND, ('power = "1.5 kW"', 'power = "8 kW"')))
    assert one.facts.groups == (("tank", "sump"),)
    assert strong.facts.groups == (("tank",), ("sump",))
    assert one.facts.apart is not None
    assert strong.facts.apart == pytest.approx(one.facts.apart * 8.0 / 1.5)
    assert strong.facts.volume == pytest.approx(one.facts.volume)
    assert strong.facts.capacity == pytest.approx(one.facts.capacity)
    told = {assumption.key for assumption in one.answer.assumptions}
    assert "circuits" in told
    assert "circuits" not in {assumption.key for assumption in strong.answer.assumptions}
    assert strong.energy == pytest.approx(one.energy, rel=0.12)


def test_a_chiller_draws_its_share_and_an_air_heater_is_told_apart() -> None:
    """700 W for 2 kW; air kept at 15 degC takes load off the heaters in the water, and gives heat of its own."""
    cooled = brief(HOUSE + CHILLER)
    taken, drawn = (cooled.figure(f"heat.chillers.{name}").estimate.likely for name in ("energy", "draws"))
    assert taken > 0.0
    assert drawn == pytest.approx(taken * 0.35)
    plain = brief(HOUSE)
    aired = brief(
        changed(HOUSE, ("[building.sides]", '[building.air_heater]\nto = "15 degC"\n\n[building.sides]'))
    )
    given = aired.figure("heat.air_heater.energy").estimate.likely / 3.6e6
    assert given > 100.0
    assert 0.0 < plain.energy - aired.energy < 1.5 * given
    assert not any(figure.id == "heat.air_heater.energy" for figure in plain.answer.figures)
