"""What voltages, currents, conductors and batteries take in a plan, in SI, and what they refuse with which advice."""

from __future__ import annotations

import math
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from tests.published.case import INCH
from tidestead.core.units.gauges import gauge_diameter
from tidestead.plan import electric_fields as fields

AWG_10 = math.pi / 4.0 * 0.0050**2 * 92.0 ** (2.0 * 26.0 / 39.0) * INCH**2
KWH = 3.6e6

TAKEN = [
    (fields.Volts, "230 V", 230.0),
    (fields.Volts, "120 volts", 120.0),
    (fields.Amps, "16 A", 16.0),
    (fields.Amps, "500 mA", 0.5),
    (fields.ResidualAmps, "30 mA", 0.03),
    (fields.ResidualAmps, "0.006 A", 0.006),
    (fields.ConductorArea, "2.5 mm2", 2.5e-6),
    (fields.ConductorArea, "2.5 mm²", 2.5e-6),
    (fields.ConductorArea, "AWG 10", AWG_10),
    (fields.ConductorArea, "10 awg", AWG_10),
    (fields.ConductorArea, "AWG 4/0", math.pi / 4.0 * 0.46**2 * INCH**2),
    (fields.ConductorArea, "0000 AWG", math.pi / 4.0 * 0.46**2 * INCH**2),
    (fields.BatteryEnergy, "5 kWh", 5.0 * KWH),
    (fields.BatteryEnergy, "1200 Wh", 1.2 * KWH),
    (fields.BatteryEnergy, "100 Ah at 12 V", 1.2 * KWH),
    (fields.BatteryEnergy, "1,000 Ah 48V", 48.0 * KWH),
    (fields.PowerFactor, 0.85, 0.85),
    (fields.PowerFactor, "85 %", 0.85),
]

REFUSED = [
    (fields.Volts, 230, 'has no unit. Write "230 V".'),
    (fields.Volts, "230 A", "is a current; a voltage is wanted here."),
    (fields.Volts, "12 kV", "must be 1000 V or less."),
    (fields.Volts, "0 V", "must be more than 0 V."),
    (fields.Amps, "16", 'has no unit. Write "16 A".'),
    (fields.Amps, "16 V", 'is a voltage; a current is wanted here. Write "16 A"'),
    (fields.ResidualAmps, "30", 'has no unit. Write "30 mA".'),
    (fields.ResidualAmps, "30 A", 'must be 500 mA or less: a breaker is named in amperes, what leaks to earth in'),
    (fields.ResidualAmps, "30 A", 'Did you mean "30 mA"?'),
    (fields.ResidualAmps, "600 mA", 'must be 0.5 A or less. Write it like "30 mA"'),
    (fields.ResidualAmps, "600 A", 'must be 0.5 A or less. Write it like "30 mA"'),
    (fields.ConductorArea, "10", 'has no unit. Write "10 mm2" or "AWG 10".'),
    (fields.ConductorArea, 2.5, 'has no unit. Write "2.5 mm2".'),
    (fields.ConductorArea, "2.5 mm", 'is a length; an area is wanted here. Write "2.5 mm2" or "AWG 12".'),
    (fields.ConductorArea, "2.5 m2", "they have from 0.05 to 400 mm2."),
    (fields.ConductorArea, "-2 mm2", "they have from 0.05 to 400 mm2."),
    (fields.ConductorArea, "AWG 40", "they have from 0.05 to 400 mm2."),
    (fields.ConductorArea, "AWG 50", "is no AWG number; they run from 4/0 to 40."),
    (fields.ConductorArea, "AWG 1/3", "is no AWG number"),
    (fields.BatteryEnergy, "100 Ah", 'is a charge; the energy of a battery is wanted, which its voltage makes'),
    (fields.BatteryEnergy, "100 Ah", 'Write "100 Ah at 12 V"'),
    (fields.BatteryEnergy, "100 Ah at 24", 'must end with the voltage of the battery. Write "100 Ah at 24 V".'),
    (fields.BatteryEnergy, "100 Ah at 12 A", "must end with the voltage of the battery."),
    (fields.BatteryEnergy, "100 Ah at 5 kV", "has a voltage that no battery has"),
    (fields.BatteryEnergy, "5", 'has no unit. Write "5 kWh".'),
    (fields.BatteryEnergy, "5 kW", "is a power; an energy is wanted here."),
    (fields.BatteryEnergy, "0 Wh", "must be more than 0 J."),
    (fields.BatteryEnergy, "2 MWh", "J or less."),
    (fields.PowerFactor, 1.2, "must be 1 or less."),
    (fields.PowerFactor, "0", "must be more than 0."),
    (fields.PowerFactor, "0.9 V", "is a voltage; a ratio is wanted here."),
]  # fmt: skip


@pytest.mark.parametrize(("field", "typed", "value"), TAKEN)
def test_what_is_taken(field: Any, typed: Any, value: float) -> None:
    assert TypeAdapter(field).validate_python(typed) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("field", "typed", "words"), REFUSED)
def test_what_is_refused(field: Any, typed: Any, words: str) -> None:
    with pytest.raises(ValidationError) as raised:
        TypeAdapter(field).validate_python(typed)
    (detail,) = raised.value.errors()
    assert words in detail["msg"]


@pytest.mark.parametrize("number", range(1, 31))
def test_a_gauge_is_read_as_its_definition_either_way_round(number: int) -> None:
    adapter = TypeAdapter(fields.ConductorArea)
    before, after = (adapter.validate_python(text) for text in (f"AWG {number}", f"{number} AWG"))
    assert before == after == pytest.approx(math.pi / 4.0 * gauge_diameter(number) ** 2, rel=1e-15)


@pytest.mark.parametrize(("system", "first"), [("metric", '"2.5 mm2"'), ("us", '"AWG 10"')])
def test_a_reader_of_one_system_is_offered_its_own_sizes(system: str, first: str) -> None:
    with pytest.raises(ValidationError) as raised:
        TypeAdapter(fields.ConductorArea).validate_python("thick", context={"show": system})
    (detail,) = raised.value.errors()
    assert f"Write it like {first} or" in detail["msg"]
