"""Laws of the changes that are tried: a breaker never outgrows its wire, loads move whole, shade follows the sun."""

from __future__ import annotations

from pathlib import Path

import pytest

from tidestead.catalog import table
from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.source import PRACTICE
from tidestead.core.units import parse
from tidestead.plan import load, loads
from tidestead.plan.edits import Edit
from tidestead.trials.covering import cheapest_cover
from tidestead.trials.mending import Search, checks_to_mend, mended, priced_remedy
from tidestead.trials.moves import ladders_for
from tidestead.trials.pricing import lacking_alone, price_of, told_whole
from tidestead.trials.remedy import Move, Priced, Remedy, State
from tidestead.trials.said import Said
from tidestead.trials.scratch import Scratch
from tidestead.trials.whole import _least, _offers

EXAMPLES = Path(__file__).parents[2] / "examples"
PACKHOUSE, SKERRY = (load(EXAMPLES / f"{name}.toml") for name in ("packhouse", "skerry"))


def check_of(name: str) -> Check:
    """Some failing check of this id."""
    return Check(name, "load", "here", "A", Estimate.exact(40.0), 32.0, PRACTICE)


@pytest.mark.parametrize(
    ("loaded", "circuit", "share", "prefix"),
    [(PACKHOUSE, "heat", 1.0, "awg"), (PACKHOUSE, "a", 1.0, "awg"), (SKERRY, "", 0.8, "mm")],
)
def test_a_larger_breaker_comes_with_a_wire_that_bears_it(
    loaded: object, circuit: str, share: float, prefix: str
) -> None:
    plan = PACKHOUSE if loaded is PACKHOUSE else SKERRY
    name = circuit or next(iter(plan.plan.electrics))
    said = Said.of(plan)
    ladders = {one.name: one for one in ladders_for(said, check_of(f"power.{name}.load"))}
    rungs = ladders[f"electrics.{name}.breaker with its cable"].rungs
    assert rungs
    for rung in rungs:
        new = {edit.key.rsplit(".", 1)[1]: str(edit.value) for edit in rung.edits}
        cable = new.get("cable", said.text(f"electrics.{name}.cable"))
        slug = (
            cable.lower().replace(" ", "-") if prefix == "awg" else cable.replace(" ", "").replace(".", "p")
        )
        bears = table("electric_limits")[f"copper-{slug}"].si("ampacity")
        amps = parse(new["breaker"], "current")
        assert amps > parse(said.text(f"electrics.{name}.breaker"), "current")
        assert share * bears >= amps - 1e-9


def test_what_is_moved_to_another_circuit_hangs_on_one_only() -> None:
    said = Said.of(PACKHOUSE)
    moved = [one for one in ladders_for(said, check_of("power.a.trip")) if " to " in one.name]
    assert len(moved) == 4 * 2  # four things, two other circuits
    for ladder in moved:
        plan = Scratch(PACKHOUSE).with_edits(ladder.rungs[0].edits)
        assert plan is not None
        every = [item for circuit in plan.plan.electrics.values() for item in circuit.feeds]
        before = [item for circuit in PACKHOUSE.plan.electrics.values() for item in circuit.feeds]
        assert sorted(map(str, every)) == sorted(map(str, before))


def test_shade_follows_the_sun_to_the_other_half_of_the_earth() -> None:
    south = loads(PACKHOUSE.text.replace("latitude = ", "latitude = -", 1), "south.toml")
    told = []
    for plan in (PACKHOUSE, south):
        ladders = ladders_for(Said.of(plan), check_of("light.ledge.most"))
        told.append([one.name for one in ladders if one.name.startswith("building.shade: ")])
    assert told[0][0] == "building.shade: May to Aug"
    assert told[1][0] == "building.shade: Nov to Feb"


def test_too_little_light_is_never_answered_by_deeper_corals() -> None:
    for name in ("least", "harm"):
        ladders = ladders_for(Said.of(PACKHOUSE), check_of(f"light.ledge.{name}"))
        ends = [
            str(rung.edits[0].value)
            for one in ladders
            for rung in one.rungs
            if rung.edits[0].key == "corals.ledge.depth"
        ]
        assert ends
        assert all(float(end.split(" to ")[1].split()[0]) < 24.0 for end in ends)


@pytest.mark.timeout(300)
def test_light_that_is_too_dull_is_mended_without_harm() -> None:
    text = PACKHOUSE.text.replace("[weather]\n", "[weather]\nyears = 2\n")
    scratch = Scratch(loads(text, "packhouse.toml"))
    [check] = checks_to_mend(scratch, ["light"], ["light.ledge.least"])
    [one] = mended(scratch, [check], Search(fully=False, workers=1))
    assert one.remedies[0].after.verdict is Verdict.SOUND
    assert not one.remedies[0].harms


def test_a_machine_of_another_size_is_not_told_to_cost_nothing() -> None:
    nothing = Priced(Estimate.exact(0.0), "USD")
    edits = [Edit("heaters.sump.power", "2 kW"), Edit("heaters.sump.setpoint", "78 degF")]
    told = told_whole(nothing, edits)
    assert told is not None
    assert told.unpriced == ("heater sump: power of 2 kW",)
    assert told_whole(nothing, edits[1:]) == nothing  # a dial costs nothing
    dear = Priced(Estimate.exact(40.0), "USD")
    assert told_whole(dear, edits) == dear
    both = [*edits, Edit("vessels.reef.walls.east.studs.spacing", "8 in")]
    alone = {"heaters.sump.power": nothing, "vessels.reef.walls.east.studs.spacing": dear}
    assert lacking_alone(both, lambda edit: alone[edit.key]) == ["heater sump: power of 2 kW"]


def test_a_larger_heater_has_no_price_beside_studs_that_have_one() -> None:
    """Both as one remedy: that closer studs cost something makes the heater no cheaper."""
    scratch = Scratch(loads(PACKHOUSE.text, "packhouse.toml"))
    base, name = price_of(scratch.loaded), next(iter(scratch.loaded.plan.heaters))
    state = State("a", "", "", 1.0, "m", "", 0.5, Verdict.SOUND)
    edits = (Edit("vessels.reef.walls.east.studs.spacing", "8 in"), Edit(f"heaters.{name}.power", "9 kW"))
    told = [
        priced_remedy(scratch, Remedy("a", Move("x", some), state, state, ()), Search(), base)
        for some in (edits, edits[:1])
    ]
    both, studs = (one.price for one in told)
    assert both is not None
    assert studs is not None
    assert studs.whole
    assert both.unpriced == (f"heater {name}: power of 9 kW",)
    assert both.cash.likely == pytest.approx(studs.cash.likely)


def remedy(check: str, key: str, cash: float) -> Remedy:
    """A change that mends one check."""
    state = State(check, "", "", 1.0, "m", "", 0.5, Verdict.SOUND)
    price = Priced(Estimate.exact(cash), "USD")
    return Remedy(check, Move(key, (Edit(key, cash),)), state, state, (), (), price)


def test_the_bound_of_a_whole_design_counts_what_saves_money() -> None:
    """By hand: a for 10 or -4 by the same key, b for 7, c for 5 or -3 by another: 7 - 4 - 3."""
    remedies = [remedy("a", "x", 10.0), remedy("a", "x", -4.0), remedy("b", "y", 7.0), remedy("c", "z", 5.0)]
    remedies.append(remedy("c", "w", -3.0))
    cover = cheapest_cover(_offers(remedies, priced=True), ("a", "b", "c"))
    assert _least(remedies, cover) == pytest.approx(0.0)
    bare = Remedy(**{**vars(remedies[0]), "price": Priced(Estimate.exact(1.0), "USD", unpriced=("sheet",))})
    assert _least([*remedies, bare], cover) is None


def test_of_changes_that_set_one_key_one_is_taken_and_the_same_change_mends_what_it_was_found_for() -> None:
    remedies = [remedy("a", "x", 10.0), remedy("b", "x", 7.0), remedy("c", "x", 10.0), remedy("d", "y", 1.0)]
    cover = cheapest_cover(_offers(remedies, priced=True), ("a", "b", "c", "d"))
    taken = [remedies[at] for at in cover.taken]
    assert cover.proven
    assert [one.edits for one in taken] == [remedies[0].edits, remedies[3].edits]  # a and c, and d: b is left
    assert cover.cost == pytest.approx(11.0)


@pytest.mark.parametrize(
    ("name", "was", "told", "levels"),
    [("packhouse", "6 mA", "6 mA", set()), ("skerry", "30 mA", "10 mA", {"30 mA"})],
)
def test_no_later_device_is_tried_than_protects_people_by_the_code_of_the_plan(
    name: str, was: str, told: str, levels: set[str]
) -> None:
    """6 mA by the US code, where 30 mA guards apparatus only; 30 mA by IEC standards."""
    text = (
        (EXAMPLES / f"{name}.toml").read_text("utf-8").replace(f'residual = "{was}"', f'residual = "{told}"')
    )
    said = Said.of(loads(text))
    circuit = next(iter(said.names("electrics")))
    check = check_of(f"power.{circuit}.trip")
    rungs = [rung for ladder in ladders_for(said, check) for rung in ladder.rungs]
    assert rungs
    edits = [edit for rung in rungs for edit in rung.edits if edit.key == f"electrics.{circuit}.residual"]
    assert {edit.value for edit in edits} == levels
