"""What is taken and what is refused, text by text: the values in SI, the words of the refusal.

The expected values are worked out by hand from the exact inch (25.4 mm), pound (0.453 592 37 kg), standard
gravity and the two gallons (231 in3; 4.546 09 L).
"""

from __future__ import annotations

import pytest

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse, to_si

TAKEN = [
    # feet and inches
    ("4 ft 6 in", "length", 1.3716),
    ("4'6\"", "length", 1.3716),
    ("4' 6\"", "length", 1.3716),
    ("4′ 6″", "length", 1.3716),
    ("4’6”", "length", 1.3716),
    ("4'-6\"", "length", 1.3716),
    ("4'-6 1/2\"", "length", 1.3843),
    ("4 feet 6 inches", "length", 1.3716),
    ("4ft6in", "length", 1.3716),
    ("4FT 6IN", "length", 1.3716),
    ("4 ft 0 in", "length", 1.2192),
    ("-4 ft 6 in", "length", -1.3716),
    ('30"', "length", 0.762),
    ("30''", "length", 0.762),
    ("30″", "length", 0.762),
    # fractions
    ("1 1/2 in", "length", 0.0381),
    ("1½ in", "length", 0.0381),
    ("1 ½ in", "length", 0.0381),
    ('1-1/2"', "length", 0.0381),
    ("1–1/2 in", "length", 0.0381),
    ("1 1⁄2 in", "length", 0.0381),
    ("3/4 in", "length", 0.01905),
    ("¾″", "length", 0.01905),
    ("-1 1/2 in", "length", -0.0381),
    # metric, thousands, spaces
    ("1.2 m", "length", 1.2),
    ("1.2m", "length", 1.2),
    (".5 m", "length", 0.5),
    ("1 200 mm", "length", 1.2),
    ("1\u00a0200\u00a0mm", "length", 1.2),
    ("1\u2009200\u202fmm", "length", 1.2),
    ("2,400 mm", "length", 2.4),
    ("1,200,000 mm", "length", 1200.0),
    ("  1.2   m  ", "length", 1.2),
    ("1e3 mm", "length", 1.0),
    ("2 m 20 cm", "length", 2.2),
    ("−5 mm", "length", -0.005),
    ("12 MM", "length", 0.012),
    # film
    ("1200 µm", "film", 0.0012),
    ("1200 μm", "film", 0.0012),
    ("1200 um", "film", 0.0012),
    ("1200 micron", "film", 0.0012),
    ("45 mil", "film", 0.001143),
    # temperature
    ("75 degF", "temperature", 215 / 9),
    ("75 F", "temperature", 215 / 9),
    ("75 °F", "temperature", 215 / 9),
    ("75 deg F", "temperature", 215 / 9),
    ("-40 F", "temperature", -40.0),
    ("24 °C", "temperature", 24.0),
    ("24 ºC", "temperature", 24.0),
    ("24 ℃", "temperature", 24.0),
    ("24 C", "temperature", 24.0),
    ("300 K", "temperature", 26.85),
    ("9 degF", "temperature_difference", 5.0),
    # pressure, force, moments
    ("12 psi", "pressure", 12 * 0.45359237 * 9.80665 / 0.0254**2),
    ("250 psf", "pressure", 250 * 0.45359237 * 9.80665 / 0.3048**2),
    ("12 kPa", "pressure", 12_000.0),
    ("12 kpa", "pressure", 12_000.0),
    ("24 N/mm2", "pressure", 24e6),
    ("24 N/mm²", "pressure", 24e6),
    ("24 MPa", "pressure", 24e6),
    ("1 bar", "pressure", 1e5),
    ("1.2 mH2O", "pressure", 11_767.98),
    ("10 in H2O", "pressure", 2490.8891),
    ("100 lb", "force", 444.82216152605),
    ("100 lbs", "mass", 45.359237),
    ("4.5 kN", "force", 4500.0),
    ("100 lb/ft", "line_load", 444.82216152605 / 0.3048),
    ("100 plf", "line_load", 444.82216152605 / 0.3048),
    ("4 kN·m", "moment", 4000.0),
    ("4 kNm", "moment", 4000.0),
    ("10 ft-lb", "moment", 10 * 4.4482216152605 * 0.3048),
    ("12 lb-in/ft", "moment_per_length", 4.4482216152605),
    ("1 lb 8 oz", "mass", 0.68038855500),
    ("0.3 g", "acceleration", 2.941995),
    # volume and flow
    ("850 L", "volume", 0.85),
    ("850 litres", "volume", 0.85),
    ("100 US gal", "volume", 0.3785411784),
    ("100 imp gal", "volume", 0.454609),
    ("3 cubic feet", "volume", 3 * 0.3048**3),
    ("16 sq ft", "area", 16 * 0.3048**2),
    ("1.5 m²", "area", 1.5),
    ("1.5 m^2", "area", 1.5),
    ("900 US gal/h", "flow", 900 * 231 * 0.0254**3 / 3600),
    ("6 m3/h", "flow", 6 / 3600),
    ("150 L/min", "air_flow", 0.0025),
    ("5 cfm", "air_flow", 5 * 0.3048**3 / 60),
    ("40 litres per minute", "flow", 0.04 / 60),
    # the rest
    ("12 %", "ratio", 0.12),
    ("12%", "ratio", 0.12),
    ("0.12", "ratio", 0.12),
    ("65 % RH", "humidity", 0.65),
    ("12", "count", 12.0),
    ("35 ppt", "salinity", 35.0),
    ("35 psu", "practical_salinity", 35.0),
    ("7 days", "time", 604_800.0),
    ("2 h 30 min", "time", 9000.0),
    ("1 year", "time", 31_557_600.0),
    ("45°", "angle", 0.7853981633974483),
    ("7e-5 1/K", "thermal_expansion", 7e-5),
    ("7e-5 per K", "thermal_expansion", 7e-5),
    ("1.4 W/m2K", "thermal_transmittance", 1.4),
    ("4.8 kWh/m2/day", "daily_irradiation", 200.0),
    ("250 µmol/m²/s", "light", 250.0),
]


@pytest.mark.parametrize(("text", "dimension", "value"), TAKEN)
def test_is_taken(text: str, dimension: str, value: float) -> None:
    assert parse(text, dimension) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "gallon", "litres_per_hour"),
    [
        ("900 gph", "us", 900 * 3.785411784),
        ("900 gal/h", "us", 900 * 3.785411784),
        ("900 gallons per hour", "us", 900 * 3.785411784),
        ("900 gph", "imperial", 900 * 4.54609),
        ("15 gpm", "us", 15 * 60 * 3.785411784),
        ("15 GPM", "imperial", 15 * 60 * 4.54609),
        ("900 US gph", "imperial", 900 * 3.785411784),
        ("900 imp gal/h", "us", 900 * 4.54609),
    ],
)
def test_a_gallon_is_the_one_the_plan_names(text: str, gallon: Gallon, litres_per_hour: float) -> None:
    assert parse(text, "flow", gallon) == pytest.approx(litres_per_hour / 3.6e6, rel=1e-12)


REFUSED = [
    # bare
    ("24", "length", 'has no unit. Write "24 in" or "610 mm".'),
    ("1.2", "length", 'has no unit. Write "1.2 m" or "3 ft 11 1/4 in".'),
    ("1200", "length", 'has no unit. Write "1200 mm" or "3 ft 11 1/4 in".'),
    ("24", "temperature", 'has no unit. Write "24 degC" or "75.2 degF".'),
    ("75", "temperature", 'has no unit. Write "75 degF" or "23.9 degC".'),
    ("12", "pressure", 'has no unit. Write "12 kPa" or "12 psi".'),
    ("6", "flow", 'has no unit. Write "6 m3/h" or "6 US gal/h".'),
    ("65", "humidity", 'has no unit. Write "65 %".'),
    ("4 ft 6", "length", 'has no unit after "6".'),
    ("4'6", "length", 'has no unit after "6".'),
    # ambiguous
    ("3 ton", "mass", '"ton", which could be 1000 kg, 2000 lb or 2240 lb'),
    ("3 tons", "force", "could be 1000 kg"),
    ("100 gal", "volume", 'US or imperial gallons. Write "100 US gal" or "100 imp gal"'),
    ("900 gph", "flow", 'Write "900 US gal/h" or "900 imp gal/h"'),
    ("15 gpm", "flow", "US or imperial gallons"),
    ("8 fl oz", "volume", "US or imperial measures"),
    ("2 pints", "volume", "US or imperial measures"),
    ("8 oz", "volume", "is a weight"),
    ("1 hp", "power", "mechanical, metric or electric"),
    ("2 kcal", "energy", "several sizes"),
    ("2 therm", "energy", "differs between countries"),
    ("3 months", "time", '28 to 31 days. Write "30 days"'),
    ("5 scfm", "air_flow", "temperature and pressure not told"),
    ("6 mil", "length", "films only"),
    ("5 mPa", "pressure", 'Did you mean "MPa"?'),
    ("5 mpa", "pressure", 'Did you mean "MPa"?'),
    ("1,5 mm", "length", 'comma that could be read two ways; a comma parts thousands only. Write "1.5 mm"'),
    ("0,500 m", "length", 'Write "0.500 m"'),
    ("2.400,5 mm", "length", "comma"),
    ("1,2345 mm", "length", "comma"),
    ("12,34,567 mm", "length", "comma"),
    # another dimension
    ("24 psi", "length", "is a pressure; a length is wanted here."),
    ("24 mm", "temperature", "is a length; a temperature is wanted here."),
    ("3 m2", "length", "is an area; a length is wanted here."),
    ("24 lbs", "length", "is a mass; a length is wanted here."),
    ("900 gph", "length", "is a flow; a length is wanted here."),
    ("100 kg", "force", 'is a mass. Write "1 kN" or "100 kgf".'),
    ("35 psu", "salinity", "is practical salinity"),
    ("5 m", "time", "is a length; a time is wanted here."),
    ("12 degC", "pressure", "is a temperature; a pressure is wanted here."),
    # unknown
    ("12 inchs", "length", 'no unit of length. Did you mean "in"'),
    ("12 Inhces", "length", 'Did you mean "in"'),
    ("12 metrs", "length", 'Did you mean "m"'),
    ("12 kpsi", "pressure", "Did you mean"),
    ("12 furlongs", "length", 'has "furlongs", which is no unit of length.'),
    ("12 mpa", "length", '"MPa" would be a pressure'),
    # not one quantity
    ("6 in 4 ft", "length", "do not get smaller"),
    ("4 ft 18 in", "length", "do not get smaller"),
    ("4 ft 6 ft", "length", "do not get smaller"),
    ("4.5 ft 6 in", "length", "broken number before its last part"),
    ("1 m 6 in", "length", "mixes metric and US"),
    ("1 bar 20 kPa", "pressure", "adds parts"),
    ("75 F 2 F", "temperature", "adds parts"),
    ("4 ft -6 in", "length", "no unit of length"),
    ("1 2 3 mm", "length", "two numbers"),
    ("12 34 mm", "length", "two numbers"),
    ("1.2.3 m", "length", 'has "." where none can be read'),
    ("5. m", "length", 'has "." where none can be read'),
    ("1/2/3 in", "length", 'has "/" where none can be read'),
    ("1/0 in", "length", "divides by zero"),
    ("1 3/2 in", "length", "fraction of one or more"),
    ("1.5½ in", "length", "two numbers"),
    ("--4 m", "length", "does not begin with a number"),
    ("3 m2 cm", "length", "no unit of length"),
    ("12.5", "count", "is not a whole number"),
    ("12 %", "count", "is a ratio"),
    ("", "length", "is empty; a length is wanted."),
    ("   ", "length", "is empty; a length is wanted."),
    ("-", "length", "does not begin with a number"),
    ("in", "length", "does not begin with a number"),
    ("nan m", "length", "does not begin with a number"),
    ("inf", "length", "does not begin with a number"),
    ("∞ m", "length", "infinity"),
    # sums and oddities
    ("9**9**9", "length", 'holds "*"; no sums are worked out here.'),
    ("2*3 m", "length", 'holds "*"'),
    ("4 ft + 6 in", "length", 'holds "+"'),
    ("+4 m", "length", 'holds "+"'),
    ("2^3 m", "length", 'holds "^"'),
    ("(4) m", "length", "does not begin with a number"),
    ("5² m", "length", "digit that is not one of 0 to 9 (superscript two)"),
    ("٤ m", "length", "arabic-indic digit four"),
    ("４ m", "length", "fullwidth digit four"),
    ("४ m", "length", "devanagari digit four"),
    ("4 м", "length", "cyrillic small letter em"),
    ("4 m\x00", "length", "cannot be seen"),
    ("4\u200b m", "length", "cannot be seen (zero width space)"),
    ("\u202e4 m", "length", "right-to-left override"),
    ("1e999 m", "length", "is larger than any number"),
    ("1e-999 m", "length", "is smaller than any number"),
    ("1e9999 m", "length", "power of ten"),
    ("9" * 61 + " m", "length", "is 63 characters long; a quantity has at most 60."),
    ("$18", "length", "three-letter code"),
]


@pytest.mark.parametrize(("text", "dimension", "words"), REFUSED)
def test_is_refused(text: str, dimension: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse(text, dimension)
    assert words in str(fault.value)
    assert len(fault.value.given) <= 43


@pytest.mark.parametrize("given", [True, None, 10**5000, [1], {"a": 1}, b"4 m"], ids=range(6))
def test_what_is_no_text_is_refused(given: object) -> None:
    with pytest.raises(QuantityError, match="is not a quantity"):
        parse(given, "length")  # type: ignore[arg-type]  # what a plan file may hold


@pytest.mark.parametrize(("given", "value"), [(0.12, 0.12), (3, 3.0), (1e22, 1e22), (-2.5e-7, -2.5e-7)])
def test_a_bare_number_in_the_file_counts_where_none_needs_a_unit(given: float, value: float) -> None:
    assert parse(given, "ratio") == value
    with pytest.raises(QuantityError, match="has no unit"):
        parse(given, "length")


# ---- numbers with a unit beside them -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "unit", "dimension", "words"),
    [
        (1.0, "furlong", None, "is no unit known here"),
        (1.0, "mm", "pressure", "is no unit of pressure"),
        (1.0, "gal", None, "is no unit known here"),
        (1.0, "", None, "is no unit known here"),
        (1.0, "9**9", None, 'holds "*"'),
        (float("nan"), "mm", None, "is not a finite number"),
        (float("inf"), "mm", None, "is not a finite number"),
        (1.0, "degF", None, "could be temperature or temperature difference. Say which dimension is meant."),
        (1.0, "K", None, "Say which dimension is meant"),
    ],
)
def test_a_catalog_unit_is_refused(value: float, unit: str, dimension: str | None, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        to_si(value, unit, dimension)
    assert words in str(fault.value)
