"""Why a quantity was refused, and what to write instead."""

from __future__ import annotations

from fractions import Fraction

from tidestead.core.units.dimensions import Dimension, Gallon, System
from tidestead.core.units.figures import NO_BREAK_SPACE
from tidestead.core.units.numerals import Numeral, numeral
from tidestead.core.units.registry import symbols, takers
from tidestead.core.units.showing import show
from tidestead.core.units.symbols import ANY_CASE, canonical

AMBIGUOUS = {
    "ton": ("could be 1000 kg, 2000 lb or 2240 lb", 'Write "1000 kg", "1 tonne" or "2000 lb".'),
    "hp": ("could be mechanical, metric or electric horsepower", 'Write watts: "746 W".'),
    "therm": ("differs between countries", 'Write "US therm" or kWh.'),
    "cal": ("has several sizes", 'Write joules: "4.184 kJ".'),
    "kcal": ("has several sizes", 'Write joules: "4.184 kJ".'),
    "month": ("has 28 to 31 days", 'Write "30 days" or "4 weeks".'),
    "scfm": ("depends on a temperature and pressure not told", 'Write "cfm" as it flows.'),
}
"""Units of more than one size: what they could be, and what to write."""

HINTS = {
    ("oz", "volume"): ("is a weight", 'Write "fl oz" with US or imp before it.'),
    ("mil", "length"): ("is taken for the thickness of films only", 'Write "0.006 in" or "0.15 mm".'),
    ("kg", "force"): ("is a mass", 'Write "1 kN" or "100 kgf".'),
    ("psu", "salinity"): ("is practical salinity, not grams per kilogram", 'Write "35 g/kg".'),
}
"""Units that belong to something close to what is wanted: what is wrong, and what to write."""

SURE, LIKELY = 0.8, 0.5
"""How alike two spellings are, 0 to 1, to be offered from anywhere, or from among the field's own units."""


def bare(number: Numeral, dimension: Dimension, negative: bool = False) -> str:
    """Two ways of writing a number that came without a unit."""
    sign = "-" if negative else ""
    meant = next((symbol for most, symbol in dimension.guess if number.value < most), "")
    metric, us = (dimension.common(system)[0].symbol for system in ("metric", "us"))
    if meant and dimension.name in ("length", "temperature"):
        si = dimension.units[meant].to_si(min(number.value, Fraction(10) ** 9))
        other = show(float(si), dimension.si, "metric" if meant in dimension.us else "us")
        other = other.replace("°", "deg").replace(NO_BREAK_SPACE, " ")
        return f'Write "{sign}{number.letters} {meant}" or "{sign}{other}".'
    choices = dict.fromkeys((meant or metric, us))
    return "Write " + " or ".join(f'"{sign}{number.letters} {symbol}"' for symbol in choices) + "."


METRES_BELOW, CENTIMETRES_BELOW, FEET_BELOW = 20, 300, 100
"""A bare number for a part's size below these may be meant in metres, centimetres, feet."""


def bare_as(letters: str, examples: tuple[str, ...]) -> str:
    """What to write for a bare number where a place has examples of its own: the number in their units."""
    units = dict.fromkeys(numeral(example.removeprefix("-"), example).rest.strip() for example in examples)
    return "Write " + " or ".join(f'"{letters} {unit}"' for unit in units) + "."


def bare_in(letters: str, dimension: Dimension, system: System | None, *, thin: bool) -> str:
    """What to write for a bare number in a plan of one system, if it says which: its own units, then the other's.

    `thin`: for a thickness, gap or other small size.
    """
    number = numeral(letters.removeprefix("-"), letters)
    if dimension.name == "temperature" or (system is None and not (thin and dimension.name == "length")):
        return bare(number, dimension, letters.startswith("-"))
    symbols = likely_units(letters, dimension, system, thin=thin)
    return "Write " + " or ".join(f'"{letters} {symbol}"' for symbol in symbols) + "."


def likely_units(letters: str, dimension: Dimension, system: System | None, *, thin: bool) -> list[str]:
    """Units in which a bare number may be meant: those of the plan's system first, then the other's likeliest."""
    own: System = system or "metric"
    other: System = "us" if own == "metric" else "metric"
    if dimension.name != "length":
        return list(dict.fromkeys(dimension.common(way)[0].symbol for way in (own, other)))
    number = numeral(letters.removeprefix("-"), letters)
    mine, theirs = (_likely_lengths(number, way, thin) for way in (own, other))
    return list(dict.fromkeys((*mine, theirs[0 if mine[0] == "m" else -1])))


def _likely_lengths(number: Numeral, system: System, thin: bool) -> list[str]:
    if "/" in number.letters:
        return ["in"]
    if system == "us":
        return ["in"] if thin or number.value >= FEET_BELOW else ["ft", "in"]
    if number.value < 1 or (not thin and number.value < METRES_BELOW):
        return ["m"]
    return ["mm"] if thin or number.value >= CENTIMETRES_BELOW else ["cm", "mm"]


def not_a_unit(first: Numeral, number: Numeral, dimension: Dimension, gallon: Gallon) -> tuple[str, str]:
    """What is wrong with the letters after a number, and what to write."""
    written = first.rest.strip()
    symbol = canonical(written, gallon)
    hint = HINTS.get((symbol, dimension.name)) or next(
        (hint for word, hint in AMBIGUOUS.items() if word in symbol.replace("/", " ").split()), None
    )
    if hint:
        return f'holds "{written}", which {hint[0]}.', hint[1]
    others = takers(symbol)
    if others:
        return f"is {others[0].a}; {dimension.a} is wanted here.", f"Write {dimension.example}."
    if not number.rest.strip():
        return f'has no unit after "{number.letters}".', f"Write {dimension.example}."
    us, imperial = canonical(written, "us"), canonical(written, "imperial")
    if us != symbol and takers(us):
        return _which_gallon(first.letters, us, imperial, dimension)
    return f'has "{number.rest.strip()[:20]}", which is no unit of {dimension.words}.', _nearest(
        symbol, dimension
    )


def _which_gallon(letters: str, us: str, imperial: str, dimension: Dimension) -> tuple[str, str]:
    if us not in dimension.units:
        return f"is {takers(us)[0].a}; {dimension.a} is wanted here.", f"Write {dimension.example}."
    measure = "gallons" if "gal" in us else "measures"
    return (
        f"could be US or imperial {measure}.",
        f'Write "{letters} {us}" or "{letters} {imperial}", or gallons = "us" once in the plan.',
    )


def _nearest(symbol: str, dimension: Dimension) -> str:
    """The known units that look most like what was written, or an example."""
    from difflib import get_close_matches  # noqa: PLC0415  # wanted on faults only

    spelled = {word: atom for word, atom in ANY_CASE.items() if atom in dimension.symbols}
    own = {**spelled, **{known: known for known in dimension.symbols}}
    cased = [known for known in symbols() if known.lower() == symbol.lower()]
    near = (
        cased
        or get_close_matches(symbol, own, n=2, cutoff=LIKELY)
        or get_close_matches(symbol, symbols(), 1, SURE)
    )
    known = list(dict.fromkeys(own.get(word, word) for word in near))
    if not known:
        return f"Write {dimension.example}."
    if known[0] not in dimension.symbols:
        return f'"{known[0]}" would be {takers(known[0])[0].a}. Write {dimension.example}.'
    meant = " or ".join(f'"{word}"' for word in known)
    return f"Did you mean {meant}? Write {dimension.example}."
