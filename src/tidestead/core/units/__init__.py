"""Quantities as people type and read them: strict whitelist in, sensible sizes out, SI between.

Text becomes SI once on load and text again once on show. No operators, no guessing, every unit from a table.
"""

from tidestead.core.units.axes import Scale, scale, side_by_side
from tidestead.core.units.bands import parse_band, parse_three
from tidestead.core.units.dimensions import Dimension, Gallon, System
from tidestead.core.units.numerals import NO_NUMBER
from tidestead.core.units.plain import from_si_unit, to_si
from tidestead.core.units.prices import Price, parse_price, parse_three_prices, price_in_cents
from tidestead.core.units.reading import parse
from tidestead.core.units.refusals import bare_as, bare_in, likely_units
from tidestead.core.units.registry import DIMENSIONS
from tidestead.core.units.salinity import parse_salinity
from tidestead.core.units.salt_readings import SalinityReading
from tidestead.core.units.sections import Section, parse_section
from tidestead.core.units.showing import advised, echo, show
from tidestead.core.units.writing import write

__all__ = [
    "DIMENSIONS",
    "NO_NUMBER",
    "Dimension",
    "Gallon",
    "Price",
    "SalinityReading",
    "Scale",
    "Section",
    "System",
    "advised",
    "bare_as",
    "bare_in",
    "echo",
    "from_si_unit",
    "likely_units",
    "parse",
    "parse_band",
    "parse_price",
    "parse_salinity",
    "parse_section",
    "parse_three",
    "parse_three_prices",
    "price_in_cents",
    "scale",
    "show",
    "side_by_side",
    "to_si",
    "write",
]
