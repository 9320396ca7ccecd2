"""Unit words as people write them, brought to one canonical spelling.

A canonical symbol is made of atoms ("ft", "in2", "US gal") parted by single spaces for products and "/" for
quotients. Only spelling is settled here; whether the result is a unit at all is decided by the dimension.
"""

from __future__ import annotations

import re

from tidestead.core.units.dimensions import Gallon

SAME = (
    "m mm cm km um g kg mg ug t L mL cL dL N kN MN Nm kNm Nmm Pa kPa MPa GPa hPa s min h W kW mW J kJ MJ GJ "
    "mbar mrad Wh kWh MWh Btu V mV kV A mA Hz kHz K C F PS US imp gal qt pt oz fl"
)
EXACT = {
    **{atom: atom for atom in SAME.split()},
    "MM": "mm",
    "ML": "ML",
    "KN": "kN",
    "Mpa": "MPa",
    "sec": "s",
    "µm": "um",
    "µg": "ug",
    "µmol": "umol",
    "Ω": "ohm",
    "mΩ": "mohm",
    "kΩ": "kohm",
    "°C": "degC",
    "°F": "degF",
}
"""Spellings in which small and capital letters matter: M is a million where m is a thousandth."""

WORDS = {
    "m": "m metre metres meter meters",
    "cm": "cm centimetre centimetres centimeter centimeters",
    "mm": "millimetre millimetres millimeter millimeters",
    "um": "um micron microns micrometre micrometres micrometer micrometers",
    "km": "km kilometre kilometres kilometer kilometers",
    "in": "in inch inches ins",
    "ft": "ft foot feet",
    "yd": "yd yard yards",
    "mil": "mil mils",
    "thou": "thou",
    "mile": "mile miles",
    "kg": "kg kgs kilo kilos kilogram kilograms",
    "g": "g gram grams gramme grammes",
    "t": "tonne tonnes",
    "lb": "lb lbs pound pounds",
    "lbf": "lbf lbsf",
    "oz": "oz ounce ounces",
    "kip": "kip kips",
    "kgf": "kgf",
    "L": "l litre litres liter liters ltr",
    "mL": "ml millilitre millilitres milliliter milliliters",
    "cL": "cl",
    "dL": "dl",
    "cc": "cc ccm",
    "gal": "gal gals gallon gallons",
    "qt": "qt qts quart quarts",
    "pt": "pint pints",
    "fl": "fl fluid",
    "US": "us u.s.",
    "imp": "imp imperial uk",
    "s": "s sec secs second seconds",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "day": "d day",
    "days": "days",
    "week": "wk week",
    "weeks": "wks weeks",
    "year": "yr year",
    "years": "yrs years",
    "N": "newton newtons",
    "kN": "kilonewton kilonewtons",
    "Pa": "pa pascal pascals",
    "kPa": "kpa kilopascal kilopascals",
    "MPa": "megapascal megapascals",
    "GPa": "gpa gigapascal gigapascals",
    "bar": "bar bars",
    "mbar": "millibar millibars",
    "hPa": "hpa",
    "atm": "atm",
    "psi": "psi",
    "psf": "psf",
    "ksi": "ksi",
    "pcf": "pcf",
    "pci": "pci",
    "plf": "plf",
    "pli": "pli",
    "gph": "gph",
    "gpm": "gpm",
    "gpd": "gpd",
    "lph": "lph",
    "lpm": "lpm",
    "cfm": "cfm",
    "cfh": "cfh",
    "cfs": "cfs",
    "fpm": "fpm",
    "mph": "mph",
    "rpm": "rpm",
    "W": "w watt watts",
    "kW": "kw kilowatt kilowatts",
    "Wh": "wh",
    "kWh": "kwh",
    "J": "j joule joules",
    "kJ": "kj",
    "Btu": "btu btus",
    "hp": "hp horsepower",
    "V": "v volt volts",
    "A": "a amp amps ampere amperes",
    "mA": "milliamp milliamps",
    "ohm": "ohm ohms",
    "Hz": "hz hertz",
    "degC": "degc celsius centigrade",
    "degF": "degf fahrenheit",
    "K": "k kelvin kelvins",
    "C": "c",
    "F": "f",
    "deg": "deg degs degree degrees",
    "rad": "rad radian radians",
    "%": "% percent",
    "psu": "psu",
    "ppt": "ppt",
    "dKH": "dkh",
    "mH2O": "mh2o",
    "inH2O": "inh2o",
    "ftH2O": "fth2o",
    "cmH2O": "cmh2o",
    "mmH2O": "mmh2o",
    "inHg": "inhg",
    "mmHg": "mmhg",
    "H2O": "h2o wc",
    "Hg": "hg",
    "mol": "mol mole moles",
    "umol": "umol",
    "count": "count",
    "sq": "sq square",
    "cu": "cu cubic",
    "ton": "ton tons",
    "month": "month months mo",
}
"""Canonical atom: every spelling of it in small letters; capitals make no difference to these."""

ANY_CASE = {spelling: atom for atom, spellings in WORDS.items() for spelling in spellings.split()}

PHRASES = {
    "gph": "gal/h",
    "gpm": "gal/min",
    "gpd": "gal/day",
    "lph": "L/h",
    "lpm": "L/min",
    "deg C": "degC",
    "deg F": "degF",
    "° C": "degC",
    "° F": "degF",
    "m H2O": "mH2O",
    "in H2O": "inH2O",
    "ft H2O": "ftH2O",
    "cm H2O": "cmH2O",
    "mm H2O": "mmH2O",
    "in Hg": "inHg",
    "mm Hg": "mmHg",
    "''": '"',
    "/K": "1/K",
    "/degC": "1/degC",
    "/degF": "1/degF",
    "/m": "1/m",
    "/ft": "1/ft",
    "/h": "1/h",
    "/min": "1/min",
    "/s": "1/s",
    "/day": "1/day",
    "%RH": "% RH",
    "%rh": "% RH",
    "W/m2K": "W/(m2 K)",
    "W/m2/K": "W/(m2 K)",
    "W/m2 K": "W/(m2 K)",
    "W/mK": "W/(m K)",
    "W/m/K": "W/(m K)",
    "W/m K": "W/(m K)",
    "m2K/W": "m2 K/W",
    "J/kgK": "J/(kg K)",
    "J/kg/K": "J/(kg K)",
    "J/kg K": "J/(kg K)",
    "kJ/kgK": "kJ/(kg K)",
    "kJ/kg/K": "kJ/(kg K)",
    "kJ/kg K": "kJ/(kg K)",
    "kWh/m2/day": "kWh/(m2 day)",
    "MJ/m2/day": "MJ/(m2 day)",
    "umol/m2/s": "umol/(m2 s)",
    "mol/m2/day": "mol/(m2 day)",
    "m/m/K": "m/(m K)",
    "mm/m/K": "mm/(m K)",
    "in/in/degF": "in/(in degF)",
    "m/m K": "m/(m K)",
    "mm/m K": "mm/(m K)",
}

BARE_MEASURE = r"(?<!US )(?<!imp )\b(gal|qt|pt|fl oz)\b"


def canonical(text: str, gallon: Gallon = None) -> str:
    """The canonical spelling of a unit; what cannot be read comes back in its own letters."""
    spaced = " ".join(text.replace(" per ", "/").replace("-", " ").split())
    joined = re.sub(r" ?([/()]) ?", r"\1", spaced)
    spelled = re.sub(r"[^\s/()]+", lambda found: _atom(found.group()), joined)
    squared = re.sub(r"\bsq ([a-z]+)\b", r"\g<1>2", spelled)
    powered = re.sub(r"\bcu ([a-z]+)\b", r"\g<1>3", squared)
    system, rest = _parted(powered)
    whole = system + PHRASES.get(rest, rest)
    if gallon is None:
        return whole
    return re.sub(BARE_MEASURE, ("US " if gallon == "us" else "imp ") + r"\1", whole)


def _parted(text: str) -> tuple[str, str]:
    """The words "US gph" as "US " and "gph", so that the phrase can be looked up."""
    for system in ("US ", "imp "):
        if text.startswith(system):
            return system, text[len(system) :]
    return "", text


def _atom(word: str) -> str:
    """One atom in its canonical letters, with its power."""
    known = EXACT.get(word) or ANY_CASE.get(word.lower())
    if known:
        return known
    if len(word) > 1 and word[-1] in "234":
        return _atom(word[:-1]) + word[-1]
    return word
