"""Every unit factor against pint, and a score of them against the printed table of NIST SP 811.

Our canonical symbols are composed here a second time, from pint's own unit objects and never from typed text.
Where a pound or a g may be a mass or a force, pint's dimensional analysis settles it, not our tables.
"""

from __future__ import annotations

import math

import pint
import pytest

from tidestead.core.units import DIMENSIONS, from_si_unit, parse, to_si

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
ONE = REGISTRY.Quantity(1.0)
CLOSE = 1e-12
"""Relative: a float's last bits, after a handful of multiplications in pint."""

ATOMS: dict[str, str] = {
    "m": "meter", "km": "kilometer", "cm": "centimeter", "mm": "millimeter", "um": "micrometer", "in": "inch",
    '"': "inch", "ft": "foot", "'": "foot", "yd": "yard", "mile": "mile", "mil": "thou", "thou": "thou",
    "L": "liter", "dL": "deciliter", "cL": "centiliter", "mL": "milliliter", "cc": "cubic_centimeter",
    "US gal": "US_liquid_gallon", "US qt": "US_liquid_quart", "US pt": "pint",
    "US fl oz": "US_fluid_ounce", "imp gal": "imperial_gallon", "imp qt": "imperial_quart",
    "imp pt": "imperial_pint", "imp fl oz": "imperial_fluid_ounce",
    "kg": "kilogram", "g": "gram", "mg": "milligram", "ug": "microgram", "t": "metric_ton", "lb": "pound",
    "oz": "ounce", "N": "newton", "kN": "kilonewton", "MN": "meganewton", "kgf": "kilogram_force",
    "lbf": "pound_force", "kip": "kip", "Pa": "pascal", "hPa": "hectopascal", "kPa": "kilopascal",
    "MPa": "megapascal", "GPa": "gigapascal", "bar": "bar", "mbar": "millibar", "atm": "standard_atmosphere",
    "psi": "pound_force_per_square_inch", "ksi": "kip_per_square_inch", "mH2O": "meter_H2O",
    "cmH2O": "centimeter_H2O", "mmH2O": "millimeter_H2O", "inH2O": "inch_H2O", "ftH2O": "foot_H2O",
    "mmHg": "millimeter_Hg", "inHg": "inch_Hg", "s": "second", "min": "minute", "h": "hour", "day": "day",
    "days": "day", "week": "week", "weeks": "week", "year": "julian_year", "years": "julian_year",
    "Hz": "hertz",
    "kHz": "kilohertz", "J": "joule", "kJ": "kilojoule", "MJ": "megajoule", "GJ": "gigajoule", "W": "watt",
    "mW": "milliwatt", "kW": "kilowatt", "Wh": "watt_hour", "kWh": "kilowatt_hour", "MWh": "megawatt_hour",
    "Btu": "international_british_thermal_unit", "US therm": "US_therm", "mechanical hp": "horsepower",
    "metric hp": "metric_horsepower", "PS": "metric_horsepower", "electric hp": "electrical_horsepower",
    "K": "kelvin", "degC": "kelvin", "C": "kelvin", "degF": "delta_degree_Fahrenheit",
    "F": "delta_degree_Fahrenheit", "rad": "radian", "mrad": "milliradian", "deg": "degree", "°": "degree",
    "V": "volt", "mV": "millivolt", "kV": "kilovolt", "A": "ampere", "mA": "milliampere", "ohm": "ohm",
    "mohm": "milliohm", "kohm": "kiloohm", "mol": "mole", "mmol": "millimole", "umol": "micromole",
    "%": "percent", "‰": "permille", "ppm": "ppm", "count": "count",
}  # fmt: skip
"""Our atom: pint's name."""


def unit(name: str) -> pint.Quantity[float]:
    return REGISTRY.Quantity(1.0, getattr(REGISTRY, name))


def shorthand() -> dict[str, pint.Quantity[float]]:
    """Words of the trade that pint has no name for, spelled out in its units."""
    lbf, foot, inch = unit("pound_force"), unit("foot"), unit("inch")
    gram_per_mole = unit("gram") / unit("mole")
    return {
        "1": ONE,
        "% RH": unit("percent"),
        "ppt": unit("gram") / unit("kilogram"),
        "psu": ONE,
        "psf": lbf / foot**2,
        "pcf": unit("pound") / foot**3,
        "pci": lbf / inch**3,
        "plf": lbf / foot,
        "pli": lbf / inch,
        "cfm": foot**3 / unit("minute"),
        "cfh": foot**3 / unit("hour"),
        "cfs": foot**3 / unit("second"),
        "fpm": foot / unit("minute"),
        "mph": unit("mile") / unit("hour"),
        "rpm": 1.0 / unit("minute"),
        "Nm": unit("newton") * unit("meter"),
        "kNm": unit("kilonewton") * unit("meter"),
        "Nmm": unit("newton") * unit("millimeter"),
        "meq": unit("millimole"),
        "dKH": 2.0 * 10.0 * unit("milligram") / unit("liter") / (56.077 * gram_per_mole),
    }


SHORTHAND = shorthand()
FORCEFUL = {"lb": "pound_force", "g": "standard_gravity"}


def composed(symbol: str, forceful: bool) -> pint.Quantity[float]:
    """One canonical symbol as a pint quantity; `forceful` reads a pound and a g as force and acceleration."""
    above, _, below = symbol.partition("/")
    result = product(above, forceful)
    return result / product(below.strip("()"), forceful) if below else result


def product(words: str, forceful: bool) -> pint.Quantity[float]:
    if words in ATOMS or words in SHORTHAND:
        return atom(words, forceful)
    result = ONE
    for word in words.split():
        known = word in ATOMS or word in SHORTHAND
        result = result * (atom(word, forceful) if known else atom(word[:-1], forceful) ** int(word[-1]))
    return result


def atom(word: str, forceful: bool) -> pint.Quantity[float]:
    if forceful and word in FORCEFUL:
        return unit(FORCEFUL[word])
    return SHORTHAND[word] if word in SHORTHAND else unit(ATOMS[word])


def referee(symbol: str, si: str) -> float:
    """The size of a unit in the SI unit of its dimension, as pint has it."""
    target = composed(si, forceful=False)
    plain = composed(symbol, forceful=False)
    fits = plain.dimensionality == target.dimensionality
    return float(
        ((plain if fits else composed(symbol, forceful=True)) / target).to("dimensionless").magnitude
    )


EVERY_UNIT = [(name, symbol) for name, dimension in DIMENSIONS.items() for symbol in dimension.symbols]


@pytest.mark.parametrize(("name", "symbol"), EVERY_UNIT, ids=str)
def test_factor_agrees_with_pint(name: str, symbol: str) -> None:
    dimension = DIMENSIONS[name]
    ours = dimension.units[symbol].factor
    assert math.isclose(float(ours), referee(symbol, dimension.si), rel_tol=CLOSE)


@pytest.mark.parametrize("reading", [-459.67, -40.0, 0.0, 32.0, 77.0, 212.0])
@pytest.mark.parametrize(
    ("symbol", "scale"), [("degF", "degF"), ("F", "degF"), ("K", "kelvin"), ("degC", "degC")]
)
def test_temperature_scale_agrees_with_pint(reading: float, symbol: str, scale: str) -> None:
    theirs = REGISTRY.Quantity(reading, getattr(REGISTRY, scale)).to("degC").magnitude
    assert parse(f"{reading} {symbol}", "temperature") == pytest.approx(theirs, rel=CLOSE, abs=1e-11)


@pytest.mark.parametrize(
    ("text", "dimension", "parts"),
    [
        ("4 ft 6 in", "length", [(4, "foot"), (6, "inch")]),
        ("2 m 20 cm", "length", [(2, "meter"), (20, "centimeter")]),
        ("1 lb 4 oz", "mass", [(1, "pound"), (4, "ounce")]),
        ("2 h 30 min", "time", [(2, "hour"), (30, "minute")]),
        ("1 week 2 days 3 h", "time", [(1, "week"), (2, "day"), (3, "hour")]),
    ],
)
def test_sum_of_parts_agrees_with_pint(text: str, dimension: str, parts: list[tuple[int, str]]) -> None:
    total = sum((number * unit(name) for number, name in parts[1:]), parts[0][0] * unit(parts[0][1]))
    assert math.isclose(parse(text, dimension), total.to_base_units().magnitude, rel_tol=CLOSE)


PRINTED = [
    ("atm", "pressure", 1.01325e5, 0.0),
    ("ftH2O", "pressure", 2.989067e3, 5e-4),
    ("inH2O", "pressure", 2.490889e2, 5e-5),
    ("inHg", "pressure", 3.386389e3, 5e-4),
    ("psi", "pressure", 6.894757e3, 5e-4),
    ("psf", "pressure", 4.788026e1, 5e-6),
    ("ksi", "pressure", 6.894757e6, 5e-1),
    ("lbf", "force", 4.448222, 5e-7),
    ("kip", "force", 4.448222e3, 5e-4),
    ("lbf/ft", "line_load", 1.459390e1, 5e-6),
    ("lbf/in", "line_load", 1.751268e2, 5e-5),
    ("lbf ft", "moment", 1.355818, 5e-7),
    ("lbf in", "moment", 1.129848e-1, 5e-8),
    ("lb/ft3", "density", 1.601846e1, 5e-6),
    ("lb/ft2", "mass_per_area", 4.882428, 5e-7),
    ("US gal", "volume", 3.785412e-3, 5e-10),
    ("imp gal", "volume", 4.54609e-3, 0.0),
    ("US gal/min", "flow", 6.309020e-5, 5e-12),
    ("cfm", "air_flow", 4.719474e-4, 5e-11),
    ("in4", "second_moment", 4.162314e-7, 5e-14),
    ("in3", "section_modulus", 1.638706e-5, 5e-12),
    ("Btu", "energy", 1.055056e3, 5e-4),
    ("US therm", "energy", 1.054804e8, 0.0),
    ("mechanical hp", "power", 7.456999e2, 5e-5),
    ("metric hp", "power", 7.354988e2, 5e-5),
    ("Btu/(h ft2 degF)", "thermal_transmittance", 5.678263, 5e-7),
    ("Btu/(h ft degF)", "thermal_conductivity", 1.730735, 5e-7),
    ("Btu/(lb degF)", "specific_heat", 4.1868e3, 0.0),
]
"""NIST SP 811 (2008), appendix B.8, from memory; half the last printed digit, nothing where exact."""


@pytest.mark.parametrize(("symbol", "dimension", "printed", "half_digit"), PRINTED)
def test_factor_agrees_with_the_printed_table(
    symbol: str, dimension: str, printed: float, half_digit: float
) -> None:
    ours = to_si(1.0, symbol, dimension)
    assert abs(ours - printed) <= half_digit * (1 + 1e-9) + 1e-15 * printed
    assert math.isclose(from_si_unit(ours, symbol, dimension), 1.0, rel_tol=CLOSE)


@pytest.mark.parametrize(
    ("symbol", "name"),
    [("lb/ft", "pound_force/foot"), ("lb/in", "pound_force/inch"), ("lb-in/ft", "pound_force*inch/foot"),
     ("lb-in2/ft", "pound_force*inch**2/foot"), ("in4/ft", "inch**4/foot"), ("pcf", "pound/foot**3"),
     ("kN/m2", "kilonewton/meter**2"),
    ("N/mm2", "newton/millimeter**2"), ("ksi", "kip/inch**2"),
     ("psf", "pound_force/foot**2"), ("lb", "pound_force"), ("1/degF", "1/delta_degree_Fahrenheit")],
)  # fmt: skip
def test_units_of_strength_tables_mean_pounds_of_force(symbol: str, name: str) -> None:
    theirs = REGISTRY.Quantity(1.0, name).to_base_units().magnitude
    assert math.isclose(to_si(1.0, symbol), theirs, rel_tol=CLOSE)
