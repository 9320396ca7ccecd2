"""Dimensions of shape, weight and strength. Symbols are canonical: see `symbols.py`."""

from __future__ import annotations

from math import inf

from tidestead.core.units.dimensions import Dimension, units
from tidestead.core.units.factors import (
    ATMOSPHERE,
    BAR,
    CENTI,
    DEGREE,
    FOOT,
    GIGA,
    INCH,
    KILO,
    KIP,
    LITRE,
    MEGA,
    MERCURY_COLUMN,
    MICRO,
    MIL,
    MILLI,
    ONE,
    OUNCE,
    POUND,
    POUND_FORCE,
    PSF,
    PSI,
    STANDARD_GRAVITY,
    WATER_COLUMN,
    YARD,
)
from tidestead.core.units.factors import IMPERIAL_GALLON as IMP
from tidestead.core.units.factors import US_GALLON as US

LENGTH = Dimension(
    "length",
    "m",
    units(
        ("metric", "m", ONE),
        ("metric", "mm", MILLI),
        ("metric", "cm", CENTI),
        ("us", "in", INCH),
        ("us", "ft", FOOT),
        ("rare", '"', INCH),
        ("rare", "'", FOOT),
        ("rare", "yd", YARD),
        ("rare", "um", MICRO),
        ("rare", "km", KILO),
    ),
    example='"1.2 m" or "4 ft 6 in"',
    sums=True,
    guess=((10, "m"), (100, "in"), (inf, "mm")),
)

FILM = Dimension(
    "film",
    "m",
    units(
        ("metric", "um", MICRO),
        ("metric", "mm", MILLI),
        ("us", "mil", MIL),
        ("us", "in", INCH),
        ("rare", "thou", MIL),
        ("rare", '"', INCH),
        ("rare", "cm", CENTI),
        ("rare", "m", ONE),
    ),
    example='"1200 micron" or "47 mil"',
)

AREA = Dimension(
    "area",
    "m2",
    units(
        ("metric", "m2", ONE),
        ("metric", "cm2", CENTI**2),
        ("metric", "mm2", MILLI**2),
        ("us", "ft2", FOOT**2),
        ("us", "in2", INCH**2),
        ("rare", "yd2", YARD**2),
    ),
    example='"1.5 m2" or "16 ft2"',
)

VOLUME = Dimension(
    "volume",
    "m3",
    units(
        ("metric", "m3", ONE),
        ("metric", "L", LITRE),
        ("metric", "mL", MILLI * LITRE),
        ("rare", "cL", CENTI * LITRE),
        ("rare", "dL", LITRE / 10),
        ("rare", "cm3|cc", CENTI**3),
        ("rare", "mm3", MILLI**3),
        ("us", "US gal", US),
        ("us", "ft3", FOOT**3),
        ("us", "in3", INCH**3),
        ("rare", "US qt", US / 4),
        ("rare", "US pt", US / 8),
        ("us", "US fl oz", US / 128),
        ("rare", "imp gal", IMP),
        ("rare", "imp qt", IMP / 4),
        ("rare", "imp pt", IMP / 8),
        ("rare", "imp fl oz", IMP / 160),
        ("rare", "yd3", YARD**3),
    ),
    example='"850 L" or "225 US gal"',
)

MASS = Dimension(
    "mass",
    "kg",
    units(
        ("metric", "kg", ONE),
        ("metric", "g", MILLI),
        ("metric", "mg", MICRO),
        ("rare", "t", KILO),
        ("us", "lb", POUND),
        ("us", "oz", OUNCE),
    ),
    example='"25 kg" or "55 lb"',
    sums=True,
)

DENSITY = Dimension(
    "density",
    "kg/m3",
    units(
        ("metric", "kg/m3", ONE),
        ("metric", "g/cm3|g/mL|kg/L|t/m3", KILO),
        ("rare", "g/L", ONE),
        ("us", "lb/ft3|pcf", POUND / FOOT**3),
        ("rare", "lb/in3", POUND / INCH**3),
        ("rare", "lb/US gal", POUND / US),
        ("rare", "lb/imp gal", POUND / IMP),
    ),
    example='"1025 kg/m3" or "64 lb/ft3"',
)

MASS_PER_AREA = Dimension(
    "mass_per_area",
    "kg/m2",
    units(
        ("metric", "kg/m2", ONE),
        ("metric", "g/m2", MILLI),
        ("us", "lb/ft2", POUND / FOOT**2),
        ("us", "oz/ft2", OUNCE / FOOT**2),
        ("us", "oz/yd2", OUNCE / YARD**2),
    ),
    example='"9.5 kg/m2" or "2 lb/ft2"',
)

MASS_PER_LENGTH = Dimension(
    "mass_per_length",
    "kg/m",
    units(
        ("metric", "kg/m", ONE),
        ("metric", "g/m", MILLI),
        ("us", "lb/ft", POUND / FOOT),
        ("rare", "lb/in", POUND / INCH),
    ),
    example='"3.2 kg/m" or "2.1 lb/ft"',
)

PRESSURE = Dimension(
    "pressure",
    "Pa",
    units(
        ("metric", "Pa|N/m2", ONE),
        ("metric", "kPa|kN/m2", KILO),
        ("metric", "MPa|N/mm2", MEGA),
        ("metric", "GPa|kN/mm2", GIGA),
        ("rare", "bar", BAR),
        ("rare", "mbar|hPa", BAR / 1000),
        ("rare", "atm", ATMOSPHERE),
        ("rare", "mH2O", WATER_COLUMN),
        ("rare", "cmH2O", CENTI * WATER_COLUMN),
        ("rare", "mmH2O", MILLI * WATER_COLUMN),
        ("rare", "mmHg", MILLI * MERCURY_COLUMN),
        ("us", "psi|lb/in2|lbf/in2", PSI),
        ("us", "psf|lb/ft2|lbf/ft2", PSF),
        ("us", "ksi|kip/in2", 1000 * PSI),
        ("rare", "inH2O", INCH * WATER_COLUMN),
        ("rare", "ftH2O", FOOT * WATER_COLUMN),
        ("rare", "inHg", INCH * MERCURY_COLUMN),
    ),
    example='"12 kPa" or "250 psf"',
    guess=((inf, "kPa"),),
)

FORCE = Dimension(
    "force",
    "N",
    units(
        ("metric", "N", ONE),
        ("metric", "kN", KILO),
        ("rare", "MN", MEGA),
        ("rare", "kgf", STANDARD_GRAVITY),
        ("us", "lbf|lb", POUND_FORCE),
        ("us", "kip", KIP),
    ),
    example='"4.5 kN" or "1000 lbf"',
)

LINE_LOAD = Dimension(
    "line_load",
    "N/m",
    units(
        ("metric", "N/m", ONE),
        ("metric", "kN/m|N/mm", KILO),
        ("rare", "kN/mm|MN/m", MEGA),
        ("us", "lbf/ft|lb/ft|plf", POUND_FORCE / FOOT),
        ("us", "lbf/in|lb/in|pli", POUND_FORCE / INCH),
        ("us", "kip/ft", KIP / FOOT),
        ("rare", "kip/in", KIP / INCH),
    ),
    example='"6.8 kN/m" or "470 lb/ft"',
)

MOMENT = Dimension(
    "moment",
    "N m",
    units(
        ("metric", "N m|Nm", ONE),
        ("metric", "kN m|kNm", KILO),
        ("metric", "N mm|Nmm", MILLI),
        ("us", "lbf ft|lb ft|ft lbf|ft lb", POUND_FORCE * FOOT),
        ("us", "lbf in|lb in|in lbf|in lb", POUND_FORCE * INCH),
        ("rare", "kip ft|ft kip", KIP * FOOT),
        ("rare", "kip in|in kip", KIP * INCH),
    ),
    example='"250 N m" or "180 lbf ft"',
)

MOMENT_PER_LENGTH = Dimension(
    "moment_per_length",
    "N m/m",
    units(
        ("metric", "N m/m|Nm/m", ONE),
        ("metric", "kN m/m|kNm/m", KILO),
        ("metric", "N mm/mm", ONE),
        ("us", "lbf ft/ft|lb ft/ft|ft lbf/ft|ft lb/ft", POUND_FORCE),
        ("us", "lbf in/ft|lb in/ft|in lbf/ft|in lb/ft", POUND_FORCE * INCH / FOOT),
        ("us", "lbf in/in|lb in/in|in lbf/in|in lb/in", POUND_FORCE),
    ),
    example='"860 N m/m" or "2300 lb-in/ft"',
)

BENDING_STIFFNESS = Dimension(
    "bending_stiffness",
    "N m2",
    units(
        ("metric", "N m2|Nm2", ONE),
        ("metric", "kN m2|kNm2", KILO),
        ("metric", "N mm2|Nmm2", MICRO),
        ("us", "lbf in2|lb in2", POUND_FORCE * INCH**2),
        ("us", "lbf ft2|lb ft2", POUND_FORCE * FOOT**2),
    ),
    example='"52 kN m2" or "1.8e7 lb-in2"',
)

BENDING_STIFFNESS_PER_LENGTH = Dimension(
    "bending_stiffness_per_length",
    "N m2/m",
    units(
        ("metric", "N m2/m|Nm2/m", ONE),
        ("metric", "kN m2/m|kNm2/m", KILO),
        ("metric", "N mm2/mm|Nmm2/mm", MILLI),
        ("rare", "N mm2/m", MICRO),
        ("us", "lbf in2/ft|lb in2/ft", POUND_FORCE * INCH**2 / FOOT),
        ("us", "lbf in2/in|lb in2/in", POUND_FORCE * INCH),
    ),
    example='"3.4 kN m2/m" or "350000 lb-in2/ft"',
)

AXIAL_STIFFNESS_PER_LENGTH = Dimension(
    "axial_stiffness_per_length",
    "N/m",
    units(
        ("metric", "N/m", ONE),
        ("metric", "kN/m|N/mm", KILO),
        ("metric", "MN/m|kN/mm", MEGA),
        ("us", "lbf/ft|lb/ft", POUND_FORCE / FOOT),
        ("us", "lbf/in|lb/in", POUND_FORCE / INCH),
        ("us", "kip/ft", KIP / FOOT),
        ("us", "kip/in", KIP / INCH),
    ),
    example='"85 MN/m" or "5.8e6 lb/ft"',
)

SPRING = Dimension(
    "spring",
    "N/m",
    AXIAL_STIFFNESS_PER_LENGTH.units,
    example='"1200 N/mm" or "6850 lb/in"',
)

ROTATIONAL_SPRING = Dimension(
    "rotational_spring",
    "N m/rad",
    units(
        ("metric", "N m/rad|Nm/rad", ONE),
        ("metric", "kN m/rad|kNm/rad", KILO),
        ("us", "lbf ft/rad|lb ft/rad", POUND_FORCE * FOOT),
        ("us", "lbf in/rad|lb in/rad", POUND_FORCE * INCH),
    ),
    example='"15 kN m/rad" or "132000 lb-in/rad"',
)

SUBGRADE = Dimension(
    "subgrade",
    "N/m3",
    units(
        ("metric", "N/m3", ONE),
        ("metric", "kN/m3", KILO),
        ("metric", "MN/m3", MEGA),
        ("rare", "N/mm3", GIGA),
        ("us", "lbf/in3|lb/in3|pci", POUND_FORCE / INCH**3),
        ("us", "lbf/ft3|lb/ft3", POUND_FORCE / FOOT**3),
        ("rare", "psf/ft", PSF / FOOT),
    ),
    example='"30 MN/m3" or "110 lb/in3"',
)

SECOND_MOMENT = Dimension(
    "second_moment",
    "m4",
    units(
        ("metric", "m4", ONE),
        ("metric", "cm4", CENTI**4),
        ("metric", "mm4", MILLI**4),
        ("us", "in4", INCH**4),
        ("rare", "ft4", FOOT**4),
    ),
    example='"1200 cm4" or "20.8 in4"',
)

SECOND_MOMENT_PER_LENGTH = Dimension(
    "second_moment_per_length",
    "m4/m",
    units(
        ("metric", "m4/m", ONE),
        ("metric", "cm4/m", CENTI**4),
        ("metric", "mm4/mm", MILLI**3),
        ("metric", "mm4/m", MILLI**4),
        ("us", "in4/ft", INCH**4 / FOOT),
        ("us", "in4/in", INCH**3),
    ),
    example='"48 cm4/m" or "0.35 in4/ft"',
)

SECTION_MODULUS = Dimension(
    "section_modulus",
    "m3",
    units(
        ("metric", "m3", ONE),
        ("metric", "cm3", CENTI**3),
        ("metric", "mm3", MILLI**3),
        ("us", "in3", INCH**3),
        ("rare", "ft3", FOOT**3),
    ),
    example='"165 cm3" or "7.56 in3"',
)

SECTION_MODULUS_PER_LENGTH = Dimension(
    "section_modulus_per_length",
    "m3/m",
    units(
        ("metric", "m3/m", ONE),
        ("metric", "cm3/m", CENTI**3),
        ("metric", "mm3/mm", MILLI**2),
        ("metric", "mm3/m", MILLI**3),
        ("us", "in3/ft", INCH**3 / FOOT),
        ("us", "in3/in", INCH**2),
    ),
    example='"54 cm3/m" or "1 in3/ft"',
)

AREA_PER_LENGTH = Dimension(
    "area_per_length",
    "m2/m",
    units(
        ("metric", "m2/m", ONE),
        ("metric", "cm2/m", CENTI**2),
        ("metric", "mm2/mm", MILLI),
        ("metric", "mm2/m", MILLI**2),
        ("us", "in2/ft", INCH**2 / FOOT),
        ("us", "in2/in", INCH),
        ("rare", "ft2/ft", FOOT),
    ),
    example='"12 cm2/m" or "0.57 in2/ft"',
)

PER_LENGTH = Dimension(
    "per_length",
    "1/m",
    units(
        ("metric", "1/m", ONE),
        ("metric", "1/mm", KILO),
        ("us", "1/ft", 1 / FOOT),
        ("us", "1/in", 1 / INCH),
    ),
    example='"4 1/m" or "1.2 1/ft"',
)

ANGLE = Dimension(
    "angle",
    "rad",
    units(
        ("both", "deg", DEGREE),
        ("rare", "°", DEGREE),
        ("rare", "rad", ONE),
        ("rare", "mrad", MILLI),
    ),
    example='"45 deg" or "0.79 rad"',
)

MECHANICS = (
    LENGTH,
    FILM,
    AREA,
    VOLUME,
    MASS,
    DENSITY,
    MASS_PER_AREA,
    MASS_PER_LENGTH,
    PRESSURE,
    FORCE,
    LINE_LOAD,
    MOMENT,
    MOMENT_PER_LENGTH,
    BENDING_STIFFNESS,
    BENDING_STIFFNESS_PER_LENGTH,
    AXIAL_STIFFNESS_PER_LENGTH,
    SPRING,
    ROTATIONAL_SPRING,
    SUBGRADE,
    SECOND_MOMENT,
    SECOND_MOMENT_PER_LENGTH,
    SECTION_MODULUS,
    SECTION_MODULUS_PER_LENGTH,
    AREA_PER_LENGTH,
    PER_LENGTH,
    ANGLE,
)
