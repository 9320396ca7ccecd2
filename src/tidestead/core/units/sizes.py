"""The sizes of units, exact.

Source: NIST Special Publication 811 (2008), appendix B, from memory; every factor is refereed by an
independent unit library in tests/agree. Fractions, not floats: a typed decimal times an exact fraction,
rounded once, gives the nearest float there is, so that "38 mm" and "0.038 m" agree to the last bit.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

DEFINED: dict[str, tuple[str, str]] = {
    "1": ("1", ""),
    "%": ("0.01", ""),
    "% RH": ("0.01", ""),
    "‰": ("0.001", ""),
    "ppm": ("0.000001", ""),
    "count": ("1", ""),
    # length in m; the inch is exact since 1959
    "m": ("1", ""),
    "km": ("1000", ""),
    "cm": ("0.01", ""),
    "mm": ("0.001", ""),
    "um": ("0.000001", ""),
    "in": ("0.0254", ""),
    '"': ("1", "in"),
    "ft": ("12", "in"),
    "'": ("12", "in"),
    "yd": ("3", "ft"),
    "mile": ("5280", "ft"),
    "mil": ("0.001", "in"),
    "thou": ("0.001", "in"),
    # volume in m3; both gallons are exact: 231 cubic inches, and 4.54609 L (UK Weights and Measures Act 1985)
    "L": ("0.001", ""),
    "dL": ("0.0001", ""),
    "cL": ("0.00001", ""),
    "mL": ("0.000001", ""),
    "cc": ("0.000001", ""),
    "US gal": ("231", "in3"),
    "US qt": ("1/4", "US gal"),
    "US pt": ("1/8", "US gal"),
    "US fl oz": ("1/128", "US gal"),
    "imp gal": ("4.54609", "L"),
    "imp qt": ("1/4", "imp gal"),
    "imp pt": ("1/8", "imp gal"),
    "imp fl oz": ("1/160", "imp gal"),
    # mass in kg; the pound is exact since 1959
    "kg": ("1", ""),
    "g": ("0.001", ""),
    "mg": ("0.000001", ""),
    "ug": ("0.000000001", ""),
    "t": ("1000", ""),
    "lb": ("0.45359237", ""),
    "oz": ("1/16", "lb"),
    # force in N, by standard gravity 9.80665 m/s2, exact (3rd CGPM, 1901)
    "standard gravity": ("9.80665", ""),
    "N": ("1", ""),
    "kN": ("1000", ""),
    "MN": ("1000000", ""),
    "kgf": ("9.80665", "kg"),
    "lbf": ("9.80665", "lb"),
    "kip": ("1000", "lbf"),
    "plf": ("1", "lbf/ft"),
    "pli": ("1", "lbf/in"),
    "pcf": ("1", "lb/ft3"),
    "pci": ("1", "lbf/in3"),
    "Nm": ("1", "N m"),
    "kNm": ("1", "kN m"),
    "Nmm": ("1", "N mm"),
    # pressure in Pa; conventional columns under standard gravity: water 1000 kg/m3, mercury 13595.1 kg/m3
    "Pa": ("1", ""),
    "hPa": ("100", ""),
    "kPa": ("1000", ""),
    "MPa": ("1000000", ""),
    "GPa": ("1000000000", ""),
    "bar": ("100000", ""),
    "mbar": ("100", ""),
    "atm": ("101325", ""),
    "psi": ("1", "lbf/in2"),
    "psf": ("1", "lbf/ft2"),
    "ksi": ("1000", "psi"),
    "mH2O": ("9806.65", ""),
    "cmH2O": ("0.01", "mH2O"),
    "mmH2O": ("0.001", "mH2O"),
    "inH2O": ("0.0254", "mH2O"),
    "ftH2O": ("0.3048", "mH2O"),
    "mmHg": ("13.5951", "mmH2O"),
    "inHg": ("25.4", "mmHg"),
    # time in s; the year is the Julian one of 365.25 days
    "s": ("1", ""),
    "min": ("60", ""),
    "h": ("3600", ""),
    "day": ("86400", ""),
    "days": ("86400", ""),
    "week": ("7", "day"),
    "weeks": ("7", "day"),
    "year": ("365.25", "day"),
    "years": ("365.25", "day"),
    "Hz": ("1", ""),
    "kHz": ("1000", ""),
    "rpm": ("1", "1/min"),
    "cfm": ("1", "ft3/min"),
    "cfh": ("1", "ft3/h"),
    "cfs": ("1", "ft3/s"),
    "fpm": ("1", "ft/min"),
    "mph": ("1", "mile/h"),
    # energy in J, power in W; Btu of the International Table, exact; therm of US law; three horsepowers
    "J": ("1", ""),
    "kJ": ("1000", ""),
    "MJ": ("1000000", ""),
    "GJ": ("1000000000", ""),
    "W": ("1", ""),
    "mW": ("0.001", ""),
    "kW": ("1000", ""),
    "Wh": ("1", "W h"),
    "kWh": ("1", "kW h"),
    "MWh": ("1000", "kW h"),
    "Btu": ("1055.05585262", ""),
    "US therm": ("105480400", ""),
    "mechanical hp": ("550", "ft lbf/s"),
    "metric hp": ("75", "kgf m/s"),
    "PS": ("75", "kgf m/s"),
    "electric hp": ("746", ""),
    # temperature steps in K; where a scale begins is told in ZEROS
    "K": ("1", ""),
    "degC": ("1", ""),
    "C": ("1", ""),
    "degF": ("5/9", ""),
    "F": ("5/9", ""),
    # angle in rad: pi/180 to fifty digits, far below a float's last bit
    "rad": ("1", ""),
    "mrad": ("0.001", ""),
    "deg": ("0.017453292519943295769236907684886127134428718885417", ""),
    "°": ("1", "deg"),
    # electricity, amount of substance, salinity
    "V": ("1", ""),
    "mV": ("0.001", ""),
    "kV": ("1000", ""),
    "A": ("1", ""),
    "mA": ("0.001", ""),
    "ohm": ("1", ""),
    "mohm": ("0.001", ""),
    "kohm": ("1000", ""),
    "mol": ("1", ""),
    "mmol": ("0.001", ""),
    "umol": ("0.000001", ""),
    "meq": ("0.001", ""),
    "ppt": ("1", "g/kg"),
    "psu": ("1", ""),
    # a German degree is 10 mg of CaO a litre; CaO 40.078 + 15.999 g/mol (IUPAC atomic weights), two charges
    "dKH": ("20/56.077", "mol/m3"),
}
"""Each unit as so many of another; of the SI unit of its sort where none is named."""

ZEROS = {"degF": Fraction(32), "F": Fraction(32), "K": Fraction(27315, 100)}
"""What each temperature scale reads at 0 degree Celsius. ITS-90: 273.15 K; the Fahrenheit scale: 32."""


@cache
def size(symbol: str) -> Fraction:
    """The size in SI of a unit made of atoms: "kip", "lb in2/ft", "W/(m2 K)"."""
    if symbol in DEFINED:
        number, unit = DEFINED[symbol]
        over, _, under = number.partition("/")
        return Fraction(over) / Fraction(under or 1) * (size(unit) if unit else 1)
    above, _, below = symbol.partition("/")
    return _product(above) / (_product(below.strip("()")) if below else 1)


def _product(text: str) -> Fraction:
    if text in DEFINED:
        return size(text)
    result = Fraction(1)
    for word in text.split(" "):
        if word in DEFINED:
            result *= size(word)
        else:
            result *= size(word[:-1]) ** int(word[-1])
    return result
