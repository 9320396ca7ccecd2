"""Why a quantity was refused, and what to write instead."""

from __future__ import annotations

from fractions import Fraction

from tidestead.core.units.dimensions import Dimension, Gallon
from tidestead.core.units.numerals import Numeral
from tidestead.core.units.registry import symbols, takers
from tidestead.core.units.showing import show
from tidestead.core.units.symbols import canonical

AMBIGUOUS = {
    "ton": 'could be 1000 kg, 2000 lb or 2240 lb. Write "1000 kg", "1 tonne" or "2000 lb".',
    "hp": 'could be mechanical, metric or electric horsepower. Write watts: "746 W".',
    "therm": 'differs between countries. Write "US therm" or kWh.',
    "cal": 'has several sizes. Write joules: "4.184 kJ".',
    "kcal": 'has several sizes. Write joules: "4.184 kJ".',
    "month": 'has 28 to 31 days. Write "30 days" or "4 weeks".',
    "scfm": 'depends on the temperature and pressure meant. Write "cfm" as it flows.',
}
"""Units of several sizes: the sizes, and what to write. Sizes differ by more than a check's margin or might."""


def bare(number: Numeral, dimension: Dimension) -> str:
    """Two ways of writing a number that came without a unit."""
    meant = next((symbol for most, symbol in dimension.guess if number.value < most), "")
    if meant and dimension.si in ("m", "degC"):
        unit = dimension.units[meant]
        value = float(unit.to_si(number.value)) if abs(number.value) < Fraction(10) ** 12 else 0.0
        other = show(value, dimension.si, "metric" if unit.usage == "us" else "us").replace("°", "deg")
        return f'Write "{number.letters} {meant}" or "{other}".'
    metric, us = dimension.common("metric"), dimension.common("us")
    choices = dict.fromkeys(unit.symbol for unit in (*metric[:1], *us[:1]))
    return "Write " + " or ".join(f'"{number.letters} {symbol}"' for symbol in choices) + "."


def not_a_unit(first: Numeral, number: Numeral, dimension: Dimension, gallon: Gallon) -> tuple[str, str]:
    """What is wrong with the letters after a number, and what to write."""
    written = first.rest.strip()
    symbol = canonical(written, gallon)
    words = dimension.words
    others = takers(symbol)
    if others:
        article = "an" if others[0].words[0] in "aeiou" else "a"
        return f"is {article} {others[0].words}; {words} is wanted here.", f"Write {dimension.example}."
    if gallon is None and canonical(written, "us") in dimension.units:
        us, imperial = canonical(written, "us"), canonical(written, "imperial")
        return (
            "could be US or imperial gallons.",
            f'Write "{first.letters} {us}" or "{first.letters} {imperial}", or gallons = "us" once in the plan.',
        )
    for word, why in AMBIGUOUS.items():
        if word in symbol.replace("/", " ").split():
            return f'holds "{word}", which {why.partition(". ")[0]}.', why.partition(". ")[2]
    if symbol == "oz":
        return (
            'has "oz", which is a weight.',
            f'Write "{first.letters} US fl oz" or "{first.letters} imp fl oz".',
        )
    return f'has "{number.rest.strip()[:20]}", which is no unit of {words} known here.', _nearest(
        symbol, dimension
    )


def _nearest(symbol: str, dimension: Dimension) -> str:
    """The known unit that looks most like what was written, or an example."""
    from difflib import get_close_matches  # noqa: PLC0415  # slow to import and wanted on faults only

    own = get_close_matches(symbol, dimension.units, n=1, cutoff=0.5)
    any_near = own or get_close_matches(symbol, symbols(), n=1, cutoff=0.8)
    if own:
        return f'Did you mean "{own[0]}"? Write {dimension.example}.'
    if any_near:
        taker = takers(any_near[0])[0].words
        return f'"{any_near[0]}" would be {taker}; write {dimension.example}.'
    return f"Write {dimension.example}."
