"""The sizes of units in SI, as exact fractions.

Source: NIST Special Publication 811 (2008), appendix B, from memory; every factor is refereed by an independent
unit library in tests/agree. Fractions, not floats: a typed decimal times an exact fraction, rounded once, gives
the nearest float there is, so that "38 mm" and "0.038 m" are the same number to the last bit.
"""

from __future__ import annotations

from fractions import Fraction

ONE = Fraction(1)
KILO, MEGA, GIGA = Fraction(10**3), Fraction(10**6), Fraction(10**9)
CENTI, MILLI, MICRO = Fraction(1, 10**2), Fraction(1, 10**3), Fraction(1, 10**6)

INCH = Fraction(254, 10000)
"""International inch, exact since 1959."""
FOOT, YARD, MIL = 12 * INCH, 36 * INCH, INCH / 1000
POUND = Fraction(45359237, 10**8)
"""Avoirdupois pound in kg, exact since 1959."""
OUNCE = POUND / 16
STANDARD_GRAVITY = Fraction(980665, 10**5)
"""m/s2, exact: 3rd CGPM (1901)."""
POUND_FORCE = POUND * STANDARD_GRAVITY
KIP = 1000 * POUND_FORCE

LITRE = MILLI
US_GALLON = 231 * INCH**3
"""231 cubic inches, exact."""
IMPERIAL_GALLON = Fraction(454609, 10**5) * LITRE
"""4.54609 litres, exact: UK Weights and Measures Act 1985."""

PSI = POUND_FORCE / INCH**2
PSF = POUND_FORCE / FOOT**2
BAR, ATMOSPHERE = Fraction(10**5), Fraction(101325)
WATER_COLUMN = 1000 * STANDARD_GRAVITY
"""Pascal per metre of water: the conventional column, 1000 kg/m3 under standard gravity."""
MERCURY_COLUMN = Fraction(135951, 10) * STANDARD_GRAVITY
"""Pascal per metre of mercury: the conventional column, 13595.1 kg/m3."""

MINUTE, HOUR, DAY, WEEK = Fraction(60), Fraction(3600), Fraction(86400), Fraction(7 * 86400)
YEAR = Fraction(36525, 100) * DAY
"""Julian year, 365.25 days."""

BTU = Fraction(105505585262, 10**8)
"""International Table Btu in joule, exact by its definition from the pound and the degree Fahrenheit."""
US_THERM = Fraction(105480400)
"""Therm of US law in joule; the European one is 0.02 % larger, so a bare "therm" is refused."""
HORSEPOWER = 550 * FOOT * POUND_FORCE
METRIC_HORSEPOWER = 75 * STANDARD_GRAVITY
ELECTRIC_HORSEPOWER = Fraction(746)

FAHRENHEIT_STEP = Fraction(5, 9)
ICE_POINT_F = Fraction(32)
ICE_POINT_K = Fraction(27315, 100)

PI = Fraction("3.14159265358979323846264338327950288419716939937510")
"""To fifty digits, far below a float's last bit."""
DEGREE = PI / 180

CALCIUM_OXIDE_EQUIVALENT = Fraction(56077, 2000)
"""Gram per mole of charge: half the molar mass of CaO, 40.078 + 15.999. Source: IUPAC atomic weights, from memory."""
GERMAN_HARDNESS = 10 / CALCIUM_OXIDE_EQUIVALENT
"""One German degree, 10 mg of CaO a litre, in mol of charge per m3."""
