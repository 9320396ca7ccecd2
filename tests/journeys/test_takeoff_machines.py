"""Machines, unions, adaptors, cartridges and gas on the lists, and whose price a heater goes by."""

from __future__ import annotations

import pytest

from tests.journeys.cost_plans import cost_of, with_words
from tests.journeys.flow_plans import changed, example
from tests.journeys.takeoff_plans import NOTHING, plan_of, sums, taken_of
from tidestead.build.takeoff.rest import Studies, rest_taken
from tidestead.build.takeoff.running import energy_item
from tidestead.build.takeoff.water import GAS_LOST
from tidestead.core.errors import PlanError
from tidestead.core.units import to_si
from tidestead.plan import loads
from tidestead.plan.items import Item
from tidestead.studies import flow, foam, light, water
from tidestead.studies.heat import yearly
from tidestead.studies.inputs import Inputs


def test_a_lamp_in_the_line_is_bought_once_and_draws_its_power() -> None:
    """`apparatus lamp` and `device uv` are one machine; without the word that says so they are two."""
    items = {line.item for line in taken_of("skerry").lines}
    assert Item("apparatus", "lamp") in items
    assert Item("device", "uv") not in items
    energy = [line.key for line in taken_of("skerry").lines if line.item.sort == "energy"]
    assert energy.count("devices.uv") == 1
    apart = rest_taken(loads(with_words("skerry", 'same_as = "device uv"', "")).plan, NOTHING)
    assert {Item("apparatus", "lamp"), Item("device", "uv")} <= {line.item for line in apart.lines}


def test_a_lamp_that_is_the_same_as_nothing_is_refused() -> None:
    with pytest.raises(PlanError, match="names no device of this plan"):
        loads(with_words("skerry", 'same_as = "device uv"', 'same_as = "device ultra"'))


def test_unions_on_each_side_of_what_is_taken_out() -> None:
    """Packhouse main: valve | basket | pump | valve, three unions; column: pipe | pump | valve, two. Skerry main the
    same with its strainer, jet: elbows | lamp | valve.
    """
    found = {
        name: n for name, n in sums(taken_of("packhouse"), "fitting").items() if name.startswith("union")
    }
    assert found == {"union pvc40-3in": 3, "union pvc40-1.5in": 2}
    found = {name: n for name, n in sums(taken_of("skerry"), "fitting").items() if name.startswith("union")}
    assert found == {"union pvc-90-pn10": 3, "union pvc-63-pn10": 2}


def test_a_union_that_the_route_names_is_not_listed_twice() -> None:
    swap = ('"pump return", "valve check"', '"union", "pump return", "union", "valve check"')
    found = sums(rest_taken(loads(with_words("packhouse", *swap)).plan, NOTHING), "fitting")
    assert found["union pvc40-3in"] == 3, "one assumed before the basket, two named round the pump"


def test_adaptors_where_sizes_differ() -> None:
    """A 3 in bulkhead takes 88.9 mm, and pipe of 90 mm comes to it; a lip of 6 in stands over a drain of 4 in."""
    skerry, shed = sums(taken_of("skerry"), "extra"), sums(taken_of("packhouse"), "extra")
    assert {name for name in skerry if name.startswith("adaptor")} == {"adaptor heavy-3 to pvc-90-pn10"}
    assert not [name for name in shed if name.startswith("adaptor")]
    assert shed["reducer dwv-6in to dwv-4in"] == 1


def test_carbon_ahead_of_a_membrane_is_bought_and_used_up() -> None:
    """One in six months; the filter on a tap comes with its own."""
    name = "carbon cartridge of source osmosis"
    assert sums(taken_of("skerry"), "extra")[name] == 1
    assert sums(taken_of("skerry"), "extra", yearly=True)[name] == 2
    assert not [one for one in sums(taken_of("packhouse"), "extra") if one.startswith("carbon")]


def test_gas_of_a_calcium_reactor() -> None:
    """CaCO3 + CO2 + H2O gives two of alkalinity: 22.0 g of gas and 50.0 g of chalk for each, and 45 % more gas."""
    reactor = '[reactors.chalk]\nvessel = "sump"\nflow = "20 L/day"\nalkalinity = "30 dKH"\n\n[losses]'
    text = changed(example("skerry"), ("[losses]", reactor))
    assert not [one for one in taken_of("skerry").lines if one.item.name == "carbon dioxide"]
    found = _water_of(text)
    chalk, gas = found["calcium reactor media"], found["carbon dioxide"]
    assert gas / chalk == pytest.approx(44.009 / 100.087 * 1.45, rel=1e-3)
    assert GAS_LOST.low < 1.0 + 2.0 * 10.0 ** (5.85 - 6.5) < GAS_LOST.high


def _water_of(text: str) -> dict[str, float]:
    """What a plan uses up in a year, found with its water."""
    inputs = Inputs(loads(text).plan, "metric", None, "no weather here")
    flows, lit = flow.find(inputs), light.find(inputs)
    warm = yearly.find(inputs, flows, lit)
    facts = water.find(inputs, flows, foam.find(inputs, flows), warm)
    return sums(rest_taken(inputs.plan, Studies(facts, warm, lit, flows)), "extra", yearly=True)


HEATER = "count = 4\nsetpoint"


def test_current_at_a_price_of_its_own() -> None:
    """A night tariff of 0.19 EUR for the heaters alone; the rest goes by the plan's tariff."""
    text = with_words("skerry", HEATER, 'count = 4\nprice = "0.19 EUR/kWh"\nsetpoint')
    plan = loads(text).plan
    item = energy_item("sump", plan.heaters["sump"])
    assert item != energy_item("sump", plan_of("skerry").heaters["sump"]) == Item("energy")
    (own,) = (one for one in cost_of(text).purchase.offers if one.item == item)
    assert own.row == "heaters.sump.price"
    assert own.price is not None
    assert own.price.likely * to_si(1.0, "kWh") == pytest.approx(0.19)


def test_fuel_without_a_price_is_not_given_that_of_current() -> None:
    text = with_words("skerry", HEATER, 'count = 4\nenergy = "fuel"\nsetpoint')
    assert not [one for one in cost_of(text).purchase.offers if one.item.name == "fuel of heater sump"]
