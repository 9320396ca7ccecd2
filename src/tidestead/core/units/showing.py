"""SI numbers as people read them, in one system or both."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache, lru_cache
from typing import Literal

from tidestead.core.units.dimensions import System, Unit
from tidestead.core.units.figures import Shown, figure, fixed, same
from tidestead.core.units.lengths import INCH, length
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.sizes import size

DIGITS, FINE_DIGITS = 3, 5
"""Significant digits shown; `fine` is for working."""

STYLES = ("", "lumber", "sheet", "film", "bow", "level", "head", "hose", "bubble", "fine", "air", "day")
"""How lengths are shown, by what is measured; `head` of water, in feet without inches; `hose` in whole feet;
`bubble` in millimetres everywhere, as the trade has it; `fine` for working; `air` for flows and pressures of air;
`day` for flows that are told by the day."""

LADDERS = {
    "m2": ("area", "mm2, m2 0.01", "in2, ft2 1"),
    "m3": ("volume", "cm3, L 1, m3 1", "in3, US gal 0.25"),
    "kg": ("mass", "mg, g 1, kg 1", "oz, lb 1"),
    "degC": ("temperature", "degC", "degF"),
    "K": ("temperature_difference", "K", "degF"),
    "Pa": ("pressure", "Pa, kPa 1, MPa 1, GPa 1", "psf, psi 10, ksi 100"),
    "N/m2": ("pressure", "Pa, kPa 1, MPa 1, GPa 1", "psf, psi 10, ksi 100"),
    "Pa air": ("pressure", "Pa, kPa 1", "psi"),
    "N": ("force", "N, kN 1", "lbf"),
    "N/m": ("line_load", "N/m, kN/m 1, MN/m 1", "lbf/ft, lb/ft 0.1, kip/ft 100"),
    "N m": ("moment", "N m, kN m 1", "lb in, lb ft 10"),
    "N m/m": ("moment_per_length", "N m/m, kN m/m 1", "lb in/ft, lb ft/ft 100"),
    "N m2": ("bending_stiffness", "N m2, kN m2 1", "lb in2"),
    "N m2/m": ("bending_stiffness_per_length", "N m2/m, kN m2/m 1", "lb in2/ft"),
    "N m/rad": ("rotational_spring", "N m/rad, kN m/rad 1", "lb in/rad"),
    "N/m3": ("subgrade", "N/m3, kN/m3 1, MN/m3 1", "lb/ft3, lb/in3 10"),
    "m4": ("second_moment", "mm4, cm4 1", "in4"),
    "m4/m": ("second_moment_per_length", "mm4/m, cm4/m 1", "in4/ft"),
    "m3/m": ("section_modulus_per_length", "mm3/m, cm3/m 1", "in3/ft"),
    "m2/m": ("area_per_length", "mm2/m, cm2/m 1, m2/m 0.1", "in2/ft"),
    "kg/m3": ("density", "kg/m3", "lb/ft3"),
    "1/K": ("thermal_expansion", "1/K", "1/degF"),
    "rad": ("angle", "°", "°"),
    "s": ("time", "s, min 1, h 1, days 2, years 2", "s, min 1, h 1, days 2, years 2"),
    "m3/s": ("flow", "L/h, m3/h 1", "US gal/h"),
    "m3/s day": ("flow", "L/day", "US gal/day"),
    "m3/s air": ("air_flow", "L/min, m3/h 60", "cfm"),
    "m/s": ("velocity", "mm/day, mm/s 0.01, m/s 0.1", "in/day, in/s 0.001, ft/s 0.5"),
    "m/s2": ("acceleration", "m/s2", "ft/s2"),
    "kg/s": ("mass_rate", "g/day, kg/day 1, kg/s 0.1", "oz/day, lb/day 1"),
    "W": ("power", "W, kW 1", "W, kW 1"),
    "J": ("energy", "J, Wh 1, kWh 1", "J, Wh 1, kWh 1"),
    "A": ("current", "mA, A 1", "mA, A 1"),
    "ohm/m": ("resistance_per_length", "ohm/km", "ohm/km"),
    "A/W": ("leakage_per_power", "mA/kW", "mA/kW"),
    "m3/J": ("fuel_use", "L/kWh", "US gal/kWh"),
    "J/m2": ("irradiation", "J/m2, kWh/m2 0.1", "J/m2, kWh/m2 0.1"),
}
"""For an SI unit: the dimension that holds the sizes; per system the units, each with the least it shows."""

_SHIFTED = ("degC", "degF")
"""Scales whose zero is their own: a temperature is never rounded to two digits."""

_BY_STYLE = ("air", "day")

ONLY_SHOWN = {
    "Pa s": Unit("lb/(ft s)", size("lb/(ft s)")),
    "W/K": Unit("Btu/(h degF)", size("Btu/(h degF)")),
    "J/K": Unit("Btu/degF", size("Btu/degF")),
    "J/(m3 K)": Unit("Btu/(ft3 degF)", size("Btu/(ft3 degF)")),
    "m^0.5/s": Unit("ft^0.5/s", Fraction("0.55208694967369047")),
    "m3/h": Unit("US gal/h", size("US gal")),
}
"""What US readers see of units that nobody types: the root of 0.3048 is for coefficients of weirs, the last for water
that is freed of something in an hour.
"""

LARGEST_TIME = 200
"""Of one unit: times that share it stay below this, else each has its own."""

WORDLESS = {"1": "", "count": "", "°": "°"}
"""Units whose figure stands without a word after it, or close to its sign."""


_SHOWN_KEPT = 8_192
"""Figures kept as they are shown: a page shows most of them again after an edit."""

SMALLEST_BESIDE = Fraction(1, 1000)
"""Of values that share a unit the smallest shows at least this much of it, where a smaller unit would do."""


def show(value: float, unit_si: str, system: System, style: str = "", beside: Iterable[float] = ()) -> str:
    """A value in `unit_si` as the user reads it: a sensible unit, three digits, never finer than it is worth.

    Lengths follow `style`: lumber, sheet, film, bow, level, fine. A unit not known here stands as it is. With the
    values that it is read `beside`, such as its limit, it shares one unit.
    """
    return _shown(float(value), unit_si, system, style, tuple(map(float, beside))).text


def echo(value: float, unit_si: str, style: str = "") -> str:
    """A value in both systems, "38.1 mm = 1 1/2 in"; a sign for "about" where either figure is rounded."""
    metric, us = _shown(value, unit_si, "metric", style), _shown(value, unit_si, "us", style)
    if metric.text == us.text or (unit_si != "m" and _ladder(unit_si, "metric") == _ladder(unit_si, "us")):
        return metric.text
    return f"{metric.text} {'=' if metric.exact and us.exact else '≈'} {us.text}"


@lru_cache(maxsize=_SHOWN_KEPT)
def _shown(value: float, unit_si: str, system: System, style: str, beside: tuple[float, ...] = ()) -> Shown:
    if style not in STYLES:
        raise ValueError(f'no style "{style}"; there are {", ".join(STYLES[1:])}')
    if not math.isfinite(value):
        return Shown(
            "not a number" if math.isnan(value) else "no limit" if value > 0 else "no lower limit", True
        )
    exact = Fraction(float(value))
    family = [exact, *(Fraction(float(other)) for other in beside if math.isfinite(other))]
    if unit_si == "m":
        return length(exact, system, style, family)
    unit = _time_rung(exact, family, system) if unit_si == "s" else _rung(family, unit_si, system, style)
    number = unit.from_si(exact)
    digits = FINE_DIGITS if style == "fine" else DIGITS
    shown = fixed(number, digits - 2, system) if unit_si == "degC" else figure(number, system, digits)
    word = label(unit.symbol)
    return Shown(shown.text + (word if unit.symbol in WORDLESS else f" {word}"), shown.exact)


def advised(
    value: float, unit_si: str, system: System, way: Literal["near", "up", "down"] = "near", style: str = ""
) -> str:
    """A size that is advice, rounded as its reader would buy or set it: two digits of the reader's own unit, lengths
    of ten inches and more in whole inches, below in quarters; `way` up where it must be enough, down where it must not
    be too much.
    """
    if not math.isfinite(value):
        return show(value, unit_si, system, style)
    exact = Fraction(float(value))
    if unit_si == "m" and system == "us":
        step = INCH if abs(exact) >= 10 * INCH else INCH / 4
        return show(float(_whole(exact / step, way) * step), unit_si, system, style)
    unit = _time_rung(exact, [exact], system) if unit_si == "s" else _rung([exact], unit_si, system, style)
    number = unit.from_si(exact)
    if number == 0:
        return show(value, unit_si, system, style)
    step = Fraction(10) ** (math.floor(math.log10(abs(float(number)))) - 1)
    rounded = _whole(number / step, way) * step
    return show(float(rounded * unit.factor) if unit_si not in _SHIFTED else value, unit_si, system, style)


def _whole(steps: Fraction, way: str) -> int:
    """So many steps as a whole number; a float's last bits do not count as a step more."""
    near = round(steps)
    if way == "near" or same(Fraction(near), steps):
        return near
    return math.ceil(steps) if way == "up" else math.floor(steps)


def shared_unit(values: Iterable[float], unit_si: str, system: System, style: str = "") -> Unit:
    """The unit in which values that are read side by side are shown; lengths apart, which may be feet and inches."""
    return _rung([Fraction(float(value)) for value in values], unit_si, system, style)


def _rung(family: list[Fraction], unit_si: str, system: System, style: str) -> Unit:
    """The largest unit that the largest of the values fills, and of which the smallest is not too small a part."""
    (_, chosen), *larger = _ladder(f"{unit_si} {style}" if style in _BY_STYLE else unit_si, system)
    sizes = [abs(value) for value in family]
    largest, smallest = max(sizes), min((size for size in sizes if size), default=Fraction(0))
    for least, unit in larger:
        small = len(family) > 1 and smallest < SMALLEST_BESIDE * unit.factor
        if largest >= least * Fraction(9995, 10000) and not small:
            chosen = unit
    return chosen


def _time_rung(value: Fraction, family: list[Fraction], system: System) -> Unit:
    """The unit that the smallest fills, so that none is less than one of it; each its own where they lie far apart."""
    sizes = [abs(one) for one in family if one] or [Fraction(0)]
    shared = _filled(min(sizes), system)
    return shared if max(sizes) <= LARGEST_TIME * shared.factor else _filled(abs(value), system)


def _filled(time: Fraction, system: System) -> Unit:
    """The largest unit of time that a time fills."""
    return _rung([time], "s", system, "")


@cache
def _ladder(unit_si: str, system: System) -> tuple[tuple[Fraction, Unit], ...]:
    if unit_si not in LADDERS:
        return ((Fraction(0), _single_unit(unit_si, system)),)
    name, metric, us = LADDERS[unit_si]
    table = DIMENSIONS[name].units
    rungs = []
    for words in (metric if system == "metric" else us).split(", "):
        symbol, _, least = (
            words.rpartition(" ") if words[-1].isdigit() and words not in table else (words, "", "0")
        )
        rungs.append((Fraction(least) * table[symbol].factor, table[symbol]))
    return tuple(rungs)


def _single_unit(unit_si: str, system: System) -> Unit:
    """The unit each system's readers would rather see; a unit not known here stands for itself."""
    if system == "us" and unit_si in ONLY_SHOWN:
        return ONLY_SHOWN[unit_si]
    taker = next((dimension for dimension in DIMENSIONS.values() if dimension.si == unit_si), None)
    if taker is not None:
        return taker.common(system)[0]
    return Unit(unit_si, Fraction(1))


def label(symbol: str) -> str:
    """A unit's symbol as it is printed: raised powers, degree signs, lb-ft with its hyphen."""
    if symbol in WORDLESS:
        return WORDLESS[symbol]
    if symbol.startswith("1/"):
        return f"per {label(symbol[2:])}"
    raised = re.sub(r"(?<=[A-Za-z])[234](?![A-Za-z0-9])", lambda found: "²³⁴"[int(found.group()) - 2], symbol)
    named = re.sub(r"\bdeg([CF])\b", r"°\1", raised)
    return re.sub(r"\blb (in|ft)", r"lb-\1", re.sub(r"\bu(m|mol|g)\b", r"µ\1", named))
