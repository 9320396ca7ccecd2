"""Dimensions of what moves, warms, shines and dissolves. Symbols are canonical: see `symbols.py`."""

from __future__ import annotations

from math import inf

from tidestead.core.units.dimensions import Dimension, units
from tidestead.core.units.factors import (
    BTU,
    DAY,
    ELECTRIC_HORSEPOWER,
    FAHRENHEIT_STEP,
    FOOT,
    GERMAN_HARDNESS,
    HORSEPOWER,
    HOUR,
    ICE_POINT_F,
    ICE_POINT_K,
    INCH,
    KILO,
    LITRE,
    MEGA,
    METRIC_HORSEPOWER,
    MICRO,
    MILLI,
    MINUTE,
    ONE,
    OUNCE,
    POUND,
    STANDARD_GRAVITY,
    US_THERM,
    WEEK,
    YEAR,
)
from tidestead.core.units.factors import IMPERIAL_GALLON as IMP
from tidestead.core.units.factors import US_GALLON as US

PERCENT = ONE / 100

TEMPERATURE = Dimension(
    "temperature",
    "degC",
    units(
        ("metric", "degC", ONE),
        ("us", "degF", FAHRENHEIT_STEP, ICE_POINT_F),
        ("rare", "C", ONE),
        ("rare", "F", FAHRENHEIT_STEP, ICE_POINT_F),
        ("rare", "K", ONE, ICE_POINT_K),
    ),
    example='"24 degC" or "75 degF"',
    guess=((45, "degC"), (inf, "degF")),
)

TEMPERATURE_DIFFERENCE = Dimension(
    "temperature_difference",
    "K",
    units(
        ("metric", "K|degC|C", ONE),
        ("us", "degF", FAHRENHEIT_STEP),
        ("rare", "F", FAHRENHEIT_STEP),
    ),
    example='"2 K" or "3.6 degF"',
)

THERMAL_EXPANSION = Dimension(
    "thermal_expansion",
    "1/K",
    units(
        ("metric", "1/K|1/degC|1/C|m/(m K)", ONE),
        ("rare", "mm/(m K)", MILLI),
        ("us", "1/degF|1/F|in/(in degF)", 1 / FAHRENHEIT_STEP),
    ),
    example='"7e-5 1/K" or "4e-5 1/degF"',
)

TIME = Dimension(
    "time",
    "s",
    units(
        ("both", "s", ONE),
        ("both", "min", MINUTE),
        ("both", "h", HOUR),
        ("both", "days", DAY),
        ("both", "weeks", WEEK),
        ("both", "years", YEAR),
        ("rare", "day", DAY),
        ("rare", "week", WEEK),
        ("rare", "year", YEAR),
    ),
    example='"8 h" or "7 days"',
    sums=True,
)

FREQUENCY = Dimension(
    "frequency",
    "Hz",
    units(
        ("both", "Hz|1/s", ONE),
        ("rare", "kHz", KILO),
        ("both", "1/min|rpm", 1 / MINUTE),
        ("both", "1/h", 1 / HOUR),
        ("both", "1/day", 1 / DAY),
    ),
    example='"50 Hz" or "4 1/h"',
)

FLOW = Dimension(
    "flow",
    "m3/s",
    units(
        ("metric", "m3/h", ONE / HOUR),
        ("metric", "L/h", LITRE / HOUR),
        ("metric", "L/min", LITRE / MINUTE),
        ("metric", "L/s", LITRE),
        ("metric", "m3/s", ONE),
        ("rare", "m3/min", ONE / MINUTE),
        ("rare", "m3/day", ONE / DAY),
        ("rare", "L/day", LITRE / DAY),
        ("rare", "mL/min", MILLI * LITRE / MINUTE),
        ("rare", "mL/h", MILLI * LITRE / HOUR),
        ("us", "US gal/h", US / HOUR),
        ("us", "US gal/min", US / MINUTE),
        ("rare", "US gal/day", US / DAY),
        ("rare", "imp gal/h", IMP / HOUR),
        ("rare", "imp gal/min", IMP / MINUTE),
        ("rare", "imp gal/day", IMP / DAY),
        ("us", "ft3/s|cfs", FOOT**3),
        ("rare", "ft3/min|cfm", FOOT**3 / MINUTE),
    ),
    example='"6 m3/h" or "1600 US gal/h"',
)

AIR_FLOW = Dimension(
    "air_flow",
    "m3/s",
    units(
        ("metric", "L/min", LITRE / MINUTE),
        ("metric", "m3/h", ONE / HOUR),
        ("metric", "L/s", LITRE),
        ("metric", "m3/s", ONE),
        ("rare", "L/h", LITRE / HOUR),
        ("rare", "m3/min", ONE / MINUTE),
        ("us", "cfm|ft3/min", FOOT**3 / MINUTE),
        ("us", "cfh|ft3/h", FOOT**3 / HOUR),
    ),
    example='"150 L/min" or "5.3 cfm"',
)

VELOCITY = Dimension(
    "velocity",
    "m/s",
    units(
        ("metric", "m/s", ONE),
        ("metric", "mm/s", MILLI),
        ("rare", "cm/s", ONE / 100),
        ("rare", "m/h", ONE / HOUR),
        ("rare", "km/h", KILO / HOUR),
        ("metric", "mm/h", MILLI / HOUR),
        ("metric", "mm/day", MILLI / DAY),
        ("us", "ft/s", FOOT),
        ("us", "ft/min|fpm", FOOT / MINUTE),
        ("us", "in/day", INCH / DAY),
        ("rare", "in/h", INCH / HOUR),
        ("rare", "in/s", INCH),
        ("us", "mph|mile/h", 5280 * FOOT / HOUR),
    ),
    example='"0.6 m/s" or "2 ft/s"',
)

ACCELERATION = Dimension(
    "acceleration",
    "m/s2",
    units(
        ("both", "m/s2", ONE),
        ("us", "ft/s2", FOOT),
        ("both", "g", STANDARD_GRAVITY),
    ),
    example='"0.3 g" or "2.9 m/s2"',
)

POWER = Dimension(
    "power",
    "W",
    units(
        ("both", "W", ONE),
        ("both", "kW", KILO),
        ("rare", "mW", MILLI),
        ("us", "Btu/h", BTU / HOUR),
        ("rare", "mechanical hp", HORSEPOWER),
        ("rare", "metric hp|PS", METRIC_HORSEPOWER),
        ("rare", "electric hp", ELECTRIC_HORSEPOWER),
    ),
    example='"750 W" or "2560 Btu/h"',
)

ENERGY = Dimension(
    "energy",
    "J",
    units(
        ("both", "kWh", KILO * HOUR),
        ("both", "Wh", HOUR),
        ("rare", "MWh", MEGA * HOUR),
        ("both", "J", ONE),
        ("both", "kJ", KILO),
        ("both", "MJ", MEGA),
        ("rare", "GJ", 1000 * MEGA),
        ("us", "Btu", BTU),
        ("rare", "US therm", US_THERM),
    ),
    example='"12 kWh" or "41000 Btu"',
)

IRRADIANCE = Dimension(
    "irradiance",
    "W/m2",
    units(
        ("both", "W/m2", ONE),
        ("metric", "kW/m2", KILO),
        ("us", "Btu/(h ft2)", BTU / (HOUR * FOOT**2)),
    ),
    example='"600 W/m2" or "190 Btu/(h ft2)"',
)

IRRADIATION = Dimension(
    "irradiation",
    "J/m2",
    units(
        ("both", "kWh/m2", KILO * HOUR),
        ("metric", "MJ/m2", MEGA),
        ("metric", "J/m2", ONE),
        ("us", "Btu/ft2", BTU / FOOT**2),
    ),
    example='"4.6 kWh/m2" or "1460 Btu/ft2"',
)

DAILY_IRRADIATION = Dimension(
    "daily_irradiation",
    "W/m2",
    units(
        ("both", "kWh/(m2 day)", KILO * HOUR / DAY),
        ("metric", "MJ/(m2 day)", MEGA / DAY),
        ("both", "W/m2", ONE),
        ("us", "Btu/(ft2 day)", BTU / (FOOT**2 * DAY)),
    ),
    example='"4.6 kWh/m2/day"',
)

TRANSMITTANCE = Dimension(
    "thermal_transmittance",
    "W/(m2 K)",
    units(
        ("metric", "W/(m2 K)", ONE),
        ("us", "Btu/(h ft2 degF)", BTU / (HOUR * FOOT**2 * FAHRENHEIT_STEP)),
    ),
    example='"1.4 W/(m2 K)" or "0.25 Btu/(h ft2 degF)"',
)

THERMAL_RESISTANCE = Dimension(
    "thermal_resistance",
    "m2 K/W",
    units(
        ("metric", "m2 K/W", ONE),
        ("us", "h ft2 degF/Btu", HOUR * FOOT**2 * FAHRENHEIT_STEP / BTU),
    ),
    example='"3.3 m2 K/W" or "19 h ft2 degF/Btu"',
)

CONDUCTIVITY = Dimension(
    "thermal_conductivity",
    "W/(m K)",
    units(
        ("metric", "W/(m K)", ONE),
        ("us", "Btu/(h ft degF)", BTU / (HOUR * FOOT * FAHRENHEIT_STEP)),
        ("us", "Btu in/(h ft2 degF)", BTU * INCH / (HOUR * FOOT**2 * FAHRENHEIT_STEP)),
    ),
    example='"0.035 W/(m K)"',
)

HEAT_CAPACITY = Dimension(
    "specific_heat",
    "J/(kg K)",
    units(
        ("metric", "J/(kg K)", ONE),
        ("metric", "kJ/(kg K)", KILO),
        ("us", "Btu/(lb degF)", BTU / (POUND * FAHRENHEIT_STEP)),
    ),
    example='"3990 J/(kg K)" or "0.953 Btu/(lb degF)"',
)

VOLTAGE = Dimension(
    "voltage", "V", units(("both", "V", ONE), ("rare", "mV", MILLI), ("rare", "kV", KILO)), '"230 V"'
)
CURRENT = Dimension("current", "A", units(("both", "A", ONE), ("both", "mA", MILLI)), '"16 A" or "30 mA"')
RESISTANCE = Dimension(
    "resistance",
    "ohm",
    units(("both", "ohm", ONE), ("both", "mohm", MILLI), ("rare", "kohm", KILO)),
    '"0.35 ohm"',
)

LIGHT = Dimension(
    "light",
    "umol/(m2 s)",
    units(("both", "umol/(m2 s)", ONE)),
    example='"250 umol/m2/s"',
)
DAILY_LIGHT = Dimension(
    "daily_light",
    "mol/(m2 day)",
    units(("both", "mol/(m2 day)", ONE)),
    example='"12 mol/m2/day"',
)

SALINITY = Dimension(
    "salinity",
    "g/kg",
    units(("both", "g/kg|ppt|‰", ONE)),
    example='"35 g/kg" or "35 ppt"',
)
PRACTICAL_SALINITY = Dimension("practical_salinity", "psu", units(("both", "psu", ONE)), example='"35 psu"')

CONCENTRATION = Dimension(
    "concentration",
    "kg/m3",
    units(
        ("both", "g/m3|mg/L", MILLI),
        ("both", "g/L|kg/m3", ONE),
        ("both", "ug/L|mg/m3", MICRO),
    ),
    example='"5 mg/L"',
)
ALKALINITY = Dimension(
    "alkalinity",
    "mol/m3",
    units(
        ("both", "meq/L|mmol/L|mol/m3", ONE),
        ("both", "dKH", GERMAN_HARDNESS),
    ),
    example='"2.5 meq/L" or "7 dKH"',
)

MASS_RATE = Dimension(
    "mass_rate",
    "kg/s",
    units(
        ("metric", "kg/s", ONE),
        ("metric", "kg/h", ONE / HOUR),
        ("metric", "kg/day", ONE / DAY),
        ("metric", "g/h", MILLI / HOUR),
        ("metric", "g/day", MILLI / DAY),
        ("rare", "mg/h", MICRO / HOUR),
        ("us", "lb/h", POUND / HOUR),
        ("us", "lb/day", POUND / DAY),
        ("us", "oz/day", OUNCE / DAY),
    ),
    example='"90 g/day" or "3.2 oz/day"',
)

COVERAGE = Dimension(
    "coverage",
    "m2/m3",
    units(
        ("metric", "m2/L", 1 / LITRE),
        ("metric", "m2/m3", ONE),
        ("us", "ft2/US gal", FOOT**2 / US),
        ("rare", "ft2/imp gal", FOOT**2 / IMP),
    ),
    example='"1.2 m2/L" or "50 ft2/US gal"',
)

RATIO = Dimension(
    "ratio",
    "1",
    units(("both", "1", ONE), ("both", "%", PERCENT), ("rare", "‰", MILLI)),
    example='"12 %" or "0.12"',
    bare=True,
)
COUNT = Dimension("count", "count", units(("both", "count", ONE)), example='"12"', bare=True, whole=True)
HUMIDITY = Dimension(
    "humidity", "1", units(("both", "%", PERCENT), ("rare", "% RH", PERCENT)), example='"65 %"'
)

PROCESSES = (
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
    THERMAL_EXPANSION,
    TIME,
    FREQUENCY,
    FLOW,
    AIR_FLOW,
    VELOCITY,
    ACCELERATION,
    POWER,
    ENERGY,
    IRRADIANCE,
    IRRADIATION,
    DAILY_IRRADIATION,
    TRANSMITTANCE,
    THERMAL_RESISTANCE,
    CONDUCTIVITY,
    HEAT_CAPACITY,
    VOLTAGE,
    CURRENT,
    RESISTANCE,
    LIGHT,
    DAILY_LIGHT,
    SALINITY,
    PRACTICAL_SALINITY,
    CONCENTRATION,
    ALKALINITY,
    MASS_RATE,
    COVERAGE,
    RATIO,
    COUNT,
    HUMIDITY,
)
