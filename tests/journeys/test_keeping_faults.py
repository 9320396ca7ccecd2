"""Names in feeds, stock, dosing and changes that the plan does not have: each fault in its line, with what to write."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed, example
from tests.journeys.power_plans import SHED
from tidestead.core.errors import Fault
from tidestead.plan import loads
from tidestead.plan.reading import faults_in
from tidestead.plan.references import renamed_everywhere

SKERRY = example("skerry")


def one_fault(text: str) -> Fault:
    (fault,) = faults_in(text)
    return fault


@pytest.mark.parametrize(
    ("old", "new", "where", "told"),
    [
        ('"heater tank"]', '"heater tnak"]', "electrics.heat.feeds[1]", 'Did you mean "heater tank"?'),
        ('"air stones"]', '"device stones"]', "electrics.water.feeds[2]", 'Did you mean "air stones"?'),
        ('"device router"]\n\n[dev', '"device camera"]\n\n[dev', "electrics.light.feeds[2]", "[devices.camera]"),
        ('carries = ["pump return"', 'carries = ["pump retrun"', "backups.battery.carries[1]", '"pump return"?'),
        ('"heater tank"]', '"heater tank", "pump return"]', "electrics.heat.feeds[2]", "name of its own"),
        ('residual = "30 mA"\ncable = "1.5 mm2"', 'shares = "waters"\ncable = "1.5 mm2"', "electrics.light.shares",
         'Did you mean "water"?'),
        ('residual = "30 mA"\ncable = "1.5 mm2"', 'shares = "light"\ncable = "1.5 mm2"', "electrics.light.shares",
         "Name the other circuit"),
        ('[airpumps.stones]\nvessel = "tank"', '[airpumps.stones]\nvessel = "tonk"', "airpumps.stones.vessel",
         'Did you mean "tank"?'),
    ],
)  # fmt: skip
def test_unknown_name_in_the_power_part_is_a_fault_in_its_line(
    old: str, new: str, where: str, told: str
) -> None:
    text = changed(SHED, (old, new))
    fault = one_fault(text)
    assert fault.where == where
    assert told in fault.advice
    assert fault.line is not None
    assert new.split('"', 2)[1].rsplit(maxsplit=1)[-1] in text.splitlines()[fault.line - 1]


def test_device_that_is_shared_must_be_there() -> None:
    text = changed(
        SHED,
        ('residual = "30 mA"\ncable = "1.5 mm2"', 'shares = "water"\ncable = "1.5 mm2"'),
        ('[electrics.water]\nbreaker = "16 A"\nresidual = "30 mA"', '[electrics.water]\nbreaker = "16 A"'),
    )
    assert "electrics.water.residual" in one_fault(text).advice


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ('source = "osmosis"', 'source = "osmosys"', "changes.source"),
        ('source = "osmosis"', 'source = "osmosis"\nvat = "sumpp"', "changes.vat"),
        ('[fish.tangs]\nvessel = "basin"', '[fish.tangs]\nvessel = "basim"', "fish.tangs.vessel"),
        ('[filters.media]\nvessel = "sump"', '[filters.media]\nvessel = "smup"', "filters.media.vessel"),
        ('[dosers.soda]\nvessel = "sump"', '[dosers.soda]\nvessel = "sunp"', "dosers.soda.vessel"),
    ],
)
def test_unknown_vessel_or_source_is_a_fault_with_the_nearest_name(old: str, new: str, where: str) -> None:
    fault = one_fault(changed(SKERRY, (old, new)))
    assert fault.where == where
    assert "Did you mean" in fault.advice


@pytest.mark.parametrize(
    ("old", "new", "where", "told"),
    [
        ('blower = "device air"', 'blower = "device aer"', "vessels.tower.air.blower", 'Did you mean "device air"?'),
        ('blower = "device air"', 'blower = "pump air"', "vessels.tower.air.blower", 'Did you mean "device air"?'),
        ('network = "mobile" }', 'network = "mobile", hangs_on = ["device roter"] }', "response.alarm.hangs_on[1]",
         'Did you mean "device router"?'),
        ('battery = "390 EUR/kWh"', 'battery = "390 EUR/piece"', "prices.battery", "EUR/kWh"),
        ('cover = "210 EUR/piece"', 'cover = "210 EUR/m2"', "prices.cover", "EUR/piece"),
        ('cover = "210 EUR/piece"', 'cover = "-3 EUR/piece"', "prices.cover", "EUR/piece"),
        ('cover = "210 EUR/piece"', 'cover = "210 USD/piece"', "prices.cover", "EUR"),
    ],
)  # fmt: skip
def test_what_makes_the_air_what_calls_and_what_helps_cost_are_told_in_their_line(
    old: str, new: str, where: str, told: str
) -> None:
    text = changed(SKERRY, (old, new))
    fault = one_fault(text)
    assert fault.where == where
    assert told in fault.advice
    assert fault.line is not None
    assert new in text.splitlines()[fault.line - 1]


@pytest.mark.parametrize(
    ("key", "new", "told"),
    [
        ("devices.air", "blower", 'blower = "device blower"'),
        ("heaters.sump", "warm", 'feeds = ["heater warm"]'),
        ("devices.router", "net", 'feeds = ["lamp ledges", "device net"]'),
        ("pumps.return", "lift", 'carries = ["pump lift", "device router"]'),
        ("lamps.ledges", "sun", 'feeds = ["lamp sun", "device router"]'),
        ("sources.osmosis", "membrane", 'source = "membrane"'),
    ],
)
def test_renamed_part_takes_its_new_name_where_it_hangs(key: str, new: str, told: str) -> None:
    text = renamed_everywhere(SKERRY, key, new)
    assert told in text
    assert faults_in(text) == ()


def test_renamed_circuit_keeps_what_shares_its_device_and_a_vessel_of_the_same_name_stays() -> None:
    shared = changed(SHED, ('residual = "30 mA"\ncable = "1.5 mm2"', 'shares = "water"\ncable = "1.5 mm2"'))
    assert loads(renamed_everywhere(shared, "electrics.water", "wet")).plan.electrics["light"].shares == "wet"
    alike = changed(
        SKERRY,
        ("[sources.osmosis]", "[sources.sump]"),
        ('source = "osmosis"', 'source = "sump"'),
        ('"source osmosis"', '"source sump"'),
    )
    again = loads(renamed_everywhere(alike, "vessels.sump", "below")).plan
    assert again.changes is not None
    assert again.changes.source == "sump"
    assert again.dosers["soda"].vessel == "below"


@pytest.mark.parametrize("grown", ['"0.1 kg"', '"590 g"', '"1.3 lb"'])
def test_fish_do_not_shrink_as_they_grow(grown: str) -> None:
    text = changed(SKERRY, ('grown = "1.1 kg"', f"grown = {grown}"))
    fault = one_fault(text)
    assert (fault.where, fault.given) == ("fish.wrasses.grown", grown)
    assert fault.allowed == "is less than they weigh now: mass is 0.6 kg."
    assert "or correct mass" in fault.advice
    assert fault.line == text.splitlines().index(f"grown = {grown}") + 1


@pytest.mark.parametrize("grown", ['"0.6 kg"', '"1.323 lb"', '"600 g"'])
def test_grown_fish_may_weigh_the_same_in_any_unit(grown: str) -> None:
    assert faults_in(changed(SKERRY, ('grown = "1.1 kg"', f"grown = {grown}"))) == ()
