"""Salinity typed as instruments show it: what is taken, how it is told, what is refused in which line."""

from __future__ import annotations

import re
import subprocess
import sys

import pytest

from tests.house.tree import ROOT
from tests.journeys.flow_plans import changed, example
from tests.laws.salt_systems import asked, setting
from tidestead.core.errors import QuantityError
from tidestead.core.units import SalinityReading, parse_salinity
from tidestead.plan import loads
from tidestead.plan.forms_echo import echoes
from tidestead.plan.reading import faults_in
from tidestead.studies.salt_scales import salinity_psu
from tidestead.studies.water.salting import salting_of, salting_section

SKERRY = example("skerry")
SAID = 'salinity = "35 psu"'
ANY = 'Write "35 psu", "35 g/kg", "1.0264 sg at 25/25 degC"'


def held(typed: str) -> str:
    return changed(SKERRY, (SAID, f'salinity = "{typed}"'))


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("47.9 mS/cm at 20 degC", SalinityReading("mS/cm", 47.9, 20.0)),
        ("47.9 ms/cm at 68 F", SalinityReading("mS/cm", 47.9, 20.0)),
        ("47900 μS/cm at 20 °C", SalinityReading("mS/cm", 47.9, 20.0)),
        ("4.79 S/m at 20 deg C", SalinityReading("mS/cm", 47.9, 20.0)),
        ("53.1 mS/cm led back to 25 degC", SalinityReading("mS/cm", 53.1, None, 25.0)),
        ("53.1 mS/cm compensated to 77 degF", SalinityReading("mS/cm", 53.1, None, 25.0)),
        ("53 mS/cm at 20 degC led back to 25 degC", SalinityReading("mS/cm", 53.0, 20.0, 25.0)),
        ("53 mS/cm at 20 °C led back to 25 °C by 2 %/°C", SalinityReading("mS/cm", 53.0, 20.0, 25.0, 0.02)),
        ("35 ppt seawater refractometer at 20 degC", SalinityReading("sea", 35.0, 20.0)),
        ("35 ‰ Sea Water refractometer, ATC", SalinityReading("sea", 35.0)),
        ("35 g/kg seawater refractometer compensated", SalinityReading("sea", 35.0)),
        ("36.5 ppt NaCl refractometer at 68 degF", SalinityReading("NaCl", 36.5, 20.0)),
        ("36.5 ppt brine refractometer, ATC", SalinityReading("NaCl", 36.5)),
        ("3.65 % sodium chloride refractometer, compensated", SalinityReading("NaCl", 36.5)),
        ("1.3394 nD at 20 degC", SalinityReading("nD", 1.3394, 20.0)),
    ],
)
def test_what_an_instrument_shows_is_taken(text: str, reading: SalinityReading) -> None:
    found = parse_salinity(text)
    assert (found.kind, found.sample_c, found.reference_c) == (
        reading.kind, reading.sample_c, reading.reference_c,
    )  # fmt: skip
    assert (found.slope or 0.0, found.value) == pytest.approx(
        (reading.slope or 0.0, reading.value), rel=1e-12
    )


@pytest.mark.parametrize(
    ("text", "allowed", "advice"),
    [
        ("53.1 mS/cm", "needs a temperature", 'Write "53.1 mS/cm led back to 25 degC" where it compensates'),
        ("53.1 mS/cm at 25", 'has "at 25"', 'Write "53.1 mS/cm at 20 degC" where'),
        ("53.1 mS/cm at 25/25 degC", 'has "at 25/25 degC"', 'Write "53.1 mS/cm at 20 degC"'),
        ("350 mS/cm at 25 degC", "conducts more than any seawater", '"53.1 mS/cm at 25 degC"'),
        ("53.1 S/m at 25 degC", "conducts more than any seawater", '"53.1 mS/cm at 25 degC"'),
        ("53.1 mS/m at 25 degC", 'has "mS/m"', "Write mS/cm, uS/cm or S/m"),
        ("53.1 mS", 'has "mS"', '"53.1 mS/cm at 25 degC"'),
        ("110 mS/cm at 10 degC", "would be 121 psu; it must be 70 or less", ANY),
        ("53.1 mS/cm at 35.1 degC", "0 to 35 degC is meant", "room temperature"),
        ("53.1 mS/cm at -1 degC", "0 to 35 degC is meant", "room temperature"),
        ("53.1 mS/cm led back to 77 degC", "0 to 35 degC is meant", "room temperature"),
        ("53.1 mS/cm at 25 mm", "is a length; a temperature is wanted", "degC"),
        ("53 mS/cm led back to 25 degC by 1.9 %/K", "needs two temperatures", "at 20 degC led back to 25"),
        ("53 mS/cm at 20 degC by 1.9 %/K", "needs two temperatures", "at 20 degC led back to 25"),
        ("53 mS/cm at 20 degC led back to 25 degC by 19 %/K", "0.5 to 4 % a kelvin", "by 1.91 %/K"),
        ("35 ppt refractometer", "needs the scale", '"35 ppt NaCl refractometer at 20 degC"'),
        ("35 ppt salt refractometer, ATC", "needs the scale", '"35 ppt seawater refractometer at 20 degC"'),
        ("35 ppt seawater refractometer", "needs the temperature of the prism", "refractometer, ATC"),
        ("36 ppt NaCl refractometer", "needs the temperature of the prism", "NaCl refractometer at 20"),
        ("35 ppt seawater refractometer at 20", "needs the temperature", "refractometer at 20 degC"),
        ("35 mm seawater refractometer", "needs the unit of the scale", "or % for ppt"),
        ("350 ppt NaCl refractometer, ATC", "more than any seawater shows", "35 ppt NaCl"),
        ("90 ppt seawater refractometer, ATC", "would be 90 psu; it must be 70 or less", ANY),
        ("35 ppt seawater refractometer at 31 degC", "0 to 30 degC is meant", "room temperature"),
        ("1 ppt seawater refractometer at 5 degC", "no seawater reads", ANY),
        ("1.3394 nD", "needs the temperature of the drop", '"1.3394 nD at 20 degC"'),
        ("1.3394", "has no unit", '"1.3394 nD at 20 degC"'),
        ("1.5 nD at 20 degC", "is no refractive index of seawater", "1.3394 nD"),
        ("1.3301 nD at 20 degC", "no seawater reads", ANY),
        ("1.2 sg at 25/25 degC", "no seawater reads", ANY),
        ("0.95 sg at 25/25 degC", "no seawater reads", ANY),
        ("1.0264 sg at 25/250 degC", "0 to 40 degC is meant", "room temperature"),
    ],
)
def test_what_cannot_be_taken_is_refused_with_what_to_write(text: str, allowed: str, advice: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_salinity(text)
    assert allowed in fault.value.allowed
    assert advice in fault.value.advice


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("53.1 mS/cm", "needs a temperature"), ("350 mS/cm at 25 degC", "more than any seawater"),
        ("35 ppt seawater refractometer", "temperature of the prism"), ("1.2 sg at 25/25 degC", "no seawater reads"),
        ("35 foo", "is no unit of salinity"),
    ],
)  # fmt: skip
def test_a_plan_refuses_it_in_its_line_and_what_it_advises_is_taken(typed: str, words: str) -> None:
    text = held(typed)
    (fault,) = faults_in(text)
    assert (fault.where, fault.given) == ("water.salinity", f'"{typed}"')
    assert fault.line == text.splitlines().index(f'salinity = "{typed}"') + 1
    assert words in fault.allowed
    meant = [part for part in fault.advice.split('"')[1::2] if part[0].isdigit()]
    assert meant
    assert not [one for one in meant if faults_in(held(one))]


def test_a_source_is_typed_alike() -> None:
    """A bore of brackish water, by a meter that compensates."""
    text = changed(SKERRY, ('salinity = "33.5 psu"', 'salinity = "9.5 mS/cm led back to 25 degC"'))
    salinity = next(one.salinity for one in loads(text).plan.sources.values() if one.salinity is not None)
    assert salinity_psu(salinity) == pytest.approx(5.3, abs=0.1)
    (key,) = (f"sources.{name}.salinity" for name, one in loads(text).plan.sources.items() if one.salinity)
    assert echoes(text, [key])[key].startswith("5.3")


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("35 psu", "35, practical salinity"),
        ("35 ppt", "34.84, practical salinity: 35 grams of salt per kilogram of water (ppt is taken as that)"),
        ("1.0264 sg at 25/25 degC", "35.03, practical salinity: specific gravity 1.0264: water at 25 °C = 77 °F "
         "against pure water at 25 °C = 77 °F"),
        ("47.9 mS/cm at 20 degC", "34.99, practical salinity: conductivity 47.9 mS/cm as it is in water of "
         "20 °C = 68 °F, not led back"),
        ("53.1 mS/cm led back to 25 degC", "35.02, practical salinity: conductivity 53.1 mS/cm led back to "
         "25 °C = 77 °F, taken as led back without error, for the water's own temperature is not typed"),
        ("53 mS/cm at 20 degC led back to 25 degC", "34.89, practical salinity: conductivity 53 mS/cm led back to "
         "25 °C = 77 °F from 20 °C = 68 °F, along 1.97 % a kelvin, seawater's own slope there, for none is typed"),
        ("36.5 ppt NaCl refractometer, ATC", "34.96, practical salinity: 36.5 ppt on a refractometer with a scale for "
         "sodium chloride, compensated"),
        ("31.4 ppt seawater refractometer at 26 degC", "35.04, practical salinity: 31.4 ppt on a refractometer with a "
         "seawater scale in water of 26 °C = 78.8 °F, not compensated"),
        ("1.3330 nD at 20 degC", "0.00, practical salinity: refractive index 1.333 in water of 20 °C = 68 °F"),
    ],
)  # fmt: skip
def test_the_echo_begins_with_the_practical_salinity(typed: str, told: str) -> None:
    text = held(typed)
    assert echoes(text, ["water.salinity"]) == {"water.salinity": told}
    assert f'salinity = "{typed}"' in loads(text).text


def test_the_table_of_the_guide_says_what_is_meant() -> None:
    guide = (ROOT / "docs/how-to/water.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| [^|]+ \| (`[^|]+`) \| ([0-9.]+) psu \|$", guide, re.MULTILINE)
    assert len(rows) == 10
    for typed, printed in rows:
        for one in typed.split("`")[1::2]:
            assert round(parse_salinity(one).meant.psu, 2) == float(printed), one


@pytest.mark.parametrize(
    ("typed", "value", "why"),
    [
        ("53 mS/cm at 20 degC led back to 25 degC", "34.89 psu", "along 1.97 % a kelvin"),
        ("53.1 mS/cm led back to 25 degC", "35.02 psu", "taken as led back without error"),
    ],
)
def test_what_a_reading_leaves_open_is_told_under_assumed(typed: str, value: str, why: str) -> None:
    inputs = asked(('"33 psu"', f'"{typed}"'), ('source = "membrane"', 'source = "sea"'))
    section = salting_section(inputs, setting(), salting_of(inputs, setting()))
    (told,) = (one for one in section.assumptions if one.key == "sources.sea.salinity")
    assert (told.value, told.why.split(",")[0]) == (value, why)


def test_a_reading_that_says_all_assumes_nothing() -> None:
    typed = "53 mS/cm at 20 degC led back to 25 degC by 1.91 %/K"
    inputs = asked(
        ('"33 psu"', f'"{typed}"'), ('source = "membrane"', 'source = "sea"'), ("factor = 1.1\n", "")
    )
    section = salting_section(inputs, setting(), salting_of(inputs, setting()))
    assert [one.key for one in section.assumptions] == ["salt.factor"]


def test_the_two_scales_for_refractometers_differ_as_the_trade_confuses_them() -> None:
    sea, salt = (parse_salinity(f"35 ppt {one} refractometer, ATC").meant.psu for one in ("seawater", "NaCl"))
    assert 1.3 < sea - salt < 1.6


def test_pure_water_is_no_salt_whatever_the_last_digit() -> None:
    for typed in ("1.3330 nD at 20 degC", "0 ppt NaCl refractometer at 20 degC", "0 mS/cm at 20 degC"):
        assert parse_salinity(typed).meant.psu == pytest.approx(0.0, abs=1e-12), typed


def test_the_laws_are_loaded_only_where_an_instrument_was_read() -> None:
    code = (
        "import sys; from tidestead.plan import loads; text = sys.stdin.read(); loads(text); "
        "before = 'gsw' in sys.modules; loads(text.replace('35 psu', '53.1 mS/cm at 25 degC', 1)); "
        "print(before, 'gsw' in sys.modules)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], input=SKERRY, capture_output=True, text=True, check=True
    )
    assert run.stdout.split() == ["False", "True"]
