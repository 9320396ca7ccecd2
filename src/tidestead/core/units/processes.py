"""Dimensions of what moves, warms, shines and dissolves. Symbols are canonical: see `symbols.py`."""

from __future__ import annotations

from math import inf

from tidestead.core.units.dimensions import Dimension

TIMES = "h, days, min, s, weeks, years"
HEATS = "kWh, Wh, J, kJ, MJ"

PROCESSES = (
    Dimension(
        "temperature", "degC", "degC", "degF", '"24 degC" or "75 degF"', rare="C, F, K",
        guess=((45, "degC"), (inf, "degF")),
    ),
    Dimension("temperature_difference", "K", "K", "degF", '"2 K" or "3.6 degF"', rare="degC, C, F"),
    Dimension(
        "thermal_expansion", "1/K", "1/K", "1/degF", '"7e-5 per K" or "4e-5 per degF"',
        rare="1/degC, 1/C, 1/F, m/(m K), mm/(m K), in/(in degF)",
    ),
    Dimension("time", "s", TIMES, TIMES, '"8 h" or "7 days"', rare="day, week, year", sums=True,
    guess=((inf, "h"),)),
    Dimension(
        "frequency", "Hz", "Hz, 1/min, 1/h, 1/day", "Hz, 1/min, 1/h, 1/day", '"50 Hz" or "4 per h"',
        rare="1/s, kHz, rpm"
    ),
    Dimension(
        "flow", "m3/s", "m3/h, L/h, L/min, L/s, m3/s", "US gal/h, US gal/min", '"6 m3/h" or "1600 US gal/h"',
        rare="m3/min, m3/day, L/day, mL/day, mL/min, mL/h, US gal/day, imp gal/h, imp gal/min, imp gal/day, ft3/s, "
        "cfs, ft3/min, cfm",
    ),
    Dimension(
        "air_flow", "m3/s", "L/min, m3/h, L/s, m3/s", "cfm, cfh", '"150 L/min" or "5.3 cfm"',
        rare="L/h, m3/min, ft3/min, ft3/h",
    ),
    Dimension(
        "velocity", "m/s", "m/s, mm/s, mm/h, mm/day", "ft/s, in/s, ft/min, in/day", '"0.6 m/s" or "2 ft/s"',
        rare="cm/s, m/h, km/h, fpm, in/h, mph, mile/h", said="speed",
    ),
    Dimension(
        "acceleration", "m/s2", "m/s2, g", "g, ft/s2, m/s2", '"0.3 g" or "2.9 m/s2"', means=(("g",
        "standard gravity"),)
    ),
    Dimension(
        "power", "W", "W, kW", "W, kW, Btu/h", '"750 W" or "2560 Btu/h"',
        rare="mW, mechanical hp, metric hp, PS, electric hp",
    ),
    Dimension("energy", "J", HEATS, f"{HEATS}, Btu", '"12 kWh" or "41000 Btu"', rare="MWh, GJ, US therm"),
    Dimension("irradiance", "W/m2", "W/m2, kW/m2", "W/m2, Btu/(h ft2)", '"600 W/m2" or "190 Btu/(h ft2)"'),
    Dimension("irradiation", "J/m2", "kWh/m2, MJ/m2, J/m2", "kWh/m2, Btu/ft2",
    '"4.6 kWh/m2" or "1460 Btu/ft2"'),
    Dimension(
        "daily_irradiation", "W/m2", "kWh/(m2 day), MJ/(m2 day), W/m2", "kWh/(m2 day), Btu/(ft2 day)",
        '"4.6 kWh/m2/day"',
    ),
    Dimension(
        "thermal_transmittance", "W/(m2 K)", "W/(m2 K)", "Btu/(h ft2 degF)",
        '"1.4 W/(m2 K)" or "0.25 Btu/(h ft2 degF)"'
    ),
    Dimension("thermal_resistance", "m2 K/W", "m2 K/W", "h ft2 degF/Btu",
    '"3.3 m2 K/W" or "19 h ft2 degF/Btu"'),
    Dimension(
        "thermal_conductivity", "W/(m K)", "W/(m K)", "Btu/(h ft degF)", '"0.035 W/(m K)"',
        rare="Btu in/(h ft2 degF)"
    ),
    Dimension(
        "specific_heat", "J/(kg K)", "J/(kg K), kJ/(kg K)", "Btu/(lb degF)",
        '"3990 J/(kg K)" or "0.953 Btu/(lb degF)"'
    ),
    Dimension("voltage", "V", "V", "V", '"230 V"', rare="mV, kV"),
    Dimension("current", "A", "A, mA", "A, mA", '"16 A" or "30 mA"'),
    Dimension("resistance", "ohm", "ohm, mohm", "ohm, mohm", '"0.35 ohm"', rare="kohm"),
    Dimension("resistance_per_length", "ohm/m", "ohm/km, mohm/m, ohm/m", "ohm/km, mohm/m", '"7.41 ohm/km"'),
    Dimension("leakage_per_power", "A/W", "mA/kW, A/W", "mA/kW, A/W", '"0.75 mA/kW"'),
    Dimension(
        "fuel_use", "m3/J", "L/kWh, m3/J", "US gal/kWh", '"0.4 L/kWh" or "0.1 US gal/kWh"', said="use of fuel"
    ),
    Dimension("light", "umol/(m2 s)", "umol/(m2 s)", "umol/(m2 s)", '"250 umol/m2/s"', said="flow of light"),
    Dimension("attenuation", "1/m", "1/m", "1/ft", '"0.2 1/m" or "0.06 1/ft"'),
    Dimension("efficacy", "umol/J", "umol/J", "umol/J", '"2.2 umol/J"', said="efficacy of a lamp"),
    Dimension("daily_light", "mol/(m2 day)", "mol/(m2 day)", "mol/(m2 day)", '"12 mol/m2/day"'),
    Dimension("salinity", "g/kg", "g/kg", "g/kg", '"35 g/kg" or "35 ppt"', rare="ppt, ‰"),
    Dimension("practical_salinity", "psu", "psu", "psu", '"35 psu"'),
    Dimension("concentration", "kg/m3", "mg/L, g/L", "mg/L, g/L", '"5 mg/L"',
    rare="g/m3, kg/m3, ug/L, mg/m3"),
    Dimension(
        "alkalinity", "mol/m3", "meq/L, dKH", "dKH, meq/L", '"2.5 meq/L" or "7 dKH"', rare="mmol/L, mol/m3"
    ),
    Dimension(
        "mass_rate", "kg/s", "g/day, kg/day, g/h, kg/h, kg/s", "lb/day, oz/day, lb/h",
        '"90 g/day" or "3.2 oz/day"',
        rare="mg/h", said="weight per time",
    ),
    Dimension("molar_mass", "kg/mol", "g/mol", "g/mol", '"84 g/mol"', rare="kg/mol"),
    Dimension(
        "areal_rate", "kg/(m2 s)", "g/(m2 day), g/(m2 h)", "g/(m2 day), g/(m2 h)", '"0.3 g/(m2 day)"',
        rare="kg/(m2 year), kg/(m2 s)", said="weight per area and time",
    ),
    Dimension(
        "coverage", "m2/m3", "m2/L, m2/m3", "ft2/US gal", '"1.2 m2/L" or "50 ft2/US gal"', rare="ft2/imp gal"
    ),
    Dimension("ratio", "1", "1, %", "1, %", '"12 %" or "0.12"', rare="‰, ppm", bare=True),
    Dimension("count", "count", "count", "count", '"12"', bare=True, whole=True),
    Dimension("humidity", "1", "%", "%", '"65 %"', rare="% RH"),
)  # fmt: skip
"""Every dimension of this sort."""
